"""Whether the officer's marks are in sight: a mark counts when its top does."""

import numpy as np

from core.base.progress import Progress
from core.coverage.coverage_result import CoastState, Coverage, Viewpoint
from core.coverage.sight import sight_of_points
from core.coverage.terrain import prepare_terrain
from core.land.land_model import LandModel
from core.plan.feature import Feature
from core.plan.leg_sight import MarkSight
from core.plan.plan_result import Mark


def marks_in_sight(
    marks: tuple[Mark, ...], land: LandModel, coverage: Coverage, progress: Progress
) -> MarkSight:
    """Look from every viewpoint at the top of every mark.

    A mark's height counts from the water, so on ground of that height or more nothing stands
    out and the ground itself is looked at.
    """
    if not marks:
        return _nothing
    terrain = prepare_terrain(land)
    lat = np.array([mark.position.lat_deg for mark in marks])
    lon = np.array([mark.position.lon_deg for mark in marks])
    top = np.array([mark.height_above_water_m for mark in marks])
    number_of = {mark.name: i for i, mark in enumerate(marks)}
    states: dict[Viewpoint, tuple[int, ...]] = {}
    views = [v.viewpoint for leg in coverage.legs for v in leg.viewpoints]
    for done, view in enumerate(views):
        progress.report(done / len(views), "marks in sight")
        ground = sight_of_points(terrain, view.position, lat, lon, settings=coverage.settings)
        above = np.maximum(top - np.nan_to_num(ground.height_m.astype(np.float64)), 0.0)
        sight = sight_of_points(
            terrain,
            view.position,
            lat,
            lon,
            settings=coverage.settings,
            target_height_m=above,
        )
        states[view] = tuple(int(state) for state in sight.state)

    def look(feature: Feature, view: Viewpoint) -> CoastState:
        if feature.mark is None or view not in states:
            return CoastState.HIDDEN
        return CoastState(states[view][number_of[feature.mark.name]])

    return look


def _nothing(feature: Feature, view: Viewpoint) -> CoastState:
    """No marks, nothing to see."""
    del feature, view
    return CoastState.HIDDEN
