"""The sweep raster: every cell round a place tested at its own centre.

The horizon is smooth from ray to ray, the heights of cells are not. So the land horizon is traced
on rays all round, and each cell is tested at its own range and height against the horizon half a
cell short of it, interpolated between the two rays beside it. Where that test is close, or the
two rays disagree, the cell gets a ray of its own. The planning setting traces one ray a cell at
the radius in half-cell steps, the exact setting two in quarter-cell steps; there the heights
that decide the uncertain bit may get a ray of their own too.
"""

import math
from dataclasses import dataclass

import numpy as np

from core.base.arrays import ByteArray, FloatArray, HoldsArrays, IntArray
from core.base.compiled import inlined, kernel
from core.base.constants import EARTH_RADIUS_M
from core.base.progress import Progress, Quiet
from core.coverage.local_map import Grid, LocalMap, local_map
from core.coverage.rays import aim, polynomial, samples_before, slope_at, trace, water_slope
from core.coverage.terrain import Ground, Terrain
from core.geodesy.position import Position
from core.land.lattice import Lattice

IN_SIGHT = 1
"""Bit 0: the target standing on the cell is in line of sight."""
UNCERTAIN = 2
"""Bit 1: the answer differs within the error of the heights."""
NO_DATA = 255
"""Outside the radius, or unknown."""
_OUTSIDE = 254
_PLANNING_STEP_CELLS = 0.5
_EXACT_STEP_CELLS = 0.25
_OWN_STEP_CELLS = 0.25
_SHORT_OF_TARGET_CELLS = 0.5
_ROWS_A_REPORT = 256
_CLOSE_M = 1.0
"""A cell is tested again on a ray of its own when this much height could change the answer."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CellSweep(HoldsArrays):
    """A sweep raster.

    ``tags`` (rows, cols) uint8 of ``lattice``: bit 0 in sight, bit 1 uncertain, 255 outside the
    radius or unknown.
    """

    lattice: Lattice
    tags: ByteArray


@kernel
def _trace_all(
    ground: Ground,
    grid: Grid,
    radius_m: float,
    step_cells: float,
    antenna_m: float,
    bend: float,
    first_rise: IntArray,
    unknown_from: FloatArray,
    short_m: FloatArray,
) -> tuple[FloatArray, FloatArray]:
    """Trace rays all round; return ranges and slopes of all rises, ray after ray.

    The rises of ray a are ``first_rise[a]`` to ``first_rise[a + 1]``; ``short_m`` is half a cell
    along it.
    """
    row = np.empty(grid.row_of.shape[0])
    col = np.empty(grid.row_of.shape[0])
    unknown_m = np.empty(3)
    rays = short_m.size
    ranges = np.empty(64 * rays)
    slopes = np.empty(64 * rays)
    used = 0
    for a in range(rays):
        bearing = 2.0 * math.pi * a / rays
        ray = aim(grid, math.sin(bearing), math.cos(bearing), radius_m, step_cells, row, col)
        last = samples_before(radius_m, ray)
        if used + last > ranges.size:
            more = np.empty(2 * ranges.size + last)
            more[:used] = ranges[:used]
            ranges = more
            more = np.empty(ranges.size)
            more[:used] = slopes[:used]
            slopes = more
        _top, rises = trace(
            ground,
            ray,
            last,
            antenna_m,
            bend,
            math.inf,
            ranges[used : used + last],
            slopes[used : used + last],
            unknown_m,
        )
        first_rise[a] = used
        used += rises
        unknown_from[a] = unknown_m.min()
        short_m[a] = _SHORT_OF_TARGET_CELLS * ray.cell_m
    first_rise[rays] = used
    return ranges[:used].copy(), slopes[:used].copy()


@inlined
def _horizon_before(
    range_m: float, ranges: FloatArray, slopes: FloatArray, low: int, high: int
) -> float:
    """Slope of the land horizon of the rises ``low`` to ``high`` before a range."""
    first = low
    while low < high:
        middle = (low + high) // 2
        if ranges[middle] <= range_m:
            low = middle + 1
        else:
            high = middle
    return slopes[low - 1] if low > first else -math.inf


@kernel
def _test_cells(
    ground: Ground,
    grid: Grid,
    first_rise: IntArray,
    unknown_from: FloatArray,
    short_m: FloatArray,
    ranges: FloatArray,
    slopes: FloatArray,
    radius_m: float,
    step_cells: float,
    antenna_m: float,
    bend: float,
    target_m: float,
    error_m: float,
    is_exact: bool,
    top_row: int,
    left_col: int,
    tags: ByteArray,
) -> None:
    """Fill ``tags``, whose cell (0, 0) is (top_row, left_col) of the heights."""
    count = grid.east_of.shape[0]
    east_row = np.empty(count)
    north_row = np.empty(count)
    row = np.empty(count)
    col = np.empty(count)
    none = np.empty(0)
    unknown_m = np.empty(3)
    rays = short_m.size
    per_radian = rays / (2.0 * math.pi)
    for ii in range(tags.shape[0]):
        i = top_row + ii
        u = (i - grid.row0) / grid.half_rows
        for n in range(count):
            east_row[n] = polynomial(grid.east_of[:, n], u)
            north_row[n] = polynomial(grid.north_of[:, n], u)
        for jj in range(tags.shape[1]):
            j = left_col + jj
            v = (j - grid.col0) / grid.half_cols
            east = polynomial(east_row, v)
            north = polynomial(north_row, v)
            distance = math.hypot(east, north)
            if distance > radius_m:
                tags[ii, jj] = _OUTSIDE
                continue
            tags[ii, jj] = NO_DATA
            if not (0 <= i < ground.heights.shape[0] and 0 <= j < ground.heights.shape[1]):
                continue
            z = float(ground.heights[i, j])
            if math.isnan(z):
                continue
            if abs(i - grid.row0) <= 0.5 and abs(j - grid.col0) <= 0.5:
                tags[ii, jj] = IN_SIGHT
                continue
            angle = math.atan2(east, north) * per_radian
            if angle < 0.0:
                angle += rays
            left = int(angle)
            weight = angle - left
            if left >= rays:
                left = 0
            right = left + 1 if left + 1 < rays else 0
            short = distance - short_m[left]
            one = _horizon_before(short, ranges, slopes, first_rise[left], first_rise[left + 1])
            two = _horizon_before(short, ranges, slopes, first_rise[right], first_rise[right + 1])
            water = water_slope(short, antenna_m, bend)
            one = max(one, water)
            two = max(two, water)
            horizon = one if one == two else one * (1.0 - weight) + two * weight
            is_clear = short < min(unknown_from[left], unknown_from[right])
            slope = slope_at(distance, z + target_m, antenna_m, bend)
            higher = slope_at(distance, z + target_m + error_m, antenna_m, bend)
            lower = slope_at(distance, z + target_m - error_m, antenna_m, bend)
            own = higher_own = lower_own = horizon
            if one != water or two != water:
                close = _CLOSE_M / distance
                least = min(one, two) - close
                most = max(one, two) + close
                is_close = least <= slope <= most
                higher_close = is_exact and least <= higher <= most
                lower_close = is_exact and least <= lower <= most
                if is_close or higher_close or lower_close:
                    ray = aim(
                        grid, east / distance, north / distance, radius_m, step_cells, row, col
                    )
                    top, _rises = trace(
                        ground,
                        ray,
                        samples_before(short, ray),
                        antenna_m,
                        bend,
                        math.inf,
                        none,
                        none,
                        unknown_m,
                    )
                    top = max(top, water)
                    if is_close:
                        own = top
                        is_clear = unknown_m.min() == math.inf
                    if higher_close:
                        higher_own = top
                    if lower_close:
                        lower_own = top
            tag = 0
            if slope >= own:
                if not is_clear:
                    continue
                tag = IN_SIGHT
            if (higher >= higher_own) != (lower >= lower_own):
                tag |= UNCERTAIN
            tags[ii, jj] = tag


def _window(here: LocalMap) -> tuple[int, int, int, int]:
    """Top row, left column, rows and columns that hold the circle round the place."""
    top = math.floor(here.row0 - here.half_rows)
    left = math.floor(here.col0 - here.half_cols)
    rows = math.ceil(here.row0 + here.half_rows) - top + 1
    cols = math.ceil(here.col0 + here.half_cols) - left + 1
    return top, left, rows, cols


def sweep_cells(
    terrain: Terrain,
    position: Position,
    *,
    antenna_height_m: float,
    refraction_k: float,
    radius_m: float,
    target_height_m: float,
    height_error_m: float,
    is_exact: bool,
    progress: Progress | None = None,
) -> CellSweep:
    """Test every cell whose centre lies within a radius.

    Parameters
    ----------
    terrain : Terrain
        Land made ready.
    position : Position
        The antenna, not snapped to a cell; the cell it stands on is in sight.
    antenna_height_m : float
        Above the water now, m, > 0.
    refraction_k : float
        Effective Earth radius factor, bare.
    radius_m : float
        Geodesic radius, m.
    target_height_m : float
        Height of the target above the surface of the cell, m.
    height_error_m : float
        Error of the heights, m: a cell is uncertain when targets this much higher and lower
        get different answers.
    is_exact : bool
        The exact setting instead of the planning setting.
    progress : Progress, optional
        Told of the work; may stop it.

    Returns
    -------
    CellSweep
        On the bounding box of the cells, continued past the data. Cells of unknown height, and
        cells behind one that known land does not hide, are 255.
    """
    here = local_map(terrain.lattice, position, radius_m)
    bend = 1.0 / (2.0 * refraction_k * EARTH_RADIUS_M)
    quarter = max(16, math.ceil(0.5 * math.pi * radius_m / here.least_cell_m))
    rays = (8 if is_exact else 4) * quarter
    first_rise = np.empty(rays + 1, dtype=np.int64)
    unknown_from = np.empty(rays)
    short_m = np.empty(rays)
    ranges, slopes = _trace_all(
        terrain.ground,
        here.grid,
        radius_m,
        _EXACT_STEP_CELLS if is_exact else _PLANNING_STEP_CELLS,
        antenna_height_m,
        bend,
        first_rise,
        unknown_from,
        short_m,
    )
    top, left, rows, cols = _window(here)
    tags = np.empty((rows, cols), dtype=np.uint8)
    teller = progress or Quiet()
    for done in range(0, rows, _ROWS_A_REPORT):
        teller.report(done / rows, "sweeping")
        _test_cells(
            terrain.ground,
            here.grid,
            first_rise,
            unknown_from,
            short_m,
            ranges,
            slopes,
            radius_m,
            _OWN_STEP_CELLS,
            antenna_height_m,
            bend,
            target_height_m,
            height_error_m,
            is_exact,
            top + done,
            left,
            tags[done : done + _ROWS_A_REPORT],
        )
    inside = tags != _OUTSIDE
    rows_in, cols_in = np.flatnonzero(inside.any(axis=1)), np.flatnonzero(inside.any(axis=0))
    if rows_in.size == 0:
        # A radius smaller than a cell may hold no centre: the antenna's own cell stands alone.
        row, col = round(here.row0), round(here.col0)
        rows_in, cols_in = np.array([row - top]), np.array([col - left])
    box = (slice(rows_in[0], rows_in[-1] + 1), slice(cols_in[0], cols_in[-1] + 1))
    cut = np.where(inside[box], tags[box], np.uint8(NO_DATA))
    return CellSweep(
        lattice=terrain.lattice.part(
            row=top + int(rows_in[0]),
            col=left + int(cols_in[0]),
            rows=cut.shape[0],
            cols=cut.shape[1],
        ),
        tags=cut,
    )
