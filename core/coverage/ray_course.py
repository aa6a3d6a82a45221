"""How a ray runs through the lattice: from the map round a place to rows and columns."""

import math
from typing import NamedTuple

from core.base.arrays import FloatArray
from core.base.compiled import bare, inlined
from core.coverage.local_map import Grid

_LEAST_LEG, _MOST_LEG = 64, 512
"""A ray is taken as straight in the lattice over so many steps."""
_ASIDE_CELLS = 0.01
"""How far aside that may put it; 64 half-cell steps of 3 arc-second cells do less to 70 deg."""
_FASTER = 1.01
"""Allowance for a ray that runs faster through the lattice between its ends than at them."""


@inlined
def polynomial(coefficients: FloatArray, t: float) -> float:
    """Value of a polynomial, lowest power first, by Horner's rule."""
    value = 0.0
    for m in range(coefficients.size - 1, -1, -1):
        value = value * t + coefficients[m]
    return value


class Ray(NamedTuple):
    """One ray over a lattice.

    ``row`` and ``col`` are polynomials of range / ``scale_m``; ``cell_m`` is how far a cell
    reaches along the ray; samples lie ``step_m`` apart, which is nowhere more cells than
    ``cells_per_step``; over ``leg`` steps, a power of two, it is taken as straight.
    """

    row: FloatArray
    col: FloatArray
    scale_m: float
    cell_m: float
    step_m: float
    cells_per_step: float
    leg: int


@inlined
def leg_from(
    row: FloatArray, col: FloatArray, scale_m: float, step_m: float, leg: int, k: int
) -> tuple[float, float, float, float]:
    """Row and column of sample ``k``, and how they grow with each of the ``leg`` steps on."""
    near, far = k * step_m / scale_m, (k + leg) * step_m / scale_m
    y = polynomial(row, near)
    x = polynomial(col, near)
    return y, x, (polynomial(row, far) - y) / leg, (polynomial(col, far) - x) / leg


@bare
def _bend_of(row: FloatArray, col: FloatArray, t: float) -> float:
    """How much a ray bends in the lattice: its second derivative by range / ``scale_m``."""
    y = 0.0
    x = 0.0
    for m in range(row.size - 1, 1, -1):
        y = y * t + m * (m - 1) * row[m]
        x = x * t + m * (m - 1) * col[m]
    return math.sqrt(y * y + x * x)


@bare
def _cells_per_m(row: FloatArray, col: FloatArray, scale_m: float, range_m: float) -> float:
    """How fast a ray runs through the lattice at a range, cells a metre."""
    t = range_m / scale_m
    dy = 0.0
    dx = 0.0
    for m in range(row.size - 1, 0, -1):
        dy = dy * t + m * row[m]
        dx = dx * t + m * col[m]
    return math.sqrt(dy * dy + dx * dx) / scale_m


@inlined
def aim(
    grid: Grid,
    east: float,
    north: float,
    radius_m: float,
    step_cells: float,
    row: FloatArray,
    col: FloatArray,
) -> Ray:
    """Lay out a ray.

    Parameters
    ----------
    grid : Grid
        The local map.
    east, north : float
        Sine and cosine of the bearing.
    radius_m, step_cells : float
        How far it will be followed, and how many cells apart its samples lie.
    row, col : (n,) arrays, written
        Room for the polynomials; they belong to the ray until the next one is laid out.
    """
    row_of, col_of, scale_m = grid.row_of, grid.col_of, grid.scale_m
    count = row.size
    for m in range(count):
        row[m] = 0.0
        col[m] = 0.0
    power = 1.0
    for i in range(count):
        other = power
        for j in range(count - i):
            row[i + j] += row_of[i, j] * other
            col[i + j] += col_of[i, j] * other
            other *= north
        power *= east
    speed = _cells_per_m(row, col, scale_m, 0.0)
    fastest = max(speed, _cells_per_m(row, col, scale_m, radius_m)) * _FASTER
    step_m = step_cells / speed
    bend = max(_bend_of(row, col, 0.0), _bend_of(row, col, radius_m / scale_m))
    leg = _LEAST_LEG
    longest_m = radius_m / 8.0  # the last reaches past the radius, where the map is not fitted
    # A chord of length a leaves an arc by a^2 / 8 times its bend.
    while leg < _MOST_LEG and (2.0 * leg * step_m / scale_m) ** 2 * bend <= 8.0 * _ASIDE_CELLS:
        if 2.0 * leg * step_m > longest_m:
            break
        leg *= 2
    return Ray(row, col, scale_m, 1.0 / speed, step_m, fastest * step_m, leg)


@inlined
def samples_before(range_m: float, ray: Ray) -> int:
    """Number of samples of a ray up to a range."""
    return max(int(range_m / ray.step_m + 1e-6), 0)
