"""Which objects carry the primary line along a leg."""

from dataclasses import dataclass, replace

from core.plan.greedy_chain import greedy_chain
from core.plan.intervals import Intervals, difference
from core.plan.stretch import Stretch as Stretch

_WEAK_M = 2.0 * 1852.0
"""A weak object over this length is as bad as one more hand-over."""
_POOR_M = 2.0 * 1852.0
"""So is the poorest object over this length, and a middling one over twice as much."""
_TURN_GAP = 3.0
"""A gap in the last minutes before the wheel-over counts this many times."""
_NO_HAND_OVER = 1.5
"""To take up an object without its line having run beside the old one is as bad as this many
lines; a hand-over a little shorter than asked for is little harm, so what it lacks is squared."""
_LEAST_GAP_RATIO = 1.0 / 6.0
"""Gaps up to half a minute are below what a plan can say, where three minutes are asked for."""
_LATE_HAND_OVER = 0.5
"""One that can only be made in the last minutes before the wheel-over."""
_SAME_ECHO = 1.0
"""One from an echo to itself, such as from a beacon to the islet it stands on."""
_CONTINUED, _TAKEN_UP_EARLIER = -0.25, 0.25
"""To go on with an object beyond the part of the leg that the officer chose it for is a little
less than another line; to take it up before that part a little more, so that what runs there
stays."""


_Cost = tuple[int, float, float]
"""Choices of the officer left out, burden in lines, lack of score; less is better."""


def _add(one: _Cost, other: _Cost) -> _Cost:
    return one[0] + other[0], one[1] + other[1], one[2] + other[2]


