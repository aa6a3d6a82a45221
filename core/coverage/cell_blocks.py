"""Blocks of cells whose answer is one for all of them, found by bounds.

A block lies between two ranges and two bearings. Of the land horizons that could count for its
cells the tiles know the least and the greatest; slopes of its heights have bounds in closed form.
If the greatest slope stays under the least horizon all its targets are hidden; if it is all sea
and the least slope is not under the greatest horizon they are in sight. Large blocks that neither
holds for are split, the smallest are left to be tested cell by cell.
"""

import math

import numpy as np

from core.base.arrays import ByteArray, FloatArray, IntArray
from core.base.compiled import inlined, kernel
from core.coverage.cell_places import (
    EAST,
    EAST_DOWN,
    EAST_RIGHT,
    HALF_CELL,
    NORTH,
    NORTH_DOWN,
    NORTH_RIGHT,
    SQUARE,
)
from core.coverage.local_map import Grid
from core.coverage.ray_course import polynomial
from core.coverage.rays import slope_at, water_slope
from core.coverage.surface import column_value
from core.coverage.terrain import UNKNOWN_BITS, Ground
from core.coverage.tile_layout import TILE, TILE_BITS, Tiles
from core.land.land_model import Cell

IN_SIGHT = 1
"""Bit 0: the target standing on the cell is in line of sight."""
UNCERTAIN = 2
"""Bit 1: the answer differs within the error of the heights."""
NO_DATA = 255
"""Outside the radius, or unknown."""
CLOSE_M = 0.5
"""A cell is tested on a ray of its own when this much height could change the answer; with 0.3 m
what a wall hides at 24 NM was wrong by more than 0.1 m."""
_MOST_BLOCKS = 8
_LARGEST_M = 6000.0
"""Across so much east and north are bilinear in row and column to 0.4 m, outside the polar
regions."""
_SEA_ONLY = 1 << Cell.SEA
_NEAR_SIDES = 6.0
"""Squares nearer than this many of their sides span too many bearings to be looked at as one."""
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
def _least_slope(
    near_m: float, far_m: float, height_m: float, antenna_m: float, bend: float
) -> float:
    """Least slope of one height between two ranges."""
    return min(
        slope_at(near_m, height_m, antenna_m, bend), slope_at(far_m, height_m, antenna_m, bend)
    )


@inlined
def _greatest_slope(
    near_m: float, far_m: float, height_m: float, antenna_m: float, bend: float
) -> float:
    """Greatest slope of one height between two ranges; below the antenna it rises and falls."""
    r = near_m
    if height_m < antenna_m:
        r = min(max(math.sqrt((antenna_m - height_m) / bend), near_m), far_m)
    return slope_at(r, height_m, antenna_m, bend)


@inlined
def _state(
    near_m: float,
    far_m: float,
    half_m: float,
    height_m: float,
    low: float,
    high: float,
    antenna_m: float,
    bend: float,
) -> int:
    """Whether all targets at one height over the sea between two ranges are hidden or in sight.

    ``low`` and ``high`` bound the land horizon before them, ``half_m`` is the most that the
    horizon is kept short of them.
    """
    greatest = _greatest_slope(near_m, far_m, height_m, antenna_m, bend)
    short_m = near_m - half_m
    if greatest < low or greatest < water_slope(short_m, antenna_m, bend):
        return _HIDDEN
    if height_m < 0.0 and -height_m > antenna_m * half_m / short_m:
        # z / r < h / r - h / s with s half a cell short of r: under the water in front.
        return _HIDDEN
    least = _least_slope(near_m, far_m, height_m, antenna_m, bend)
    if least < high:
        return _MIXED
    if height_m >= 0.0 and far_m * far_m * bend <= antenna_m:
        # Nearer than the horizon of the sea, no lower than the water.
        return _SEEN
    return _SEEN if least >= water_slope(far_m, antenna_m, bend) else _MIXED


def coarse_side(cell_m: float) -> int:
    """Blocks along the side of the largest square that is looked at as one, a power of two.

    ``cell_m`` is the greatest size of a cell, m.
    """
    side = _MOST_BLOCKS
    while side > 1 and side * SQUARE * cell_m > _LARGEST_M:
        side //= 2
    return side


