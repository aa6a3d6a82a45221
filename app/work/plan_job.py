"""From the document to a plan and back: the only way anything is computed in the window."""

from collections.abc import Callable
from typing import TypeVar

from PySide6.QtCore import QObject, Signal

from app.state.covered_words import stopped_words
from app.state.document import Document
from app.state.edited_line import Way, way_of
from app.state.notices import EVERY_EDIT, NoticeKind
from app.work.core_jobs import CoreJobs
from app.work.runner import JobProgress, Runner
from core.base.errors import LegsheetError
from core.base.language import tr
from core.files.project import Project
from core.passage.passage import Passage
from core.plan.first_results import FirstResults
from core.plan.outcome import Outcome

T = TypeVar("T")


class PlanJob(QObject):
    """Reads routes, computes plans and writes files in one worker thread."""

    computed = Signal()
    _leg_done = Signal(int, object)
    _route_read = Signal(int, object, object)

    def __init__(self, document: Document, jobs: CoreJobs, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._jobs = jobs
        self._run_number = 0
        self._running_for = Project()
        self._route_shown: Way | None = None
        self._runner = Runner("legsheet-plan", self, makes_much=True)
        self._runner.progressed.connect(document.job.report)
        self._leg_done.connect(self._take_leg)
        self._route_read.connect(self._take_route)
        document.opened.connect(self._leave)
        document.project_changed.connect(self._show_route)

    @property
    def is_busy(self) -> bool:
        """Whether something is being computed, read or written."""
        return self._runner.is_busy

    def compute(self) -> None:
        """Plan the document as it stands; a computation still running is dropped."""
        document = self._document
        project, kept = document.project, document.project_to_keep
        self._run_number += 1
        number = self._run_number
        self._running_for = project

        def work(progress: JobProgress) -> Outcome:
            progress.report(0.0, tr("Reading route, ship and marks"))
            line = self._jobs.read_route(kept)
            request = self._jobs.make_request(kept)
            self._route_read.emit(number, line, request.passage)
            return self._jobs.plan(
                request,
                progress,
                leg_done=lambda first: self._leg_done.emit(number, first),
            )

        def done(outcome: Outcome) -> None:
            document.set_outcome(outcome, project)
            self.computed.emit()

        self._submit(tr("Computing the plan"), work, done, is_plan=True)

    def run(self, text: str, work: Callable[[JobProgress], T], done: Callable[[T], None]) -> None:
        """Do other work, such as writing a file, in the same thread with the same stop."""
        self._submit(text, work, done)

    def stop(self) -> None:
        """Ask the running job to end; the last plan stays."""
        self._document.job.stopping()
        self._runner.stop()

    def _leave(self) -> None:
        """Another project is open: what is done for the one before is nothing of it."""
        self._run_number += 1
        self._route_shown = None
        self._runner.stop()

    def close(self) -> None:
        """Stop and wait for the worker thread."""
        self._runner.close()
        self._document.job.end()

    def _submit(
        self,
        text: str,
        work: Callable[[JobProgress], T],
        done: Callable[[T], None],
        *,
        is_plan: bool = False,
    ) -> None:
        document = self._document
        document.notices.clear(
            NoticeKind.TROUBLE, NoticeKind.DONE, NoticeKind.CHECK, NoticeKind.STOPPED
        )
        document.job.start(text, is_plan=is_plan)

        def finish(value: T) -> None:
            document.job.end()
            done(value)

        def fail(error: LegsheetError) -> None:
            document.job.end()
            document.notices.post(NoticeKind.TROUBLE, str(error))

        def stopped() -> None:
            is_asked = document.job.is_stopping
            document.job.end()
            if is_asked:
                words = stopped_words(document) if is_plan else tr("{job}: not done.", job=text)
                document.notices.post(NoticeKind.STOPPED, words, about=EVERY_EDIT)

        self._runner.submit(work, done=finish, failed=fail, stopped=stopped)

    def _take_leg(self, number: int, first: FirstResults) -> None:
        document = self._document
        if number == self._run_number and document.job.is_running:
            document.take_first(first, self._running_for)

    def _take_route(self, number: int, line: Passage, passage: Passage) -> None:
        document, project = self._document, self._running_for
        if number != self._run_number:
            return
        document.take_line(project, line)
        is_asked = document.outcome is None and way_of(document.project) == way_of(project)
        if is_asked and document.passage != passage:
            document.set_passage(passage)

    def _show_route(self) -> None:
        """Read a route that was opened and has no plan yet, so that it can be looked at."""
        document = self._document
        project = document.project
        route = way_of(project)
        if document.outcome is not None or route[:2] == (None, ""):
            return
        if route == self._route_shown and (document.passage is not None or self.is_busy):
            return
        self._route_shown = route
        if document.line is not None:
            return

        def done(passage: Passage) -> None:
            document.take_line(project, passage)
            if way_of(document.project) == route and document.outcome is None:
                document.set_passage(passage)

        self._submit(
            tr("Reading the route"), lambda _progress: self._jobs.read_route(project), done
        )
