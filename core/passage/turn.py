"""The turn at a waypoint: an arc of constant radius tangent to both legs, after a response."""

import math
from dataclasses import dataclass

from core.base.angles import difference_deg, wrap_360_deg

GREATEST_ALTERATION_DEG = 170.0
"""Beyond this the tangents of an arc meet too far out to mean anything."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """An arc of constant radius between two straight tracks.

    All formulas: handbook 9.4 and job.md 2.7.1 (plain geometry of the tangent arc).
    """

    old_course_deg: float
    new_course_deg: float
    radius_m: float
    response_distance_m: float
    """Distance run from helm order until the turn is under way, m."""

    def __post_init__(self) -> None:
        """Refuse a turn without an arc."""
        if not (math.isfinite(self.radius_m) and self.radius_m > 0.0):
            raise ValueError(f"radius_m {self.radius_m!r} is not above 0")
        if not (math.isfinite(self.response_distance_m) and self.response_distance_m >= 0.0):
            raise ValueError(f"response_distance_m {self.response_distance_m!r} is below 0")

    @property
    def alteration_deg(self) -> float:
        """Change of course in (-180, 180], starboard positive."""
        return difference_deg(self.new_course_deg, self.old_course_deg)

    @property
    def has_tangents(self) -> bool:
        """Whether the tracks bend little enough for an arc between them."""
        return abs(self.alteration_deg) <= GREATEST_ALTERATION_DEG

    @property
    def tangent_m(self) -> float:
        """From the start of the arc to the waypoint, R tan(alteration / 2), m.

        Beyond ``GREATEST_ALTERATION_DEG`` the value there is kept.
        """
        bounded = min(abs(self.alteration_deg), GREATEST_ALTERATION_DEG)
        return self.radius_m * math.tan(math.radians(bounded) / 2.0)

    @property
    def wheel_over_before_waypoint_m(self) -> float:
        """From the helm order to the waypoint, tangent and response, m."""
        return self.tangent_m + self.response_distance_m

    @property
    def arc_m(self) -> float:
        """Length of the arc, m."""
        return self.radius_m * math.radians(abs(self.alteration_deg))

    @property
    def advance_m(self) -> float:
        """Distance made good on the old course from the helm order to the end of the arc, m."""
        sine = math.sin(math.radians(abs(self.alteration_deg)))
        return self.response_distance_m + self.radius_m * sine

    @property
    def transfer_m(self) -> float:
        """Distance to the side from the helm order to the end of the arc, m."""
        return self.radius_m * (1.0 - math.cos(math.radians(abs(self.alteration_deg))))

    @property
    def corner_cut_m(self) -> float:
        """Greatest distance inside the corner at which the arc passes the waypoint, m."""
        bounded = min(abs(self.alteration_deg), GREATEST_ALTERATION_DEG)
        return self.radius_m * (1.0 / math.cos(math.radians(bounded) / 2.0) - 1.0)

    @property
    def wheel_over_offset_m(self) -> float:
        """Perpendicular distance of the wheel-over position from the new track, m, >= 0."""
        sine = math.sin(math.radians(abs(self.alteration_deg)))
        return self.wheel_over_before_waypoint_m * sine

    def arc_place_m(self, share_ratio: float) -> tuple[float, float]:
        """Where the ship is on the arc, m ahead and m to starboard of its start.

        Parameters
        ----------
        share_ratio : float
            Share of the alteration done, 0 to 1.
        """
        angle = math.radians(abs(self.alteration_deg)) * share_ratio
        aside_m = self.radius_m * (1.0 - math.cos(angle))
        return self.radius_m * math.sin(angle), math.copysign(aside_m, self.alteration_deg)

    def arc_course_deg(self, share_ratio: float) -> float:
        """Course on the arc."""
        return wrap_360_deg(self.old_course_deg + self.alteration_deg * share_ratio)

    def drift_m(self, *, drift_mps: float, water_speed_mps: float) -> float:
        """How far a stream sets her during the arc, m: its speed times the time on the arc."""
        return drift_mps * self.arc_m / water_speed_mps

    def moved_by_track_m(self, off_track_m: float) -> float:
        """How far along the old track a parallel line is met too early or late, m.

        For a ship off her track by a distance: off / tan alteration (job.md 2.7.5).
        """
        return off_track_m / abs(math.tan(math.radians(self.alteration_deg)))

    def moved_by_reading_m(self, error_m: float) -> float:
        """The same for an error of reading the line's range: error / sin alteration, m."""
        return error_m / abs(math.sin(math.radians(self.alteration_deg)))

    def rate_of_turn_deg_per_min(self, speed_mps: float) -> float:
        """Exact rate of turn, speed / radius."""
        return math.degrees(speed_mps / self.radius_m) * 60.0

    def arc_minutes(self, speed_mps: float) -> float:
        """Time on the arc, min."""
        return self.arc_m / speed_mps / 60.0

    def signed_wheel_over_cross_m(self, new_leg_cross_m: float) -> float:
        """Signed cross-index range about the line through the wheel-over position.

        Parameters
        ----------
        new_leg_cross_m : float
            Distance of an object from the new track, m, starboard positive.

        Returns
        -------
        float
            Distance from the line through the wheel-over position parallel to the new course,
            m, starboard positive. The ship comes from the outside of the turn, so a mark on the
            inside reads less and may lie on the other side of the line (job.md 2.7.3).
        """
        return new_leg_cross_m - math.copysign(self.wheel_over_offset_m, self.alteration_deg)
