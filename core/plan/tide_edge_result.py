"""The edge of an index object at low and at high water."""

from dataclasses import dataclass

from core.base.language import Worded
from core.passage.passage import Side
from core.plan.index_object import IndexObject


class Holds(Worded):
    """Whether a line laid on an object can still be used at another height of the tide."""

    YES = "yes"
    IN_PART = "in part"
    """Not over the whole stretch it is planned for."""
    COVERED = "covered or awash"
    TOO_NEAR = "nearer than an index object may be"
    OUT_OF_USE = "nowhere in its stretch"
    """Out of the screen, the error limit or the reach of an echo of its height."""
    UNKNOWN = "not known"
    """Nothing is known of its shore, or the shore is so low that the tide may move the edge any
    distance."""


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeAtTide:
    """One object at one height of the water."""

    water_m: float
    """Height of the water above mean sea level, m."""
    height_m: float
    """Of the object above that water, m; below 0 it is covered."""
    nearer_m: float | None
    """How much nearer to the track its edge lies than as planned, m, negative farther off; None
    where that is not known."""
    cross_index_range_m: float | None
    """To that edge, m; None as before."""
    horizon_m: float
    """Range at which it clears the horizon for the main antenna, m; geometry alone."""
    holds: Holds


@dataclass(frozen=True, slots=True, kw_only=True)
class TideEdge:
    """An index object of a leg at two heights of the tide."""

    object: IndexObject
    side: Side
    range_scale_m: float
    """The longest scale in use with it."""
    cross_index_range_m: float
    """As planned, for the water of the plan."""
    low: EdgeAtTide
    high: EdgeAtTide
    moves_m: float | None
    """How far the edge moves from low to high water, m; None where that is not known."""
    is_at_least: bool
    """Whether it moves at least as far: the shore is lower than the tide as far in as looked."""
    steady_from_m: float | None
    steady_to_m: float | None
    """Heights of the water above mean sea level, m, between which the edge stays within a tenth of
    a cable of the planned one; None where the whole tide keeps it so, or where it is not known."""

    @property
    def is_steady(self) -> bool:
        """Whether the edge stays within a tenth of a cable of the planned one at any tide."""
        is_known = self.moves_m is not None and not self.is_at_least
        return is_known and self.steady_from_m is None
