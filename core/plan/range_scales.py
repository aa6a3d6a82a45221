"""The range scale along a leg: the shortest one that holds what has to be seen."""

import itertools

from core.plan.error_budget import budget_on_scale
from core.plan.intervals import Interval, Intervals, difference, intersection, length_m
from core.plan.rules import PlanRules
from core.plan.scale_demands import look_out_demand, screens_of
from core.plan.screen import Screen
from core.plan.usable_window import ScaleSpan, Setting
from core.ship.ship import Ship

_WORTH_A_LONGER_BASE_RATIO = 0.25
_FILLS_RATIO = 0.5
_FILLS_S = 600.0


def settings_of(
    ship: Ship, *, speed_mps: float, corridor_m: float, rules: PlanRules
) -> tuple[Setting, ...]:
    """Scales of the main radar that a leg may be run on, shortest first.

    The first is the shortest that holds the look-out distance on every relative bearing,
    off-centred if that makes it shorter. Then come the longer ones, up to the longest worth
    indexing on, each centred and, where the look-out distance allows it, off-centred: that shows
    more ahead without the coarser ranges of the next scale. Only scales on which a range read
    abeam is better than the corridor is wide to a side. Where no scale holds the look-out
    distance, the longest stands alone.
    """
    scales = sorted(ship.radars[0].range_scales_m)
    look_out = look_out_demand(
        own_speed_mps=speed_mps,
        least_other_speed_mps=rules.other_speed_mps,
        decision_time_s=rules.decision_time_s,
    )
    holding = [screen for screen in main_screens(ship, rules) if look_out.is_held(screen)]
    chosen = [s for s in holding[1:] if s.scale_m <= rules.longest_index_scale_m]
    longest = Screen(scale_m=scales[-1], margin_ratio=rules.screen_margin_ratio)
    settings = tuple(
        Setting(
            screen=screen,
            budget=budget_on_scale(
                ship, range_scale_m=screen.scale_m, corridor_m=corridor_m, rules=rules
            ),
        )
        for screen in ((holding[0], *chosen) if holding else (longest,))
    )
    return settings[:1] + tuple(s for s in settings[1:] if s.budget.abeam_m <= corridor_m)


def main_screens(ship: Ship, rules: PlanRules) -> tuple[Screen, ...]:
    """Every screen of the main radar long enough to index on, shortest scale first."""
    return screens_of(
        [m for m in ship.radars[0].range_scales_m if m >= rules.shortest_index_scale_m],
        off_centre_ratio=rules.off_centre_ratio,
        margin_ratio=rules.screen_margin_ratio,
    )


def plan_spans(
    settings: tuple[Setting, ...],
    coverage: tuple[Intervals, ...],
    *,
    end_m: float,
    least_index: int,
    speed_mps: float,
    rules: PlanRules,
) -> tuple[ScaleSpan, ...]:
    """Which setting rules where, from the start of the leg to its wheel-over.

    Parameters
    ----------
    settings : tuple of Setting
        Shortest scale first.
    coverage : tuple of Intervals
        For each setting, where along the leg anything can be indexed on it.
    end_m : float
        Wheel-over, m along.
    least_index : int
        No setting before this one, because something demanded is not held by it.
    speed_mps : float
        Speed over the ground.
    rules : PlanRules
        Figures.

    Notes
    -----
    The base is the shortest scale, unless a longer one (up to the preferred longest) would cover
    a quarter of the leg more. Stretches that the base leaves uncovered go to the shortest scale
    that covers half of them or ten minutes, with the overlap of a hand-over either side; what a
    scale between the two covers for some minutes at an end goes to that one, so that the scale is
    shortened in steps. No change falls within the last minutes before the wheel-over.
    """
    whole: Intervals = ((0.0, end_m),)
    base = _base_index(settings, coverage, end_m=end_m, least_index=least_index, rules=rules)
    pieces: list[tuple[float, float, int]] = [(0.0, end_m, base)]
    overlap = rules.overlap_s * speed_mps
    for gap in difference(whole, coverage[base]):
        if gap[1] - gap[0] < rules.least_window_m:
            continue
        for longer in range(base + 1, len(settings)):
            filled = intersection((gap,), coverage[longer])
            enough = min(_FILLS_RATIO * (gap[1] - gap[0]), _FILLS_S * speed_mps)
            if filled and length_m(filled) >= enough:
                for start, stop, index in _stages(
                    gap, coverage, base, longer, least_m=rules.settled_s * speed_mps
                ):
                    pieces.append((max(start - overlap, 0.0), min(stop + overlap, end_m), index))
                break
    return _spans(pieces, settings, end_m=end_m, settled_m=rules.settled_s * speed_mps)


