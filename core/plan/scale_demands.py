"""What a screen has to hold, and the shortest screen that holds it (job.md 3.4, 3.5)."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from core.plan import reason_codes
from core.plan.intervals import Interval
from core.plan.screen import Screen, closing_speed_mps

_EVERY_DEG = 5
_SLACK_M = 0.5
"""A window ends where the edge of the screen is met; track coordinates of its object, worked out
again from the position, are some centimetres off."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """One item that must be on the screen, as places ahead and to starboard of own ship.

    A thing that stays while the ship runs past moves along a line over the screen, and a round
    screen that shows both ends of a line shows all of it, so its ends will do.
    """

    code: str
    """Reason code, one of ``SCALE_FORCED_BY_...``."""
    object_id: str
    """Empty for the look-out distance."""
    places_m: tuple[tuple[float, float], ...]
    slack_m: float = 1e-3

    @property
    def range_m(self) -> float:
        """Range of the farthest place, m."""
        return max(math.hypot(*place) for place in self.places_m)

    def is_held(self, screen: Screen) -> bool:
        """Whether all of it is on the screen."""
        return all(
            screen.shows(ahead_m=ahead, cross_m=cross, slack_m=self.slack_m)
            for ahead, cross in self.places_m
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldObject:
    """An object that a scale has to hold over a stretch, in track coordinates of the leg."""

    code: str
    """Reason code, one of ``SCALE_FORCED_BY_...``."""
    object_id: str
    along_m: float
    cross_m: float
    window: Interval
    """From where to where along the leg; a moment where both are the same."""

    def demand(self, within: Interval) -> Demand | None:
        """What it asks of the screen over a stretch of the leg; None where it is not wanted."""
        start, stop = max(self.window[0], within[0]), min(self.window[1], within[1])
        is_moment = self.window[0] == self.window[1]
        if stop < start or (stop == start and not is_moment):
            return None
        return Demand(
            code=self.code,
            object_id=self.object_id,
            places_m=tuple((self.along_m - place, self.cross_m) for place in (start, stop)),
            slack_m=_SLACK_M,
        )


def look_out_demand(
    *, own_speed_mps: float, least_other_speed_mps: float, decision_time_s: float
) -> Demand:
    """Where a craft on a steady bearing must be on the screen to leave the decision time.

    Closing speed times decision time on every relative bearing (job.md 3.4 d, T19); the other
    craft is as fast as own ship, but at least ``least_other_speed_mps``.
    """
    other = max(own_speed_mps, least_other_speed_mps)
    places = []
    for relative_deg in range(0, 360, _EVERY_DEG):
        distance = decision_time_s * closing_speed_mps(
            own_speed_mps=own_speed_mps,
            other_speed_mps=other,
            relative_bearing_deg=float(relative_deg),
        )
        angle = math.radians(relative_deg)
        places.append((distance * math.cos(angle), distance * math.sin(angle)))
    return Demand(code=reason_codes.SCALE_FORCED_BY_LOOK_OUT, object_id="", places_m=tuple(places))


def screens_of(
    scales_m: Sequence[float], *, off_centre_ratio: float, margin_ratio: float
) -> tuple[Screen, ...]:
    """Every scale centred, then off-centred, shortest first."""
    return tuple(
        Screen(scale_m=scale_m, off_centre_ratio=ratio, margin_ratio=margin_ratio)
        for scale_m in sorted(scales_m)
        for ratio in dict.fromkeys((0.0, off_centre_ratio))
    )


def shortest_holding(demands: Sequence[Demand], screens: Sequence[Screen]) -> Screen | None:
    """The first of some screens that holds all demands."""
    return next((s for s in screens if all(d.is_held(s) for d in demands)), None)


def without_each(
    demands: Sequence[Demand], screens: Sequence[Screen]
) -> tuple[tuple[Demand, Screen], ...]:
    """Every demand without which a shorter scale does, with that screen, shortest first.

    Empty where two demands need the same scale, each by itself (job.md C16).
    """
    whole = shortest_holding(demands, screens)
    found = []
    for number, demand in enumerate(demands):
        rest = (*demands[:number], *demands[number + 1 :])
        screen = shortest_holding(rest, screens)
        if screen is not None and (whole is None or screen.scale_m < whole.scale_m):
            found.append((demand, screen))
    return tuple(sorted(found, key=lambda pair: pair[1].scale_m))
