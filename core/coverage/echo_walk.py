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

import numpy as np

from core.base.arrays import ByteArray, Float32Array, FloatArray
from core.base.compiled import inlined, kernel
from core.base.constants import UNKNOWN_HEIGHT_ASSUMED_M
from core.coverage.rays import (
    Ray,
    bilinear,
    height_at,
    is_inside,
    lowest_sight,
    partly_known,
    polynomial,
    slope_at,
    steps_in_block,
    water_slope,
)
from core.coverage.terrain import BLOCK, UNKNOWN_BITS, Ground

FIELD = 8
"""Blocks along the side of a field of blocks."""
_LEG = 16
"""A ray is taken as straight in the lattice over at most this many steps (8 cells)."""


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


@kernel
def _mark_unknown(
    sums: Sums, from_m: float, to_m: float, horizon: float, antenna_m: float, bend: float
) -> None:
    """Mark the range cells between two ranges in which an unknown height could be in sight."""
    cell_m, unknown = sums.cell_m, sums.unknown
    for n in range(int(from_m / cell_m), min(int(to_m / cell_m) + 1, unknown.size)):
        r = min(max((n + 0.5) * cell_m, from_m), to_m)
        if slope_at(r, UNKNOWN_HEIGHT_ASSUMED_M, antenna_m, bend) >= horizon:
            unknown[n] = 1