def _fresh(before: Stretch | None, node: Stretch, end_m: float) -> float:
    """Score of what a step adds, as a share of the leg; of an overlap the better one's counts."""
    start = node.from_m if before is None else max(node.from_m, before.to_m)
    worth = node.score * (node.to_m - start)
    if before is not None and before.to_m > node.from_m:
        worth += max(node.score - before.score, 0.0) * (before.to_m - node.from_m)
    return worth / max(end_m, 1.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class HandOverRules:
    """What is asked of the primary lines of one leg, lengths along it."""

    overlap_m: float
    """Both lines of a hand-over are to run together this far."""
    gap_m: float
    """A gap of this length is as bad as one more line: a hand-over takes as long itself."""
    settled_from_m: float = float("inf")
    """Hand-overs are to be over before here, the last minutes before the wheel-over."""

    def burden(self, before: Stretch | None, node: Stretch, start_m: float) -> float:
        """How much a line adds, after another one or as the first, in lines."""
        done_m = start_m if before is None else max(before.to_m, start_m)
        fresh_m = node.to_m - max(node.from_m, done_m)
        burden = 1.0 + self.gap_burden(done_m, node.from_m)
        burden += node.lack_ratio * fresh_m / _POOR_M
        if before is not None and before.to_m > node.from_m:
            # Where both run, the better of the two is read.
            burden -= (
                max(before.lack_ratio - node.lack_ratio, 0.0)
                * (before.to_m - node.from_m)
                / _POOR_M
            )
        if node.is_weak:
            burden += fresh_m / _WEAK_M
        if before is None:
            return burden
        if before.key == node.key and node.from_m <= before.to_m:
            return burden + (_CONTINUED if before.is_forced else _TAKEN_UP_EARLIER)
        if before.is_same_echo(node):
            burden += _SAME_ECHO
        shared_m = before.to_m - node.from_m
        if shared_m < self.overlap_m:
            return burden + _NO_HAND_OVER * (1.0 - max(shared_m, 0.0) / self.overlap_m) ** 2
        if min(before.to_m, self.settled_from_m) - node.from_m < self.overlap_m:
            burden += _LATE_HAND_OVER
        return burden

    def gap_burden(self, from_m: float, to_m: float) -> float:
        """A gap in lines, to a tenth: what is less is not worth comparing."""
        length_m = to_m - from_m
        if length_m <= _LEAST_GAP_RATIO * self.gap_m:
            return 0.0
        last_m = max(to_m - max(from_m, self.settled_from_m), 0.0)
        return round((length_m + (_TURN_GAP - 1.0) * last_m) / self.gap_m, 1)


def primary_chain(
    stretches: tuple[Stretch, ...],
    *,
    end_m: float,
    rules: HandOverRules,
    start_m: float = 0.0,
) -> tuple[Stretch, ...]:
    """The chain of windows that carries the primary line.

    Of all chains with no more lines than a greedy officer would set (C5; two more for each choice
    of the officer's) it is the one with, in this order: the officer's choices in it, least
    burden, best scores (weighted by the length each adds). The burden counts one for each line
    and for every ``rules.gap_m`` without one, thrice that in the last minutes before the
    wheel-over; more for a hand-over that is short, late or from an echo to itself; and one for
    every two miles that only weak objects carry, or some miles that poor ones do. Found exactly,
    by shortest path over windows in order of their ends and numbers of lines.

    Parameters
    ----------
    stretches : tuple of Stretch
        Windows of all candidates.
    end_m : float
        End of the leg as far as indexing goes.
    rules : HandOverRules
        What is asked of lines and hand-overs.
    start_m : float
        Where the leg is first steered, at the end of the turn before it.
    """
    nodes = sorted(
        _with_parts_round_better(stretches, rules.overlap_m),
        key=lambda s: (s.to_m, s.from_m, s.key),
    )
    if not nodes:
        return ()
    greedy = greedy_chain(tuple(nodes), start_m=start_m, overlap_m=rules.overlap_m)
    most = max(len(greedy), 1) + 2 * sum(1 for s in stretches if s.is_forced)
    closed = [
        (_add(cost, (0, rules.gap_burden(nodes[path[-1]].to_m, end_m), 0.0)), path)
        for by_count in _cheapest(nodes, rules, start_m=start_m, end_m=end_m, most=most)
        for cost, path in by_count.values()
    ]
    (_left_out, _burden, _worth), path = min(
        closed, key=lambda item: (item[0][0], round(item[0][1], 6), item[0][2], item[1])
    )
    return tuple(nodes[i] for i in path)


_Chain = tuple[_Cost, tuple[int, ...]]


def _cheapest(
    nodes: list[Stretch], rules: HandOverRules, *, start_m: float, end_m: float, most: int
) -> list[dict[int, _Chain]]:
    """For every window the best chain that ends in it, by its number of lines up to ``most``."""
    best: list[dict[int, _Chain]] = []
    for j, node in enumerate(nodes):
        own: _Cost = (-int(node.is_forced), 0.0, 0.0)
        first: _Cost = (0, rules.burden(None, node, start_m), -_fresh(None, node, end_m))
        found: dict[int, _Chain] = {1: (_add(first, own), (j,))}
        for i in range(j):
            before = nodes[i]
            if before.to_m >= node.to_m or before.from_m > node.from_m:
                continue
            step = _add((0, rules.burden(before, node, start_m), -_fresh(before, node, end_m)), own)
            for count, (cost, path) in best[i].items():
                chain = (_add(cost, step), (*path, j))
                if count < most and (count + 1 not in found or chain < found[count + 1]):
                    found[count + 1] = chain
        best.append(found)
    return best


def _with_parts_round_better(
    stretches: tuple[Stretch, ...], overlap_m: float
) -> tuple[Stretch, ...]:
    """The stretches, and the parts of each that lie outside a better one.

    Better are choices of the officer, and anything that is not weak beside what is. Parts reach
    into the better stretch by the overlap of a hand-over.
    """
    parts = list(stretches)
    for better in stretches:
        for other in stretches:
            beats = better.is_forced and not other.is_forced
            if not beats and not (other.is_weak and not better.is_weak):
                continue
            before = min(better.from_m + overlap_m, better.to_m - 1.0)
            after = max(better.to_m - overlap_m, better.from_m + 1.0)
            if other.from_m < better.from_m and before < other.to_m:
                parts.append(cut(other, other.from_m, before))
            if other.to_m > better.to_m and after > other.from_m:
                parts.append(cut(other, after, other.to_m))
    return tuple(dict.fromkeys(parts))


def uncovered(stretches: tuple[Stretch, ...], end_m: float) -> Intervals:
    """What of the leg no window covers."""
    return difference(((0.0, end_m),), tuple((s.from_m, s.to_m) for s in stretches))


def joined_with_itself(chain: tuple[Stretch, ...]) -> tuple[Stretch, ...]:
    """The chain with no hand-over from an object to itself.

    The officer's choice for a part of a leg cuts the object's window there.
    """
    joined: list[Stretch] = []
    for node in chain:
        last = joined[-1] if joined else None
        if last is not None and last.key == node.key and node.from_m <= last.to_m:
            breaks = tuple(dict.fromkeys((*last.breaks, *node.breaks)))
            joined[-1] = replace(
                last, to_m=node.to_m, is_forced=last.is_forced or node.is_forced, breaks=breaks
            )
        else:
            joined.append(node)
    return tuple(joined)


def without_thirds(chain: tuple[Stretch, ...], least_m: float) -> tuple[Stretch, ...]:
    """The chain with windows begun later where three would run at once.

    No more than two primary lines are set at any time: the old one and its successor.
    """
    kept: list[Stretch] = []
    for node in chain:
        start = node.from_m
        if len(kept) >= 2:
            start = max(start, min(kept[-2].to_m, node.to_m - least_m))
        kept.append(cut(node, start, node.to_m))
    return tuple(kept)


def cut(stretch: Stretch, start_m: float, stop_m: float) -> Stretch:
    """The part of a stretch between two places."""
    return replace(stretch, from_m=start_m, to_m=stop_m)
