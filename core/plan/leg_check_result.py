"""Checks of the radar itself along a leg: dead ranges, index error, heading marker, diagnosis."""

from dataclasses import dataclass
from enum import Enum

from core.plan.reason import Reason


@dataclass(frozen=True, slots=True, kw_only=True)
class CountdownRange:
    """Range of a dead-range object some minutes before the end."""

    before_minutes: float
    """Before the wheel-over or the last waypoint; 0 there."""
    along_m: float
    range_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class DeadRange:
    """An object so nearly ahead or astern that its range tells the distance run (job.md 2.10.6)."""

    object_id: str
    name: str
    is_ahead: bool
    from_along_m: float
    to_along_m: float
    from_range_m: float
    to_range_m: float
    greatest_angle_deg: float
    """Between its bearing and the course line, the worst over the stretch."""
    least_rate_mps: float
    greatest_rate_mps: float
    """Speed times cosine of that angle, over the stretch."""
    countdown: tuple[CountdownRange, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class IndexSpot:
    """Where the track crosses the line that joins two objects: the sum of their ranges is known.

    The range index error is half of what the sum reads too long (job.md 6.3.3, T21).
    """

    port_id: str
    starboard_id: str
    along_m: float
    port_range_m: float
    starboard_range_m: float
    port_bearing_deg: float
    starboard_bearing_deg: float
    """The opposite of the other: on the line both bear so."""
    apart_m: float
    """The one from the other."""
    known_error_m: float
    """Stated in the ship file, + reads long; the sum is expected to read twice that more."""
    uncertainty_m: float
    """Of the error found, 95 %, from how well the two places and readings are known."""
    early_late_m: float
    """Read so far before or after the line it is wrong by a tenth of a cable at most."""
    scale_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadingSpot:
    """A small object near the edge of the scale, to compare by eye and by radar (6.3.1)."""

    object_id: str
    name: str
    along_m: float
    range_m: float
    bearing_deg: float
    relative_deg: float
    """Clockwise from the bow on the heading to steer, 0 to 360."""
    scale_m: float
    per_degree_m: float
    """How far an echo there is turned aside by one degree."""


class Cause(Enum):
    """What makes index readings differ from the plan."""

    RANGE_INDEX = "range index error"
    OFF_TRACK = "ship off her track"
    HEADING_LINE = "heading line or gyro error"


@dataclass(frozen=True, slots=True, kw_only=True)
class CrossCheck:
    """Two index lines in use together, and which causes they cannot tell apart."""

    first_id: str
    second_id: str
    is_opposite: bool
    """One to port and one to starboard."""
    from_along_m: float
    to_along_m: float
    alike: tuple[Cause, ...]
    """Causes that look alike on both; empty where each shows by itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LegChecks:
    """All of it for one leg; where there is none, why."""

    dead_ranges: tuple[DeadRange, ...]
    dead_ranges_reason: Reason | None
    index_spot: IndexSpot | None
    index_spot_reason: Reason | None
    heading_spot: HeadingSpot | None
    heading_spot_reason: Reason | None
    cross_checks: tuple[CrossCheck, ...]
