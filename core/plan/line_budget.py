"""No more index lines at a time than a radar offers."""

import itertools
from dataclasses import replace

from core.plan.intervals import Interval, Intervals, intersection, union
from core.plan.plan_result import IndexLine, Role

_ORDER = (Role.WHEEL_OVER, Role.MARGIN, Role.PRIMARY, Role.CHECK)


def within_budget(
    lines: tuple[IndexLine, ...], *, most: int, least_m: float, least_check_m: float
) -> tuple[tuple[IndexLine, ...], tuple[IndexLine, ...]]:
    """Lines cut so that at no place more than ``most`` are set.

    Wheel-over, margin and primary lines go before check lines; a line that finds no room of
    ``least_m`` (``least_check_m`` for a check) is left out.

    Returns
    -------
    kept, left_out : tuples of IndexLine
        Kept ones in their first order.
    """
    placed: dict[int, IndexLine] = {}
    order = sorted(range(len(lines)), key=lambda i: (_ORDER.index(lines[i].role), i))
    left_out: list[IndexLine] = []
    for i in order:
        line = lines[i]
        room = _room(tuple(placed.values()), (line.from_along_m, line.to_along_m), most)
        longest = max(room, key=lambda part: part[1] - part[0], default=None)
        worth_m = least_check_m if line.role is Role.CHECK else least_m
        needed = min(worth_m, line.to_along_m - line.from_along_m)
        if longest is None or longest[1] - longest[0] < needed - 1e-6:
            left_out.append(line)
            continue
        placed[i] = replace(line, from_along_m=longest[0], to_along_m=longest[1])
    return tuple(placed[i] for i in sorted(placed)), tuple(left_out)


def _room(placed: tuple[IndexLine, ...], window: Interval, most: int) -> Intervals:
    """Parts of a window where fewer than ``most`` lines are set."""
    if window[1] <= window[0]:
        return (window,)
    cuts = sorted(
        {window[0], window[1]}
        | {
            place
            for line in placed
            for place in (line.from_along_m, line.to_along_m)
            if window[0] < place < window[1]
        }
    )
    free = []
    for start, stop in itertools.pairwise(cuts):
        busy = sum(
            1
            for line in placed
            if intersection(((line.from_along_m, line.to_along_m),), ((start, stop),))
        )
        if busy < most:
            free.append((start, stop))
    return union(tuple(free))
