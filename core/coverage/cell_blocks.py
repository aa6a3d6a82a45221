"""Cells tested against the tiles of horizons: whole blocks where the answer is one, else singly."""

import math

import numpy as np

from core.base.arrays import ByteArray, FloatArray
from core.base.compiled import inlined, kernel
from core.coverage.horizon_tiles import TILE, Tiles, land_horizon
from core.coverage.local_map import Grid
from core.coverage.own_ray import own_horizon, rises_from
from core.coverage.rays import lowest_sight, polynomial, slope_at, water_slope
from core.coverage.terrain import BLOCK, UNKNOWN_BITS, Ground
from core.land.land_model import Cell

IN_SIGHT = 1
"""Bit 0: the target standing on the cell is in line of sight."""
UNCERTAIN = 2
"""Bit 1: the answer differs within the error of the heights."""
NO_DATA = 255
"""Outside the radius, or unknown."""
_HALF_CELL = 0.5
"""The horizon counts up to this many cells short of the target."""
_SEA_ONLY = 1 << Cell.SEA
_NEAR_CELLS = 48.0
"""Nearer than this every cell is tested alone: a block spans too many bearings."""
_HIDDEN, _SEEN, _MIXED = 0, 1, 2
_ANGLE_ERROR = 1e-4
"""Error of ``_turn``, turns, with a margin."""


@inlined
def _turn(east: float, north: float) -> float:
    """Bearing in turns from 0 to 1, good to 0.00005 (polynomial for the arc tangent)."""
    a = abs(east)
    b = abs(north)
    q = min(a, b) / max(max(a, b), 1e-300)
    s = q * q
    angle = ((-0.0464964749 * s + 0.15931422) * s - 0.327622764) * s * q + q
    if a > b:
        angle = 0.5 * math.pi - angle
    if north < 0.0:
        angle = math.pi - angle
    if east < 0.0:
        angle = 2.0 * math.pi - angle
    return float(angle / (2.0 * math.pi))


@inlined
def _slope_bounds(
    near_m: float, far_m: float, height_m: float, antenna_m: float, bend: float
) -> tuple[float, float]:
    """Least and greatest slope of one height between two ranges."""
    first = slope_at(near_m, height_m, antenna_m, bend)
    last = slope_at(far_m, height_m, antenna_m, bend)
    most = max(first, last)
    if height_m < antenna_m:
        # Rises to its greatest at this range, then falls.
        crest_m = math.sqrt((antenna_m - height_m) / bend)
        if near_m < crest_m < far_m:
            most = slope_at(crest_m, height_m, antenna_m, bend)
    return min(first, last), most


@inlined
def _over_water(
    near_m: float, far_m: float, target_m: float, half_m: float, antenna_m: float, bend: float
) -> int:
    """What the water alone does to targets on water between two ranges.

    ``half_m`` is the most that the horizon is kept short of them.
    """
    least, most = _slope_bounds(near_m, far_m, target_m, antenna_m, bend)
    if most < water_slope(near_m - half_m, antenna_m, bend):
        return _HIDDEN
    if target_m < 0.0 and -target_m > antenna_m * half_m / (near_m - half_m):
        # -t / r > h / s - h / r with s half a cell short of r: under the water in front.
        return _HIDDEN
    if target_m >= 0.0 and far_m * far_m * bend <= antenna_m:
        return _SEEN
    if least >= water_slope(far_m, antenna_m, bend):
        return _SEEN
    return _MIXED


