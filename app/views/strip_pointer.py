"""The pointer that keys move over the things on own ship's level of the strip."""

from app.views.strip_work import DrawnStrip
from core.plan.plan_result import IndexLine, LegPlan
from core.sheets.strip_lines import line_reference
from core.sheets.strip_map import Spot


def next_spot(drawn: DrawnStrip, along_m: float, spot: Spot | None, steps: int) -> Spot | None:
    """The next thing to starboard of a spot, to port where ``steps`` is negative, all round.

    Parameters
    ----------
    along_m : float
        Where own ship is.
    spot : Spot or None
        Where the pointer is; None begins at the track.
    """
    frame = drawn.strip.frame
    spots = drawn.things.across(frame.y_mm(along_m))
    here = frame.middle_mm if spot is None else spot.x_mm
    if steps < 0:
        spots = spots[::-1]
    sign = 1.0 if steps > 0 else -1.0
    ahead = [one for one in spots if sign * (one.x_mm - here) > 1e-6]
    return next(iter((*ahead, *spots)), None)


def same_spot(drawn: DrawnStrip, along_m: float, spot: Spot) -> Spot | None:
    """Where a thing that was pointed at is met in another picture; None where it is not."""
    spots = drawn.things.across(drawn.strip.frame.y_mm(along_m))
    same = [one for one in spots if one.reference == spot.reference]
    return min(same, key=lambda one: abs(one.x_mm - spot.x_mm), default=None)


def line_at(leg: LegPlan, spot: Spot) -> IndexLine | None:
    """The line of a leg that a spot is on, or whose object it is."""
    for line in leg.lines:
        if spot.reference in (line_reference(leg, line), f"object:{line.object.id}"):
            return line
    return None
