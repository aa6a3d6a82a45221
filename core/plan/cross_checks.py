"""Which causes of a wrong reading two index lines in use together tell apart (job.md 2.10)."""

import itertools

import numpy as np

from core.geodesy.leg_line import LegLine
from core.passage.passage import Side
from core.plan.index_diagnosis import IndexReading, diagnose, effect
from core.plan.intervals import intersection
from core.plan.leg_check_result import Cause, CrossCheck
from core.plan.plan_result import IndexLine, Role

_ERRORS_RATIO = 3.0
"""The causes are tried at this many times the error of the lines: less is hard to see at all."""
_PARTS = 2


def cross_checks(
    lines: tuple[IndexLine, ...], line: LegLine, *, least_m: float
) -> tuple[CrossCheck, ...]:
    """Every pair of index lines that are in use together for a while.

    Parameters
    ----------
    lines : tuple of IndexLine
        Of the leg.
    line : LegLine
        The leg.
    least_m : float
        Shorter together is too short to compare.

    Returns
    -------
    tuple of CrossCheck
        In order along the leg. A cause is tried as if it were the only one: what both lines would
        read then is diagnosed, and whatever else fits looks alike.
    """
    laid = [one for one in lines if one.role in (Role.PRIMARY, Role.CHECK)]
    found = []
    for first, second in itertools.combinations(laid, 2):
        if first.object.id == second.object.id:
            continue
        both = intersection(
            ((first.from_along_m, first.to_along_m),), ((second.from_along_m, second.to_along_m),)
        )
        for start, stop in both:
            if stop - start < least_m:
                continue
            found.append(
                CrossCheck(
                    first_id=first.object.id,
                    second_id=second.object.id,
                    is_opposite=first.side is not second.side,
                    from_along_m=start,
                    to_along_m=stop,
                    alike=_alike((first, second), line, (start, stop)),
                )
            )
    return tuple(sorted(found, key=lambda c: (c.from_along_m, c.first_id, c.second_id)))


def _alike(
    pair: tuple[IndexLine, IndexLine], line: LegLine, window: tuple[float, float]
) -> tuple[Cause, ...]:
    """Causes of which at least one other would be read into the same figures."""
    tolerance_m = max(one.uncertainty_m for one in pair)
    places = [window[0] + (window[1] - window[0]) * n / _PARTS for n in range(_PARTS + 1)]
    seen: list[tuple[Side, float, float]] = []
    for one in pair:
        at = one.object.position
        along, _cross = line.track_coordinates(np.array([at.lat_deg]), np.array([at.lon_deg]))
        seen += [(one.side, one.cross_index_range_m, float(along[0]) - place) for place in places]
    alike: set[Cause] = set()
    for cause in Cause:
        per_unit = [effect(cause, side=s, cross_m=c, ahead_m=a) for s, c, a in seen]
        most = max(abs(k) for k in per_unit)
        if most == 0.0:
            continue
        size = _ERRORS_RATIO * tolerance_m / most
        readings = [
            IndexReading(side=s, cross_index_range_m=c, ahead_m=a, read_m=c + k * size)
            for (s, c, a), k in zip(seen, per_unit, strict=True)
        ]
        fits = {one.cause for one in diagnose(readings, tolerance_m=tolerance_m)}
        if len(fits) > 1:
            alike |= fits
    return tuple(cause for cause in Cause if cause in alike)