@kernel
def _horizon_bounds(
    tiles: Tiles, turn: float, half_turn: float, near_m: float, far_m: float
) -> tuple[float, float, float]:
    """Least land horizon at the nearer range, greatest at the farther, least unknown range.

    Over all bearings within ``half_turn`` of ``turn``.
    """
    ring_m = tiles.step_m * TILE
    last = tiles.level_of.size - 2
    low = math.inf
    high = -math.inf
    unknown = math.inf
    for side in range(2):
        ring = min(int((near_m if side == 0 else far_m) / ring_m), last)
        level = tiles.level_of[ring]
        rays = tiles.rays[level]
        first_ring = tiles.first_ring[level]
        rings = tiles.first_ring[level + 1] - first_ring
        groups = rays // TILE
        base = tiles.first_tile[level] + ring - first_ring
        start = int(math.floor((turn - half_turn) * groups))
        stop = int(math.floor((turn + half_turn) * groups + 1.0 / TILE))
        for at in range(start, stop + 1):
            group = at % groups
            if side == 0:
                low = min(low, float(tiles.low[base + group * rings]))
            else:
                high = max(high, float(tiles.high[base + group * rings]))
                unknown = min(unknown, tiles.unknown_low_m[tiles.first_ray[level] // TILE + group])
    return low, high, unknown


@kernel
def test_blocks(
    ground: Ground,
    grid: Grid,
    tiles: Tiles,
    cell_high_m: float,
    cell_wide_m: float,
    radius_m: float,
    antenna_m: float,
    bend: float,
    target_m: float,
    error_m: float,
    close_m: float,
    is_exact: bool,
    top_row: int,
    left_col: int,
    first_block: int,
    stop_block: int,
    tags: ByteArray,
) -> None:
    """Tag the cells of some rows of blocks.

    ``tags`` holds NO_DATA before; its cell (0, 0) is (top_row, left_col) of the heights.
    ``cell_high_m`` and ``cell_wide_m`` are the greatest sizes of a cell within the radius.
    """
    heights, _cell, highest_in, codes, _free = ground
    count = grid.east_of.shape[0]
    east_row = np.empty((BLOCK + 1, count))
    north_row = np.empty((BLOCK + 1, count))
    row = np.empty(count)
    col = np.empty(count)
    half_row_m = (BLOCK - 1) / 2.0 * cell_high_m
    half_col_m = (BLOCK - 1) / 2.0 * cell_wide_m
    reach_m = math.hypot(half_row_m, half_col_m)
    half_m = _HALF_CELL * max(cell_high_m, cell_wide_m)
    near_limit_m = _NEAR_CELLS * max(cell_high_m, cell_wide_m)
    targets = np.array([target_m - error_m, target_m, target_m + error_m])
    slopes = np.empty(3)
    is_close = np.empty(3, dtype=np.bool_)
    is_seen = np.empty(3, dtype=np.bool_)
    first_col_block = max(left_col // BLOCK, 0)
    stop_col_block = min((left_col + tags.shape[1] - 1) // BLOCK + 1, codes.shape[1])
    for bi in range(first_block, stop_block):
        for p in range(BLOCK + 1):
            at = bi * BLOCK + (p if p < BLOCK else (BLOCK - 1) / 2.0)
            u = (at - grid.row0) / grid.half_rows
            for n in range(count):
                east_row[p, n] = polynomial(grid.east_of[:, n], u)
                north_row[p, n] = polynomial(grid.north_of[:, n], u)
        i0 = max(bi * BLOCK, top_row)
        i1 = min((bi + 1) * BLOCK, top_row + tags.shape[0])
        for bj in range(first_col_block, stop_col_block):
            v = (bj * BLOCK + (BLOCK - 1) / 2.0 - grid.col0) / grid.half_cols
            east = polynomial(east_row[BLOCK], v)
            north = polynomial(north_row[BLOCK], v)
            middle_m = math.hypot(east, north)
            near_m = middle_m - reach_m
            far_m = middle_m + reach_m
            bits = codes[bi, bj]
            if near_m > radius_m or bits & ~UNKNOWN_BITS == 0:
                continue
            j0 = max(bj * BLOCK, left_col)
            j1 = min((bj + 1) * BLOCK, left_col + tags.shape[1])
            least_height = -math.inf
            if near_m > near_limit_m:
                highest = float(highest_in[bi, bj])
                low, high, unknown = _horizon_bounds(
                    tiles,
                    _turn(east, north),
                    reach_m / near_m / (2.0 * math.pi) * 1.01 + _ANGLE_ERROR,
                    near_m - half_m,
                    far_m,
                )
                water = water_slope(near_m - half_m, antenna_m, bend)
                least = max(low, water)
                if far_m <= radius_m and bits & UNKNOWN_BITS == 0:
                    _l, most = _slope_bounds(
                        near_m, far_m, highest + targets[2], antenna_m, bend
                    )
                    if most < least:
                        for i in range(i0, i1):
                            for j in range(j0, j1):
                                tags[i - top_row, j - left_col] = 0
                        continue
                    if bits == _SEA_ONLY:
                        answer = 0
                        is_mixed = False
                        for n in range(3):
                            state = _over_water(
                                near_m, far_m, targets[n], half_m, antenna_m, bend
                            )
                            below, above = _slope_bounds(
                                near_m, far_m, targets[n], antenna_m, bend
                            )
                            if state != _HIDDEN:
                                if above < low:
                                    state = _HIDDEN
                                elif below < high:
                                    state = _MIXED
                            if state == _MIXED or (n == 1 and state == _SEEN and far_m >= unknown):
                                is_mixed = True
                            slopes[n] = state
                        if not is_mixed:
                            if slopes[1] == _SEEN:
                                answer = IN_SIGHT
                            if slopes[0] != slopes[2]:
                                answer |= UNCERTAIN
                            for i in range(i0, i1):
                                for j in range(j0, j1):
                                    tags[i - top_row, j - left_col] = answer
                            continue
                    # Cells under this height are hidden whatever the error.
                    least_height = (
                        lowest_sight(least, near_m, far_m, antenna_m, bend) - targets[2] - 1e-3
                    )
            middle_turn = math.atan2(east, north) / (2.0 * math.pi)
            for i in range(i0, i1):
                for j in range(j0, j1):
                    z = float(heights[i, j])
                    if z < least_height:
                        tags[i - top_row, j - left_col] = 0
                        continue
                    if math.isnan(z):
                        continue
                    v = (j - grid.col0) / grid.half_cols
                    e = polynomial(east_row[i - bi * BLOCK], v)
                    n_ = polynomial(north_row[i - bi * BLOCK], v)
                    distance = math.hypot(e, n_)
                    if distance > radius_m:
                        continue
                    run = math.hypot(i - grid.row0, j - grid.col0)
                    if abs(i - grid.row0) <= 0.5 and abs(j - grid.col0) <= 0.5:
                        tags[i - top_row, j - left_col] = IN_SIGHT
                        continue
                    # Bearing from that of the block's middle by the arc tangent's series.
                    across = e * north - n_ * east
                    along = e * east + n_ * north
                    if abs(across) < 0.1 * along:
                        q = across / along
                        s = q * q
                        turn = middle_turn + q * (1.0 - s * (1.0 / 3.0 - s * 0.2)) / (2.0 * math.pi)
                    else:
                        turn = math.atan2(e, n_) / (2.0 * math.pi)
                    if turn < 0.0:
                        turn += 1.0
                    cell_m = distance / run
                    short = distance - _HALF_CELL * cell_m
                    k = min(int(short / tiles.step_m), tiles.samples)
                    ring = k // TILE
                    level = tiles.level_of[ring]
                    rays = tiles.rays[level]
                    at_ray = turn * rays
                    left = int(at_ray)
                    weight = at_ray - left
                    if left >= rays:
                        left = 0
                    right = left + 1 if left + 1 < rays else 0
                    first = tiles.first_ring[level]
                    rings = tiles.first_ring[level + 1] - first
                    base = tiles.first_tile[level] + ring - first
                    one = land_horizon(
                        tiles, base + left // TILE * rings, left % TILE, k % TILE
                    )
                    two = land_horizon(
                        tiles, base + right // TILE * rings, right % TILE, k % TILE
                    )
                    first_ray = tiles.first_ray[level]
                    water = water_slope(short, antenna_m, bend)
                    one = max(one, water)
                    two = max(two, water)
                    horizon = one if one == two else one * (1.0 - weight) + two * weight
                    is_clear = short < min(
                        tiles.unknown_m[first_ray + left], tiles.unknown_m[first_ray + right]
                    )
                    least = min(one, two) - close_m / distance
                    most = max(one, two) + close_m / distance
                    needed = math.inf
                    for n in range(3):
                        slope = slope_at(distance, z + targets[n], antenna_m, bend)
                        slopes[n] = slope
                        is_seen[n] = slope >= horizon
                        is_close[n] = (
                            (one != water or two != water)
                            and least <= slope <= most
                            and (is_exact or n == 1)
                        )
                        if is_close[n]:
                            needed = min(needed, slope)
                    if needed < math.inf:
                        needed -= close_m / distance
                        from_m = rises_from(tiles, turn, short, needed)
                        top, is_own_clear = own_horizon(
                            ground, grid, e / distance, n_ / distance, cell_m, from_m, short,
                            needed, antenna_m, bend, row, col,
                        )  # fmt: skip
                        top = max(top, water)
                        if is_close[1]:
                            is_clear = is_own_clear and is_clear
                        for n in range(3):
                            if is_close[n]:
                                is_seen[n] = slopes[n] >= top
                    tag = 0
                    if is_seen[1]:
                        if not is_clear:
                            continue
                        tag = IN_SIGHT
                    if is_seen[0] != is_seen[2]:
                        tag |= UNCERTAIN
                    tags[i - top_row, j - left_col] = tag
