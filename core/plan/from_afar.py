"""All that is seen from afar on each leg: first sight, first paint, the coast that first shows."""

from dataclasses import dataclass, replace
from functools import partial

from core.base.language import tr
from core.base.memory import NOTHING_KEPT, Memory
from core.base.progress import Progress, Span
from core.coverage.arc_sight import NOTHING_SEEN, ArcSight, arc_sight
from core.coverage.coverage_result import Coverage, FirstSight
from core.coverage.far_sight import sights_of
from core.coverage.first_paint import (
    STRONG_REFRACTION_K,
    PaintLooks,
    first_paints,
    first_paints_on,
)
from core.coverage.first_paint_result import FirstPaint, LegPaints
from core.coverage.leg_threads import Alive, leg_by_leg
from core.coverage.paint_gauge import Gauge, PaintTarget
from core.coverage.sight_scene import Scene, scene_of
from core.geodesy.position import Position
from core.land.land_model import LandModel
from core.land.sources import HeightSource
from core.passage.passage import Passage
from core.plan.coast_stretches import coast_targets


@dataclass(frozen=True, slots=True, kw_only=True)
class FromAfar:
    """One leg; ``paints`` and ``coast`` only where the radar was worked out."""

    sights: tuple[FirstSight, ...] = ()
    """Of all objects, in their order."""
    paints: LegPaints | None = None
    """Of all objects, in their order."""
    coast: tuple[FirstPaint, ...] = ()
    """Stretches of coast that begin to paint on the leg, in their order along it."""
    arc: ArcSight = NOTHING_SEEN
    """What shows along the turn at its end."""


def from_afar(
    passage: Passage,
    land: LandModel,
    coverage: Coverage,
    heights: HeightSource | None,
    targets: tuple[PaintTarget, ...],
    looks: PaintLooks | None,
    progress: Progress,
    *,
    with_coast: bool = True,
    arcs: tuple[tuple[Position, ...], ...] = (),
    arc_reach_m: float = 0.0,
    memory: Memory = NOTHING_KEPT,
) -> tuple[FromAfar, ...]:
    """Look for every object from every leg.

    Parameters
    ----------
    passage : Passage
        With every default filled in.
    land : LandModel
        Coast and heights.
    coverage : Coverage
        Its settings say how sight is worked out, its viewpoints where coast begins to paint.
    heights : HeightSource or None
        Elevation to the horizon.
    targets : tuple of PaintTarget
        The objects.
    looks : PaintLooks or None
        Radars and conditions; None works out sight alone.
    progress : Progress
        Told leg by leg.
    with_coast : bool
        Whether stretches of coast are looked for too.
    arcs : tuple of tuple of Position
        Places on the turn at the end of each leg that are looked from.
    arc_reach_m : float
        How far objects are looked for from there.
    memory : Memory
        First paints of earlier computations.

    Raises
    ------
    Cancelled
        A stop was asked for.
    """
    legs = tuple(FromAfar() for _ in passage.legs)
    if targets:
        scene = _scene(passage, land, targets, coverage, heights, memory)
        gauge = Gauge(scene, targets)
        legs = _objects(
            passage, scene, gauge, targets, coverage, looks, Span(progress, 0.0, 0.84), memory
        )
        through = _through(scene, coverage)
        legs = tuple(
            replace(
                leg,
                arc=arc_sight(
                    through,
                    gauge,
                    None if looks is None else looks.main,
                    arc,
                    reach_m=arc_reach_m,
                    alive=partial(
                        progress.report, 0.84, tr("turn, leg {leg_number}", leg_number=index + 1)
                    ),
                ),
            )
            for index, (leg, arc) in enumerate(zip(legs, arcs or ((),) * len(legs), strict=True))
        )
    if looks is None or not with_coast:
        return legs
    found = leg_by_leg(
        [
            partial(_coast, passage, index, land, coverage, looks, memory)
            for index in range(len(passage.legs))
        ],
        Span(progress, 0.85, 1.0),
        tr("First paint of the coast"),
    )
    return tuple(replace(leg, coast=coast) for leg, coast in zip(legs, found, strict=True))


def _coast(
    passage: Passage,
    leg_index: int,
    land: LandModel,
    coverage: Coverage,
    looks: PaintLooks,
    memory: Memory,
    alive: Alive,
) -> tuple[FirstPaint, ...]:
    """The stretches of coast of a leg that say something."""
    coast = coast_targets(coverage.legs[leg_index], land.points, passage)
    if not coast:
        return ()
    scene = _scene(passage, land, coast, coverage, None, memory)
    paints = first_paints_on(
        passage, leg_index, scene, Gauge(scene, coast), looks, alive, memory
    ).paints
    return tuple(p for p in paints if p.says_something)


def _scene(
    passage: Passage,
    land: LandModel,
    targets: tuple[PaintTarget, ...],
    coverage: Coverage,
    heights: HeightSource | None,
    memory: Memory,
) -> Scene:
    """Grids that reach as far as strong refraction does."""
    settings = coverage.settings
    farthest = replace(settings, refraction_k=max(settings.refraction_k, STRONG_REFRACTION_K))
    return scene_of(passage, land, tuple(t.sight for t in targets), farthest, heights, None, memory)


def _through(scene: Scene, coverage: Coverage) -> Scene:
    """The objects through the air of the plan."""
    settings = coverage.settings
    return scene.through(
        antenna_height_m=settings.antenna_height_m, refraction_k=settings.refraction_k
    )


def _objects(
    passage: Passage,
    scene: Scene,
    gauge: Gauge,
    targets: tuple[PaintTarget, ...],
    coverage: Coverage,
    looks: PaintLooks | None,
    progress: Progress,
    memory: Memory,
) -> tuple[FromAfar, ...]:
    as_asked = _through(scene, coverage)
    things = tuple(target.sight for target in targets)
    sights = sights_of(passage, as_asked, things, Span(progress, 0.0, 0.2))
    if looks is None:
        return tuple(FromAfar(sights=own) for own in sights)
    paints = first_paints(passage, scene, gauge, looks, Span(progress, 0.2, 1.0), memory=memory)
    return tuple(
        FromAfar(sights=own, paints=painted) for own, painted in zip(sights, paints, strict=True)
    )
