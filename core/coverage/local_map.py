"""The map between cells of a lattice and range and bearing from one place.

Range and bearing are those of WGS-84 geodesics from the antenna. Working them out cell by cell
would cost more than the sweep itself, so polynomials are fitted round the antenna and checked:

    row = sum of A[i, j] (east / radius)^i (north / radius)^j, the same for the column, and
    east = sum of B[i, j] ((row - row0) / half_rows)^i ((col - col0) / half_cols)^j,

with east = range sin(bearing), north = range cos(bearing) (azimuthal equidistant).
"""

from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from core.base.arrays import FloatArray, HoldsArrays, IntArray
from core.base.errors import InputError
from core.base.language import tr
from core.geodesy import geodesic
from core.geodesy.position import Position
from core.land.lattice import Lattice

_DEGREES = (4, 6, 9, 12)
_RESIDUAL_M = 0.02
_MARGIN = 1.02
"""The fit reaches a little past the radius."""
_AROUND = np.linspace(0.0, 2.0 * np.pi, 181)
_RING = (np.append(0.0, np.sin(_AROUND)), np.append(0.0, np.cos(_AROUND)))


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


class _Places(NamedTuple):
    """Where polynomials of a degree are fitted in the square from -1 to 1, and then tried.

    x, y : (n + c,) arrays
        The n places of the fit, then the c of the trial.
    powers : (m, 2) array
        Powers i, j of every term.
    fit_terms, trial_terms : (n, m) and (c, m) arrays
        Values of all terms at those places.
    """

    x: FloatArray
    y: FloatArray
    powers: IntArray
    fit_terms: FloatArray
    trial_terms: FloatArray


@lru_cache(maxsize=len(_DEGREES))
def _places(degree: int) -> _Places:
    powers = [(i, j) for i in range(degree + 1) for j in range(degree + 1 - i)]
    fitted, tried = _square(degree + 3, shift=0.0), _square(degree + 4, shift=0.5)
    terms = [np.stack([x**i * y**j for i, j in powers], axis=1) for x, y in (fitted, tried)]
    x, y = (np.concatenate(pair) for pair in zip(fitted, tried, strict=True))
    return _Places(x, y, np.array(powers), *terms)


def _fitted(
    degree: int, values: tuple[FloatArray, FloatArray]
) -> tuple[tuple[FloatArray, FloatArray], tuple[float, float]]:
    """Least-squares coefficients of two polynomials of a total degree, and their greatest errors.

    ``values`` are those at ``_places``; errors are of the places that take no part in the fit.
    """
    places = _places(degree)
    known = np.stack(values, axis=1)
    count = places.fit_terms.shape[0]
    solution = np.linalg.lstsq(places.fit_terms, known[:count], rcond=None)[0]
    errors = np.abs(places.trial_terms @ solution - known[count:]).max(axis=0)
    tables = np.zeros((2, degree + 1, degree + 1))
    tables[:, places.powers[:, 0], places.powers[:, 1]] = solution.T
    return (tables[0], tables[1]), (float(errors[0]), float(errors[1]))


def _square(count: int, *, shift: float) -> tuple[FloatArray, FloatArray]:
    """Chebyshev points of the square from -1 to 1, or points between them with a shift."""
    line = np.cos(np.pi * (np.arange(count) + 0.5 + shift) / (count + 2.0 * shift))
    x, y = np.meshgrid(line, line, indexing="ij")
    return x.ravel(), y.ravel()


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

    # The antenna's own place, then a ring.
    rows, cols = rows_cols(*_RING)
    if not (np.all(np.isfinite(rows)) and np.all(np.isfinite(cols))):
        raise _too_curved(position)
    row0, col0 = float(rows[0]), float(cols[0])
    half_rows = float(np.max(np.abs(rows - row0)))
    half_cols = float(np.max(np.abs(cols - col0)))

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
        places = _places(degree)
        forward, (row_error, col_error) = _fitted(degree, rows_cols(places.x, places.y))
        back, back_errors_m = _fitted(degree, east_north(places.x, places.y))
        errors_m = (
            row_error * scale_m / half_rows,
            col_error * scale_m / half_cols,
            *back_errors_m,
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
        tr(
            "the grid of the elevation data is too distorted round "
            "{lat_deg:.3f}, {lon_deg:.3f} for a sweep",
            lat_deg=position.lat_deg,
            lon_deg=position.lon_deg,
        ),
        todo=tr("Use elevation data in a coordinate system made for this place"),
    )
