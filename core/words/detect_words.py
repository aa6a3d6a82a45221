"""Ranges of detection in words: one target, or the standard's whole table.

A range of detection is rounded down and a range of being lost rounded up, so that neither says
more than was found. Nothing here says that a target will be seen.
"""

import math
from collections.abc import Sequence

from core.base.language import tr
from core.base.units import nm_from_m
from core.radar.echo_budget import Conditions, EchoBudget
from core.radar.first_detection import Detection, DetectionRanges
from core.radar.radar_set import Preset
from core.radar.radar_target import RadarTarget, Spread
from core.radar.standard_table import StandardRow, TableLine
from core.ship.ship import Band
from core.words.kept_words import shown
from core.words.quantities import DASH, miles, refraction, scale

PRESET_TITLES = {
    Preset.MINIMUM: tr("minimum standard"),
    Preset.TYPICAL: tr("typical, well kept"),
}
"""Presets as they are printed."""

CAUTION = tr(
    "Calculated for open sea, for planning only. Ducting is not "
    "predicted; a set in poor order detects less."
)
_MOST_BANDS = 6
_SLACK = 1e-9


def detected_nm(range_m: float | None) -> str:
    """A range of detection, bare NM, rounded down to 0.01; a dash where there is none."""
    if range_m is None:
        return DASH
    return f"{math.floor(nm_from_m(range_m) * 100.0 + _SLACK) / 100.0:.2f}"


def lost_nm(range_m: float | None) -> str:
    """A range inside which a target is lost, bare NM, rounded up to 0.01; a dash for none."""
    if range_m is None:
        return DASH
    return f"{math.ceil(nm_from_m(range_m) * 100.0 - _SLACK) / 100.0:.2f}"


def why_not_lost(conditions: Conditions) -> str:
    """Why there is no range inside which sea clutter hides a target."""
    if conditions.sea_state <= 0.0:
        return tr("in sea state 0 no sea clutter is counted")
    return tr("sea clutter hides it at no range")


def why_nowhere(ranges: DetectionRanges, conditions: Conditions) -> str:
    """Why a target is detected nowhere."""
    if ranges.lost_in_sea_inside_m is not None:
        return tr("sea clutter hides it at every range")
    if conditions.rain_mm_h > 0.0:
        return tr("its echo is too weak in this rain at every range")
    return tr("its echo is too weak at every range")


def set_lines(budget: EchoBudget) -> tuple[str, str]:
    """The set in two lines: band, preset and antenna; then its values and pulse."""
    radar, pulse = budget.radar, budget.pulse
    return (
        tr(
            "{band} band, {preset}, antenna {antenna_height_m:g} m above the water",
            band=radar.band.value,
            preset=PRESET_TITLES[radar.preset],
            antenna_height_m=budget.antenna_height_m,
        ),
        tr(
            "set: {peak_power_w:g} kW, {antenna_gain_db:g} dB, beam "
            "{horizontal_beamwidth_deg:g}°, losses {losses_db:.1f} dB, {pulse_name} "
            "pulse of {length_us:g} µs ({from_scale} to {to_scale})",
            peak_power_w=radar.peak_power_w / 1000.0,
            antenna_gain_db=radar.antenna_gain_db,
            horizontal_beamwidth_deg=radar.horizontal_beamwidth_deg,
            losses_db=radar.losses_db,
            pulse_name=shown(pulse.name),
            length_us=pulse.length_s * 1e6,
            from_scale=scale(pulse.from_scale_m),
            to_scale=scale(pulse.to_scale_m),
        ),
    )


def conditions_line(conditions: Conditions) -> str:
    """Air, sea and rain in a line."""
    return tr(
        "refraction {refraction}, sea state {sea_state:g}, rain {rain_mm_h:g} mm/h",
        refraction=refraction(conditions.refraction_k),
        sea_state=conditions.sea_state,
        rain_mm_h=conditions.rain_mm_h,
    )


def _target_words(target: RadarTarget) -> str:
    size = f"{target.rcs_m2:.0f} m²" if target.rcs_m2 >= 100.0 else f"{target.rcs_m2:.3g} m²"
    if target.spread is Spread.POINT:
        return tr("a point of {size} at {height_m:g} m", size=size, height_m=target.height_m)
    what = tr("a shoreline") if target.spread is Spread.SHORE else tr("a body")
    return tr(
        "{target} of {size}, evenly from 0 to {height_m:g} m",
        target=what,
        size=size,
        height_m=target.height_m,
    )


def _bands_words(ranges: DetectionRanges) -> str:
    shown = [
        tr(
            "{lost_nm} to {detected_nm}",
            lost_nm=lost_nm(band.from_m),
            detected_nm=detected_nm(band.to_m),
        )
        for band in ranges.bands[-_MOST_BANDS:]
    ]
    hidden = len(ranges.bands) - len(shown)
    text = ", ".join(shown) + " NM"
    return tr("{hidden} more nearer, {lobes}", hidden=hidden, lobes=text) if hidden else text


