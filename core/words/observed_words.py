"""What was seen against what was expected, in words; hints, never findings."""

from core.base.language import tr, tr_n
from core.plan.observed_result import Comparison, Hint, ObservedReport, RadarRecord, Trend
from core.words import quantities

OBSERVED_NOTES = (
    tr(
        "Ratio: range at which it was first seen over the range by which "
        "the plan expected it; below 1 it came late. By time: on the "
        "planned track at the planned speed."
    ),
    tr(
        "Hints only: how ground echoes is known to about 5 dB, and weather "
        "may differ from the plan's. Check the radar by its own monitor."
    ),
)
_HINTS = {
    Hint.TOO_FEW: tr("too few sightings to say anything"),
    Hint.AS_EXPECTED: tr("near and far objects came about as expected"),
    Hint.AIR: (
        tr(
            "far objects came late, near ones less so: this speaks for the air "
            "(weak refraction) rather than for the radar"
        )
    ),
    Hint.RADAR: (
        tr(
            "near objects came as late as far ones, or later: this speaks for "
            "the radar (tuning, gain, ageing, feeder) or for clutter controls "
            "set too far"
        )
    ),
    Hint.EARLY: (
        tr(
            "objects came earlier than expected: strong refraction, or ground "
            "that echoes more strongly than was taken"
        )
    ),
    Hint.ONE_SIDED: (
        tr(
            "late, but air and radar cannot be told apart: write down objects "
            "both within and beyond own radar horizon"
        )
    ),
}


def hint_words(hint: Hint) -> str:
    """What the ratios speak for."""
    return _HINTS[hint]


def trend_words(record: RadarRecord) -> str:
    """How the ratios go over the voyage."""
    if record.first_ratio is None or record.last_ratio is None:
        return record.trend.shown
    words = tr(
        "{trend} from {first_ratio:.2f} to {last_ratio:.2f}",
        trend=record.trend.shown,
        first_ratio=record.first_ratio,
        last_ratio=record.last_ratio,
    )
    if record.trend is Trend.FALLING:
        return tr(
            "{trend} over the voyage: an ageing set or feeder falls so, and so does the weather",
            trend=words,
        )
    return tr("{trend} over the voyage", trend=words)


OBSERVED_HEADS = (tr("leg"), tr("object"), tr("radar"), tr("expected"), tr("seen"), tr("ratio"))


def observed_cells(item: Comparison) -> tuple[str, ...]:
    """One sighting under ``OBSERVED_HEADS``."""
    ratio = item.ratio
    seen = quantities.DASH if item.seen_m is None else quantities.radar_range(item.seen_m)
    name = item.sighting.object_id
    if item.name and item.name != name:
        name = f"{name}, {item.name}"
    return (
        str(item.sighting.leg_number),
        name,
        item.radar,
        quantities.DASH if item.expected_m is None else quantities.radar_range(item.expected_m),
        tr("{seen} by time", seen=seen) if item.is_by_time and item.seen_m is not None else seen,
        quantities.DASH if ratio is None else f"{ratio:.2f}",
    )


def observed_lines(report: ObservedReport) -> list[str]:
    """The whole report as plain text."""
    plan = report.plan
    lines = [
        tr("Seen against expected: {name}, plan {digest}", name=plan.name, digest=plan.digest[:12]),
        "",
    ]
    rows = [OBSERVED_HEADS, *(observed_cells(item) for item in report.comparisons)]
    widths = [max(len(row[i]) for row in rows) for i in range(len(OBSERVED_HEADS))]
    for row, item in zip(rows, (None, *report.comparisons), strict=True):
        text = "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True))
        lines.append(f"{text}  {item.why}".rstrip() if item is not None else text.rstrip())
    lines += ["", *radar_lines(report)]
    return [*lines, "", *OBSERVED_NOTES]


def radar_lines(report: ObservedReport) -> list[str]:
    """What the sightings of each radar come to."""
    if not report.records:
        return [tr("No ratio can be formed: see the reasons beside each row.")]
    blocks = [_record_lines(record, report.plan.horizon_m) for record in report.records]
    return [line for block in blocks for line in (*block, "")][:-1]


def _record_lines(record: RadarRecord, horizon_m: float) -> list[str]:
    horizon = quantities.distance(horizon_m)
    return [
        tr_n(
            "{radar}: {count} sighting, middle ratio {ratio}",
            "{radar}: {count} sightings, middle ratio {ratio}",
            record.count,
            radar=record.radar,
            ratio=_ratio(record.middle_ratio),
        ),
        tr(
            "  within own radar horizon ({horizon}): {near_ratio} ({near_count}); "
            "beyond it: {far_ratio} ({far_count})",
            horizon=horizon,
            near_ratio=_ratio(record.near_ratio),
            near_count=record.near_count,
            far_ratio=_ratio(record.far_ratio),
            far_count=record.far_count,
        ),
        tr("  trend: {trend}", trend=trend_words(record)),
        tr("  hint: {hint}", hint=hint_words(record.hint)),
    ]


def _ratio(ratio: float | None) -> str:
    return quantities.DASH if ratio is None else f"{ratio:.2f}"
