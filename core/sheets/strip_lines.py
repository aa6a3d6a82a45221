"""Corridor, index lines, margins, wheel-over and objects on the water of the leg strip.

Line styles follow the print convention of the trade: index solid, margin broken, wheel-over
pecked (common practice, no source).
"""

import math
from collections.abc import Iterator

import numpy as np
from shapely.geometry import LineString, box

from core.base.arrays import FloatArray
from core.geodesy.leg_line import LegLine
from core.geodesy.position import Position
from core.passage.passage import Side
from core.plan.plan_result import IndexLine, IndexObject, LegPlan, Role, WheelOver
from core.sheets.labels import Labels
from core.sheets.page import Dash, Item, Rectangle, Shape, Stroke, Symbol, Tone
from core.sheets.strip_frame import StripFrame

LETTER_PT = 11.0
LABEL_PT = 9.0

STYLES = {
    Role.PRIMARY: (Tone.PRIMARY, 0.55, Dash.SOLID),
    Role.CHECK: (Tone.CHECK, 0.3, Dash.SOLID),
    Role.MARGIN: (Tone.MARGIN, 0.4, Dash.BROKEN),
    Role.WHEEL_OVER: (Tone.WHEEL_OVER, 0.45, Dash.PECKED),
}


def line_reference(plan: LegPlan, line: IndexLine) -> str:
    """Reference id of an index line: ``line:`` and its place in the leg's lines."""
    return f"line:{plan.lines.index(line)}" if line in plan.lines else "line:wheel-over"


def object_reference(thing: IndexObject) -> str:
    """Reference id of an object: ``object:`` and its id."""
    return f"object:{thing.id}"


def corridor(frame: StripFrame, plan: LegPlan) -> Iterator[Stroke]:
    """The two edges of the corridor, thin, from waypoint to waypoint."""
    for offset_m in (-plan.corridor_port_m, plan.corridor_starboard_m):
        if 0.0 < abs(offset_m) < frame.half_width_m:
            yield Stroke(
                points=(frame.place(0.0, offset_m), frame.place(plan.distance_m, offset_m)),
                width_mm=0.18,
                tone=Tone.CORRIDOR,
                reference="corridor",
            )


def signed_m(line: IndexLine) -> float:
    """Cross-index range with its side: starboard positive."""
    return line.cross_index_range_m if line.side is Side.STARBOARD else -line.cross_index_range_m


def index_lines(frame: StripFrame, plan: LegPlan) -> Iterator[Stroke]:
    """Primary, check and margin lines: straight up the page over their windows."""
    for line in plan.lines:
        cross_m = signed_m(line)
        if line.role is Role.WHEEL_OVER or abs(cross_m) > frame.half_width_m:
            continue
        tone, width, dash = STYLES[line.role]
        low = frame.clamp_along(line.from_along_m)
        high = frame.clamp_along(line.to_along_m)
        yield Stroke(
            points=(frame.place(low, cross_m), frame.place(high, cross_m)),
            width_mm=width,
            tone=tone,
            dash=dash,
            reference=line_reference(plan, line),
        )


def turn(
    frame: StripFrame, plan: LegPlan, turn_of: WheelOver, line: LegLine, after: LegLine
) -> Iterator[Item]:
    """The wheel-over line, parallel to the new course through its place, and the turn itself."""
    angle = math.radians(turn_of.alteration_deg)
    reach = 4.0 * frame.half_width_m
    ends = np.array([-reach, reach])
    # The line through the wheel-over position parallel to the new course (plane, on the page).
    yield from _cut(
        frame,
        turn_of.along_m + ends * math.cos(angle),
        ends * math.sin(angle),
        width_mm=STYLES[Role.WHEEL_OVER][1],
        tone=Tone.WHEEL_OVER,
        dash=Dash.PECKED,
        reference="wheel-over",
    )
    along, cross = _turn_path(turn_of)
    next_along, next_cross = _next_leg(line, after, turn_of, frame)
    yield from _cut(
        frame,
        np.concatenate([along, next_along]),
        np.concatenate([cross, next_cross]),
        width_mm=0.6,
        tone=Tone.TRACK,
        dash=Dash.SOLID,
        reference="turn",
    )
    if plan.distance_m <= frame.high_along_m:
        yield Symbol(
            x_mm=frame.middle_mm,
            y_mm=frame.y_mm(turn_of.along_m),
            shape=Shape.RING,
            size_mm=2.6,
            tone=Tone.WHEEL_OVER,
            is_filled=False,
            reference="wheel-over",
        )


