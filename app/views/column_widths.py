"""Room shared among the columns of a table: long words wrap first, figures keep their line."""

import math
from collections.abc import Sequence
from typing import NamedTuple

_TURNS = 24


class ColumnRoom(NamedTuple):
    """Widths of a column, in pixels."""

    wanted: int
    """Nothing wraps."""
    cells: int
    """No cell wraps."""
    easy: int
    """No figure and no short head wraps."""
    least: int
    """The longest word."""


def shared_widths(columns: Sequence[ColumnRoom], room: int) -> list[int]:
    """Widths that fill the room; wider than it only where not even the longest words fit.

    Columns that have to give way are shared by the roots of what they want: the longest words
    wrap most, and those a little long hardly.
    """
    wanted, easy = [c.wanted for c in columns], [c.easy for c in columns]
    for uppers, lowers in (
        (wanted, [c.cells for c in columns]),
        (wanted, easy),
        (easy, [c.least for c in columns]),
    ):
        if sum(uppers) <= room:
            return _filled(uppers, room)
        if sum(lowers) <= room:
            return _filled(_scaled(columns, uppers, lowers, room), room)
    return [c.least for c in columns]


def _scaled(
    columns: Sequence[ColumnRoom], uppers: list[int], lowers: list[int], room: int
) -> list[int]:
    """Shares as large as there is room for, between bounds."""
    low, high = 0.0, math.sqrt(max(column.wanted for column in columns))
    widths = lowers
    for _turn in range(_TURNS):
        share = (low + high) / 2.0
        tried = [
            min(max(int(share * math.sqrt(column.wanted)), lower), upper)
            for column, upper, lower in zip(columns, uppers, lowers, strict=True)
        ]
        if sum(tried) <= room:
            low, widths = share, tried
        else:
            high = share
    return widths


def _filled(widths: list[int], room: int) -> list[int]:
    """The last column takes what is left."""
    return [*widths[:-1], widths[-1] + room - sum(widths)] if widths else []
