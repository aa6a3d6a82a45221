"""The comparison of first paints seen and expected as JSON; nautical units."""

from typing import Any

from core.files.plan_numbers import nm, nullable, utc_text
from core.plan.observed_result import Comparison, ObservedReport, RadarRecord
from core.words.observed_words import OBSERVED_NOTES, hint_words

FORMAT = "legsheet-observed"
VERSION = 1


def observed_document(report: ObservedReport) -> dict[str, Any]:
    """Every sighting with its ratio, then every radar."""
    return {
        "format": FORMAT,
        "version": VERSION,
        "caution": " ".join(OBSERVED_NOTES),
        "plan": {"name": report.plan.name, "digest": report.plan.digest},
        "own_horizon_nm": nm(report.plan.horizon_m),
        "sightings": [_comparison(item) for item in report.comparisons],
        "radars": [_record(record) for record in report.records],
    }


def _comparison(item: Comparison) -> dict[str, Any]:
    seen_utc = item.sighting.seen_utc
    return {
        "object_id": item.sighting.object_id,
        "name": item.name,
        "leg": item.sighting.leg_number,
        "radar": item.radar,
        **nullable(
            "time_utc", None if seen_utc is None else utc_text(seen_utc), "none was written down"
        ),
        **nullable(
            "expected_nm", None if item.expected_m is None else nm(item.expected_m), item.why
        ),
        **nullable("seen_nm", None if item.seen_m is None else nm(item.seen_m), item.why),
        "by_time": item.is_by_time,
        **nullable("ratio", None if item.ratio is None else round(item.ratio, 4), item.why),
    }


def _record(record: RadarRecord) -> dict[str, Any]:
    ratios = {
        "middle_ratio": (record.middle_ratio, "no sighting"),
        "near_ratio": (record.near_ratio, "no object expected within own radar horizon was seen"),
        "far_ratio": (record.far_ratio, "no object expected beyond own radar horizon was seen"),
        "first_half_ratio": (record.first_ratio, "there is no trend"),
        "last_half_ratio": (record.last_ratio, "there is no trend"),
    }
    document: dict[str, Any] = {
        "radar": record.radar,
        "sightings": record.count,
        "near": record.near_count,
        "far": record.far_count,
    }
    for name, (ratio, why) in ratios.items():
        document |= nullable(name, None if ratio is None else round(ratio, 4), why)
    return document | {"trend": record.trend.value, "hint": hint_words(record.hint)}
