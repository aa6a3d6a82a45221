"""The comparison of offings as JSON; nautical units."""

from typing import Any

from core.files.plan_numbers import kn, nm, nullable
from core.plan.emergence_result import Emergence
from core.plan.offing_result import Offing, OffingTable
from core.words.offing_words import OFFING_NOTES

FORMAT = "legsheet-offings"
VERSION = 1


def offings_document(table: OffingTable) -> dict[str, Any]:
    """Every offing of a leg, the planned one first."""
    return {
        "format": FORMAT,
        "version": VERSION,
        "caution": " ".join(OFFING_NOTES),
        "leg": table.leg_number,
        "from": table.from_name,
        "to": table.to_name,
        "offings": [_offing(offing) for offing in table.offings],
        "first_paints_in_common": list(table.common_ids),
    }


def _offing(offing: Offing) -> dict[str, Any]:
    return {
        "shift_nm": nm(offing.shift_m),
        "distance_change_nm": nm(offing.distance_change_m),
        "index_objects": [
            {
                "object_id": line.object_id,
                "name": line.name,
                "role": line.role,
                "side": line.side.value,
                "cross_index_range_nm": nm(line.cross_index_range_m),
                "share_of_leg": round(line.share_ratio, 4),
            }
            for line in offing.lines
        ],
        "index_gap_minutes": round(offing.index_gap_minutes, 2),
        **nullable(
            "worst_uncertainty_nm",
            None if offing.worst_uncertainty_m is None else nm(offing.worst_uncertainty_m),
            "nothing can be indexed",
        ),
        "first_paints": [
            {
                "object_id": paint.object_id,
                "name": paint.name,
                **nullable(
                    "normally_by_range_nm",
                    None if paint.range_m is None else nm(paint.range_m),
                    paint.words,
                ),
                **nullable(
                    "normally_by_along_nm",
                    None if paint.along_m is None else nm(paint.along_m),
                    paint.words,
                ),
            }
            for paint in offing.paints
        ],
        **nullable(
            "nearest_land_nm",
            None if offing.nearest_land_m is None else nm(offing.nearest_land_m),
            "no known land within the sweep radius",
        ),
        **nullable(
            "nearest_hidden_water_nm",
            None if offing.nearest_hidden_m is None else nm(offing.nearest_hidden_m),
            "no hidden water was found",
        ),
        **nullable(
            "worst_emergence",
            None if offing.emergence is None else _emergence(offing.emergence),
            "no head was found behind which craft can run unseen",
        ),
        "hidden_water_places": offing.hidden_count,
        "status": "complete" if offing.is_complete else "incomplete",
        "warnings": list(offing.warnings),
    }


def _emergence(head: Emergence) -> dict[str, Any]:
    run = head.deciding
    warning_s = run.at_edge_s
    return {
        "object_id": head.object_id,
        "side": head.side.value,
        "tip_off_nm": nm(head.offing_m),
        "pass_off_nm": nm(head.pass_off_m),
        "craft_speed_kn": kn(run.craft_speed_mps),
        **nullable(
            "warning_min",
            None if warning_s is None else round(warning_s / 60.0, 2),
            "no craft of that speed comes out there unseen",
        ),
        "against_decision_time": head.alarm.value,
    }
