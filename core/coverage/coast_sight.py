"""How the coast stands to one viewpoint: what is in sight, and how far inland land begins."""

from dataclasses import dataclass

import numpy as np

from core.base.arrays import ByteArray, Float32Array, HoldsArrays
from core.coverage.coast_cells import coast_round, points_near
from core.coverage.coverage_result import CoastState, SweepSettings
from core.coverage.sight import DEFAULT_INLAND_M, sight_of_coast
from core.coverage.terrain import Terrain
from core.geodesy.position import Position
from core.land.coast import CoastPoints


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CoastSight(HoldsArrays):
    """The coast from one viewpoint; fields as in ``ViewpointCoverage``."""

    state: ByteArray
    inland_m: Float32Array
    in_sight_fraction: float | None
    first_land_inland_m: float | None


def no_coast(points: CoastPoints) -> CoastSight:
    """The answer where no coast lies within the radius."""
    count = points.lat_deg.size
    return CoastSight(
        state=np.full(count, CoastState.OUTSIDE, dtype=np.uint8),
        inland_m=np.full(count, np.nan, dtype=np.float32),
        in_sight_fraction=None,
        first_land_inland_m=None,
    )


def coast_in_sight(
    terrain: Terrain, points: CoastPoints, position: Position, settings: SweepSettings
) -> CoastSight:
    """Look at every point of the coast within the sweep radius.

    Parameters
    ----------
    terrain : Terrain
        Land made ready.
    points : CoastPoints
        The coast.
    position : Position
        The antenna's place.
    settings : SweepSettings
        Antenna height, refraction, radius.
    """
    if not points_near(points, position, settings.radius_m).any():
        return no_coast(points)
    coast = coast_round(points, terrain.lattice, position, settings.radius_m)
    near = coast.near
    seen = sight_of_coast(
        terrain,
        position,
        coast.range_m,
        coast.bearing_rad,
        settings=settings,
        inland_limit_m=DEFAULT_INLAND_M,
    )
    state = np.full(near.size, CoastState.OUTSIDE, dtype=np.uint8)
    inland_m = np.full(near.size, np.nan, dtype=np.float32)
    state[near], inland_m[near] = seen.state, seen.inland_m
    length_m = points.length_m
    in_radius = state != CoastState.OUTSIDE
    whole_m = float(length_m[in_radius].sum())
    has_land = in_radius & np.isfinite(inland_m)
    with_land_m = float(length_m[has_land].sum())
    return CoastSight(
        state=state,
        inland_m=inland_m,
        in_sight_fraction=(
            float(length_m[state == CoastState.IN_SIGHT].sum()) / whole_m if whole_m > 0.0 else None
        ),
        first_land_inland_m=(
            float((length_m[has_land] * inland_m[has_land].astype(np.float64)).sum()) / with_land_m
            if with_land_m > 0.0
            else None
        ),
    )
