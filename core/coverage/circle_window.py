"""The rows and columns of a lattice whose cell centres lie within a radius."""

import math

import numpy as np

from core.base.compiled import kernel
from core.coverage.local_map import Grid, LocalMap
from core.coverage.ray_course import polynomial

_SIZE_POINTS = 5
_ALLOWANCE = 1.01
"""Cells between the points looked at may be a little larger."""


@kernel
def range_of_cell(grid: Grid, row: float, col: float) -> float:
    """Range of a fractional row and column, m."""
    u = (row - grid.row0) / grid.half_rows
    v = (col - grid.col0) / grid.half_cols
    east = 0.0
    north = 0.0
    for m in range(grid.east_of.shape[0] - 1, -1, -1):
        east = east * u + polynomial(grid.east_of[m], v)
        north = north * u + polynomial(grid.north_of[m], v)
    return math.hypot(east, north)


@kernel
def cell_sizes(grid: Grid) -> tuple[float, float]:
    """Greatest height and width of a cell in the square round the circle, m."""
    high = 0.0
    wide = 0.0
    count = grid.east_of.shape[0]
    for a in range(_SIZE_POINTS):
        for b in range(_SIZE_POINTS):
            u = 2.0 * a / (_SIZE_POINTS - 1) - 1.0
            v = 2.0 * b / (_SIZE_POINTS - 1) - 1.0
            east_u = 0.0
            north_u = 0.0
            east_v = 0.0
            north_v = 0.0
            for m in range(count):
                for n in range(count - m):
                    if m > 0:
                        east_u += m * grid.east_of[m, n] * u ** (m - 1) * v**n
                        north_u += m * grid.north_of[m, n] * u ** (m - 1) * v**n
                    if n > 0:
                        east_v += n * grid.east_of[m, n] * u**m * v ** (n - 1)
                        north_v += n * grid.north_of[m, n] * u**m * v ** (n - 1)
            high = max(high, math.hypot(east_u, north_u) / grid.half_rows)
            wide = max(wide, math.hypot(east_v, north_v) / grid.half_cols)
    return high * _ALLOWANCE, wide * _ALLOWANCE


@kernel
def _nearest_in_line(grid: Grid, line: int, low: int, high: int, is_row: bool) -> float:
    """Least range of the cells of a row (or column), along which ranges fall and then rise."""
    while low < high:
        middle = (low + high) // 2
        if is_row:
            falls = range_of_cell(grid, line, middle + 1) < range_of_cell(grid, line, middle)
        else:
            falls = range_of_cell(grid, middle + 1, line) < range_of_cell(grid, middle, line)
        if falls:
            low = middle + 1
        else:
            high = middle
    return range_of_cell(grid, line, low) if is_row else range_of_cell(grid, low, line)


@kernel
def _inner(
    grid: Grid, radius_m: float, first: int, last: int, low: int, high: int, is_row: bool
) -> tuple[int, int]:
    """First and last of some rows (or columns) that hold a cell within the radius."""
    while first <= last and _nearest_in_line(grid, first, low, high, is_row) > radius_m:
        first += 1
    while last >= first and _nearest_in_line(grid, last, low, high, is_row) > radius_m:
        last -= 1
    return first, last


def circle_window(here: LocalMap) -> tuple[int, int, int, int]:
    """Top row, left column, rows and columns of the box of all cells within the radius.

    The cell of the place alone if the circle is too small to hold the centre of one.
    """
    grid = here.grid
    top, bottom = (
        math.floor(here.row0 - here.half_rows),
        math.ceil(here.row0 + here.half_rows),
    )
    left, right = (
        math.floor(here.col0 - here.half_cols),
        math.ceil(here.col0 + here.half_cols),
    )
    first_row, last_row = _inner(grid, here.radius_m, top, bottom, left, right, True)
    if first_row > last_row:
        return int(np.rint(here.row0)), int(np.rint(here.col0)), 1, 1
    first_col, last_col = _inner(grid, here.radius_m, left, right, top, bottom, False)
    return first_row, first_col, last_row - first_row + 1, last_col - first_col + 1
