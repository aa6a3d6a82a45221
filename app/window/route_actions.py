"""Routes that are opened or typed: read first, then put where they belong."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from PySide6.QtWidgets import QWidget

from app.state.document import Document
from app.state.notices import NoticeKind
from app.state.put_files import has_route, next_passage, next_passage_words, with_route
from app.window.ask import Ask
from app.window.route_dialog import RouteDialog
from app.window.route_question import Where, ask_where
from app.work.core_jobs import CoreJobs
from app.work.runner import Runner
from core.base.errors import InputError, LegsheetError
from core.base.language import tr
from core.files.project import Project
from core.passage.passage import Passage
from core.passage.reverse import reversed_passage


class RouteActions:
    """Handlers of routes.

    A route never slips into a project that is of another one: saved afterwards, it would take
    the place of the old passage's file.
    """

    def __init__(
        self,
        window: QWidget,
        document: Document,
        jobs: CoreJobs,
        ask: Ask,
        opened: Callable[[Path], None],
        may_drop_edits: Callable[[], bool],
    ) -> None:
        self._window = window
        self._document = document
        self._jobs = jobs
        self._ask = ask
        self._opened = opened
        self._may_drop_edits = may_drop_edits
        self._runner = Runner("legsheet-route", window)

    def handlers(self) -> dict[str, Callable[[], None]]:
        """Handlers by the id of their action."""
        return {
            "new_passage": self.new_passage,
            "open_route": self.open_route,
            "type_route": self.type_route,
        }

    def close(self) -> None:
        """End the thread that reads."""
        self._runner.close()

    def new_passage(self) -> None:
        """Leave the passage that is open and begin another one with the same ship."""
        told = self.begin()
        if told:
            self._document.notices.post(NoticeKind.CHECK, told)

    def open_route(self) -> None:
        """Ask for a route and open it."""
        path = self._ask.file(tr("Open route"), "route")
        if path is not None:
            self.take(path)

    def type_route(self) -> None:
        """Let the officer type or paste a route."""
        was = self._document.project.route_text
        dialog = RouteDialog(was, self._read_text, self._window)
        is_taken = dialog.exec() == RouteDialog.DialogCode.Accepted
        text, passage = dialog.text, dialog.passage
        dialog.deleteLater()
        if not is_taken or passage is None:
            return
        # What was shown to be edited is the route that is open.
        where = Where.IN_PLACE if was and not self._is_left else self.where(None, passage)
        self._put(where, tr("type route"), Project(route_text=text), passage)

    def _read_text(self, text: str) -> Passage:
        return self._jobs.read_route(Project(route_text=text))

    def take(self, path: Path, *, is_any_file: bool = False) -> None:
        """Read a route off the GUI thread and open it; nothing changes where it cannot be read.

        ``is_any_file`` says that a project was asked for as well.
        """
        given = Project(route=path)

        def failed(error: LegsheetError) -> None:
            if is_any_file:
                error = InputError(
                    tr("this is neither a project nor a route that can be read"),
                    where=path.name,
                    todo=tr("Choose another file"),
                )
            self._document.notices.post(NoticeKind.TROUBLE, str(error))

        self._runner.submit(
            lambda _progress: self._jobs.read_route(given),
            done=lambda passage: self._take_read(path, passage),
            failed=failed,
        )

    def _take_read(self, path: Path, passage: Passage) -> None:
        document = self._document
        if document.project == Project() and not document.is_modified:
            document.open_project(Project(route=path), None)
            self._opened(path)
        elif _is_file(document.project.route, path) and not self._is_left:
            self._opened(path)
            self._read_again(passage)
        elif self._put(self.where(path, passage), tr("open route"), Project(route=path), passage):
            self._opened(path)

    @property
    def _is_left(self) -> bool:
        """Whether what is open is left in any case: invented, or not to be changed."""
        return self._document.is_demo or bool(self._document.standing.read_only)

    def where(self, path: Path | None, passage: Passage) -> Where:
        """Where a route goes; asks where it may be the open one under another name of file."""
        document, line = self._document, self._document.line
        if self._is_left:
            return Where.ANEW
        if not has_route(document.project) or _is_file(document.project.route, path):
            return Where.IN_PLACE
        if line is not None and path is not None and line.name == passage.name:
            return ask_where(self._window, passage.name)
        return Where.ANEW

    def _put(self, where: Where, edit: str, given: Project, passage: Passage) -> bool:
        """Take a route that was read; whether it was taken."""
        document, told = self._document, ""
        if where is Where.NOWHERE:
            return False
        if where is Where.ANEW:
            begun = self.begin()
            if begun is None:
                return False
            told = begun
        project = with_route(document.project, route=given.route, text=given.route_text)
        document.take_line(project, passage)
        document.edit(edit, project)
        if told:
            document.notices.post(NoticeKind.CHECK, told)
        return True

    def begin(self) -> str | None:
        """Begin another passage, still without a route: what to tell; None where it stays.

        Nothing of the invented passage may pass for part of a real one.
        """
        document = self._document
        if not self._may_drop_edits():
            return None
        before = Project() if document.is_demo else document.project
        document.open_project(next_passage(before), None)
        return next_passage_words(before)

    def _read_again(self, passage: Passage) -> None:
        """The file of the open route: written anew by another program, or the same still."""
        document = self._document
        if document.project.is_reversed:
            passage = reversed_passage(passage)
        before = document.line
        if before == passage:
            document.notices.post(
                NoticeKind.DONE, tr("{name} is as it was read before.", name=passage.name)
            )
            return
        if before is not None and len(before.legs) != len(passage.legs):
            # Choices are by the number of a leg, which is another leg now.
            project = replace(document.project, overrides=(), contingencies=None)
            document.edit(tr("open route again"), project)
        document.read_again(passage)
        document.notices.post(
            NoticeKind.CHECK,
            tr(
                "{name} was read again and is another line than before: compute again (F5). "
                "All other inputs stay.",
                name=passage.name,
            ),
        )


def _is_file(one: Path | None, other: Path | None) -> bool:
    return one is not None and other is not None and one.resolve() == other.resolve()
