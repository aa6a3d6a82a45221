"""The horizon along one ray: the kernel under everything that asks what is in sight.

Over an effective Earth of radius k R a point z metres above the water at range r from an antenna
h metres high lies on the slope

    s(r, z) = (z - h) / r - r / (2 k R).

It is in sight when no point before it lies on a greater slope. The water itself makes a horizon
known in closed form: s(r, 0) rises to -sqrt(2 h / (k R)) at r = sqrt(2 k R h) and falls after, so
rays need to stop at land only. Land no higher than the line of sight

    z(r) = h + m r + r^2 / (2 k R)

of the horizon slope m cannot raise it; where the highest cell of a block stays under the lowest
point of that line the block is passed over, with the same result as walking through it.
(Effective Earth: handbook of marine radar, common practice; R = 6 371 000 m.)

Heights between cell centres are bilinear. An unknown height counts as 0 when it could hide
something (known land alone hides) and as ``unknown_height_m`` when it could itself matter.
"""

import math

from core.base.arrays import ByteArray, Float32Array, FloatArray
from core.base.compiled import bare, inlined
from core.coverage.ray_course import Ray, leg_from
from core.coverage.terrain import BLOCK, FIELD, UNKNOWN_BITS, Ground, is_unknown_alone

UNKNOWN_CODES = 3
"""Unknown cells are told apart as VOID, MISSING, BEYOND, in this order."""
_FIRST_UNKNOWN = 2
_BEYOND = 2
_TOUCH = 1e-3
"""Least weight with which a cell counts as part of a height between cells."""


@inlined
def slope_at(range_m: float, height_m: float, antenna_m: float, bend: float) -> float:
    """Slope of a point, bare; ``bend`` is 1 / (2 k R)."""
    return (height_m - antenna_m) / range_m - bend * range_m


@inlined
def water_slope(range_m: float, antenna_m: float, bend: float) -> float:
    """Greatest slope of the water from the antenna out to a range, bare."""
    if range_m * range_m * bend >= antenna_m:
        return -2.0 * math.sqrt(antenna_m * bend)
    if range_m <= 0.0:
        return -math.inf
    return -antenna_m / range_m - bend * range_m


@bare
def partly_known(
    heights: Float32Array, cell: ByteArray, i: int, j: int, fy: float, fx: float
) -> tuple[float, int]:
    """Height between four cells some of which are unknown, and which kinds of unknown.

    Returns
    -------
    height_m, bits
        Bilinear with 0 for unknown cells; bit ``1 << code`` of each unknown cell that has weight.
    """
    height = 0.0
    bits = 0
    for di in range(2):
        for dj in range(2):
            weight = (fy if di else 1.0 - fy) * (fx if dj else 1.0 - fx)
            if weight > _TOUCH:
                z = heights[i + di, j + dj]
                if math.isnan(z):
                    bits |= 1 << cell[i + di, j + dj]
                else:
                    height += weight * z
    return height, bits & UNKNOWN_BITS


@inlined
def bilinear(heights: Float32Array, i: int, j: int, fy: float, fx: float) -> float:
    """Height between four cells, NaN if one of them is unknown."""
    upper = heights[i, j] + (heights[i, j + 1] - heights[i, j]) * fx
    lower = heights[i + 1, j] + (heights[i + 1, j + 1] - heights[i + 1, j]) * fx
    return float(upper + (lower - upper) * fy)


@inlined
def is_inside(codes: ByteArray, y: float, x: float) -> bool:
    """Whether a row and column lie where heights may be read; ``codes`` are those of blocks."""
    rows, cols = codes.shape
    return bool(0.0 <= y < rows * BLOCK and 0.0 <= x < cols * BLOCK)


@bare
def height_at(heights: Float32Array, cell: ByteArray, y: float, x: float) -> tuple[float, int]:
    """Height at a row and column inside, m, and the kinds of unknown cell that take part."""
    i = int(y)
    j = int(x)
    z = bilinear(heights, i, j, y - i, x - j)
    if math.isnan(z):
        return partly_known(heights, cell, i, j, y - i, x - j)
    return z, 0


@inlined
def note_unknown(
    bits: int,
    range_m: float,
    slope: float,
    horizon: float,
    unknown_m: FloatArray,
) -> None:
    """Keep the first range at which each kind of unknown cell is not hidden."""
    if slope >= horizon:
        for code in range(UNKNOWN_CODES):
            if bits & (1 << (code + _FIRST_UNKNOWN)) and range_m < unknown_m[code]:
                unknown_m[code] = range_m


@inlined
def wanted_unknown(unknown_m: FloatArray) -> int:
    """Bits of the kinds of unknown cell not yet met."""
    bits = 0
    for code in range(UNKNOWN_CODES):
        if unknown_m[code] == math.inf:
            bits |= 1 << (code + _FIRST_UNKNOWN)
    return bits


@inlined
def lowest_sight(slope: float, from_m: float, to_m: float, antenna_m: float, bend: float) -> float:
    """Lowest height above water of a line of sight between two ranges, m."""
    r = min(max(-slope / (2.0 * bend), from_m), to_m)
    return antenna_m + slope * r + bend * r * r


@inlined
def steps_left(at: float, speed: float, low: float, side: float) -> float:
    """Steps until a coordinate leaves the stretch of a length that begins at ``low``."""
    if speed > 0.0:
        return (low + side - at) / speed
    if speed < 0.0:
        return (low - at) / speed
    return math.inf


