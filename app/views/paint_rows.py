"""First paint, other weather and radars, and what must not paint, as rows for the tables."""

from app.views.table_model import Row
from core.base.language import tr
from core.coverage.coverage_result import FirstSight
from core.coverage.first_paint_result import WhatIfKind
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
from core.words import quantities, times
from core.words.messages import Say
from core.words.paint_words import (
    Sighting,
    Stand,
    band_words,
    limit_when,
    radar_words,
    sightings,
)

PAINT_HEADS = (
    tr("Object"),
    tr("Possible"),
    tr("From"),
    tr("By"),
    tr("Range"),
    tr("OVERDUE"),
    tr("Lost"),
)
WHAT_IF_HEADS = (tr("Object"), "k 0.8–2", tr("Rain to 16 mm/h"), tr("Sea to 5"), tr("By radar"))
MUST_NOT_HEADS = (tr("Object"), tr("Time"), tr("Range"), tr("Bearing"), tr("Hidden by"))


def paint_rows(outcome: Outcome, leg: LegPlan) -> tuple[Row, ...]:
    """The limits of every object; sight alone where no radar was worked out."""
    if not leg.first_paints:
        return tuple(_sight_row(outcome, leg, sight) for sight in leg.first_sights)
    order = list(Stand)
    ranked = sorted(sightings(leg), key=lambda one: (order.index(one.stand), one.first_along_m))
    return tuple(_paint_row(outcome, leg, one) for one in ranked)


def _sight_row(outcome: Outcome, leg: LegPlan, sight: FirstSight) -> Row:
    """Where land or a mark comes in sight by geometry alone: nothing is said of its echo."""
    timetable, dash = outcome.plan.timetable, quantities.DASH
    moment, lost = sight.in_sight_from, sight.lost
    came, bears = dash, sight.in_sight_from_reason
    if moment is not None:
        came = times.when(timetable, leg.leg_index, moment.along_m)
        bears = f"{quantities.radar_range(moment.range_m)} {quantities.course(moment.bearing_deg)}"
    gone = dash if lost is None else times.when(timetable, leg.leg_index, lost.along_m)
    return Row(
        cells=(sight.object_id, dash, came, dash, bears, dash, gone),
        tip=tr(
            "{object_id}: {name}, {height}. In radar line of sight by geometry alone; whether it "
            "gives an echo is not calculated.",
            object_id=sight.object_id,
            name=sight.name,
            height=quantities.height(sight.height_above_water_m),
        ),
        subject=sight,
    )


def _paint_row(outcome: Outcome, leg: LegPlan, one: Sighting) -> Row:
    timetable, dash = outcome.plan.timetable, quantities.DASH
    paint = one.paint
    if paint is None:
        cells = (one.object_id, dash, dash, dash, one.reason, dash, dash)
        return Row(cells=cells, tip=one.name, subject=one.thing)
    moment = one.moment
    if moment is not None:
        bears = f"{quantities.radar_range(moment.range_m)} {quantities.course(moment.bearing_deg)}"
    else:
        bears = dash if one.stand is Stand.FROM_START else one.reason
    lost = dash
    if one.lost is not None:
        lost = times.when_early(timetable, leg.leg_index, one.lost.along_m)
    again = [times.when_late(timetable, leg.leg_index, again.along_m) for again in paint.seen_again]
    tip = f"{one.object_id}: {one.name}, {quantities.height(one.height_above_water_m)}."
    if one.lost_to:
        tip += tr(" Lost to {lost_to}.", lost_to=one.lost_to)
    if again:
        tip += tr(" Again {again}.", again=", ".join(again))
    for held in sorted({paint.normally_by.held_by, paint.overdue.held_by} - {""}):
        tip += f" {Say.BLIND_BEFORE.format(sector=held).capitalize()}."
    if paint.corridor_by != paint.normally_by:
        corridor = limit_when(timetable, leg.leg_index, paint.corridor_by, is_late=True)
        tip += tr(" All over the corridor: {corridor}.", corridor=corridor)
    if not one.is_listed and paint.normally_by.reason:
        tip += f" {paint.normally_by.reason[0].upper()}{paint.normally_by.reason[1:]}."
    return Row(
        cells=(
            one.object_id,
            limit_when(timetable, leg.leg_index, paint.earliest_possible),
            limit_when(timetable, leg.leg_index, paint.normally_from),
            limit_when(timetable, leg.leg_index, paint.normally_by, is_late=True),
            bears,
            limit_when(timetable, leg.leg_index, paint.overdue, is_late=True),
            lost,
        ),
        tip=f"{tip} {Say.OVERDUE_MEANS}",
        subject=one.thing,
    )


def what_if_rows(outcome: Outcome, leg: LegPlan) -> tuple[Row, ...]:
    """Ranges at which each object is expected by in other weather, and on each radar."""
    del outcome
    return tuple(
        Row(
            cells=(
                paint.object_id,
                *(band_words(paint, kind) for kind in WhatIfKind),
                radar_words(paint),
            ),
            tip=tr(
                "{object_id}: {name}. Range of «by» from the most to the least "
                "favourable, all else as stated.",
                object_id=paint.object_id,
                name=paint.name,
            ),
            subject=paint,
        )
        for paint in leg.first_paints
        if paint.varies
    )


def must_not_rows(outcome: Outcome, leg: LegPlan) -> tuple[Row, ...]:
    """What land hides, in order of time."""
    return tuple(
        Row(
            cells=(
                item.object_id,
                times.span(
                    outcome.plan.timetable,
                    leg.leg_index,
                    item.begins.along_m,
                    item.ends.along_m,
                ),
                f"{quantities.radar_range(item.begins.range_m).removesuffix(' NM')}"
                f"{quantities.DASH}{quantities.radar_range(item.ends.range_m)}",
                f"{quantities.whole_degrees(item.begins.bearing_deg)}{quantities.DASH}"
                f"{quantities.whole_degrees(item.ends.bearing_deg)}",
                item.masked_by,
            ),
            tip=f"{item.object_id}: {item.name}. {Say.MUST_NOT_MEANS}",
            subject=item,
        )
        for item in leg.must_not_paint
    )
