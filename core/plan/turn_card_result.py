"""What there is to know of a turn besides its wheel-over: ring, half turn, sight along the arc."""

from dataclasses import dataclass

from core.geodesy.position import Position
from core.passage.passage import Side
from core.plan.index_object import IndexObject

ARC_SHARES = (0.0, 0.25, 0.5, 0.75, 1.0)
"""Shares of the alteration done at the places that are looked at."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ArcPlace:
    """A place on the arc."""

    share_ratio: float
    """Of the alteration done, 0 to 1."""
    position: Position
    course_deg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class RingReading:
    """An object as it is read from a place on the arc."""

    range_m: float
    relative_deg: float
    """From the course there, clockwise, [0, 360)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """A concentric index: the object rides a ring about the centre of the turn (job.md 2.8)."""

    object: IndexObject
    radius_m: float
    """Of the ring: from the centre of the turn to the object."""
    readings: tuple[RingReading, ...]
    """At each of ``ARC_SHARES``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HalfTurn:
    """The index line half-way through a large alteration."""

    course_deg: float
    object: IndexObject | None
    """None where none suits."""
    side: Side | None
    cross_index_range_m: float | None
    range_m: float | None
    bearing_deg: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ArcSeen:
    """Whether an object is expected to show at each of ``ARC_SHARES``."""

    object_id: str
    use: str
    """``wheel-over line``, ``check``, ``ring``, ``half turn`` or ``new leg``."""
    shows: tuple[bool, ...]
    """In sight, its echo strong enough where the radar was worked out, clear of own sectors."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnCard:
    """All about the turn at the end of a leg."""

    places: tuple[ArcPlace, ...]
    side: Side
    """To which she turns; the centre of the arc lies abeam on this side."""
    radius_m: float
    advance_m: float
    transfer_m: float
    arc_m: float
    arc_minutes: float
    """On the arc, at the speed through the water."""
    water_speed_mps: float
    rate_deg_per_min: float
    slow_speed_mps: float
    """A speed she may have lost some of her way to."""
    slow_rate_deg_per_min: float
    """The rate that holds the radius at that speed."""
    drift_m: float | None
    """How far the stream sets her on the arc; None where none is given."""
    drift_deg: float | None
    """Towards which direction."""
    ring: Ring | None
    ring_reason: str
    """Why there is none; empty where there is one."""
    half: HalfTurn | None
    """Only for large alterations."""
    seen: tuple[ArcSeen, ...]
    nearest_land_m: float | None
    """From the arc to the nearest coast; None where none is near."""
    is_across_land: bool
