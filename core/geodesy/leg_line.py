"""The line of a leg, extended both ways: points along it and feet of perpendiculars."""

from dataclasses import dataclass, field
from enum import Enum

import numpy as np

from core.base.angles import difference_array_deg, wrap_360_array_deg
from core.base.arrays import FloatArray
from core.geodesy import geodesic, rhumb
from core.geodesy.position import Position


class LegKind(Enum):
    """How a leg is steered."""

    RHUMB = "rhumb"
    GEODESIC = "geodesic"


_KNOT_M = 2_000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class LegLine:
    """A rhumb line or geodesic from one waypoint to the next.

    Distances along are from the first waypoint, negative before it and larger than
    ``length_m`` past the second.
    """

    kind: LegKind
    start: Position
    end: Position
    length_m: float = field(init=False)
    course_deg: float = field(init=False)
    """Rhumb course, or initial course of a geodesic; true, [0, 360)."""

    def __post_init__(self) -> None:
        """Work out length and course once."""
        ends = {
            "from_lat_deg": self.start.lat_deg,
            "from_lon_deg": self.start.lon_deg,
            "to_lat_deg": self.end.lat_deg,
            "to_lon_deg": self.end.lon_deg,
        }
        if self.kind is LegKind.RHUMB:
            length, course = rhumb.inverse(**ends)
        else:
            lengths, courses, _final = geodesic.inverse(**ends)
            length, course = float(lengths), float(courses)
        object.__setattr__(self, "length_m", length)
        object.__setattr__(self, "course_deg", course)

    def at(self, along_m: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
        """Positions and courses at distances along the line.

        Parameters
        ----------
        along_m : (n,) array
            Distances along, m, any sign.

        Returns
        -------
        lat_deg, lon_deg, course_deg : (n,) arrays
            Positions, deg (longitude not wrapped for a rhumb line), and the line's course there.
        """
        along = np.atleast_1d(np.asarray(along_m, dtype=np.float64))
        if self.kind is LegKind.GEODESIC:
            return geodesic.direct(
                lat_deg=self.start.lat_deg,
                lon_deg=self.start.lon_deg,
                bearing_deg=self.course_deg,
                distance_m=along,
            )
        lats, lons = rhumb.direct_many(
            lat_deg=self.start.lat_deg,
            lon_deg=self.start.lon_deg,
            course_deg=self.course_deg,
            distance_m=along,
        )
        return lats, lons, np.full(along.shape, self.course_deg)

    def course_at(self, along_m: float) -> float:
        """The line's course at one distance along it, deg true."""
        if self.kind is LegKind.RHUMB:
            return self.course_deg
        return float(self.at(np.array([along_m]))[2][0])

    def position_at(self, along_m: float) -> Position:
        """The place at one distance along the line."""
        lats, lons, _courses = self.at(np.array([along_m]))
        return Position(lat_deg=float(lats[0]), lon_deg=float((lons[0] + 180) % 360 - 180))

    def offset(self, along_m: FloatArray, cross_m: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Positions at track coordinates: along the line, then square off it.

        Parameters
        ----------
        along_m, cross_m : (n,) arrays
            Distance along and distance to starboard (port negative), m.

        Returns
        -------
        lat_deg, lon_deg : (n,) arrays
        """
        lats, lons, courses = self.at(along_m)
        lat, lon, _final = geodesic.direct(
            lat_deg=lats, lon_deg=lons, bearing_deg=courses + 90.0, distance_m=cross_m
        )
        return lat, lon

    def track_coordinates(
        self, lat_deg: FloatArray, lon_deg: FloatArray
    ) -> tuple[FloatArray, FloatArray]:
        """Track coordinates of places: foot on the extended line nearest by geodesic.

        Parameters
        ----------
        lat_deg, lon_deg : (n,) arrays
            Places, deg.

        Returns
        -------
        along_m, cross_m : (n,) arrays
            Distance along to the foot, and geodesic distance from the foot, starboard positive.

        Notes
        -----
        Newton's method: the foot is where the geodesic to the place leaves the line square.
        """
        lats = np.atleast_1d(np.asarray(lat_deg, dtype=np.float64))
        lons = np.atleast_1d(np.asarray(lon_deg, dtype=np.float64))
        distance, bearing, _final = geodesic.inverse(
            from_lat_deg=self.start.lat_deg,
            from_lon_deg=self.start.lon_deg,
            to_lat_deg=lats,
            to_lon_deg=lons,
        )
        along = distance * np.cos(np.radians(bearing - self.course_deg))
        cross = np.zeros_like(along)
        for _ in range(8):
            foot_lat, foot_lon, course = self.many_at(along)
            distance, bearing, _final = geodesic.inverse(
                from_lat_deg=foot_lat, from_lon_deg=foot_lon, to_lat_deg=lats, to_lon_deg=lons
            )
            relative = np.radians(difference_array_deg(bearing, 0.0) - course)
            step = distance * np.cos(relative)
            cross = np.copysign(distance, np.sin(relative))
            along = along + step
            if along.size == 0 or float(np.max(np.abs(step))) < 0.01:
                break
        return along, cross

    def many_at(self, along_m: FloatArray) -> tuple[FloatArray, FloatArray, FloatArray]:
        """As ``at``, but rhumb lines of many points go through a spline of exact knots.

        A hundred times faster; the error is below 1 mm outside the polar regions.
        """
        if self.kind is LegKind.GEODESIC or along_m.size <= 64:
            return self.at(along_m)
        low, high = float(along_m.min()) - _KNOT_M, float(along_m.max()) + _KNOT_M
        count = max(4, int(np.ceil((high - low) / _KNOT_M)) + 1)
        knots = np.linspace(low, high, count)
        lats, lons, _courses = self.at(knots)
        step = knots[1] - knots[0]
        cell = np.clip(((along_m - low) / step).astype(np.int64), 1, count - 3)
        t = (along_m - low) / step - cell
        # Cubic Lagrange through four exact knots: below 1 mm at 2 km spacing outside the poles.
        w0 = -t * (t - 1.0) * (t - 2.0) / 6.0
        w1 = (t + 1.0) * (t - 1.0) * (t - 2.0) / 2.0
        w2 = -(t + 1.0) * t * (t - 2.0) / 2.0
        w3 = (t + 1.0) * t * (t - 1.0) / 6.0
        lat = w0 * lats[cell - 1] + w1 * lats[cell] + w2 * lats[cell + 1] + w3 * lats[cell + 2]
        lon = w0 * lons[cell - 1] + w1 * lons[cell] + w2 * lons[cell + 1] + w3 * lons[cell + 2]
        return lat, lon, wrap_360_array_deg(np.full(along_m.shape, self.course_deg))
