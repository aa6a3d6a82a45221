"""The corridor of a leg against what the radar reads (job.md 2.9.8), and what is said of it."""

import math
from dataclasses import replace

from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.base.units import nm_from_m
from core.plan.candidates import Candidate, LegField
from core.plan.corridor_result import CorridorWatch
from core.plan.plan_result import IndexLine
from core.plan.rules import PlanRules
from core.plan.usable_window import ScaleSpan
from core.ship.ship import Ship


def corridor_watch(
    field: LegField,
    candidates: tuple[Candidate, ...],
    spans: tuple[ScaleSpan, ...],
    primaries: tuple[IndexLine, ...],
    ship: Ship,
    rules: PlanRules,
) -> CorridorWatch | None:
    """Whether the narrower side of the corridor is at least twice the range error.

    Parameters
    ----------
    field : LegField
        The leg.
    candidates : tuple of Candidate
        Objects that can be used on it.
    spans : tuple of ScaleSpan
        Scales as they are planned.
    primaries : tuple of IndexLine
        Primary lines as laid; without one there is nothing to watch it by.
    ship, rules : Ship, PlanRules
        Range errors and scales of the main radar, what is kept free at the edge of its screen.

    Notes
    -----
    A shorter scale is proposed however far the look-out needs to see: that is for another radar,
    or for moments.
    """
    if not primaries:
        return None
    scale_m = max(line.range_scale_m for line in primaries)
    budget = next(s.setting.budget for s in spans if s.setting.screen.scale_m == scale_m)
    watch = CorridorWatch(
        corridor_m=field.corridor_m, scale_m=scale_m, range_error_m=budget.range_error_m
    )
    if watch.is_watched:
        return watch
    radar = ship.radars[0]
    nearest_m = min((abs(c.window.edge.cross_m) for c in candidates), default=math.inf)
    better = [
        shorter_m
        for shorter_m in radar.range_scales_m
        if rules.shortest_index_scale_m <= shorter_m < scale_m
        and field.corridor_m
        >= 2.0 * (ship.range_error_m(shorter_m) + abs(radar.range_index_error_m))
        and nearest_m < (1.0 - rules.screen_margin_ratio) * shorter_m
    ]
    return replace(watch, better_scale_m=max(better, default=None))


def corridor_findings(
    field: LegField, watch: CorridorWatch | None, laid: tuple[IndexLine, ...]
) -> tuple[Finding, ...]:
    """Said once for a leg whose corridor is narrower than radar, or a primary line, can watch."""
    where = Where(leg_number=field.leg_index + 1)
    if watch is not None and not watch.is_watched:
        return (
            Finding(
                severity=Severity.CHECK,
                code="corridor-not-watchable",
                what=(
                    tr(
                        "the corridor of {corridor_nm:.2f} NM is less than twice the range "
                        "error on the {scale_nm:g} NM scale, {range_error_nm:.2f} NM",
                        corridor_nm=nm_from_m(watch.corridor_m),
                        scale_nm=nm_from_m(watch.scale_m),
                        range_error_nm=_up_nm(watch.least_corridor_m),
                    )
                ),
                where=where,
                todo=tr("No scale with an object on it can watch it: keep it by another aid")
                if watch.better_scale_m is None
                else tr(
                    "The {distance_nm:g} NM scale can, where it holds an object and the "
                    "other radar keeps the look-out; else keep it by another aid",
                    distance_nm=nm_from_m(watch.better_scale_m),
                ),
            ),
        )
    wide = [line for line in laid if line.uncertainty_m > field.corridor_m]
    if not wide:
        return ()
    worst = max(wide, key=lambda line: line.uncertainty_m)
    return (
        Finding(
            severity=Severity.CHECK,
            code="corridor-within-error",
            what=(
                tr(
                    "the line on {object_id} is good to {up_nm:.2f} NM, the corridor is "
                    "{distance_nm:.2f} NM",
                    object_id=worst.object.id,
                    up_nm=_up_nm(worst.uncertainty_m),
                    distance_nm=nm_from_m(field.corridor_m),
                )
            ),
            where=where,
            todo=tr("Use a shorter scale, a steadier object or another aid to keep the corridor"),
        ),
    )


def _up_nm(distance_m: float) -> float:
    return math.ceil(nm_from_m(distance_m) * 100.0 - 1e-6) / 100.0
