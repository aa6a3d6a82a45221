"""What one ray lights: height across the line of sight, water and unknown heights by range cell.

Along a ray the surface between two samples is lit as far as its slope (``rays.py``) exceeds all
slopes before it. A lit piece that rises the slope by ds at range r stands ``r ds`` high across
the line of sight; lit pieces of one cell add up. (For lines of sight up to 5 deg off the
horizontal this is right to 0.4 %; it is exactly ``r ds / sqrt(1 + s^2)``.)

The rules are those of ``rays.trace``: effective Earth, heights bilinear between cell centres, the
horizon of the water, blocks passed over that are free of land or stay below the horizon.
"""

import math
from typing import NamedTuple

from core.base.arrays import ByteArray, Float32Array, FloatArray
from core.base.compiled import bare, inlined
from core.base.constants import UNKNOWN_HEIGHT_ASSUMED_M
from core.coverage.ray_course import Ray, leg_from
from core.coverage.rays import (
    bilinear,
    height_at,
    is_inside,
    lowest_sight,
    note_unknown,
    partly_known,
    slope_at,
    steps_inside,
    water_slope,
)
from core.coverage.terrain import BLOCK, FIELD, UNKNOWN_BITS, Ground, is_unknown_alone
from core.land.land_model import Cell

_BEYOND_BIT = 1 << int(Cell.BEYOND)


class Sums(NamedTuple):
    """Sums over the rays of one bearing, by range cell: (N,) arrays.

    ``face`` and, weighted by it, ``height``, its square and ``steep``; what was met of water and
    of unknown heights; the face of ground of known kinds and, weighted by it, its gamma, both
    empty where no kinds are known.
    """

    cell_m: float
    face: FloatArray
    height: FloatArray
    square: FloatArray
    steep: FloatArray
    water: ByteArray
    unknown: ByteArray
    known: FloatArray
    gamma: FloatArray


class Lit(NamedTuple):
    """How a ray ends: slope of its land horizon, minus infinity without, and how often it rose."""

    slope_ratio: float
    rises: int


class Trail(NamedTuple):
    """What else a ray leaves behind, as ``rays.trace`` does.

    Ranges, m, and slopes at which its land horizon rises, as many as there is room for; the
    first range at which each kind of unknown cell, taken as 50 m high, is not hidden.
    """

    rise_range: FloatArray
    rise_slope: FloatArray
    unknown_m: FloatArray


class Kinds(NamedTuple):
    """Kinds of ground: the number of each cell, and the gamma of each number at 10 GHz, bare.

    ``number`` is empty, (0, 0), where none are known.
    """

    number: ByteArray
    gamma: FloatArray


@inlined
def _mark(cells: ByteArray, from_m: float, to_m: float, cell_m: float) -> None:
    """Mark every range cell between two ranges."""
    for n in range(int(from_m / cell_m), min(int(to_m / cell_m) + 1, cells.size)):
        cells[n] = 1


@bare
def _mark_unknown(
    unknown: ByteArray,
    cell_m: float,
    from_m: float,
    to_m: float,
    horizon: float,
    antenna_m: float,
    bend: float,
) -> None:
    """Mark the range cells between two ranges in which an unknown height could be in sight."""
    for n in range(int(from_m / cell_m), min(int(to_m / cell_m) + 1, unknown.size)):
        r = min(max((n + 0.5) * cell_m, from_m), to_m)
        if slope_at(r, UNKNOWN_HEIGHT_ASSUMED_M, antenna_m, bend) >= horizon:
            unknown[n] = 1


@bare
def _mark_water(
    water: ByteArray,
    unknown: ByteArray,
    cell_m: float,
    from_m: float,
    to_m: float,
    top: float,
    dark_m: float,
    antenna_m: float,
    bend: float,
) -> None:
    """Mark the water in sight between two ranges over a land horizon of constant slope.

    It comes in sight where ``-h / r - r / (2 k R)`` has climbed back to that slope. Past
    ``dark_m``, the first unknown height, it is unknown whether it does. Land that rises from
    such water is in sight too, so its cells are told apart by what they show.
    """
    near_m = from_m
    if top > -math.inf:
        under = top * top - 4.0 * antenna_m * bend
        if top >= 0.0 or under < 0.0:
            return
        near_m = max(near_m, (-top - math.sqrt(under)) / (2.0 * bend))
    far_m = min(to_m, math.sqrt(antenna_m / bend))
    if near_m < min(far_m, dark_m):
        _mark(water, near_m, min(far_m, dark_m), cell_m)
    if max(near_m, dark_m) < far_m:
        _mark(unknown, max(near_m, dark_m), far_m, cell_m)


