"""The front sheets: the passage at a glance, what went in, findings and cautions in full."""

import math

from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan, Role
from core.sheets.flow import Entry, Section, cut_sections, fitted, section_items
from core.sheets.leg_sections import finding_entry
from core.sheets.leg_sheet import coverage_of
from core.sheets.page import Anchor, Item, Measure, Page, Rectangle, Text
from core.sheets.sheet_frame import (
    CONTENT_MM,
    HEIGHT_MM,
    LEFT_MM,
    TOP_MM,
    WIDTH_MM,
    data_words,
    foot,
    head_line,
    source_words,
)
from core.sheets.tables import Cell, Column, Row, Table, table_items
from core.words import quantities, times
from core.words.messages import CAUTIONS, Say

LEGS_ON_FIRST = 16
LEGS_ON_NEXT = 36
_ROW_MM = 5.6
_LEGS_TOP_MM = TOP_MM + 23.0
_LEFT_COLUMN_MM = 88.0


def front_page_count(leg_count: int) -> int:
    """How many front sheets a passage needs: one, and more where the legs do not fit on it."""
    return 1 + math.ceil(max(0, leg_count - LEGS_ON_FIRST) / LEGS_ON_NEXT)


def left_out_of_front(outcome: Outcome, measure: Measure) -> tuple[Section, ...]:
    """Sections of the first sheet, whole, of which it cannot hold everything."""
    found: list[Section] = []
    for room, sections in _columns(outcome, measure):
        cut = cut_sections(sections, room, measure)
        found += [one for one, is_cut in zip(sections, cut, strict=True) if is_cut]
    return tuple(found)


def front_pages(
    outcome: Outcome, *, page_count: int, measure: Measure, where: str = Say.IN_PLAN_FILE
) -> tuple[Page, ...]:
    """The front sheets of an outcome.

    Parameters
    ----------
    outcome : Outcome
        The finished plan.
    page_count : int
        Pages of the whole book.
    measure : Measure
        Text widths.
    where : str
        Where what does not fit is found.
    """
    legs = outcome.plan.legs
    pages = [_first(outcome, page_count, measure, where)]
    for start in range(LEGS_ON_FIRST, len(legs), LEGS_ON_NEXT):
        part = legs[start : start + LEGS_ON_NEXT]
        pages.append(_next(outcome, part, len(pages) + 1, page_count, measure))
    return tuple(pages)


def _head(
    outcome: Outcome, title: str, number: int, page_count: int, measure: Measure
) -> list[Item]:
    return [
        *head_line(
            outcome,
            page_number=number,
            page_count=page_count,
            measure=measure,
        ),
        Text(
            x_mm=LEFT_MM,
            y_mm=TOP_MM + 13.6,
            text=fitted(title, CONTENT_MM, measure, size_pt=18.0, is_bold=True),
            size_pt=18.0,
            is_bold=True,
        ),
    ]


def _columns(
    outcome: Outcome, measure: Measure
) -> tuple[tuple[Rectangle, tuple[Section, ...]], ...]:
    """The two columns of words of the first sheet and their rooms."""
    _block, y = _legs(outcome, outcome.plan.legs[:LEGS_ON_FIRST], _LEGS_TOP_MM, measure)
    _foot, foot_top = foot(outcome, measure, has_data=False)
    top = y + 2.0
    height = foot_top - top - 1.0
    left = Rectangle(x_mm=LEFT_MM, y_mm=top, width_mm=_LEFT_COLUMN_MM, height_mm=height)
    right = Rectangle(
        x_mm=LEFT_MM + _LEFT_COLUMN_MM + 5.0,
        y_mm=top,
        width_mm=CONTENT_MM - _LEFT_COLUMN_MM - 5.0,
        height_mm=height,
    )
    return (left, _facts(outcome)), (right, _findings_and_cautions(outcome))


def _first(outcome: Outcome, page_count: int, measure: Measure, where: str) -> Page:
    passage = outcome.plan.passage
    items = _head(outcome, passage.name, 1, page_count, measure)
    items.append(
        Text(
            x_mm=LEFT_MM,
            y_mm=TOP_MM + 20.0,
            text=fitted(_summary(outcome), CONTENT_MM, measure, size_pt=11.0),
            size_pt=11.0,
        )
    )
    items.extend(_legs(outcome, outcome.plan.legs[:LEGS_ON_FIRST], _LEGS_TOP_MM, measure)[0])
    items.extend(foot(outcome, measure, has_data=False)[0])
    for room, sections in _columns(outcome, measure):
        items.extend(section_items(sections, room, measure, where=where))
    return Page(width_mm=WIDTH_MM, height_mm=HEIGHT_MM, items=tuple(items), name=Say.PASSAGE_SHEET)


def _next(
    outcome: Outcome, legs: tuple[LegPlan, ...], number: int, page_count: int, measure: Measure
) -> Page:
    title = f"{outcome.plan.passage.name}, {Say.LEGS.lower()} {Say.CONTINUED}"
    items = _head(outcome, title, number, page_count, measure)
    block, _y = _legs(outcome, legs, TOP_MM + 18.0, measure)
    items.extend(block)
    items.extend(foot(outcome, measure)[0])
    return Page(width_mm=WIDTH_MM, height_mm=HEIGHT_MM, items=tuple(items), name=Say.PASSAGE_SHEET)


