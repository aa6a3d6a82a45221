"""Bars on the two outer edges: windows of the objects of each side, hand-overs, gaps, sight.

Each object has one upright lane on its side: a bar where an index line on it may be used, filled
for a primary and open for a check line, and outside the bar a thin upright with the limits of its
first paint (``strip_sight.py``). Where a hand-over runs, the bars are hatched.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field

import numpy as np

from core.base.angles import difference_deg
from core.coverage.coverage_result import Effect, Gap
from core.geodesy.leg_line import LegLine
from core.passage.passage import Side
from core.plan.intervals import Intervals, difference
from core.plan.plan_result import IndexLine, LegPlan, Role
from core.sheets.bar_names import BarNames, BarPart
from core.sheets.page import (
    Anchor,
    Dash,
    Hatch,
    Item,
    Measure,
    Rectangle,
    Text,
    Tone,
    box,
    outline,
)
from core.sheets.short_names import short_names
from core.sheets.strip_frame import EDGE_MM, StripFrame
from core.sheets.strip_lines import line_reference
from core.sheets.strip_sight import Upright, upright_items, upright_of
from core.words.messages import Say
from core.words.paint_words import Sighting, sightings

_LANE_MM = 5.0
_FIRST_MM = 0.8
_BAR_MM = 3.4
_SIGHT_MM = 4.1
"""From the water side of a lane to the upright of sight."""
_DATA_GAP_MM = 2.4
_LETTER_PT = 9.0
_MOST_LANES = 3
_LETTER_RATIO = 0.06
"""Room for a letter as a share of the leg."""


@dataclass(slots=True, kw_only=True)
class _ObjectLane:
    """What one object needs on its side."""

    object_id: str
    lines: list[IndexLine] = field(default_factory=list)
    upright: Upright | None = None

    def span(self, plan: LegPlan) -> tuple[float, float]:
        lows = [line.from_along_m for line in self.lines]
        highs = [line.to_along_m for line in self.lines]
        if self.upright is not None:
            low, high = self.upright.span
            lows.append(low)
            highs.append(high)
        return min(lows), max(highs)


def edges_mm(plan: LegPlan, line: LegLine) -> tuple[float, float]:
    """Room that the bars of each side need, port first, mm."""
    needed = []
    for side in Side:
        taken: list[list[tuple[float, float]]] = []
        for lane_of in _object_lanes(plan, line, side):
            _free_lane(taken, plan, *lane_of.span(plan))
        for gap in plan.index_gaps:
            _free_lane(taken, plan, gap.from_along_m, gap.to_along_m)
        has_gap = any(True for _gap in _gaps_of(plan, side))
        width = _FIRST_MM + _LANE_MM * len(taken) + (_DATA_GAP_MM + 0.6 if has_gap else 0.0)
        needed.append(max(EDGE_MM, width))
    return needed[0], needed[1]


def bars(frame: StripFrame, plan: LegPlan, line: LegLine, measure: Measure) -> Iterator[Item]:
    """Everything on both outer edges."""
    shorts = short_names(plan)
    for side in Side:
        taken: list[list[tuple[float, float]]] = []
        names = BarNames(frame, side, measure)
        drawn: list[_Drawn] = []
        for lane_of in _object_lanes(plan, line, side):
            lane = _free_lane(taken, plan, *lane_of.span(plan))
            if lane is not None:
                one = _draw(frame, plan, side, lane, lane_of)
                drawn.append(one)
                yield from one.items
        for item in (*_index_gaps(frame, plan, side, taken), *_data_gaps(frame, plan, side)):
            names.keep_free(item)
            yield item
        for one in drawn:
            names.keep_bars(one.parts)
            for item in one.items:
                names.keep_free(item)
        for one in drawn:
            yield from names.place(
                one.lane_of.object_id,
                shorts.get(one.lane_of.object_id, one.lane_of.object_id),
                one.parts,
                span=one.span,
                is_bold=one.is_primary,
                reference=one.reference,
            )


def _object_lanes(plan: LegPlan, line: LegLine, side: Side) -> list[_ObjectLane]:
    """Objects of a side: those with index lines in order of use, then those of the turn."""
    lanes: dict[str, _ObjectLane] = {}
    for index_line in plan.lines:
        if index_line.side is side and index_line.role in (Role.PRIMARY, Role.CHECK):
            key = index_line.object.id
            lanes.setdefault(key, _ObjectLane(object_id=key)).lines.append(index_line)
    for one in sightings(plan):
        upright = upright_of(one, plan)
        if upright is None:
            continue
        if one.object_id in lanes:
            lanes[one.object_id].upright = upright
        elif one.object_id in _turn_objects(plan) and _side_of(one, line) is side:
            lanes[one.object_id] = _ObjectLane(object_id=one.object_id, upright=upright)
    if len(lanes) <= _MOST_LANES:
        return list(lanes.values())
    # Too many for a lane each: windows share lanes, and the table alone says what is in sight.
    crowded = [lane_of for lane_of in lanes.values() if lane_of.lines]
    for lane_of in crowded:
        lane_of.upright = None
    return crowded


def _turn_objects(plan: LegPlan) -> set[str]:
    """Objects that the wheel-over needs and no index line of the leg uses."""
    turn = plan.wheel_over
    if turn is None:
        return set()
    found = {line.object.id for line in (turn.line,) if line is not None}
    found |= {mark.object.id for mark in (turn.second_mark,) if mark is not None}
    return found - {
        line.object.id for line in plan.lines if line.role in (Role.PRIMARY, Role.CHECK)
    }


def _side_of(one: Sighting, line: LegLine) -> Side:
    _along, cross = line.track_coordinates(
        np.array([one.thing.position.lat_deg]), np.array([one.thing.position.lon_deg])
    )
    return Side.STARBOARD if float(cross[0]) >= 0.0 else Side.PORT


def _free_lane(
    taken: list[list[tuple[float, float]]], plan: LegPlan, low_m: float, high_m: float
) -> int | None:
    """The first lane with room, as a number from the water outwards; None where none is left.

    Each bar keeps some room below it for its letter.
    """
    low_m -= _LETTER_RATIO * plan.distance_m
    for number in range(_MOST_LANES):
        if number == len(taken):
            taken.append([])
        if all(high_m <= low or low_m >= high for low, high in taken[number]):
            taken[number].append((low_m, high_m))
            return number
    return None


def _outward_mm(frame: StripFrame, side: Side, offset_mm: float) -> float:
    """X of a place some way outside the water."""
    if side is Side.STARBOARD:
        return frame.water.right_mm + offset_mm
    return frame.water.x_mm - offset_mm


def _bar(frame: StripFrame, side: Side, lane: int, low_m: float, high_m: float) -> Rectangle:
    near = _outward_mm(frame, side, _FIRST_MM + lane * _LANE_MM)
    top = frame.y_mm(frame.clamp_along(high_m))
    bottom = frame.y_mm(frame.clamp_along(low_m))
    return Rectangle(
        x_mm=near if side is Side.STARBOARD else near - _BAR_MM,
        y_mm=top,
        width_mm=_BAR_MM,
        height_mm=max(0.6, bottom - top),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Drawn:
    """One object's lane as drawn, still without its name."""

    lane_of: _ObjectLane
    items: tuple[Item, ...]
    parts: tuple[BarPart, ...]
    span: Rectangle
    is_primary: bool
    reference: str


