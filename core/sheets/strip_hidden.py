"""Water that stays hidden from every viewpoint on the track of a leg."""

import numpy as np

from core.base.arrays import BoolArray, FloatArray
from core.coverage.coverage_result import LegCoverage
from core.coverage.hidden_water import hidden_from

_FIRST_EVERY = 8


def hidden_from_all(
    coverage: LegCoverage,
    *,
    along_m: FloatArray,
    cross_m: FloatArray,
    lat_deg: FloatArray,
    lon_deg: FloatArray,
    radius_m: float,
) -> BoolArray:
    """Which places some viewpoint reaches and every viewpoint that reaches them finds hidden.

    A leg may be longer than the sweep reaches, so viewpoints too far off have no say.

    Parameters
    ----------
    coverage : LegCoverage
        The leg, with its hidden water per viewpoint.
    along_m, cross_m : (n,) arrays
        Places in track coordinates, m.
    lat_deg, lon_deg : (n,) arrays
        The same places, deg.
    radius_m : float
        Sweep radius, m.

    Returns
    -------
    (n,) bool array
    """
    in_reach = np.zeros(along_m.shape, dtype=np.bool_)
    hidden = np.ones(along_m.shape, dtype=np.bool_)
    views = coverage.on_track()
    # A few far apart first: what they all see differs most, so few places are left to ask.
    for number in sorted(range(len(views)), key=lambda i: (i % _FIRST_EVERY != 0, i)):
        view = views[number]
        reached = np.hypot(along_m - view.viewpoint.along_m, cross_m) < radius_m
        in_reach |= reached
        asked = reached & hidden
        if asked.any():
            hidden[asked] = hidden_from(view, lat_deg[asked], lon_deg[asked])
    return in_reach & hidden
