"""Hidden water on the sheet of a leg, and in full as rows of a list at the back."""

from collections.abc import Iterator

from core.base.language import tr
from core.passage.timetable import Timetable
from core.plan.emergence_result import Alarm, Emergence
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
from core.plan.sector_result import HiddenSector
from core.plan.waters_result import HiddenMark
from core.sheets.flow import Entry, Section
from core.sheets.list_pages import Group
from core.sheets.tables import Cell, Column, Row
from core.words import quantities, times
from core.words.emergence_words import (
    Hidden,
    approaches_words,
    emergence_line,
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
from core.words.messages import Say
from core.words.quantities import DASH

_MOST_HEADS = 2
"""On the sheet of a leg, the shortest warnings."""


def waters_section(outcome: Outcome, plan: LegPlan, *, where: str) -> Section:
    """The worst flagged heads, the first place in hidden water, a sector that no radar sees."""
    timetable, waters = outcome.plan.timetable, plan.waters
    if waters is None:
        return Section(title=str(Hidden.TITLE), entries=())
    places = [mark for mark in waters.hidden_marks if mark.is_place]
    gaps = [sector for sector in waters.sectors or () if sector.is_seen_by_none]
    flagged = [head for head in waters.emergences if head.alarm is not Alarm.NONE]
    shown = flagged[:_MOST_HEADS]
    entries = (
        *(
            Entry(
                lead=Hidden.EMERGENCE.format(
                    name=head_name(head),
                    side=quantities.side(head.side),
                    time=emergence_time(head, plan.leg_index, timetable),
                ),
                text=emergence_line(head),
                rank=number,
                reference=f"emergence:{head.number}",
            )
            for number, head in enumerate(shown)
        ),
        *(
            Entry(
                lead=mark.name,
                text=hidden_mark_words(mark, plan.leg_index, timetable),
                is_inline=True,
                rank=_MOST_HEADS,
                reference=f"hidden-mark:{mark.name}",
            )
            for mark in places[:1]
        ),
        *(
            Entry(text=sector_line(sector), rank=_MOST_HEADS + 1, reference="blind-sector")
            for sector in gaps[:1]
        ),
    )
    everything = len(waters.emergences) + len(waters.hidden_marks) + len(gaps)
    return Section(
        title=str(Hidden.TITLE),
        entries=entries,
        left_out=everything - len(entries),
        where=where,
        is_shortened=bool(entries),
    )


def waters_columns(timetable: Timetable) -> tuple[Column, ...]:
    """What, from when, on which bearing, and the figures in words."""
    return (
        Column(head=Hidden.COLUMN_WHAT, width_mm=44.0),
        Column(head=Hidden.COLUMN_FROM.format(zone=times.zone_short(timetable)), width_mm=21.0),
        Column(head=Hidden.COLUMN_BEARING, width_mm=35.0),
        Column(head=Hidden.COLUMN_WORDS, width_mm=88.0),
    )


def waters_groups(outcome: Outcome) -> list[Group]:
    """Own ship's sectors, which hold on every leg, then a group a leg."""
    names = [waypoint.name for waypoint in outcome.plan.passage.waypoints]
    groups = [
        Group(
            title=str(Hidden.ALL_LEGS),
            rows=(Row(cells=(), note=str(Hidden.MEANS)), *_ship_rows(outcome)),
        )
    ]
    for leg in outcome.plan.legs:
        start, stop = names[leg.leg_index : leg.leg_index + 2]
        title = f"{Say.LEG} {leg.leg_index + 1}, {Say.FROM_TO.format(start=start, stop=stop)}"
        groups.append(Group(title=title, rows=tuple(_leg_rows(leg, outcome.plan.timetable))))
    return groups


def _ship_rows(outcome: Outcome) -> Iterator[Row]:
    first = outcome.plan.legs[0].waters
    for sector in () if first is None else first.sectors or ():
        words = sector_line(sector).partition(": ")[2]
        yield _sector_row(sector, words[0].upper() + words[1:])


def _leg_rows(leg: LegPlan, timetable: Timetable) -> Iterator[Row]:
    waters = leg.waters
    if waters is None:
        return
    for head in waters.emergences:
        yield _head_row(head, leg.leg_index, timetable)
    for mark in waters.hidden_marks:
        yield _mark_row(mark, leg.leg_index, timetable)
    for sector in waters.sectors or ():
        if sector.is_seen_by_none:
            words = approaches_words(sector)
            yield _sector_row(sector, words[0].upper() + words[1:])


def _head_row(head: Emergence, leg_index: int, timetable: Timetable) -> Row:
    flag = flag_words(head.alarm)
    more = [offing_words(head)]
    if head.alarm is not Alarm.NONE:
        more.append(str(Hidden.ACTION))
    if head.is_behind_unknown:
        more.append(str(Hidden.UNKNOWN))
    beside = tr(
        "{side}, {distance} off",
        side=quantities.side(head.side),
        distance=quantities.distance(head.offing_m, 2),
    )
    return Row(
        cells=(
            Cell(
                text=head.object_id or str(Hidden.HEAD),
                beside=f"{beside}, {quantities.position(head.tip)}",
                is_bold=True,
            ),
            Cell(text=emergence_time(head, leg_index, timetable)),
            Cell(text=relative_sector(head.relative_from_deg, head.relative_to_deg)),
            Cell(
                text=f"{flag}: {runs_words(head)}" if flag else runs_words(head),
                is_bold=bool(flag),
                beside="",
                second="; ".join(part for part in more if part),
            ),
        ),
        reference=f"emergence:{head.number}",
    )


def _mark_row(mark: HiddenMark, leg_index: int, timetable: Timetable) -> Row:
    start = (mark.hidden_somewhere or mark.unknown)[0][0]
    return Row(
        cells=(
            Cell(text=mark.name, beside=shown(mark.kind), is_bold=True),
            Cell(text=times.when(timetable, leg_index, start)),
            Cell(text=f"{quantities.side(mark.side)} {quantities.distance(mark.off_track_m, 2)}"),
            Cell(text=hidden_mark_words(mark, leg_index, timetable)),
        ),
        reference=f"hidden-mark:{mark.name}",
    )


def _sector_row(sector: HiddenSector, words: str) -> Row:
    return Row(
        cells=(
            Cell(
                text=str(Hidden.SHADOW_SECTOR if sector.is_shadow else Hidden.BLIND_SECTOR),
                beside=", ".join((*sector.radars, *sector.causes)),
                is_bold=True,
            ),
            Cell(text=DASH),
            Cell(text=relative_sector(sector.from_relative_deg, sector.to_relative_deg)),
            Cell(text=words),
        ),
        reference="blind-sector",
    )
