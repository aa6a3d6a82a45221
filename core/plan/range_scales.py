"""The range scale along a leg: the shortest one that holds what has to be seen."""

import itertools
import math
from dataclasses import dataclass

from core.plan import reason_codes
from core.plan.error_budget import budget_on_scale
from core.plan.intervals import Interval, Intervals, difference, intersection, length_m
from core.plan.plan_result import Reason, ScaleStretch
from core.plan.rules import PlanRules
from core.plan.screen import Screen, holds_look_out, look_out_distance_m
from core.plan.usable_window import ScaleSpan, Setting
from core.ship.ship import Radar, Ship

_WORTH_A_LONGER_BASE_RATIO = 0.25
_FILLS_RATIO = 0.5
_FILLS_S = 600.0
_INDEX_SCALE_TO_M = 6.0 * 1852.0
_SHORT_PULSE_TO_M = 3.0 * 1852.0
_MEDIUM_PULSE_TO_M = 12.0 * 1852.0


def settings_of(
    ship: Ship, *, speed_mps: float, corridor_m: float, rules: PlanRules
) -> tuple[Setting, ...]:
    """Scales of the main radar that a leg may be run on, shortest first.

    The first is the shortest that holds the look-out distance, off-centred if that makes it
    shorter; the others are centred, up to the longest worth indexing on, as long as a range read
    abeam on them is better than the corridor is wide to a side. Where no scale holds the
    look-out distance, the longest stands alone.
    """
    scales = sorted(ship.radars[0].range_scales_m)
    first, off_centre = _look_out_scale(scales, speed_mps=speed_mps, rules=rules)
    chosen = [first] + [s for s in scales if first < s <= rules.longest_index_scale_m]
    settings = tuple(
        Setting(
            screen=Screen(
                scale_m=scale,
                off_centre_ratio=off_centre if scale == first else 0.0,
                margin_ratio=rules.screen_margin_ratio,
            ),
            budget=budget_on_scale(ship, range_scale_m=scale, corridor_m=corridor_m, rules=rules),
        )
        for scale in chosen
    )
    return settings[:1] + tuple(s for s in settings[1:] if s.budget.abeam_m <= corridor_m)


def _look_out_scale(
    scales: list[float], *, speed_mps: float, rules: PlanRules
) -> tuple[float, float]:
    for scale in scales:
        if scale < rules.shortest_index_scale_m:
            continue
        for off_centre in (0.0, rules.off_centre_ratio):
            if holds_look_out(
                Screen(
                    scale_m=scale,
                    off_centre_ratio=off_centre,
                    margin_ratio=rules.screen_margin_ratio,
                ),
                own_speed_mps=speed_mps,
                least_other_speed_mps=rules.other_speed_mps,
                decision_time_s=rules.decision_time_s,
            ):
                return scale, off_centre
    return scales[-1], 0.0


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
    """Short stretches between two longer scales take the shorter of those."""
    changed = True
    while changed:
        changed = False
        for k in range(1, len(laid) - 1):
            a, b, i = laid[k]
            neighbour = min(laid[k - 1][2], laid[k + 1][2])
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


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldObject:
    """An object that a scale has to hold over a stretch."""

    code: str
    """Reason code, one of ``SCALE_FORCED_BY_...``."""
    object_id: str
    along_m: float
    cross_m: float
    window: Interval


def scale_stretches(
    spans: tuple[ScaleSpan, ...],
    held: tuple[HeldObject, ...],
    ship: Ship,
    *,
    leg_m: float,
    speed_mps: float,
    rules: PlanRules,
) -> tuple[ScaleStretch, ...]:
    """Scales of the main radar, then of the second one, each with what forces it."""
    shortest_m, _ratio = _look_out_scale(
        sorted(ship.radars[0].range_scales_m), speed_mps=speed_mps, rules=rules
    )
    stretches: list[ScaleStretch] = []
    for number, span in enumerate(spans):
        screen = span.setting.screen
        is_last = number == len(spans) - 1
        stretches.append(
            ScaleStretch(
                from_along_m=span.from_along_m,
                to_along_m=leg_m if is_last else span.to_along_m,
                radar=ship.radars[0].name,
                scale_m=screen.scale_m,
                off_centre_ratio=screen.off_centre_ratio,
                off_centre_direction="astern" if screen.off_centre_ratio > 0.0 else None,
                pulse=pulse_for(ship.radars[0], screen.scale_m),
                reason=_forced_by(
                    span, held, shortest_m=shortest_m, speed_mps=speed_mps, rules=rules
                ),
            )
        )
    if len(ship.radars) > 1:
        stretches += _second_radar(spans, ship, leg_m=leg_m)
    return tuple(stretches)


