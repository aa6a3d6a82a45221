"""Radar fixes in words: what to measure, how well the lines cut, how good the fix is."""

import math

from core.base.language import tr
from core.base.units import nm_from_m
from core.plan.fix_result import CrossStretch, Fix, FixBy, LegFixes
from core.words import quantities
from core.words.reasons import sentence


def measure_words(fix: Fix) -> str:
    """What to measure, NM with bearings to know it by: ``ranges A 3.21 (078°), K 2.10 (151°)``.

    With the scale, where another than the one in use is set for it.
    """
    if fix.by is FixBy.NONE:
        return tr("no radar fix")
    if fix.by is FixBy.RANGES:
        ranges = [
            f"{o.object_id} {_figure(o.range_m)} ({quantities.whole_degrees(o.bearing_deg)}°)"
            for o in fix.objects
        ]
        words = tr("ranges {ranges}", ranges=", ".join(ranges))
    else:
        (one,) = fix.objects
        words = tr(
            "range and bearing {object_id} {figure} NM {course}",
            object_id=one.object_id,
            figure=_figure(one.range_m),
            course=quantities.course(one.bearing_deg),
        )
    if not fix.is_scale_in_use:
        words = tr(
            "{readings}, on the {scale} scale", readings=words, scale=quantities.scale(fix.scale_m)
        )
    return words


def quality_words(fix: Fix, corridor_m: float) -> str:
    """How good it is: ``cut 70°, ± 0.09 NM``; why not, where it is none or not by ranges."""
    if fix.by is FixBy.NONE:
        return "" if fix.reason is None else sentence(fix.reason)
    words = quantities.uncertainty(fix.semi_major_m)
    if fix.by is FixBy.RANGES:
        words = tr("cut {cut_deg:.0f}°, {fix}", cut_deg=fix.cut_deg, fix=words)
    if fix.semi_major_m > corridor_m:
        words = tr("{quality}, WIDER THAN THE CORRIDOR", quality=words)
    if fix.reason is not None:
        words += f"; {sentence(fix.reason)}"
    return words


def interval_words(fixing: LegFixes) -> str:
    """From fix to fix: ``every 6 min``."""
    return tr("every {interval_min:g} min", interval_min=fixing.interval_s / 60.0)


def leg_words(fixing: LegFixes) -> str:
    """The leg in one short line for its sheet: at how many places, and the worst there is."""
    if fixing.worst_m is None:
        return tr("No radar fix")
    count = sum(1 for fix in fixing.fixes if fix.objects)
    uncertainty = quantities.uncertainty(fixing.worst_m)
    words = (
        tr("Radar fix {uncertainty}", uncertainty=uncertainty)
        if count == len(fixing.fixes)
        else tr(
            "Radar fix at {fix_count} of {place_count}, {uncertainty}",
            fix_count=count,
            place_count=len(fixing.fixes),
            uncertainty=uncertainty,
        )
    )
    return tr("{fix}, WIDE", fix=words) if fixing.is_wide else words


def cross_words(stretch: CrossStretch) -> str:
    """How well the distance off the track is known at the worst (95 %)."""
    if stretch.error_m is None:
        return tr("nothing to index")
    return tr(
        "distance off the track {uncertainty} at the worst",
        uncertainty=quantities.uncertainty(stretch.error_m),
    )


def _figure(range_m: float) -> str:
    """The bare number of a range, as ``quantities.radar_range`` rounds it."""
    decimals = 2 if nm_from_m(range_m) < 9.995 else 1
    return f"{math.floor(nm_from_m(range_m) * 10**decimals + 0.5) / 10**decimals:.{decimals}f}"