@inlined
def steps_inside(y: float, x: float, dy: float, dx: float, side: int) -> int:
    """Samples from this one on that lie in the same square of a side of cells, one at least."""
    low_y = float(int(y) // side * side)
    low_x = float(int(x) // side * side)
    most = min(steps_left(y, dy, low_y, float(side)), steps_left(x, dx, low_x, float(side)))
    return int(min(most, 1e6)) + 1


@bare
def trace(
    ground: Ground,
    ray: Ray,
    last: int,
    antenna_m: float,
    bend: float,
    unknown_height_m: float,
    rise_range: FloatArray,
    rise_slope: FloatArray,
    unknown_m: FloatArray,
    enough: float,
) -> tuple[float, int]:
    """Follow one ray through samples 1 to ``last`` and find its land horizon.

    Parameters
    ----------
    ground, ray
        The terrain and the ray over it.
    last : int
        Number of samples; the q-th lies at range q * ray.step_m.
    antenna_m, bend : float
        Height above water, m, and 1 / (2 k R), 1/m.
    unknown_height_m : float
        Height given to an unknown cell when asking whether nearer known land hides it.
    rise_range, rise_slope : (n,) arrays, written
        Ranges, m, and slopes at which the land horizon rises, as many as there is room for.
    unknown_m : (3,) array, written
        First range at which each kind of unknown cell is not hidden, infinite if nowhere.
    enough : float
        The ray ends where its land horizon comes over this slope.

    Returns
    -------
    slope, rises
        Slope of the land horizon at the end, minus infinity if no land is in sight; how often
        it rose.
    """
    # Fields of the tuples are read once: each reading counts a reference.
    heights, cell, highest_in, codes, free_to, fields = ground
    row, col, scale_m, _cell_m, step_m, cells_per_step, leg = ray
    top = -math.inf
    rises = 0
    for code in range(UNKNOWN_CODES):
        unknown_m[code] = math.inf
    wanted = UNKNOWN_BITS
    to_horizon_m = math.sqrt(antenna_m / bend)
    flattest = water_slope(to_horizon_m * 2.0, antenna_m, bend)
    k = 1
    while k <= last:
        # A leg of the ray, straight in the lattice; the same wherever on it one comes in.
        begin = k - (k - 1) % leg
        y0, x0, dy, dx = leg_from(row, col, scale_m, step_m, leg, begin)
        stop = min(begin + leg, last + 1)
        while k < stop:
            y = y0 + (k - begin) * dy
            x = x0 + (k - begin) * dx
            if not is_inside(codes, y, x):
                r = k * step_m
                note_unknown(
                    1 << (_BEYOND + _FIRST_UNKNOWN),
                    r,
                    slope_at(r, unknown_height_m, antenna_m, bend),
                    max(top, water_slope(r, antenna_m, bend)),
                    unknown_m,
                )
                if unknown_m[_BEYOND] < math.inf:
                    return top, rises
                k += 1
                continue
            count = 0
            bi = int(y) // BLOCK
            bj = int(x) // BLOCK
            free = int(free_to[bi, bj])
            if free > 1:
                count = int((free - 1) * BLOCK / cells_per_step) + 1
            elif free == 1:
                count = steps_inside(y, x, dy, dx, BLOCK)
            else:
                r = k * step_m
                horizon = max(top, water_slope(r, antenna_m, bend))
                highest = float(fields[bi // FIELD, bj // FIELD])
                if is_unknown_alone(codes[bi, bj]) and antenna_m <= unknown_height_m:
                    # Of one unknown height all along, the first sample is in sight, or none.
                    side = BLOCK * FIELD if math.isnan(highest) else BLOCK
                    count = min(steps_inside(y, x, dy, dx, side), stop - k)
                    slope = slope_at(r, unknown_height_m, antenna_m, bend)
                    note_unknown(codes[bi, bj] & wanted, r, slope, horizon, unknown_m)
                    wanted = wanted_unknown(unknown_m)
                elif highest < math.inf and horizon > -math.inf:
                    many = min(steps_inside(y, x, dy, dx, BLOCK * FIELD), stop - k)
                    if highest <= lowest_sight(
                        horizon, r, r + (many - 1) * step_m, antenna_m, bend
                    ):
                        count = many
                if count == 0:
                    within = min(steps_inside(y, x, dy, dx, BLOCK), stop - k)
                    highest = float(highest_in[bi, bj])
                    if codes[bi, bj] & wanted:
                        highest = max(highest, unknown_height_m)
                    if highest <= lowest_sight(
                        horizon, r, r + (within - 1) * step_m, antenna_m, bend
                    ):
                        count = within
                    else:
                        for _q in range(within):
                            i = int(y)
                            j = int(x)
                            z = bilinear(heights, i, j, y - i, x - j)
                            if math.isnan(z):
                                z, bits = partly_known(heights, cell, i, j, y - i, x - j)
                                if bits & wanted:
                                    note_unknown(
                                        bits,
                                        r,
                                        slope_at(r, unknown_height_m, antenna_m, bend),
                                        max(top, water_slope(r, antenna_m, bend)),
                                        unknown_m,
                                    )
                                    wanted = wanted_unknown(unknown_m)
                            if z > 0.0 and z - antenna_m - bend * r * r > top * r:
                                slope = slope_at(r, z, antenna_m, bend)
                                if slope > top and (r <= to_horizon_m or slope > flattest):
                                    top = slope
                                    if rises < rise_range.size:
                                        rise_range[rises] = r
                                        rise_slope[rises] = slope
                                    rises += 1
                                    if top > enough:
                                        return top, rises
                            k += 1
                            r = k * step_m
                            y = y0 + (k - begin) * dy
                            x = x0 + (k - begin) * dx
            k += count
    return top, rises
