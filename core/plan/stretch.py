"""A window of a candidate, to choose primary and check lines from."""

from dataclasses import dataclass

from core.plan.intervals import Intervals


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """One window of one candidate."""

    key: str
    from_m: float
    to_m: float
    score: float
    is_weak: bool
    quality_ratio: float = 1.0
    """How good the object is, however long its window, as a share of a good one."""
    is_forced: bool = False
    """The officer chose it as primary."""
    is_starboard: bool = False
    echo: str = ""
    """What it shows as on the screen, empty for its key."""
    edge_along_m: float = 0.0
    edge_cross_m: float = 0.0
    """Its edge in track coordinates of the leg."""
    breaks: Intervals = ()
    """Short stretches within, in which it stands in a blind sector."""

    def is_same_echo(self, other: "Stretch") -> bool:
        """Whether both are one echo on the screen."""
        return (self.echo or self.key) == (other.echo or other.key)

    @property
    def lack_ratio(self) -> float:
        """What it lacks of a good object, 0 to 1."""
        return min(max(1.0 - self.quality_ratio, 0.0), 1.0)
