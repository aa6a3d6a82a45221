"""A range scale over a stretch of a leg: what forces it, what it hides, how to look beyond it."""

from dataclasses import dataclass

from core.plan.reason import Reason


@dataclass(frozen=True, slots=True, kw_only=True)
class ScaleReach:
    """How far a screen shows, up to its very edge, and how soon what lies beyond may be here."""

    ahead_m: float
    abeam_m: float
    astern_m: float
    closing_mps: float
    """Of a craft met end on."""

    @property
    def minutes(self) -> float:
        """From the edge right ahead to own ship at that speed."""
        return self.ahead_m / self.closing_mps / 60.0


@dataclass(frozen=True, slots=True, kw_only=True)
class ScanRhythm:
    """A longer scale, set for a minute every so many minutes."""

    scale_m: float
    every_minutes: float
    for_minutes: float
    spare_m: float
    """From the edge of the scale in use right ahead to the edge of the longer one."""
    closing_mps: float
    """Of a craft met end on, at the speed of traffic the plan is made with."""

    @property
    def run_m(self) -> float:
        """How far such a craft comes from one scan to the next; never more than is to spare."""
        return self.every_minutes * 60.0 * self.closing_mps


@dataclass(frozen=True, slots=True, kw_only=True)
class ScaleStretch:
    """A range scale over a stretch of the leg."""

    from_along_m: float
    to_along_m: float
    radar: str
    scale_m: float
    off_centre_ratio: float
    off_centre_direction: str | None
    pulse: str
    reason: Reason
    """What forces it."""
    bottleneck: Reason | None = None
    """The one item without which another scale would do, or that more than one need it."""
    reach: ScaleReach | None = None
    scan: ScanRhythm | None = None
    """On the radar that scans."""
    scan_reason: Reason | None = None
    """Why there is no scan, None where there is one."""
    land_port_m: float | None = None
    """Least distance of land to port over the stretch; None where none is in reach."""
    land_starboard_m: float | None = None
    off_screen: tuple[Reason, ...] = ()
    """What it should hold and does not, with the range."""
