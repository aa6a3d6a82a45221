"""Range and bearing of the cells of a square, which its middle and its sides tell."""

import math

import numpy as np

from core.base.arrays import FloatArray
from core.base.compiled import bare, inlined
from core.coverage.circle_window import range_of_cell
from core.coverage.local_map import Grid
from core.coverage.terrain import BLOCK

EAST, NORTH, EAST_DOWN, NORTH_DOWN, EAST_RIGHT, NORTH_RIGHT = range(6)
"""What is told of a square: its middle, and how east and north grow with row and column, m."""
SQUARE = BLOCK
"""Cells along its side."""
CELLS = SQUARE * SQUARE
MIDDLE = (SQUARE - 1) / 2.0
HALF_CELL = 0.5
"""The horizon counts up to this many cells short of the target."""
_DOWN, _RIGHT = np.indices((SQUARE, SQUARE), dtype=np.float64).reshape(2, CELLS) - MIDDLE
NEAR_CELLS = 40.0
"""Farther off than this many cells series of the third order hold (to 0.01 of a cell)."""
_EDGE_M = 1.0
"""This close to the radius ranges are worked out anew: those of squares are good to 0.4 m."""


@inlined
def place_far(
    middle_e: float,
    middle_n: float,
    e_down: float,
    n_down: float,
    e_right: float,
    n_right: float,
    half_m: float,
    distance: FloatArray,
    short: FloatArray,
    turn: FloatArray,
) -> None:
    """Where the cells of a square lie as seen from a place far off.

    Range and bearing are series in what a cell lies farther on and aside, both over the range of
    the middle.

    Parameters
    ----------
    middle_e, middle_n, e_down, n_down, e_right, n_right : float
        East and north of its middle, and how they grow with row and column, m.
    half_m : float
        Half the length of a cell along the bearing, m.
    distance, short, turn : (64,) arrays, written
        Range, m; the same half a cell short of it; bearing in turns, 0 to 1.
    """
    middle_m = math.sqrt(middle_e * middle_e + middle_n * middle_n)
    middle_turn = math.atan2(middle_e, middle_n) * (0.5 / math.pi)
    per_m = 1.0 / middle_m
    e = middle_e * per_m
    n_ = middle_n * per_m
    on_down = (e * e_down + n_ * n_down) * per_m
    on_right = (e * e_right + n_ * n_right) * per_m
    off_down = (n_ * e_down - e * n_down) * per_m
    off_right = (n_ * e_right - e * n_right) * per_m
    for n in range(CELLS):
        on = _DOWN[n] * on_down + _RIGHT[n] * on_right
        off = _DOWN[n] * off_down + _RIGHT[n] * off_right
        square = off * off
        d = middle_m * (1.0 + on + 0.5 * square * (1.0 - on))
        t = middle_turn + off * (1.0 - on + on * on - square / 3.0) * (0.5 / math.pi)
        distance[n] = d
        short[n] = d - half_m
        turn[n] = t - math.floor(t)


@bare
def cut_at_edge(
    grid: Grid,
    radius_m: float,
    first_row: int,
    first_col: int,
    distance: FloatArray,
    short: FloatArray,
) -> None:
    """Ranges of the cells of a square on the edge of the sweep, from those of ``place_*``.

    Parameters
    ----------
    grid : Grid
        The local map.
    radius_m : float
        Of the sweep, m; the range of cells beyond it becomes infinite, no range short of a cell
        stays greater.
    first_row, first_col : int
        The first cell of the square.
    distance, short : (64,) arrays, changed
        As for ``place_far``.
    """
    for n in range(CELLS):
        d = distance[n]
        if abs(d - radius_m) < _EDGE_M:
            d = range_of_cell(grid, float(first_row + n // SQUARE), float(first_col + n % SQUARE))
        short[n] = min(short[n], radius_m)
        distance[n] = d if d <= radius_m else math.inf


@bare
def place_near(
    grid: Grid,
    first_row: int,
    first_col: int,
    middle_e: float,
    middle_n: float,
    e_down: float,
    n_down: float,
    e_right: float,
    n_right: float,
    distance: FloatArray,
    short: FloatArray,
    turn: FloatArray,
) -> None:
    """The same anywhere, cell by cell.

    Parameters
    ----------
    grid : Grid
        The local map.
    first_row, first_col : int
        The first cell of the square.
    middle_e, middle_n, e_down, n_down, e_right, n_right, distance, short, turn
        As for ``place_far``; the range of the cell of the place itself is 0.
    """
    for n in range(CELLS):
        i = first_row + n // SQUARE
        j = first_col + n % SQUARE
        e = middle_e + _DOWN[n] * e_down + _RIGHT[n] * e_right
        n_ = middle_n + _DOWN[n] * n_down + _RIGHT[n] * n_right
        d = math.sqrt(e * e + n_ * n_)
        t = math.atan2(e, n_) * (0.5 / math.pi)
        turn[n] = t - math.floor(t)
        di = i - grid.row0
        dj = j - grid.col0
        if abs(di) <= 0.5 and abs(dj) <= 0.5:
            d = 0.0
        half_m = HALF_CELL * d / math.sqrt(max(di * di + dj * dj, 0.25))
        short[n] = d - half_m
        distance[n] = d
