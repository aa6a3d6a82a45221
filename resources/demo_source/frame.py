"""The invented sea area: where it lies, and the grid its heights stand on.

47 N 031 W is in the middle of the North Atlantic. The nearest real land is more than 400 NM
away (the western Azores, near 39.5 N 031 W), so no one can take these islands for real ones.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

MIDDLE_LAT_DEG = 47.0 + 10.0 / 60.0
MIDDLE_LON_DEG = -31.5
EAST_SCALE = 0.679842
"""Length of a minute of longitude in NM in the middle of the area (cosine of its latitude)."""

CELLS_PER_DEGREE = 1800
"""Cells of 2 arc-seconds."""

WEST_DEG, SOUTH_DEG, EAST_DEG, NORTH_DEG = -31.82, 47.05, -31.18, 47.36
"""Outer edges of the elevation file; all land lies inside."""

DECLARED_DEG = (-33.5, 46.0, -29.5, 48.4)
"""West, south, east, north of the area in which the coast file shows all land."""

CELL_Y_M = 1852.0 / 30.0
CELL_X_M = CELL_Y_M * EAST_SCALE


@dataclass(frozen=True)
class Frame:
    """Cell centres in NM east and north of the middle, rows from north to south."""

    east_nm: NDArray[np.float64]
    north_nm: NDArray[np.float64]

    @property
    def shape(self) -> tuple[int, int]:
        """Rows and columns."""
        rows, cols = self.east_nm.shape
        return rows, cols


def lat_lon(east_nm: float, north_nm: float) -> tuple[float, float]:
    """Degrees of a place given in NM east and north of the middle."""
    return MIDDLE_LAT_DEG + north_nm / 60.0, MIDDLE_LON_DEG + east_nm / 60.0 / EAST_SCALE


def make_frame() -> Frame:
    """The grid of the elevation file."""
    rows = round((NORTH_DEG - SOUTH_DEG) * CELLS_PER_DEGREE)
    cols = round((EAST_DEG - WEST_DEG) * CELLS_PER_DEGREE)
    lat = NORTH_DEG - (np.arange(rows) + 0.5) / CELLS_PER_DEGREE
    lon = WEST_DEG + (np.arange(cols) + 0.5) / CELLS_PER_DEGREE
    east = (lon - MIDDLE_LON_DEG) * 60.0 * EAST_SCALE
    north = (lat - MIDDLE_LAT_DEG) * 60.0
    east_nm, north_nm = np.meshgrid(east, north)
    return Frame(east_nm=east_nm, north_nm=north_nm)
