"""One leg with the coast near it in track coordinates."""

from dataclasses import dataclass

import numpy as np

from core.base.arrays import BoolArray, FloatArray, HoldsArrays, IntArray
from core.geodesy.leg_line import LegLine
from core.geodesy.position import Position
from core.land.land_model import LandModel


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LegFrame(HoldsArrays):
    """Track coordinates of the coast points in reach of a leg.

    ``near`` (n,) are the numbers of the coast points in reach, ascending; ``along_m`` and
    ``cross_m`` (n,) their track coordinates.
    """

    line: LegLine
    reach_m: float
    near: IntArray
    along_m: FloatArray
    cross_m: FloatArray

    def track_coordinates(
        self, lat_deg: FloatArray, lon_deg: FloatArray
    ) -> tuple[FloatArray, FloatArray]:
        """Track coordinates of any places about this leg, m."""
        return self.line.track_coordinates(lat_deg, lon_deg)


def leg_frame(line: LegLine, land: LandModel, reach_m: float) -> LegFrame:
    """Coast points within reach of a leg in its track coordinates."""
    lat, lon = land.points.lat_deg, land.points.lon_deg
    middle = line.position_at(line.length_m / 2.0)
    near = np.flatnonzero(_may_reach(lat, lon, middle, reach_m + line.length_m / 2.0))
    along, cross = line.track_coordinates(lat[near], lon[near])
    keep = (np.abs(cross) <= reach_m) & (along >= -reach_m) & (along <= line.length_m + reach_m)
    return LegFrame(
        line=line,
        reach_m=reach_m,
        near=np.asarray(near[keep], dtype=np.int64),
        along_m=along[keep],
        cross_m=cross[keep],
    )


def _may_reach(
    lat_deg: FloatArray, lon_deg: FloatArray, middle: Position, radius_m: float
) -> BoolArray:
    """Whether places may lie within a radius of a position; a generous box."""
    lat_span = radius_m * 1.05 / 110_500.0
    highest = min(abs(middle.lat_deg) + lat_span, 89.0)
    lon_span = lat_span / np.cos(np.radians(highest))
    lon = np.mod(lon_deg - middle.lon_deg + 180.0, 360.0) - 180.0
    return np.asarray((np.abs(lat_deg - middle.lat_deg) <= lat_span) & (np.abs(lon) <= lon_span))
