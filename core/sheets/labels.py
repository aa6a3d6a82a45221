"""Labels that keep out of each other's way."""

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

from core.sheets.page import Measure, Place, Rectangle, Text, text_box

_PIECE_MM = 2.0
_PAD_MM = 0.4


class Labels:
    """Places labels one after another; the first one asked for wins its place.

    Ask in order of importance. What finds no room is left out: tables hold every number.
    """

    def __init__(self, measure: Measure, room: Rectangle) -> None:
        self._measure = measure
        self._room = room
        self._taken: list[Rectangle] = []
        self._barred: list[Rectangle] = []
        self._avoided: list[Rectangle] = []

    def keep_free(self, rectangle: Rectangle) -> None:
        """Let no label stand in a box."""
        self._taken.append(rectangle)

    def bar(self, rectangle: Rectangle) -> None:
        """Let no label stand in a box, not even one that must stand somewhere."""
        self._barred.append(rectangle)

    def rather_not(self, rectangle: Rectangle) -> None:
        """Let labels stand in a box only where there is no other room for them."""
        self._avoided.append(rectangle)

    def rather_not_cross(self, points: Sequence[Place]) -> None:
        """The same for a line through places."""
        for (x, y), (next_x, next_y) in pairwise(points):
            # Short pieces, since the box of a long slanting one would take half the water.
            count = max(1, int(math.hypot(next_x - x, next_y - y) / _PIECE_MM))
            step_x, step_y = (next_x - x) / count, (next_y - y) / count
            for number in range(count):
                low_x, low_y = x + number * step_x, y + number * step_y
                self._avoided.append(
                    Rectangle(
                        x_mm=min(low_x, low_x + step_x),
                        y_mm=min(low_y, low_y + step_y),
                        width_mm=abs(step_x) + 0.01,
                        height_mm=abs(step_y) + 0.01,
                    )
                )

    def place(
        self,
        candidates: Sequence[Text | tuple[Text, ...]],
        *,
        must: bool = False,
        is_strict: bool = False,
    ) -> tuple[Text, ...]:
        """The first candidate that fits inside the room and touches nothing; empty without.

        A candidate is a text, or a block of lines that stand or fall together. With
        ``is_strict`` it does not stand where it would rather not either. With ``must`` the
        candidate that covers least of what is taken stands even so, but never on the ruler.
        """
        blocks = [(c,) if isinstance(c, Text) else c for c in candidates]
        boxed = [(block, [self._box(text) for text in block]) for block in blocks]
        inside = [(block, boxes) for block, boxes in boxed if all(map(self._is_inside, boxes))]
        soft = (*self._taken, *self._avoided)
        for taken in (soft,) if is_strict else (soft, tuple(self._taken)):
            for block, boxes in inside:
                if not _meets_any(boxes, (*self._barred, *taken)):
                    return self._take(block, boxes)
        if must:
            clear = [one for one in inside if not _meets_any(one[1], self._barred)]
            if clear:
                return self._take(*min(clear, key=lambda one: _covered_mm2(one[1], self._taken)))
        return ()

    def _take(self, block: tuple[Text, ...], boxes: list[Rectangle]) -> tuple[Text, ...]:
        self._taken.extend(boxes)
        return block

    def _box(self, text: Text) -> Rectangle:
        return self._padded(text_box(text, self._measure))

    def _is_inside(self, rectangle: Rectangle) -> bool:
        corners = (
            (rectangle.x_mm, rectangle.y_mm),
            (rectangle.right_mm, rectangle.bottom_mm),
        )
        return all(self._room.contains(corner, slack_mm=_PAD_MM) for corner in corners)

    @staticmethod
    def _padded(rectangle: Rectangle) -> Rectangle:
        return Rectangle(
            x_mm=rectangle.x_mm - _PAD_MM,
            y_mm=rectangle.y_mm - 0.2,
            width_mm=rectangle.width_mm + 2.0 * _PAD_MM,
            height_mm=rectangle.height_mm + 0.4,
        )


def _meets_any(boxes: Iterable[Rectangle], others: Sequence[Rectangle]) -> bool:
    return any(rectangle.meets(other) for rectangle in boxes for other in others)


def _covered_mm2(boxes: Iterable[Rectangle], others: Sequence[Rectangle]) -> float:
    """How much of other boxes some boxes cover."""
    return sum(
        max(0.0, min(one.right_mm, other.right_mm) - max(one.x_mm, other.x_mm))
        * max(0.0, min(one.bottom_mm, other.bottom_mm) - max(one.y_mm, other.y_mm))
        for one in boxes
        for other in others
    )
