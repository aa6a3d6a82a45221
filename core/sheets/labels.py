"""Labels that keep out of each other's way: one placer for the whole strip."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import IntEnum
from itertools import pairwise

from core.sheets.page import Item, Measure, Place, Rectangle, Stroke, Text, text_box

_PIECE_MM = 2.0
_PAD_MM = 0.4
_UPRIGHT_PAD_MM = 0.2


class Over(IntEnum):
    """What a label may cover where nothing better is left; texts and the ruler never."""

    NOTHING = 0
    COAST = 1
    LINES = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Lines that stand or fall together, and a line that leads from them to what they name."""

    texts: tuple[Text, ...]
    leader: Stroke | None = None


class Labels:
    """Places labels one after another; the first one asked for wins its place.

    Ask in order of importance. What finds no room is left out: tables hold every number.
    """

    def __init__(self, measure: Measure, room: Rectangle) -> None:
        self._measure = measure
        self._room = room
        self._taken: list[Rectangle] = []
        self._avoided: dict[Over, list[Rectangle]] = {Over.COAST: [], Over.LINES: []}

    def keep_free(self, rectangle: Rectangle) -> None:
        """Let no label stand in a box."""
        self._taken.append(rectangle)

    def is_free(self, rectangle: Rectangle) -> bool:
        """Whether no label or sign stands in a box."""
        return not _meets_any([rectangle], self._taken)

    def rather_not(self, rectangle: Rectangle, what: Over = Over.LINES) -> None:
        """Let labels stand in a box only where they may cover such things."""
        self._avoided[what].append(rectangle)

    def rather_not_cross(self, points: Sequence[Place], what: Over) -> None:
        """The same for a line through places."""
        self._avoided[what].extend(_pieces(points))

    def place(self, candidates: Iterable[Block], over: Over = Over.NOTHING) -> tuple[Item, ...]:
        """The first candidate inside the room that touches nothing it may not cover.

        Returns
        -------
        tuple of Item
            Its leader, if it has one, and its texts; empty where none fits.
        """
        avoided = [box for what, boxes in self._avoided.items() if what > over for box in boxes]
        for block in candidates:
            boxes = [self._box(text) for text in block.texts]
            if not all(map(self._is_inside, boxes)):
                continue
            pieces = _pieces(block.leader.points) if block.leader is not None else []
            if _meets_any(boxes, self._taken) or _meets_any(pieces, self._taken):
                continue
            if _meets_any(boxes, avoided):
                continue
            self._taken.extend((*boxes, *pieces))
            leader = () if block.leader is None else (block.leader,)
            return (*leader, *block.texts)
        return ()

    def place_as_can_be(
        self, candidates: Sequence[Block], most: Over = Over.LINES
    ) -> tuple[Item, ...]:
        """The same, covering coast and then lines before the label is left out."""
        for over in Over:
            if over <= most and (placed := self.place(candidates, over)):
                return placed
        return ()

    def _box(self, text: Text) -> Rectangle:
        across, upright = _PAD_MM, _UPRIGHT_PAD_MM
        if text.angle_deg:
            across, upright = upright, across
        box = text_box(text, self._measure)
        return Rectangle(
            x_mm=box.x_mm - across,
            y_mm=box.y_mm - upright,
            width_mm=box.width_mm + 2.0 * across,
            height_mm=box.height_mm + 2.0 * upright,
        )

    def _is_inside(self, rectangle: Rectangle) -> bool:
        corners = (
            (rectangle.x_mm, rectangle.y_mm),
            (rectangle.right_mm, rectangle.bottom_mm),
        )
        return all(self._room.contains(corner, slack_mm=_PAD_MM) for corner in corners)


def _pieces(points: Sequence[Place]) -> list[Rectangle]:
    """Short pieces of a line: the box of a long slanting one would take half the water."""
    pieces = []
    for (x, y), (next_x, next_y) in pairwise(points):
        count = max(1, int(math.hypot(next_x - x, next_y - y) / _PIECE_MM))
        step_x, step_y = (next_x - x) / count, (next_y - y) / count
        for number in range(count):
            low_x, low_y = x + number * step_x, y + number * step_y
            pieces.append(
                Rectangle(
                    x_mm=min(low_x, low_x + step_x),
                    y_mm=min(low_y, low_y + step_y),
                    width_mm=abs(step_x) + 0.01,
                    height_mm=abs(step_y) + 0.01,
                )
            )
    return pieces


def _meets_any(boxes: Iterable[Rectangle], others: Sequence[Rectangle]) -> bool:
    return any(rectangle.meets(other) for rectangle in boxes for other in others)
