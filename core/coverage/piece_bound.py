"""When nothing of a piece of land can be in sight any more along a ray that is on its way to it."""

import math

from core.base.compiled import kernel
from core.base.constants import UNKNOWN_HEIGHT_ASSUMED_M
from core.coverage.rays import slope_at
from core.coverage.terrain import Ground

_LEAST_TOP_M = 2.0
"""Ground lower than this is taken as so high."""
_SPARE_M = 1.0
"""Ground is taken as so much higher than it is, so that rounding makes no difference."""


@kernel
def hiding_slope(
    ground: Ground,
    row: float,
    col: float,
    cells: float,
    near_m: float,
    far_m: float,
    antenna_m: float,
    bend: float,
) -> float:
    """Slope of a land horizon over which nothing of a piece can be in sight.

    The piece, between two ranges, has no ground farther than ``cells`` from a row and column.
    ``s(r, z)`` has one greatest value over r, where the line of sight is level with the water.
    """
    if near_m <= 0.0:
        return math.inf
    heights = ground.heights
    rows, cols = heights.shape
    north, south = math.floor(row - cells), math.ceil(row + cells)
    west, east = math.floor(col - cells), math.ceil(col + cells)
    # As heights between cells are read, the frame included, those past the arrays are unknown.
    is_known = north >= 0 and west >= 0 and south < rows and east < cols
    top = _LEAST_TOP_M
    for i in range(max(north, 0), min(south + 1, rows)):
        for j in range(max(west, 0), min(east + 1, cols)):
            z = heights[i, j]
            if z > top:
                top = z
            elif math.isnan(z):
                is_known = False
    if not is_known:
        top = max(top, UNKNOWN_HEIGHT_ASSUMED_M)
    top += _SPARE_M
    r = near_m if top >= antenna_m else math.sqrt((antenna_m - top) / bend)
    return slope_at(min(max(r, near_m), far_m), top, antenna_m, bend)
