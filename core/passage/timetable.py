"""When the ship is where: minutes from the start, and UTC where a start time is known."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from core.passage.motion import LegMotion, still_water


@dataclass(frozen=True, slots=True, kw_only=True)
class Timetable:
    """Start of each leg and its speed over the ground.

    ``leg_start_s`` counts seconds from leaving the first waypoint; ``start_utc`` is None when
    nobody gave a time, and then every UTC is None: a plan never assumes «now».
    """

    start_utc: datetime | None
    leg_start_s: tuple[float, ...]
    leg_speed_mps: tuple[float, ...]
    """Over the ground."""
    leg_motion: tuple[LegMotion, ...] = ()
    """Heading and speeds of each leg; empty where neither stream nor leeway is given at all."""

    def motion_of(self, leg_index: int) -> LegMotion:
        """How the ship moves on a leg."""
        if not self.leg_motion:
            return still_water(self.leg_speed_mps[leg_index])
        return self.leg_motion[leg_index]

    def seconds_at(self, leg_index: int, along_m: float) -> float:
        """Seconds from the start when the ship is a distance along a leg."""
        return self.leg_start_s[leg_index] + along_m / self.leg_speed_mps[leg_index]

    def utc_at(self, leg_index: int, along_m: float) -> datetime | None:
        """UTC of the same, or None without a start time."""
        if self.start_utc is None:
            return None
        return self.start_utc + timedelta(seconds=self.seconds_at(leg_index, along_m))
