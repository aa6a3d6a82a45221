"""Whether the corridor of a leg can be watched by radar on the scale in use."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class CorridorWatch:
    """The corridor against the range error (job.md 2.9.8)."""

    corridor_m: float
    """The narrower side."""
    scale_m: float
    """The longest scale that a primary line is read on."""
    range_error_m: float
    """On that scale, 95 %, with a known index error in full."""
    better_scale_m: float | None = None
    """The longest shorter scale that could watch it with an object of the leg on the screen;
    None where none can, or where none is needed."""

    @property
    def least_corridor_m(self) -> float:
        """Twice the range error: a narrower side cannot be watched."""
        return 2.0 * self.range_error_m

    @property
    def is_watched(self) -> bool:
        """Whether the corridor is wide enough."""
        return self.corridor_m >= self.least_corridor_m - 1e-6
