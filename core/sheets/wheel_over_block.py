"""The wheel-over block of a leg sheet: when, where, by which line, checked by what."""

from dataclasses import dataclass

from core.base.language import tr
from core.passage.timetable import Timetable
from core.plan.plan_result import LegPlan, WheelOver
from core.plan.turn_card_result import TurnCard
from core.sheets.page import Anchor, Item, Measure, Rectangle, Stroke, Text, Tone, outline
from core.sheets.wrapping import BODY_PT, line_mm, wrap
from core.words import quantities, times
from core.words.messages import Say
from core.words.turn_words import brief_half_words, brief_radius_words, ring_words

_BAND_MM = 34.0
_NUMBER_PT = 12.0
_LEAD_PT = 10.0
_LEFT_PT = (12.0, 11.0, 10.0, 9.0)
_MOMENT_PT = (18.0, 16.0, 14.0, 12.0)
_BAND_HEIGHT_MM = 19.4
_GAP_MM = 2.5


@dataclass(slots=True)
class _Block:
    """Lines set one under another from the top of the block."""

    x_mm: float
    y_mm: float
    room_mm: float
    measure: Measure
    items: list[Item]

    def lines(self, text: str, size_pt: float, *, is_bold: bool = False) -> None:
        """A paragraph, broken where it must be, never cut."""
        for line in wrap(text, self.room_mm, self.measure, size_pt=size_pt, is_bold=is_bold):
            self._down(size_pt)
            self._put(self.x_mm, line, size_pt, is_bold=is_bold)

    def lead_and_words(self, lead: str, words: str) -> None:
        """A small lead, then what is read at arm's length; below it where there is no room."""
        lead_mm = self.measure.width_mm(lead, size_pt=_LEAD_PT) + _GAP_MM
        wide = self.measure.width_mm(words, size_pt=_NUMBER_PT, is_bold=True)
        if lead_mm + wide <= self.room_mm:
            self._down(_NUMBER_PT)
            self._put(self.x_mm, lead, _LEAD_PT)
            self._put(self.x_mm + lead_mm, words, _NUMBER_PT, is_bold=True)
        else:
            self.lines(lead, _LEAD_PT)
            self.lines(words, _NUMBER_PT, is_bold=True)

    def both_ends(self, left: str, right: str) -> None:
        """Two texts on one line, one at each end; on two lines where they would meet."""
        right_mm = self.measure.width_mm(right, size_pt=_NUMBER_PT, is_bold=True)
        room = self.room_mm - _GAP_MM - right_mm
        size_pt = next(
            (pt for pt in _LEFT_PT if self.measure.width_mm(left, size_pt=pt) <= room), None
        )
        if size_pt is None:
            self.lines(left, _NUMBER_PT)
        else:
            self._put(self.x_mm, left, size_pt, below_mm=line_mm(_NUMBER_PT))
        self._down(_NUMBER_PT)
        self.items.append(
            Text(
                x_mm=self.x_mm + self.room_mm,
                y_mm=self.y_mm - 1.2,
                text=right,
                size_pt=_NUMBER_PT,
                is_bold=True,
                anchor=Anchor.END,
            )
        )

    def _down(self, size_pt: float) -> None:
        self.y_mm += line_mm(size_pt)

    def _put(
        self,
        x_mm: float,
        text: str,
        size_pt: float,
        *,
        is_bold: bool = False,
        below_mm: float = 0.0,
    ) -> None:
        self.items.append(
            Text(
                x_mm=x_mm,
                y_mm=self.y_mm + below_mm - 1.2,
                text=text,
                size_pt=size_pt,
                is_bold=is_bold,
                reference="wheel-over" if is_bold else "",
            )
        )


def wheel_over_block(
    plan: LegPlan,
    timetable: Timetable,
    to_name: str,
    *,
    x_mm: float,
    y_mm: float,
    width_mm: float,
    measure: Measure,
) -> tuple[tuple[Item, ...], float]:
    """When and where the wheel goes over, by which line, checked by what; and the y below."""
    turn = plan.wheel_over
    if turn is None:
        words = Say.NO_WHEEL_OVER.format(reason=plan.wheel_over_reason)
        block = _Block(x_mm + 1.0, y_mm + 0.8, width_mm - 2.0, measure, [])
        block.lines(words, _LEAD_PT)
        return tuple(block.items), block.y_mm + 1.0
    block = _Block(x_mm + _BAND_MM + 2.5, y_mm + 1.4, width_mm - _BAND_MM - 4.5, measure, [])
    direction = Say.TO_STARBOARD if turn.alteration_deg > 0.0 else Say.TO_PORT
    block.both_ends(
        f"{quantities.distance_before_waypoint(turn.distance_before_waypoint_m)} "
        f"{Say.BEFORE_WAYPOINT} {to_name}",
        f"{direction} {Say.NEW_COURSE.lower()} {quantities.track(turn.new_course_deg)}",
    )
    _line(block, turn)
    _second_mark(block, turn)
    _card_lines(block, plan.turn_card)
    block.lines(_turn_details(plan, turn, timetable), BODY_PT)
    height = max(_BAND_HEIGHT_MM, block.y_mm - y_mm + 1.2)
    frame = Rectangle(x_mm=x_mm, y_mm=y_mm, width_mm=width_mm, height_mm=height)
    return (
        Stroke(
            points=((x_mm + _BAND_MM, y_mm), (x_mm + _BAND_MM, y_mm + height)),
            width_mm=0.25,
            tone=Tone.RULE,
        ),
        outline(frame, width_mm=0.5, tone=Tone.INK, reference="wheel-over"),
        *_band(plan, turn, timetable, x_mm, y_mm, measure),
        *block.items,
    ), y_mm + height


