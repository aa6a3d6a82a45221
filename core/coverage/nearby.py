"""Where anything but sea lies, in blocks of cells: spares sweeps over open water."""

from dataclasses import dataclass
from enum import Enum

import numpy as np

from core.base.arrays import BoolArray, ByteArray, FloatArray, HoldsArrays
from core.base.compiled import kernel
from core.base.constants import EARTH_RADIUS_M
from core.geodesy import geodesic
from core.geodesy.position import Position
from core.land.land_model import Cell, LandModel
from core.land.lattice import Lattice

_BLOCK_CELLS = 16
_SPHERE_ERROR = 0.006
"""A sphere gives distances on the ellipsoid to 0.6 %; taken off, they are never too long."""

_ANGLE_ERROR_M = 1.0
"""An angle told by its cosine is off by as much at most, on the Earth."""


class Surroundings(Enum):
    """What lies round a place, as far as a sweep is concerned."""

    OPEN_SEA = "open sea"
    """Nothing but sea."""
    NO_DATA = "no data"
    """Nothing but unknown cells outside the declared area."""
    MIXED = "mixed"
    """Something that only a sweep can tell."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Blocks(HoldsArrays):
    """Blocks of 16 by 16 cells by what they hold.

    lat_deg, lon_deg : (n,) arrays
        Middles of the blocks.
    has_land, has_gap, has_beyond, has_sea : (n,) bool arrays
        Whether a block holds land, cells unknown inside the declared area, cells unknown
        outside it, and sea.
    land_axis : (m, 3) array
        Directions of the middles of those that hold land or a gap, on a sphere.
    half_diagonal_m : float
        No cell of a block lies farther than this from its middle.
    """

    lattice: Lattice
    lat_deg: FloatArray
    lon_deg: FloatArray
    has_land: BoolArray
    has_gap: BoolArray
    has_beyond: BoolArray
    has_sea: BoolArray
    land_axis: FloatArray
    half_diagonal_m: float

    def land_distance_m(self, position: Position) -> float:
        """A distance that no land and no gap undercuts, m; infinite where there is none."""
        if not self.land_axis.size:
            return float("inf")
        own = _axis(np.array([position.lat_deg]), np.array([position.lon_deg]))[0]
        nearest_m = EARTH_RADIUS_M * float(np.arccos(min((self.land_axis @ own).max(), 1.0)))
        return self._least_m(nearest_m - _ANGLE_ERROR_M)

    def surroundings(self, position: Position, radius_m: float) -> Surroundings:
        """What lies within a radius; outside the lattice nothing is known."""
        if self.land_distance_m(position) <= radius_m:
            return Surroundings.MIXED
        has_beyond = (
            self._distance_m(position, self.has_beyond) <= radius_m
            or self._edge_distance_m(position) <= radius_m
        )
        has_sea = self._distance_m(position, self.has_sea) <= radius_m
        if has_sea and has_beyond:
            return Surroundings.MIXED
        return Surroundings.OPEN_SEA if has_sea else Surroundings.NO_DATA

    def _distance_m(self, position: Position, chosen: BoolArray) -> float:
        if not chosen.any():
            return float("inf")
        lat, lon = np.radians(self.lat_deg[chosen]), np.radians(self.lon_deg[chosen])
        lat0, lon0 = np.radians(position.lat_deg), np.radians(position.lon_deg)
        haversine = np.sin((lat - lat0) / 2.0) ** 2 + np.cos(lat) * np.cos(lat0) * (
            np.sin((lon - lon0) / 2.0) ** 2
        )
        nearest_m = 2.0 * EARTH_RADIUS_M * float(np.arcsin(np.sqrt(min(haversine.min(), 1.0))))
        return self._least_m(nearest_m)

    def _least_m(self, nearest_m: float) -> float:
        """What no cell undercuts, from the distance on a sphere to the nearest middle, m."""
        return max(nearest_m * (1.0 - _SPHERE_ERROR) - self.half_diagonal_m, 0.0)

    def _edge_distance_m(self, position: Position) -> float:
        """Distance to the nearest of the four edges of the lattice, 0 outside it."""
        rows, cols = self.lattice.row_col(
            np.array([position.lat_deg]), np.array([position.lon_deg])
        )
        row, col = float(rows[0]), float(cols[0])
        last_row, last_col = self.lattice.rows - 0.5, self.lattice.cols - 0.5
        if not (-0.5 < row < last_row and -0.5 < col < last_col):
            return 0.0
        edge_lat, edge_lon = self.lattice.lat_lon(
            np.array([-0.5, last_row, row, row]), np.array([col, col, -0.5, last_col])
        )
        distance, _bearing, _final = geodesic.inverse(
            from_lat_deg=position.lat_deg,
            from_lon_deg=position.lon_deg,
            to_lat_deg=edge_lat,
            to_lon_deg=edge_lon,
        )
        return float(distance.min())


def _axis(lat_deg: FloatArray, lon_deg: FloatArray) -> FloatArray:
    """Directions on a sphere: (n, 3) unit vectors."""
    lat, lon = np.radians(lat_deg), np.radians(lon_deg)
    return np.stack([np.cos(lat) * np.cos(lon), np.cos(lat) * np.sin(lon), np.sin(lat)], axis=1)


@kernel
def _fill_bits(cell: ByteArray, bits: ByteArray) -> None:
    """Bit ``1 << code`` of every ``Cell`` code found in each block."""
    rows, cols = cell.shape
    for i in range(rows):
        for bj in range(bits.shape[1]):
            found = 0
            for j in range(bj * _BLOCK_CELLS, min(bj * _BLOCK_CELLS + _BLOCK_CELLS, cols)):
                found |= 1 << cell[i, j]
            bits[i // _BLOCK_CELLS, bj] |= found


def blocks_of(land: LandModel) -> Blocks:
    """Sort a land model's cells into blocks."""
    rows, cols = land.cell.shape
    block_rows, block_cols = -(-rows // _BLOCK_CELLS), -(-cols // _BLOCK_CELLS)
    bits = np.zeros((block_rows, block_cols), dtype=np.uint8)
    _fill_bits(land.cell, bits)

    def holds(*codes: Cell) -> BoolArray:
        wanted = sum(1 << int(code) for code in codes)
        return np.asarray((bits & wanted) != 0, dtype=np.bool_).ravel()

    is_wanted = holds(Cell.LAND, Cell.VOID, Cell.MISSING)
    middle = (_BLOCK_CELLS - 1) / 2.0
    row = np.repeat(np.arange(block_rows) * _BLOCK_CELLS + middle, block_cols)
    col = np.tile(np.arange(block_cols) * _BLOCK_CELLS + middle, block_rows)
    lat, lon = land.lattice.lat_lon(row, col)
    diagonal_m = 0.0
    for side in (-1.0, 1.0):
        corner_lat, corner_lon = land.lattice.lat_lon(
            row + _BLOCK_CELLS / 2.0, col + side * _BLOCK_CELLS / 2.0
        )
        distance, _bearing, _final = geodesic.inverse(
            from_lat_deg=lat, from_lon_deg=lon, to_lat_deg=corner_lat, to_lon_deg=corner_lon
        )
        diagonal_m = max(diagonal_m, float(distance.max()))
    return Blocks(
        lattice=land.lattice,
        lat_deg=lat,
        lon_deg=lon,
        has_land=holds(Cell.LAND),
        has_gap=holds(Cell.VOID, Cell.MISSING),
        has_beyond=holds(Cell.BEYOND),
        has_sea=holds(Cell.SEA),
        land_axis=_axis(lat[is_wanted], lon[is_wanted]),
        half_diagonal_m=diagonal_m * 1.01,
    )
