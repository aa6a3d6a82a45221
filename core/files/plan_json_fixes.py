"""Radar fixes of one leg in the plan file."""

from typing import Any

from core.files.plan_numbers import deg, moment_of, nm, nullable
from core.passage.timetable import Timetable
from core.plan.fix_result import CrossStretch, Fix, FixBy, FixObject, LegFixes
from core.plan.plan_result import LegPlan
from core.words.reasons import sentence

_NO_FIX = "there is no fix"


def fix_document(leg: LegPlan, timetable: Timetable) -> dict[str, Any]:
    """The field ``fix_plan`` with its reason."""
    fixing = leg.fixing
    document = None if fixing is None else _fixing(fixing, leg.leg_index, timetable)
    return nullable("fix_plan", document, "it was not worked out")


def _fixing(fixing: LegFixes, leg_index: int, timetable: Timetable) -> dict[str, Any]:
    worst, cross = fixing.worst_m, fixing.worst_cross
    return {
        "interval_minutes": round(fixing.interval_s / 60.0, 4),
        "corridor_nm": nm(fixing.corridor_m),
        "has_two_ranges": fixing.has_two_ranges,
        **nullable("worst_nm", None if worst is None else nm(worst), _NO_FIX),
        "wider_than_corridor": fixing.is_wide,
        **nullable(
            "worst_cross_track",
            None if cross is None else _cross(cross, leg_index, timetable),
            "no place was looked at",
        ),
        "fixes": [_fix(fix, fixing.corridor_m, leg_index, timetable) for fix in fixing.fixes],
    }


def _cross(stretch: CrossStretch, leg_index: int, timetable: Timetable) -> dict[str, Any]:
    error = stretch.error_m
    return {
        "from_along_nm": nm(stretch.from_along_m),
        "to_along_nm": nm(stretch.to_along_m),
        **moment_of(timetable, leg_index, stretch.from_along_m, "from"),
        **moment_of(timetable, leg_index, stretch.to_along_m, "to"),
        **nullable("error_nm", None if error is None else nm(error), "nothing can be indexed"),
    }


def _fix(fix: Fix, corridor_m: float, leg_index: int, timetable: Timetable) -> dict[str, Any]:
    ellipse = None
    if fix.by is not FixBy.NONE:
        ellipse = {
            "semi_major_nm": nm(fix.semi_major_m),
            "semi_minor_nm": nm(fix.semi_minor_m),
            "major_axis_deg": deg(fix.major_axis_deg),
            "across_nm": nm(fix.across_m),
            "wider_than_corridor": fix.semi_major_m > corridor_m,
        }
    is_ranges = fix.by is FixBy.RANGES
    error = fix.cross_error_m
    return {
        "along_nm": nm(fix.along_m),
        **moment_of(timetable, leg_index, fix.along_m),
        "by": fix.by.value,
        "range_scale_nm": nm(fix.scale_m),
        "scale_in_use": fix.is_scale_in_use,
        "objects": [_object(thing) for thing in fix.objects],
        **nullable(
            "cut_deg", round(fix.cut_deg, 2) if is_ranges else None, "ranges do not make the fix"
        ),
        **nullable("ellipse", ellipse, _NO_FIX),
        "reason": "" if fix.reason is None else sentence(fix.reason),
        **nullable(
            "cross_track_error_nm", None if error is None else nm(error), "nothing can be indexed"
        ),
    }


def _object(thing: FixObject) -> dict[str, Any]:
    return {
        "object_id": thing.object_id,
        "name": thing.name,
        "range_nm": nm(thing.range_m),
        "bearing_deg": deg(thing.bearing_deg),
        "point_like": thing.is_point_like,
    }
