"""What the screen shows round own ship, centred or off-centred, and how far out to look."""

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Screen:
    """A round screen; own ship stands ``off_centre_ratio`` of the scale astern of its middle."""

    scale_m: float
    off_centre_ratio: float = 0.0
    margin_ratio: float = 0.1
    """Kept free at the edge, share of the scale."""

    @property
    def radius_m(self) -> float:
        """Radius that counts, m."""
        return self.scale_m * (1.0 - self.margin_ratio)

    @property
    def middle_ahead_m(self) -> float:
        """How far ahead of own ship the middle of the screen lies, m."""
        return self.scale_m * self.off_centre_ratio

    def shows(self, *, ahead_m: float, cross_m: float, slack_m: float = 1e-3) -> bool:
        """Whether a place, ahead and to the side of own ship, lies on the screen.

        The slack keeps places exactly on the edge from falling off by rounding.
        """
        return math.hypot(ahead_m - self.middle_ahead_m, cross_m) <= self.radius_m + slack_m

    def range_m(self, relative_bearing_deg: float) -> float:
        """How far the screen reaches on a relative bearing, m."""
        angle = math.radians(relative_bearing_deg)
        middle = self.middle_ahead_m
        across = middle * math.sin(angle)
        return middle * math.cos(angle) + math.sqrt(self.radius_m**2 - across**2)

    def span_ahead_m(self, cross_m: float) -> tuple[float, float] | None:
        """From how far astern (negative) to how far ahead a line at a distance off is shown."""
        if abs(cross_m) > self.radius_m:
            return None
        half = math.sqrt(self.radius_m**2 - cross_m**2)
        return self.middle_ahead_m - half, self.middle_ahead_m + half


def closing_speed_mps(
    *, own_speed_mps: float, other_speed_mps: float, relative_bearing_deg: float
) -> float:
    """Greatest closing speed of a craft on a steady relative bearing, m/s; 0 if it cannot close.

    On a collision course both speeds square to the line of sight are equal; what is left of the
    other's speed points at own ship (plain geometry).
    """
    angle = math.radians(relative_bearing_deg)
    across = own_speed_mps * math.sin(angle)
    if abs(across) >= other_speed_mps:
        left = 0.0 if abs(across) > other_speed_mps * (1.0 + 1e-9) else own_speed_mps
        return max(left * math.cos(angle), 0.0)
    closing = own_speed_mps * math.cos(angle) + math.sqrt(other_speed_mps**2 - across**2)
    return max(closing, 0.0)


def look_out_distance_m(
    *, own_speed_mps: float, least_other_speed_mps: float, decision_time_s: float
) -> float:
    """Distance at which a craft met end on leaves the decision time, m.

    The other craft is taken as fast as own ship, but at least ``least_other_speed_mps``
    (job.md 3.4 d, 14.7: 12 kn against 15 kn and 6 min give 2.7 NM).
    """
    return (own_speed_mps + max(own_speed_mps, least_other_speed_mps)) * decision_time_s


def holds_look_out(
    screen: Screen,
    *,
    own_speed_mps: float,
    least_other_speed_mps: float,
    decision_time_s: float,
) -> bool:
    """Whether the look-out distance fits on the screen, tested over all relative bearings.

    Abeam and astern a craft closes more slowly, so an off-centred screen may do (job.md T19).
    """
    other = max(own_speed_mps, least_other_speed_mps)
    for relative_deg in range(0, 181, 5):
        closing = closing_speed_mps(
            own_speed_mps=own_speed_mps,
            other_speed_mps=other,
            relative_bearing_deg=float(relative_deg),
        )
        if closing * decision_time_s > screen.range_m(float(relative_deg)) + 1e-3:
            return False
    return True
