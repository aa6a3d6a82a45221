"""The horizon of one cell on a ray of its own, followed no farther than it matters."""

import math

from core.base.arrays import FloatArray
from core.base.compiled import kernel
from core.coverage.horizon_tiles import TILE, Tiles, land_horizon, ray_polynomials
from core.coverage.local_map import Grid
from core.coverage.rays import bilinear, is_inside, lowest_sight, partly_known, polynomial
from core.coverage.terrain import BLOCK, UNKNOWN_BITS, Ground

_STEPS_A_CELL = 4
"""Samples a cell on a ray of its own."""
_PIECE = 32
"""Samples over which a ray is taken as straight in the lattice (8 cells)."""


@kernel
def rises_from(tiles: Tiles, turn: float, short_m: float, slope: float) -> float:
    """Range before which the rays either side of a bearing stay under a slope, m.

    ``turn`` is the bearing in turns, 0 to 1; the search goes back from ``short_m`` by tiles.
    """
    ring = int(short_m / tiles.step_m) // TILE
    while ring > 0:
        level = tiles.level_of[ring - 1]
        rays = tiles.rays[level]
        left = int(turn * rays) % rays
        right = (left + 1) % rays
        first = tiles.first_ring[level]
        rings = tiles.first_ring[level + 1] - first
        at = tiles.first_tile[level] + ring - 1 - first
        one = land_horizon(tiles, at + left // TILE * rings, left % TILE, TILE - 1)
        two = land_horizon(tiles, at + right // TILE * rings, right % TILE, TILE - 1)
        if max(one, two) <= slope:
            break
        ring -= 1
    return ring * TILE * tiles.step_m


@kernel
def own_horizon(
    ground: Ground,
    grid: Grid,
    east: float,
    north: float,
    cell_m: float,
    from_m: float,
    to_m: float,
    slope: float,
    antenna_m: float,
    bend: float,
    row: FloatArray,
    col: FloatArray,
) -> tuple[float, bool]:
    """Land horizon of a ray between two ranges where it rises over a slope.

    Parameters
    ----------
    ground, grid
        The terrain and the local map.
    east, north : float
        Sine and cosine of the bearing.
    cell_m : float
        How far a cell reaches along the ray; samples lie a quarter of it apart.
    from_m, to_m : float
        Ranges between which samples count.
    slope : float
        What lies under it does not matter and is passed over.
    antenna_m, bend : float
        Height above water, m, and 1 / (2 k R), 1/m.
    row, col : (n,) arrays, written
        Room for the polynomials of the ray.

    Returns
    -------
    slope, is_clear
        The greater of ``slope`` and all samples; whether all cells between were known.
    """
    heights, cell, highest_in, codes, _free = ground
    ray_polynomials(grid, east, north, row, col)
    step_m = cell_m / _STEPS_A_CELL
    last = int(to_m / step_m + 1e-6)
    k = max(int(from_m / step_m), 1)
    top = slope
    is_clear = True
    while k <= last:
        r = k * step_m
        t = r / grid.scale_m
        y = polynomial(row, t)
        x = polynomial(col, t)
        count = min(_PIECE, last - k + 1)
        t = (r + (_PIECE - 1) * step_m) / grid.scale_m
        dy = (polynomial(row, t) - y) / (_PIECE - 1)
        dx = (polynomial(col, t) - x) / (_PIECE - 1)
        end_y = y + dy * (count - 1)
        end_x = x + dx * (count - 1)
        if not (is_inside(codes, y, x) and is_inside(codes, end_y, end_x)):
            is_clear = False
            highest = math.inf
        else:
            highest = 0.0
            bits = 0
            for bi in range(int(min(y, end_y)) // BLOCK, int(max(y, end_y)) // BLOCK + 1):
                for bj in range(int(min(x, end_x)) // BLOCK, int(max(x, end_x)) // BLOCK + 1):
                    highest = max(highest, float(highest_in[bi, bj]))
                    bits |= codes[bi, bj]
            if is_clear and bits & UNKNOWN_BITS:
                highest = math.inf
        if highest <= 0.0 or highest <= lowest_sight(
            top, r, r + (count - 1) * step_m, antenna_m, bend
        ):
            k += count
            continue
        for _q in range(count):
            if is_inside(codes, y, x):
                i = int(y)
                j = int(x)
                z = bilinear(heights, i, j, y - i, x - j)
                if math.isnan(z):
                    z, kinds = partly_known(heights, cell, i, j, y - i, x - j)
                    if kinds != 0:
                        is_clear = False
                if z > 0.0:
                    top = max(top, (z - antenna_m) / r - bend * r)
            r += step_m
            y += dy
            x += dx
        k += count
    return top, is_clear
