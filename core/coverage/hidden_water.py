"""Which places are hidden water, seen from one viewpoint or from all of a leg."""

import numpy as np

from core.base.arrays import BoolArray, Float32Array, FloatArray, IntArray
from core.base.compiled import kernel
from core.coverage.coverage_result import HiddenWater, LegCoverage, ViewpointCoverage
from core.geodesy import geodesic
from core.geodesy.leg_line import LegLine


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


def hidden_through_leg(
    leg: LegCoverage, line: LegLine, along_m: FloatArray, cross_m: FloatArray
) -> BoolArray:
    """Water hidden from every viewpoint on the track of a leg.

    Parameters
    ----------
    leg : LegCoverage
        The leg.
    line : LegLine
        Its line.
    along_m, cross_m : (n,) and (m,) arrays
        Track coordinates of the rows and columns of a grid, m, starboard positive.

    Returns
    -------
    (n, m) bool array
        True where a craft of the stated height stays hidden the whole leg long.
    """
    along, cross = np.meshgrid(along_m, cross_m, indexing="ij")
    lat, lon = line.offset(along.ravel(), cross.ravel())
    viewpoints = leg.on_track()
    left: IntArray = np.arange(lat.size, dtype=np.int64)
    if not viewpoints:
        left = left[:0]
    # The ends first: what both see differs most, so few places are left for those between.
    order = sorted(range(len(viewpoints)), key=lambda i: (_halvings(i, len(viewpoints)), i))
    for index in order:
        if left.size == 0:
            break
        left = left[hidden_from(viewpoints[index], lat[left], lon[left])]
    through = np.zeros(lat.size, dtype=np.bool_)
    through[left] = True
    return through.reshape(along.shape)


def _halvings(index: int, count: int) -> int:
    """0 for the two ends, 1 for the middle, 2 for the quarters and so on."""
    low, high, depth = 0, count - 1, 0
    if index in (low, high):
        return depth
    while True:
        depth += 1
        middle = (low + high) // 2
        if index == middle:
            return depth
        low, high = (low, middle) if index < middle else (middle, high)


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
