"""How to fix by radar alone along a leg, and how well her distance off the track is known."""

from dataclasses import dataclass
from enum import Enum

from core.plan.reason import Reason


class FixBy(Enum):
    """What a fix is made of."""

    RANGES = "ranges"
    RANGE_AND_BEARING = "range and bearing"
    NONE = "none"


@dataclass(frozen=True, slots=True, kw_only=True)
class FixObject:
    """An object as it is measured at one place of a leg."""

    object_id: str
    name: str
    range_m: float
    """To its nearest part that is expected to paint."""
    bearing_deg: float
    is_point_like: bool
    """Small enough that its position is what is measured."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fix:
    """A fix at one place of a leg, or why there is none."""

    along_m: float
    by: FixBy
    scale_m: float
    is_scale_in_use: bool
    """False where the main radar is set to another scale for the fix."""
    objects: tuple[FixObject, ...]
    cut_deg: float
    """Of the pair of position lines that cut best, 0 to 180; 0 where there is no fix."""
    semi_major_m: float
    """Of the 95 % error ellipse; 0 where there is no fix."""
    semi_minor_m: float
    major_axis_deg: float
    """True direction of its longer axis, 0 to 180."""
    across_m: float
    """How far the ellipse reaches to either side of the track."""
    reason: Reason | None
    """Why there is no fix, or none by ranges; None for a fix by ranges."""
    cross_error_m: float | None
    """Of the cross-track distance from all usable objects indexed together, 95 %; None without."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CrossStretch:
    """The stretch of a leg where the distance off the track is known worst."""

    from_along_m: float
    to_along_m: float
    error_m: float | None
    """Greatest, 95 %; None where nothing can be indexed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LegFixes:
    """How to fix by radar alone on one leg."""

    interval_s: float
    fixes: tuple[Fix, ...]
    """At the start, every interval, in the middle and before the wheel-over, in order."""
    worst_m: float | None
    """Greatest semi-major axis; None where no fix is possible anywhere."""
    corridor_m: float
    """Narrower side, that fixes are compared with."""
    worst_cross: CrossStretch | None
    """Where the distance off the track is known worst."""

    @property
    def has_two_ranges(self) -> bool:
        """Whether somewhere on the leg two ranges or more give a fix."""
        return any(fix.by is FixBy.RANGES for fix in self.fixes)

    @property
    def is_wide(self) -> bool:
        """Whether somewhere the ellipse is larger than the corridor is wide to a side."""
        return self.worst_m is not None and self.worst_m > self.corridor_m
