"""Single cells tested against the horizon of the rays beside them, or on a ray of their own."""

import math

import numpy as np

from core.base.arrays import ByteArray, Float32Array, FloatArray, IntArray
from core.base.compiled import inlined, kernel
from core.coverage.cell_blocks import (
    CLOSE_M,
    EAST,
    EAST_DOWN,
    EAST_RIGHT,
    HALF_CELL,
    IN_SIGHT,
    NORTH,
    NORTH_DOWN,
    NORTH_RIGHT,
    SQUARE,
    UNCERTAIN,
    UNDER_M,
)
from core.coverage.circle_window import range_of_cell
from core.coverage.horizon_tiles import ray_polynomials
from core.coverage.local_map import Grid
from core.coverage.own_ray import OWN_STEPS, own_clear, own_hides, rises_from, straight_hides
from core.coverage.rays import water_slope
from core.coverage.terrain import BLOCK, Ground
from core.coverage.tile_layout import TILE, TILE_BITS, Tiles
from core.land.land_model import Cell

_LINEAR_CELLS = 64.0
"""Farther off than this many cells range and bearing are linear across a square (to 0.01 cells)."""
_EDGE_M = 1.0
"""This close to the radius ranges are worked out anew: those of squares are good to 0.1 m."""
_SEA = 1 << Cell.SEA
_MIDDLE = (SQUARE - 1) / 2.0
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
    fine_to_m: float,
    top_row: int,
    left_col: int,
    blocks: IntArray,
    lie: FloatArray,
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
        Whether land amid land gets rays of its own too, and the higher and the lower target
        where there is sea.
    fine_to_m : float
        Beyond this range land amid land gets none, nor do the higher and the lower target.
    top_row, left_col : int
        Row and column of the heights where cell (0, 0) of ``tags`` lies.
    blocks : (n, 2) int64
        Rows and columns of squares.
    lie : (n, 7) array
        As ``sort_blocks`` wrote it.
    tags : (rows, cols) uint8, written
        NO_DATA before.
    """
    # Fields of the tuples are read once: each reading counts a reference.
    heights, cell, _highest, codes, _free, _fields = ground
    level_of, step_of, samples_of = tiles.level_of, tiles.step_of, tiles.samples
    rays_of, first_ring_of, rings_of = tiles.rays, tiles.first_ring, tiles.rings
    first_tile_of, first_ray_of = tiles.first_tile, tiles.first_ray
    slot_of, table, unknown_of = tiles.slot, tiles.horizon, tiles.unknown_m
    low_of, highest_of, ring_of = tiles.low, tiles.highest, tiles.ring_of
    ring_m = tiles.ring_m
    flat = heights.ravel()
    wide = heights.shape[1]
    row_of, col_of, scale_m = grid.row_of, grid.col_of, grid.scale_m
    row0, col0 = grid.row0, grid.col0
    order = row_of.shape[0]
    row = np.empty((1, order))
    col = np.empty((1, order))
    lower, higher = target_m - error_m, target_m + error_m
    unknown_m = math.inf
    knows_all = unknown_of.min() == math.inf
    last_row, last_col = top_row + tags.shape[0], left_col + tags.shape[1]
    for b in range(blocks.shape[0]):
        bi = blocks[b, 0]
        bj = blocks[b, 1]
        under_m = lie[b, UNDER_M]
        middle_e, middle_n = lie[b, EAST], lie[b, NORTH]
        e_down, n_down = lie[b, EAST_DOWN], lie[b, NORTH_DOWN]
        e_right, n_right = lie[b, EAST_RIGHT], lie[b, NORTH_RIGHT]
        area = e_down * n_right - n_down * e_right
        middle_m = math.sqrt(middle_e * middle_e + middle_n * middle_n)
        middle_turn = math.atan2(middle_e, middle_n) * (0.5 / math.pi)
        side_m = abs(e_down) + abs(n_down) + abs(e_right) + abs(n_right)
        is_linear = middle_m > _LINEAR_CELLS * side_m and middle_m + SQUARE * side_m < radius_m
        # How range and bearing grow with row and column.
        per_m = 1.0 / max(middle_m, 1e-9)
        e = middle_e * per_m
        n_ = middle_n * per_m
        m_down = e * e_down + n_ * n_down
        m_right = e * e_right + n_ * n_right
        turn_down = (n_ * e_down - e * n_down) * per_m * (0.5 / math.pi)
        turn_right = (n_ * e_right - e * n_right) * per_m * (0.5 / math.pi)
        is_amid_land = codes[bi * SQUARE // BLOCK, bj * SQUARE // BLOCK] & _SEA == 0
        is_fine = middle_m - SQUARE * side_m <= fine_to_m
        gets_own = not is_amid_land or (is_exact and is_fine)
        marks_own = is_exact and not is_amid_land and is_fine
        level = -1
        from_level_m = to_level_m = 0.0
        samples_per_m = 1.0
        di = bi * SQUARE + _MIDDLE - row0
        dj = bj * SQUARE + _MIDDLE - col0
        cell_m = middle_m / math.sqrt(max(di * di + dj * dj, 1.0))
        samples = rays = rings = first_tile = first_ray = 0
        j0 = max(bj * SQUARE, left_col)
        j1 = min(bj * SQUARE + SQUARE, last_col)
        for i in range(max(bi * SQUARE, top_row), min(bi * SQUARE + SQUARE, last_row)):
            for j in range(j0, j1):
                z = float(flat[np.uint64(i * wide + j)])
                p = i - bi * SQUARE - _MIDDLE
                q = j - bj * SQUARE - _MIDDLE
                if z < under_m:
                    tags[i - top_row, j - left_col] = 0
                    continue
                if is_linear:
                    distance = middle_m + p * m_down + q * m_right
                    turn = middle_turn + p * turn_down + q * turn_right
                else:
                    e = middle_e + p * e_down + q * e_right
                    n_ = middle_n + p * n_down + q * n_right
                    distance = math.sqrt(e * e + n_ * n_)
                    turn = math.atan2(e, n_) * (0.5 / math.pi)
                    di = i - row0
                    dj = j - col0
                    if abs(di) <= 0.5 and abs(dj) <= 0.5:
                        tags[i - top_row, j - left_col] = IN_SIGHT
                        continue
                    if abs(distance - radius_m) < _EDGE_M:
                        distance = range_of_cell(grid, float(i), float(j))
                    if distance > radius_m:
                        continue
                    cell_m = distance / math.sqrt(di * di + dj * dj)
                if math.isnan(z):
                    continue
                if turn < 0.0:
                    turn += 1.0
                short = distance - HALF_CELL * cell_m
                if not from_level_m <= short < to_level_m:
                    ring = int(short / ring_m)
                    from_level_m = ring * ring_m
                    to_level_m = from_level_m + ring_m
                    level = level_of[ring]
                    samples_per_m = 1.0 / step_of[level]
                    samples = samples_of[level]
                    rings = rings_of[level]
                    rays = rays_of[level]
                    first_tile = first_tile_of[level] - first_ring_of[level]
                    first_ray = first_ray_of[level]
                k = min(int(short * samples_per_m), samples)
                at_ray = turn * rays
                left = int(at_ray)
                weight = at_ray - left
                if left >= rays:
                    left = 0
                right = left + 1 if left + 1 < rays else 0
                tile = first_tile + (k >> TILE_BITS)
                one = _horizon(
                    slot_of,
                    table,
                    tile + (left >> TILE_BITS) * rings,
                    left & TILE - 1,
                    k & TILE - 1,
                )
                two = _horizon(
                    slot_of,
                    table,
                    tile + (right >> TILE_BITS) * rings,
                    right & TILE - 1,
                    k & TILE - 1,
                )
                water = water_slope(short, antenna_m, bend)
                most = max(one, two)
                one = max(one, water)
                two = max(two, water)
                horizon = one + (two - one) * weight
                is_clear = True
                if not knows_all:
                    unknown_m = min(unknown_of[first_ray + left], unknown_of[first_ray + right])
                    is_clear = short < unknown_m
                # The least height in sight here.
                level_m = antenna_m + bend * distance * distance
                needed_m = level_m + horizon * distance
                is_low_seen = z + lower >= needed_m
                is_seen = z + target_m >= needed_m
                is_high_seen = z + higher >= needed_m
                if gets_own and (most * distance + level_m + CLOSE_M >= z + lower):
                    inverse = 1.0 / distance
                    least_m = level_m + min(one, two) * distance - CLOSE_M
                    most_m = level_m + most * distance + CLOSE_M
                    # The lower, the nominal and the higher target, each for itself.
                    for n in range(3):
                        own_m = z + (lower if n == 0 else (target_m if n == 1 else higher))
                        if not least_m <= own_m <= most_m or (n != 1 and not marks_own):
                            continue
                        own_slope = (own_m - level_m) * inverse
                        rise_level, rise_ring, from_m = rises_from(
                            step_of, rays_of, first_ring_of, rings_of, first_tile_of, slot_of,
                            ring_of, table, turn, level, k, own_slope - CLOSE_M * inverse,
                        )  # fmt: skip
                        e = (middle_e + p * e_down + q * e_right) * inverse
                        n_ = (middle_n + p * n_down + q * n_right) * inverse
                        if short - from_m <= _STRAIGHT_CELLS * cell_m:
                            is_hidden = straight_hides(
                                heights, flat, cell, codes, i, j,
                                (e * n_right - n_ * e_right) / area,
                                (n_ * e_down - e * n_down) / area,
                                distance, cell_m / OWN_STEPS, from_m, short, own_slope,
                                antenna_m, bend,
                            )  # fmt: skip
                        else:
                            is_hidden = own_hides(
                                heights, flat, cell, codes, row_of, col_of, scale_m,
                                step_of, rays_of, first_ring_of, rings_of, first_tile_of, slot_of,
                                ring_of, low_of, highest_of, e, n_, turn, cell_m / OWN_STEPS,
                                short, level, k, rise_level, rise_ring, from_m, own_slope,
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
                    inverse = 1.0 / distance
                    e = (middle_e + p * e_down + q * e_right) * inverse
                    n_ = (middle_n + p * n_down + q * n_right) * inverse
                    ray_polynomials(row_of, col_of, e, n_, 0, row, col)
                    is_clear = own_clear(
                        heights, cell, codes, row, col, scale_m, cell_m / OWN_STEPS,
                        unknown_m - 2.0 * cell_m, short,
                    )  # fmt: skip
                    if not is_clear:
                        continue
                # Without branches, which would be guessed wrong half the time.
                is_uncertain = is_low_seen != is_high_seen
                tags[i - top_row, j - left_col] = IN_SIGHT * is_seen + UNCERTAIN * is_uncertain
