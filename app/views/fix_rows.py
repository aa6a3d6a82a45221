"""Radar fixes of a leg as rows of words."""

from app.views.plan_rows import to_go
from app.views.table_model import Row
from core.base.language import tr
from core.plan.fix_result import Fix
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
from core.words import quantities, times
from core.words.fix_words import (
    cross_words,
    interval_words,
    leg_words,
    measure_words,
    quality_words,
)

FIX_HEADS = (tr("When"), tr("NM to go"), tr("Measure"), tr("Good to"))


def fix_rows(outcome: Outcome, leg: LegPlan) -> tuple[Row, ...]:
    """The leg in one line, then every fix, then where the distance off the track is worst known."""
    fixing = leg.fixing
    if fixing is None:
        return ()
    lead = tr(
        "{fixes}; {interval}, ellipse of 95 %",
        fixes=leg_words(fixing),
        interval=interval_words(fixing),
    )
    rows = [Row(cells=(lead,), tip=lead, is_note=True)]
    rows += [_fix(outcome, leg, fix, fixing.corridor_m) for fix in fixing.fixes]
    worst = fixing.worst_cross
    if worst is not None:
        span = times.span(
            outcome.plan.timetable, leg.leg_index, worst.from_along_m, worst.to_along_m
        )
        rows.append(
            Row(
                cells=(
                    span,
                    to_go(leg, worst.from_along_m, worst.to_along_m),
                    cross_words(worst),
                    tr("all objects indexed together"),
                )
            )
        )
    return tuple(rows)


def _fix(outcome: Outcome, leg: LegPlan, fix: Fix, corridor_m: float) -> Row:
    names = "; ".join(f"{o.object_id}: {o.name}" for o in fix.objects if o.name != o.object_id)
    return Row(
        cells=(
            times.when(outcome.plan.timetable, leg.leg_index, fix.along_m),
            quantities.miles(leg.distance_m - fix.along_m),
            measure_words(fix),
            quality_words(fix, corridor_m),
        ),
        tip=names or measure_words(fix),
        is_alert=fix.semi_major_m > corridor_m,
        subject=fix,
    )
