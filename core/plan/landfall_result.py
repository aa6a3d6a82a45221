"""A landfall: where land first paints within use, and three ranges that fix the position there."""

from dataclasses import dataclass

from core.coverage.first_paint_result import MustNotPaint
from core.coverage.look_alike_result import LookAlike


@dataclass(frozen=True, slots=True, kw_only=True)
class LandfallLimit:
    """One limit of a first paint, counted from where the stretch without land begins."""

    leg_index: int
    along_m: float
    range_m: float
    bearing_deg: float
    holds_already: bool
    """Whether it holds before the stretch begins; then the place is where it begins."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LandfallPaint:
    """The limits of one object over the legs of a landfall; None where one does not come."""

    object_id: str
    name: str
    height_above_water_m: float
    earliest_possible: LandfallLimit | None
    normally_from: LandfallLimit | None
    normally_by: LandfallLimit
    overdue: LandfallLimit | None


@dataclass(frozen=True, slots=True, kw_only=True)
class RangeArc:
    """A range to lay off from an object at the place of the fix."""

    object_id: str
    name: str
    range_m: float
    bearing_deg: float
    """Of the object from the ship, true."""
    is_summit: bool
    """A summit's echo begins at the face that shows, not at its top."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Landfall:
    """One landfall of a passage."""

    bare_leg_index: int
    bare_along_m: float
    """Where the stretch without land begins."""
    first_leg_index: int
    first_along_m: float
    """From where land first paints within use."""
    leg_index: int
    along_m: float
    """The place for the fix; the same if no two ranges cut."""
    arcs: tuple[RangeArc, ...]
    """Three, two or none, by bearing."""
    best_cut_deg: float
    """Greatest angle at which two of the arcs cross, up to 90; 0 without arcs."""
    paints: tuple[LandfallPaint, ...]
    """Of all objects expected to paint until the landfall is made, as they come."""
    must_not: tuple[tuple[int, MustNotPaint], ...]
    """What must not paint at the place of the fix, with the index of its leg."""
    look_alikes: tuple[tuple[int, LookAlike], ...]
    """Of the legs up to the fix, each with the index of its leg, the likest of a leg first."""
