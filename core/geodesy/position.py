"""Positions on the WGS-84 ellipsoid, and boxes that may cross the antimeridian."""

import math
from dataclasses import dataclass


def wrap_lon_deg(lon_deg: float) -> float:
    """The same meridian in [-180, 180)."""
    return (lon_deg + 180.0) % 360.0 - 180.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Position:
    """A place: latitude in [-90, 90], longitude brought into [-180, 180), both WGS-84 degrees."""

    lat_deg: float
    lon_deg: float

    def __post_init__(self) -> None:
        """Refuse what is no place on Earth."""
        if not (math.isfinite(self.lat_deg) and -90.0 <= self.lat_deg <= 90.0):
            raise ValueError(f"lat_deg {self.lat_deg!r} is not within -90 and 90")
        if not (math.isfinite(self.lon_deg) and -360.0 <= self.lon_deg <= 360.0):
            raise ValueError(f"lon_deg {self.lon_deg!r} is not within -360 and 360")
        if not -180.0 <= self.lon_deg < 180.0:
            object.__setattr__(self, "lon_deg", wrap_lon_deg(self.lon_deg))


@dataclass(frozen=True, slots=True, kw_only=True)
class Bounds:
    """A box of latitude and longitude.

    ``west_deg`` is in [-180, 180); ``east_deg`` is west of 180 past the antimeridian written as
    more than 180, so that ``east_deg >= west_deg`` always holds.
    """

    south_deg: float
    west_deg: float
    north_deg: float
    east_deg: float

    def __post_init__(self) -> None:
        """Refuse boxes that are inside out or not numbers."""
        values = (self.south_deg, self.west_deg, self.north_deg, self.east_deg)
        if not all(math.isfinite(v) for v in values):
            raise ValueError(f"box {values} is not of finite numbers")
        if self.north_deg < self.south_deg or self.east_deg < self.west_deg:
            raise ValueError(f"box {values} is inside out")

    def contains(self, position: Position) -> bool:
        """Whether a position lies in the box, its edges included."""
        if not self.south_deg <= position.lat_deg <= self.north_deg:
            return False
        return (position.lon_deg - self.west_deg) % 360.0 <= self.east_deg - self.west_deg

    def padded(self, *, lat_deg: float, lon_deg: float) -> "Bounds":
        """The box widened on every side, kept within the poles and one turn of longitude."""
        width = min(self.east_deg - self.west_deg + 2.0 * lon_deg, 360.0)
        west = self.west_deg - lon_deg
        return Bounds(
            south_deg=max(self.south_deg - lat_deg, -90.0),
            west_deg=wrap_lon_deg(west),
            north_deg=min(self.north_deg + lat_deg, 90.0),
            east_deg=wrap_lon_deg(west) + width,
        )

    def outward(self, step_deg: float) -> "Bounds":
        """The box widened to whole steps, so that much the same box becomes the very same."""

        def down(value_deg: float) -> float:
            # Nine places: a whole number of steps stays what it is.
            return round(math.floor(round(value_deg / step_deg, 6)) * step_deg, 9)

        west_deg = down(self.west_deg)
        return Bounds(
            south_deg=max(down(self.south_deg), -90.0),
            west_deg=west_deg,
            north_deg=min(-down(-self.north_deg), 90.0),
            east_deg=min(-down(-self.east_deg), west_deg + 360.0),
        )


def bounds_of(positions: tuple[Position, ...]) -> Bounds:
    """Smallest box round positions that lie within half a turn of the first one."""
    first = positions[0].lon_deg
    lons = [first + (p.lon_deg - first + 180.0) % 360.0 - 180.0 for p in positions]
    lats = [p.lat_deg for p in positions]
    west = wrap_lon_deg(min(lons))
    return Bounds(
        south_deg=min(lats),
        west_deg=west,
        north_deg=max(lats),
        east_deg=west + (max(lons) - min(lons)),
    )
