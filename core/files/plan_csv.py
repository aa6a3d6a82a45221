"""Index and wheel-over tables as CSV that opens in a spreadsheet without edits."""

import csv
import io
from typing import Any

from core.files.plan_json_leg import line_document, wheel_over_document
from core.files.plan_numbers import nm
from core.plan.outcome import Outcome
from core.plan.plan_result import KeyIn

_INDEX_COLUMNS = (
    "leg",
    "role",
    "object",
    "name",
    "edge",
    "side",
    "cross_index_range_nm",
    "limit",
    "line_bearing_deg",
    "echo_travel_deg",
    "from_along_nm",
    "to_along_nm",
    "from_utc",
    "to_utc",
    "from_minutes_from_start",
    "to_minutes_from_start",
    "range_scale_nm",
    "uncertainty_nm",
    "truncate_ahead_nm",
    "truncate_astern_nm",
    "lat_deg",
    "lon_deg",
    "confirm_on_chart",
    "reason",
)
_WHEEL_OVER_COLUMNS = (
    "leg",
    "lat_deg",
    "lon_deg",
    "along_nm",
    "distance_before_waypoint_nm",
    "utc",
    "minutes_from_start",
    "new_course_deg",
    "alteration_deg",
    "turn_radius_nm",
    "rate_of_turn_deg_per_min",
    "corner_cut_nm",
    "line_object",
    "line_side",
    "line_cross_index_range_nm",
    "line_bearing_deg",
    "second_mark",
    "second_mark_range_nm",
    "second_mark_bearing_deg",
    "method",
)


def _cell(value: Any) -> str | float | int:  # noqa: ANN401 - any JSON value
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        # A leading sign would be run as a formula by a spreadsheet.
        return f"'{value}" if value[:1] in ("=", "+", "-", "@") else value
    if isinstance(value, int | float):
        return value
    return str(value)


def _table(columns: tuple[str, ...], rows: list[dict[str, Any]]) -> bytes:
    stream = io.StringIO(newline="")
    writer = csv.writer(stream)
    writer.writerow(columns)
    for row in rows:
        writer.writerow([_cell(row.get(name)) for name in columns])
    return stream.getvalue().encode("utf-8-sig")


def _key_in(rows: tuple[KeyIn, ...], document: dict[str, Any], number: int) -> dict[str, Any]:
    row = rows[number]
    return {
        **document,
        "truncate_ahead_nm": nm(row.truncate_ahead_m),
        "truncate_astern_nm": nm(row.truncate_astern_m),
    }


def index_table_bytes(outcome: Outcome) -> bytes:
    """Every index line of the passage, a row each."""
    rows: list[dict[str, Any]] = []
    for leg in outcome.plan.legs:
        keys = {id(row.line): number for number, row in enumerate(leg.key_in)}
        for line in leg.lines:
            document = line_document(line, leg.leg_index, outcome.plan.timetable)
            item = document["object"]
            row = {
                **document,
                "leg": leg.leg_index + 1,
                "object": item["id"],
                "name": item["name"],
                "edge": item["edge"],
                "lat_deg": item["lat_deg"],
                "lon_deg": item["lon_deg"],
                "confirm_on_chart": item["confirm_on_chart"],
            }
            if id(line) in keys:
                row = _key_in(leg.key_in, row, keys[id(line)])
            rows.append(row)
    return _table(_INDEX_COLUMNS, rows)


def wheel_over_table_bytes(outcome: Outcome) -> bytes:
    """Every wheel-over of the passage, a row each."""
    rows: list[dict[str, Any]] = []
    for leg in outcome.plan.legs:
        if leg.wheel_over is None:
            continue
        document = wheel_over_document(leg.wheel_over, leg.leg_index, outcome.plan.timetable)
        line, second = document["line"], document["second_mark"]
        rows.append(
            {
                **document,
                "leg": leg.leg_index + 1,
                "line_object": line and line["object"]["id"],
                "line_side": line and line["side"],
                "line_cross_index_range_nm": line and line["cross_index_range_nm"],
                "line_bearing_deg": line and line["line_bearing_deg"],
                "second_mark": second and second["object"]["id"],
                "second_mark_range_nm": second and second["range_nm"],
                "second_mark_bearing_deg": second and second["bearing_deg"],
            }
        )
    return _table(_WHEEL_OVER_COLUMNS, rows)