@inlined
def _steepness(heights: Float32Array, row: float, col: float, metric: FloatArray) -> float:
    """Slope of the ground at a row and column inside, rise over run, NaN if not all is known.

    ``metric`` (2, 2) turns the changes of height g a row and a column into slope^2 = g M g.
    """
    i = int(row)
    j = int(col)
    left = heights[i + 1, j] - heights[i, j]
    right = heights[i + 1, j + 1] - heights[i, j + 1]
    upper = heights[i, j + 1] - heights[i, j]
    lower = heights[i + 1, j + 1] - heights[i + 1, j]
    y = left + (right - left) * (col - j)
    x = upper + (lower - upper) * (row - i)
    square = metric[0, 0] * y * y + 2.0 * metric[0, 1] * y * x + metric[1, 1] * x * x
    return math.sqrt(square)


@inlined
def _add(
    face: FloatArray,
    height: FloatArray,
    square: FloatArray,
    steep: FloatArray,
    unknown: ByteArray,
    known_face: FloatArray,
    known_gamma: FloatArray,
    cell_m: float,
    from_m: float,
    to_m: float,
    angle: float,
    from_height_m: float,
    to_height_m: float,
    slant: float,
    dark_m: float,
    gamma: float,
    stop_cell: int,
) -> None:
    """Add a lit piece of ground to the range cells it lies in; ``gamma`` 0 is not known."""
    a = from_m
    while a < to_m:
        n = int(a / cell_m + 1e-9)
        if n >= stop_cell:
            break
        b = min(to_m, (n + 1) * cell_m)
        share = (b - a) / (to_m - from_m)
        middle_m = 0.5 * (a + b)
        rise = (to_height_m - from_height_m) * share
        z = from_height_m + (to_height_m - from_height_m) * (middle_m - from_m) / (to_m - from_m)
        weight = middle_m * angle * share
        face[n] += weight
        height[n] += weight * z
        square[n] += weight * (z * z + rise * rise / 12.0)
        steep[n] += weight * slant
        if gamma > 0.0:
            known_face[n] += weight
            known_gamma[n] += weight * gamma
        if middle_m > dark_m:
            unknown[n] = 1
        a = b