def _turn_path(turn_of: WheelOver) -> tuple[FloatArray, FloatArray]:
    """Along and cross of the turn: the response straight on, then the arc, plane geometry."""
    angle = math.radians(abs(turn_of.alteration_deg))
    radius = turn_of.turn_radius_m
    response = turn_of.distance_before_waypoint_m - radius * math.tan(angle / 2.0)
    start = turn_of.along_m + max(0.0, response)
    turned = np.linspace(0.0, angle, 25)
    along = start + radius * np.sin(turned)
    cross = math.copysign(1.0, turn_of.alteration_deg) * radius * (1.0 - np.cos(turned))
    return along, cross


def _next_leg(
    line: LegLine, after: LegLine, turn_of: WheelOver, frame: StripFrame
) -> tuple[FloatArray, FloatArray]:
    """Along and cross of the next leg from the end of the turn as far as the strip reaches."""
    tangent = turn_of.turn_radius_m * math.tan(math.radians(abs(turn_of.alteration_deg)) / 2.0)
    reach = min(after.length_m, 4.0 * frame.half_width_m)
    if tangent >= reach:
        return np.zeros(0), np.zeros(0)
    lats, lons, _courses = after.at(np.linspace(tangent, reach, 12))
    return line.track_coordinates(lats, lons)


def _cut(
    frame: StripFrame,
    along_m: FloatArray,
    cross_m: FloatArray,
    *,
    width_mm: float,
    tone: Tone,
    dash: Dash,
    reference: str,
) -> Iterator[Stroke]:
    """A line in track coordinates cut to each half of the water."""
    order = list(zip(along_m.tolist(), cross_m.tolist(), strict=True))
    if len(order) < 2:
        return
    along, cross = np.array([p[0] for p in order]), np.array([p[1] for p in order])
    for side in Side:
        half = frame.half(side)
        whole = LineString(frame.half_places(along, cross, side))
        part = whole.intersection(box(half.x_mm, half.y_mm, half.right_mm, half.bottom_mm))
        for piece in getattr(part, "geoms", (part,)):
            if isinstance(piece, LineString) and piece.length > 0.2:
                places = tuple((float(x), float(y)) for x, y in piece.coords)
                yield Stroke(
                    points=places, width_mm=width_mm, tone=tone, dash=dash, reference=reference
                )


def placed(
    frame: StripFrame, line: LegLine, positions: list[Position]
) -> list[tuple[float, float] | None]:
    """Along and cross of places, None for those outside the water."""
    if not positions:
        return []
    along, cross = line.track_coordinates(
        np.array([p.lat_deg for p in positions]), np.array([p.lon_deg for p in positions])
    )
    return [
        (float(a), float(c)) if frame.holds_along(a) and abs(c) <= frame.half_width_m else None
        for a, c in zip(along, cross, strict=True)
    ]


def keep_lines_clear(frame: StripFrame, plan: LegPlan, labels: Labels) -> None:
    """Ask labels not to break index lines where they can stand elsewhere."""
    for stroke in index_lines(frame, plan):
        (x, bottom), (_x, top) = stroke.points
        labels.rather_not(
            Rectangle(x_mm=x - 0.3, y_mm=top, width_mm=0.6, height_mm=max(0.1, bottom - top))
        )
