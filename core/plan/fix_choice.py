"""The best radar fix at one place: which objects, on which scale, how good."""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from core.plan import reason_codes
from core.plan.error_budget import ErrorBudget
from core.plan.fix_geometry import (
    ELLIPSE_FACTOR,
    ROUTE_BEARING_DEG,
    PositionLine,
    bearing_line,
    cut_deg,
    fix_ellipse,
    range_line,
    route_errors_m,
)
from core.plan.fix_result import Fix, FixBy
from core.plan.fix_targets import FixTarget
from core.plan.reason import Reason
from core.plan.rules import FixRules
from core.plan.screen import Screen


@dataclass(frozen=True, slots=True, kw_only=True)
class FixScreen:
    """A screen a fix may be taken on, with the errors that go with its scale."""

    screen: Screen
    budget: ErrorBudget
    is_in_use: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class _Choice:
    targets: tuple[FixTarget, ...]
    cut_deg: float
    lines: tuple[PositionLine, ...]
    cost_m: float


def best_fix(
    targets: Sequence[FixTarget],
    screens: Sequence[FixScreen],
    *,
    along_m: float,
    course_deg: float,
    corridor_m: float,
    before: frozenset[str],
    cross_error_m: float | None,
    rules: FixRules,
) -> Fix:
    """Choose what to measure at a place.

    Parameters
    ----------
    targets : sequence of FixTarget
        What can be measured there, nearest first.
    screens : sequence of FixScreen
        The one in use first, then longer scales.
    along_m, course_deg : float
        The place and the course there.
    corridor_m : float
        Narrower side; a longer scale is not tried once the ellipse is within it.
    before : frozenset of str
        Objects of the fix before this one, which are kept unless others are clearly better.
    cross_error_m : float or None
        Carried into the result.
    rules : FixRules
        Limits of the cut and preferences.

    Notes
    -----
    Two or three ranges with the least error ellipse, point-like objects preferred, the best pair
    cutting within limits (job.md 4.4.2, 4.4.3); else range and bearing of one small object.
    """
    best: tuple[FixScreen, _Choice] | None = None
    for screen in screens:
        shown = _shown(targets, screen, rules)
        choice = _best_ranges(shown, screen, before, rules)
        if choice is None:
            continue
        if best is None or choice.cost_m < rules.worth_other_scale_ratio * best[1].cost_m:
            best = screen, choice
        if _semi_axes(choice.lines)[0] <= corridor_m:
            break
    by, reason = FixBy.RANGES, None
    if best is None:
        reason = _why_no_ranges(targets, screens, rules)
        best = _range_and_bearing(targets, screens, rules)
        by = FixBy.RANGE_AND_BEARING
    if best is None:
        return Fix(
            along_m=along_m,
            by=FixBy.NONE,
            scale_m=screens[0].screen.scale_m,
            is_scale_in_use=screens[0].is_in_use,
            objects=(),
            cut_deg=0.0,
            semi_major_m=0.0,
            semi_minor_m=0.0,
            major_axis_deg=0.0,
            across_m=0.0,
            reason=reason,
            cross_error_m=cross_error_m,
        )
    screen, choice = best
    ellipse = fix_ellipse(choice.lines)
    if ellipse is None:
        raise ValueError("lines of a chosen fix do not cut")
    angle = math.radians(course_deg)
    major, minor = _semi_axes(choice.lines)
    across = ellipse.along_m(east_ratio=math.cos(angle), north_ratio=-math.sin(angle))
    return Fix(
        along_m=along_m,
        by=by,
        scale_m=screen.screen.scale_m,
        is_scale_in_use=screen.is_in_use,
        objects=tuple(target.measured() for target in choice.targets),
        cut_deg=choice.cut_deg,
        semi_major_m=major,
        semi_minor_m=minor,
        major_axis_deg=ellipse.major_axis_deg,
        across_m=ELLIPSE_FACTOR * across,
        reason=reason,
        cross_error_m=cross_error_m,
    )


