"""Where the heading marker can be checked: a small object near the edge of the scale."""

import math
from collections.abc import Sequence

from core.plan.leg_check_result import HeadingSpot
from core.plan.place_readings import PlaceReading, Reader

_NEAR_EDGE_RATIO = 0.6
"""Of the radius of the screen; farther out the same angle is farther across."""
_BOW_DEG = 45.0
"""A bearing by eye is read best on the bow (common practice, no source)."""
_FORWARD_DEG = 90.0
"""Abaft the beam masts and funnel stand in the way of the eye."""


def shift_m(*, along_m: float, error_deg: float) -> float:
    """How far an error of the heading line turns an echo aside, m.

    0.07 NM for one degree at 4 NM (job.md 2.9.4, T23); nothing for an object abeam.
    """
    return along_m * math.tan(math.radians(error_deg))


def heading_spot(
    read: Reader, places: Sequence[float], *, heading_off_deg: float = 0.0
) -> HeadingSpot | None:
    """The first place from which the best small object is read, or None.

    Parameters
    ----------
    read : Reader
        What can be ranged from a place.
    places : sequence of float
        Where the ship is steady, m along, ascending.
    heading_off_deg : float
        From the course to the heading to steer, starboard positive.

    Notes
    -----
    The relative bearing by eye is compared with that on the radar (job.md 6.3.1), so marks, which
    are known by eye, go before small islets, the bow before the beam, the edge of the scale
    before its middle.
    """
    best: tuple[tuple[float, ...], float, PlaceReading] | None = None
    for along_m in places:
        for reading in read(along_m):
            share = reading.range_m / reading.radius_m
            off_bow = abs(_off_bow_deg(reading, heading_off_deg))
            if not reading.is_point or share < _NEAR_EDGE_RATIO or off_bow > _FORWARD_DEG:
                continue
            worth = (
                float(reading.is_mark),
                float(off_bow <= _BOW_DEG),
                round(share, 1),
                -along_m,
            )
            if best is None or worth > best[0]:
                best = (worth, along_m, reading)
    if best is None:
        return None
    _worth, along_m, reading = best
    return HeadingSpot(
        object_id=reading.object_id,
        name=reading.name,
        along_m=along_m,
        range_m=reading.range_m,
        bearing_deg=reading.bearing_deg,
        relative_deg=_off_bow_deg(reading, heading_off_deg) % 360.0,
        scale_m=reading.scale_m,
        per_degree_m=shift_m(along_m=reading.range_m, error_deg=1.0),
    )


def _off_bow_deg(reading: PlaceReading, heading_off_deg: float) -> float:
    """Relative bearing, -180 to 180, starboard positive."""
    return (reading.relative_deg - heading_off_deg + 180.0) % 360.0 - 180.0
