"""How often to look on a longer scale, so that traffic is met on it first (job.md 3.8, C18)."""

import math
from collections.abc import Sequence

from core.plan.scale_result import ScaleReach, ScanRhythm
from core.plan.screen import Screen


def reach_of(screen: Screen, *, closing_mps: float) -> ScaleReach:
    """What a scale shows up to its very edge (job.md 3.14, T19)."""
    whole = Screen(scale_m=screen.scale_m, off_centre_ratio=screen.off_centre_ratio, margin_ratio=0)
    return ScaleReach(
        ahead_m=whole.range_m(0.0),
        abeam_m=whole.range_m(90.0),
        astern_m=whole.range_m(180.0),
        closing_mps=closing_mps,
    )


def scan_rhythm(
    screen: Screen,
    longer_m: Sequence[float],
    *,
    closing_mps: float,
    most_minutes: float,
    least_minutes: float,
    for_minutes: float,
) -> ScanRhythm | None:
    """The shortest longer scale on which a scan may be rare enough, and how rare it may be.

    Parameters
    ----------
    screen : Screen
        In use between the scans.
    longer_m : sequence of float
        Longer scales to scan on, m.
    closing_mps : float
        Closing speed of a craft met end on.
    most_minutes : float
        Never rarer than this.
    least_minutes : float
        A scan more often than this is no rhythm to keep beside other work.
    for_minutes : float
        How long a scan lasts.

    Returns
    -------
    ScanRhythm or None
        None where no longer scale lets a scan be that rare.

    Notes
    -----
    A craft that was still beyond the long scale at one scan must not have passed the edge of the
    scale in use before the next: gap x closing speed <= spare distance. The gap is counted from
    scan to scan, in whole minutes, right ahead, where a craft closes fastest.
    """
    found: ScanRhythm | None = None
    for scale_m in sorted(longer_m):
        edge = Screen(scale_m=scale_m, margin_ratio=screen.margin_ratio)
        spare_m = edge.range_m(0.0) - screen.range_m(0.0)
        if spare_m <= 0.0:
            continue
        minutes = float(math.floor(min(spare_m / closing_mps / 60.0, most_minutes) + 1e-9))
        if minutes < least_minutes or (found is not None and minutes <= found.every_minutes):
            continue
        found = ScanRhythm(
            scale_m=scale_m,
            every_minutes=minutes,
            for_minutes=for_minutes,
            spare_m=spare_m,
            closing_mps=closing_mps,
        )
        if minutes >= math.floor(most_minutes + 1e-9):
            break
    return found
