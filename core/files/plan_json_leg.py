"""One leg of the plan file."""

from typing import Any

from core.coverage.coverage_result import Gap, ViewpointCoverage
from core.files.plan_json_checks import check_documents
from core.files.plan_json_fixes import fix_document
from core.files.plan_json_motion import motion_document
from core.files.plan_json_objects import (
    corridor_document,
    fallback_document,
    object_document,
    objects_document,
)
from core.files.plan_json_paint import (
    coast_documents,
    first_paint_documents,
    look_alike_documents,
    must_not_documents,
)
from core.files.plan_json_scales import scale_document
from core.files.plan_json_setup import setup_document
from core.files.plan_json_tide import tide_documents
from core.files.plan_json_turn import turn_document
from core.files.plan_json_waters import shadow_document, waters_document
from core.files.plan_numbers import (
    deg,
    moment_of,
    nm,
    nullable,
    place,
)
from core.passage.timetable import Timetable
from core.plan.outcome import Outcome
from core.plan.plan_result import (
    BlindConflict,
    IndexLine,
    KeyIn,
    WheelOver,
)
from core.words.reasons import sentence


def _viewpoint(view: ViewpointCoverage, timetable: Timetable) -> dict[str, Any]:
    point = view.viewpoint
    nearest = (
        None
        if view.nearest_land_range_m is None or view.nearest_land_bearing_deg is None
        else {
            "range_nm": nm(view.nearest_land_range_m),
            "bearing_deg": deg(view.nearest_land_bearing_deg),
        }
    )
    fraction = view.coast_in_sight_fraction
    inland = view.first_land_inland_m
    return {
        "along_nm": nm(point.along_m),
        "cross_nm": nm(point.cross_m),
        **place(point.position),
        **moment_of(timetable, point.leg_index, point.along_m),
        **nullable("nearest_land", nearest, "no known land within the sweep radius"),
        **nullable(
            "in_sight_coast_fraction",
            None if fraction is None else round(fraction, 4),
            "no coast within the sweep radius",
        ),
        **nullable("painted_coast_fraction", *_painted_fraction(view)),
        **nullable(
            "first_land_inland_nm",
            None if inland is None else nm(inland),
            "no land behind the coast in sight",
        ),
    }


def _painted_fraction(view: ViewpointCoverage) -> tuple[float | None, str]:
    fraction = None if view.paint is None else view.paint.painted_fraction
    return None if fraction is None else round(fraction, 4), "no coast within the sweep radius"


def _gap(gap: Gap) -> dict[str, Any]:
    return {
        "cause": gap.cause.value,
        "bearing_from_deg": deg(gap.bearing_from_deg),
        "bearing_to_deg": deg(gap.bearing_to_deg),
        "range_from_nm": nm(gap.range_from_m),
        "from_along_nm": nm(gap.from_along_m),
        "to_along_nm": nm(gap.to_along_m),
        "effect": gap.effect.value,
    }


def line_document(line: IndexLine, leg_index: int, timetable: Timetable) -> dict[str, Any]:
    """One index line as JSON."""
    override = (
        None
        if line.override is None
        else {
            "object_id": line.override.object_id,
            "locked": line.override.is_locked,
            "remark": line.override.remark,
        }
    )
    return {
        "role": line.role.value,
        "object": object_document(line.object),
        "side": line.side.value,
        "cross_index_range_nm": nm(line.cross_index_range_m),
        **nullable(
            "limit", None if line.limit is None else line.limit.value, "it is not a margin line"
        ),
        "line_bearing_deg": deg(line.line_bearing_deg),
        "echo_travel_deg": deg(line.echo_travel_deg),
        "from_along_nm": nm(line.from_along_m),
        "to_along_nm": nm(line.to_along_m),
        **moment_of(timetable, leg_index, line.from_along_m, "from"),
        **moment_of(timetable, leg_index, line.to_along_m, "to"),
        "range_scale_nm": nm(line.range_scale_m),
        "uncertainty_nm": nm(line.uncertainty_m),
        "reason": sentence(line.reason),
        **nullable("override", override, "chosen by the tool"),
        **fallback_document(line),
    }


def _blind_conflict(
    conflict: BlindConflict, leg_index: int, timetable: Timetable
) -> dict[str, Any]:
    return {
        "object_id": conflict.object_id,
        "role": conflict.role.value,
        "radar": conflict.radar,
        "sector_from_relative_deg": deg(conflict.from_relative_deg),
        "sector_to_relative_deg": deg(conflict.to_relative_deg),
        "cause": conflict.cause,
        "kind": "shadow" if conflict.is_shadow else "blind",
        "from_along_nm": nm(conflict.from_along_m),
        "to_along_nm": nm(conflict.to_along_m),
        **moment_of(timetable, leg_index, conflict.from_along_m, "from"),
        **moment_of(timetable, leg_index, conflict.to_along_m, "to"),
        "minutes": round(conflict.minutes, 2),
        **nullable(
            "other_radar", conflict.other_radar or None, "no other radar sees the object there"
        ),
    }


def _key_in(row: KeyIn) -> dict[str, Any]:
    return {
        "object_id": row.line.object.id,
        "role": row.line.role.value,
        "bearing_deg": deg(row.bearing_deg),
        "beam_range_nm": nm(row.beam_range_m),
        "side": row.side.value,
        "truncate_ahead_nm": nm(row.truncate_ahead_m),
        "truncate_astern_nm": nm(row.truncate_astern_m),
    }


