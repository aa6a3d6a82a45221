"""Flagged emergences on the strip: an arrow to the track from the side a craft may come from.

It stands where own ship is when the craft of the plan's middle speed first comes in sight.
"""

from collections.abc import Iterable, Iterator

from core.passage.passage import Side
from core.plan.emergence_result import Alarm
from core.plan.plan_result import LegPlan
from core.sheets.page import Item, Rectangle, Stroke, Tone
from core.sheets.strip_frame import StripFrame

_LONG_MM = 5.0
_HEAD_MM = 2.4
_HALF_MM = 1.5
_PEN_MM = 0.5


def emergence_marks(frame: StripFrame, plan: LegPlan) -> Iterator[Item]:
    """An arrow for each head whose warning is too short."""
    for side, y, number in _places(frame, plan):
        edge, sign = frame.spine_edge_mm(side), -1.0 if side is Side.PORT else 1.0
        for points in (
            ((edge + sign * _LONG_MM, y), (edge, y)),
            (
                (edge + sign * _HEAD_MM, y - _HALF_MM),
                (edge, y),
                (edge + sign * _HEAD_MM, y + _HALF_MM),
            ),
        ):
            yield Stroke(
                points=points, width_mm=_PEN_MM, tone=Tone.INK, reference=f"emergence:{number}"
            )


def emergence_boxes(frame: StripFrame, plan: LegPlan) -> Iterator[Rectangle]:
    """Room that no label is to take."""
    for side, y, _number in _places(frame, plan):
        edge = frame.spine_edge_mm(side)
        yield Rectangle(
            x_mm=edge - _LONG_MM if side is Side.PORT else edge,
            y_mm=y - _HALF_MM,
            width_mm=_LONG_MM,
            height_mm=2.0 * _HALF_MM,
        )


def emergence_swatch(x: float, y: float) -> Iterable[Item]:
    """The same arrow for the key."""
    for points in (
        ((x, y), (x + _LONG_MM, y)),
        (
            (x + _LONG_MM - _HEAD_MM, y - _HALF_MM),
            (x + _LONG_MM, y),
            (x + _LONG_MM - _HEAD_MM, y + _HALF_MM),
        ),
    ):
        yield Stroke(points=points, width_mm=_PEN_MM, tone=Tone.INK)


def _places(frame: StripFrame, plan: LegPlan) -> Iterator[tuple[Side, float, int]]:
    for head in () if plan.waters is None else plan.waters.emergences:
        own_m = head.deciding.own_along_m
        if head.alarm is Alarm.NONE or own_m is None or not frame.holds_along(own_m):
            continue
        yield head.side, frame.y_mm(own_m), head.number
