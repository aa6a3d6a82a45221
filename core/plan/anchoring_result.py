"""What a card for anchoring says: dead range to let go, way taken off, drag watch."""

from dataclasses import dataclass

from core.geodesy.position import Position


@dataclass(frozen=True, slots=True, kw_only=True)
class SpeedStep:
    """From so far before letting go the ship runs at a speed, until the next step."""

    from_to_go_m: float
    speed_mps: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Anchorage:
    """The officer's word that the passage ends at anchor at its last waypoint."""

    cable_m: float | None = None
    """Length of cable to be veered, m."""
    hawse_m: float | None = None
    """From the radar's reference point forward to the hawse, m; None takes the bow."""
    speeds: tuple[SpeedStep, ...] = ()
    """The way is taken off like this, farthest first; empty takes the usual one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DeadRange:
    """An object nearly ahead or astern whose range counts the distance down."""

    object_id: str
    name: str
    is_ahead: bool
    off_deg: float
    """How far off the line of approach it lies at letting go."""
    range_m: float
    """When the anchor is let go, from the radar's reference point."""
    bearing_deg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ApproachStep:
    """One range of the countdown."""

    to_go_m: float
    range_m: float | None
    """Of the dead range object there; None without one."""
    speed_mps: float
    to_go_s: float


@dataclass(frozen=True, slots=True, kw_only=True)
class WatchObject:
    """An object whose range and bearing tell whether the anchor drags."""

    object_id: str
    name: str
    range_m: float
    """From the anchor."""
    bearing_deg: float
    least_m: float
    most_m: float
    """Between which its range stays while the ship swings."""
    scale_m: float
    is_middle: bool
    """Ranges are to the middle of an islet, whose edge reads less."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AnchoringCard:
    """All of the card."""

    spot: Position
    let_go: Position
    """Where the radar's reference point is when the hawse is over the spot."""
    course_deg: float
    hawse_m: float
    is_hawse_stated: bool
    """False where neither the officer nor the ship file says where the reference point is."""
    speeds: tuple[SpeedStep, ...]
    are_speeds_usual: bool
    """True for the profile of common practice."""
    dead_range: DeadRange | None
    dead_range_reason: str
    """Why there is none, empty when there is one."""
    steps: tuple[ApproachStep, ...]
    swing_m: float | None
    """Farthest the reference point lies from the anchor, m; None where no cable is stated."""
    watch: tuple[WatchObject, ...]
    watch_reason: str
    """Why there is none, empty when there are any."""
