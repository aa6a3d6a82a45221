"""A plan in a few lines of plain text, for a terminal."""

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
    window = f"{distance(line.from_along_m)} to {distance(line.to_along_m)}"
    return (
        f"   {line.role.value.replace('_', '-')}: {line.object.id} ({line.object.name}), "
        f"{side(line.side)} {reading}, {window} along, on {scale(line.range_scale_m)}"
    )


def _leg(outcome: Outcome, leg: LegPlan) -> list[str]:
    waypoints = outcome.plan.passage.waypoints
    first, last = waypoints[leg.leg_index], waypoints[leg.leg_index + 1]
    covered = outcome.coverage.legs[leg.leg_index]
    lines = [
        f"Leg {leg.leg_index + 1}: {first.name} to {last.name}, {course(leg.course_deg)}, "
        f"{distance(leg.distance_m)}, {speed(leg.speed_mps)}"
        + ("" if covered.is_complete else "  INCOMPLETE: land data is missing")
    ]
    lines += [_line(line) for line in leg.lines if line.role is not Role.WHEEL_OVER]
    if leg.no_index_reason:
        lines.append(f"   nothing to index: {leg.no_index_reason}")
    if leg.wheel_over is not None:
        turn = leg.wheel_over
        text = (
            f"   wheel-over {distance_before_waypoint(turn.distance_before_waypoint_m)} before "
            f"{last.name} to {course(turn.new_course_deg)}"
        )
        if turn.line is not None:
            reading = index_range(turn.line.cross_index_range_m, turn.line.range_scale_m)
            text += f", by {turn.line.object.id} {side(turn.line.side)} {reading}"
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
            f"   first to paint: {name} by {when_late(timetable, leg.leg_index, moment.along_m)}, "
            f"{radar_range(moment.range_m)}, {course(moment.bearing_deg)}; "
            f"{len(coming)} on the leg in all"
        )
    if leg.tune_check is not None:
        at = when(timetable, leg.leg_index, leg.tune_check.along_m)
        lines.append(f"   tune check {at}, on the {scale(leg.tune_check.scale_m)} scale")
    return lines


def summary_lines(outcome: Outcome) -> list[str]:
    """The plan leg by leg: index lines, wheel-over, what is missing."""
    lines = [
        f"{outcome.plan.passage.name}: {len(outcome.plan.legs)} legs, antenna "
        f"{outcome.coverage.settings.antenna_height_m:.1f} m above water; planning aid only"
    ]
    for leg in outcome.plan.legs:
        lines += _leg(outcome, leg)
    return lines
