"""Which places are hidden water, seen from one viewpoint or from all of a leg."""

from dataclasses import dataclass

import numpy as np

from core.base.arrays import BoolArray, Float32Array, FloatArray, HoldsArrays, IntArray
from core.base.compiled import kernel
from core.coverage.coverage_result import HiddenWater, LegCoverage, ViewpointCoverage
from core.geodesy import geodesic

_FIRST_EVERY = 8


def hidden_from(coverage: ViewpointCoverage, lat_deg: FloatArray, lon_deg: FloatArray) -> BoolArray:
    """Whether places are water hidden from one viewpoint.

    Parameters
    ----------
    coverage : ViewpointCoverage
        The viewpoint.
    lat_deg, lon_deg : arrays of one shape
        Places, deg.

    Returns
    -------
    bool array of the same shape
        True where a craft of the stated height is hidden; False on land, in sight, and beyond
        the sweep radius. Between rays the nearest ray decides.
    """
    position = coverage.viewpoint.position
    range_m, bearing_deg, _final = geodesic.inverse(
        from_lat_deg=position.lat_deg,
        from_lon_deg=position.lon_deg,
        to_lat_deg=lat_deg,
        to_lon_deg=lon_deg,
    )
    return hidden_at(coverage.hidden, range_m, bearing_deg)


def hidden_at(hidden: HiddenWater, range_m: FloatArray, bearing_deg: FloatArray) -> BoolArray:
    """The same for places given by range and bearing, arrays of one shape."""
    found = np.zeros(range_m.size, dtype=np.bool_)
    _look_up(
        hidden.offsets, hidden.from_m, hidden.to_m, range_m.ravel(), bearing_deg.ravel(), found
    )
    return found.reshape(range_m.shape)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ThroughLeg(HoldsArrays):
    """Places asked about hidden water along a whole leg.

    hidden, computed : (n,) bool arrays
        Hidden from every viewpoint on the track that reaches it; reached by any at all. What no
        viewpoint reaches is not known: neither hidden nor open.
    """

    hidden: BoolArray
    computed: BoolArray


def hidden_through_leg(
    leg: LegCoverage,
    *,
    along_m: FloatArray,
    cross_m: FloatArray,
    lat_deg: FloatArray,
    lon_deg: FloatArray,
    radius_m: float,
) -> ThroughLeg:
    """Water hidden the whole leg long.

    A leg may be longer than the sweep reaches, so viewpoints too far off have no say.

    Parameters
    ----------
    leg : LegCoverage
        The leg.
    along_m, cross_m : (n,) arrays
        Places in track coordinates, m.
    lat_deg, lon_deg : (n,) arrays
        The same places, deg.
    radius_m : float
        Sweep radius, m.
    """
    computed = np.zeros(along_m.shape, dtype=np.bool_)
    hidden = np.ones(along_m.shape, dtype=np.bool_)
    views = leg.on_track()
    # A few far apart first: what they all see differs most, so few places are left to ask.
    for number in sorted(range(len(views)), key=lambda i: (i % _FIRST_EVERY != 0, i)):
        view = views[number]
        reached = np.hypot(along_m - view.viewpoint.along_m, cross_m) < radius_m
        computed |= reached
        asked = reached & hidden
        if asked.any():
            hidden[asked] = hidden_from(view, lat_deg[asked], lon_deg[asked])
    return ThroughLeg(hidden=computed & hidden, computed=computed)


@kernel
def _look_up(
    offsets: IntArray,
    from_m: Float32Array,
    to_m: Float32Array,
    range_m: FloatArray,
    bearing_deg: FloatArray,
    found: BoolArray,
) -> None:
    rays = offsets.size - 1
    for i in range(range_m.size):
        ray = int(np.floor(bearing_deg[i] * rays / 360.0 + 0.5)) % rays
        for j in range(offsets[ray], offsets[ray + 1]):
            if from_m[j] <= range_m[i] <= to_m[j]:
                found[i] = True
                break
