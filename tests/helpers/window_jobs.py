"""Stand-ins for core's jobs: the invented outcome, slowly enough to be stopped."""

import threading
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

from app.work.core_jobs import CoreJobs
from core.base.errors import InputError
from core.base.progress import Progress
from core.files.project import Project
from core.jobs.check_file import check_file
from core.jobs.compare_observed import compare_seen
from core.jobs.land_fit import fit_of, looked_at
from core.jobs.old_plan import changes_since
from core.jobs.tell_files import tell_files
from core.passage.passage import Passage
from core.plan.first_results import FirstResults, first_results
from core.plan.observed_result import ObservedReport
from core.plan.offing_result import OffingTable
from core.plan.outcome import Outcome
from core.plan.request import Request
from tests.helpers.sample_offings import sample_offings
from tests.helpers.sample_outcome import sample_outcome


def no_leg_covered() -> FirstResults:
    """What a computation of the invented outcome begins with."""
    outcome = sample_outcome()
    plan = outcome.plan
    return first_results(
        outcome.request, plan.passage, plan.timetable, outcome.land, outcome.coverage.settings
    )


DEMO = Project(route=Path("invented.rtz"), land=(Path("invented"),))


@dataclass
class StandIns:
    """What the stand-ins were asked for, and how they are to behave."""

    gate: threading.Event = field(default_factory=threading.Event)
    """The plan is made once this is set."""
    error: InputError | None = None
    bug: Exception | None = None
    planned: int = 0
    thread_names: set[str] = field(default_factory=set)
    exports: list[tuple[str, Path]] = field(default_factory=list)
    routes: list[Path] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.gate.set()

    def read_route(self, project: Project) -> Passage:
        self.thread_names.add(threading.current_thread().name)
        if self.error is not None:
            raise self.error
        return sample_outcome().request.passage

    def read_text(self, text: str) -> Passage:
        return self.read_route(Project(route_text=text))

    def make_request(self, project: Project) -> Request:
        if self.error is not None:
            raise self.error
        return sample_outcome().request

    def plan(
        self,
        request: Request,
        progress: Progress,
        *,
        leg_done: Callable[[FirstResults], None] | None = None,
    ) -> Outcome:
        self.thread_names.add(threading.current_thread().name)
        outcome = sample_outcome()
        if self.bug is not None:
            raise self.bug
        first = no_leg_covered()
        for leg in outcome.coverage.legs[:2]:
            progress.report(0.1 + 0.2 * leg.leg_index, f"Leg {leg.leg_index + 1}")
            if leg_done is not None:
                first = first.with_leg(leg)
                leg_done(first)
        while not self.gate.wait(0.005):
            progress.report(0.5, "Leg 3")
        self.planned += 1
        return outcome

    def write_export(
        self, outcome: Outcome, kind: str, path: Path, progress: Progress
    ) -> tuple[Path, ...]:
        self.thread_names.add(threading.current_thread().name)
        self.exports.append((kind, path))
        return (path, path.with_name(f"{path.stem}-wheelover.csv")) if kind == "csv" else (path,)

    def write_route(self, passage: Passage, path: Path) -> None:
        self.routes.append(path)

    def compare_offings(
        self, request: Request, leg_number: int, shifts_m: tuple[float, ...], progress: Progress
    ) -> OffingTable:
        self.thread_names.add(threading.current_thread().name)
        while not self.gate.wait(0.005):
            progress.report(0.5, "Leg 3")
        return sample_offings(leg_number, shifts_m)

    def compare_seen(self, outcome: Outcome, seen: Path) -> ObservedReport:
        self.thread_names.add(threading.current_thread().name)
        return compare_seen(outcome, seen)

    def jobs(self) -> CoreJobs:
        return CoreJobs(
            read_route=self.read_route,
            make_request=self.make_request,
            plan=self.plan,
            demo=lambda: DEMO,
            write_export=self.write_export,
            compare_offings=self.compare_offings,
            compare_seen=self.compare_seen,
            look_at_land=looked_at,
            land_fit=fit_of,
            tell_files=tell_files,
            check_file=check_file,
            changes_since=changes_since,
            write_route=self.write_route,
        )
