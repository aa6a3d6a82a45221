"""What own ship's blind sectors hide of crossing traffic."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class SteadyApproach:
    """Targets of one speed that stay in a sector on a steady bearing until they are met."""

    speed_mps: float
    courses_deg: tuple[tuple[float, float], ...]
    """True courses, clockwise from and to; empty where none of that speed can."""
    closing_mps: tuple[float, float] | None
    """Least and greatest closing speed of these, m/s."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HiddenSector:
    """An arc of relative bearings that at least one radar does not see."""

    from_relative_deg: float
    to_relative_deg: float
    """Clockwise from the bow."""
    radars: tuple[str, ...]
    """Radars that do not see there."""
    seen_by: tuple[str, ...]
    """Radars that do; empty where neither does."""
    is_shadow: bool
    """True where large echoes still show on one at least."""
    causes: tuple[str, ...]
    """What stands in the way, in the words of the ship file."""
    from_true_deg: float
    to_true_deg: float
    """Where it lies, over all headings that the leeway leaves possible."""
    approaches: tuple[SteadyApproach, ...]
    weave_deg: float | None
    """Alteration of heading that opens all of it; None where none up to 60 deg does, and where
    another radar sees there."""
    weave_to: str
    """``either side``, ``starboard`` or ``port``; empty without a weave."""
    weave_every_s: float

    @property
    def is_seen_by_none(self) -> bool:
        """Whether this is a true gap: no radar sees there."""
        return not self.seen_by
