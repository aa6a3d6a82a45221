"""A waterline moved to where it is expected to paint, viewpoint by viewpoint of a leg."""

from dataclasses import dataclass

import numpy as np

from core.base.arrays import BoolArray, FloatArray, HoldsArrays, IntArray
from core.geodesy import geodesic
from core.plan.feature import Feature
from core.plan.leg_sight import FeatureSight, LegSight


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PaintedWaterline(HoldsArrays):
    """How the n places of a waterline paint from r viewpoints, in track coordinates.

    views : (r,) int64
        Numbers of the viewpoints.
    along_m, cross_m : (r, n) float64
        Painted places; ``cross_m`` NaN where the place does not paint.
    is_inside : (r, n) bool
        Whether a place lies more than half an elevation cell inside the charted coast: less than
        that elevation and coast cannot tell from paint at the waterline.
    """

    views: IntArray
    along_m: FloatArray
    cross_m: FloatArray
    is_inside: BoolArray

    def reach_m(self) -> FloatArray:
        """Least distance off the track of what paints, by viewpoint, m: (r,) array."""
        return np.asarray(np.nanmin(np.abs(self.cross_m), axis=1, initial=np.inf))


def painted_waterline(
    sight: FeatureSight,
    legs: LegSight,
    *,
    along_m: FloatArray,
    cross_m: FloatArray,
    views: BoolArray,
) -> PaintedWaterline:
    """Move a waterline from some viewpoints, those from which something of it paints.

    Parameters
    ----------
    sight : FeatureSight
        How the waterline shows from all m viewpoints.
    legs : LegSight
        The viewpoints.
    along_m, cross_m : (n,) arrays
        The charted waterline in track coordinates, m.
    views : (m,) bool array
        Viewpoints to look from.

    Notes
    -----
    Each place moves along its bearing from the viewpoint; within the few hundred metres of that
    track coordinates are a plane.
    """
    chosen: IntArray = np.flatnonzero(views & sight.seen.any(axis=1)).astype(np.int64)
    seen = sight.seen[chosen]
    ahead = along_m - legs.view_along_m[chosen, None]
    across = cross_m - legs.view_cross_m[chosen, None]
    inland = np.where(seen, sight.inland_m[chosen], np.nan).astype(np.float64)
    share = inland / np.maximum(np.hypot(ahead, across), 1.0)
    return PaintedWaterline(
        views=chosen,
        along_m=along_m + share * ahead,
        cross_m=cross_m + share * across,
        is_inside=np.asarray(inland > 0.5 * legs.cell_m),
    )


def painted_places(
    feature: Feature, sight: FeatureSight, legs: LegSight, view: int
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """The waterline as it paints from one viewpoint.

    Returns
    -------
    lat_deg, lon_deg, inside_m : (n,) arrays
        Places, moved where they paint more than half a cell inside the charted coast, and how far.
    """
    inland = np.where(sight.seen[view], sight.inland_m[view], 0.0).astype(np.float64)
    inside_m = np.where(inland > 0.5 * legs.cell_m, inland, 0.0)
    lat_deg, lon_deg = feature.lat_deg.copy(), feature.lon_deg.copy()
    moved = np.flatnonzero(inside_m)
    if moved.size:
        own = legs.coverage.viewpoints[view].viewpoint.position
        _range, _first, bearing = geodesic.inverse(
            from_lat_deg=own.lat_deg,
            from_lon_deg=own.lon_deg,
            to_lat_deg=lat_deg[moved],
            to_lon_deg=lon_deg[moved],
        )
        lat_deg[moved], lon_deg[moved], _last = geodesic.direct(
            lat_deg=lat_deg[moved],
            lon_deg=lon_deg[moved],
            bearing_deg=bearing,
            distance_m=inside_m[moved],
        )
    return lat_deg, lon_deg, inside_m
