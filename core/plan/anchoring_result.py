"""What a card for anchoring says: approach, dead range to let go, way taken off, drag watch."""

from dataclasses import dataclass

from core.geodesy.position import Position
from core.passage.passage import Side


@dataclass(frozen=True, slots=True, kw_only=True)
class SpeedStep:
    """From so far before letting go the ship runs at a speed, until the next step."""

    from_to_go_m: float
    speed_mps: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Anchorage:
    """The officer's word that the ship anchors at a waypoint."""

    waypoint: str = ""
    """Name of the waypoint; empty is the last one."""
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
class HeadMark:
    """An object on the extended track: it bears as the course all the way in."""

    object_id: str
    name: str
    bearing_deg: float
    """When the anchor is let go."""
    off_m: float
    """How far off the extended track it lies, starboard positive."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ApproachLine:
    """An index line of the approach and what it reads at the two edges of the corridor."""

    object_id: str
    name: str
    is_check: bool
    side: Side
    cross_index_range_m: float
    at_port_edge_m: float
    """With the ship at the port edge of her corridor."""
    at_starboard_edge_m: float
    range_scale_m: float
    ends_to_go_m: float
    """So far before the end of the leg it ceases to be in use; 0 where it holds to the end."""


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
    bearing_from_deg: float
    bearing_to_deg: float
    """Between which, clockwise, its bearing stays."""
    scale_m: float
    worst_drag_m: float | None
    """How far beyond her swing the ship may drag, the worst way, before range or bearing of this
    object alone passes a limit; None where no cable is stated."""
    is_best: bool
    """Whether it warns soonest of all, the worst way taken."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AnchoringCard:
    """All of the card."""

    leg_index: int
    """Of the leg that leads to the spot, from 0."""
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
    approach: tuple[ApproachLine, ...]
    head_mark: HeadMark | None
    dead_range: DeadRange | None
    dead_range_reason: str
    """Why there is none, empty when there is one."""
    steps: tuple[ApproachStep, ...]
    swing_m: float | None
    """Farthest the reference point lies from the anchor, m; None where no cable is stated."""
    watch: tuple[WatchObject, ...]
    watch_drag_m: float | None
    """How far beyond her swing she may drag, the worst way, before one of the objects shows it;
    None where no cable is stated or nothing is watched."""
    watch_reason: str
    """Why there is none, empty when there are any."""