def _band(
    plan: LegPlan,
    turn: WheelOver,
    timetable: Timetable,
    x_mm: float,
    y_mm: float,
    measure: Measure,
) -> tuple[Item, ...]:
    """The moment, large, and a line for the moment it was done."""
    moment = times.when_early(timetable, plan.leg_index, turn.along_m)
    zone = times.zone_short(timetable)
    zone_mm = measure.width_mm(zone, size_pt=BODY_PT)

    def row_mm(size_pt: float) -> float:
        return measure.width_mm(moment, size_pt=size_pt, is_bold=True) + 1.5 + zone_mm

    size_pt = next((pt for pt in _MOMENT_PT if row_mm(pt) <= _BAND_MM - 2.0), _MOMENT_PT[-1])
    left = x_mm + (_BAND_MM - row_mm(size_pt)) / 2.0
    actual_mm = measure.width_mm(Say.ACTUAL, size_pt=BODY_PT)
    return (
        Text(
            x_mm=x_mm + _BAND_MM / 2.0,
            y_mm=y_mm + 5.2,
            text=Say.WHEEL_OVER_TABLE,
            size_pt=11.0,
            is_bold=True,
            anchor=Anchor.MIDDLE,
        ),
        Text(
            x_mm=left,
            y_mm=y_mm + 12.6,
            text=moment,
            size_pt=size_pt,
            is_bold=True,
            reference="wheel-over",
        ),
        Text(
            x_mm=left + row_mm(size_pt) - zone_mm,
            y_mm=y_mm + 12.6,
            text=zone,
            size_pt=BODY_PT,
        ),
        Text(x_mm=x_mm + 2.0, y_mm=y_mm + 17.9, text=Say.ACTUAL, size_pt=BODY_PT),
        Stroke(
            points=(
                (x_mm + 2.0 + actual_mm + 1.2, y_mm + 18.3),
                (x_mm + _BAND_MM - 2.0, y_mm + 18.3),
            ),
            width_mm=0.2,
            tone=Tone.RULE,
        ),
    )


def _line(block: _Block, turn: WheelOver) -> None:
    line = turn.line
    if line is None:
        block.lines(Say.NO_WHEEL_OVER_LINE.format(reason=turn.line_reason), BODY_PT)
        return
    number = quantities.index_range(line.cross_index_range_m, line.range_scale_m)
    star = " *" if line.object.confirm_on_chart else ""
    block.lead_and_words(
        f"{Say.WHEN_ON_LINE} {quantities.line_directions(line.line_bearing_deg)}:",
        f"{line.object.id}{star}  {quantities.side(line.side)}  {number}",
    )


def _second_mark(block: _Block, turn: WheelOver) -> None:
    mark = turn.second_mark
    if mark is None:
        block.lines(Say.NO_SECOND_MARK.format(reason=turn.second_mark_reason), BODY_PT)
        return
    star = " *" if mark.object.confirm_on_chart else ""
    block.lead_and_words(
        f"{Say.SECOND_MARK}:",
        f"{mark.object.id}{star}  {quantities.radar_range(mark.range_m)}  "
        f"{quantities.course(mark.bearing_deg)}",
    )


def _card_lines(block: _Block, card: TurnCard | None) -> None:
    """The ring of the turn, and the line of its half turn where it is large."""
    if card is not None and card.half is not None:
        block.lead_and_words(f"{Say.HALF_TURN}:", brief_half_words(card.half))
    if card is not None and card.ring is not None:
        star = " *" if card.ring.object.confirm_on_chart else ""
        block.lead_and_words(
            f"{Say.RING}:", f"{card.ring.object.id}{star}  {ring_words(card, card.ring)}"
        )


def _turn_details(plan: LegPlan, turn: WheelOver, timetable: Timetable) -> str:
    alerts = ", ".join(
        times.when_early(timetable, plan.leg_index, along_m) for along_m in turn.pre_alert_along_m
    )
    parts = [
        brief_radius_words(turn),
        tr("turning {rate}", rate=quantities.rate_of_turn(turn.rate_of_turn_deg_per_min)),
        f"{Say.CORNER_CUT} {quantities.distance(turn.corner_cut_m, 2)}",
    ]
    card = plan.turn_card
    if card is not None:
        parts.insert(2, Say.ON_ARC.format(minutes=f"{card.arc_minutes:.1f}"))
        if card.drift_m is not None and card.drift_deg is not None:
            drift = Say.DRIFT_ON_ARC.format(
                distance=quantities.distance(card.drift_m, 2),
                direction=quantities.course(card.drift_deg),
            )
            parts.insert(3, drift)
    if alerts:
        # A time from the start says so by its sign.
        zone = f" {times.ZONE}" if timetable.start_utc is not None else ""
        parts.append(f"{Say.PRE_ALERTS} {alerts}{zone}")
    return "; ".join(parts)
