"""Which points are in sight from a place, each by a ray of its own."""

import math
from typing import NamedTuple

import numpy as np

from core.base.arrays import ByteArray, Float32Array, FloatArray
from core.base.compiled import bare
from core.base.constants import EARTH_RADIUS_M, NAUTICAL_MILE_M, UNKNOWN_HEIGHT_ASSUMED_M
from core.coverage.coverage_result import CoastState, SweepSettings
from core.coverage.local_map import Grid, local_map
from core.coverage.ray_course import Ray, aim, leg_from, polynomial, samples_before
from core.coverage.rays import (
    UNKNOWN_CODES,
    height_at,
    is_inside,
    lowest_sight,
    slope_at,
    steps_inside,
    trace,
    water_slope,
)
from core.coverage.terrain import BLOCK, FIELD, Ground, Terrain
from core.geodesy.position import Position
from core.land.land_model import Cell

DEFAULT_INLAND_M = 5.0 * NAUTICAL_MILE_M
"""How far inland land in sight is searched for behind a hidden coast, m."""
_PLANNING_STEP_CELLS = 0.5
_EXACT_STEP_CELLS = 0.25
_SHORT_OF_TARGET_CELLS = 0.5
"""What lies within half a cell of a target belongs to the target and does not hide it."""
_COAST_M = 100.0
_WATER_GAP_CELLS = 2.5
"""Water of two cells, seen in half-cell steps, does not end a run of land."""
_ALMOST_HERE_M = 1e-3

_SEA = int(Cell.SEA)
_LAND = int(Cell.LAND)
_LAND_ONLY = 1 << _LAND
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


@bare
def _target(
    ground: Ground,
    ray: Ray,
    distance: float,
    target_m: float,
    horizon: float,
    is_clear: bool,
    antenna_m: float,
    bend: float,
) -> tuple[int, float, float]:
    """State, distance behind the point and surface height of a target at the end of a ray."""
    y = polynomial(ray.row, distance / ray.scale_m)
    x = polynomial(ray.col, distance / ray.scale_m)
    if not is_inside(ground.codes, y, x):
        return _UNKNOWN, math.nan, math.nan
    z, bits = height_at(ground.heights, ground.cell, y, x)
    if bits:
        return _UNKNOWN, math.nan, math.nan
    if slope_at(max(distance, _ALMOST_HERE_M), z + target_m, antenna_m, bend) < horizon:
        return _HIDDEN, math.nan, z
    if not is_clear:
        return _UNKNOWN, math.nan, z
    return _IN_SIGHT, 0.0, z


