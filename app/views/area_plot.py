"""Places of the area view as plain geometry: the projection, and what of a leg is drawn."""

from dataclasses import dataclass

import numpy as np

from core.base.arrays import FloatArray, HoldsArrays
from core.geodesy.position import Position, wrap_lon_deg

_SPHERE_M = 6_371_000.0
_MOST_LAT_DEG = 85.0


@dataclass(frozen=True, slots=True, kw_only=True)
class AreaProjection:
    """Mercator on a sphere, true to scale at one latitude; enough to look at, not to measure."""

    lat_deg: float
    lon_deg: float

    @property
    def _scale_m(self) -> float:
        return _SPHERE_M * float(np.cos(np.radians(self.lat_deg)))

    def x_of(self, lon_deg: FloatArray) -> FloatArray:
        """Metres east of the middle meridian, the nearest way round."""
        turn = np.mod(lon_deg - self.lon_deg + 180.0, 360.0) - 180.0
        x: FloatArray = self._scale_m * np.radians(turn)
        return x

    def y_of(self, lat_deg: FloatArray) -> FloatArray:
        """Metres south of the middle latitude."""
        lat = np.clip(lat_deg, -_MOST_LAT_DEG, _MOST_LAT_DEG)
        middle = np.arcsinh(np.tan(np.radians(self.lat_deg)))
        y: FloatArray = self._scale_m * (middle - np.arcsinh(np.tan(np.radians(lat))))
        return y

    def lon_of(self, x_m: FloatArray) -> FloatArray:
        """Longitudes of places east of the middle meridian, not wrapped."""
        lon: FloatArray = self.lon_deg + np.degrees(x_m / self._scale_m)
        return lon

    def lat_of(self, y_m: FloatArray) -> FloatArray:
        """Latitudes of places south of the middle latitude."""
        middle = np.arcsinh(np.tan(np.radians(self.lat_deg)))
        lat: FloatArray = np.degrees(np.arctan(np.sinh(middle - y_m / self._scale_m)))
        return lat

    def points(self, lat_deg: FloatArray, lon_deg: FloatArray) -> FloatArray:
        """Places as an (n, 2) array of x and y, m."""
        return np.column_stack((self.x_of(np.asarray(lon_deg)), self.y_of(np.asarray(lat_deg))))

    def point(self, place: Position) -> tuple[float, float]:
        """One place as x and y, m."""
        x_m, y_m = self.points(np.array([place.lat_deg]), np.array([place.lon_deg]))[0]
        return float(x_m), float(y_m)

    def position(self, x_m: float, y_m: float) -> Position:
        """The position of a place in the plan, kept off the poles."""
        lat_deg = float(self.lat_of(np.array([y_m]))[0])
        lon_deg = float(self.lon_of(np.array([x_m]))[0])
        return Position(
            lat_deg=min(max(lat_deg, -_MOST_LAT_DEG), _MOST_LAT_DEG), lon_deg=wrap_lon_deg(lon_deg)
        )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class AreaLeg(HoldsArrays):
    """One leg in plan; every array is (n, 2) x and y in m. ``painted`` is its painted edge."""

    track: FloatArray
    port_edge: FloatArray
    starboard_edge: FloatArray
    viewpoints: FloatArray
    painted: tuple[FloatArray, ...]
    source_leg: int | None
    """Number of the leg, from 0, in the outcome that says what is seen from it; None without."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AreaMark:
    """A mark of the project, x and y in m; a place in the water is nothing to see."""

    name: str
    x_m: float
    y_m: float
    is_fixed: bool
    is_place: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class AreaLimit:
    """A danger limit off a mark, as circles round it; of one leg, from 0, or of all (None)."""

    x_m: float
    y_m: float
    leg_index: int | None
    least_m: float | None
    most_m: float | None
