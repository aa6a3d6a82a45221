"""Whether the officer's marks show: in sight by their tops, and detected if they stand in water.

A mark on ground shows when its ground or top does; ground near enough to be indexed paints.
"""

from functools import partial

import numpy as np

from core.base.arrays import BoolArray
from core.base.language import tr
from core.base.memory import NOTHING_KEPT, Memory
from core.base.progress import Progress
from core.coverage.coverage_result import CoastState, Coverage, Viewpoint
from core.coverage.sight import PointSight, sight_of_points
from core.coverage.terrain import prepare_terrain
from core.geodesy import geodesic
from core.geodesy.position import Position
from core.land.land_model import LandModel
from core.plan.feature import Feature
from core.plan.leg_sight import MarkSight
from core.plan.mark_echo import mark_margin_db
from core.plan.plan_result import Mark
from core.radar.echo_budget import EchoBudget

_GROUND_M = 1.0
"""Lower ground than this about a mark is as good as water."""


def marks_in_sight(
    marks: tuple[Mark, ...],
    land: LandModel,
    coverage: Coverage,
    progress: Progress,
    memory: Memory = NOTHING_KEPT,
) -> MarkSight:
    """Look from every viewpoint at every mark.

    A mark's height counts from the water, so on ground of that height or more nothing stands
    out and the ground itself is looked at.
    """
    if not marks:
        return _nothing
    number_of = {mark.name: i for i, mark in enumerate(marks)}
    states: dict[Viewpoint, tuple[int, ...]] = {}
    views = [v.viewpoint for leg in coverage.legs for v in leg.viewpoints]
    for done, view in enumerate(views):
        progress.report(done / len(views), tr("marks in sight"))
        key = (tr("marks"), land, coverage.settings, coverage.budget, marks, view.position)
        states[view] = memory.of(key, partial(_states, marks, land, coverage, view.position))

    def look(feature: Feature, view: Viewpoint) -> CoastState:
        if feature.mark is None or view not in states:
            return CoastState.HIDDEN
        return CoastState(states[view][number_of[feature.mark.name]])

    return look


def _states(
    marks: tuple[Mark, ...], land: LandModel, coverage: Coverage, place: Position
) -> tuple[int, ...]:
    """How each mark stands to a place, as ``CoastState`` codes."""
    terrain = prepare_terrain(land)
    lat = np.array([mark.position.lat_deg for mark in marks])
    lon = np.array([mark.position.lon_deg for mark in marks])
    top = np.array([mark.height_above_water_m for mark in marks])
    ground = sight_of_points(terrain, place, lat, lon, settings=coverage.settings)
    above = np.maximum(top - np.nan_to_num(ground.height_m.astype(np.float64)), 0.0)
    sight = sight_of_points(
        terrain, place, lat, lon, settings=coverage.settings, target_height_m=above
    )
    return tuple(
        int(_shown(CoastState(state), mark, coverage.budget, place) if is_wet else state)
        for state, mark, is_wet in zip(sight.state, marks, _stands_in_water(ground), strict=True)
    )


def _stands_in_water(ground: PointSight) -> BoolArray:
    return np.asarray(~(ground.height_m > _GROUND_M))


def _shown(state: CoastState, mark: Mark, budget: EchoBudget | None, place: Position) -> CoastState:
    """A mark in sight whose echo is too weak is as good as hidden."""
    if state is not CoastState.IN_SIGHT or budget is None:
        return state
    range_m, _bearing, _final = geodesic.inverse(
        from_lat_deg=place.lat_deg,
        from_lon_deg=place.lon_deg,
        to_lat_deg=mark.position.lat_deg,
        to_lon_deg=mark.position.lon_deg,
    )
    margin_db = mark_margin_db(mark, budget, np.array([float(range_m)]))
    return state if float(margin_db[0]) >= 0.0 else CoastState.HIDDEN


def _nothing(feature: Feature, view: Viewpoint) -> CoastState:
    """No marks, nothing to see."""
    del feature, view
    return CoastState.HIDDEN
