"""The lattice of an elevation raster: cell centres, whatever the coordinate system."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from pyproj import CRS, Transformer

from core.base.arrays import FloatArray


@lru_cache(maxsize=32)
def _is_geographic(crs: str) -> bool:
    return bool(CRS.from_user_input(crs).is_geographic)


@lru_cache(maxsize=32)
def _to_crs(crs: str) -> Transformer:
    return Transformer.from_crs("EPSG:4326", crs, always_xy=True)


@lru_cache(maxsize=32)
def _from_crs(crs: str) -> Transformer:
    return Transformer.from_crs(crs, "EPSG:4326", always_xy=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Lattice:
    """A north-up grid of cells.

    ``left_x`` and ``top_y`` are the outer corner of cell (0, 0) in units of ``crs`` (degrees or
    metres), ``cell_x`` and ``cell_y`` the positive sizes of a cell. Row and column numbers are
    floats with the centre of a cell at a whole number. In a geographic lattice columns may run
    past 180 deg; longitudes are taken the nearest way round to the middle of the lattice.
    """

    crs: str
    left_x: float
    top_y: float
    cell_x: float
    cell_y: float
    rows: int
    cols: int

    @property
    def is_geographic(self) -> bool:
        """Whether the units are degrees of longitude and latitude."""
        return _is_geographic(self.crs)

    def row_col(self, lat_deg: FloatArray, lon_deg: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Fractional rows and columns of places (n,), which may lie outside the lattice."""
        lat, lon = np.asarray(lat_deg, np.float64), np.asarray(lon_deg, np.float64)
        if self.is_geographic:
            middle = self.left_x + self.cell_x * self.cols / 2.0
            x, y = middle + np.mod(lon - middle + 180.0, 360.0) - 180.0, lat
        else:
            x, y = _to_crs(self.crs).transform(lon, lat)
        return (self.top_y - y) / self.cell_y - 0.5, (x - self.left_x) / self.cell_x - 0.5

    def lat_lon(self, row: FloatArray, col: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Places of fractional rows and columns (n,); longitudes in [-180, 180)."""
        x = self.left_x + (np.asarray(col, np.float64) + 0.5) * self.cell_x
        y = self.top_y - (np.asarray(row, np.float64) + 0.5) * self.cell_y
        if self.is_geographic:
            return y, np.mod(x + 180.0, 360.0) - 180.0
        lon, lat = _from_crs(self.crs).transform(x, y)
        return np.asarray(lat), np.asarray(lon)

    def offset_in(self, other: "Lattice") -> tuple[int, int] | None:
        """Row and column of the first cell in another lattice; None if their cells differ."""
        if self.crs != other.crs:
            return None
        for own, its in ((self.cell_x, other.cell_x), (self.cell_y, other.cell_y)):
            if abs(own / its - 1.0) > 1e-6:
                return None
        row = (other.top_y - self.top_y) / other.cell_y
        col = (self.left_x - other.left_x) / other.cell_x
        if abs(row - round(row)) > 0.02 or abs(col - round(col)) > 0.02:
            return None
        return round(row), round(col)

    def part(self, *, row: int, col: int, rows: int, cols: int) -> "Lattice":
        """A rectangle of the same cells, which may reach outside this lattice."""
        return Lattice(
            crs=self.crs,
            left_x=self.left_x + col * self.cell_x,
            top_y=self.top_y - row * self.cell_y,
            cell_x=self.cell_x,
            cell_y=self.cell_y,
            rows=rows,
            cols=cols,
        )
