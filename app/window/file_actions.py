"""Opening, saving and writing files: what the officer asks for, and what becomes of it."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from PySide6.QtWidgets import QWidget

from app.state.document import Document
from app.state.notices import NoticeKind
from app.state.put_files import OF_THE_LINE, with_file
from app.state.settings import Settings
from app.window.anchor_dialog import AnchorDialog
from app.window.ask import Ask, Unsaved
from app.window.conditions_dialog import ConditionsDialog
from app.window.intake import Intake
from app.window.look_only import look_only
from app.window.route_actions import RouteActions
from app.window.safe_actions import SafeActions
from app.work.core_jobs import CoreJobs
from app.work.keeping import Keeping
from app.work.plan_job import PlanJob
from app.work.runner import Runner
from core.base.errors import LegsheetError
from core.base.language import tr
from core.files.project import is_project, read_project, write_project
from core.files.writing import write_atomic
from core.jobs.reverse_project import left_out_words, turned_words


class FileActions:
    """Handlers of everything that reads or writes files."""

    def __init__(
        self,
        window: QWidget,
        document: Document,
        job: PlanJob,
        jobs: CoreJobs,
        settings: Settings,
        keeping: Keeping,
    ) -> None:
        self._window = window
        self._document = document
        self._job = job
        self._jobs = jobs
        self.ask = Ask(window, settings)
        self._reader = Runner("legsheet-files", window)
        self.routes = RouteActions(
            window,
            document,
            jobs,
            self.ask,
            lambda path: self.safe.opened(path),
            self.may_drop_edits,
        )
        self.intake = Intake(
            window, document, job, jobs, settings, self.ask, self.open_asked, self.routes
        )
        self.safe = SafeActions(
            window,
            document,
            jobs,
            settings,
            keeping,
            self.ask,
            self.open_asked,
            self.may_drop_edits,
        )

    def handlers(self) -> dict[str, Callable[[], None]]:
        """Handlers by the id of their action."""
        return {
            "reverse": self.reverse,
            "open_project": self.open_project,
            "open_demo": self.open_demo,
            "save": lambda: self._ignore(self.save()),
            "save_as": lambda: self._ignore(self.save_as()),
            "export_pdf": lambda: self._export("pdf", tr("Sheets as PDF")),
            "export_json": lambda: self._export("json", tr("Plan as JSON")),
            "export_geojson": lambda: self._export("geojson", tr("Coverage as GeoJSON")),
            "export_csv": lambda: self._export("csv", tr("Tables as CSV")),
            "export_route": self.export_route,
            **self.routes.handlers(),
            **self.intake.handlers(),
            **self.safe.handlers(),
            "open_ship": lambda: self._take("ship", tr("Ship file")),
            "open_marks": lambda: self._take("marks", tr("Marks")),
            "open_limits": lambda: self._take("limits", tr("Danger limits")),
            "open_streams": lambda: self._take("streams", tr("Streams by leg")),
            "open_contingencies": lambda: self._take("contingencies", tr("Contingency legs")),
            "open_classes": lambda: self._take("classes", tr("Kinds of ground")),
            "conditions": self.conditions,
            "anchorage": self.anchorage,
        }

    @staticmethod
    def _ignore(_saved: bool) -> None:
        return

    # Opening

    def begin(self, path: Path | None) -> None:
        """Start with what was lost, if the officer wants it, else with a file or the demo."""
        if self.safe.recover_at_start():
            return
        if path is None:
            self.open_demo()
        else:
            self.open_path(path)

    def open_path(self, path: Path) -> None:
        """Open a project or a route, as named on the command line."""
        self._open(path, may_open=lambda: True)

    def open_asked(self, path: Path) -> None:
        """Open a project or a route; asks before edits are lost, and only if it can be read."""
        self._open(path, may_open=self.may_drop_edits)

    def _open(self, path: Path, *, may_open: Callable[[], bool]) -> None:
        if not is_project(path):
            self.routes.take(path, is_any_file=True)
            return
        try:
            project = read_project(path)
        except LegsheetError as exc:
            self._trouble(exc)
            return
        # What ages is looked at before it becomes a plan that seems to be of today.
        if may_open() and self.safe.open_project(project, path):
            self._job.compute()

    def open_demo(self) -> None:
        """Open the embedded, invented passage and compute it."""
        if not self.may_drop_edits():
            return
        try:
            project = self._jobs.demo()
        except LegsheetError as exc:
            self._trouble(exc)
            return
        self._document.open_project(project, None, is_demo=True)
        self._job.compute()

    def open_project(self) -> None:
        """Ask for a project and open it."""
        path = self.ask.file(tr("Open project"), "project")
        if path is not None:
            self.open_asked(path)

    def reverse(self) -> None:
        """Turn the passage round and say what does not go with it."""
        document = self._document
        left_out = left_out_words(document.project)
        before = document.project
        document.reverse()
        if document.project is before:
            return
        document.notices.post(NoticeKind.CHECK, turned_words(left_out), about=OF_THE_LINE)

    def close(self) -> None:
        """End all threads; the officer has saved or dropped what there was."""
        self._reader.close()
        self.routes.close()
        self.intake.close()
        self.safe.close()

    def _take(self, name: str, title: str) -> None:
        """Ask for a file and take it once it was read: what cannot be used replaces nothing."""
        document = self._document
        if document.refuses(tr("take {title}", title=title.lower())):
            return
        path = self.ask.file(title, name)
        if path is None:
            return

        def done(_none: None) -> None:
            document.edit(
                tr("take {title}", title=title.lower()), with_file(document.project, name, path)
            )

        self._reader.submit(
            lambda _progress: self._jobs.check_file(name, path), done=done, failed=self._trouble
        )

    def anchorage(self) -> None:
        """Let the officer say that the passage ends at anchor."""
        dialog = AnchorDialog(self._document.project.anchorage, self._window)
        look_only(dialog, self._document)
        if dialog.exec() == AnchorDialog.DialogCode.Accepted:
            project = replace(self._document.project, anchorage=dialog.anchorage)
            self._document.edit(tr("change anchorage"), project)
        dialog.deleteLater()

    def conditions(self) -> None:
        """Let the officer set the conditions."""
        dialog = ConditionsDialog(self._document.project.options, self._window)
        look_only(dialog, self._document)
        if dialog.exec() == ConditionsDialog.DialogCode.Accepted:
            self._document.set_options(dialog.options)
        dialog.deleteLater()

    # Saving

    def may_drop_edits(self) -> bool:
        """Whether edits are saved, or the officer lets them go."""
        if not self._document.is_modified:
            return True
        answer = self.ask.unsaved()
        if answer is Unsaved.SAVE:
            return self.save()
        return answer is Unsaved.DROP

    def save(self) -> bool:
        """Write the project where it was opened, else ask; whether it was written."""
        path = self._document.path
        if path is None or self._document.standing.read_only:
            return self.save_as()
        return self._write(path)

    def save_as(self) -> bool:
        """Ask where to write the project; whether it was written."""
        path = self.ask.target(
            tr("Save project"), "project", tr("{stem}.legsheet", stem=self._stem()), "legsheet"
        )
        return path is not None and self._write(path)

    def _write(self, path: Path) -> bool:
        if not self.safe.may_write(path):
            return False
        try:
            write_project(path, self._document.project_to_keep)
        except LegsheetError as exc:
            self._trouble(exc)
            return False
        self.safe.written(path)
        self._document.saved_as(path)
        self._document.notices.post(NoticeKind.DONE, tr("Project saved in {path}.", path=path))
        return True

    # Writing results

    def _export(self, kind: str, title: str) -> None:
        outcome = self._document.outcome
        if outcome is None:
            return
        path = self.ask.target(title, kind, f"{self._stem()}.{kind}", kind)
        if path is None:
            return
        self._job.run(
            tr("Writing {name}", name=path.name),
            lambda progress: self._jobs.write_export(outcome, kind, path, progress),
            lambda paths: self._written(*paths),
        )

    def save_picture(self, make: Callable[[Callable[[bytes], None]], bool]) -> None:
        """Write the expected picture that is shown; ``make`` hands it over when it is made."""
        path = self.ask.target(
            tr("Expected picture as PNG"), "png", f"{self._stem()}-picture.png", "png"
        )
        if path is not None and not make(lambda data: self._write_picture(path, data)):
            self._document.notices.post(
                NoticeKind.TROUBLE, tr("No picture is shown yet. Show it first (Ctrl+I).")
            )

    def _write_picture(self, path: Path, data: bytes) -> None:
        try:
            write_atomic(path, data)
        except LegsheetError as exc:
            self._trouble(exc)
            return
        self._written(path)

    def export_route(self) -> None:
        """Write the passage as RTZ or GPX, by the ending of the name."""
        passage = self._document.passage
        if passage is None:
            return
        path = self.ask.target(
            tr("Route as RTZ or GPX"), "route_out", tr("{stem}.rtz", stem=self._stem()), "rtz"
        )
        if path is None:
            return
        self._job.run(
            tr("Writing {name}", name=path.name),
            lambda _progress: self._jobs.write_route(passage, path),
            lambda _none: self._written(path),
        )

    def _written(self, path: Path, *others: Path) -> None:
        named = str(path)
        for other in others:
            named = tr("{paths} and {name}", paths=named, name=other.name)
        words = tr("Written: {path}.", path=named)
        if self._document.is_stale:
            words = tr(
                "Written: {path}. It is of the plan before the last changes of the inputs.",
                path=named,
            )
        self._document.notices.post(NoticeKind.DONE, words)

    def _stem(self) -> str:
        document = self._document
        if document.path is not None:
            return document.path.stem
        if document.project.route is not None:
            return document.project.route.stem
        return "passage"

    def _trouble(self, error: LegsheetError) -> None:
        self._document.notices.post(NoticeKind.TROUBLE, str(error))