@kernel
def sort_blocks(
    ground: Ground,
    grid: Grid,
    tiles: Tiles,
    cell_high_m: float,
    cell_wide_m: float,
    coarse_blocks: int,
    radius_m: float,
    antenna_m: float,
    bend: float,
    target_m: float,
    error_m: float,
    top_row: int,
    left_col: int,
    first_block: int,
    stop_block: int,
    tags: ByteArray,
    mixed: IntArray,
    lie: FloatArray,
) -> int:
    """Tag the blocks of some rows that can be tagged whole, and list the others.

    Parameters
    ----------
    ground, grid, tiles
        The terrain, the local map, the horizons.
    cell_high_m, cell_wide_m : float
        The greatest sizes of a cell within the radius, m.
    coarse_blocks : int
        As ``coarse_side`` tells.
    radius_m, antenna_m, bend, target_m, error_m : float
        As in ``sweep_cells``; ``bend`` is 1 / (2 k R).
    top_row, left_col : int
        Row and column of the heights where cell (0, 0) of ``tags`` lies.
    first_block, stop_block : int
        Rows of blocks; the first is a multiple of ``coarse_blocks``.
    tags : (rows, cols) uint8, written
        NO_DATA before, and still in cells of blocks that are listed.
    mixed : (n, 2) int64, written
        Row and column of blocks to be tested cell by cell.
    lie : (n, 6) array, written
        Of each such square east and north of its middle, and how they grow with row and column,
        m.

    Returns
    -------
    count
        Blocks listed.
    """
    # Fields of the tuples are read once: each reading counts a reference.
    _heights, _cell, highest_in, codes, _free, _fields = ground
    ring_m, level_of, step_of, samples_of = (
        tiles.ring_m,
        tiles.level_of,
        tiles.step_of,
        tiles.samples,
    )
    rays_of, first_ring_of, rings_of = tiles.rays, tiles.first_ring, tiles.rings
    first_tile_of, first_ray_of = tiles.first_tile, tiles.first_ray
    low_of, high_of, unknown_low = tiles.low, tiles.high, tiles.unknown_low_m
    slot_of, table = tiles.slot, tiles.horizon
    east_of, north_of = grid.east_of, grid.north_of
    order = east_of.shape[0]
    half_m = HALF_CELL * max(cell_high_m, cell_wide_m)
    diagonal_m = math.sqrt(cell_high_m * cell_high_m + cell_wide_m * cell_wide_m)
    lower, higher = target_m - error_m, target_m + error_m
    knows_all = unknown_low.min() == math.inf
    flat_tags = tags.ravel()
    wide = tags.shape[1]
    row_stop = stop_block
    col_first = max(left_col // SQUARE // coarse_blocks, 0) * coarse_blocks
    col_stop = min((left_col + tags.shape[1] - 1) // SQUARE + 1, codes.shape[1])
    # Squares still to be looked at: row, column and side in the smallest squares.
    stack = np.empty((64, 3), dtype=np.int64)
    east_row = np.empty((order, 2))
    north_row = np.empty((order, 2))
    count = 0
    for coarse in range(first_block, row_stop, coarse_blocks):
        for p in range(2):
            u = (coarse * SQUARE + p * coarse_blocks * SQUARE - 0.5 - grid.row0) / grid.half_rows
            for n in range(order):
                east_row[n, p] = polynomial(east_of[:, n], u)
                north_row[n, p] = polynomial(north_of[:, n], u)
        for coarse_col in range(col_first, col_stop, coarse_blocks):
            # Between the corners of the largest square east and north are bilinear in row and
            # column (``coarse_side``).
            v0 = (coarse_col * SQUARE - 0.5 - grid.col0) / grid.half_cols
            v1 = v0 + coarse_blocks * SQUARE / grid.half_cols
            e00 = column_value(east_row, 0, v0)
            n00 = column_value(north_row, 0, v0)
            e_down = (column_value(east_row, 1, v0) - e00) / (coarse_blocks * SQUARE)
            n_down = (column_value(north_row, 1, v0) - n00) / (coarse_blocks * SQUARE)
            e_right = (column_value(east_row, 0, v1) - e00) / (coarse_blocks * SQUARE)
            n_right = (column_value(north_row, 0, v1) - n00) / (coarse_blocks * SQUARE)
            e_both = (
                (column_value(east_row, 1, v1) - e00) / (coarse_blocks * SQUARE) - e_down - e_right
            )
            n_both = (
                (column_value(north_row, 1, v1) - n00) / (coarse_blocks * SQUARE) - n_down - n_right
            )
            e_both /= coarse_blocks * SQUARE
            n_both /= coarse_blocks * SQUARE
            stack[0, 0] = coarse
            stack[0, 1] = coarse_col
            stack[0, 2] = coarse_blocks
            waiting = 1
            while waiting > 0:
                waiting -= 1
                si = stack[waiting, 0]
                sj = stack[waiting, 1]
                side = stack[waiting, 2]
                down = (si - coarse) * SQUARE + side * SQUARE / 2.0
                right = (sj - coarse_col) * SQUARE + side * SQUARE / 2.0
                east = e00 + down * e_down + right * (e_right + down * e_both)
                north = n00 + down * n_down + right * (n_right + down * n_both)
                middle_m = math.sqrt(east * east + north * north)
                reach_m = (side * SQUARE - 1) / 2.0 * diagonal_m
                near_m = middle_m - reach_m
                far_m = middle_m + reach_m
                if near_m > radius_m:
                    continue
                stop_i = min(si + side, row_stop)
                stop_j = min(sj + side, col_stop)
                highest = 0.0
                bits = 0
                for i in range(si, stop_i):
                    for j in range(sj, stop_j):
                        bits |= codes[i, j]
                        highest = max(highest, float(highest_in[i, j]))
                if bits & ~UNKNOWN_BITS == 0:
                    continue
                answer = -1
                if (
                    near_m > _NEAR_SIDES * reach_m
                    and far_m <= radius_m
                    and bits & UNKNOWN_BITS == 0
                ):
                    # Bounds of the land horizon before the square: by groups of rays, at last
                    # by each ray.
                    turn = _turn(east, north)
                    half_turn = reach_m / near_m * (1.01 / (2.0 * math.pi)) + _ANGLE_ERROR
                    low = math.inf
                    high = -math.inf
                    unknown_m = math.inf
                    least = -math.inf
                    for end in range(2):
                        range_m = near_m - half_m if end == 0 else far_m
                        level = level_of[int(range_m / ring_m)]
                        sample = min(int(range_m / step_of[level]), samples_of[level])
                        rings = rings_of[level]
                        rays = rays_of[level]
                        base = first_tile_of[level] + sample // TILE - first_ring_of[level]
                        if side > 1:
                            groups = rays // TILE
                            start = math.floor((turn - half_turn) * groups)
                            stop = math.floor((turn + half_turn) * groups + 1.0 / TILE)
                            for at in range(start, stop + 1):
                                group = (
                                    at + groups if at < 0 else (at if at < groups else at - groups)
                                )
                                if end == 0:
                                    low = min(low, float(low_of[base + group * rings]))
                                else:
                                    high = max(high, float(high_of[base + group * rings]))
                        else:
                            start = math.floor((turn - half_turn) * rays)
                            stop = math.floor((turn + half_turn) * rays) + 1
                            for at in range(start, stop + 1):
                                ray = at
                                if at < 0:
                                    ray += rays
                                elif at >= rays:
                                    ray -= rays
                                slot = slot_of[base + (ray >> TILE_BITS) * rings]
                                column = TILE - 1 if slot < 0 else sample & TILE - 1
                                slope = float(table[max(slot, -slot - 1), column, ray & TILE - 1])
                                if end == 0:
                                    low = min(low, slope)
                                else:
                                    high = max(high, slope)
                        if end == 0:
                            low -= CLOSE_M / near_m
                            least = max(low, water_slope(near_m - half_m, antenna_m, bend))
                            if (
                                _greatest_slope(near_m, far_m, highest + higher, antenna_m, bend)
                                < least
                            ):
                                answer = 0
                                break
                            if bits != _SEA_ONLY:
                                # Land is never in sight all over: its cells tell.
                                break
                        elif knows_all:
                            high += CLOSE_M / near_m
                        else:
                            high += CLOSE_M / near_m
                            first_group = first_ray_of[level] // TILE
                            groups = rays // TILE
                            start = math.floor((turn - half_turn) * groups)
                            stop = math.floor((turn + half_turn) * groups + 1.0 / TILE)
                            for at in range(start, stop + 1):
                                unknown_m = min(unknown_m, unknown_low[first_group + at % groups])
                    if answer < 0 and bits == _SEA_ONLY:
                        answer = 0
                        outer = 0
                        for n in range(3):
                            more = lower if n == 0 else (higher if n == 1 else target_m)
                            state = _state(
                                near_m,
                                far_m,
                                half_m,
                                more,
                                low,
                                high,
                                antenna_m,
                                bend,
                            )
                            if state == _MIXED or (
                                n == 2 and state == _SEEN and far_m >= unknown_m
                            ):
                                answer = -1
                                break
                            if n < 2:
                                outer += state
                            elif state == _SEEN:
                                answer |= IN_SIGHT
                        if answer >= 0 and outer == 1:
                            answer |= UNCERTAIN
                if answer >= 0:
                    left = max(sj * SQUARE - left_col, 0)
                    right = min(stop_j * SQUARE - left_col, wide)
                    for i in range(
                        max(si * SQUARE - top_row, 0), min(stop_i * SQUARE - top_row, tags.shape[0])
                    ):
                        # Unsigned places: else negative ones are looked for at every cell.
                        for at in range(np.uint64(i * wide + left), np.uint64(i * wide + right)):
                            flat_tags[at] = np.uint8(answer)
                elif side > 1:
                    half = side // 2
                    for a in range(2):
                        for b in range(2):
                            if si + a * half < row_stop and sj + b * half < col_stop:
                                stack[waiting, 0] = si + a * half
                                stack[waiting, 1] = sj + b * half
                                stack[waiting, 2] = half
                                waiting += 1
                else:
                    mixed[count, 0] = si
                    mixed[count, 1] = sj
                    lie[count, EAST] = east
                    lie[count, NORTH] = north
                    lie[count, EAST_DOWN] = e_down + right * e_both
                    lie[count, NORTH_DOWN] = n_down + right * n_both
                    lie[count, EAST_RIGHT] = e_right + down * e_both
                    lie[count, NORTH_RIGHT] = n_right + down * n_both
                    count += 1
    return count