def _draw(frame: StripFrame, plan: LegPlan, side: Side, lane: int, lane_of: _ObjectLane) -> _Drawn:
    items: list[Item] = []
    parts: list[BarPart] = []
    if lane_of.upright is not None:
        x_mm = _outward_mm(frame, side, _FIRST_MM + lane * _LANE_MM + _SIGHT_MM)
        items.extend(upright_items(frame, x_mm, lane_of.upright))
    reference = f"sight:{lane_of.object_id}"
    for line in lane_of.lines:
        reference = line_reference(plan, line)
        is_filled = line.role is Role.PRIMARY
        bar = _bar(frame, side, lane, line.from_along_m, line.to_along_m)
        items.append(box(bar, Tone.PRIMARY if is_filled else Tone.PAPER, reference=reference))
        if not is_filled:
            items.append(outline(bar, width_mm=0.3, tone=Tone.CHECK, reference=reference))
        items.extend(_hand_over_parts(frame, plan, line.object.id, bar, side, lane))
        parts.append(BarPart(bar=bar, is_filled=is_filled, is_plain=False))
        parts.extend(
            BarPart(bar=_bar(frame, side, lane, low, high), is_filled=is_filled, is_plain=True)
            for low, high in _without_hand_overs(plan, line)
        )
    return _Drawn(
        lane_of=lane_of,
        items=tuple(items),
        parts=tuple(parts),
        span=_bar(frame, side, lane, *lane_of.span(plan)),
        is_primary=any(line.role is Role.PRIMARY for line in lane_of.lines),
        reference=reference,
    )


