"""What hides one cell on a ray of its own, followed back from it no farther than it matters."""

import math

from core.base.arrays import ByteArray, Float32Array, FloatArray, IntArray
from core.base.compiled import bare
from core.coverage.horizon_tiles import ray_polynomials
from core.coverage.rays import is_inside, lowest_sight, partly_known
from core.coverage.surface import column_value, surface_height
from core.coverage.tile_layout import TILE

OWN_STEPS = 4
"""Samples a cell on a ray of its own: rocks of one cell have sharp tops."""
_SAMPLES_EARLIER = 1
"""A ray of its own begins this much before the rays beside it rise."""


@bare
def _rises_over(
    heights: Float32Array,
    flat: Float32Array,
    cell: ByteArray,
    codes: ByteArray,
    row: FloatArray,
    col: FloatArray,
    scale_m: float,
    first: int,
    last: int,
    step_m: float,
    slope: float,
    antenna_m: float,
    bend: float,
) -> bool:
    """Whether known land rises over a slope at samples ``first`` to ``last`` of a ray.

    ``row`` and ``col`` are its (n, 1) polynomials; so short a piece is taken as straight.
    """
    cols = heights.shape[1]
    t = first * step_m / scale_m
    y = column_value(row, 0, t)
    x = column_value(col, 0, t)
    t = (last + 1) * step_m / scale_m
    dy = (column_value(row, 0, t) - y) / (last + 1 - first)
    dx = (column_value(col, 0, t) - x) / (last + 1 - first)
    end_y = y + dy * (last - first)
    end_x = x + dx * (last - first)
    is_whole = is_inside(codes, y, x) and is_inside(codes, end_y, end_x)
    for k in range(first, last + 1):
        if is_whole or is_inside(codes, y, x):
            r = k * step_m
            z = surface_height(flat, cols, y, x)
            if not z <= antenna_m + (slope + bend * r) * r:
                if math.isnan(z):
                    i = int(y)
                    j = int(x)
                    z, _kinds = partly_known(heights, cell, i, j, y - i, x - j)
                if z > 0.0 and (z - antenna_m) / r - bend * r > slope:
                    return True
        y += dy
        x += dx
    return False