@kernel
def _mark_water(
    sums: Sums,
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
        _mark(sums.water, near_m, min(far_m, dark_m), sums.cell_m)
    if max(near_m, dark_m) < far_m:
        _mark(sums.unknown, max(near_m, dark_m), far_m, sums.cell_m)


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


@kernel
def highest_in_fields(
    ground: Ground, from_row: int, to_row: int, from_col: int, to_col: int
) -> Float32Array:
    """Greatest height in each square of 8 by 8 blocks, m; infinite where not all is known.

    Only fields that touch the given rows and columns of the lattice are looked at; the others
    are infinite too, and so passed over by nobody.
    """
    rows, cols = ground.codes.shape
    highest, codes = ground.highest, ground.codes
    side = BLOCK * FIELD
    fields = np.full((rows // FIELD + 1, cols // FIELD + 1), np.float32(np.inf))
    for fi in range(max(from_row // side, 0), min(to_row // side + 1, fields.shape[0])):
        for fj in range(max(from_col // side, 0), min(to_col // side + 1, fields.shape[1])):
            top = np.float32(0.0)
            for bi in range(fi * FIELD, min((fi + 1) * FIELD, rows)):
                for bj in range(fj * FIELD, min((fj + 1) * FIELD, cols)):
                    if codes[bi, bj] & UNKNOWN_BITS:
                        top = np.float32(np.inf)
                    top = max(top, highest[bi, bj])
            fields[fi, fj] = top
    return fields


@inlined
def _add(
    sums: Sums,
    from_m: float,
    to_m: float,
    angle: float,
    from_height_m: float,
    to_height_m: float,
    slant: float,
    dark_m: float,
    gamma: float,
) -> None:
    """Add a lit piece of ground to the range cells it lies in; ``gamma`` 0 is not known."""
    cell_m, face, height, square, steep, _water, unknown, known_face, known_gamma = sums
    a = from_m
    while a < to_m:
        n = int(a / cell_m + 1e-9)
        if n >= face.size:
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
def _steps_inside(at: float, speed: float, side: int) -> float:
    """Steps for which a coordinate stays in its square of a side."""
    return steps_in_block(at * BLOCK / side, speed * BLOCK / side, int(at) // side)


@kernel
def walk(
    ground: Ground,
    fields: Float32Array,
    ray: Ray,
    last: int,
    antenna_m: float,
    water_m: float,
    bend: float,
    metric: FloatArray,
    kinds: Kinds,
    sums: Sums,
) -> None:
    """Follow one ray through samples 1 to ``last`` and add what it lights to the sums.

    Heights, the antenna's too, are over the zero of the lattice; the water stands at ``water_m``,
    and ground below that is water.
    """
    clear_m = antenna_m - water_m
    # Fields of the tuples are read once: each reading counts a reference.
    heights, cell, highest_in, codes, free_to = ground
    kind_of, gamma_of = kinds
    row, col, scale_m, _cell_m, step_m, cells_per_step = ray
    rows, cols = codes.shape[0] * BLOCK, codes.shape[1] * BLOCK
    top = -math.inf
    top_m = 0.0
    dark_m = math.inf
    known = 0  # the sample whose height is z_before
    z_before = 0.0
    k = 1
    while k <= last:
        r = k * step_m
        y = polynomial(row, r / scale_m)
        x = polynomial(col, r / scale_m)
        horizon = max(top, water_slope(r, clear_m, bend))
        if not is_inside(codes, y, x):
            off = max(max(-y, y - rows), max(-x, x - cols))
            count = min(max(int(off / cells_per_step), 1), last - k + 1)
            _mark_unknown(sums, r, r + (count - 1) * step_m, horizon, antenna_m, bend)
            dark_m = min(dark_m, r)
            k += count
            continue
        bi = int(y) // BLOCK
        bj = int(x) // BLOCK
        free = free_to[bi, bj]
        if free > 1:
            k += int((free - 1) * BLOCK / cells_per_step) + 1
            continue
        far = (r + _LEG * step_m) / scale_m
        dy = (polynomial(row, far) - y) / _LEG
        dx = (polynomial(col, far) - x) / _LEG
        count = int(min(steps_in_block(y, dy, bi), steps_in_block(x, dx, bj), float(_LEG))) + 1
        count = min(count, last - k + 1)
        if free == 1:
            k += count
            continue
        highest = float(fields[bi // FIELD, bj // FIELD])
        if highest < math.inf:
            side = BLOCK * FIELD
            many = int(min(_steps_inside(y, dy, side), _steps_inside(x, dx, side)))
            many = min(many, last - k + 1)
            if many > count and highest <= lowest_sight(
                horizon, r, r + (many - 1) * step_m, antenna_m, bend
            ):
                k += many
                continue
        highest = float(highest_in[bi, bj])
        if codes[bi, bj] & UNKNOWN_BITS:
            highest = max(highest, UNKNOWN_HEIGHT_ASSUMED_M) if dark_m < math.inf else math.inf
        if highest <= lowest_sight(horizon, r, r + (count - 1) * step_m, antenna_m, bend):
            k += count
            continue
        for q in range(count):
            i = int(y)
            j = int(x)
            z = bilinear(heights, i, j, y - i, x - j)
            if math.isnan(z):
                z, bits = partly_known(heights, cell, i, j, y - i, x - j)
                if bits:
                    over = max(top, water_slope(r, clear_m, bend))
                    _mark_unknown(sums, r, r, over, antenna_m, bend)
                    dark_m = min(dark_m, r)
            if z > water_m and z - antenna_m - bend * r * r > top * r:
                slope = slope_at(r, z, antenna_m, bend)
                # Of ground under the antenna itself the part straight below is left out.
                base = max(top, water_slope(max(r - step_m, 0.5 * step_m), clear_m, bend))
                if slope > base:
                    if known != k + q - 1:
                        z_before = 0.0
                        if is_inside(codes, y - dy, x - dx):
                            z_before, _bits = height_at(heights, cell, y - dy, x - dx)
                    # The lit share of this step is what lies over the sight line of the base.
                    share = 1.0
                    if r > 1.5 * step_m:
                        before = slope_at(r - step_m, z_before, antenna_m, bend)
                        if before < base:
                            share = (slope - base) / (slope - before)
                    # The slope is that of the lit piece, not of what lies past the sample; a step
                    # over a crest is no flatter than it rises.
                    slant = abs(z - z_before) / step_m
                    back = 0.5 * share
                    gamma = 0.0
                    if is_inside(codes, y - back * dy, x - back * dx):
                        ground_slope = _steepness(heights, y - back * dy, x - back * dx, metric)
                        if ground_slope > slant:  # never true of NaN
                            slant = ground_slope
                        if kind_of.size:
                            at = int(y - back * dy + 0.5), int(x - back * dx + 0.5)
                            gamma = gamma_of[kind_of[at]]
                    _add(
                        sums,
                        r - share * step_m,
                        r,
                        slope - base,
                        z - share * (z - z_before),
                        z,
                        slant,
                        dark_m,
                        gamma,
                    )
                    if r - top_m > 1.5 * step_m:
                        _mark_water(sums, top_m, r, top, dark_m, clear_m, bend)
                    top = slope
                    top_m = r
            z_before = z
            known = k + q
            r = (k + q + 1) * step_m
            y += dy
            x += dx
        k += count
    _mark_water(sums, top_m, (last + 1) * step_m, top, dark_m, clear_m, bend)