def detection_lines(detection: Detection) -> tuple[str, ...]:
    """One answer as lines of text."""
    ranges, budget = detection.ranges, detection.budget
    bands: list[str]
    if ranges.first_m is None:
        first = tr("nowhere: {why_nowhere}", why_nowhere=why_nowhere(ranges, budget.conditions))
        bands = []
    else:
        first = tr("at {detected_nm} NM", detected_nm=detected_nm(ranges.first_m))
        bands = [tr("detected from:         {bands}", bands=_bands_words(ranges))]
    if ranges.lost_in_sea_inside_m is None:
        lost = f"{DASH} ({why_not_lost(budget.conditions)})"
    else:
        lost = f"{lost_nm(ranges.lost_in_sea_inside_m)} NM"
    return (
        *set_lines(budget),
        tr(
            "target: {target}; {conditions_line}",
            target=_target_words(detection.target),
            conditions_line=conditions_line(budget.conditions),
        ),
        tr("first detected:        {range}", range=first),
        *bands,
        tr("lost in sea inside:    {lost}", lost=lost),
        tr(
            "rule: in {of_ten:g} of 10 scans, false alarms {pfa:g}, {pulses} "
            "pulses a scan, {snr_required_db:.1f} dB over noise a pulse",
            of_ten=detection.rule.pd * 10.0,
            pfa=detection.rule.pfa,
            pulses=budget.pulses,
            snr_required_db=ranges.snr_required_db,
        ),
        CAUTION,
    )


_HEADS = (
    tr("target"),
    tr("standard"),
    tr("model"),
    tr("differs"),
    tr("rain 4"),
    tr("rain 16"),
    tr("sea 2"),
    tr("sea 5"),
)
_WIDTHS = (30, 10, 8, 9, 8, 9, 16, 16)
SMALL_ROWS = slice(5, 9)
"""The small targets the losses of the minimum standard are fitted to."""


def residual_m(line: TableLine, band: Band) -> float | None:
    """Model less standard, m; None where the model detects nowhere."""
    first_m = line.ranges[0].first_m
    return None if first_m is None else first_m - line.row.range_m(band)


def rms_m(lines: Sequence[TableLine], band: Band) -> float:
    """Root mean square of the residuals of rows, m; rows without one are left out."""
    found = [r for line in lines if (r := residual_m(line, band)) is not None]
    return math.sqrt(sum(r * r for r in found) / len(found)) if found else 0.0


def _row_name(row: StandardRow) -> str:
    return shown(row.name) + (" *" if row.is_footnote else "")


def _cells(line: TableLine, band: Band) -> tuple[str, ...]:
    differs_m = residual_m(line, band)
    clear, rain_4, rain_16, *seas = line.ranges
    return (
        _row_name(line.row),
        f"{nm_from_m(line.row.range_m(band)):.1f}",
        DASH if clear.first_m is None else miles(clear.first_m, 2),  # nearest: it is compared
        DASH if differs_m is None else f"{nm_from_m(differs_m):+.2f}",
        detected_nm(rain_4.first_m),
        detected_nm(rain_16.first_m),
        *(f"{detected_nm(sea.first_m)} ({lost_nm(sea.lost_in_sea_inside_m)})" for sea in seas),
    )


def _laid(cells: Sequence[str]) -> str:
    first, *rest = (
        cell.ljust(width) if at == 0 else cell.rjust(width)
        for at, (cell, width) in enumerate(zip(cells, _WIDTHS, strict=True))
    )
    return (first + "".join(rest)).rstrip()


def table_lines(budget: EchoBudget, lines: Sequence[TableLine]) -> tuple[str, ...]:
    """The table of one band as lines of text; conditions in the order of ``detect_table``."""
    band = budget.radar.band
    standard = [line for line in lines if not line.row.is_footnote]
    return (
        *set_lines(budget),
        tr(
            "ranges in NM, {refraction}; in brackets the range inside which "
            "sea clutter hides the target",
            refraction=refraction(budget.conditions.refraction_k),
        ),
        "",
        _laid(_HEADS),
        *(_laid(_cells(line, band)) for line in lines),
        "",
        tr(
            "differs by {all_rows_nm:.2f} NM over the nine rows of the standard, "
            "{small_rows_nm:.2f} NM over its four small targets (rms)",
            all_rows_nm=nm_from_m(rms_m(standard, band)),
            small_rows_nm=nm_from_m(rms_m(lines[SMALL_ROWS], band)),
        ),
    )


TABLE_NOTES = (
    tr("standard: IMO MSC.192(79) table 2, antenna 15 m, no clutter, 8 of 10 scans"),
    tr(
        "rain in mm/h, sea in sea states; radar cross-sections as in the test standard, from memory"
    ),
    tr("* a footnote of the standard, its range from memory"),
    CAUTION,
)
"""Stand below the tables."""
