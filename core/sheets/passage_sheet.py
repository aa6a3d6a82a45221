"""The front sheets: the passage at a glance, what is in the book, the findings that matter most."""

from collections.abc import Sequence
from dataclasses import replace

from core.plan.object_result import Grade
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan, Role
from core.sheets.flow import Entry, Section, cut_sections, section_items
from core.sheets.leg_sections import MOST_FINDINGS, finding_entry
from core.sheets.leg_sheet import coverage_of
from core.sheets.page import Anchor, Item, Measure, Page, Rectangle, Stroke, Text, Tone
from core.sheets.revision_marks import passage_change_section
from core.sheets.sheet_frame import (
    CONTENT_MM,
    HEIGHT_MM,
    LEFT_MM,
    TOP_MM,
    WIDTH_MM,
    foot,
    head_line,
)
from core.sheets.tables import Cell, Column, Row, Table, rows_within, table_items
from core.sheets.waypoint_pages import lay_out_waypoints, waypoint_pages
from core.sheets.wrapping import BODY_PT, line_mm, set_in
from core.words import quantities, times
from core.words.bridge_words import Bridge
from core.words.messages import Say
from core.words.voyage_words import voyage_fields

_ROW_MM = 5.6
_LEFT_COLUMN_MM = 84.0
_GUTTER_MM = 6.0
_FIELDS_A_ROW = 4
_FIELD_MM = 10.4
_FIRST_LEGS_MM = 100.0
"""Greatest height of the table of legs on the first sheet."""


def _parts(outcome: Outcome, measure: Measure) -> tuple[tuple[LegPlan, ...], ...]:
    """Legs of each front sheet: what the first holds, then full sheets."""
    left = outcome.plan.legs
    parts: list[tuple[LegPlan, ...]] = []
    room = _FIRST_LEGS_MM
    while left or not parts:
        count = max(1, rows_within(_leg_table(outcome, left), room, measure))
        parts.append(left[:count])
        left = left[count:]
        room = foot(outcome, measure)[1] - TOP_MM - 19.0
    return tuple(parts)


def left_out_of_front(outcome: Outcome, measure: Measure) -> tuple[Section, ...]:
    """Whole sections of the first sheet that must stand elsewhere in the book."""
    whole = _findings(outcome, most=None)
    _left, room = _columns(outcome, measure)
    (is_cut,) = cut_sections((_findings(outcome, most=MOST_FINDINGS),), room, measure)
    return (whole,) if is_cut else ()


def front_page_count(outcome: Outcome, measure: Measure) -> int:
    """How many front sheets a passage needs, those of its waypoints among them."""
    return len(_parts(outcome, measure)) + lay_out_waypoints(outcome, measure).page_count


