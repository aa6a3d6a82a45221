"""Whether land covers the passage: asked with every other route, told where it does not."""

from dataclasses import replace
from pathlib import Path

from PySide6.QtWidgets import QWidget

from app.state.document import Document
from app.state.notices import NoticeKind
from app.state.put_files import OF_LAND
from app.state.shelf_store import ShelfStore
from app.work.core_jobs import CoreJobs
from app.work.land_looks import LandLook, look_at_each
from app.work.runner import JobProgress, Runner
from core.base.errors import LegsheetError
from core.base.language import tr, tr_n
from core.geodesy.position import Bounds, bounds_of
from core.land.land_fit_result import LandFit
from core.passage.passage import Passage
from core.plan.request import Environment
from core.words.land_fit_words import fit_words

_SAME_WATERS_DEG = 0.1
"""A line edited within so much of the waters looked at covers no other land."""
_LITTLE = 0.5
"""Land that covers less than this share, heights and coast alike, is told."""
_MORE = 0.1
"""So much more must other land cover to be worth naming."""

_Found = tuple[LandLook, LandFit, LandFit]


def radius_m(document: Document) -> float:
    """How far round the passage land matters, m."""
    return document.project.options.radius_m or Environment().radius_m


class LandCover:
    """Takes what was looked at before for a route without land, or with land of elsewhere."""

    def __init__(
        self, document: Document, jobs: CoreJobs, store: ShelfStore, window: QWidget
    ) -> None:
        self._document = document
        self._jobs = jobs
        self._store = store
        self._waters: Bounds | None = None
        # Of its own: what is computed goes on meanwhile.
        self._runner = Runner("legsheet-cover", window)
        document.opened.connect(self._forget)
        document.passage_changed.connect(self._look)

    def close(self) -> None:
        """End the thread."""
        self._runner.close()

    def _forget(self) -> None:
        self._waters = None

    def _look(self) -> None:
        document, shelf = self._document, self._store.shelf
        land, passage = document.project.land, document.passage
        if passage is None or document.is_demo or document.standing.read_only:
            return
        if not (land or shelf.files) or self._is_in_waters(passage):
            return
        box = bounds_of(tuple(waypoint.position for waypoint in passage.waypoints))
        waters = box.padded(lat_deg=_SAME_WATERS_DEG, lon_deg=_SAME_WATERS_DEG)
        self._waters = waters
        reach_m = radius_m(document)

        def work(progress: JobProgress) -> _Found:
            look = look_at_each(self._jobs, shelf, land, progress)
            now = self._jobs.land_fit(look.shelf.below(land), passage, reach_m)
            return look, now, self._jobs.land_fit(look.shelf, passage, reach_m)

        self._runner.submit(
            work, done=lambda found: self._take(land, waters, *found), failed=_ignore
        )

    def _is_in_waters(self, passage: Passage) -> bool:
        waters = self._waters
        return waters is not None and all(waters.contains(w.position) for w in passage.waypoints)

    def _take(
        self,
        land: tuple[Path, ...],
        waters: Bounds,
        look: LandLook,
        now: LandFit,
        known: LandFit,
    ) -> None:
        document = self._document
        self._store.put(look.shelf)
        # The passage itself may be another by now, with what is assumed, or with a waypoint moved.
        if self._waters is not waters or document.project.land != land:
            return
        # Land that cannot be looked at may be there again tomorrow: the computation tells of it.
        if look.troubles:
            return
        share, most = _share(now), _share(known)
        if share == 0.0 and known.paths:
            document.edit(
                tr("take land looked at before"), replace(document.project, land=known.paths)
            )
            words = _taken_words(known, is_other=bool(land))
        elif land and share == 0.0:
            words = tr("{covers} Add land of these waters (Ctrl+Shift+L).", covers=fit_words(now))
        elif land and share < _LITTLE:
            words = tr("The land in use covers little of this passage. {fit}", fit=fit_words(now))
            if most > share + _MORE:
                words = tr(
                    "{covers} Land looked at before covers more: tick it there (Ctrl+Shift+K).",
                    covers=words,
                )
        else:
            return
        document.notices.post(NoticeKind.CHECK, words, about=OF_LAND)


def _share(fit: LandFit) -> float:
    return max(fit.heights_share, fit.coast_share)


def _taken_words(fit: LandFit, *, is_other: bool) -> str:
    """That land looked at before was taken, and what it covers."""
    if is_other:
        return tr_n(
            "The land in use covers nothing of this passage: {count} file looked at before is "
            "taken in its place. {what_it_covers} Ctrl+Shift+K shows and changes them.",
            "The land in use covers nothing of this passage: {count} files looked at before are "
            "taken in its place. {what_it_covers} Ctrl+Shift+K shows and changes them.",
            len(fit.paths),
            what_it_covers=fit_words(fit),
        )
    return tr_n(
        "Land looked at before serves this passage: {count} file is taken. "
        "{what_it_covers} Ctrl+Shift+K shows and changes them.",
        "Land looked at before serves this passage: {count} files are taken. "
        "{what_it_covers} Ctrl+Shift+K shows and changes them.",
        len(fit.paths),
        what_it_covers=fit_words(fit),
    )


def _ignore(_error: LegsheetError) -> None:
    return