def _stages(
    gap: Interval,
    coverage: tuple[Intervals, ...],
    base: int,
    longer: int,
    *,
    least_m: float,
) -> list[tuple[float, float, int]]:
    """Who fills a gap of the base scale: the longer scale, and others between at its ends."""
    filled = intersection((gap,), coverage[longer])
    first, last = filled[0][0], filled[-1][1]
    stages: list[tuple[float, float, int]] = []
    for index in range(base + 1, longer):
        for start, stop in intersection(((first, last),), coverage[index]):
            if stop - start < least_m or last - first - (stop - start) < least_m:
                continue
            if stop >= last - 1.0:
                stages.append((start, last, index))
                last = start
            elif start <= first + 1.0:
                stages.append((first, stop, index))
                first = stop
    return [*stages, (first, last, longer)]


def with_longer_end(
    spans: tuple[ScaleSpan, ...],
    setting: Setting,
    *,
    end_m: float,
    speed_mps: float,
    rules: PlanRules,
) -> tuple[ScaleSpan, ...]:
    """The same with a longer scale for the last minutes before the wheel-over."""
    start = max(end_m - rules.settled_s * speed_mps, 0.0)
    kept = tuple(
        ScaleSpan(
            from_along_m=s.from_along_m, to_along_m=min(s.to_along_m, start), setting=s.setting
        )
        for s in spans
        if s.from_along_m < start
    )
    return (*kept, ScaleSpan(from_along_m=start, to_along_m=end_m, setting=setting))


def _base_index(
    settings: tuple[Setting, ...],
    coverage: tuple[Intervals, ...],
    *,
    end_m: float,
    least_index: int,
    rules: PlanRules,
) -> int:
    least = min(least_index, len(settings) - 1)
    open_m = [end_m - length_m(parts) for parts in coverage]
    allowed = [
        i
        for i, setting in enumerate(settings)
        if i >= least and (i == least or setting.screen.scale_m <= rules.preferred_index_scale_m)
    ]
    fewest = min(open_m[i] for i in allowed)
    return next(i for i in allowed if open_m[i] <= fewest + _WORTH_A_LONGER_BASE_RATIO * end_m)


def _spans(
    pieces: list[tuple[float, float, int]],
    settings: tuple[Setting, ...],
    *,
    end_m: float,
    settled_m: float,
) -> tuple[ScaleSpan, ...]:
    """Pieces laid over one another, the longest scale on top, short remains swallowed."""
    last_change = max(end_m - settled_m, 0.0)
    cuts = sorted({p for start, stop, _index in pieces for p in (start, stop)})
    laid: list[tuple[float, float, int]] = []
    for start, stop in itertools.pairwise(cuts):
        index = max(i for a, b, i in pieces if a <= start and b >= stop)
        laid.append((start, stop, index))
    # No change in the last minutes: what rules there at the longest rules all of it.
    tail = max((i for _a, b, i in laid if b > last_change), default=0)
    laid = [(a, min(b, last_change), i) for a, b, i in laid if a < last_change]
    laid.append((last_change, end_m, tail))
    merged: list[tuple[float, float, int]] = []
    for a, b, i in laid:
        if merged and merged[-1][2] == i:
            merged[-1] = (merged[-1][0], b, i)
        else:
            merged.append((a, b, i))
    return tuple(
        ScaleSpan(from_along_m=a, to_along_m=b, setting=settings[i])
        for a, b, i in _without_short(merged, settled_m)
        if b > a
    )


def _without_short(
    laid: list[tuple[float, float, int]], least_m: float
) -> list[tuple[float, float, int]]:
    """Short stretches between two longer scales, or first before one, take the shorter of those."""
    changed = True
    while changed:
        changed = False
        for k in range(len(laid) - 1):
            a, b, i = laid[k]
            neighbour = min(one[2] for one in (*laid[max(k - 1, 0) : k], laid[k + 1]))
            if b - a < least_m and i < neighbour:
                laid[k] = (a, b, neighbour)
                changed = True
        merged: list[tuple[float, float, int]] = []
        for a, b, i in laid:
            if merged and merged[-1][2] == i:
                merged[-1] = (merged[-1][0], b, i)
            else:
                merged.append((a, b, i))
        laid = merged
    return laid