def front_pages(
    outcome: Outcome,
    *,
    page_count: int,
    measure: Measure,
    contents: Sequence[tuple[str, int]] = (),
    rest: str = Say.IN_PLAN_FILE,
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
    contents : sequence of (title, page)
        The parts of the book and where each begins.
    rest : str
        Where findings that do not fit are found.
    """
    first, *others = _parts(outcome, measure)
    pages = [_first(outcome, first, page_count, measure, contents, rest)]
    for part in others:
        pages.append(_next(outcome, part, len(pages) + 1, page_count, measure))
    return (
        *pages,
        *waypoint_pages(
            outcome,
            lay_out_waypoints(outcome, measure),
            first_number=len(pages) + 1,
            page_count=page_count,
            measure=measure,
        ),
    )


def _head(
    outcome: Outcome, title: str, number: int, page_count: int, measure: Measure
) -> tuple[list[Item], float]:
    """Head line and title, and the baseline of the title's last line."""
    lines, size_pt = set_in(
        title, CONTENT_MM, measure, sizes_pt=(18.0, 16.0, 14.0, 12.0), is_bold=True
    )
    y = TOP_MM + 13.6
    items: list[Item] = list(
        head_line(outcome, page_number=number, page_count=page_count, measure=measure)
    )
    for line in lines:
        items.append(Text(x_mm=LEFT_MM, y_mm=y, text=line, size_pt=size_pt, is_bold=True))
        y += line_mm(size_pt)
    return items, y - line_mm(size_pt)


def _first_head(outcome: Outcome, page_count: int, measure: Measure) -> tuple[list[Item], float]:
    """Everything above the table of legs, and the y where that begins."""
    items, y = _head(outcome, outcome.plan.passage.name, 1, page_count, measure)
    lines, size_pt = set_in(
        _summary(outcome), CONTENT_MM, measure, sizes_pt=(11.0, 10.0, 9.5), most_lines=1
    )
    y += 6.4
    for line in lines:
        items.append(Text(x_mm=LEFT_MM, y_mm=y, text=line, size_pt=size_pt))
        y += line_mm(size_pt)
    fields, y = _fields(outcome, y - line_mm(size_pt) + 1.2, measure)
    return [*items, *fields], y


def _fields(outcome: Outcome, y_mm: float, measure: Measure) -> tuple[list[Item], float]:
    """Voyage, draughts, antennas, speed and the like; a line where it is not known."""
    items: list[Item] = []
    room = CONTENT_MM / _FIELDS_A_ROW
    y = y_mm
    for number, (head, value) in enumerate(voyage_fields(outcome)):
        x = LEFT_MM + (number % _FIELDS_A_ROW) * room
        y = y_mm + (number // _FIELDS_A_ROW) * _FIELD_MM
        items.append(Text(x_mm=x, y_mm=y + 3.4, text=head, size_pt=BODY_PT, tone=Tone.FAINT_INK))
        if not value:
            line = ((x, y + 8.8), (x + room - 4.0, y + 8.8))
            items.append(Stroke(points=line, width_mm=0.2, tone=Tone.RULE))
            continue
        lines, size_pt = set_in(
            value, room - 3.0, measure, sizes_pt=(12.0, 11.0, 10.0, BODY_PT), is_bold=True
        )
        items.append(Text(x_mm=x, y_mm=y + 8.6, text=lines[0], size_pt=size_pt, is_bold=True))
        items += [
            Text(
                x_mm=x,
                y_mm=y + 8.6 + n * line_mm(size_pt),
                text=line,
                size_pt=size_pt,
                is_bold=True,
            )
            for n, line in enumerate(lines[1:], start=1)
        ]
    return items, y + _FIELD_MM + 1.4


def _columns(outcome: Outcome, measure: Measure) -> tuple[Rectangle, Rectangle]:
    """Rooms of the contents and of the findings below the table of legs."""
    _items, top = _first_head(outcome, 1, measure)
    _block, y = _legs(outcome, _parts(outcome, measure)[0], top, measure)
    top, height = y + 2.0, foot(outcome, measure)[1] - y - 3.0
    left = Rectangle(x_mm=LEFT_MM, y_mm=top, width_mm=_LEFT_COLUMN_MM, height_mm=height)
    right = Rectangle(
        x_mm=left.right_mm + _GUTTER_MM,
        y_mm=top,
        width_mm=CONTENT_MM - _LEFT_COLUMN_MM - _GUTTER_MM,
        height_mm=height,
    )
    return left, right


def _first(
    outcome: Outcome,
    legs: tuple[LegPlan, ...],
    page_count: int,
    measure: Measure,
    contents: Sequence[tuple[str, int]],
    rest: str,
) -> Page:
    items, y = _first_head(outcome, page_count, measure)
    items.extend(_legs(outcome, legs, y, measure)[0])
    items.extend(foot(outcome, measure)[0])
    left, right = _columns(outcome, measure)
    items.extend(
        section_items((_contents(contents), passage_change_section(outcome)), left, measure)
    )
    found = replace(_findings(outcome, most=MOST_FINDINGS), where=rest)
    items.extend(section_items((found,), right, measure))
    return Page(width_mm=WIDTH_MM, height_mm=HEIGHT_MM, items=tuple(items), name=Say.PASSAGE_SHEET)


def _next(
    outcome: Outcome, legs: tuple[LegPlan, ...], number: int, page_count: int, measure: Measure
) -> Page:
    title = f"{outcome.plan.passage.name}, {Say.LEGS.lower()} {Say.CONTINUED}"
    items, y = _head(outcome, title, number, page_count, measure)
    block, _y = _legs(outcome, legs, y + 4.4, measure)
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
    table = _leg_table(outcome, legs)
    return table_items(table, x_mm=LEFT_MM, y_mm=y_mm, most_rows=len(table.rows), measure=measure)


def _leg_table(outcome: Outcome, legs: tuple[LegPlan, ...]) -> Table:
    zone = times.zone_short(outcome.plan.timetable)
    columns = (
        Column(head=Say.COLUMN_LEG, width_mm=10.0, anchor=Anchor.END),
        Column(head=Say.COLUMN_TO, width_mm=41.0),
        Column(head=Say.COLUMN_COURSE, width_mm=19.0, anchor=Anchor.END),
        Column(head=Say.COLUMN_NM, width_mm=12.0, anchor=Anchor.END),
        Column(head=Say.COLUMN_KN, width_mm=12.0, anchor=Anchor.END),
        Column(head=f"{Say.COLUMN_START} {zone}", width_mm=24.5, anchor=Anchor.END),
        Column(head=Say.COLUMN_INDEX, width_mm=42.5),
        Column(head=Say.COLUMN_DATA, width_mm=27.0),
    )
    rows = tuple(_leg_row(outcome, leg) for leg in legs)
    return Table(columns=columns, rows=rows, row_mm=_ROW_MM)


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
                text=Grade(leg.quality.grade).shown if is_complete else str(Say.INCOMPLETE),
                size_pt=10.0,
                is_bold=not is_complete,
            ),
        ),
        reference=f"leg:{leg.leg_index}",
    )


def _contents(parts: Sequence[tuple[str, int]]) -> Section:
    """Each part of the book with the page on which it begins."""
    entries = tuple(Entry(lead=title, facts=(str(number),)) for title, number in parts)
    return Section(
        title=str(Bridge.CONTENTS),
        entries=entries,
        keep=len(entries),
        heads=(str(Bridge.PAGE),),
        tabs_mm=(_LEFT_COLUMN_MM,),
    )


def _findings(outcome: Outcome, most: int | None) -> Section:
    """The worst; the rest is counted."""
    shown = outcome.findings[:most]
    entries = tuple(
        Entry(
            lead=_lead(str(finding.where), finding_entry(finding).lead),
            text=finding_entry(finding).text,
            reference=f"finding:{finding.code}",
        )
        for finding in shown
    )
    return Section(
        title=Say.FINDINGS,
        entries=entries or (Entry(text=str(Say.NO_FINDINGS)),),
        left_out=len(outcome.findings) - len(shown),
    )


def _lead(where: str, severity: str) -> str:
    return f"{severity}, {where}" if where else severity
