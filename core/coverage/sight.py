"""Which points are in sight from a place, each by a ray of its own."""

import math
from typing import NamedTuple

import numpy as np

from core.base.arrays import ByteArray, Float32Array, FloatArray, IntArray
from core.base.compiled import kernel
from core.base.constants import EARTH_RADIUS_M, NAUTICAL_MILE_M
from core.coverage.local_map import local_map
from core.coverage.rays import (
    bilinear,
    cells_per_m,
    partly_known,
    polynomial,
    ray_polynomials,
    slope_at,
    trace,
    water_slope,
)
from core.coverage.result import CoastState, SweepSettings
from core.coverage.terrain import BLOCK, Terrain
from core.geodesy.position import Position
from core.land.land_model import Cell

DEFAULT_INLAND_M = 5.0 * NAUTICAL_MILE_M
"""How far inland land in sight is searched for behind a hidden coast, m."""
_PLANNING_STEP_CELLS = 0.5
_EXACT_STEP_CELLS = 0.25
_SHORT_OF_TARGET_CELLS = 0.5
"""What lies within half a cell of a target belongs to the target and does not hide it."""
_COAST_M = 100.0
_WATER_GAP_CELLS = 2.0

_SEA = int(Cell.SEA)
_LAND = int(Cell.LAND)
_HIDDEN = int(CoastState.HIDDEN)
_IN_SIGHT = int(CoastState.IN_SIGHT)
_LAND_BEHIND = int(CoastState.LAND_BEHIND)
_OUTSIDE = int(CoastState.OUTSIDE)
_UNKNOWN = int(CoastState.UNKNOWN)


class PointSight(NamedTuple):
    """How points stand to a place.

    state : (n,) uint8
        ``CoastState`` codes; targets are HIDDEN, IN_SIGHT, OUTSIDE or UNKNOWN.
    inland_m : (n,) float32
        How far behind the point the first land in sight lies, m; 0 at the point, NaN without.
    height_m : (n,) float32
        Height above water of the surface in sight (coast) or at the point (target), m.
    """

    state: ByteArray
    inland_m: Float32Array
    height_m: Float32Array


@kernel
def _sight(
    heights: Float32Array,
    cell: ByteArray,
    block_highest: Float32Array,
    block_codes: ByteArray,
    block_free: IntArray,
    row_of: FloatArray,
    col_of: FloatArray,
    scale_m: float,
    range_m: FloatArray,
    bearing_rad: FloatArray,
    target_m: FloatArray,
    radius_m: float,
    step_cells: float,
    antenna_m: float,
    bend: float,
    inland_limit_m: float,
    state: ByteArray,
    inland_m: Float32Array,
    height_m: Float32Array,
) -> None:
    """Fill the three outputs; a negative ``inland_limit_m`` asks for targets, not coast."""
    row_ray = np.empty(row_of.shape[0])
    col_ray = np.empty(row_of.shape[0])
    none = np.empty(0)
    unknown_m = np.empty(3)
    rows = block_free.shape[0] * BLOCK
    cols = block_free.shape[1] * BLOCK
    for p in range(range_m.size):
        distance = range_m[p]
        inland_m[p] = np.nan
        height_m[p] = np.nan
        if not distance <= radius_m:
            state[p] = _OUTSIDE
            continue
        ray_polynomials(
            row_of, col_of, math.sin(bearing_rad[p]), math.cos(bearing_rad[p]), row_ray, col_ray
        )
        speed = cells_per_m(row_ray, col_ray, scale_m, 0.0)
        fastest = max(speed, cells_per_m(row_ray, col_ray, scale_m, radius_m)) * 1.01
        step_m = step_cells / speed
        short_m = distance - _SHORT_OF_TARGET_CELLS / speed
        last = max(int(short_m / step_m + 1e-6), 0)
        top, _rises = trace(
            heights,
            cell,
            block_highest,
            block_codes,
            block_free,
            row_ray,
            col_ray,
            scale_m,
            step_m,
            fastest * step_m,
            last,
            antenna_m,
            bend,
            math.inf,
            none,
            none,
            unknown_m,
        )
        is_clear = unknown_m.min() == math.inf
        if inland_limit_m < 0.0:
            y = polynomial(row_ray, distance / scale_m)
            x = polynomial(col_ray, distance / scale_m)
            if not (0.0 <= y < rows and 0.0 <= x < cols):
                state[p] = _UNKNOWN
                continue
            i = int(y)
            j = int(x)
            z = bilinear(heights, i, j, y - i, x - j)
            if math.isnan(z):
                z, bits = partly_known(heights, cell, i, j, y - i, x - j)
                if bits:
                    state[p] = _UNKNOWN
                    continue
            height_m[p] = z
            slope = slope_at(max(distance, 1e-3), z + target_m[p], antenna_m, bend)
            if slope < max(top, water_slope(short_m, antenna_m, bend)):
                state[p] = _HIDDEN
            elif is_clear:
                state[p] = _IN_SIGHT
                inland_m[p] = 0.0
            else:
                state[p] = _UNKNOWN
            continue
        # Coast: walk on over the land at and behind the point to the first surface in sight.
        state[p] = _HIDDEN
        window_m = max(1.0 / speed, _COAST_M)
        limit_m = min(distance + max(inland_limit_m, window_m), radius_m)
        ashore_m = distance
        k = last
        while True:
            k += 1
            r = k * step_m
            if r > limit_m or (r > distance + window_m and r - ashore_m > _WATER_GAP_CELLS / speed):
                break
            y = polynomial(row_ray, r / scale_m)
            x = polynomial(col_ray, r / scale_m)
            if not (0.0 <= y < rows and 0.0 <= x < cols):
                break
            i = int(y)
            j = int(x)
            z = bilinear(heights, i, j, y - i, x - j)
            if math.isnan(z):
                z, bits = partly_known(heights, cell, i, j, y - i, x - j)
                if bits:
                    is_clear = False
            code = cell[int(y + 0.5), int(x + 0.5)]
            slope = slope_at(r, z, antenna_m, bend)
            if code != _SEA:
                ashore_m = r
            if slope >= max(top, water_slope(r - step_m, antenna_m, bend)):
                if not is_clear:
                    state[p] = _UNKNOWN
                    break
                if code == _LAND:
                    at_coast = r <= distance + window_m
                    state[p] = _IN_SIGHT if at_coast else _LAND_BEHIND
                    inland_m[p] = 0.0 if at_coast else r - distance
                    height_m[p] = z
                    break
                top = slope


