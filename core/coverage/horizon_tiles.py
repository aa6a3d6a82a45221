"""The land horizon all round a place in tiles of 16 rays by 16 samples of range.

Each level of tiles reaches twice as far as the one before and has twice as many rays, so that
they stand a cell apart at most, or as many where those are enough. A new ray starts with the
horizon of its parent, or with the mean of the two beside it. Along a ray the land horizon
after sample k is

    m_k = max(m_(k-1), z_k / r_k - h / r_k - r_k / (2 k R)),    r_k = k step,

over samples with land (z > 0, bilinear between cell centres). A tile whose highest cell stays
under the lowest line of sight of its least horizon cannot raise it and is passed over whole, with
the same result. Only the others hold a table; for the rest the last table before them stands.
"""

import math

import numpy as np

from core.base.arrays import Float32Array, FloatArray, IntArray
from core.base.compiled import bare, inlined, kernel
from core.coverage.local_map import Grid, LocalMap
from core.coverage.rays import (
    is_inside,
    lowest_sight,
    partly_known,
    water_slope,
)
from core.coverage.surface import column_value, surface_height
from core.coverage.terrain import BLOCK, UNKNOWN_BITS, Ground
from core.coverage.tile_layout import TILE, Tiles, empty_tiles
from core.coverage.tile_slopes import TileRoom, lay_out, rise_along, tile_room
from core.land.land_model import Cell

_BEYOND_BIT = 1 << Cell.BEYOND
_SEA_BLOCKS = 3
"""A tile reaches at most two blocks from the one under its middle."""
_ARC_CELLS = 1.0
"""How far the rays of a tile bulge past its corners at most, cells, and a little more."""


@bare
def ray_polynomials(
    row_of: FloatArray,
    col_of: FloatArray,
    east: float,
    north: float,
    at: int,
    row: FloatArray,
    col: FloatArray,
) -> None:
    """Row and column along a bearing as polynomials of range / ``scale_m`` of the local map.

    ``east`` and ``north`` are the sine and cosine of the bearing; columns ``at`` of ``row`` and
    ``col``, (n, rays), are written.
    """
    count = row.shape[0]
    # Sum over i of A[i, m - i] east^i north^(m - i), Horner's way in north, powers of east.
    power = 1.0
    for m in range(count):
        row[m, at] = 0.0
        col[m, at] = 0.0
    for i in range(count):
        other = power
        for j in range(count - i):
            row[i + j, at] += row_of[i, j] * other
            col[i + j, at] += col_of[i, j] * other
            other *= north
        power *= east


@bare
def _start(
    tiles: Tiles,
    level: int,
    group: int,
    ends: FloatArray,
    floor: float,
    top: FloatArray,
    unknown: FloatArray,
) -> None:
    """Horizons and unknown ranges with which the rays of a group begin a level."""
    for m in range(TILE):
        top[m] = -math.inf
        unknown[m] = math.inf
        if level > 0:
            parents = tiles.rays[level - 1]
            base = tiles.first_ray[level - 1]
            ray = group * TILE + m
            one = ray * parents // tiles.rays[level]
            two = one if one * tiles.rays[level] == ray * parents else (one + 1) % parents
            first = ends[one]
            second = ends[two]
            top[m] = first
            if first != second:
                top[m] = 0.5 * (max(first, floor) + max(second, floor))
            unknown[m] = min(tiles.unknown_m[base + one], tiles.unknown_m[base + two])


@inlined
def _least_and_greatest(values: FloatArray) -> tuple[float, float]:
    """Of 16 numbers; numpy's own would look for NaN and count references."""
    low, high = values[0], values[0]
    for m in range(1, TILE):
        low = min(low, values[m])
        high = max(high, values[m])
    return low, high


@bare
def _aim(room: TileRoom, grid: Grid, group: int, rays: int) -> None:
    """Lay out the rays of a group."""
    row_of, col_of, row, col = grid.row_of, grid.col_of, room.row, room.col
    for m in range(TILE):
        bearing = 2.0 * math.pi * (group * TILE + m) / rays
        ray_polynomials(row_of, col_of, math.sin(bearing), math.cos(bearing), m, row, col)


