"""Core's real jobs, plugged in here and nowhere else.

Each is imported where it first runs or by ``load_parts``, never with this file: kernels and raster
libraries take their time to load, and the window is to stand before that.
"""

from collections.abc import Callable
from functools import partial
from importlib import import_module
from pathlib import Path

from app.work.core_jobs import CoreJobs
from core.base.errors import InputError
from core.base.language import tr
from core.base.memory import Memory
from core.base.progress import Progress
from core.files.land_shelf import Shelf
from core.files.project import Project
from core.land.land_fit_result import LandFit
from core.passage.passage import Passage
from core.plan.first_results import FirstResults
from core.plan.last_plan import InputChange, LastPlan
from core.plan.observed_result import ObservedReport
from core.plan.offing_result import OffingTable
from core.plan.outcome import Outcome
from core.plan.request import Request


def load_parts() -> None:
    """Load what reading land and planning need, a third of a second: it lets nothing else run.

    Called while the window stands but nobody can have asked it for anything yet; later, the
    window would be deaf for it.
    """
    for name in ("core.jobs.land_fit", "core.jobs.plan_passage"):
        import_module(name)


def _read_route(project: Project) -> Passage:
    from core.jobs.edit_project import passage_to_edit

    return passage_to_edit(project)


def _make_request(project: Project) -> Request:
    from core.jobs.make_request import make_request

    return make_request(project)


def _plan(
    memory: Memory,
    request: Request,
    progress: Progress,
    *,
    leg_done: Callable[[FirstResults], None] | None = None,
) -> Outcome:
    progress.report(0.0, tr("Loading the program's parts"))
    from core.jobs.plan_passage import plan_passage

    return plan_passage(request, progress, leg_done=leg_done, memory=memory)


def _compare_offings(
    request: Request, leg_number: int, shifts_m: tuple[float, ...], progress: Progress
) -> OffingTable:
    progress.report(0.0, tr("Loading the program's parts"))
    from core.jobs.compare_offings import compare_offings

    return compare_offings(request, leg_number, shifts_m, progress)


def _compare_seen(outcome: Outcome, seen: Path) -> ObservedReport:
    from core.jobs.compare_observed import compare_seen

    return compare_seen(outcome, seen)


def _look_at_land(shelf: Shelf, paths: tuple[Path, ...], progress: Progress) -> Shelf:
    progress.report(0.0, tr("Looking at land data"))
    from core.jobs.land_fit import looked_at

    return looked_at(shelf, paths, progress)


def _land_fit(shelf: Shelf, passage: Passage, radius_m: float) -> LandFit:
    from core.jobs.land_fit import fit_of

    return fit_of(shelf, passage, radius_m)


def _tell_files(paths: tuple[Path, ...]) -> tuple[tuple[Path, str], ...]:
    from core.jobs.tell_files import tell_files

    return tell_files(paths)


def _check_file(role: str, path: Path) -> None:
    from core.jobs.check_file import check_file

    check_file(role, path)


def _changes_since(project: Project, last: LastPlan, progress: Progress) -> tuple[InputChange, ...]:
    from core.jobs.old_plan import changes_since

    return changes_since(project, last, progress)


def _demo() -> Project:
    from core.jobs.demo import demo_project

    return demo_project()


def _write_export(outcome: Outcome, kind: str, path: Path, progress: Progress) -> tuple[Path, ...]:
    from app.paint.outputs import OutputPaths, write_outputs

    places = {
        "pdf": OutputPaths(pdf=path),
        "json": OutputPaths(json=path),
        "geojson": OutputPaths(geojson=path),
        "csv": OutputPaths(csv=path),
    }
    write_outputs(outcome, places[kind], progress)
    return places[kind].named()


def _write_route(passage: Passage, path: Path) -> None:
    from core.files.gpx_write import write_gpx
    from core.files.rtz_write import write_rtz
    from core.files.writing import write_atomic

    suffix = path.suffix.lower()
    if suffix == ".rtz":
        write_atomic(path, write_rtz(passage))
    elif suffix == ".gpx":
        write_atomic(path, write_gpx(passage))
    else:
        raise InputError(
            tr("routes are not written as «{ending}»", ending=suffix or path.name),
            where=path.name,
            todo=tr("Name a file that ends in .rtz or .gpx"),
        )


def real_jobs() -> CoreJobs:
    """Everything the window asks core to do; plans remember what the last ones found out."""
    return CoreJobs(
        read_route=_read_route,
        make_request=_make_request,
        plan=partial(_plan, Memory()),
        demo=_demo,
        write_export=_write_export,
        compare_offings=_compare_offings,
        compare_seen=_compare_seen,
        look_at_land=_look_at_land,
        land_fit=_land_fit,
        tell_files=_tell_files,
        check_file=_check_file,
        changes_since=_changes_since,
        write_route=_write_route,
    )
