"""The map between cells of a lattice and range and bearing from one place.

Range and bearing are those of WGS-84 geodesics from the antenna. Working them out cell by cell
would cost more than the sweep itself, so polynomials are fitted round the antenna and checked:

    row = sum of A[i, j] (east / radius)^i (north / radius)^j, the same for the column, and
    east = sum of B[i, j] ((row - row0) / half_rows)^i ((col - col0) / half_cols)^j,

with east = range sin(bearing), north = range cos(bearing) (azimuthal equidistant).
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from core.base.arrays import FloatArray, HoldsArrays
from core.base.errors import InputError
from core.geodesy import geodesic
from core.geodesy.position import Position
from core.land.lattice import Lattice

_DEGREES = (4, 6, 9, 12)
_RESIDUAL_M = 0.02
_MARGIN = 1.02
"""The fit reaches a little past the radius."""


def _value(x: FloatArray, y: FloatArray, table: FloatArray) -> FloatArray:
    return np.asarray(np.polynomial.polynomial.polyval2d(x, y, table), dtype=np.float64)


class Grid(NamedTuple):
    """The numbers of a ``LocalMap`` as kernels take them."""

    scale_m: float
    row0: float
    col0: float
    half_rows: float
    half_cols: float
    row_of: FloatArray
    col_of: FloatArray
    east_of: FloatArray
    north_of: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LocalMap(HoldsArrays):
    """Polynomials between a lattice and range and bearing from a place, within ``radius_m``.

    row_of, col_of : (n, n) arrays
        Coefficients of (east / scale_m)^i (north / scale_m)^j.
    east_of, north_of : (n, n) arrays
        Coefficients, m, of ((row - row0) / half_rows)^i ((col - col0) / half_cols)^j.
    """

    position: Position
    radius_m: float
    scale_m: float
    row0: float
    col0: float
    half_rows: float
    half_cols: float
    row_of: FloatArray
    col_of: FloatArray
    east_of: FloatArray
    north_of: FloatArray

    @property
    def grid(self) -> Grid:
        """The numbers as kernels take them."""
        return Grid(
            scale_m=self.scale_m,
            row0=self.row0,
            col0=self.col0,
            half_rows=self.half_rows,
            half_cols=self.half_cols,
            row_of=self.row_of,
            col_of=self.col_of,
            east_of=self.east_of,
            north_of=self.north_of,
        )

    @property
    def least_cell_m(self) -> float:
        """The shorter side of a cell at the antenna, m."""
        per_row = np.hypot(self.east_of[1, 0], self.north_of[1, 0]) / self.half_rows
        per_col = np.hypot(self.east_of[0, 1], self.north_of[0, 1]) / self.half_cols
        return float(min(per_row, per_col))

    def range_bearing(self, row: FloatArray, col: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Ranges, m, and bearings, deg in [0, 360), of fractional rows and columns (n,).

        Good to 0.05 m within the radius; outside the box round it ranges are infinite.
        """
        u = (np.asarray(row, np.float64) - self.row0) / self.half_rows
        v = (np.asarray(col, np.float64) - self.col0) / self.half_cols
        inside = (np.abs(u) <= 1.0) & (np.abs(v) <= 1.0)
        u, v = np.where(inside, u, 0.0), np.where(inside, v, 0.0)
        east, north = _value(u, v, self.east_of), _value(u, v, self.north_of)
        bearing = np.mod(np.degrees(np.arctan2(east, north)), 360.0)
        return np.where(inside, np.hypot(east, north), np.inf), bearing

    def row_col(
        self, range_m: FloatArray, bearing_deg: FloatArray
    ) -> tuple[FloatArray, FloatArray]:
        """Fractional rows and columns at ranges and bearings (n,), within the radius."""
        angle = np.radians(bearing_deg)
        e, n = range_m * np.sin(angle) / self.scale_m, range_m * np.cos(angle) / self.scale_m
        return _value(e, n, self.row_of), _value(e, n, self.col_of)


def _fitted(
    degree: int, x: FloatArray, y: FloatArray, values: tuple[FloatArray, FloatArray]
) -> tuple[FloatArray, FloatArray]:
    """Least-squares coefficients of two bivariate polynomials of a total degree."""
    powers = [(i, j) for i in range(degree + 1) for j in range(degree + 1 - i)]
    terms = np.stack([x**i * y**j for i, j in powers], axis=1)
    solution = np.linalg.lstsq(terms, np.stack(values, axis=1), rcond=None)[0]
    tables = np.zeros((2, degree + 1, degree + 1))
    for (i, j), pair in zip(powers, solution, strict=True):
        tables[:, i, j] = pair
    return tables[0], tables[1]