def pulse_for(radar: Radar, scale_m: float) -> str:
    """The pulse to use on a scale: the radar's own, by name, where the ship file states any.

    Of those that serve the scale the shortest for indexing, the longest on scales that are
    scanned for traffic and landfall (handbook 11.11); without any, what goes with such a scale
    (common practice, no source).
    """
    serving = sorted(
        (
            pulse
            for pulse in radar.pulses
            if (pulse.from_scale_m or 0.0) <= scale_m + 1.0
            and scale_m - 1.0 <= (pulse.to_scale_m or math.inf)
        ),
        key=lambda pulse: pulse.length_s,
    )
    if serving:
        return serving[0 if scale_m <= _INDEX_SCALE_TO_M else -1].name
    if scale_m <= _SHORT_PULSE_TO_M:
        return "short"
    return "medium" if scale_m <= _MEDIUM_PULSE_TO_M else "long"


def _forced_by(
    span: ScaleSpan,
    held: tuple[HeldObject, ...],
    *,
    shortest_m: float,
    speed_mps: float,
    rules: PlanRules,
) -> Reason:
    """What needs the scale: the look-out distance if no shorter one holds it, else an object.

    ``shortest_m`` is the shortest scale that holds the look-out distance.
    """
    other = max(speed_mps, rules.other_speed_mps)
    distance = look_out_distance_m(
        own_speed_mps=speed_mps,
        least_other_speed_mps=rules.other_speed_mps,
        decision_time_s=rules.decision_time_s,
    )
    look_out = Reason(
        code=reason_codes.SCALE_FORCED_BY_LOOK_OUT,
        values=(
            ("distance_m", distance),
            ("closing_mps", speed_mps + other),
            ("decision_minutes", rules.decision_time_s / 60.0),
        ),
    )
    if not holds_look_out(
        span.setting.screen,
        own_speed_mps=speed_mps,
        least_other_speed_mps=rules.other_speed_mps,
        decision_time_s=rules.decision_time_s,
    ):
        return Reason(code=reason_codes.SCALE_LONGEST, values=(("distance_m", distance),))
    farthest: tuple[float, HeldObject] | None = None
    for item in held:
        start = max(item.window[0], span.from_along_m)
        stop = min(item.window[1], span.to_along_m)
        is_moment = item.window[0] == item.window[1]
        if stop < start or (stop == start and not is_moment):
            continue
        reach = max(
            ((item.along_m - place) ** 2 + item.cross_m**2) ** 0.5 for place in (start, stop)
        )
        if farthest is None or reach > farthest[0]:
            farthest = (reach, item)
    if farthest is None or span.setting.screen.scale_m <= shortest_m:
        return look_out
    return Reason(
        code=farthest[1].code,
        values=(("object", farthest[1].object_id), ("range_m", farthest[0])),
    )


def _second_radar(spans: tuple[ScaleSpan, ...], ship: Ship, *, leg_m: float) -> list[ScaleStretch]:
    """The second radar one scale longer than the longest in use on the leg, all the way."""
    longest = max(span.setting.screen.scale_m for span in spans)
    scales = sorted(ship.radars[1].range_scales_m)
    scale = next((s for s in scales if s > longest), scales[-1])
    return [
        ScaleStretch(
            from_along_m=0.0,
            to_along_m=leg_m,
            radar=ship.radars[1].name,
            scale_m=scale,
            off_centre_ratio=0.0,
            off_centre_direction=None,
            pulse=pulse_for(ship.radars[1], scale),
            reason=Reason(
                code=reason_codes.SCALE_SECOND_RADAR, values=(("main_scale_m", longest),)
            ),
        )
    ]
