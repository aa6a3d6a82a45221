"""How small a thing the data of a leg can hold at all."""

import numpy as np

from core.base.arrays import FloatArray, IntArray
from core.land.land_model import LandModel
from core.plan.shore import metres_from

_CELLS = 2.0
"""A thing narrower than two cells need not fill any of them."""


def data_grain_m(land: LandModel, near: IntArray, *, cell_m: float) -> float | None:
    """Things smaller than this may be missing from the data of a leg, m.

    Parameters
    ----------
    land : LandModel
        Coast and heights.
    near : (n,) int array
        Numbers of the coast points within reach of the leg.
    cell_m : float
        Longer side of an elevation cell, m.

    Returns
    -------
    float or None
        Two cells of the elevation (sampling: less need not show in any), or the middling length
        of the sides that the coast is drawn with, whichever is more; None without coast in reach.

    Notes
    -----
    A judgement from the data alone: it cannot tell what its makers left out on purpose.
    """
    if near.size == 0:
        return None
    side_m = _coast_side_m(land, near)
    if land.heights_assumed:
        return side_m
    return max(_CELLS * cell_m, side_m)


def _coast_side_m(land: LandModel, near: IntArray) -> float:
    """Middling side of the coast lines in reach, by length of coast, m; 0 where none has two."""
    points = land.points
    lat0, lon0 = float(points.lat_deg[near[0]]), float(points.lon_deg[near[0]])
    east, north = metres_from(
        points.lat_deg[near], points.lon_deg[near], from_lat_deg=lat0, from_lon_deg=lon0
    )
    lengths: list[FloatArray] = []
    for number in np.unique(points.line[near]):
        line = land.coast.lines[int(number)]
        x, y = metres_from(line.lat_deg, line.lon_deg, from_lat_deg=lat0, from_lon_deg=lon0)
        inside = (x >= east.min()) & (x <= east.max()) & (y >= north.min()) & (y <= north.max())
        lengths.append(np.hypot(np.diff(x), np.diff(y))[inside[:-1] & inside[1:]])
    every = np.sort(np.concatenate(lengths))
    if every.size == 0:
        return 0.0
    share = np.cumsum(every) / every.sum()
    return float(every[min(int(np.searchsorted(share, 0.5)), every.size - 1)])
