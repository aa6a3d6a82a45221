"""The main job: from a request to a finished plan, stage by stage."""

import math
import os
import time
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime

import numpy as np

from core.base.compiled import is_prepared
from core.base.errors import InputError
from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.base.memory import NOTHING_KEPT, Memory
from core.base.progress import Progress, Span
from core.coverage.coverage_result import Coverage, LegCoverage, SweepSettings
from core.coverage.run import cover_passage
from core.files.land_stamp import land_stamp
from core.files.load_land import load_land, open_heights
from core.geodesy.position import Bounds, Position, bounds_of
from core.jobs.plan_contingencies import abort_routes, with_contingencies
from core.jobs.revise_plan import compared_with
from core.land.land_model import LandModel
from core.passage.defaults import resolve_passage
from core.passage.passage import Passage
from core.passage.timetable import Timetable
from core.plan.build_plan import build_plan
from core.plan.digest import digest_of
from core.plan.first_results import FirstResults, first_results
from core.plan.outcome import Outcome, Timings
from core.plan.request import Defaults, Request
from core.radar.echo_budget import Conditions, EchoBudget
from core.radar.presets import radar_set

FIRST_TIME_WORDS = tr("Preparing the program for this computer, once: up to half a minute more")
_METRES_PER_DEGREE = 110_574.0
_LINE_STEP_M = 20_000.0
_LAND_STEP_DEG = 0.1
"""Land is cut to whole steps: a waypoint moved a little wants the same land."""
_ORDER = (Severity.MUST_FIX, Severity.CHECK, Severity.NOTE)


def reach_of(passage: Passage, reach_m: float, *others: Passage) -> Bounds:
    """Box round the lines of a passage and others, widened by a distance on every side."""
    positions: list[Position] = []
    for line in (one.line(i) for one in (passage, *others) for i in range(len(one.legs))):
        count = max(2, math.ceil(line.length_m / _LINE_STEP_M) + 1)
        lats, lons, _courses = line.at(np.linspace(0.0, line.length_m, count))
        positions += [
            Position(lat_deg=float(lat), lon_deg=float((lon + 180.0) % 360.0 - 180.0))
            for lat, lon in zip(lats, lons, strict=True)
        ]
    box = bounds_of(tuple(positions))
    pad_deg = reach_m / _METRES_PER_DEGREE
    highest = max(abs(box.south_deg - pad_deg), abs(box.north_deg + pad_deg))
    if highest > 85.0:
        raise InputError(
            tr("the passage comes nearer than 5 degrees to a pole"),
            where=passage.name,
            todo=tr("Plan it by other means; this tool does not reach there"),
        )
    return box.padded(lat_deg=pad_deg, lon_deg=pad_deg / math.cos(math.radians(highest)))


def antenna_height_m(request: Request) -> float:
    """Height of the main antenna above the water now: the officer's, else the ship's."""
    if request.antenna_height_m is not None:
        return request.antenna_height_m
    return request.ship.antenna_height_above_water_m(request.ship.radars[0])


def echo_budget(request: Request) -> EchoBudget:
    """The main radar on its longest pulse, well kept or as its preset says, in stated weather."""
    fitted = radar_set(request.ship.radars[0])
    environment = request.environment
    return EchoBudget(
        radar=fitted,
        pulse=fitted.long_pulse,
        antenna_height_m=antenna_height_m(request),
        conditions=Conditions(
            refraction_k=environment.refraction_k,
            sea_state=environment.sea_state,
            rain_mm_h=environment.rain_mm_h,
        ),
    )


def _corridor_reach_m(passage: Passage) -> float:
    return max(
        max(leg.corridor_port_m or 0.0, leg.corridor_starboard_m or 0.0) for leg in passage.legs
    )


def _sorted(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Worst first, then by leg; each said once."""
    unique = dict.fromkeys(findings)
    return tuple(
        sorted(unique, key=lambda f: (_ORDER.index(f.severity), f.where.leg_number or 0, f.code))
    )


def _assumed_height_findings(request: Request, land: LandModel) -> tuple[Finding, ...]:
    if not land.heights_assumed:
        return ()
    return tuple(
        Finding(
            severity=Severity.CHECK,
            code="heights-assumed",
            what=tr(
                "no elevation is given, all land is taken as {coast_height_m:g} m high",
                coast_height_m=request.coast_height_m,
            ),
            where=Where(leg_number=index + 1),
            todo=tr("Give elevation data to plan on heights"),
        )
        for index in range(len(request.passage.legs))
    )


def created_utc() -> str:
    """Stamp of now in UTC, or the one ``SOURCE_DATE_EPOCH`` asks for."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH", "")
    moment = datetime.fromtimestamp(int(epoch), UTC) if epoch.isdigit() else datetime.now(UTC)
    return moment.strftime("%Y-%m-%dT%H:%M:%SZ")


def resolved(request: Request) -> tuple[Passage, Timetable, tuple[Finding, ...]]:
    """The passage of a request with every default filled in, its times, what was assumed."""
    defaults = Defaults()
    return resolve_passage(
        request.passage,
        speed_mps=request.speed_mps,
        corridor_m=request.corridor_m,
        default_speed_mps=defaults.speed_mps,
        default_corridor_m=defaults.corridor_m,
        start_utc=request.start_utc,
        streams=request.streams,
    )


