"""Heights between cells and polynomials of columns, with no more work than inner loops need."""

import numpy as np

from core.base.arrays import Float32Array, FloatArray
from core.base.compiled import inlined


@inlined
def surface_height(flat: Float32Array, cols: int, y: float, x: float) -> float:
    """Bilinear height at a row and column, NaN if one of the four cells is unknown.

    ``flat`` holds the heights row by row, ``cols`` in each; ``y`` and ``x`` must lie inside.
    Unsigned places keep the compiler from looking for negative ones at every step.
    """
    i = int(y)
    j = int(x)
    at = np.uint64(i * cols + j)
    below = np.uint64(i * cols + j + cols)
    one = np.uint64(1)
    fx = np.float32(x - j)
    upper = flat[at] + (flat[at + one] - flat[at]) * fx
    lower = flat[below] + (flat[below + one] - flat[below]) * fx
    return float(upper + (lower - upper) * np.float32(y - i))


@inlined
def column_value(table: FloatArray, column: int, t: float) -> float:
    """Value of the polynomial that stands in a column of a table, lowest power first.

    Handing over a column of its own would count a reference at every call.
    """
    value = 0.0
    for m in range(table.shape[0] - 1, -1, -1):
        value = value * t + table[m, column]
    return value