def range_error_m(target: FixTarget, budget: ErrorBudget) -> float:
    """What a range of an object may be off, 95 %, m.

    The greater of the set's error on the scale and the rate routes are designed with, and beside
    it where the edge of the echo lies.
    """
    measured = max(budget.range_error_m, route_errors_m(target.range_m)[0])
    return math.hypot(measured, budget.fixed_error_m, target.shore_error_m)


def _shown(
    targets: Sequence[FixTarget], screen: FixScreen, rules: FixRules
) -> tuple[FixTarget, ...]:
    """On the screen, near enough to fix by and not so near that the echo is a danger; the best."""
    shown = [
        t
        for t in targets
        if rules.nearest_m <= t.range_m <= rules.farthest_m
        and screen.screen.shows(ahead_m=t.ahead_m, cross_m=t.cross_m)
    ]
    shown.sort(key=lambda t: (not t.is_point_like, t.range_m))
    return tuple(shown[: rules.most_looked_at])


def _best_ranges(
    targets: tuple[FixTarget, ...], screen: FixScreen, before: frozenset[str], rules: FixRules
) -> _Choice | None:
    lines = {
        t.object_id: range_line(bearing_deg=t.bearing_deg, error_m=range_error_m(t, screen.budget))
        for t in targets
    }
    best: _Choice | None = None
    for count in (2, 3):
        for chosen in itertools.combinations(targets, count):
            cuts = [
                cut_deg(a.bearing_deg, b.bearing_deg) for a, b in itertools.combinations(chosen, 2)
            ]
            cut = min(cuts, key=lambda angle: abs(angle - 90.0))
            if not rules.least_cut_deg <= cut <= 180.0 - rules.least_cut_deg:
                continue
            if count == 3 and min(cuts) < rules.apart_deg:
                continue
            own = tuple(lines[t.object_id] for t in chosen)
            cost = _semi_axes(own)[0]
            cost *= 1.0 + rules.broad_cost_ratio * sum(not t.is_point_like for t in chosen)
            if not rules.good_cut_deg <= cut <= 180.0 - rules.good_cut_deg:
                cost *= 1.0 + rules.fine_cut_cost_ratio
            if frozenset(t.object_id for t in chosen) == before:
                cost *= rules.kept_ratio
            if best is None or cost < best.cost_m:
                best = _Choice(targets=chosen, cut_deg=cut, lines=own, cost_m=cost)
    return best


def _semi_axes(lines: tuple[PositionLine, ...]) -> tuple[float, float]:
    ellipse = fix_ellipse(lines)
    if ellipse is None:
        return math.inf, math.inf
    major, minor = ellipse.semi_axes_m
    return ELLIPSE_FACTOR * major, ELLIPSE_FACTOR * minor


def _range_and_bearing(
    targets: Sequence[FixTarget], screens: Sequence[FixScreen], rules: FixRules
) -> tuple[FixScreen, _Choice] | None:
    """Of the nearest small object, on the first screen that shows one."""
    for screen in screens:
        for target in _shown(targets, screen, rules):
            if not target.is_point_like:
                break
            error_deg = max(screen.budget.bearing_error_deg, ROUTE_BEARING_DEG)
            lines = (
                range_line(
                    bearing_deg=target.bearing_deg, error_m=range_error_m(target, screen.budget)
                ),
                bearing_line(
                    bearing_deg=target.bearing_deg, range_m=target.range_m, error_deg=error_deg
                ),
            )
            return screen, _Choice(targets=(target,), cut_deg=90.0, lines=lines, cost_m=0.0)
    return None


def _why_no_ranges(
    targets: Sequence[FixTarget], screens: Sequence[FixScreen], rules: FixRules
) -> Reason:
    shown = [_shown(targets, screen, rules) for screen in screens]
    most = max(shown, key=len, default=())
    if not most:
        return Reason(code=reason_codes.FIX_NOTHING)
    if len(most) == 1:
        return Reason(code=reason_codes.FIX_ONE_ONLY, values=(("object", most[0].object_id),))
    cuts = [cut_deg(a.bearing_deg, b.bearing_deg) for a, b in itertools.combinations(most, 2)]
    best = min(cuts, key=lambda angle: abs(angle - 90.0))
    return Reason(code=reason_codes.FIX_CUT_TOO_FINE, values=(("cut_deg", best),))