def wheel_over_document(turn: WheelOver, leg_index: int, timetable: Timetable) -> dict[str, Any]:
    """The wheel-over of a leg as JSON."""
    line = (
        None
        if turn.line is None
        else {
            "object": object_document(turn.line.object),
            "side": turn.line.side.value,
            "cross_index_range_nm": nm(turn.line.cross_index_range_m),
            "line_bearing_deg": deg(turn.line.line_bearing_deg),
            "echo_travel_deg": deg(turn.line.echo_travel_deg),
        }
    )
    second = (
        None
        if turn.second_mark is None
        else {
            "object": object_document(turn.second_mark.object),
            "range_nm": nm(turn.second_mark.range_m),
            "bearing_deg": deg(turn.second_mark.bearing_deg),
        }
    )
    alerts = [moment_of(timetable, leg_index, along) for along in turn.pre_alert_along_m]
    utc = [alert["utc"] for alert in alerts]
    return {
        "along_nm": nm(turn.along_m),
        "distance_before_waypoint_nm": nm(turn.distance_before_waypoint_m),
        **place(turn.position),
        **moment_of(timetable, leg_index, turn.along_m),
        "new_course_deg": deg(turn.new_course_deg),
        "alteration_deg": round(turn.alteration_deg, 4),
        "turn_radius_nm": nm(turn.turn_radius_m),
        "turn_radius_of": "route" if turn.is_radius_of_route else "ship",
        "ship_turn_radius_nm": nm(turn.own_radius_m),
        "rate_of_turn_deg_per_min": round(turn.rate_of_turn_deg_per_min, 2),
        "corner_cut_nm": nm(turn.corner_cut_m),
        **nullable(
            "pre_alerts_utc", utc if all(utc) else None, alerts[0]["utc_reason"] if alerts else ""
        ),
        "pre_alerts_minutes_from_start": [alert["minutes_from_start"] for alert in alerts],
        "method": sentence(turn.method),
        **nullable("line", line, turn.line_reason),
        **nullable("second_mark", second, turn.second_mark_reason),
    }


def leg_document(outcome: Outcome, leg_index: int) -> dict[str, Any]:
    """One leg of the plan as JSON."""
    plan, coverage = outcome.plan, outcome.coverage.legs[leg_index]
    leg, passage, timetable = plan.legs[leg_index], plan.passage, plan.timetable
    ends = passage.waypoints[leg_index : leg_index + 2]
    turn = leg.wheel_over
    document: dict[str, Any] = {
        "number": leg_index + 1,
        "from": {"name": ends[0].name, **place(ends[0].position)},
        "to": {"name": ends[1].name, **place(ends[1].position)},
        "kind": passage.legs[leg_index].kind.value,
        "course_deg": deg(leg.course_deg),
        "distance_nm": nm(leg.distance_m),
        **motion_document(leg),
        **moment_of(timetable, leg_index, 0.0, "start"),
        **moment_of(timetable, leg_index, leg.distance_m, "end"),
        "corridor_port_nm": nm(leg.corridor_port_m),
        "corridor_starboard_nm": nm(leg.corridor_starboard_m),
        "status": "complete" if coverage.is_complete else "incomplete",
        "data_quality": {"grade": leg.quality.grade, "reasons": list(leg.quality.reasons)},
        "gaps": [_gap(gap) for gap in leg.gaps],
        "viewpoints": [_viewpoint(view, timetable) for view in coverage.viewpoints],
        "first_paints": first_paint_documents(leg, timetable),
        "coast_first_paints": coast_documents(leg, timetable),
        "must_not_paint": must_not_documents(leg, timetable),
        "tide_edges": tide_documents(leg),
        "look_alikes": look_alike_documents(leg),
        "land_shadows": [
            shadow_document(shadow, leg_index, timetable) for shadow in coverage.shadows
        ],
        "index_lines": [line_document(line, leg_index, timetable) for line in leg.lines],
        **nullable(
            "no_index_reason", leg.no_index_reason or None, "at least one object can be indexed"
        ),
        **corridor_document(leg),
        "hand_overs": [
            {
                "from_object": change.from_object,
                "to_object": change.to_object,
                "from_along_nm": nm(change.from_along_m),
                "to_along_nm": nm(change.to_along_m),
                "minutes": round(change.minutes, 2),
                "agreement_nm": nm(change.agreement_m),
                **nullable("fallback", change.fallback, "no other object is usable there"),
            }
            for change in leg.hand_overs
        ],
        "index_gaps": [
            {
                "from_along_nm": nm(gap.from_along_m),
                "to_along_nm": nm(gap.to_along_m),
                "minutes": round(gap.minutes, 2),
                "substitute": gap.substitute,
            }
            for gap in leg.index_gaps
        ],
        "range_scales": [scale_document(stretch) for stretch in leg.scales],
        "key_in": [_key_in(row) for row in leg.key_in],
        **nullable(
            "wheel_over",
            None if turn is None else wheel_over_document(turn, leg_index, timetable),
            leg.wheel_over_reason,
        ),
    }
    document.update(turn_document(leg))
    document.update(objects_document(leg, timetable))
    document.update(setup_document(leg, timetable))
    conflicts = leg.blind_conflicts
    document.update(
        nullable(
            "blind_sector_conflicts",
            None
            if conflicts is None
            else [_blind_conflict(conflict, leg_index, timetable) for conflict in conflicts],
            "no blind sectors are stated for the main radar",
        )
    )
    document.update(fix_document(leg, timetable))
    document.update(waters_document(leg, timetable))
    document.update(check_documents(leg, timetable))
    return document
