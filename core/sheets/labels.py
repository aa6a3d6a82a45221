"""Labels that keep out of each other's way."""

import math
from collections.abc import Sequence
from itertools import pairwise

from core.sheets.page import Measure, Place, Rectangle, Text, text_box

_PIECE_MM = 2.0


class Labels:
    """Places labels one after another; the first one asked for wins its place.

    Ask in order of importance. What finds no room is left out: tables hold every number.
    """

    def __init__(self, measure: Measure, room: Rectangle) -> None:
        self._measure = measure
        self._room = room
        self._taken: list[Rectangle] = []
        self._avoided: list[Rectangle] = []

    def keep_free(self, rectangle: Rectangle) -> None:
        """Let no label stand in a box."""
        self._taken.append(rectangle)

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
        self, candidates: Sequence[Text], *, must: bool = False, is_strict: bool = False
    ) -> Text | None:
        """The first candidate that fits inside the room and touches nothing.

        With ``is_strict`` it does not stand where it would rather not either. With ``must`` the
        first candidate inside the room stands even where it touches another.
        """
        inside = [text for text in candidates if self._is_inside(text_box(text, self._measure))]
        clear = ((*self._taken, *self._avoided), tuple(self._taken))
        for out_of_the_way in clear[:1] if is_strict else clear:
            for text in inside:
                rectangle = self._padded(text_box(text, self._measure))
                if not any(rectangle.meets(other) for other in out_of_the_way):
                    self._taken.append(rectangle)
                    return text
        if must and inside:
            self._taken.append(self._padded(text_box(inside[0], self._measure)))
            return inside[0]
        return None

    def _is_inside(self, rectangle: Rectangle) -> bool:
        return self._room.contains((rectangle.x_mm, rectangle.y_mm)) and self._room.contains(
            (rectangle.right_mm, rectangle.bottom_mm)
        )

    @staticmethod
    def _padded(rectangle: Rectangle) -> Rectangle:
        return Rectangle(
            x_mm=rectangle.x_mm - 0.4,
            y_mm=rectangle.y_mm - 0.2,
            width_mm=rectangle.width_mm + 0.8,
            height_mm=rectangle.height_mm + 0.4,
        )
