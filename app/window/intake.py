"""What comes in from outside: land data, looked at and remembered, and files dropped at once."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from PySide6.QtWidgets import QWidget

from app.state.document import Document
from app.state.notices import NoticeKind
from app.state.put_files import OF_LAND, with_file, with_route
from app.state.settings import Settings
from app.state.shelf_store import ShelfStore
from app.window.ask import Ask
from app.window.land_cover import LandCover, radius_m
from app.window.land_dialog import LandDialog
from app.window.land_places_dialog import LandPlacesDialog
from app.window.route_actions import RouteActions
from app.window.route_question import Where
from app.work.core_jobs import CoreJobs
from app.work.land_looks import LandLook, look_at_each
from app.work.plan_job import PlanJob
from app.work.runner import JobProgress
from core.base.errors import InputError, LegsheetError
from core.base.language import tr, tr_n
from core.files.land_shelf import Shelf
from core.files.project import Project
from core.passage.passage import Passage
from core.words.land_fit_words import fit_words

_SHELF_FILE = "land_shelf.json"
_MOST_TOLD = 3


class Intake:
    """Handlers of land data and of dropped files."""

    def __init__(
        self,
        window: QWidget,
        document: Document,
        job: PlanJob,
        jobs: CoreJobs,
        settings: Settings,
        ask: Ask,
        open_path: Callable[[Path], None],
        routes: RouteActions,
    ) -> None:
        self._window = window
        self._document = document
        self._job = job
        self._jobs = jobs
        self._ask = ask
        self._open_path = open_path
        self._routes = routes
        self.store = ShelfStore(settings.folder / _SHELF_FILE)
        self._cover = LandCover(document, jobs, self.store, window)

    def handlers(self) -> dict[str, Callable[[], None]]:
        """Handlers by the id of their action."""
        return {
            "add_land": self.add_land,
            "add_land_folder": self.add_land_folder,
            "land_shelf": self.choose_land,
            "land_places": self.land_places,
            "clear_land": self.clear_land,
        }

    def close(self) -> None:
        """End the thread that looks whether land covers the passage."""
        self._cover.close()

    # Land

    def add_land(self) -> None:
        """Add land files."""
        if self._document.refuses(tr("add land")):
            return
        self.take_land(self._ask.files(tr("Add land files"), "land"))

    def add_land_folder(self) -> None:
        """Add a folder of land data."""
        if self._document.refuses(tr("add land")):
            return
        folder = self._ask.folder(tr("Add land folder"))
        self.take_land([folder] if folder is not None else [])

    def clear_land(self) -> None:
        """Take all land out."""
        self._document.edit(tr("remove land"), replace(self._document.project, land=()))

    def take_land(self, paths: list[Path]) -> None:
        """Look at land, add what there is, and say what it covers; what holds none stays out."""
        document, jobs, shelf = self._document, self._jobs, self.store.shelf
        before = document.project.land
        new = tuple(dict.fromkeys(path for path in paths if path not in before))
        if not new:
            return
        passage, reach_m = document.passage, radius_m(document)

        def work(progress: JobProgress) -> tuple[LandLook, str, NoticeKind]:
            look = look_at_each(jobs, shelf, new, progress)
            land = (*before, *look.good)
            return look, *self._report(look.shelf, land, look.good, passage, reach_m)

        def done(found: tuple[LandLook, str, NoticeKind]) -> None:
            look, words, kind = found
            self.store.put(look.shelf)
            land = document.project.land
            good = tuple(path for path in look.good if path not in land)
            document.edit(tr("add land"), replace(document.project, land=(*land, *good)))
            if look.good:
                document.notices.post(kind, words, about=OF_LAND)
            if look.troubles:
                document.notices.post(NoticeKind.TROUBLE, " ".join(look.troubles[:_MOST_TOLD]))

        self._job.run(tr("Looking at land data"), work, done)

    def land_places(self) -> None:
        """List the land in use, to be taken out one by one."""
        document = self._document
        if document.refuses(tr("take out land")):
            return
        dialog = LandPlacesDialog(document.project.land, self.store.shelf, self._window)
        is_meant = dialog.exec() == LandPlacesDialog.DialogCode.Accepted
        land = dialog.land
        dialog.deleteLater()
        if is_meant:
            document.edit(tr("take out land"), replace(document.project, land=land))

    def choose_land(self) -> None:
        """Let the officer choose among all land looked at before."""
        document = self._document
        if document.refuses(tr("choose land")):
            return
        dialog = LandDialog(
            self.store, self._jobs, document.project.land, document.passage, radius_m(document),
            self._ask, self._window,
        )  # fmt: skip
        accepted = dialog.exec() == LandDialog.DialogCode.Accepted
        chosen = dialog.chosen
        dialog.close_threads()
        dialog.deleteLater()
        if accepted and chosen is not None:
            document.edit(tr("choose land"), replace(document.project, land=chosen))

    def _look(self, paths: tuple[Path, ...]) -> None:
        passage, reach_m = self._document.passage, radius_m(self._document)
        shelf, jobs = self.store.shelf, self._jobs
        land = self._document.project.land

        def work(progress: JobProgress) -> tuple[Shelf, str, NoticeKind]:
            looked = jobs.look_at_land(shelf, paths, progress)
            return looked, *self._report(looked, land, paths, passage, reach_m)

        def done(found: tuple[Shelf, str, NoticeKind]) -> None:
            looked, words, kind = found
            self.store.put(looked)
            self._document.notices.post(kind, words, about=OF_LAND)

        self._job.run(tr("Looking at land data"), work, done)

    def _report(
        self,
        looked: Shelf,
        land: tuple[Path, ...],
        paths: tuple[Path, ...],
        passage: Passage | None,
        reach_m: float,
    ) -> tuple[str, NoticeKind]:
        """What was found, in a notice."""
        new = looked.below(paths)
        bad = [file for file in new.files if file.kind == "unusable"]
        count = len(new.files) - len(bad)
        words = [
            tr_n(
                "{count} land file looked at and remembered.",
                "{count} land files looked at and remembered.",
                count,
            )
        ]
        kind = NoticeKind.DONE
        if passage is not None:
            fit = self._jobs.land_fit(looked.below(land), passage, reach_m)
            words.append(fit_words(fit))
            if not fit.paths or fit.coast_share < 1.0:
                kind = NoticeKind.CHECK
        if bad:
            kind = NoticeKind.CHECK
            words += [file.problem.rstrip(".") + "." for file in bad[:_MOST_TOLD]]
            if len(bad) > _MOST_TOLD:
                words.append(tr("{count} more cannot be used.", count=len(bad) - _MOST_TOLD))
        return " ".join(words), kind

    # Files dropped on the window

    def drop(self, paths: list[Path]) -> None:
        """Take files of any kind at once, as one step that can be undone."""
        try:
            told = self._jobs.tell_files(tuple(paths))
            projects = [path for path, role in told if role == "project"]
            routes = [path for path, role in told if role == "route"]
            if projects and len(told) > 1:
                raise InputError(
                    tr("A project was dropped with other files"), todo=tr("Drop it alone")
                )
            if projects:
                self._open_path(projects[0])
            elif routes and len(told) == 1:
                self._routes.take(routes[0])
            else:
                self._take(told, routes)
        except LegsheetError as exc:
            self._document.notices.post(NoticeKind.TROUBLE, str(exc))

    def _take(self, told: tuple[tuple[Path, str], ...], routes: list[Path]) -> None:
        """Take several files; raises ``InputError`` where the route among them is none."""
        document, anew, is_again = self._document, "", False
        if routes:
            given = Project(route=routes[-1])
            where = self._routes.where(routes[-1], self._jobs.read_route(given))
            begun = self._routes.begin() if where is Where.ANEW else ""
            if begun is None or where is Where.NOWHERE:
                return
            anew, is_again = begun, document.project.route == routes[-1]
        project = document.project
        if routes and not is_again:
            project = with_route(project, route=routes[-1])
        for path, role in told:
            if role not in ("route", "land"):
                project = with_file(project, role, path)
        new = tuple(p for p, role in told if role == "land" and p not in project.land)
        project = replace(project, land=(*project.land, *new))
        document.edit(tr("take dropped files"), project)
        if is_again:
            self._routes.take(routes[-1])
        if anew:
            document.notices.post(NoticeKind.CHECK, anew)
        if new:
            self._look(new)
