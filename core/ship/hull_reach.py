"""From which point ranges are taken, and how far the hull reaches to the sides of its track."""

import math
from dataclasses import dataclass
from enum import Enum

from core.ship.ship import Ship, ShipPoint


class ReferenceKind(Enum):
    """Which point of the ship ranges and bearings are referred to."""

    STATED = "stated"
    ANTENNA = "antenna"
    ASSUMED = "assumed amidships"


@dataclass(frozen=True, slots=True, kw_only=True)
class Reference:
    """The point that is kept on the track and that cross-index ranges count from."""

    point: ShipPoint
    kind: ReferenceKind


def reference_of(ship: Ship) -> Reference:
    """The radar's reference point as stated, else the main antenna, else amidships."""
    if ship.reference is not None:
        return Reference(point=ship.reference, kind=ReferenceKind.STATED)
    radar = ship.radars[0]
    if radar.antenna_from_stern_m is not None:
        point = ShipPoint(
            from_stern_m=radar.antenna_from_stern_m, to_starboard_m=radar.antenna_to_starboard_m
        )
        return Reference(point=point, kind=ReferenceKind.ANTENNA)
    return Reference(
        point=ShipPoint(
            from_stern_m=ship.length_m / 2.0, to_starboard_m=radar.antenna_to_starboard_m
        ),
        kind=ReferenceKind.ASSUMED,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class HullReach:
    """How far the hull reaches from the track of its reference point, m."""

    port_m: float
    starboard_m: float

    def towards_m(self, *, is_starboard: bool) -> float:
        """To one side."""
        return self.starboard_m if is_starboard else self.port_m


def hull_reach(ship: Ship, *, least_off_deg: float, most_off_deg: float) -> HullReach:
    """Half beam and what the drift angle adds to it, to each side, at the worst heading.

    Parameters
    ----------
    ship : Ship
        Length, beam and reference point.
    least_off_deg, most_off_deg : float
        Headings off the course, starboard positive; the worst of both is taken.

    Notes
    -----
    The hull is a rectangle: a corner x ahead and y to starboard of the point lies
    x sin a + y cos a to starboard of its track on a heading a off the course (plane geometry). No
    heading between the two is worse while a stays below atan(length / beam).
    """
    point = reference_of(ship).point
    ahead_m, astern_m = ship.length_m - point.from_stern_m, -point.from_stern_m
    sides_m = (
        -ship.beam_m / 2.0 - point.to_starboard_m,
        ship.beam_m / 2.0 - point.to_starboard_m,
    )
    off_m = [
        x_m * math.sin(math.radians(angle)) + y_m * math.cos(math.radians(angle))
        for angle in (least_off_deg, most_off_deg)
        for x_m in (ahead_m, astern_m)
        for y_m in sides_m
    ]
    return HullReach(port_m=max(-min(off_m), 0.0), starboard_m=max(max(off_m), 0.0))
