"""Passing from one primary object to the next, and stretches with none."""

import itertools
import math
from collections.abc import Callable
from dataclasses import dataclass

from core.base.language import tr, tr_listed
from core.plan.intervals import Interval, Intervals, difference, intersection
from core.plan.plan_result import Fallback, HandOver, IndexGap


@dataclass(frozen=True, slots=True, kw_only=True)
class Usable:
    """A lettered object with the windows it could be used in."""

    object_id: str
    windows: Intervals
    score: float
    is_weak: bool = False
    echo: str = ""
    """What it shows as on the screen, empty for its id."""


def hand_overs_of(
    primaries: tuple[tuple[str, float, float], ...],
    others: tuple[Usable, ...],
    *,
    speed_mps: float,
    error_m: Callable[[str, Interval], float] | None = None,
) -> tuple[HandOver, ...]:
    """Where two primary lines that follow one another are both usable.

    Parameters
    ----------
    primaries : tuple of (object id, from along m, to along m)
        In order of use.
    others : tuple of Usable
        Candidates, best first; the first that is usable throughout the hand-over and is neither
        of the two, nor one echo with either, is the fallback.
    speed_mps : float
        Speed over the ground.
    error_m : callable or None
        Error of an object's line, 95 %, over a stretch, m. Both lines are to agree within the
        two together, root of squares (job.md 2.6.1, 14.4).
    """
    echoes = {other.object_id: other.echo or other.object_id for other in others}
    found = []
    for before, after in itertools.pairwise(primaries):
        start, stop = max(before[1], after[1]), min(before[2], after[2])
        if stop <= start:
            continue
        fallback = next(
            (
                other.object_id
                for other in others
                if echoes[other.object_id]
                not in (echoes.get(before[0], before[0]), echoes.get(after[0], after[0]))
                and any(a <= start and b >= stop for a, b in other.windows)
            ),
            None,
        )
        found.append(
            HandOver(
                from_object=before[0],
                to_object=after[0],
                from_along_m=start,
                to_along_m=stop,
                minutes=(stop - start) / speed_mps / 60.0,
                fallback=fallback,
                agreement_m=0.0
                if error_m is None
                else math.hypot(
                    error_m(before[0], (start, stop)), error_m(after[0], (start, stop))
                ),
            )
        )
    return tuple(found)


def fallback_of(object_id: str, stretch: Interval, others: tuple[Usable, ...]) -> Fallback | None:
    """What to index on where an object is not seen (job.md 2.6.6).

    Parameters
    ----------
    object_id : str
        The object of a line.
    stretch : pair of float
        Where the line is in use.
    others : tuple of Usable
        Candidates, best first. Another echo than the object's that serves most of the stretch,
        to a quarter of it, is chosen, weak ones only where no other serves half; of equals the
        best.

    Returns
    -------
    Fallback or None
        None where nothing serves a quarter.
    """
    echo = next((o.echo for o in others if o.object_id == object_id), "") or object_id
    best: tuple[tuple[bool, int], Fallback] | None = None
    for other in others:
        if (other.echo or other.object_id) == echo:
            continue
        parts = intersection(other.windows, (stretch,))
        if not parts:
            continue
        start, stop = max(parts, key=lambda part: part[1] - part[0])
        quarters = math.floor(4.0 * (stop - start) / max(stretch[1] - stretch[0], 1.0) + 1e-3)
        if quarters < 1:
            continue
        worth = (not other.is_weak and quarters >= 2, quarters)
        if best is None or worth > best[0]:
            best = worth, Fallback(object_id=other.object_id, from_along_m=start, to_along_m=stop)
    return None if best is None else best[1]


def gaps_of(lines: Intervals, end_m: float, least_m: float) -> Intervals:
    """Stretches of the leg before its wheel-over that no primary line covers."""
    gaps = difference(((0.0, end_m),), lines)
    return tuple(gap for gap in gaps if gap[1] - gap[0] > least_m)


@dataclass(frozen=True, slots=True, kw_only=True)
class InSight:
    """What is in sight somewhere in a gap, nearest first."""

    fixed: tuple[str, ...]
    floating: tuple[str, ...]
    has_coast: bool
    """Any coast within reach in sight."""
    has_unknown: bool
    """Heights are unknown there."""


def no_index_reason(sight: InSight, *, reach_nm: float) -> str:
    """Why nothing can be indexed."""
    if sight.fixed:
        return tr("Nothing in sight can be read closely enough on the planned screen")
    if sight.has_coast:
        return tr("The coast in sight has no point to hold")
    if sight.floating:
        return tr("Only floating marks are in sight")
    if sight.has_unknown:
        return tr(
            "No land known to be in sight within {reach_nm:.0f} NM; heights are missing there",
            reach_nm=reach_nm,
        )
    return tr("No land in sight within {reach_nm:.0f} NM", reach_nm=reach_nm)


NEAREST_COAST = tr("Fix by radar ranges of the nearest coast, checked by another aid")
OTHER_MEANS = tr("Fix by other means than radar")


class NamedFix(str):
    """What to do where fixes by radar can be had of objects that it names."""

    __slots__ = ()


def fix_by_ranges(names: tuple[str, ...]) -> NamedFix:
    """What to do with two objects or more."""
    return NamedFix(tr("Fix by radar ranges of {objects}", objects=tr_listed(names)))


def fix_by_range_and_bearing(names: tuple[str, ...]) -> NamedFix:
    """What to do with objects that give no two ranges that cut."""
    return NamedFix(tr("Fix by radar range and bearing of {objects}", objects=tr_listed(names)))


def substitute(sight: InSight) -> str:
    """What to do instead of indexing."""
    if len(sight.fixed) >= 2:
        return fix_by_ranges(sight.fixed[:3])
    if sight.fixed:
        return fix_by_range_and_bearing(sight.fixed[:1])
    if sight.has_coast:
        return NEAREST_COAST
    if sight.floating:
        return tr(
            "{means}; {marks} may be checked but not relied on",
            means=OTHER_MEANS,
            marks=tr_listed(sight.floating[:2]),
        )
    return OTHER_MEANS


def index_gaps(
    gaps: Intervals, substitutes: tuple[str, ...], *, speed_mps: float
) -> tuple[IndexGap, ...]:
    """Gaps with their length in minutes and the substitute."""
    return tuple(
        IndexGap(
            from_along_m=start,
            to_along_m=stop,
            minutes=(stop - start) / speed_mps / 60.0,
            substitute=words,
        )
        for (start, stop), words in zip(gaps, substitutes, strict=True)
    )
