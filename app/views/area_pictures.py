"""What the area view blits: the scene, the ground and the cover, made off the GUI thread."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QImage

from app.paint.palette import Palette
from app.state.document import Document
from app.views.area_cover import Scope, render_cover
from app.views.area_image import AreaFrame, render_ground
from app.views.area_inks import ground_inks
from app.views.area_scene import AreaAsk, AreaScene, build_scene
from app.work.runner import JobProgress, Runner
from core.base.errors import LegsheetError
from core.files.project import Project
from core.jobs.edit_project import limits_of, marks_of
from core.plan.plan_result import DangerLimit, Mark

_OVERSIZE = 1.6


@dataclass(frozen=True, slots=True)
class Layer:
    """A picture and the part of the plan it shows."""

    frame: AreaFrame
    image: QImage


_ByHand = tuple[tuple[Mark, ...], tuple[DangerLimit, ...]]


def _drawn_by_hand(project: Project) -> _ByHand:
    """Marks and limits; what cannot be read is told when the plan is computed."""
    try:
        marks = marks_of(project)
        return marks, limits_of(project)
    except LegsheetError:
        return (), ()


def _by_hand_key(project: Project) -> tuple[object, ...]:
    return (
        *(project.marks, project.marks_text, project.limits, project.limits_text),
        *(project.leg_sources, project.is_reversed),
    )


class AreaPictures(QObject):
    """Makes scene, ground and cover anew when asked; keeps the last of each."""

    changed = Signal()
    scene_changed = Signal(bool)
    """With whether it is of other waters than the last."""

    def __init__(self, document: Document, palette: Palette, parent: QObject) -> None:
        super().__init__(parent)
        self._document = document
        self._colours = palette
        self.scene: AreaScene | None = None
        self.ground: Layer | None = None
        self.cover: Layer | None = None
        self.scope = Scope.OWN_SHIP
        self._by_hand: tuple[object, _ByHand] | None = None
        self._runners = [
            Runner(f"legsheet-area-{name}", self) for name in ("scene", "ground", "cover")
        ]

    @property
    def is_covering(self) -> bool:
        """Whether coast and hidden water are being drawn."""
        return self._runners[2].is_busy

    def close(self) -> None:
        """Stop what is made in the background."""
        for runner in self._runners:
            runner.close()

    def set_colours(self, palette: Palette) -> None:
        """Nothing in the old colours is shown again."""
        self._colours = palette
        self.ground = self.cover = None

    def rebuild_by_hand(self) -> None:
        """Lay out anew where marks or limits were edited; for the rest others call."""
        project = self._document.project
        if self._by_hand is not None and self._by_hand[0] != _by_hand_key(project):
            self.rebuild()

    def rebuild(self) -> None:
        """Lay out the passage as the document has it now."""
        document = self._document
        passage = document.passage
        if passage is None:
            self.scene = self.ground = self.cover = None
            self.changed.emit()
            return
        last, project = self.scene, document.project
        ask = AreaAsk(
            passage=passage,
            outcome=document.outcome,
            before_edit=document.outcome_before_edit,
            kept_legs=document.kept_legs,
            first=document.first_legs.last,
            covered=document.first_legs.numbers,
        )

        def work(_progress: JobProgress) -> AreaScene:
            marks, limits = self._marks_and_limits(project)
            return build_scene(replace(ask, marks=marks, limits=limits), last)

        def done(scene: AreaScene) -> None:
            is_other = last is None or last.projection != scene.projection
            if is_other or last is None or last.land is not scene.land:
                self.ground = None
            if not _is_covered_alike(last, scene, document.leg_index):
                self.cover = None
            self.scene = scene
            self.scene_changed.emit(is_other)
            self.changed.emit()

        self._runners[0].submit(work, done=done, failed=_failed)

    def _marks_and_limits(self, project: Project) -> _ByHand:
        """Read once: an edit of the line must not wait for files."""
        key = _by_hand_key(project)
        if self._by_hand is None or self._by_hand[0] != key:
            self._by_hand = (key, _drawn_by_hand(project))
        return self._by_hand[1]

    def request_ground(self, seen: AreaFrame, ratio: float) -> None:
        """Draw land and coast of a part of the plan, and beyond, so that panning only blits."""
        scene = self.scene
        if scene is None:
            return
        wide, inks = _wide(seen, ratio), ground_inks(self._colours)

        def work(progress: JobProgress) -> Layer:
            return Layer(wide, render_ground(scene, wide, inks, _check(progress)))

        def done(made: Layer) -> None:
            if self.scene is not None and self.scene.land is scene.land:
                self.ground = made
                self.changed.emit()

        self._runners[1].submit(work, done=done, failed=_failed)

    def request_cover(self, seen: AreaFrame, ratio: float) -> None:
        """Draw coast and hidden water for the leg and place chosen."""
        scene, document, scope = self.scene, self._document, self.scope
        if scene is None or scene.source is None:
            self.cover = None
            return
        leg_index, along_m = document.leg_index, document.cursor_along_m
        wide, colours = _wide(seen, ratio), self._colours

        def work(progress: JobProgress) -> Layer | None:
            image = render_cover(scene, wide, scope, leg_index, along_m, colours, _check(progress))
            return None if image is None else Layer(wide, image)

        def done(made: Layer | None) -> None:
            if self.scene is scene and document.leg_index == leg_index:
                self.cover = made
                self.changed.emit()

        self._runners[2].follow(work, done=done, failed=_failed)


def _is_covered_alike(one: AreaScene | None, other: AreaScene, leg_index: int) -> bool:
    """Whether two scenes have the same coverage of a leg: its cover need not go to come again."""
    if one is None or one.projection != other.projection:
        return False
    before = one.coverage_of(leg_index)
    return before is not None and before is other.coverage_of(leg_index)


def _wide(seen: AreaFrame, ratio: float) -> AreaFrame:
    return replace(
        seen,
        m_per_px=seen.m_per_px / ratio,
        width=round(seen.width * _OVERSIZE * ratio),
        height=round(seen.height * _OVERSIZE * ratio),
    )


def _check(progress: JobProgress) -> Callable[[], None]:
    return lambda: progress.report(0.0)


def _failed(error: LegsheetError) -> None:
    raise error
