"""Single cells tested against the horizon of the rays beside them, or on a ray of their own."""

import math

import numpy as np

from core.base.arrays import ByteArray, Float32Array, FloatArray, Int32Array, IntArray
from core.base.compiled import bare, inlined
from core.coverage.cell_blocks import CLOSE_M, IN_SIGHT, NO_DATA, UNCERTAIN
from core.coverage.cell_places import (
    CELLS,
    EAST,
    EAST_DOWN,
    EAST_RIGHT,
    HALF_CELL,
    MIDDLE,
    NEAR_CELLS,
    NORTH,
    NORTH_DOWN,
    NORTH_RIGHT,
    SQUARE,
    cut_at_edge,
    place_far,
    place_near,
)
from core.coverage.cell_room import CellRoom
from core.coverage.horizon_tiles import ray_polynomials
from core.coverage.local_map import Grid
from core.coverage.own_ray import OWN_STEPS, own_clear, own_hides, rises_from, straight_hides
from core.coverage.terrain import BLOCK, Ground
from core.coverage.tile_layout import TILE, TILE_BITS, Tiles
from core.land.land_model import Cell

_SEA = 1 << Cell.SEA
_BITS, _LAST = np.int32(TILE_BITS), np.int32(TILE - 1)
_STRAIGHT_CELLS = 16.0
"""Over so many cells a ray is straight in the lattice (to 0.001 of a cell)."""


@inlined
def _is_shore(flat: Float32Array, wide: int, i: int, j: int) -> bool:
    """Whether one of the eight cells round a cell of land is sea."""
    at = np.uint64((i - 1) * wide + j - 1)
    row = np.uint64(wide)
    for p in range(3):
        for q in range(3):
            if flat[at + np.uint64(p) * row + np.uint64(q)] == 0.0:
                return True
    return False


@inlined
def _read_beside(
    short: FloatArray,
    turn: FloatArray,
    slot: IntArray,
    table: Float32Array,
    first: np.int32,
    last: np.int32,
    rings: np.int32,
    rays: int,
    first_tile: np.int32,
    samples_per_m: float,
    from_m: float,
    one_at: Int32Array,
    two_at: Int32Array,
    one_ray: Int32Array,
    two_ray: Int32Array,
    column: Int32Array,
    part: FloatArray,
    one: FloatArray,
    two: FloatArray,
    weight: FloatArray,
) -> None:
    """Read the land horizons of the rays beside each cell of a square, from one level of tiles.

    In turns of arithmetic, which the compiler does side by side, and of loads. ``first`` and
    ``last`` are samples of the level, ``first_tile`` its first less its first ring, ``from_m``
    where it begins; ``one_at`` to ``part`` are room. Written for cells beyond ``from_m``: both
    horizons, and how far from the first ray to the second the cell lies, 0 to 1.
    """
    last_ray = np.int32(rays - 1)
    for n in range(CELLS):
        k = max(min(np.int32(short[n] * samples_per_m), last), first)
        turned = turn[n] * rays
        left = min(np.int32(turned), last_ray)
        right = left + np.int32(1) if left < last_ray else np.int32(0)
        tile = first_tile + (k >> _BITS)
        one_at[n] = tile + np.int32((left >> _BITS) * rings)
        two_at[n] = tile + np.int32((right >> _BITS) * rings)
        column[n] = k & _LAST
        one_ray[n] = left & _LAST
        two_ray[n] = right & _LAST
        part[n] = turned - left
    for n in range(CELLS):
        one_at[n] = slot[np.uint64(one_at[n])]
        two_at[n] = slot[np.uint64(two_at[n])]
    for n in range(CELLS):
        # Chosen without a branch, which would be guessed wrong half the time.
        at = one_at[n]
        row_at = (max(at, ~at) << _BITS) + (_LAST if at < 0 else column[n])
        one_at[n] = (row_at << _BITS) + one_ray[n]
        at = two_at[n]
        row_at = (max(at, ~at) << _BITS) + (_LAST if at < 0 else column[n])
        two_at[n] = (row_at << _BITS) + two_ray[n]
    for n in range(CELLS):
        is_here = short[n] >= from_m
        one[n] = table[np.uint64(one_at[n])] if is_here else one[n]
        two[n] = table[np.uint64(two_at[n])] if is_here else two[n]
        weight[n] = part[n] if is_here else weight[n]


