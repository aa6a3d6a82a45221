"""Where the points of the coast lie: in the lattice of the land, and as seen from a place."""

from functools import lru_cache
from typing import NamedTuple

import numpy as np

from core.base.arrays import BoolArray, FloatArray
from core.coverage.local_map import local_map
from core.geodesy.position import Position
from core.land.coast import CoastPoints
from core.land.lattice import Lattice

_LEAST_M_PER_DEG = 110_000.0
"""No degree of latitude, and none of longitude at the equator, is shorter."""


class CoastRound(NamedTuple):
    """The coast points in a box round a place.

    near : (n,) bool array
        Which of all points they are, m of them.
    row, col : (m,) arrays
        Where they lie in the lattice, fractional.
    range_m, bearing_rad : (m,) arrays
        As seen from the place; ranges of points far outside the radius are infinite.
    """

    near: BoolArray
    row: FloatArray
    col: FloatArray
    range_m: FloatArray
    bearing_rad: FloatArray


def points_near(points: CoastPoints, position: Position, radius_m: float) -> BoolArray:
    """Which coast points lie in a box that holds everything within a radius: (n,) array."""
    half_lat = radius_m / _LEAST_M_PER_DEG
    widest = min(abs(position.lat_deg) + half_lat, 89.9)
    half_lon = half_lat / np.cos(np.radians(widest))
    apart = np.mod(points.lon_deg - position.lon_deg + 180.0, 360.0) - 180.0
    return np.asarray(
        (np.abs(points.lat_deg - position.lat_deg) <= half_lat) & (np.abs(apart) <= half_lon)
    )


@lru_cache(maxsize=2)
def _cells(points: CoastPoints, lattice: Lattice) -> tuple[FloatArray, FloatArray]:
    """Rows and columns, the same from every place."""
    return lattice.row_col(points.lat_deg, points.lon_deg)


@lru_cache(maxsize=8)
def coast_round(
    points: CoastPoints, lattice: Lattice, position: Position, radius_m: float
) -> CoastRound:
    """The coast round a place: asked for what is in sight of it, and again for what paints.

    ``lattice`` is that of a ``Terrain``.
    """
    near = points_near(points, position, radius_m)
    rows, cols = _cells(points, lattice)
    row, col = rows[near], cols[near]
    here = local_map(lattice, position, radius_m)
    range_m, bearing_deg = here.range_bearing(row, col)
    return CoastRound(near, row, col, range_m, np.radians(bearing_deg))
