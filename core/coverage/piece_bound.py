"""When nothing of a piece of land can be in sight any more along a ray that is on its way to it."""

import math

from core.base.compiled import kernel
from core.base.constants import UNKNOWN_HEIGHT_ASSUMED_M
from core.coverage.rays import slope_at
from core.coverage.terrain import BLOCK, UNKNOWN_BITS, Ground

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
    _heights, _cell, highest, codes, _free, _fields = ground
    top = _LEAST_TOP_M
    for bi in range(int((row - cells) // BLOCK), int((row + cells) // BLOCK) + 1):
        for bj in range(int((col - cells) // BLOCK), int((col + cells) // BLOCK) + 1):
            if 0 <= bi < codes.shape[0] and 0 <= bj < codes.shape[1]:
                top = max(top, highest[bi, bj] + _SPARE_M)
                if codes[bi, bj] & UNKNOWN_BITS:
                    top = max(top, UNKNOWN_HEIGHT_ASSUMED_M + _SPARE_M)
            else:
                top = max(top, UNKNOWN_HEIGHT_ASSUMED_M + _SPARE_M)
    if near_m <= 0.0:
        return math.inf
    r = near_m if top >= antenna_m else math.sqrt((antenna_m - top) / bend)
    return slope_at(min(max(r, near_m), far_m), top, antenna_m, bend)