def _square(count: int, *, shift: float) -> tuple[FloatArray, FloatArray]:
    """Chebyshev points of the square from -1 to 1, or points between them with a shift."""
    line = np.cos(np.pi * (np.arange(count) + 0.5 + shift) / (count + 2.0 * shift))
    x, y = np.meshgrid(line, line, indexing="ij")
    return x.ravel(), y.ravel()


def _worst(
    function: Callable[[FloatArray, FloatArray], tuple[FloatArray, FloatArray]],
    tables: tuple[FloatArray, FloatArray],
    degree: int,
) -> tuple[float, float]:
    """Greatest errors of both polynomials at points they were not fitted to."""
    x, y = _square(degree + 4, shift=0.5)
    first, second = function(x, y)
    return (
        float(np.max(np.abs(_value(x, y, tables[0]) - first))),
        float(np.max(np.abs(_value(x, y, tables[1]) - second))),
    )


@lru_cache(maxsize=8)
def local_map(lattice: Lattice, position: Position, radius_m: float) -> LocalMap:
    """Fit the map round a place.

    Parameters
    ----------
    lattice : Lattice
        Geographic or projected; the place may lie outside it.
    position : Position
        The antenna, not snapped to a cell.
    radius_m : float
        How far the map must reach, m.

    Raises
    ------
    InputError
        The lattice is too curved here (close to a pole, or far outside its projection).
    """
    scale_m = radius_m * _MARGIN

    def rows_cols(e: FloatArray, n: FloatArray) -> tuple[FloatArray, FloatArray]:
        lat, lon, _course = geodesic.direct(
            lat_deg=position.lat_deg,
            lon_deg=position.lon_deg,
            bearing_deg=np.degrees(np.arctan2(e, n)),
            distance_m=np.hypot(e, n) * scale_m,
        )
        return lattice.row_col(lat, lon)

    around = np.linspace(0.0, 2.0 * np.pi, 181)
    ring_rows, ring_cols = rows_cols(np.sin(around), np.cos(around))
    if not (np.all(np.isfinite(ring_rows)) and np.all(np.isfinite(ring_cols))):
        raise _too_curved(position)
    at_row, at_col = rows_cols(np.zeros(1), np.zeros(1))
    row0, col0 = float(at_row[0]), float(at_col[0])
    half_rows = float(np.max(np.abs(ring_rows - row0)))
    half_cols = float(np.max(np.abs(ring_cols - col0)))

    def east_north(u: FloatArray, v: FloatArray) -> tuple[FloatArray, FloatArray]:
        lat, lon = lattice.lat_lon(row0 + u * half_rows, col0 + v * half_cols)
        distance, bearing, _final = geodesic.inverse(
            from_lat_deg=position.lat_deg,
            from_lon_deg=position.lon_deg,
            to_lat_deg=lat,
            to_lon_deg=lon,
        )
        angle = np.radians(bearing)
        return distance * np.sin(angle), distance * np.cos(angle)

    for degree in _DEGREES:
        x, y = _square(degree + 3, shift=0.0)
        forward = _fitted(degree, x, y, rows_cols(x, y))
        back = _fitted(degree, x, y, east_north(x, y))
        row_error, col_error = _worst(rows_cols, forward, degree)
        errors_m = (
            row_error * scale_m / half_rows,
            col_error * scale_m / half_cols,
            *_worst(east_north, back, degree),
        )
        if max(errors_m) < _RESIDUAL_M:
            return LocalMap(
                position=position,
                radius_m=radius_m,
                scale_m=scale_m,
                row0=row0,
                col0=col0,
                half_rows=half_rows,
                half_cols=half_cols,
                row_of=forward[0],
                col_of=forward[1],
                east_of=back[0],
                north_of=back[1],
            )
    raise _too_curved(position)


def _too_curved(position: Position) -> InputError:
    return InputError(
        f"the grid of the elevation data is too distorted round {position.lat_deg:.3f}, "
        f"{position.lon_deg:.3f} for a sweep",
        todo="Use elevation data in a coordinate system made for this place",
    )
