"""A passage run the other way: the same waypoints and legs from the last to the first."""

from dataclasses import replace

from core.passage.defaults import scheduled_speeds
from core.passage.passage import Leg, Passage

_SUFFIX = ", reversed"


def reversed_passage(passage: Passage) -> Passage:
    """The same lines run from the last waypoint to the first.

    Corridors change sides with the course; kind, speed and note stay with their leg, the radius
    of a turn with its waypoint. Times of the route file are those of the other way and are left
    out; a leg that states no speed keeps the one that follows from them.

    Reversed twice it is the passage as it was, but for those times.
    """
    scheduled_mps, _findings = scheduled_speeds(passage)
    name = passage.name
    return Passage(
        name=name.removesuffix(_SUFFIX) if name.endswith(_SUFFIX) else name + _SUFFIX,
        waypoints=tuple(
            replace(waypoint, eta_utc=None, etd_utc=None) for waypoint in passage.waypoints[::-1]
        ),
        legs=tuple(
            _reversed_leg(leg, speed)
            for leg, speed in zip(passage.legs[::-1], scheduled_mps[::-1], strict=True)
        ),
    )


def _reversed_leg(leg: Leg, scheduled_mps: float | None) -> Leg:
    return replace(
        leg,
        corridor_port_m=leg.corridor_starboard_m,
        corridor_starboard_m=leg.corridor_port_m,
        speed_mps=leg.speed_mps or scheduled_mps,
    )


def reversed_number(leg_number: int, leg_count: int) -> int:
    """Number, from 1, of the same leg run the other way; a leg that is none keeps its number."""
    is_known = 1 <= leg_number <= leg_count
    return leg_count + 1 - leg_number if is_known else leg_number
