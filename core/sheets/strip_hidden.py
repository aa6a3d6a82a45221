"""Water that stays hidden from every viewpoint on the track of a leg."""

import numpy as np

from core.base.arrays import BoolArray, FloatArray
from core.coverage.result import HiddenWater, LegCoverage


def hidden_from_all(
    coverage: LegCoverage,
    *,
    course_deg: float,
    along_m: FloatArray,
    cross_m: FloatArray,
    radius_m: float,
) -> BoolArray:
    """Which places are within reach of some viewpoint and hidden from every one in reach.

    Parameters
    ----------
    coverage : LegCoverage
        The leg, with its hidden water per viewpoint.
    course_deg : float
        Course of the leg.
    along_m, cross_m : (n,) arrays
        Places in track coordinates, m.
    radius_m : float
        Sweep radius, m.

    Returns
    -------
    (n,) bool array

    Notes
    -----
    Ranges and bearings are taken plane in track coordinates: within 24 NM and outside high
    latitudes the bearing is off by less than half a degree, less than the drawing shows.
    """
    in_reach = np.zeros(along_m.shape, dtype=np.bool_)
    hidden = np.ones(along_m.shape, dtype=np.bool_)
    for view in coverage.on_track():
        ahead = along_m - view.viewpoint.along_m
        range_m = np.hypot(ahead, cross_m)
        reached = range_m <= radius_m
        in_reach |= reached
        asked = reached & hidden
        if not asked.any():
            continue
        bearing = np.degrees(np.arctan2(cross_m[asked], ahead[asked])) + course_deg
        hidden[asked] = _is_hidden(view.hidden, bearing, range_m[asked])
    return in_reach & hidden


def _is_hidden(water: HiddenWater, bearing_deg: FloatArray, range_m: FloatArray) -> BoolArray:
    """Whether each place lies in a hidden stretch of its nearest ray."""
    rays = water.offsets.size - 1
    if rays <= 0 or water.from_m.size == 0:
        return np.zeros(range_m.shape, dtype=np.bool_)
    ray = np.rint(bearing_deg * rays / 360.0).astype(np.int64) % rays
    start, stop = water.offsets[ray], water.offsets[ray + 1]
    # Stretches of all rays in one rising sequence: ray number first, then range.
    far = float(max(range_m.max(), water.to_m.max())) + 1.0
    owner = np.repeat(np.arange(rays), np.diff(water.offsets))
    keys = owner * far + water.from_m
    last = np.searchsorted(keys, ray * far + range_m, side="right") - 1
    found = (last >= start) & (last < stop)
    result = np.zeros(range_m.shape, dtype=np.bool_)
    result[found] = range_m[found] <= water.to_m[last[found]]
    return result
