"""What hides one cell on a ray of its own, followed no farther than it matters."""

import math

from core.base.arrays import ByteArray, Float32Array, FloatArray, IntArray
from core.base.compiled import kernel
from core.coverage.horizon_tiles import ray_polynomials
from core.coverage.rays import is_inside, lowest_sight, partly_known
from core.coverage.surface import row_value, surface_height
from core.coverage.terrain import BLOCK
from core.coverage.tile_layout import TILE

OWN_STEPS = 4
"""Samples a cell on a ray of its own: rocks of one cell have sharp tops."""
_SAMPLES_EARLIER = 1
"""A ray of its own begins this much before the rays beside it rise."""


@kernel
def rises_from(
    step_of: FloatArray,
    rays_of: IntArray,
    first_ring_of: IntArray,
    rings_of: IntArray,
    first_tile_of: IntArray,
    slot: IntArray,
    ring_of: IntArray,
    horizon: Float32Array,
    turn: float,
    level: int,
    sample: int,
    slope: float,
) -> float:
    """Range before which the rays either side of a bearing stay under a slope, m.

    The arrays are those of ``Tiles``; ``turn`` is the bearing in turns, 0 to 1; the search goes
    back from a sample of a level.
    """
    ring = sample // TILE
    q = sample % TILE
    while True:
        rays = rays_of[level]
        left = min(int(turn * rays), rays - 1)
        right = left + 1 if left + 1 < rays else 0
        rings = rings_of[level]
        at = first_tile_of[level] + ring - first_ring_of[level]
        one = slot[at + left // TILE * rings]
        two = slot[at + right // TILE * rings]
        # A tile without a table is level all through.
        from_one = TILE - 1 if one < 0 else 0
        from_two = TILE - 1 if two < 0 else 0
        is_level = one < 0 and two < 0
        one = -one - 1 if one < 0 else one
        two = -two - 1 if two < 0 else two
        ray_one = left % TILE
        ray_two = right % TILE
        while q >= 0 and (
            max(horizon[one, ray_one, max(q, from_one)], horizon[two, ray_two, max(q, from_two)])
            > slope
        ):
            q = -1 if is_level else q - 1
        if q >= 0 or (ring == 0 and level == 0):
            break
        q = TILE - 1
        # Level tiles are passed over at once, back to the last table of either ray.
        ring = max(ring_of[one], ring_of[two], first_ring_of[level] - 1) if is_level else ring - 1
        if ring < first_ring_of[level]:
            level -= 1
            ring = first_ring_of[level] + rings_of[level] - 1
    return float(max(ring * TILE + q - _SAMPLES_EARLIER, 0) * step_of[level])


@kernel
def straight_hides(
    heights: Float32Array,
    flat: Float32Array,
    cell: ByteArray,
    codes: ByteArray,
    y: float,
    x: float,
    down: float,
    right: float,
    range_m: float,
    step_m: float,
    from_m: float,
    to_m: float,
    slope: float,
    antenna_m: float,
    bend: float,
) -> tuple[bool, bool]:
    """The same as ``own_hides`` where so little of the ray counts that it is straight.

    ``y`` and ``x`` are row and column of the cell at ``range_m``; ``down`` and ``right`` are how
    they grow along the ray, cells a metre.
    """
    cols = heights.shape[1]
    last = int(to_m / step_m + 1e-6)
    first = max(int(from_m / step_m), 1)
    is_clear = True
    back_m = range_m - first * step_m
    # The near end lies between the antenna and the cell: only data with edges can lack it.
    is_whole = is_inside(codes, y, x) and is_inside(codes, y - down * back_m, x - right * back_m)
    for k in range(first, last + 1):
        r = k * step_m
        back_m = range_m - r
        yy = y - down * back_m
        xx = x - right * back_m
        if not (is_whole or is_inside(codes, yy, xx)):
            is_clear = False
            continue
        z = surface_height(flat, cols, yy, xx)
        if not z <= antenna_m + (slope + bend * r) * r:
            if math.isnan(z):
                i = int(yy)
                j = int(xx)
                z, kinds = partly_known(heights, cell, i, j, yy - i, xx - j)
                if kinds != 0:
                    is_clear = False
            if z > 0.0 and (z - antenna_m) / r - bend * r > slope:
                return True, is_clear
    return False, is_clear


@kernel
def own_hides(
    heights: Float32Array,
    flat: Float32Array,
    cell: ByteArray,
    highest_in: Float32Array,
    codes: ByteArray,
    row_of: FloatArray,
    col_of: FloatArray,
    scale_m: float,
    level_of: IntArray,
    step_of: FloatArray,
    rays_of: IntArray,
    first_ring_of: IntArray,
    rings_of: IntArray,
    first_tile_of: IntArray,
    highest_of: Float32Array,
    ring_m: float,
    east: float,
    north: float,
    turn: float,
    step_m: float,
    from_m: float,
    to_m: float,
    slope: float,
    antenna_m: float,
    bend: float,
    row: FloatArray,
    col: FloatArray,
) -> tuple[bool, bool]:
    """Whether land on a ray between two ranges rises over a slope.

    Parameters
    ----------
    heights, flat, cell, highest_in, codes, row_of, col_of, scale_m
        Of the terrain (``flat``: the heights row by row) and the local map.
    level_of, step_of, rays_of, first_ring_of, rings_of, first_tile_of, highest_of, ring_m
        Of the tiles; those too low to matter are passed over.
    east, north, turn : float
        Sine and cosine of the bearing, and the bearing in turns, 0 to 1.
    step_m : float
        How far apart samples lie, a quarter or half of a cell.
    from_m, to_m : float
        Ranges between which samples count.
    slope : float
        That of a target.
    antenna_m, bend : float
        Height above water, m, and 1 / (2 k R), 1/m.
    row, col : (1, n) arrays, written
        Room for the polynomials of the ray.

    Returns
    -------
    is_hidden, is_clear
        Whether known land hides the target; whether all cells followed until then were known.
    """
    last = int(to_m / step_m + 1e-6)
    cols = heights.shape[1]
    k = max(int(from_m / step_m), 1)
    is_clear = True
    is_aimed = False
    # Tiles end where their last sample lies; what is between two tiles goes with the first,
    # whose blocks reach a cell past it.
    while k <= last:
        r = k * step_m
        level = level_of[int(r / ring_m)]
        tile_m = TILE * step_of[level]
        ring = int(r / tile_m)
        stop = min(max(int((ring + 1) * tile_m / step_m), k), last) + 1
        rays = rays_of[level]
        left = min(int(turn * rays), rays - 1)
        right = left + 1 if left + 1 < rays else 0
        rings = rings_of[level]
        tile = first_tile_of[level] + ring - first_ring_of[level]
        highest = max(
            highest_of[tile + left // TILE * rings], highest_of[tile + right // TILE * rings]
        )
        if highest <= 0.0 or highest <= lowest_sight(
            slope, r, (stop - 1) * step_m, antenna_m, bend
        ):
            k = stop
            continue
        if not is_aimed:
            ray_polynomials(row_of, col_of, east, north, 0, row, col)
            is_aimed = True
        t = r / scale_m
        y = row_value(row, 0, t)
        x = row_value(col, 0, t)
        t += (stop - k) * step_m / scale_m
        dy = (row_value(row, 0, t) - y) / (stop - k)
        dx = (row_value(col, 0, t) - x) / (stop - k)
        last_q = stop - k - 1
        end_y = y + dy * last_q
        end_x = x + dx * last_q
        is_whole = is_inside(codes, y, x) and is_inside(codes, end_y, end_x)
        if is_whole and highest < math.inf:
            # The blocks under this piece of the ray may be low although the tile is not.
            top = 0.0
            for bi in range(int(min(y, end_y)) // BLOCK, int(max(y, end_y)) // BLOCK + 1):
                for bj in range(int(min(x, end_x)) // BLOCK, int(max(x, end_x)) // BLOCK + 1):
                    top = max(top, float(highest_in[bi, bj]))
            if top <= lowest_sight(slope, r, (stop - 1) * step_m, antenna_m, bend):
                k = stop
                continue
        for _k in range(k, stop):
            if is_whole or is_inside(codes, y, x):
                z = surface_height(flat, cols, y, x)
                if not z <= antenna_m + (slope + bend * r) * r:
                    if math.isnan(z):
                        i = int(y)
                        j = int(x)
                        z, kinds = partly_known(heights, cell, i, j, y - i, x - j)
                        if kinds != 0:
                            is_clear = False
                    if z > 0.0 and (z - antenna_m) / r - bend * r > slope:
                        return True, is_clear
            else:
                is_clear = False
            r += step_m
            y += dy
            x += dx
        k = stop
    return False, is_clear