@bare
def test_cells(
    ground: Ground,
    grid: Grid,
    tiles: Tiles,
    table: Float32Array,
    flat: Float32Array,
    knows_all: bool,
    room: CellRoom,
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
    table, flat : (n,) arrays
        Horizons and heights in one row.
    knows_all : bool
        Whether no ray meets an unknown height.
    room : CellRoom
        For one square.
    radius_m, antenna_m, bend, target_m, error_m : float
        As in ``sweep_cells``; ``bend`` is 1 / (2 k R).
    is_exact : bool
        Whether land beyond the shore gets rays of its own too, and the higher and the lower
        target where there is sea.
    fine_to_m : float
        Beyond this range land amid land gets none, nor do the higher and the lower target.
    top_row, left_col : int
        Row and column of the heights where cell (0, 0) of ``tags`` lies.
    blocks : (n, 2) int64
        Rows and columns of squares.
    lie : (n, 6) array
        As ``sort_blocks`` wrote it.
    tags : (rows, cols) uint8, written
        NO_DATA before.
    """
    heights, cell, _highest, codes, _free, _fields = ground
    level_of, step_of, samples_of = tiles.level_of, tiles.step_of, tiles.samples
    rays_of, first_ring_of, rings_of = tiles.rays, tiles.first_ring, tiles.rings
    first_tile_of, first_ray_of = tiles.first_tile, tiles.first_ray
    slot_of, horizon_of, unknown_of = tiles.slot, tiles.horizon, tiles.unknown_m
    low_of, highest_of, ring_of = tiles.low, tiles.highest, tiles.ring_of
    ring_m = tiles.ring_m
    wide = heights.shape[1]
    row_of, col_of, scale_m = grid.row_of, grid.col_of, grid.scale_m
    row0, col0 = grid.row0, grid.col0
    distance, short, turn, water, one, two, weight = room[:7]
    unknown_m, z, needed_m, looks, tag = room[7:12]
    one_at, two_at, one_ray, two_ray, column, part, row, col = room[12:]
    lower, higher = target_m - error_m, target_m + error_m
    to_horizon_m = math.sqrt(antenna_m / bend)
    flattest = -2.0 * math.sqrt(antenna_m * bend)
    last_row, last_col = top_row + tags.shape[0], left_col + tags.shape[1]
    for b in range(blocks.shape[0]):
        bi = blocks[b, 0] * SQUARE
        bj = blocks[b, 1] * SQUARE
        middle_e, middle_n = lie[b, EAST], lie[b, NORTH]
        e_down, n_down = lie[b, EAST_DOWN], lie[b, NORTH_DOWN]
        e_right, n_right = lie[b, EAST_RIGHT], lie[b, NORTH_RIGHT]
        middle_m = math.sqrt(middle_e * middle_e + middle_n * middle_n)
        side_m = max(abs(e_down) + abs(n_down), abs(e_right) + abs(n_right))
        di = bi + MIDDLE - row0
        dj = bj + MIDDLE - col0
        cell_m = middle_m / math.sqrt(max(di * di + dj * dj, 1.0))
        if middle_m > NEAR_CELLS * side_m:
            place_far(
                middle_e, middle_n, e_down, n_down, e_right, n_right, HALF_CELL * cell_m,
                distance, short, turn,
            )  # fmt: skip
        else:
            place_near(
                grid, bi, bj, middle_e, middle_n, e_down, n_down, e_right, n_right, distance,
                short, turn,
            )  # fmt: skip
        if middle_m + SQUARE * side_m >= radius_m:
            cut_at_edge(grid, radius_m, bi, bj, distance, short)
        near_m = max(middle_m - SQUARE * side_m, 0.0)
        far_m = min(middle_m + SQUARE * side_m, radius_m)
        for n in range(CELLS):
            r = max(short[n], 1e-9)
            rising = -antenna_m / r - bend * r
            water[n] = rising if r < to_horizon_m else flattest
        for p in range(SQUARE):
            at = (bi + p) * wide + bj
            for q in range(SQUARE):
                z[p * SQUARE + q] = flat[np.uint64(at + q)]
        for level in range(level_of[int(near_m / ring_m)], level_of[int(far_m / ring_m)] + 1):
            # Farther levels write over what the nearer said of their cells.
            first = np.int32(first_ring_of[level] * TILE)
            rings = np.int32(rings_of[level])
            last = np.int32(min(first + rings * TILE - 1, samples_of[level]))
            samples_per_m = 1.0 / step_of[level]
            from_m = first * step_of[level]
            rays = rays_of[level]
            first_tile = np.int32(first_tile_of[level] - first_ring_of[level])
            _read_beside(
                short, turn, slot_of, table, first, last, rings, rays, first_tile, samples_per_m,
                from_m, one_at, two_at, one_ray, two_ray, column, part, one, two, weight,
            )  # fmt: skip
            if not knows_all:
                first_ray = first_ray_of[level]
                for n in range(CELLS):
                    ray = min(int(turn[n] * rays), rays - 1)
                    other = ray + 1 if ray + 1 < rays else 0
                    if short[n] >= from_m:
                        unknown_m[n] = min(
                            unknown_of[first_ray + ray], unknown_of[first_ray + other]
                        )
        is_amid_land = codes[bi // BLOCK, bj // BLOCK] & _SEA == 0
        is_fine = near_m <= fine_to_m
        gets_own = not is_amid_land or (is_exact and is_fine)
        marks_own = is_exact and not is_amid_land and is_fine
        lowest_own = lower if marks_own else target_m
        highest_own = higher if marks_own else target_m
        any_looks = False
        for n in range(CELLS):
            d = distance[n]
            # The least height in sight here.
            level_m = antenna_m + bend * d * d
            a = max(one[n], water[n])
            c = max(two[n], water[n])
            needed_m[n] = level_m + (a + (c - a) * weight[n]) * d
            least_m = level_m + min(a, c) * d - CLOSE_M
            most_m = level_m + max(one[n], two[n]) * d + CLOSE_M
            is_close = z[n] + highest_own >= least_m and z[n] + lowest_own <= most_m
            is_seen = z[n] + target_m >= needed_m[n]
            is_clear = short[n] < unknown_m[n]
            looks[n] = (gets_own and is_close) or (is_seen and not is_clear)
            any_looks |= looks[n]
            is_uncertain = (z[n] + lower >= needed_m[n]) != (z[n] + higher >= needed_m[n])
            answer = np.uint8(IN_SIGHT * is_seen + UNCERTAIN * is_uncertain)
            answer = answer if d < math.inf and z[n] == z[n] else np.uint8(NO_DATA)
            tag[n] = np.uint8(IN_SIGHT) if d == 0.0 else answer
        for p in range(max(top_row - bi, 0), min(SQUARE, last_row - bi)):
            for q in range(max(left_col - bj, 0), min(SQUARE, last_col - bj)):
                tags[bi + p - top_row, bj + q - left_col] = tag[p * SQUARE + q]
        if not any_looks:
            continue
        area = e_down * n_right - n_down * e_right
        for p in range(max(top_row - bi, 0), min(SQUARE, last_row - bi)):
            for q in range(max(left_col - bj, 0), min(SQUARE, last_col - bj)):
                n = p * SQUARE + q
                d = distance[n]
                if not looks[n] or d == 0.0 or d == math.inf:
                    continue
                if (
                    not is_exact
                    and z[n] > 0.0
                    and short[n] < unknown_m[n]
                    and not _is_shore(flat, wide, bi + p, bj + q)
                ):
                    continue
                is_low_seen = z[n] + lower >= needed_m[n]
                is_seen = z[n] + target_m >= needed_m[n]
                is_high_seen = z[n] + higher >= needed_m[n]
                di = bi + p - row0
                dj = bj + q - col0
                cell_m = d / math.sqrt(di * di + dj * dj)
                inverse = 1.0 / d
                e = (middle_e + (p - MIDDLE) * e_down + (q - MIDDLE) * e_right) * inverse
                n_ = (middle_n + (p - MIDDLE) * n_down + (q - MIDDLE) * n_right) * inverse
                if gets_own:
                    level_m = antenna_m + bend * d * d
                    least_m = level_m + min(max(one[n], water[n]), max(two[n], water[n])) * d
                    most_m = level_m + max(one[n], two[n]) * d
                    level = level_of[int(short[n] / ring_m)]
                    sample = min(int(short[n] / step_of[level]), samples_of[level])
                    # The lower, the nominal and the higher target, each for itself.
                    for m in range(3):
                        own_m = z[n] + (lower if m == 0 else (target_m if m == 1 else higher))
                        if not least_m - CLOSE_M <= own_m <= most_m + CLOSE_M or (
                            m != 1 and not marks_own
                        ):
                            continue
                        slope = (own_m - level_m) * inverse
                        rise_level, rise_ring, from_m = rises_from(
                            step_of, rays_of, first_ring_of, rings_of, first_tile_of, slot_of,
                            ring_of, horizon_of, turn[n], level, sample, slope - CLOSE_M * inverse,
                        )  # fmt: skip
                        if short[n] - from_m <= _STRAIGHT_CELLS * cell_m:
                            is_hidden = straight_hides(
                                heights, flat, cell, codes, bi + p, bj + q,
                                (e * n_right - n_ * e_right) / area,
                                (n_ * e_down - e * n_down) / area,
                                d, cell_m / OWN_STEPS, from_m, short[n], slope, antenna_m, bend,
                            )  # fmt: skip
                        else:
                            is_hidden = own_hides(
                                heights, flat, cell, codes, row_of, col_of, scale_m,
                                step_of, rays_of, first_ring_of, rings_of, first_tile_of, slot_of,
                                ring_of, low_of, highest_of, e, n_, turn[n], cell_m / OWN_STEPS,
                                short[n], level, sample, rise_level, rise_ring, from_m, slope,
                                antenna_m, bend, row, col,
                            )  # fmt: skip
                        is_seen_alone = not is_hidden and slope >= water[n]
                        if m == 0:
                            is_low_seen = is_seen_alone
                        elif m == 1:
                            is_seen = is_seen_alone
                        else:
                            is_high_seen = is_seen_alone
                own = IN_SIGHT * is_seen + UNCERTAIN * (is_low_seen != is_high_seen)
                if is_seen and short[n] >= unknown_m[n]:
                    # Beside the edge of a void its own ray tells.
                    ray_polynomials(row_of, col_of, e, n_, 0, row, col)
                    if not own_clear(
                        heights, cell, codes, row, col, scale_m, cell_m / OWN_STEPS,
                        unknown_m[n] - 2.0 * cell_m, short[n],
                    ):  # fmt: skip
                        own = NO_DATA
                if z[n] == z[n]:
                    tags[bi + p - top_row, bj + q - left_col] = own