@inlined
def walk(
    ground: Ground,
    ray: Ray,
    last: int,
    antenna_m: float,
    water_m: float,
    bend: float,
    metric: FloatArray,
    kinds: Kinds,
    sums: Sums,
    trail: Trail,
    from_m: float,
    stop_cell: int,
    enough: float,
    own_m: float,
) -> Lit:
    """Follow one ray through samples 1 to ``last`` and add what it lights to the sums.

    Ground nearer than ``from_m``, from range cell ``stop_cell`` on, or higher than ``own_m`` is not
    added, but hides as all does. The ray ends
    where its land horizon comes over the slope ``enough``: what lies beyond is taken as hidden.

    Heights, the antenna's too, are over the zero of the lattice; the water stands at ``water_m``,
    and ground below that is water.
    """
    clear_m = antenna_m - water_m
    # The water rises over no slope steeper than that at which it ends.
    flattest = -2.0 * math.sqrt(clear_m * bend) if clear_m > 0.0 else math.inf
    # Fields of the tuples are read once: each reading counts a reference.
    heights, cell, highest_in, codes, free_to, fields = ground
    kind_of, gamma_of = kinds
    cell_m, face, height, square, steep, water, unknown, known_face, known_gamma = sums
    row, col, scale_m, _cell_m, step_m, cells_per_step, leg = ray
    rows, cols = codes.shape[0] * BLOCK, codes.shape[1] * BLOCK
    top = -math.inf
    top_m = 0.0
    dark_m = math.inf
    rises = 0
    rise_range, rise_slope, unknown_m = trail
    known = 0  # the sample whose height is z_before
    z_before = 0.0
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
                off = max(max(-y, y - rows), max(-x, x - cols))
                count = min(max(int(off / cells_per_step), 1), last - k + 1)
                horizon = max(top, water_slope(r, clear_m, bend))
                far_m = r + (count - 1) * step_m
                _mark_unknown(unknown, cell_m, r, far_m, horizon, antenna_m, bend)
                for at_m in (r, far_m):
                    over = slope_at(at_m, UNKNOWN_HEIGHT_ASSUMED_M, antenna_m, bend)
                    note_unknown(_BEYOND_BIT, at_m, over, horizon, unknown_m)
                dark_m = min(dark_m, r)
                k += count
                continue
            bi = int(y) // BLOCK
            bj = int(x) // BLOCK
            free = int(free_to[bi, bj])
            count = 0
            within = 0
            if free > 1:
                count = int((free - 1) * BLOCK / cells_per_step) + 1
            elif free == 1:
                count = steps_inside(y, x, dy, dx, BLOCK)
            else:
                r = k * step_m
                horizon = top
                if top < flattest:
                    horizon = max(top, water_slope(r, clear_m, bend))
                highest = float(fields[bi // FIELD, bj // FIELD])
                if is_unknown_alone(codes[bi, bj]) and antenna_m <= UNKNOWN_HEIGHT_ASSUMED_M:
                    # Of one unknown height all along: in sight from the first sample on, or not.
                    side = BLOCK * FIELD if math.isnan(highest) else BLOCK
                    count = min(steps_inside(y, x, dy, dx, side), stop - k)
                    over = slope_at(r, UNKNOWN_HEIGHT_ASSUMED_M, antenna_m, bend)
                    _mark_unknown(
                        unknown, cell_m, r, r + (count - 1) * step_m, horizon, antenna_m, bend
                    )
                    note_unknown(codes[bi, bj], r, over, horizon, unknown_m)
                    dark_m = min(dark_m, r)
                elif highest < math.inf and horizon > -math.inf:
                    many = min(steps_inside(y, x, dy, dx, BLOCK * FIELD), stop - k)
                    if highest <= lowest_sight(
                        horizon, r, r + (many - 1) * step_m, antenna_m, bend
                    ):
                        count = many
                if count == 0:
                    within = min(steps_inside(y, x, dy, dx, BLOCK), stop - k)
                    highest = float(highest_in[bi, bj])
                    if codes[bi, bj] & UNKNOWN_BITS:
                        is_dark = dark_m < math.inf
                        highest = max(highest, UNKNOWN_HEIGHT_ASSUMED_M) if is_dark else math.inf
                    if highest <= lowest_sight(
                        horizon, r, r + (within - 1) * step_m, antenna_m, bend
                    ):
                        count = within
            if count > 0:
                k += count
                continue
            r = k * step_m
            for _q in range(within):
                i = int(y)
                j = int(x)
                z = bilinear(heights, i, j, y - i, x - j)
                if math.isnan(z):
                    z, bits = partly_known(heights, cell, i, j, y - i, x - j)
                    if bits:
                        over = max(top, water_slope(r, clear_m, bend))
                        _mark_unknown(unknown, cell_m, r, r, over, antenna_m, bend)
                        high = slope_at(r, UNKNOWN_HEIGHT_ASSUMED_M, antenna_m, bend)
                        note_unknown(bits, r, high, over, unknown_m)
                        dark_m = min(dark_m, r)
                if z > water_m and z - antenna_m - bend * r * r > top * r:
                    slope = slope_at(r, z, antenna_m, bend)
                    # Of ground under the antenna itself the part straight below is left out.
                    base = top
                    if top < flattest:
                        before_m = max(r - step_m, 0.5 * step_m)
                        base = max(top, water_slope(before_m, clear_m, bend))
                    if slope > base:
                        if r >= from_m and z <= own_m:
                            if known != k - 1:
                                z_before = 0.0
                                if is_inside(codes, y - dy, x - dx):
                                    z_before, _bits = height_at(heights, cell, y - dy, x - dx)
                            # The lit share of this step lies over the sight line of the base.
                            share = 1.0
                            if r > 1.5 * step_m:
                                before = slope_at(r - step_m, z_before, antenna_m, bend)
                                if before < base:
                                    share = (slope - base) / (slope - before)
                            # The slope is that of the lit piece, not of what lies past the sample;
                            # a step over a crest is no flatter than it rises.
                            slant = abs(z - z_before) / step_m
                            back = 0.5 * share
                            gamma = 0.0
                            if is_inside(codes, y - back * dy, x - back * dx):
                                ground_slope = _steepness(
                                    heights, y - back * dy, x - back * dx, metric
                                )
                                if ground_slope > slant:  # never true of NaN
                                    slant = ground_slope
                                if kind_of.size:
                                    at = int(y - back * dy + 0.5), int(x - back * dx + 0.5)
                                    gamma = gamma_of[kind_of[at]]
                            _add(
                                face,
                                height,
                                square,
                                steep,
                                unknown,
                                known_face,
                                known_gamma,
                                cell_m,
                                r - share * step_m,
                                r,
                                slope - base,
                                z - share * (z - z_before),
                                z,
                                slant,
                                dark_m,
                                gamma,
                                stop_cell,
                            )
                        if r - top_m > 1.5 * step_m:
                            _mark_water(
                                water, unknown, cell_m, top_m, r, top, dark_m, clear_m, bend
                            )
                        top = slope
                        top_m = r
                        if rises < rise_range.size:
                            rise_range[rises] = r
                            rise_slope[rises] = slope
                        rises += 1
                        if top > enough:
                            k = last + 1
                            break
                z_before = z
                known = k
                k += 1
                r = k * step_m
                y = y0 + (k - begin) * dy
                x = x0 + (k - begin) * dx
    _mark_water(water, unknown, cell_m, top_m, (last + 1) * step_m, top, dark_m, clear_m, bend)
    return Lit(top, rises)
