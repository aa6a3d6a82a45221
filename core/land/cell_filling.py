"""Cell by cell: which are land, and how high they stand above the water now.

One pass over many millions of cells each, without masks that would take as much room again.
"""

import math

import numpy as np

from core.base.arrays import BoolArray, ByteArray, Float32Array
from core.base.compiled import kernel
from core.land.land_model import Cell

_SEA = np.uint8(Cell.SEA)
_LAND = np.uint8(Cell.LAND)
_VOID = np.uint8(Cell.VOID)
_BEYOND = np.uint8(Cell.BEYOND)


@kernel
def fill_cells(
    heights: Float32Array,
    missing: BoolArray,
    ruled: BoolArray,
    land: BoolArray,
    dry_m: np.float32,
    cell: ByteArray,
) -> bool:
    """Write what every cell is; whether any is wanting that no file of elevation reaches.

    Such cells are written as beyond the data.

    Parameters
    ----------
    heights : (rows, cols) float32
        Heights above mean sea level, m, NaN where unknown; ``missing`` where no file reaches.
    ruled, land : (rows, cols) bool
        Where the coast tells land from water, and land among those.
    dry_m : float
        Where it does not, ground higher than this is land, m.
    cell : (rows, cols) uint8, written
    """
    rows, cols = heights.shape
    are_missing = False
    for i in range(rows):
        for j in range(cols):
            what = _SEA
            if not math.isnan(heights[i, j]):
                if land[i, j] or (not ruled[i, j] and heights[i, j] > dry_m):
                    what = _LAND
            elif land[i, j] or not ruled[i, j]:
                what = _BEYOND if missing[i, j] else _VOID
                are_missing = are_missing or bool(missing[i, j])
            cell[i, j] = what
    return are_missing


@kernel
def fill_heights(
    heights: Float32Array, cell: ByteArray, level_m: np.float32, above: Float32Array
) -> None:
    """Write heights above the water now, m: 0 on sea and on land below it, NaN where unknown."""
    rows, cols = heights.shape
    for i in range(rows):
        for j in range(cols):
            if cell[i, j] == _LAND:
                above[i, j] = max(heights[i, j] - level_m, np.float32(0.0))
            else:
                above[i, j] = np.float32(0.0) if cell[i, j] == _SEA else np.float32(np.nan)
