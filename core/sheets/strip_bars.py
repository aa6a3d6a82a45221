"""Bars on the two outer edges: windows of the objects of each side, hand-overs, gaps, sight."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from core.base.angles import difference_deg
from core.coverage.result import Effect, FirstSight
from core.geodesy.leg_line import LegLine
from core.passage.passage import Side
from core.plan.result import LegPlan, Role
from core.sheets.page import (
    Anchor,
    Area,
    Dash,
    Hatch,
    Item,
    Rectangle,
    Stroke,
    Text,
    Tone,
    box,
    outline,
)
from core.sheets.strip_frame import EDGE_MM, StripFrame
from core.sheets.strip_lines import line_reference
from core.words.messages import Say

_BAR_MM = 3.6
_GAP_MM = 0.5
_SIGHT_MM = 2.4
_LETTER_PT = 9.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Lane:
    """Bars that share one upright lane without overlapping."""

    spans: list[tuple[float, float]]

    def has_room(self, low_m: float, high_m: float) -> bool:
        return all(high_m <= low or low_m >= high for low, high in self.spans)


def bars(frame: StripFrame, plan: LegPlan, line: LegLine) -> Iterator[Item]:
    """Everything on both outer edges.

    Nearest the water stand the windows of index lines: filled for primary, open for check lines;
    where a hand-over runs both bars are hatched. Outside them a thin upright says from where to
    where an object is in sight. Stretches without an index line are framed on both sides.
    """
    for side in Side:
        lanes: list[_Lane] = []
        yield from _windows(frame, plan, side, lanes)
        yield from _sights(frame, plan, line, side, lanes)
        yield from _index_gaps(frame, plan, side, lanes)
        yield from _data_gaps(frame, plan, side)


def _lane_for(lanes: list[_Lane], low_m: float, high_m: float) -> int:
    """The first lane with room; a new one if there is none."""
    for number, lane in enumerate(lanes):
        if lane.has_room(low_m, high_m):
            lane.spans.append((low_m, high_m))
            return number
    lanes.append(_Lane(spans=[(low_m, high_m)]))
    return len(lanes) - 1


def _bar(frame: StripFrame, side: Side, lane: int, low_m: float, high_m: float) -> Rectangle | None:
    """The box of a bar in a lane, counted from the water outwards; None where none is left."""
    offset = _GAP_MM + lane * (_BAR_MM + _GAP_MM)
    if offset + _BAR_MM > EDGE_MM:
        return None
    top = frame.y_mm(frame.clamp_along(high_m))
    bottom = frame.y_mm(frame.clamp_along(low_m))
    if side is Side.STARBOARD:
        left = frame.water.right_mm + offset
    else:
        left = frame.water.x_mm - offset - _BAR_MM
    return Rectangle(x_mm=left, y_mm=top, width_mm=_BAR_MM, height_mm=max(0.4, bottom - top))


def _windows(frame: StripFrame, plan: LegPlan, side: Side, lanes: list[_Lane]) -> Iterator[Item]:
    for line in plan.lines:
        if line.side is not side or line.role not in (Role.PRIMARY, Role.CHECK):
            continue
        lane = _lane_for(lanes, line.from_along_m, line.to_along_m)
        bar = _bar(frame, side, lane, line.from_along_m, line.to_along_m)
        if bar is None:
            continue
        reference = line_reference(plan, line)
        if line.role is Role.PRIMARY:
            yield box(bar, Tone.PRIMARY, reference=reference)
        else:
            yield box(bar, Tone.PAPER, reference=reference)
            yield outline(bar, width_mm=0.3, tone=Tone.CHECK, reference=reference)
        yield from _hand_over_parts(frame, plan, line.object.id, bar, side, lane)
        yield _letter(frame, bar, line.object.id, reference, is_bold=line.role is Role.PRIMARY)


def _hand_over_parts(
    frame: StripFrame, plan: LegPlan, object_id: str, bar: Rectangle, side: Side, lane: int
) -> Iterator[Item]:
    """The stretch of a bar in which the next or the last object is usable too."""
    for number, hand_over in enumerate(plan.hand_overs):
        if object_id not in (hand_over.from_object, hand_over.to_object):
            continue
        part = _bar(frame, side, lane, hand_over.from_along_m, hand_over.to_along_m)
        if part is None:
            continue
        top, bottom = max(part.y_mm, bar.y_mm), min(part.bottom_mm, bar.bottom_mm)
        if bottom - top < 0.5:
            continue
        inner = Rectangle(x_mm=bar.x_mm, y_mm=top, width_mm=bar.width_mm, height_mm=bottom - top)
        reference = f"hand-over:{number}"
        yield box(inner, Tone.PAPER)
        yield box(inner, Tone.HAND_OVER, hatch=Hatch.LEVEL, reference=reference)
        yield outline(inner, width_mm=0.3, tone=Tone.PRIMARY, reference=reference)


def _letter(
    frame: StripFrame, bar: Rectangle, letter: str, reference: str, *, is_bold: bool
) -> Text:
    """The letter of a bar: below its foot, or above its head where the foot is at the edge."""
    below = bar.bottom_mm + 3.2
    y = below if below < frame.water.bottom_mm + 3.0 else bar.y_mm - 0.8
    return Text(
        x_mm=bar.x_mm + bar.width_mm / 2.0,
        y_mm=y,
        text=letter if len(letter) <= 3 else letter[:2] + "…",
        size_pt=_LETTER_PT,
        is_bold=is_bold,
        anchor=Anchor.MIDDLE,
        reference=reference,
    )


def _side_of_sight(plan: LegPlan, sight: FirstSight, line: LegLine) -> Side:
    """The side an object lies on: that of its line, else of its place."""
    for index_line in plan.lines:
        if index_line.object.id == sight.object_id and index_line.role is not Role.WHEEL_OVER:
            return index_line.side
    _along, cross = line.track_coordinates(
        np.array([sight.position.lat_deg]), np.array([sight.position.lon_deg])
    )
    return Side.STARBOARD if float(cross[0]) >= 0.0 else Side.PORT


def _sights(
    frame: StripFrame, plan: LegPlan, line: LegLine, side: Side, lanes: list[_Lane]
) -> Iterator[Item]:
    """Uprights from where an object comes in sight to where it is lost."""
    for sight in plan.first_sights:
        if sight.in_sight_from is None or _side_of_sight(plan, sight, line) is not side:
            continue
        low = sight.in_sight_from.along_m
        high = plan.distance_m if sight.lost is None else sight.lost.along_m
        if high <= low or not frame.holds_along(max(low, 0.0)):
            continue
        bar = _bar(frame, side, _lane_for(lanes, low, high), low, high)
        if bar is None:
            continue
        x = bar.x_mm + bar.width_mm / 2.0
        reference = f"sight:{sight.object_id}"
        yield Stroke(
            points=((x, bar.bottom_mm), (x, bar.y_mm)),
            width_mm=0.3,
            tone=Tone.COAST_IN_SIGHT,
            reference=reference,
        )
        ends = [bar.bottom_mm] if sight.lost is None else [bar.bottom_mm, bar.y_mm]
        for y in ends:
            yield Stroke(
                points=((x - _SIGHT_MM / 2.0, y), (x + _SIGHT_MM / 2.0, y)),
                width_mm=0.5,
                tone=Tone.COAST_IN_SIGHT,
                reference=reference,
            )
        yield _letter(frame, bar, sight.object_id, reference, is_bold=False)


def _index_gaps(frame: StripFrame, plan: LegPlan, side: Side, lanes: list[_Lane]) -> Iterator[Item]:
    """A dotted frame on both edges with the words «NO INDEX»."""
    for number, gap in enumerate(plan.index_gaps):
        lane = _lane_for(lanes, gap.from_along_m, gap.to_along_m)
        bar = _bar(frame, side, lane, gap.from_along_m, gap.to_along_m)
        if bar is None:
            continue
        reference = f"index-gap:{number}"
        yield outline(bar, width_mm=0.3, tone=Tone.INDEX_GAP, dash=Dash.DOTTED, reference=reference)
        if bar.height_mm > 22.0:
            yield _upright(bar, Say.NO_INDEX, side, Tone.INDEX_GAP, reference)


def _upright(bar: Rectangle, words: str, side: Side, tone: Tone, reference: str) -> Text:
    """Words turned to run along a bar, read from the outside of the page."""
    turn = -90.0 if side is Side.PORT else 90.0
    nudge = 1.1 if side is Side.PORT else -1.1
    return Text(
        x_mm=bar.x_mm + bar.width_mm / 2.0 + nudge,
        y_mm=bar.y_mm + bar.height_mm / 2.0,
        text=words,
        size_pt=_LETTER_PT,
        is_bold=True,
        anchor=Anchor.MIDDLE,
        angle_deg=turn,
        tone=tone,
        reference=reference,
    )


def _data_gaps(frame: StripFrame, plan: LegPlan, side: Side) -> Iterator[Area | Text]:
    """Stretches from which a gap in the data lies to this side: a crossed bar at the very edge."""
    width = 3.0
    for number, gap in enumerate(plan.gaps):
        if gap.effect is Effect.NONE:
            continue
        middle = gap.bearing_from_deg + ((gap.bearing_to_deg - gap.bearing_from_deg) % 360.0) / 2.0
        is_starboard = difference_deg(middle, plan.course_deg) >= 0.0
        if is_starboard is not (side is Side.STARBOARD):
            continue
        top = frame.y_mm(frame.clamp_along(gap.to_along_m))
        bottom = frame.y_mm(frame.clamp_along(gap.from_along_m))
        left = frame.outer.right_mm - width if is_starboard else frame.outer.x_mm
        bar = Rectangle(x_mm=left, y_mm=top, width_mm=width, height_mm=max(1.0, bottom - top))
        yield box(bar, Tone.NO_DATA, hatch=Hatch.CROSSED, reference=f"data-gap:{number}")
