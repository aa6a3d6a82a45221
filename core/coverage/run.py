"""Coverage of a whole passage: every viewpoint swept, gathered leg by leg."""

from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import Future, ThreadPoolExecutor, wait
from contextlib import contextmanager
from dataclasses import replace
from functools import partial

from core.base.language import tr
from core.base.memory import NOTHING_KEPT, Memory
from core.base.progress import Progress
from core.coverage.coast_paint import painted_beside
from core.coverage.coverage_findings import findings_of
from core.coverage.coverage_result import (
    Coverage,
    LegCoverage,
    SweepSettings,
    Viewpoint,
    ViewpointCoverage,
    numbered,
)
from core.coverage.gaps import gaps_along, is_complete
from core.coverage.land_crossing import crossing_findings, land_crossings
from core.coverage.leg_shadows import leg_shadows
from core.coverage.nearby import blocks_of
from core.coverage.painted_edge import painted_edge_of
from core.coverage.place import Lookout, PlaceView
from core.coverage.profiles import Grid, grid_of
from core.coverage.terrain import prepare_terrain
from core.coverage.viewpoints import viewpoints_of
from core.geodesy.leg_line import LegLine
from core.geodesy.position import Position
from core.land.land_model import LandModel
from core.passage.passage import Passage
from core.radar.echo_budget import EchoBudget

_POLL_S = 0.05
"""How often a stop is looked for while sweeps run; a sweep itself takes less than 0.15 s."""


def cover_passage(
    passage: Passage,
    land: LandModel,
    settings: SweepSettings,
    progress: Progress,
    *,
    budget: EchoBudget | None = None,
    leg_done: Callable[[LegCoverage], None] | None = None,
    known: Mapping[int, LegCoverage] | None = None,
    memory: Memory = NOTHING_KEPT,
    thread_count: int = 2,
) -> Coverage:
    """Work out what is in sight along a passage.

    Parameters
    ----------
    passage : Passage
        With both corridors of every leg filled in.
    land : LandModel
        Land in reach of the passage.
    settings : SweepSettings
        Antenna height, refraction, radius.
    progress : Progress
        Told the leg that is being looked at.
    budget : EchoBudget, optional
        Radar, pulse and weather, to work out what of the coast paints; lines of sight alone if
        None.
    leg_done : callable, optional
        Handed each leg as soon as it is finished, in order, in the calling thread.
    known : mapping, optional
        Legs that are covered already, by their index; nothing is swept for them.
    memory : Memory
        Places and legs of earlier computations.
    thread_count : int
        Sweeps that run at the same time; the result is the same with any number.

    Raises
    ------
    Cancelled
        A stop was asked for; no thread is left running.
    """
    progress.report(0.0, tr("Coverage: making land ready"))
    blocks = blocks_of(land)
    terrain = prepare_terrain(land)
    grid = grid_of(land, terrain)
    crossings = land_crossings(passage, land)
    crossed = {c.leg_index for c in crossings if not c.is_at_berth}
    lookout = Lookout(land, terrain, blocks, settings, budget)

    def look(position: Position, *, has_echo: bool) -> PlaceView:
        key = ("place", land, settings, budget, position, has_echo)
        return memory.of(key, lambda: lookout.look(position, has_echo=has_echo))

    known = known or {}
    by_leg = [
        () if i in known else viewpoints_of(passage, i, blocks) for i in range(len(passage.legs))
    ]
    total = sum(len(viewpoints) for viewpoints in by_leg)
    with _pool(thread_count) as pool:
        looks: dict[Position, Future[PlaceView]] = {}
        echoes: dict[Position, bool] = {}
        for viewpoint in (v for viewpoints in by_leg for v in viewpoints):
            if viewpoint.position not in looks:
                has_echo = echoes[viewpoint.position] = viewpoint.cross_m == 0.0
                looks[viewpoint.position] = pool.submit(look, viewpoint.position, has_echo=has_echo)
        legs: list[LegCoverage] = []
        done = 0
        for index, viewpoints in enumerate(by_leg):
            if index in known:
                legs.append(known[index])
                continue
            text = tr(
                "Coverage: leg {leg_number} of {leg_count}",
                leg_number=index + 1,
                leg_count=len(by_leg),
            )
            views = []
            for viewpoint in viewpoints:
                views.append(_awaited(looks[viewpoint.position], progress, done / total, text))
                done += 1
            gather = partial(
                _leg_of,
                viewpoints,
                views,
                passage.line(index),
                land,
                grid,
                settings,
                crosses_land=index in crossed,
            )
            key = (
                "leg",
                land,
                settings,
                budget,
                passage.line(index),
                tuple((v.along_m, v.cross_m, v.position, echoes[v.position]) for v in viewpoints),
                index in crossed,
            )
            leg = numbered(memory.of(key, gather), index)
            legs.append(leg)
            if leg_done is not None:
                leg_done(leg)
        sweep_count = sum(look.result().is_swept for look in looks.values())
    progress.report(1.0, tr("Coverage: done"))
    return Coverage(
        settings=settings,
        legs=tuple(legs),
        sweep_count=sweep_count,
        findings=(*crossing_findings(passage, crossings), *findings_of(tuple(legs))),
        budget=budget,
    )


@contextmanager
def _pool(thread_count: int) -> Iterator[ThreadPoolExecutor]:
    """A pool that drops what has not begun, and waits for what has, however it is left."""
    pool = ThreadPoolExecutor(max_workers=thread_count, thread_name_prefix="sweep")
    try:
        yield pool
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def _awaited(look: Future[PlaceView], progress: Progress, fraction: float, text: str) -> PlaceView:
    """The view when it is there, reporting all the while."""
    progress.report(fraction, text)
    while not look.done():
        wait([look], timeout=_POLL_S)
        progress.report(fraction, text)
    return look.result()


def _leg_of(
    viewpoints: tuple[Viewpoint, ...],
    views: list[PlaceView],
    line: LegLine,
    land: LandModel,
    grid: Grid,
    settings: SweepSettings,
    *,
    crosses_land: bool,
) -> LegCoverage:
    """Gather the views of one leg."""
    on_track = {
        v.along_m: view for v, view in zip(viewpoints, views, strict=True) if v.cross_m == 0.0
    }
    covered = tuple(
        _beside(view.at(viewpoint), on_track.get(viewpoint.along_m), land)
        for viewpoint, view in zip(viewpoints, views, strict=True)
    )
    along_m = tuple(viewpoint.along_m for viewpoint in viewpoints)
    seen = tuple(view.gaps for view in views)
    on_track_views = tuple(v for v in covered if v.viewpoint.cross_m == 0.0)
    return LegCoverage(
        leg_index=viewpoints[0].leg_index,
        viewpoints=covered,
        is_complete=all(is_complete(gaps) for gaps in seen),
        gaps=gaps_along(along_m, seen, line.length_m),
        shadows=leg_shadows(covered, line, grid, settings),
        crosses_land=crosses_land,
        painted_edge=painted_edge_of(land.points, on_track_views),
    )


def _beside(
    covered: ViewpointCoverage, on_track: PlaceView | None, land: LandModel
) -> ViewpointCoverage:
    """A corridor edge with the paint it takes from the viewpoint on the track beside it."""
    if covered.paint is not None or on_track is None or on_track.paint is None:
        return covered
    return replace(covered, paint=painted_beside(land.points, covered.coast_state, on_track.paint))
