"""The planned passage: waypoints and the legs between them."""

from dataclasses import dataclass
from datetime import datetime
from functools import lru_cache

from core.base.language import Worded
from core.geodesy.leg_line import LegKind, LegLine
from core.geodesy.position import Position


class Side(Worded):
    """A side of the track, seen along the course."""

    PORT = "port"
    STARBOARD = "starboard"


@dataclass(frozen=True, slots=True, kw_only=True)
class Waypoint:
    """A named place where the course changes."""

    name: str
    position: Position
    turn_radius_m: float | None = None
    """Planned radius of the turn at this waypoint, m."""
    eta_utc: datetime | None = None
    etd_utc: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """What the plan says about sailing from one waypoint to the next."""

    kind: LegKind = LegKind.RHUMB
    corridor_port_m: float | None = None
    """Allowed cross-track distance to port of the line, m, > 0; None if the file is silent."""
    corridor_starboard_m: float | None = None
    speed_mps: float | None = None
    """Planned speed, m/s; None if the file is silent. Over the ground, or through the water where
    a stream is given."""
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Passage:
    """Waypoints in order and, between them, one leg fewer."""

    name: str
    waypoints: tuple[Waypoint, ...]
    legs: tuple[Leg, ...]

    def __post_init__(self) -> None:
        """Refuse a passage that is none."""
        if len(self.waypoints) < 2:
            raise ValueError(f"a passage needs two waypoints, got {len(self.waypoints)}")
        if len(self.legs) != len(self.waypoints) - 1:
            raise ValueError(
                f"{len(self.waypoints)} waypoints do not go with {len(self.legs)} legs"
            )

    def line(self, leg_index: int) -> LegLine:
        """The line of one leg, counted from 0."""
        return _line(
            self.legs[leg_index].kind,
            self.waypoints[leg_index].position,
            self.waypoints[leg_index + 1].position,
        )


@lru_cache(maxsize=2048)
def _line(kind: LegKind, start: Position, end: Position) -> LegLine:
    """Worked out once: views and stages ask for the same lines again and again."""
    return LegLine(kind=kind, start=start, end=end)
