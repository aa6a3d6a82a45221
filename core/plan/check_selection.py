"""Which objects check the primary line: another echo, best of all on the other side."""

import itertools
import math
from dataclasses import dataclass

from core.plan.intervals import Intervals, difference, intersection
from core.plan.selection import Stretch, cut

_OTHER_SIDE = 2.0
"""A pair on both sides tells a range error from a set (job.md 1.7.4, 2.3.7)."""
_LEAST_REST_RATIO = 0.4
"""Of a window broken up by better ones, a rest smaller than this is not worth a line."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckRules:
    """What is asked of a check line."""

    least_m: float
    """Shorter lines are not worth setting."""
    apart_m: float = 0.0
    """Nearer than this to the primary object's edge it is the same echo, or taken for it."""


def check_chain(
    stretches: tuple[Stretch, ...],
    primaries: tuple[Stretch, ...],
    *,
    end_m: float,
    rules: CheckRules,
) -> tuple[Stretch, ...]:
    """Windows of check lines, one at a time, in order along the leg.

    What the officer chose goes first, then the longest and best. An object never checks itself
    nor its own echo, and a weak one checks nothing: a reading that disagrees would tell of its
    own edge. It counts more on the other side than the primary line.
    """
    chosen: tuple[Stretch, ...] = ()
    for is_forced in (True, False):
        offered = tuple(
            s for s in stretches if s.is_forced is is_forced and (is_forced or not s.is_weak)
        )
        chosen += _taken(offered, primaries, _left(chosen, end_m), rules)
    return tuple(sorted(chosen, key=lambda s: (s.from_m, s.key)))


def _left(chosen: tuple[Stretch, ...], end_m: float) -> Intervals:
    return difference(((0.0, end_m),), tuple((c.from_m, c.to_m) for c in chosen))


def _taken(
    offered: tuple[Stretch, ...],
    primaries: tuple[Stretch, ...],
    free: Intervals,
    rules: CheckRules,
) -> tuple[Stretch, ...]:
    """Windows taken one after another, the weightiest first, as long as there is room."""
    offered = tuple(sorted(offered, key=lambda s: (s.from_m, s.key)))
    rooms = [_room(candidate, primaries, free, rules) for candidate in offered]
    least = [
        max(rules.least_m, _LEAST_REST_RATIO * max((b - a for a, b in room), default=0.0))
        for room in rooms
    ]
    chosen: list[Stretch] = []
    while True:
        options = [
            (_weight(candidate, primaries, start, stop), -i, start, stop)
            for i, candidate in enumerate(offered)
            for start, stop in intersection(rooms[i], free)
            if stop - start >= least[i]
        ]
        if not options:
            return tuple(chosen)
        _worth, minus_i, start, stop = max(options)
        chosen.append(cut(offered[-minus_i], start, stop))
        free = difference(free, ((start, stop),))


def _room(
    candidate: Stretch, primaries: tuple[Stretch, ...], free: Intervals, rules: CheckRules
) -> Intervals:
    """Where a candidate is another echo than the primary line's object."""
    own = tuple(
        (p.from_m, p.to_m)
        for p in primaries
        if p.key == candidate.key
        or (
            not candidate.is_forced
            and (p.is_same_echo(candidate) or _apart_m(p, candidate) < rules.apart_m)
        )
    )
    return difference(intersection(free, ((candidate.from_m, candidate.to_m),)), own)


def _weight(
    candidate: Stretch,
    primaries: tuple[Stretch, ...],
    start_m: float,
    stop_m: float,
) -> float:
    """Length times score, more where the primary line runs on the other side."""
    cuts = {start_m, stop_m}
    for p in primaries:
        cuts |= {place for place in (p.from_m, p.to_m) if start_m < place < stop_m}
    total = 0.0
    for a, b in itertools.pairwise(sorted(cuts)):
        in_use = [p for p in primaries if p.from_m < b and p.to_m > a]
        is_other = bool(in_use) and all(p.is_starboard != candidate.is_starboard for p in in_use)
        total += (b - a) * (_OTHER_SIDE if is_other else 1.0)
    return total * max(candidate.score, 1.0)


def _apart_m(one: Stretch, other: Stretch) -> float:
    """Distance between two edges, m."""
    return math.hypot(one.edge_along_m - other.edge_along_m, one.edge_cross_m - other.edge_cross_m)