def _without_hand_overs(plan: LegPlan, line: IndexLine) -> Intervals:
    parts: Intervals = ((line.from_along_m, line.to_along_m),)
    for hand_over in plan.hand_overs:
        if line.object.id in (hand_over.from_object, hand_over.to_object):
            parts = difference(parts, ((hand_over.from_along_m, hand_over.to_along_m),))
    return parts


def _hand_over_parts(
    frame: StripFrame, plan: LegPlan, object_id: str, bar: Rectangle, side: Side, lane: int
) -> Iterator[Item]:
    """The stretch of a bar in which the next or the last object is usable too."""
    for number, hand_over in enumerate(plan.hand_overs):
        if object_id not in (hand_over.from_object, hand_over.to_object):
            continue
        part = _bar(frame, side, lane, hand_over.from_along_m, hand_over.to_along_m)
        top, bottom = max(part.y_mm, bar.y_mm), min(part.bottom_mm, bar.bottom_mm)
        if bottom - top < 0.5:
            continue
        inner = Rectangle(x_mm=bar.x_mm, y_mm=top, width_mm=bar.width_mm, height_mm=bottom - top)
        reference = f"hand-over:{number}"
        yield box(inner, Tone.PAPER)
        yield box(inner, Tone.HAND_OVER, hatch=Hatch.LEVEL, reference=reference)
        yield outline(inner, width_mm=0.3, tone=Tone.PRIMARY, reference=reference)


def _index_gaps(
    frame: StripFrame, plan: LegPlan, side: Side, taken: list[list[tuple[float, float]]]
) -> Iterator[Item]:
    """A dotted frame on both edges with the words «NO INDEX»."""
    for number, gap in enumerate(plan.index_gaps):
        lane = _free_lane(taken, plan, gap.from_along_m, gap.to_along_m)
        if lane is None:
            continue
        narrow = _bar(frame, side, lane, gap.from_along_m, gap.to_along_m)
        bar = Rectangle(
            x_mm=narrow.x_mm - (_LANE_MM - _BAR_MM) * (side is Side.PORT) * 0.8,
            y_mm=narrow.y_mm,
            width_mm=_BAR_MM + 0.8 * (_LANE_MM - _BAR_MM),
            height_mm=narrow.height_mm,
        )
        reference = f"index-gap:{number}"
        yield outline(
            bar, width_mm=0.35, tone=Tone.INDEX_GAP, dash=Dash.DOTTED, reference=reference
        )
        if bar.height_mm > 22.0:
            yield Text(
                x_mm=bar.x_mm + bar.width_mm / 2.0 + (1.1 if side is Side.PORT else -1.1),
                y_mm=bar.y_mm + bar.height_mm / 2.0,
                text=Say.NO_INDEX,
                size_pt=_LETTER_PT,
                is_bold=True,
                anchor=Anchor.MIDDLE,
                angle_deg=-90.0 if side is Side.PORT else 90.0,
                tone=Tone.INDEX_GAP,
                reference=reference,
            )


def _data_gaps(frame: StripFrame, plan: LegPlan, side: Side) -> Iterator[Item]:
    """Stretches from which a gap in the data lies to this side: a crossed bar at the very edge."""
    is_starboard = side is Side.STARBOARD
    for number, gap in _gaps_of(plan, side):
        top = frame.y_mm(frame.clamp_along(gap.to_along_m))
        bottom = frame.y_mm(frame.clamp_along(gap.from_along_m))
        bar = Rectangle(
            x_mm=frame.outer.right_mm - _DATA_GAP_MM if is_starboard else frame.outer.x_mm,
            y_mm=top,
            width_mm=_DATA_GAP_MM,
            height_mm=max(1.0, bottom - top),
        )
        reference = f"data-gap:{number}"
        yield box(bar, Tone.NO_DATA, hatch=Hatch.CROSSED, reference=reference)
        yield outline(bar, width_mm=0.25, tone=Tone.NO_DATA, reference=reference)


def _gaps_of(plan: LegPlan, side: Side) -> Iterator[tuple[int, Gap]]:
    """Gaps in the data that matter and lie mostly to one side, with their place in the plan."""
    for number, gap in enumerate(plan.gaps):
        if gap.effect is Effect.NONE:
            continue
        middle = gap.bearing_from_deg + ((gap.bearing_to_deg - gap.bearing_from_deg) % 360.0) / 2.0
        is_starboard = difference_deg(middle, plan.course_deg) >= 0.0
        if is_starboard is (side is Side.STARBOARD):
            yield number, gap