def land_round(
    request: Request,
    passages: tuple[Passage, ...],
    progress: Progress,
    *,
    beyond_m: float = 0.0,
    memory: Memory = NOTHING_KEPT,
) -> LandModel:
    """Land in reach of some passages, the main one first, and ``beyond_m`` farther.

    A memory keeps one land: with another all goes that was found out over it.

    Raises
    ------
    InputError, DataGapError
        Land that cannot be used.
    """
    environment = request.environment
    passage, *others = passages
    reach_m = environment.radius_m + _corridor_reach_m(passage) + beyond_m
    bounds = reach_of(passage, reach_m, *others).outward(_LAND_STEP_DEG)

    def load() -> LandModel:
        land = load_land(
            request.land_paths,
            bounds=bounds,
            water_level_m=environment.water_level_m,
            height_error_m=environment.height_error_m,
            coast_height_m=request.coast_height_m,
            progress=progress,
            ground=request.ground,
        )
        memory.clear()
        return land

    key = (
        "land",
        request.land_paths,
        land_stamp(request.land_paths, request.ground),
        bounds,
        environment.water_level_m,
        environment.height_error_m,
        request.coast_height_m,
        request.ground,
    )
    return memory.of(key, load)


def plan_passage(
    request: Request,
    progress: Progress,
    *,
    leg_done: Callable[[FirstResults], None] | None = None,
    memory: Memory = NOTHING_KEPT,
) -> Outcome:
    """Do the whole job: read land, cover every leg, plan it.

    Parameters
    ----------
    request : Request
        Inputs, already read and checked.
    progress : Progress
        Told how far the work is; its ``Cancelled`` stops the job with nothing left behind.
    leg_done : callable or None
        Called from a worker with what is covered as soon as another leg is, in order.
    memory : Memory
        What earlier computations found out; the plan is the same with any.

    Raises
    ------
    InputError, DataGapError
        Land that cannot be used.
    Cancelled
        A stop was asked for.
    """
    started = time.perf_counter()
    memory.begin()
    is_first_time = not is_prepared()
    passage, timetable, _findings = resolved(request)
    routes = abort_routes(request, passage, timetable)
    passages = (passage, *(route.passage for route in routes))
    land = land_round(request, passages, Span(progress, 0.0, 0.15), memory=memory)
    land_s = time.perf_counter() - started
    if is_first_time:
        # Once the inputs are known to be usable: what cannot be used is told alone.
        progress.report(0.15, FIRST_TIME_WORDS)
    most = 0.95 if routes else 1.0
    outcome = plan_on_land(
        request,
        land,
        Span(progress, 0.15, most),
        land_s=land_s,
        leg_done=leg_done,
        memory=memory,
    )
    if routes:
        planned = time.perf_counter()
        outcome = with_contingencies(outcome, routes, Span(progress, 0.95, 1.0), memory)
        spent_s = time.perf_counter() - planned
        timings = outcome.timings
        timings = replace(
            timings, plan_s=timings.plan_s + spent_s, total_s=timings.total_s + spent_s
        )
        outcome = replace(outcome, findings=_sorted(outcome.findings), timings=timings)
    outcome = replace(outcome, digest=digest_of(outcome))
    memory.finish()
    return compared_with(outcome, request.since, note=request.note)


def plan_on_land(
    request: Request,
    land: LandModel,
    progress: Progress,
    *,
    land_s: float = 0.0,
    is_brief: bool = False,
    leg_done: Callable[[FirstResults], None] | None = None,
    memory: Memory = NOTHING_KEPT,
) -> Outcome:
    """Cover and plan a passage on land that is there already; several may share it.

    ``land`` reaches as far as the sweeps do; ``land_s`` is the time it took, for the receipt;
    ``is_brief`` as in ``build_plan``. Digest and revision are left to the caller.

    Raises
    ------
    Cancelled
        A stop was asked for.
    """
    started = time.perf_counter()
    passage, timetable, default_findings = resolved(request)
    environment = request.environment
    settings = SweepSettings(
        antenna_height_m=antenna_height_m(request),
        refraction_k=environment.refraction_k,
        radius_m=environment.radius_m,
        craft_height_m=environment.craft_height_m,
    )
    first = first_results(request, passage, timetable, land, settings)

    def covered(leg: LegCoverage) -> None:
        nonlocal first
        first = first.with_leg(leg)
        if leg_done is not None:
            leg_done(first)

    coverage: Coverage = cover_passage(
        passage,
        land,
        settings,
        Span(progress, 0.0, 0.75),
        budget=echo_budget(request),
        leg_done=covered,
        memory=memory,
    )
    coverage_done = time.perf_counter()
    heights = None if land.heights_assumed else open_heights(request.land_paths, request.ground)
    plan = build_plan(
        request,
        passage,
        timetable,
        land,
        coverage,
        heights,
        Span(progress, 0.75, 1.0),
        is_brief=is_brief,
        memory=memory,
    )
    done = time.perf_counter()
    findings = _sorted(
        (
            *request.findings,
            *default_findings,
            *land.findings,
            *_assumed_height_findings(request, land),
            *coverage.findings,
            *plan.findings,
        )
    )
    return Outcome(
        request=request,
        digest="",
        land=land,
        coverage=coverage,
        plan=plan,
        findings=findings,
        timings=Timings(
            land_s=land_s,
            coverage_s=coverage_done - started,
            plan_s=done - coverage_done,
            total_s=land_s + done - started,
        ),
        created_utc=created_utc(),
    )