def _summary(outcome: Outcome) -> str:
    """From where to where, how far, when."""
    passage, legs, timetable = outcome.plan.passage, outcome.plan.legs, outcome.plan.timetable
    names = Say.FROM_TO.format(start=passage.waypoints[0].name, stop=passage.waypoints[-1].name)
    total = quantities.distance(sum(leg.distance_m for leg in legs))
    start = timetable.utc_at(0, 0.0)
    if start is None:
        return f"{names}, {total}, {Say.NO_START_TIME}"
    stop = timetable.utc_at(len(legs) - 1, legs[-1].distance_m)
    end = f"{quantities.DASH}{times.day_clock(stop)}" if stop is not None else ""
    return f"{names}, {total}, {times.date(start)}, {times.day_clock(start)}{end} {times.ZONE}"


def _legs(
    outcome: Outcome, legs: tuple[LegPlan, ...], y_mm: float, measure: Measure
) -> tuple[tuple[Item, ...], float]:
    zone = times.zone_short(outcome.plan.timetable)
    columns = (
        Column(head=Say.COLUMN_LEG, width_mm=10.0, anchor=Anchor.END),
        Column(head=Say.COLUMN_TO, width_mm=43.0),
        Column(head=Say.COLUMN_COURSE, width_mm=20.0, anchor=Anchor.END),
        Column(head=Say.COLUMN_NM, width_mm=13.0, anchor=Anchor.END),
        Column(head=Say.COLUMN_KN, width_mm=12.0, anchor=Anchor.END),
        Column(head=f"{Say.COLUMN_START} {zone}", width_mm=26.0, anchor=Anchor.END),
        Column(head=Say.COLUMN_INDEX, width_mm=37.0),
        Column(head=Say.COLUMN_DATA, width_mm=27.0),
    )
    rows = tuple(_leg_row(outcome, leg) for leg in legs)
    table = Table(columns=columns, rows=rows, row_mm=_ROW_MM)
    return table_items(table, x_mm=LEFT_MM, y_mm=y_mm, most_rows=len(rows), measure=measure)


def _leg_row(outcome: Outcome, leg: LegPlan) -> Row:
    timetable = outcome.plan.timetable
    used = dict.fromkeys(line.object.id for line in leg.lines if line.role is Role.PRIMARY)
    is_complete = coverage_of(outcome, leg.leg_index).is_complete
    return Row(
        cells=(
            Cell(text=str(leg.leg_index + 1), size_pt=10.0, is_bold=True),
            Cell(text=outcome.plan.passage.waypoints[leg.leg_index + 1].name, size_pt=10.0),
            Cell(text=quantities.track(leg.course_deg), size_pt=10.0),
            Cell(text=quantities.miles(leg.distance_m), size_pt=10.0),
            Cell(text=quantities.speed(leg.speed_mps).removesuffix(" kn"), size_pt=10.0),
            Cell(text=times.when(timetable, leg.leg_index, 0.0), size_pt=10.0),
            Cell(text=", ".join(used) if used else str(Say.NONE), size_pt=10.0, is_bold=not used),
            Cell(
                text=leg.quality.grade if is_complete else str(Say.INCOMPLETE),
                size_pt=10.0,
                is_bold=not is_complete,
            ),
        ),
        reference=f"leg:{leg.leg_index}",
    )


def _facts(outcome: Outcome) -> tuple[Section, ...]:
    """Objects, ship and water, inputs with the start of their SHA-256, the plan's digest."""
    plan, request = outcome.plan, outcome.request
    ship = request.ship
    radars = ", ".join(f"{radar.name} ({radar.band.value})" for radar in ship.radars)
    objects = tuple(
        Entry(
            lead=thing.id + (" *" if thing.confirm_on_chart else ""),
            is_inline=True,
            text=f"{thing.name}, {quantities.position(thing.position)}"
            if thing.name != thing.id
            else quantities.position(thing.position),
            reference=f"object:{thing.id}",
        )
        for thing in plan.objects
    )
    return (
        Section(
            title=Say.SHIP_AND_WATER,
            entries=(Entry(lead=ship.name, text=radars), Entry(text=data_words(outcome)[0])),
            keep=2,
        ),
        Section(
            title=Say.DATA,
            entries=tuple(Entry(text=source_words(s)) for s in outcome.land.sources),
        ),
        Section(
            title=Say.INPUTS,
            entries=tuple(
                Entry(text=f"{item.role} {item.name}, SHA-256 {item.sha256[:12]}")
                for item in request.inputs
            ),
            keep=2,
        ),
        Section(title=Say.DIGEST, entries=(Entry(text=outcome.digest),)),
        Section(title=Say.OBJECTS, entries=objects),
    )


def _findings_and_cautions(outcome: Outcome) -> tuple[Section, ...]:
    findings = tuple(
        Entry(
            lead=_lead(str(finding.where), finding_entry(finding).lead),
            text=finding_entry(finding).text,
            reference=f"finding:{finding.code}",
        )
        for finding in outcome.findings
    )
    return (
        Section(
            title=Say.FINDINGS,
            entries=findings or (Entry(text=str(Say.NO_FINDINGS)),),
        ),
        Section(
            title=Say.CAUTIONS,
            entries=tuple(Entry(text=text) for text in (*CAUTIONS, str(Say.CONFIRM_SIGN))),
            keep=len(CAUTIONS) + 1,
        ),
    )


def _lead(where: str, severity: str) -> str:
    return f"{severity}, {where}" if where else severity
