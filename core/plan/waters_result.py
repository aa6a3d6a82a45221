"""What lies unseen beside one leg."""

from dataclasses import dataclass

from core.passage.passage import Side
from core.plan.emergence_result import Emergence
from core.plan.intervals import Interval, Intervals
from core.plan.sector_result import HiddenSector


@dataclass(frozen=True, slots=True, kw_only=True)
class HiddenMark:
    """A mark or a named place about which craft are hidden over a part of a leg."""

    name: str
    kind: str
    is_place: bool
    """True for a place such as a harbour mouth, which is no thing to index on."""
    side: Side
    abeam_m: float
    """Where along the leg it is abeam; may lie off the leg."""
    off_track_m: float
    within_m: float
    """Only the stretch within this range of it is told."""
    near: Interval
    """That stretch, m along."""
    hidden: Intervals
    """Where a craft there is hidden from the track, m along."""
    hidden_somewhere: Intervals
    """Where she is hidden from the track or from an edge of the corridor."""
    unknown: Intervals
    """Where heights that are not known may hide her, from anywhere in the corridor."""
    opens_m: float | None
    """Where she comes in sight, for good, from anywhere in the corridor before the place is
    abeam, m along; None where nothing opens before that."""
    hidden_s: float
    """Time hidden from somewhere in the corridor, s."""
    track_hidden_s: float
    """Time hidden from the track, s."""
    open_before_abeam_s: float | None
    """From opening until the place is abeam, s."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LegWaters:
    """Craft that may come out of hidden water, places in it, sectors of own structure."""

    emergences: tuple[Emergence, ...]
    """The shortest warning first."""
    hidden_marks: tuple[HiddenMark, ...]
    """In order of abeam."""
    sectors: tuple[HiddenSector, ...] | None
    """Arcs that own structure hides, what no radar sees first; None where none are stated."""
