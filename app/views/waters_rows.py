"""Hidden water of a leg as rows of words: emerging craft, places, land shadows, own sectors."""

from app.views.table_model import Row
from core.base.language import tr
from core.coverage.coverage_result import LegShadow
from core.passage.timetable import Timetable
from core.plan.emergence_result import Alarm, Emergence
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
from core.plan.sector_result import HiddenSector
from core.plan.waters_result import HiddenMark
from core.words import quantities, times
from core.words.emergence_words import (
    Hidden,
    approaches_words,
    emergence_time,
    flag_words,
    head_name,
    hidden_mark_words,
    offing_words,
    relative_sector,
    runs_words,
    sector_line,
)
from core.words.kept_words import shown

WATERS_HEADS = (
    tr("What"),
    tr("From"),
    tr("Bearing"),
    tr("Minutes in sight by speed of craft, or how long hidden"),
)


def waters_rows(outcome: Outcome, leg: LegPlan) -> tuple[Row, ...]:
    """Heads with the shortest warning first, then places, sectors and the shadows of land."""
    waters, timetable = leg.waters, outcome.plan.timetable
    if waters is None:
        return ()
    shadows = outcome.coverage.legs[leg.leg_index].shadows
    return (
        *(_head_row(head, leg.leg_index, timetable) for head in waters.emergences),
        *(_mark_row(mark, leg.leg_index, timetable) for mark in waters.hidden_marks),
        *(_sector_row(sector) for sector in waters.sectors or ()),
        *(_shadow_row(shadow, leg.leg_index, timetable) for shadow in shadows),
    )


def _head_row(head: Emergence, leg_index: int, timetable: Timetable) -> Row:
    flag = flag_words(head.alarm)
    words = runs_words(head)
    more = offing_words(head)
    return Row(
        cells=(
            f"{head_name(head)} {quantities.side(head.side)}",
            emergence_time(head, leg_index, timetable),
            relative_sector(head.relative_from_deg, head.relative_to_deg),
            f"{flag}: {words}" if flag else words,
        ),
        tip=" ".join(f"{part}." for part in (more, str(Hidden.MEANS).removesuffix(".")) if part),
        is_alert=head.alarm is not Alarm.NONE,
        subject=head,
    )


def _mark_row(mark: HiddenMark, leg_index: int, timetable: Timetable) -> Row:
    start = (mark.hidden_somewhere or mark.unknown)[0][0]
    words = hidden_mark_words(mark, leg_index, timetable)
    return Row(
        cells=(
            mark.name,
            times.when(timetable, leg_index, start),
            f"{quantities.side(mark.side)} {quantities.distance(mark.off_track_m, 2)}",
            words,
        ),
        tip=f"{shown(mark.kind)}: {words}.",
        subject=mark,
    )


def _sector_row(sector: HiddenSector) -> Row:
    where, _colon, words = sector_line(sector).partition(": ")
    approaches = approaches_words(sector)
    return Row(
        cells=(
            str(Hidden.SHADOW_SECTOR if sector.is_shadow else Hidden.BLIND_SECTOR),
            quantities.DASH,
            where,
            f"{words}; {approaches}" if sector.is_seen_by_none else words,
        ),
        tip=f"{', '.join((*sector.radars, *sector.causes))}: {approaches}.",
        subject=sector,
    )


def _shadow_row(shadow: LegShadow, leg_index: int, timetable: Timetable) -> Row:
    span = times.span(timetable, leg_index, shadow.from_along_m, shadow.to_along_m)
    words = tr(
        "{time_span}, from {range}, behind {cause}",
        time_span=span,
        range=quantities.range_down(shadow.range_from_m),
        cause=shadow.cause,
    )
    if shadow.track_along_m is None:
        words = tr("{shadow}, from an edge of the corridor alone", shadow=words)
    from_bearing, to_bearing = quantities.whole_sector(
        shadow.bearing_from_deg, shadow.bearing_to_deg
    )
    return Row(
        cells=(
            tr("shadow {side}", side=quantities.side(shadow.side)),
            times.when(timetable, leg_index, shadow.from_along_m),
            tr(
                "{from_bearing}° to {to_bearing}° T",
                from_bearing=from_bearing,
                to_bearing=to_bearing,
            ),
            words,
        ),
        tip=f"{words}.",
        subject=shadow,
    )
