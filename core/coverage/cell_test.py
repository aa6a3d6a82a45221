"""Single cells tested against the horizon of the rays beside them, or on a ray of their own."""

import math

import numpy as np

from core.base.arrays import ByteArray, Float32Array, FloatArray, IntArray
from core.base.compiled import inlined, kernel
from core.coverage.cell_blocks import CLOSE_M, HALF_CELL, IN_SIGHT, SQUARE, UNCERTAIN
from core.coverage.local_map import Grid
from core.coverage.own_ray import OWN_STEPS, own_hides, rises_from, straight_hides
from core.coverage.rays import polynomial, water_slope
from core.coverage.surface import row_value
from core.coverage.terrain import Ground
from core.coverage.tile_layout import TILE, Tiles

_SERIES_REACH = 0.1
"""Tangents up to this are turned into angles by three terms of their series (to 1e-8)."""
_PLANNING_CLOSE_M = 0.5
"""The same as ``CLOSE_M`` in the planning setting; with 0.3 m what a wall hides at 24 NM was wrong
by more than 0.1 m."""
_STEEP = 1e6
"""A slope that nothing hides: the ray is followed for what is unknown alone."""
_STRAIGHT_CELLS = 16.0
"""Over so many cells a ray is straight in the lattice (to 0.001 of a cell)."""


@inlined
def _horizon(slot: IntArray, horizon: Float32Array, tile: int, ray: int, sample: int) -> float:
    """Land horizon of a ray after a sample of a tile (both within it)."""
    at = slot[tile]
    # Chosen without a branch, which would be guessed wrong half the time.
    table = max(at, -at - 1)
    column = TILE - 1 if at < 0 else sample
    return float(horizon[table, ray, column])


