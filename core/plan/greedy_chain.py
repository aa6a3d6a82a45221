"""How many lines an officer would set who always takes the object that reaches farthest (C5)."""

from core.plan.stretch import Stretch

_POOR_LACK_RATIO = 0.3
"""An object that lacks this much of a good one is taken only where no better one goes on."""


def greedy_chain(
    stretches: tuple[Stretch, ...], *, start_m: float, overlap_m: float
) -> tuple[Stretch, ...]:
    """The chain of a greedy officer: covers whatever any window covers.

    He begins with what is usable at the start. Then, while the old line still runs for the
    overlap asked for, he takes the window that reaches farthest; where there is none in time, the
    one that runs longest beside the old line, and else the next one to begin. He takes good
    objects before poor ones, and poor before weak.

    Parameters
    ----------
    stretches : tuple of Stretch
        Windows of all candidates.
    start_m : float
        Where the leg is first steered.
    overlap_m : float
        Both lines of a hand-over are to run together this far.
    """
    first = [s for s in stretches if s.from_m <= start_m < s.to_m]
    chain = (
        [_farthest(first)]
        if first
        else _next_to_begin([s for s in stretches if s.from_m >= start_m])
    )
    while chain:
        last = chain[-1]
        onward = [s for s in stretches if s.to_m > last.to_m and s.from_m >= last.from_m]
        in_time = [s for s in onward if s.from_m <= last.to_m - overlap_m]
        found = [_farthest(in_time)] if in_time else _next_to_begin(onward)
        if not found:
            break
        chain += found
    return tuple(chain)


def _class(stretch: Stretch) -> int:
    if stretch.is_weak:
        return 2
    return int(stretch.lack_ratio > _POOR_LACK_RATIO)


def _farthest(offered: list[Stretch]) -> Stretch:
    best = min(_class(s) for s in offered)
    return max((s for s in offered if _class(s) == best), key=lambda s: (s.to_m, s.score, s.key))


def _next_to_begin(offered: list[Stretch]) -> list[Stretch]:
    if not offered:
        return []
    begins = min(s.from_m for s in offered)
    return [_farthest([s for s in offered if s.from_m == begins])]
