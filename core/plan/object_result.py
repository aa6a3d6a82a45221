"""What an index object is like on one leg, and how far the data bears it out."""

from dataclasses import dataclass

from core.base.language import Worded
from core.passage.passage import Side
from core.plan.index_object import IndexObject
from core.plan.intervals import Intervals
from core.plan.reason import Reason


class Grade(Worded):
    """How far the data bears an object out."""

    GOOD = "good"
    FAIR = "fair"
    POOR = "poor"


@dataclass(frozen=True, slots=True, kw_only=True)
class Confidence:
    """How sure the data is of one object, where it is used."""

    grade: Grade
    reasons: tuple[Reason, ...]
    """What lowers it; empty for good."""
    height_could_hide: bool | None
    """Whether heights lower by their error would hide it within its windows; None for a mark,
    whose height is the officer's."""
    least_margin_db: float | None
    """Least margin of its echo over the threshold, seen from the track within its windows, dB;
    None for marks and where no radar was worked out."""
    cell_m: float
    """Longer side of an elevation cell there, m."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ObjectLook:
    """An object that can be indexed on a leg."""

    object: IndexObject
    place: int
    """From 1, best first."""
    is_weak: bool
    """Stands behind all that are not: it slides, moves with the tide, is masked or passes near."""
    reason: Reason
    side: Side
    cross_index_range_m: float
    windows: Intervals
    """Where along the leg it can be used, m."""
    extent_m: float
    """How broad it is."""
    beams_ratio: float
    """The same in widths of the beam at its cross-index range."""
    slope_ratio: float | None
    """Of its shore at the edge, rise over run; None for marks and where cells cannot tell."""
    is_steep_to: bool
    tide_moves_m: float | None
    """How far the tide moves its edge; None as for the slope, 0 for a mark."""
    is_tide_at_least: bool
    """Whether it moves at least as far: the shore is lower than the tide as far in as looked."""
    isolation_m: float | None
    """To the next other coast or mark; None for headlands, which stand on a coast."""
    inside_m: float
    """How far inside the charted coast its edge paints, 0 where cells cannot tell."""
    spread_m: float
    """How much farther off the track it paints at the worst within its windows."""
    confidence: Confidence
    is_likely_conspicuous: bool
    """By calculation alone (the chart has its own word for it): not weak, told apart from what is
    beside it, strong from all of its windows, and nothing about its data in doubt."""
