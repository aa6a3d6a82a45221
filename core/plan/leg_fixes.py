"""Radar fixes of one leg (job.md 1.7.15, A22, B9)."""

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from core.base.findings import Finding, Severity
from core.base.language import tr, tr_n
from core.plan.candidates import Candidate, LegField
from core.plan.cross_error import cross_error_at_m, worst_cross
from core.plan.error_budget import budget_on_scale
from core.plan.fix_choice import FixScreen, best_fix
from core.plan.fix_result import Fix, LegFixes
from core.plan.fix_targets import targets_at
from core.plan.gap_fixes import gaps_with_fixes
from core.plan.leg_context import LegContext
from core.plan.plan_result import LegPlan
from core.plan.scale_result import ScaleStretch
from core.plan.screen import Screen

_MOST_PLACES = 120


def with_fixes(
    plan: LegPlan, field: LegField, context: LegContext, candidates: tuple[Candidate, ...]
) -> LegPlan:
    """The leg with how to fix by radar alone, and how well her distance off the track is known.

    ``candidates`` are all objects that could be indexed on the leg.
    """
    rules, speed = context.rules, field.speed_mps
    start_m = min(context.tangent_before_m, field.end_m)
    fix_m = fix_places_m(
        start_m=start_m,
        end_m=field.end_m,
        step_m=rules.fix_interval_s * speed,
        alert_m=rules.fix.alert_s * speed if field.turn_plan.turn is not None else 0.0,
    )
    fixes: list[Fix] = []
    for along_m in fix_m:
        screens = _screens(plan, field, context, along_m)
        fixes.append(
            best_fix(
                targets_at(field, context, along_m),
                screens,
                along_m=along_m,
                course_deg=float(field.line.at(np.array([along_m]))[2][0]),
                corridor_m=field.corridor_m,
                before=frozenset(o.object_id for o in fixes[-1].objects) if fixes else frozenset(),
                cross_error_m=cross_error_at_m(along_m, candidates, screens[0].budget, rules),
                rules=rules.fix,
            )
        )
    sizes = [fix.semi_major_m for fix in fixes if fix.objects]
    return replace(
        plan,
        index_gaps=gaps_with_fixes(plan.index_gaps, fixes),
        fixing=LegFixes(
            interval_s=rules.fix_interval_s,
            fixes=tuple(fixes),
            worst_m=max(sizes, default=None),
            corridor_m=field.corridor_m,
            worst_cross=worst_cross(fixes),
        ),
    )


def fix_places_m(*, start_m: float, end_m: float, step_m: float, alert_m: float) -> list[float]:
    """Where to fix: from the start on at every interval, in the middle, before the wheel-over.

    Places nearer to one that must be than a third of the interval are left out. On very long or
    slow legs every second, third ... interval is worked out, so that places stay few.
    """
    step_m *= max(1, math.ceil((end_m - start_m) / step_m / _MOST_PLACES))
    last_m = max(end_m - alert_m, start_m)
    wanted = [start_m, (start_m + last_m) / 2.0, last_m]
    grid = start_m + step_m * np.arange(1, int((last_m - start_m) / step_m) + 1)
    kept = [float(m) for m in grid if last_m - m > step_m / 3.0]
    middle_m = wanted[1]
    if any(abs(m - middle_m) <= step_m / 3.0 for m in (start_m, *kept, last_m)):
        wanted = [start_m, last_m]
    return sorted({*wanted, *kept})


def fix_findings(legs: Sequence[LegPlan]) -> tuple[Finding, ...]:
    """One note for the passage: where radar alone gives no fix, or none within the corridor."""
    without = [leg for leg in legs if leg.fixing is not None and not leg.fixing.has_two_ranges]
    wide = [leg for leg in legs if leg.fixing is not None and leg.fixing.is_wide]
    parts = []
    if without:
        parts.append(tr("no radar fix by two ranges on {legs}", legs=_legs(without)))
    if wide:
        parts.append(tr("radar fixes wider than the corridor on {legs}", legs=_legs(wide)))
    if not parts:
        return ()
    return (
        Finding(
            severity=Severity.NOTE,
            code="radar-fixes",
            what="; ".join(parts),
            todo=tr("Plan another way to fix there; see the radar fixes of each leg"),
        ),
    )


def _legs(legs: Sequence[LegPlan]) -> str:
    numbers = [str(leg.leg_index + 1) for leg in legs]
    return tr_n("leg {numbers}", "legs {numbers}", len(numbers), numbers=", ".join(numbers))


def _screens(
    plan: LegPlan, field: LegField, context: LegContext, along_m: float
) -> tuple[FixScreen, ...]:
    """The screen in use on the main radar, then its longer scales, centred, up to 24 NM."""
    rules, radar = context.rules, context.ship.radars[0]
    used = _in_use(plan, radar.name, along_m)
    screens = [
        Screen(
            scale_m=used.scale_m,
            off_centre_ratio=used.off_centre_ratio,
            margin_ratio=rules.screen_margin_ratio,
        )
    ]
    screens += [
        Screen(scale_m=scale_m, margin_ratio=rules.screen_margin_ratio)
        for scale_m in sorted(radar.range_scales_m)
        if used.scale_m < scale_m <= rules.fix.farthest_m + 1.0
    ]
    return tuple(
        FixScreen(
            screen=screen,
            budget=budget_on_scale(
                context.ship,
                range_scale_m=screen.scale_m,
                corridor_m=field.corridor_m,
                rules=rules,
            ),
            is_in_use=number == 0,
        )
        for number, screen in enumerate(screens)
    )


def _in_use(plan: LegPlan, radar: str, along_m: float) -> ScaleStretch:
    own = [stretch for stretch in plan.scales if stretch.radar == radar]
    return next((s for s in own if along_m <= s.to_along_m), own[-1])
