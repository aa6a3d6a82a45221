"""A plan in a few lines of plain text, for a terminal."""

from core.base.language import tr
from core.plan.outcome import Outcome
from core.plan.plan_result import IndexLine, LegPlan, Limit, Role
from core.words.quantities import (
    course,
    distance,
    distance_before_waypoint,
    index_range,
    margin,
    radar_range,
    scale,
    side,
    speed,
)
from core.words.times import when, when_late


def _line(line: IndexLine) -> str:
    if line.role is Role.MARGIN and isinstance(line.limit, Limit):
        reading = margin(line.cross_index_range_m, line.limit, line.range_scale_m)
    else:
        reading = index_range(line.cross_index_range_m, line.range_scale_m)
    window = tr(
        "{from_distance} to {to_distance}",
        from_distance=distance(line.from_along_m),
        to_distance=distance(line.to_along_m),
    )
    return tr(
        "   {role}: {object_id} ({name}), {side} {reading}, {window} along, on {scale}",
        role=line.role.shown,
        object_id=line.object.id,
        name=line.object.name,
        side=side(line.side),
        reading=reading,
        window=window,
        scale=scale(line.range_scale_m),
    )


def _leg(outcome: Outcome, leg: LegPlan) -> list[str]:
    waypoints = outcome.plan.passage.waypoints
    first, last = waypoints[leg.leg_index], waypoints[leg.leg_index + 1]
    covered = outcome.coverage.legs[leg.leg_index]
    lines = [
        tr(
            "Leg {leg_number}: {from_name} to {to_name}, {course}, {distance}, {speed}",
            leg_number=leg.leg_index + 1,
            from_name=first.name,
            to_name=last.name,
            course=course(leg.course_deg),
            distance=distance(leg.distance_m),
            speed=speed(leg.speed_mps),
        )
        + ("" if covered.is_complete else tr("  INCOMPLETE: land data is missing"))
    ]
    lines += [_line(line) for line in leg.lines if line.role is not Role.WHEEL_OVER]
    if leg.no_index_reason:
        lines.append(
            tr("   nothing to index: {no_index_reason}", no_index_reason=leg.no_index_reason)
        )
    if leg.wheel_over is not None:
        turn = leg.wheel_over
        text = tr(
            "   wheel-over {distance} before {name} to {course}",
            distance=distance_before_waypoint(turn.distance_before_waypoint_m),
            name=last.name,
            course=course(turn.new_course_deg),
        )
        if turn.line is not None:
            reading = index_range(turn.line.cross_index_range_m, turn.line.range_scale_m)
            text = tr(
                "{turn}, by {object_id} {side} {reading}",
                turn=text,
                object_id=turn.line.object.id,
                side=side(turn.line.side),
                reading=reading,
            )
        lines.append(text)
    lines += _paints(outcome, leg)
    return lines


def _paints(outcome: Outcome, leg: LegPlan) -> list[str]:
    """What first paints on the leg, and where its tune check is made."""
    timetable = outcome.plan.timetable
    lines = []
    coming = [(p.normally_by.moment, p.object_id) for p in leg.first_paints if p.normally_by.moment]
    if coming:
        moment, name = min(coming, key=lambda item: item[0].along_m)
        lines.append(
            tr(
                "   first to paint: {name} by {time}, {range}, {course}; {count} on the leg in all",
                name=name,
                time=when_late(timetable, leg.leg_index, moment.along_m),
                range=radar_range(moment.range_m),
                course=course(moment.bearing_deg),
                count=len(coming),
            )
        )
    if leg.tune_check is not None:
        at = when(timetable, leg.leg_index, leg.tune_check.along_m)
        lines.append(
            tr(
                "   tune check {place}, on the {scale} scale",
                place=at,
                scale=scale(leg.tune_check.scale_m),
            )
        )
    return lines


def summary_lines(outcome: Outcome) -> list[str]:
    """The plan leg by leg: index lines, wheel-over, what is missing."""
    lines = [
        tr(
            "{name}: {count} legs, antenna {antenna_height_m:.1f} m above water; planning aid only",
            name=outcome.plan.passage.name,
            count=len(outcome.plan.legs),
            antenna_height_m=outcome.coverage.settings.antenna_height_m,
        )
    ]
    for leg in outcome.plan.legs:
        lines += _leg(outcome, leg)
    return lines
