"""Which objects carry the primary line along a leg, and which check it."""

from dataclasses import dataclass

from core.plan.intervals import Intervals, difference, intersection, length_m

_STEP_M = 185.2
"""Gaps are compared in cables: less is not worth another object."""
_WEAK_M = 2.0 * 1852.0
"""A weak object over this length is as bad as one more hand-over."""
_SHORT_HAND_OVER = 1.5
"""A hand-over shorter than asked for is as bad as this many more hand-overs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """One window of one candidate."""

    key: str
    from_m: float
    to_m: float
    score: float
    is_weak: bool
    is_forced: bool = False
    """The officer chose it as primary."""
    is_starboard: bool = False


_Cost = tuple[int, int, float, float]
"""Choices of the officer left out, gap in cables, burden, lack of score; less is better."""


def _add(one: _Cost, other: _Cost) -> _Cost:
    return (one[0] + other[0], one[1] + other[1], one[2] + other[2], one[3] + other[3])


def _steps(length_m: float) -> int:
    return int(max(length_m, 0.0) / _STEP_M)


def _weak_m(before: Stretch | None, node: Stretch) -> float:
    """Length that a step leaves to weak objects, counting an overlap as the better one's."""
    start = node.from_m if before is None else max(node.from_m, before.to_m)
    if node.is_weak:
        return node.to_m - start
    shared = 0.0 if before is None or not before.is_weak else before.to_m - node.from_m
    return -max(shared, 0.0)


def primary_chain(
    stretches: tuple[Stretch, ...], *, end_m: float, overlap_m: float
) -> tuple[Stretch, ...]:
    """The chain of windows that carries the primary line.

    Of all chains it is the one with, in this order: the officer's choices in it, least length
    without a line, least burden, best scores (weighted by length). The burden counts one for each
    line, half as much again for a hand-over shorter than the overlap asked for, and one for every
    two miles left to weak objects. Found exactly, by shortest path over windows in order of
    their ends.

    Parameters
    ----------
    stretches : tuple of Stretch
        Windows of all candidates.
    end_m : float
        End of the leg as far as indexing goes.
    overlap_m : float
        Overlap asked for at a hand-over.
    """
    nodes = sorted(
        _with_parts_round_better(stretches, overlap_m), key=lambda s: (s.to_m, s.from_m, s.key)
    )
    best: list[tuple[_Cost, tuple[int, ...]]] = []
    for j, node in enumerate(nodes):
        worth = -node.score * (node.to_m - node.from_m) / max(end_m, 1.0)
        own: _Cost = (-int(node.is_forced), 0, 1.0, worth)
        choices: list[tuple[_Cost, tuple[int, ...]]] = [
            ((0, _steps(node.from_m), _weak_m(None, node) / _WEAK_M, 0.0), ())
        ]
        for i in range(j):
            before = nodes[i]
            if before.to_m >= node.to_m or before.from_m > node.from_m:
                continue
            shared = before.to_m - node.from_m
            burden = _weak_m(before, node) / _WEAK_M
            if 0.0 <= shared < overlap_m:
                burden += _SHORT_HAND_OVER
            step: _Cost = (0, _steps(-shared), burden, 0.0)
            choices.append((_add(best[i][0], step), best[i][1]))
        cost, path = min(choices)
        best.append((_add(cost, own), (*path, j)))
    if not best:
        return ()
    closed = [
        (_add(cost, (0, _steps(end_m - nodes[path[-1]].to_m), 0.0, 0.0)), path)
        for cost, path in best
    ]
    return tuple(nodes[i] for i in min(closed)[1])


def _with_parts_round_better(
    stretches: tuple[Stretch, ...], overlap_m: float
) -> tuple[Stretch, ...]:
    """The stretches, and the parts of each either side of a better one that it spans.

    Better are choices of the officer, and anything that is not weak beside what is. Parts reach
    into the better stretch by the overlap of a hand-over.
    """
    parts = list(stretches)
    for better in stretches:
        for other in stretches:
            if other.from_m > better.from_m or other.to_m < better.to_m:
                continue
            beats = better.is_forced and not other.is_forced
            if not beats and not (other.is_weak and not better.is_weak):
                continue
            before = min(better.from_m + overlap_m, better.to_m - 1.0)
            after = max(better.to_m - overlap_m, better.from_m + 1.0)
            if other.from_m < better.from_m:
                parts.append(_cut(other, other.from_m, before))
            if other.to_m > better.to_m:
                parts.append(_cut(other, after, other.to_m))
    return tuple(dict.fromkeys(parts))


def uncovered(stretches: tuple[Stretch, ...], end_m: float) -> Intervals:
    """What of the leg no window covers."""
    return difference(((0.0, end_m),), tuple((s.from_m, s.to_m) for s in stretches))


def without_thirds(chain: tuple[Stretch, ...], least_m: float) -> tuple[Stretch, ...]:
    """The chain with windows begun later where three would run at once.

    No more than two primary lines are set at any time: the old one and its successor.
    """
    kept: list[Stretch] = []
    for node in chain:
        start = node.from_m
        if len(kept) >= 2:
            start = max(start, min(kept[-2].to_m, node.to_m - least_m))
        kept.append(_cut(node, start, node.to_m))
    return tuple(kept)


def check_chain(
    stretches: tuple[Stretch, ...],
    primaries: tuple[Stretch, ...],
    *,
    end_m: float,
    least_m: float,
) -> tuple[Stretch, ...]:
    """Windows of check lines, one at a time, in order along the leg.

    Where two windows could check the same stretch, an object on the other side than the primary
    line counts half as much again, and one that the officer chose goes before all.
    """
    free: Intervals = ((0.0, end_m),)
    chosen: list[Stretch] = []
    left = sorted(stretches, key=lambda s: (s.from_m, s.key))
    while True:
        options: list[tuple[bool, float, int, float, float]] = []
        for i, candidate in enumerate(left):
            own = tuple((p.from_m, p.to_m) for p in primaries if p.key == candidate.key)
            room = difference(intersection(free, ((candidate.from_m, candidate.to_m),)), own)
            for start, stop in room:
                if stop - start < least_m:
                    continue
                weight = (stop - start) * max(candidate.score, 1.0)
                if _is_other_side(candidate, primaries, start, stop):
                    weight *= 1.5
                if candidate.is_weak:
                    weight *= 0.5
                options.append((candidate.is_forced, weight, -i, start, stop))
        if not options:
            return tuple(sorted(chosen, key=lambda s: (s.from_m, s.key)))
        _forced, _weight, minus_i, start, stop = max(options)
        chosen.append(_cut(left[-minus_i], start, stop))
        free = difference(free, ((start, stop),))


def _is_other_side(
    candidate: Stretch, primaries: tuple[Stretch, ...], start: float, stop: float
) -> bool:
    """Whether most of a stretch has its primary line on the other side."""
    same = length_m(
        intersection(
            ((start, stop),),
            tuple(
                (p.from_m, p.to_m) for p in primaries if p.is_starboard == candidate.is_starboard
            ),
        )
    )
    return same < (stop - start) / 2.0


def _cut(stretch: Stretch, start: float, stop: float) -> Stretch:
    return Stretch(
        key=stretch.key,
        from_m=start,
        to_m=stop,
        score=stretch.score,
        is_weak=stretch.is_weak,
        is_forced=stretch.is_forced,
        is_starboard=stretch.is_starboard,
    )
