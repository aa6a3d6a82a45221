"""Concentric indexing: an object rides a ring about the centre of a turn of constant radius."""

import math

from core.passage.turn import Turn
from core.plan.turn_card_result import ARC_SHARES, RingReading


def ring_radius_m(turn: Turn, *, ahead_m: float, starboard_m: float) -> float:
    """Distance of an object from the centre of the turn, m.

    ``ahead_m`` and ``starboard_m`` are its place as the arc begins, about the old course. The
    centre lies one radius abeam there (plane geometry, job.md 2.8.2).
    """
    return math.hypot(ahead_m, starboard_m - math.copysign(turn.radius_m, turn.alteration_deg))


def ring_readings(turn: Turn, *, ahead_m: float, starboard_m: float) -> tuple[RingReading, ...]:
    """Range and relative bearing of the object at each of ``ARC_SHARES``."""
    readings = []
    for share in ARC_SHARES:
        own_ahead, own_starboard = turn.arc_place_m(share)
        north, east = ahead_m - own_ahead, starboard_m - own_starboard
        off_old_deg = math.degrees(math.atan2(east, north))
        readings.append(
            RingReading(
                range_m=math.hypot(north, east),
                relative_deg=(off_old_deg - turn.alteration_deg * share) % 360.0,
            )
        )
    return tuple(readings)