@bare
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
) -> tuple[int, int, float]:
    """Level, ring and range, m, before which the rays beside a bearing stay under a slope.

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
        # Horizons never fall along a ray, so the last sample under the slope is found by halves.
        under, over = -1, q + 1
        while over - under > 1:
            middle = (under + over) // 2
            if (
                max(
                    horizon[one, max(middle, from_one), ray_one],
                    horizon[two, max(middle, from_two), ray_two],
                )
                > slope
            ):
                over = middle
            else:
                under = middle
        q = under
        if q >= 0 or (ring == 0 and level == 0):
            break
        q = TILE - 1
        # Level tiles are passed over at once, back to the last table of either ray.
        ring = max(ring_of[one], ring_of[two], first_ring_of[level] - 1) if is_level else ring - 1
        if ring < first_ring_of[level]:
            level -= 1
            ring = first_ring_of[level] + rings_of[level] - 1
    return level, ring, max(ring * TILE + q - _SAMPLES_EARLIER, 0) * step_of[level]


@bare
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
) -> bool:
    """The same as ``own_hides`` where so little of the ray counts that it is straight.

    ``y`` and ``x`` are row and column of the cell at ``range_m``; ``down`` and ``right`` are how
    they grow along the ray, cells a metre.
    """
    cols = heights.shape[1]
    last = int(to_m / step_m + 1e-6)
    first = max(int(from_m / step_m), 1)
    back_m = range_m - first * step_m
    # The near end lies between the antenna and the cell: only data with edges can lack it.
    is_whole = is_inside(codes, y, x) and is_inside(codes, y - down * back_m, x - right * back_m)
    for k in range(first, last + 1):
        r = k * step_m
        back_m = range_m - r
        yy = y - down * back_m
        xx = x - right * back_m
        if not (is_whole or is_inside(codes, yy, xx)):
            continue
        z = surface_height(flat, cols, yy, xx)
        if not z <= antenna_m + (slope + bend * r) * r:
            if math.isnan(z):
                i = int(yy)
                j = int(xx)
                z, _kinds = partly_known(heights, cell, i, j, yy - i, xx - j)
            if z > 0.0 and (z - antenna_m) / r - bend * r > slope:
                return True
    return False


@bare
def own_hides(
    heights: Float32Array,
    flat: Float32Array,
    cell: ByteArray,
    codes: ByteArray,
    row_of: FloatArray,
    col_of: FloatArray,
    scale_m: float,
    step_of: FloatArray,
    rays_of: IntArray,
    first_ring_of: IntArray,
    rings_of: IntArray,
    first_tile_of: IntArray,
    slot: IntArray,
    ring_of: IntArray,
    low_of: Float32Array,
    highest_of: Float32Array,
    east: float,
    north: float,
    turn: float,
    step_m: float,
    to_m: float,
    level: int,
    sample: int,
    rise_level: int,
    rise_ring: int,
    from_m: float,
    slope: float,
    antenna_m: float,
    bend: float,
    row: FloatArray,
    col: FloatArray,
) -> bool:
    """Whether known land on the ray to a cell rises over a slope.

    Looked at is the tile where the rays beside rise, then all behind it, back from the cell. Tiles
    without a table raise no horizon: they are passed over at once.

    Parameters
    ----------
    heights, flat, cell, codes, row_of, col_of, scale_m
        Of the terrain (``flat``: the heights row by row) and the local map.
    step_of, rays_of, first_ring_of, rings_of, first_tile_of, slot, ring_of, low_of, highest_of
        Of the tiles.
    east, north, turn : float
        Sine and cosine of the bearing, and the bearing in turns, 0 to 1.
    step_m, to_m : float
        How far apart samples lie, a quarter of a cell; the range before which land counts, m.
    level, sample : int
        Where in the tiles ``to_m`` lies.
    rise_level, rise_ring, from_m
        As found by ``rises_from``: land nearer than that does not count.
    slope : float
        That of the target.
    antenna_m, bend : float
        Height above water, m, and 1 / (2 k R), 1/m.
    row, col : (n, 1) arrays, written
        Room for the polynomials of the ray.
    """
    last = int(to_m / step_m + 1e-6)
    ray_polynomials(row_of, col_of, east, north, 0, row, col)
    # The rise itself first: most of what is hidden is hidden there.
    first = max(int(from_m / step_m), 1)
    rise_last = min(int((rise_ring + 1) * TILE * step_of[rise_level] / step_m), last)
    if _rises_over(
        heights, flat, cell, codes, row, col, scale_m, first, rise_last, step_m, slope,
        antenna_m, bend,
    ):  # fmt: skip
        return True
    ring = sample // TILE
    while last > rise_last:
        rays = rays_of[level]
        left = min(int(turn * rays), rays - 1)
        right = left + 1 if left + 1 < rays else 0
        rings = rings_of[level]
        first_ring = first_ring_of[level]
        one = first_tile_of[level] + ring - first_ring + left // TILE * rings
        two = first_tile_of[level] + ring - first_ring + right // TILE * rings
        slot_one = slot[one]
        slot_two = slot[two]
        if slot_one < 0 and slot_two < 0 and slope >= max(low_of[one], low_of[two]):
            # Back to the last table of either.
            ring = max(ring_of[-slot_one - 1], ring_of[-slot_two - 1], first_ring - 1)
            last = min(last, int((ring + 1) * TILE * step_of[level] / step_m))
        else:
            first = max(int(ring * TILE * step_of[level] / step_m), rise_last + 1)
            highest = max(highest_of[one], highest_of[two])
            if highest > 0.0 and highest > lowest_sight(
                slope, first * step_m, last * step_m, antenna_m, bend
            ) and _rises_over(
                heights, flat, cell, codes, row, col, scale_m, first, last, step_m, slope,
                antenna_m, bend,
            ):  # fmt: skip
                return True
            last = first - 1
            ring -= 1
        if ring < first_ring:
            level -= 1
            ring = first_ring_of[level] + rings_of[level] - 1
    return False


@bare
def own_clear(
    heights: Float32Array,
    cell: ByteArray,
    codes: ByteArray,
    row: FloatArray,
    col: FloatArray,
    scale_m: float,
    step_m: float,
    from_m: float,
    to_m: float,
) -> bool:
    """Whether all heights on a ray between two ranges are known.

    ``row`` and ``col`` are the (n, 1) polynomials of the ray.
    """
    for k in range(max(int(from_m / step_m), 1), int(to_m / step_m + 1e-6) + 1):
        t = k * step_m / scale_m
        y = column_value(row, 0, t)
        x = column_value(col, 0, t)
        if not is_inside(codes, y, x):
            return False
        i = int(y)
        j = int(x)
        if math.isnan(
            heights[i, j] + heights[i, j + 1] + heights[i + 1, j] + heights[i + 1, j + 1]
        ):
            _z, kinds = partly_known(heights, cell, i, j, y - i, x - j)
            if kinds != 0:
                return False
    return True