@bare
def _coast(
    ground: Ground,
    ray: Ray,
    first: int,
    distance: float,
    limit_m: float,
    top: float,
    is_clear: bool,
    antenna_m: float,
    bend: float,
) -> tuple[int, float, float]:
    """Walk on over the land at and behind a coast point to the first surface in sight."""
    # Fields of the tuples are read once: each reading counts a reference.
    heights, cell, codes, highest_in = ground.heights, ground.cell, ground.codes, ground.highest
    row, col, scale_m, _cell_m, step_m, _cells_per_step, leg = ray
    until = -1
    y0 = x0 = dy = dx = 0.0
    window_m = max(ray.cell_m, _COAST_M)
    ashore_m = distance
    k = first
    while k * step_m <= limit_m:
        r = k * step_m
        if r > distance + window_m and r - ashore_m > _WATER_GAP_CELLS * ray.cell_m:
            break
        if k >= until:
            # A leg of the ray, straight in the lattice.
            until = k + leg
            y0, x0, dy, dx = leg_from(row, col, scale_m, step_m, leg, k)
        y = y0 + (k - until + leg) * dy
        x = x0 + (k - until + leg) * dx
        if not is_inside(codes, y, x):
            break
        horizon = max(top, water_slope(r - step_m, antenna_m, bend))
        if codes[int(y) // BLOCK, int(x) // BLOCK] == _LAND_ONLY:
            # Land too low to be in sight is passed over by the block.
            within = min(steps_inside(y, x, dy, dx, BLOCK), until - k)
            far_m = r + (within - 1) * step_m
            highest = float(highest_in[int(y) // BLOCK, int(x) // BLOCK])
            if highest < lowest_sight(horizon, r, far_m, antenna_m, bend):
                ashore_m = far_m
                k += within
                continue
        z, bits = height_at(heights, cell, y, x)
        if bits:
            is_clear = False
            z = max(z, UNKNOWN_HEIGHT_ASSUMED_M)
        i, j = int(y + 0.5), int(x + 0.5)
        if cell[i, j] != _SEA:
            ashore_m = r
        # A cell of land has its own height somewhere in it, between samples or beside the ray:
        # a rock of one cell must not be lost for that. It hides no more than the surface does.
        whole = max(z, float(heights[i, j])) if cell[i, j] == _LAND else z
        if slope_at(r, whole, antenna_m, bend) >= horizon:
            if not is_clear:
                return _UNKNOWN, math.nan, math.nan
            if cell[i, j] == _LAND:
                if r <= distance + window_m:
                    return _IN_SIGHT, 0.0, whole
                return _LAND_BEHIND, r - distance, whole
        top = max(top, slope_at(r, z, antenna_m, bend))
        k += 1
    return _HIDDEN, math.nan, math.nan


@bare
def _most_behind(
    ground: Ground, ray: Ray, first: int, limit_m: float, antenna_m: float, bend: float
) -> float:
    """A slope that no known land on a ray exceeds, from a sample to a range.

    By fields of blocks; infinite where something there is not known.
    """
    codes, fields = ground.codes, ground.fields
    row, col, scale_m, _cell_m, step_m, _cells_per_step, leg = ray
    most = -math.inf
    until = -1
    y0 = x0 = dy = dx = 0.0
    k = first
    while k * step_m <= limit_m:
        r = k * step_m
        if k >= until:
            until = k + leg
            y0, x0, dy, dx = leg_from(row, col, scale_m, step_m, leg, k)
        y = y0 + (k - until + leg) * dy
        x = x0 + (k - until + leg) * dx
        if not is_inside(codes, y, x):
            return math.inf
        highest = float(fields[int(y) // (BLOCK * FIELD), int(x) // (BLOCK * FIELD)])
        if not highest < math.inf:
            return math.inf
        within = min(steps_inside(y, x, dy, dx, BLOCK * FIELD), until - k)
        far_m = r + (within - 1) * step_m
        top_m = r
        if highest < antenna_m:
            top_m = min(max(math.sqrt((antenna_m - highest) / bend), r), far_m)
        most = max(most, slope_at(top_m, highest, antenna_m, bend))
        k += within
    return most


@bare
def _sight(
    ground: Ground,
    grid: Grid,
    row: FloatArray,
    col: FloatArray,
    none: FloatArray,
    unknown_m: FloatArray,
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
    """Fill the three outputs; a negative ``inland_limit_m`` asks for targets, not coast.

    ``row`` to ``unknown_m`` are room for a ray; ``none`` is empty.
    """
    for p in range(range_m.size):
        distance = range_m[p]
        if not distance <= radius_m:
            state[p] = _OUTSIDE
            inland_m[p] = math.nan
            height_m[p] = math.nan
            continue
        east, north = math.sin(bearing_rad[p]), math.cos(bearing_rad[p])
        ray = aim(grid, east, north, radius_m, step_cells, row, col)
        short_m = distance - _SHORT_OF_TARGET_CELLS * ray.cell_m
        last = samples_before(short_m, ray)
        limit_m = min(distance + max(inland_limit_m, ray.cell_m, _COAST_M), radius_m)
        enough = math.inf
        if inland_limit_m >= 0.0:
            enough = _most_behind(ground, ray, last + 1, limit_m, antenna_m, bend)
        top, _rises = trace(
            ground, ray, last, antenna_m, bend, math.inf, none, none, unknown_m, enough
        )
        if top > enough:
            # Nothing at or behind the point stands over what hides it.
            state[p], inland_m[p], height_m[p] = _HIDDEN, math.nan, math.nan
            continue
        is_clear = True
        for code in range(UNKNOWN_CODES):
            is_clear &= unknown_m[code] == math.inf
        if inland_limit_m < 0.0:
            horizon = max(top, water_slope(short_m, antenna_m, bend))
            found = _target(ground, ray, distance, target_m[p], horizon, is_clear, antenna_m, bend)
        else:
            found = _coast(ground, ray, last + 1, distance, limit_m, top, is_clear, antenna_m, bend)
        state[p], inland_m[p], height_m[p] = found


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
        None asks about targets, a distance about coast (``sight_of_coast``).

    Returns
    -------
    PointSight
        A point behind an unknown height is UNKNOWN unless known land hides it.
    """
    row, col = terrain.lattice.row_col(lat_deg, lon_deg)
    here = local_map(terrain.lattice, position, settings.radius_m)
    range_m, bearing_deg = here.range_bearing(row, col)
    target_m = np.ascontiguousarray(np.broadcast_to(np.float64(target_height_m), range_m.shape))
    limit_m = -1.0 if inland_limit_m is None else inland_limit_m
    return _seen(terrain, position, range_m, np.radians(bearing_deg), target_m, limit_m, settings)


def sight_of_coast(
    terrain: Terrain,
    position: Position,
    range_m: FloatArray,
    bearing_rad: FloatArray,
    *,
    settings: SweepSettings,
    inland_limit_m: float,
) -> PointSight:
    """Tell which points of the coast are in sight, or land behind them.

    Asked is whether land within one cell or 100 m (whichever is more) at or beyond the point is
    in sight, and if not, how far in behind it on the same run of land the first land in sight
    lies.

    Parameters
    ----------
    terrain, position, settings
        As for ``sight_of_points``.
    range_m, bearing_rad : (n,) arrays
        The points as seen from the place (``coast_round``).
    inland_limit_m : float
        How far in land is looked for, m.
    """
    none = np.zeros(range_m.shape)
    return _seen(terrain, position, range_m, bearing_rad, none, inland_limit_m, settings)


def _seen(
    terrain: Terrain,
    position: Position,
    range_m: FloatArray,
    bearing_rad: FloatArray,
    target_m: FloatArray,
    inland_limit_m: float,
    settings: SweepSettings,
) -> PointSight:
    count = range_m.size
    result = PointSight(
        state=np.empty(count, dtype=np.uint8),
        inland_m=np.empty(count, dtype=np.float32),
        height_m=np.empty(count, dtype=np.float32),
    )
    grid = local_map(terrain.lattice, position, settings.radius_m).grid
    order = grid.row_of.shape[0]
    _sight(
        terrain.ground,
        grid,
        np.empty(order),
        np.empty(order),
        np.empty(0),
        np.empty(UNKNOWN_CODES),
        range_m,
        bearing_rad,
        target_m,
        settings.radius_m,
        _EXACT_STEP_CELLS if settings.is_exact else _PLANNING_STEP_CELLS,
        settings.antenna_height_m,
        1.0 / (2.0 * settings.refraction_k * EARTH_RADIUS_M),
        inland_limit_m,
        *result,
    )
    return result
