"""Plain millimetres: u across, starboard positive, v along from the start of the leg, no spine.

Shapes of the strip are made in them and then cut into the two halves beside the spine.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from core.base.arrays import BoolArray, FloatArray
from core.geodesy.leg_line import LegLine
from core.passage.passage import Side
from core.sheets.strip_frame import StripFrame


def window_of(frame: StripFrame) -> Polygon:
    """The water of the strip."""
    half = frame.half_width_m * frame.cross_mm_per_m
    return shapely.box(
        -half,
        frame.low_along_m * frame.along_mm_per_m,
        half,
        frame.high_along_m * frame.along_mm_per_m,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Near:
    """A box of latitude and longitude that holds the strip."""

    low_lat_deg: float
    high_lat_deg: float
    middle_lon_deg: float
    low_lon_deg: float
    """Within 180 degrees of the middle, as ``high_lon_deg``; not in [-180, 180]."""
    high_lon_deg: float

    def holds(self, lat_deg: FloatArray, lon_deg: FloatArray) -> BoolArray:
        """Which places lie in the box, for arrays (n,)."""
        lon = _towards(lon_deg, self.middle_lon_deg)
        inside: BoolArray = (
            (lat_deg > self.low_lat_deg)
            & (lat_deg < self.high_lat_deg)
            & (lon > self.low_lon_deg)
            & (lon < self.high_lon_deg)
        )
        return inside


def near_strip(frame: StripFrame, line: LegLine) -> Near:
    """The box round the strip of a leg, with some room to spare."""
    along = np.array([frame.low_along_m, frame.high_along_m] * 2 + [0.5 * line.length_m] * 2)
    cross = np.array([-1.0, -1.0, 1.0, 1.0, -1.0, 1.0]) * frame.half_width_m
    lats, lons = line.offset(along, cross)
    middle = float(lons[0])
    near_lons = _towards(lons, middle)
    lat_pad = 0.05 * float(np.ptp(lats)) + 0.02
    lon_pad = 0.05 * float(np.ptp(near_lons)) + 0.04
    return Near(
        low_lat_deg=float(lats.min()) - lat_pad,
        high_lat_deg=float(lats.max()) + lat_pad,
        middle_lon_deg=middle,
        low_lon_deg=float(near_lons.min()) - lon_pad,
        high_lon_deg=float(near_lons.max()) + lon_pad,
    )


def _towards(lon_deg: FloatArray, middle_deg: float) -> FloatArray:
    """Longitudes within 180 degrees of a middle."""
    return middle_deg + np.mod(lon_deg - middle_deg + 180.0, 360.0) - 180.0


def plain_places(frame: StripFrame, line: LegLine, lat: FloatArray, lon: FloatArray) -> FloatArray:
    """Plain millimetres (n, 2) of places."""
    along, cross = line.track_coordinates(lat, lon)
    return np.column_stack([cross * frame.cross_mm_per_m, along * frame.along_mm_per_m])


def halves(frame: StripFrame, shape: BaseGeometry) -> Iterator[BaseGeometry]:
    """A shape in plain millimetres, cut into the two halves and put on the page."""
    half = frame.half_width_m * frame.cross_mm_per_m
    low = frame.low_along_m * frame.along_mm_per_m
    high = frame.high_along_m * frame.along_mm_per_m
    for side, left, right in ((Side.PORT, -half, 0.0), (Side.STARBOARD, 0.0, half)):
        part = shape.intersection(shapely.box(left, low, right, high))
        if part.is_empty:
            continue
        edge = frame.spine_edge_mm(side)
        yield shapely.transform(
            part,
            lambda uv, edge=edge: np.column_stack(
                [edge + uv[:, 0], frame.water.bottom_mm - (uv[:, 1] - low)]
            ),
        )
