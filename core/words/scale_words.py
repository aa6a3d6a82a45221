"""What is said of a range scale besides what forces it: what it hides, the long scan, the land."""

import math

from core.base.language import tr
from core.base.units import nm_from_m
from core.passage.passage import Side
from core.plan import reason_codes
from core.plan.scale_result import ScaleReach, ScaleStretch, ScanRhythm
from core.words import quantities
from core.words.reasons import sentence


def hides_words(reach: ScaleReach, *, is_short: bool = False) -> str:
    """What a scale hides and how soon it may be here (job.md 3.14), both rounded down, so early.

    ``hides all beyond 6.0 NM = 11.2 min at 32.0 kn``; off-centred also abeam and astern.
    """
    where = f"{_down(reach.ahead_m)} NM"
    minutes = math.floor(reach.minutes * 10.0 + 1e-6) / 10.0
    if is_short:
        return tr("hides all beyond {range}, {minutes:.1f} min", range=where, minutes=minutes)
    if reach.ahead_m - reach.astern_m > 1.0:
        where = tr(
            "{reach} ahead ({abeam} abeam, {astern} astern)",
            reach=where,
            abeam=_down(reach.abeam_m),
            astern=_down(reach.astern_m),
        )
    speed = quantities.speed(reach.closing_mps)
    return tr(
        "hides all beyond {range} = {minutes:.1f} min at {speed}",
        range=where,
        minutes=minutes,
        speed=speed,
    )


def scan_words(scan: ScanRhythm) -> str:
    """The rhythm: ``12 NM for 1 min every 6 min``."""
    return tr(
        "{scale} for {for_minutes:g} min every {every_minutes:g} min",
        scale=quantities.scale(scan.scale_m),
        for_minutes=scan.for_minutes,
        every_minutes=scan.every_minutes,
    )


def scan_sum_words(scan: ScanRhythm) -> str:
    """The arithmetic of a rhythm: what a craft runs between scans against what is to spare."""
    run = math.ceil(nm_from_m(scan.run_m) * 10.0 - 1e-6) / 10.0
    speed = quantities.speed(scan.closing_mps)
    return tr(
        "{every_minutes:g} min x {speed} closing = {run_nm:.1f} NM, to spare {to_spare} NM",
        every_minutes=scan.every_minutes,
        speed=speed,
        run_nm=run,
        to_spare=_down(scan.spare_m),
    )


def land_words(stretch: ScaleStretch) -> str:
    """Nearest land of both sides, rounded down; what is beyond reach is said as none."""
    parts = []
    for side, least_m in (
        (Side.PORT.shown, stretch.land_port_m),
        (Side.STARBOARD.shown, stretch.land_starboard_m),
    ):
        parts.append(
            tr("{side} none in reach", side=side)
            if least_m is None
            else f"{side} {_down(least_m)} NM"
        )
    if stretch.land_port_m is None and stretch.land_starboard_m is None:
        return tr("no land in reach on either side")
    return tr("nearest land {both_sides}", both_sides=", ".join(parts))


def sheet_words(stretch: ScaleStretch) -> tuple[str, ...]:
    """What stands on a leg's sheet, in few words: what forces it, what it hides or the scan."""
    values = dict(stretch.reason.values)
    forced = sentence(stretch.reason)
    if stretch.reason.code == reason_codes.SCALE_FORCED_BY_LOOK_OUT and "distance_m" in values:
        forced = tr(
            "look-out distance {distance}",
            distance=quantities.distance(float(values["distance_m"])),
        )
    said = [forced]
    if stretch.scan is not None:
        is_usual = stretch.reason.code == reason_codes.SCALE_SECOND_RADAR
        said = [] if is_usual else said
        said.append(tr("scan {scan}", scan=scan_words(stretch.scan)))
    elif stretch.reach is not None:
        said.append(hides_words(stretch.reach, is_short=True))
    return (*said, *(sentence(reason) for reason in stretch.off_screen))


def why_words(stretch: ScaleStretch) -> str:
    """What forces it, and whether one item does."""
    said = [sentence(stretch.reason)]
    if stretch.bottleneck is not None:
        said.append(sentence(stretch.bottleneck))
    return "; ".join(said)


def shows_words(stretch: ScaleStretch) -> tuple[str, ...]:
    """What it hides, the nearest land, what is off the screen, the long scan."""
    said = []
    if stretch.reach is not None:
        said += [hides_words(stretch.reach), land_words(stretch)]
    said += [sentence(reason) for reason in stretch.off_screen]
    if stretch.scan is not None:
        said.append(
            tr(
                "scan {scan}: {scan_sum}",
                scan=scan_words(stretch.scan),
                scan_sum=scan_sum_words(stretch.scan),
            )
        )
    elif stretch.scan_reason is not None:
        said.append(sentence(stretch.scan_reason))
    return tuple(said)


def full_words(stretch: ScaleStretch) -> tuple[str, ...]:
    """All that is known of a stretch, sentence by sentence."""
    return (why_words(stretch), *shows_words(stretch))


def _down(distance_m: float) -> str:
    return f"{math.floor(nm_from_m(distance_m) * 10.0 + 1e-6) / 10.0:.1f}"