@kernel
def _trace(
    ground: Ground, grid: Grid, tiles: Tiles, antenna_m: float, bend: float
) -> tuple[Float32Array, IntArray]:
    """Fill ``tiles``; return the tables and their rings, of which there may be more than room."""
    # Fields of the tuples are read once: each reading counts a reference.
    heights, cell, highest_in, codes, free_to, _fields = ground
    count = grid.row_of.shape[0]
    scale_m = grid.scale_m
    # Of the first ray of a group and its last.
    row = np.empty((count, 2))
    col = np.empty((count, 2))
    tile_rays = tile_room(count)
    begin, step = tile_rays.begin, tile_rays.step
    top = np.empty(TILE)
    unknown = np.empty(TILE)
    row_of, col_of = grid.row_of, grid.col_of
    slot, low_of, high_of, highest_of = tiles.slot, tiles.low, tiles.high, tiles.highest
    horizon, ring_of = tiles.horizon, tiles.ring_of
    horizon[0] = -math.inf
    ring_of[0] = -1
    used = 1
    ends = np.empty(0)
    flat = heights.ravel()
    cols = heights.shape[1]
    last_row = codes.shape[0] * BLOCK
    last_col = codes.shape[1] * BLOCK
    for level in range(tiles.rays.size):
        rays = tiles.rays[level]
        first_ring = tiles.first_ring[level]
        rings = tiles.rings[level]
        step_m = tiles.step_of[level]
        samples = tiles.samples[level]
        inverse = np.empty((first_ring + rings) * TILE)
        base = np.empty(inverse.size)
        for k in range(max(first_ring * TILE, 1), inverse.size):
            inverse[k] = 1.0 / (k * step_m)
            base[k] = -antenna_m * inverse[k] - bend * k * step_m
        floor = water_slope(first_ring * TILE * step_m, antenna_m, bend)
        starts = ends
        ends = np.empty(rays)
        for group in range(rays // TILE):
            _start(tiles, level, group, starts, floor, top, unknown)
            for side in range(2):
                bearing = 2.0 * math.pi * (group * TILE + side * (TILE - 1)) / rays
                ray_polynomials(
                    row_of, col_of, math.sin(bearing), math.cos(bearing), side, row, col
                )
            is_aimed = False
            t0 = first_ring * TILE * step_m / scale_m
            y01, x01 = column_value(row, 0, t0), column_value(col, 0, t0)
            y11, x11 = column_value(row, 1, t0), column_value(col, 1, t0)
            low, high = _least_and_greatest(top)
            latest = 0
            if used + rings + 1 > horizon.shape[0]:
                # Room for all tiles of a group is enough until the next.
                room = 2 * horizon.shape[0] + rings
                more = np.empty((room, TILE, TILE), np.float32)
                more[:used] = horizon[:used]
                horizon = more
                more_rings = np.empty(room, np.int64)
                more_rings[:used] = ring_of[:used]
                ring_of = more_rings
            if high > -math.inf:
                latest = used
                ring_of[used] = first_ring - 1
                for m in range(TILE):
                    horizon[used, TILE - 1, m] = top[m]
                used += 1
            tile = tiles.first_tile[level] + group * rings
            for ring in range(first_ring, first_ring + rings):
                k0 = ring * TILE
                from_m = k0 * step_m
                to_m = (k0 + TILE - 1) * step_m
                t0 = from_m / scale_m
                t1 = to_m / scale_m
                bits = 0
                highest = 0.0
                is_edge = False
                # Corners of the tile, out to where the next begins.
                t2 = (k0 + TILE) * step_m / scale_m
                y00, x00, y10, x10 = y01, x01, y11, x11
                y01, x01 = column_value(row, 0, t2), column_value(col, 0, t2)
                y11, x11 = column_value(row, 1, t2), column_value(col, 1, t2)
                middle_y = 0.25 * (y00 + y01 + y10 + y11)
                middle_x = 0.25 * (x00 + x01 + x10 + x11)
                if not (
                    is_inside(codes, middle_y, middle_x)
                    and free_to[int(middle_y) // BLOCK, int(middle_x) // BLOCK] >= _SEA_BLOCKS
                ):
                    # The box of cells under the tile.
                    least_y = min(min(y00, y01), min(y10, y11)) - _ARC_CELLS
                    most_y = max(max(y00, y01), max(y10, y11)) + _ARC_CELLS
                    least_x = min(min(x00, x01), min(x10, x11)) - _ARC_CELLS
                    most_x = max(max(x00, x01), max(x10, x11)) + _ARC_CELLS
                    is_edge = (
                        least_y < 0.0 or least_x < 0.0 or most_y >= last_row or most_x >= last_col
                    )
                    if is_edge:
                        bits = _BEYOND_BIT
                    for bi in range(
                        int(max(least_y, 0.0)) // BLOCK,
                        int(min(most_y, last_row - 1.0)) // BLOCK + 1,
                    ):
                        for bj in range(
                            int(max(least_x, 0.0)) // BLOCK,
                            int(min(most_x, last_col - 1.0)) // BLOCK + 1,
                        ):
                            bits |= codes[bi, bj]
                            highest = max(highest, float(highest_in[bi, bj]))
                is_unknown = bits & UNKNOWN_BITS != 0
                water = water_slope(from_m, antenna_m, bend)
                low_of[tile] = low
                highest_of[tile] = math.inf if is_unknown else highest
                if highest <= 0.0 or highest <= lowest_sight(
                    max(low, water), from_m, to_m, antenna_m, bend
                ):
                    is_live = is_unknown and _least_and_greatest(unknown)[1] == math.inf
                else:
                    is_live = True
                if not is_live:
                    slot[tile] = -latest - 1
                    high_of[tile] = high
                    tile += 1
                    continue
                if not is_aimed:
                    is_aimed = True
                    _aim(tile_rays, grid, group, rays)
                lay_out(tile_rays, t0, t1)
                if (
                    k0 == 0
                    or k0 + TILE > samples + 1
                    or is_edge
                    or rise_along(tile_rays, flat, cols, inverse, base, k0, top, horizon, used)
                ):
                    # Sample by sample, and what is not known noted.
                    for m in range(TILE):
                        best = top[m]
                        first = 1 if k0 == 0 else 0
                        stop = min(samples - k0 + 1, TILE)
                        if first == 1:
                            horizon[used, 0, m] = best
                        for q in range(first, stop):
                            y = begin[0, m] + q * step[0, m]
                            x = begin[1, m] + q * step[1, m]
                            k = k0 + q
                            if is_edge and not is_inside(codes, y, x):
                                unknown[m] = min(unknown[m], k * step_m)
                            else:
                                z = surface_height(flat, cols, y, x)
                                slope = z * inverse[k] + base[k]
                                if not slope <= best:
                                    if math.isnan(z):
                                        i = int(y)
                                        j = int(x)
                                        z, kinds = partly_known(heights, cell, i, j, y - i, x - j)
                                        if kinds != 0:
                                            unknown[m] = min(unknown[m], k * step_m)
                                        slope = z * inverse[k] + base[k]
                                    if z > 0.0:
                                        best = max(best, slope)
                            horizon[used, q, m] = best
                        for q in range(stop, TILE):
                            horizon[used, q, m] = best
                        top[m] = best
                low, high = _least_and_greatest(top)
                slot[tile] = used
                ring_of[used] = ring
                high_of[tile] = high
                latest = used
                used += 1
                tile += 1
            first_ray = tiles.first_ray[level] + group * TILE
            for m in range(TILE):
                ends[group * TILE + m] = top[m]
                tiles.unknown_m[first_ray + m] = unknown[m]
            tiles.unknown_low_m[first_ray // TILE] = _least_and_greatest(unknown)[0]
    return horizon, ring_of


def trace_tiles(
    ground: Ground,
    here: LocalMap,
    *,
    antenna_m: float,
    bend_per_m: float,
    steps_cells: tuple[float, float, float],
    least_rays: int,
) -> Tiles:
    """The land horizon all round a place.

    Parameters
    ----------
    ground, here
        The terrain, and the map round the place; its radius is followed.
    antenna_m, bend_per_m : float
        Height above water, m, and 1 / (2 k R), 1/m.
    steps_cells, least_rays
        As in ``empty_tiles``.
    """
    tiles = empty_tiles(here, steps_cells=steps_cells, least_rays=least_rays)
    horizon, ring_of = _trace(ground, here.grid, tiles, antenna_m, bend_per_m)
    return tiles._replace(horizon=horizon, ring_of=ring_of)