@kernel
def test_cells(
    ground: Ground,
    grid: Grid,
    tiles: Tiles,
    radius_m: float,
    antenna_m: float,
    bend: float,
    target_m: float,
    error_m: float,
    is_exact: bool,
    top_row: int,
    left_col: int,
    blocks: IntArray,
    hidden_under_m: FloatArray,
    tags: ByteArray,
) -> None:
    """Tag the cells of squares that ``sort_blocks`` listed.

    Parameters
    ----------
    ground, grid, tiles
        The terrain, the local map, the horizons.
    radius_m, antenna_m, bend, target_m, error_m : float
        As in ``sweep_cells``; ``bend`` is 1 / (2 k R).
    is_exact : bool
        Whether the answers for higher and lower targets are tested again too.
    top_row, left_col : int
        Row and column of the heights where cell (0, 0) of ``tags`` lies.
    blocks : (n, 2) int64
        Rows and columns of squares.
    hidden_under_m : (n,) array
        Cells lower than this are hidden whatever the error.
    tags : (rows, cols) uint8, written
        NO_DATA before.
    """
    # Fields of the tuples are read once: each reading counts a reference.
    heights, cell, highest_in, codes, _free, _fields = ground
    level_of, step_of, samples_of = tiles.level_of, tiles.step_of, tiles.samples
    rays_of, first_ring_of, rings_of = tiles.rays, tiles.first_ring, tiles.rings
    first_tile_of, first_ray_of = tiles.first_tile, tiles.first_ray
    slot_of, table, unknown_of = tiles.slot, tiles.horizon, tiles.unknown_m
    highest_of, ring_of = tiles.highest, tiles.ring_of
    ring_m = tiles.ring_m
    flat = heights.ravel()
    row_of, col_of, scale_m = grid.row_of, grid.col_of, grid.scale_m
    half_rows, half_cols = grid.half_rows, grid.half_cols
    east_of, north_of, row0, col0 = grid.east_of, grid.north_of, grid.row0, grid.col0
    order = east_of.shape[0]
    # Each row of cells of the present row of blocks as a polynomial of the column.
    east_row = np.empty((SQUARE, order))
    north_row = np.empty((SQUARE, order))
    present = -1
    east = np.empty((SQUARE, SQUARE))
    north = np.empty((SQUARE, SQUARE))
    ranges = np.empty((SQUARE, SQUARE))
    turns = np.empty((SQUARE, SQUARE))
    row = np.empty((1, order))
    col = np.empty((1, order))
    lower, higher = target_m - error_m, target_m + error_m
    close_m = CLOSE_M if is_exact else _PLANNING_CLOSE_M
    knows_all = unknown_of.min() == math.inf
    for b in range(blocks.shape[0]):
        bi = blocks[b, 0]
        bj = blocks[b, 1]
        if bi != present:
            present = bi
            for p in range(SQUARE):
                u = (bi * SQUARE + p - row0) / half_rows
                for n in range(order):
                    east_row[p, n] = polynomial(east_of[:, n], u)
                    north_row[p, n] = polynomial(north_of[:, n], u)
        # Between the corners of a square east and north are bilinear (to 1e-5 of a cell).
        first_v = (bj * SQUARE - col0) / half_cols
        last_v = (bj * SQUARE + SQUARE - 1 - col0) / half_cols
        e00 = row_value(east_row, 0, first_v)
        e01 = row_value(east_row, 0, last_v)
        e10 = row_value(east_row, SQUARE - 1, first_v)
        e11 = row_value(east_row, SQUARE - 1, last_v)
        n00 = row_value(north_row, 0, first_v)
        n01 = row_value(north_row, 0, last_v)
        n10 = row_value(north_row, SQUARE - 1, first_v)
        n11 = row_value(north_row, SQUARE - 1, last_v)
        for p in range(SQUARE):
            f = p / (SQUARE - 1.0)
            e0 = e00 + f * (e10 - e00)
            n0 = n00 + f * (n10 - n00)
            e_right = (e01 + f * (e11 - e01) - e0) * (1.0 / (SQUARE - 1))
            n_right = (n01 + f * (n11 - n01) - n0) * (1.0 / (SQUARE - 1))
            for q in range(SQUARE):
                east[p, q] = e0 + q * e_right
                north[p, q] = n0 + q * n_right
        middle_east = east[SQUARE // 2, SQUARE // 2]
        middle_north = north[SQUARE // 2, SQUARE // 2]
        middle_turn = math.atan2(middle_east, middle_north) / (2.0 * math.pi)
        # How row and column grow along a ray: the inverse of how east and north grow with them.
        e_down = (east[SQUARE - 1, SQUARE // 2] - east[0, SQUARE // 2]) / (SQUARE - 1)
        n_down = (north[SQUARE - 1, SQUARE // 2] - north[0, SQUARE // 2]) / (SQUARE - 1)
        e_right = (east[SQUARE // 2, SQUARE - 1] - east[SQUARE // 2, 0]) / (SQUARE - 1)
        n_right = (north[SQUARE // 2, SQUARE - 1] - north[SQUARE // 2, 0]) / (SQUARE - 1)
        area = e_down * n_right - n_down * e_right
        side_m = abs(e_down) + abs(n_down) + abs(e_right) + abs(n_right)
        is_far = (
            middle_east * middle_east + middle_north * middle_north
            > (side_m * SQUARE / _SERIES_REACH) ** 2
        )
        if is_far:
            # Bearings from that of the block's middle by the arc tangent's series.
            for p in range(SQUARE):
                for q in range(SQUARE):
                    e = east[p, q]
                    n_ = north[p, q]
                    ranges[p, q] = math.sqrt(e * e + n_ * n_)
                    t = (e * middle_north - n_ * middle_east) / (
                        e * middle_east + n_ * middle_north
                    )
                    s = t * t
                    turns[p, q] = middle_turn + t * (1.0 - s * (1.0 / 3.0 - s * 0.2)) * (
                        0.5 / math.pi
                    )
        else:
            for p in range(SQUARE):
                for q in range(SQUARE):
                    ranges[p, q] = math.hypot(east[p, q], north[p, q])
                    turns[p, q] = math.atan2(east[p, q], north[p, q]) / (2.0 * math.pi)
        under_m = hidden_under_m[b]
        j0 = max(bj * SQUARE, left_col)
        j1 = min((bj + 1) * SQUARE, left_col + tags.shape[1])
        level = -1
        from_level_m = to_level_m = 0.0
        tile_step_m = 1.0
        samples = rays = rings = first_tile = first_ray = 0
        for i in range(max(bi * SQUARE, top_row), min((bi + 1) * SQUARE, top_row + tags.shape[0])):
            di = i - row0
            for j in range(j0, j1):
                z = float(heights[i, j])
                if z < under_m:
                    tags[i - top_row, j - left_col] = 0
                    continue
                p = i - bi * SQUARE
                q = j - bj * SQUARE
                distance = ranges[p, q]
                if distance > radius_m or math.isnan(z):
                    continue
                dj = j - col0
                if abs(di) <= 0.5 and abs(dj) <= 0.5:
                    tags[i - top_row, j - left_col] = IN_SIGHT
                    continue
                turn = turns[p, q]
                if turn < 0.0:
                    turn += 1.0
                cell_m = distance / math.sqrt(di * di + dj * dj)
                short = distance - HALF_CELL * cell_m
                if not from_level_m <= short < to_level_m:
                    ring = int(short / ring_m)
                    from_level_m = ring * ring_m
                    to_level_m = from_level_m + ring_m
                    level = level_of[ring]
                    tile_step_m = step_of[level]
                    samples = samples_of[level]
                    rings = rings_of[level]
                    rays = rays_of[level]
                    first_tile = first_tile_of[level] - first_ring_of[level]
                    first_ray = first_ray_of[level]
                k = min(int(short / tile_step_m), samples)
                at_ray = turn * rays
                left = int(at_ray)
                weight = at_ray - left
                if left >= rays:
                    left = 0
                right = left + 1 if left + 1 < rays else 0
                tile = first_tile + k // TILE
                one = _horizon(slot_of, table, tile + left // TILE * rings, left % TILE, k % TILE)
                two = _horizon(slot_of, table, tile + right // TILE * rings, right % TILE, k % TILE)
                water = water_slope(short, antenna_m, bend)
                one = max(one, water)
                two = max(two, water)
                horizon = one if one == two else one * (1.0 - weight) + two * weight
                is_clear = knows_all or short < min(
                    unknown_of[first_ray + left], unknown_of[first_ray + right]
                )
                inverse = 1.0 / distance
                base = (z - antenna_m) * inverse - bend * distance
                low_slope = base + lower * inverse
                slope = base + target_m * inverse
                high_slope = base + higher * inverse
                is_low_seen = low_slope >= horizon
                is_seen = slope >= horizon
                is_high_seen = high_slope >= horizon
                if one != water or two != water:
                    close = close_m * inverse
                    least = min(one, two) - close
                    most = max(one, two) + close
                    # The lower, the nominal and the higher target, each for itself.
                    for n in range(3):
                        if n == 0:
                            own_slope = low_slope
                        elif n == 1:
                            own_slope = slope
                        else:
                            own_slope = high_slope
                        if not least <= own_slope <= most or (n != 1 and not is_exact):
                            continue
                        from_m = rises_from(
                            step_of, rays_of, first_ring_of, rings_of, first_tile_of, slot_of,
                            ring_of,
                            table, turn, level, k, own_slope - close,
                        )  # fmt: skip
                        is_long = short - from_m > _STRAIGHT_CELLS * cell_m
                        e = east[p, q] * inverse
                        n_ = north[p, q] * inverse
                        step_m = cell_m / OWN_STEPS
                        if not is_long:
                            is_hidden, _is_own_clear = straight_hides(
                                heights, flat, cell, codes, i, j,
                                (e * n_right - n_ * e_right) / area,
                                (n_ * e_down - e * n_down) / area,
                                distance, step_m, from_m, short, own_slope, antenna_m, bend,
                            )  # fmt: skip
                        else:
                            is_hidden, _is_own_clear = own_hides(
                                heights, flat, cell, highest_in, codes, row_of, col_of, scale_m,
                                level_of, step_of, rays_of, first_ring_of, rings_of, first_tile_of,
                                highest_of, ring_m, e, n_, turn, step_m, from_m, short, own_slope,
                                antenna_m, bend, row, col,
                            )  # fmt: skip
                        is_seen_alone = not is_hidden and own_slope >= water
                        if n == 0:
                            is_low_seen = is_seen_alone
                        elif n == 1:
                            is_seen = is_seen_alone
                        else:
                            is_high_seen = is_seen_alone
                if is_seen and not is_clear:
                    # Beside the edge of a void its own ray tells.
                    first_ray_m = min(unknown_of[first_ray + left], unknown_of[first_ray + right])
                    _is_hidden, is_clear = own_hides(
                        heights, flat, cell, highest_in, codes, row_of, col_of, scale_m,
                        level_of, step_of, rays_of, first_ring_of, rings_of, first_tile_of,
                        highest_of, ring_m, east[p, q] * inverse, north[p, q] * inverse, turn,
                        cell_m / OWN_STEPS, first_ray_m - 2.0 * cell_m, short, _STEEP,
                        antenna_m, bend, row, col,
                    )  # fmt: skip
                tag = 0
                if is_seen:
                    if not is_clear:
                        continue
                    tag = IN_SIGHT
                if is_low_seen != is_high_seen:
                    tag |= UNCERTAIN
                tags[i - top_row, j - left_col] = tag
