"""What the mouse is on in the strip, in deck words."""

import math

from app.views.plan_rows import causes, effects, use_words
from core.plan.outcome import Outcome
from core.plan.plan_result import IndexLine, LegPlan
from core.sheets.page import Item, Place, Raster, Stroke, Symbol, Text, corners
from core.sheets.strip_block import Strip
from core.sheets.strip_lines import line_reference
from core.words import quantities, times
from core.words.paint_words import Sighting, limits_words, sightings
from core.words.reasons import sentence

_REACH_MM = 1.6


def _segment_distance(place: Place, start: Place, end: Place) -> float:
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = dx * dx + dy * dy
    share = 0.0
    if length > 0.0:
        share = ((place[0] - start[0]) * dx + (place[1] - start[1]) * dy) / length
        share = min(max(share, 0.0), 1.0)
    return math.hypot(place[0] - start[0] - share * dx, place[1] - start[1] - share * dy)


def _distance(item: Item, place: Place) -> float:
    """Distance in mm from a place to an item; boxes of areas count as their inside."""
    if isinstance(item, Stroke):
        pairs = zip(item.points[:-1], item.points[1:], strict=True)
        return min((_segment_distance(place, a, b) for a, b in pairs), default=math.inf)
    if isinstance(item, Symbol):
        return max(0.0, math.hypot(item.x_mm - place[0], item.y_mm - place[1]) - item.size_mm / 2)
    if isinstance(item, Text):
        return math.hypot(item.x_mm - place[0], item.y_mm - 1.0 - place[1])
    places = corners(item.room) if isinstance(item, Raster) else next(iter(item.rings), ())
    if places:
        xs, ys = [p[0] for p in places], [p[1] for p in places]
        dx = max(min(xs) - place[0], 0.0, place[0] - max(xs))
        dy = max(min(ys) - place[1], 0.0, place[1] - max(ys))
        return math.hypot(dx, dy)
    return math.inf


def reference_at(strip: Strip, place: Place) -> str:
    """Reference of the nearest item that stands for something; empty where none is near."""
    best, found = _REACH_MM, ""
    for item in strip.items:
        if item.reference in ("", "track", "corridor"):
            continue
        distance = _distance(item, place)
        if distance <= best:
            best, found = distance, item.reference
    return found


def _line_words(line: IndexLine) -> str:
    return (
        f"{use_words(line.role)} line on {line.object.id} ({line.object.name}): "
        f"{quantities.side(line.side)} "
        + (
            quantities.margin(line.cross_index_range_m, line.limit, line.range_scale_m)
            if line.limit is not None
            else quantities.index_range(line.cross_index_range_m, line.range_scale_m)
        )
        + f", {quantities.uncertainty(line.uncertainty_m)} as read; {sentence(line.reason)}"
    )


def _sighting(outcome: Outcome, leg: LegPlan, one: Sighting) -> str:
    """When and where an object is to be looked out for."""
    moment = one.moment
    where = ""
    if moment is not None:
        where = f"{quantities.radar_range(moment.range_m)}, {quantities.course(moment.bearing_deg)}"
    if one.paint is None:
        return f"{one.object_id}: in radar line of sight from {where} (geometry only)"
    parts = [f"paints by {where}" if where else one.paint.normally_by.reason]
    parts += limits_words(one.paint, outcome.plan.timetable, leg.leg_index)
    return f"{one.object_id}: {', '.join(parts)}"


def _about(outcome: Outcome, leg: LegPlan, reference: str) -> str:
    for line in leg.lines:
        if line_reference(leg, line) == reference:
            return _line_words(line)
    kind, _, name = reference.partition(":")
    if kind == "object":
        for thing in outcome.plan.objects:
            if thing.id == name:
                confirm = "; confirm on the chart" if thing.confirm_on_chart else ""
                return f"{thing.id}: {thing.name}{confirm}"
    if kind == "sight":
        for one in sightings(leg):
            if one.object_id == name:
                return _sighting(outcome, leg, one)
    if kind == "index-gap" and name.isdigit() and int(name) < len(leg.index_gaps):
        gap = leg.index_gaps[int(name)]
        return f"No index line for {times.duration(gap.minutes)}. Instead: {gap.substitute}"
    if kind == "hand-over" and name.isdigit() and int(name) < len(leg.hand_overs):
        pass_on = leg.hand_overs[int(name)]
        return (
            f"Hand-over {pass_on.from_object} to {pass_on.to_object}: both usable for "
            f"{times.duration(pass_on.minutes)}"
        )
    if kind == "data-gap" and name.isdigit() and int(name) < len(leg.gaps):
        data_gap = leg.gaps[int(name)]
        return f"Data gap: {causes(data_gap.cause)}, {effects(data_gap.effect)}"
    if kind in ("wheel-over", "turn") and leg.wheel_over is not None:
        turn = leg.wheel_over
        return (
            f"Wheel over {quantities.distance_before_waypoint(turn.distance_before_waypoint_m)} "
            f"before the waypoint for {quantities.track(turn.new_course_deg)}"
        )
    if kind == "scale":
        return "Range scale from here on"
    if kind == "mark":
        return f"Mark {name}"
    return ""


def explain(outcome: Outcome, leg_index: int, strip: Strip, place: Place) -> str:
    """What is at a place of the strip: the thing there, else how far along and across it is."""
    frame = strip.frame
    leg = outcome.plan.legs[leg_index]
    reference = reference_at(strip, place)
    words = _about(outcome, leg, reference) if reference else ""
    if words:
        return words
    if not frame.water.contains(place):
        return ""
    along_m, cross_m = frame.track_coordinates(place)
    side = "starboard" if cross_m > 0.0 else "port"
    across = (
        "on the track" if cross_m == 0.0 else f"{quantities.distance(abs(cross_m), 2)} to {side}"
    )
    return f"{quantities.distance(leg.distance_m - along_m, 2)} to go, {across}"
