"""Dead ranges and check spots of one leg in the plan file."""

from typing import Any

from core.files.plan_numbers import deg, kn, metres, moment_of, nm, nullable
from core.passage.timetable import Timetable
from core.plan.leg_check_result import CrossCheck, DeadRange, HeadingSpot, IndexSpot, LegChecks
from core.plan.plan_result import LegPlan
from core.plan.reason import Reason
from core.words.check_words import cross_check_means
from core.words.reasons import sentence

_NOT_DONE = "it was not worked out"


def check_documents(leg: LegPlan, timetable: Timetable) -> dict[str, Any]:
    """The fields ``dead_ranges`` and ``check_spots`` with their reasons."""
    checks, index = leg.checks, leg.leg_index
    dead, why = None, None
    if checks is not None:
        why = checks.dead_ranges_reason
        dead = [_dead(one, index, timetable) for one in checks.dead_ranges] or None
    return {
        **nullable("dead_ranges", dead, _why(why)),
        **nullable(
            "check_spots",
            None if checks is None else _spots(checks, index, timetable),
            _NOT_DONE,
        ),
    }


def _why(reason: Reason | None) -> str:
    return _NOT_DONE if reason is None else sentence(reason)


def _spots(checks: LegChecks, leg_index: int, timetable: Timetable) -> dict[str, Any]:
    pair, marker = checks.index_spot, checks.heading_spot
    return {
        **nullable(
            "range_index",
            None if pair is None else _index_spot(pair, leg_index, timetable),
            _why(checks.index_spot_reason),
        ),
        **nullable(
            "heading_marker",
            None if marker is None else _heading_spot(marker, leg_index, timetable),
            _why(checks.heading_spot_reason),
        ),
        "index_lines_together": [_cross(one, leg_index, timetable) for one in checks.cross_checks],
    }


def _dead(dead: DeadRange, leg_index: int, timetable: Timetable) -> dict[str, Any]:
    return {
        "object_id": dead.object_id,
        "name": dead.name,
        "side": "ahead" if dead.is_ahead else "astern",
        "from_along_nm": nm(dead.from_along_m),
        "to_along_nm": nm(dead.to_along_m),
        **moment_of(timetable, leg_index, dead.from_along_m, "from"),
        **moment_of(timetable, leg_index, dead.to_along_m, "to"),
        "from_range_nm": nm(dead.from_range_m),
        "to_range_nm": nm(dead.to_range_m),
        "greatest_angle_deg": round(dead.greatest_angle_deg, 2),
        "least_rate_kn": kn(dead.least_rate_mps),
        "greatest_rate_kn": kn(dead.greatest_rate_mps),
        "countdown": [
            {
                "minutes_before": round(one.before_minutes, 2),
                "along_nm": nm(one.along_m),
                "range_nm": nm(one.range_m),
            }
            for one in dead.countdown
        ],
    }


def _index_spot(spot: IndexSpot, leg_index: int, timetable: Timetable) -> dict[str, Any]:
    return {
        "along_nm": nm(spot.along_m),
        **moment_of(timetable, leg_index, spot.along_m),
        "range_scale_nm": nm(spot.scale_m),
        "port_object_id": spot.port_id,
        "port_range_nm": nm(spot.port_range_m),
        "port_bearing_deg": deg(spot.port_bearing_deg),
        "starboard_object_id": spot.starboard_id,
        "starboard_range_nm": nm(spot.starboard_range_m),
        "starboard_bearing_deg": deg(spot.starboard_bearing_deg),
        "apart_nm": nm(spot.apart_m),
        "known_range_error_m": metres(spot.known_error_m),
        "uncertainty_nm": nm(spot.uncertainty_m),
        "early_or_late_nm": nm(spot.early_late_m),
    }


def _heading_spot(spot: HeadingSpot, leg_index: int, timetable: Timetable) -> dict[str, Any]:
    return {
        "along_nm": nm(spot.along_m),
        **moment_of(timetable, leg_index, spot.along_m),
        "range_scale_nm": nm(spot.scale_m),
        "object_id": spot.object_id,
        "name": spot.name,
        "range_nm": nm(spot.range_m),
        "bearing_deg": deg(spot.bearing_deg),
        "relative_bearing_deg": deg(spot.relative_deg),
        "one_degree_nm": nm(spot.per_degree_m),
    }


def _cross(check: CrossCheck, leg_index: int, timetable: Timetable) -> dict[str, Any]:
    return {
        "first_object_id": check.first_id,
        "second_object_id": check.second_id,
        "either_side": check.is_opposite,
        "from_along_nm": nm(check.from_along_m),
        "to_along_nm": nm(check.to_along_m),
        **moment_of(timetable, leg_index, check.from_along_m, "from"),
        **moment_of(timetable, leg_index, check.to_along_m, "to"),
        "look_alike": [cause.value for cause in check.alike],
        "means": cross_check_means(check),
    }