def sight_of_points(
    terrain: Terrain,
    position: Position,
    lat_deg: FloatArray,
    lon_deg: FloatArray,
    *,
    settings: SweepSettings,
    target_height_m: FloatArray | float = 0.0,
    inland_limit_m: float | None = None,
) -> PointSight:
    """Tell which points are in sight over the effective Earth.

    Parameters
    ----------
    terrain : Terrain
        Land made ready.
    position : Position
        The antenna's place.
    lat_deg, lon_deg : (n,) arrays
        The points, deg.
    settings : SweepSettings
        Antenna height, refraction, radius and how finely rays are sampled.
    target_height_m : (n,) array or float
        Height of a target standing on the surface at each point, m; not used for coast.
    inland_limit_m : float or None
        None asks about targets. A distance asks about coast: is land within one cell or 100 m
        (whichever is more) at or beyond the point in sight, and if not, how far in behind it on
        the same run of land, up to this distance, is the first land in sight.

    Returns
    -------
    PointSight
        A point behind an unknown height is UNKNOWN unless known land hides it.
    """
    row, col = terrain.lattice.row_col(lat_deg, lon_deg)
    here = local_map(terrain.lattice, position, settings.radius_m)
    range_m, bearing_deg = here.range_bearing(row, col)
    count = range_m.size
    result = PointSight(
        state=np.empty(count, dtype=np.uint8),
        inland_m=np.empty(count, dtype=np.float32),
        height_m=np.empty(count, dtype=np.float32),
    )
    _sight(
        terrain.heights_m,
        terrain.cell,
        terrain.block_highest_m,
        terrain.block_codes,
        terrain.block_free,
        here.row_of,
        here.col_of,
        here.scale_m,
        range_m,
        np.radians(bearing_deg),
        np.ascontiguousarray(np.broadcast_to(np.float64(target_height_m), (count,))),
        settings.radius_m,
        _EXACT_STEP_CELLS if settings.is_exact else _PLANNING_STEP_CELLS,
        settings.antenna_height_m,
        1.0 / (2.0 * settings.refraction_k * EARTH_RADIUS_M),
        -1.0 if inland_limit_m is None else inland_limit_m,
        *result,
    )
    return result
