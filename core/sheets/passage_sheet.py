"""The front sheets: the passage at a glance, what went in, findings and cautions in full."""

from dataclasses import dataclass, replace

from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan, Role
from core.sheets.flow import Entry, Section, cut_sections, section_items
from core.sheets.leg_sections import Elsewhere, finding_entry
from core.sheets.leg_sheet import coverage_of
from core.sheets.object_list import object_entries
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
from core.sheets.tables import Cell, Column, Row, Table, rows_within, table_items
from core.sheets.wrapping import line_mm, set_in
from core.words import quantities, times
from core.words.messages import CAUTIONS, Say

_ROW_MM = 5.6
_LEFT_COLUMN_MM = 88.0
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


def front_page_count(outcome: Outcome, measure: Measure) -> int:
    """How many front sheets a passage needs: one, and more where the legs do not fit on it."""
    return len(_parts(outcome, measure))


@dataclass(frozen=True, slots=True, kw_only=True)
class FrontLeftOut:
    """What the first sheet cannot hold."""

    sections: tuple[Section, ...]
    """Whole sections, but for the objects, which have a list of their own."""
    needs_object_list: bool


def left_out_of_front(outcome: Outcome, measure: Measure) -> FrontLeftOut:
    """What of the first sheet must stand elsewhere in the book."""
    found: list[Section] = []
    for room, sections in _columns(outcome, measure):
        cut = cut_sections(sections, room, measure)
        found += [one for one, is_cut in zip(sections, cut, strict=True) if is_cut]
    sections = tuple(one for one in found if one.title != Say.OBJECTS)
    return FrontLeftOut(sections=sections, needs_object_list=len(sections) < len(found))


def front_pages(
    outcome: Outcome, *, page_count: int, measure: Measure, elsewhere: Elsewhere | None = None
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
    elsewhere : Elsewhere or None
        Where objects (``sights``) and the rest that does not fit are found.
    """
    first, *others = _parts(outcome, measure)
    pages = [_first(outcome, first, page_count, measure, elsewhere or Elsewhere())]
    for part in others:
        pages.append(_next(outcome, part, len(pages) + 1, page_count, measure))
    return tuple(pages)


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
    return items, y - line_mm(size_pt) + 3.0


def _columns(
    outcome: Outcome, measure: Measure, elsewhere: Elsewhere | None = None
) -> tuple[tuple[Rectangle, tuple[Section, ...]], ...]:
    """The two columns of words of the first sheet and their rooms."""
    elsewhere = elsewhere or Elsewhere()
    _items, top = _first_head(outcome, 1, measure)
    _block, y = _legs(outcome, _parts(outcome, measure)[0], top, measure)
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

    def placed(sections: tuple[Section, ...]) -> tuple[Section, ...]:
        return tuple(
            replace(one, where=elsewhere.sights if one.title == Say.OBJECTS else elsewhere.rest)
            for one in sections
        )

    return (left, placed(_facts(outcome))), (right, placed(_findings_and_cautions(outcome)))


def _first(
    outcome: Outcome,
    legs: tuple[LegPlan, ...],
    page_count: int,
    measure: Measure,
    elsewhere: Elsewhere,
) -> Page:
    items, y = _first_head(outcome, page_count, measure)
    items.extend(_legs(outcome, legs, y, measure)[0])
    items.extend(foot(outcome, measure, has_data=False)[0])
    for room, sections in _columns(outcome, measure, elsewhere):
        items.extend(section_items(sections, room, measure))
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
                text=leg.quality.grade if is_complete else str(Say.INCOMPLETE),
                size_pt=10.0,
                is_bold=not is_complete,
            ),
        ),
        reference=f"leg:{leg.leg_index}",
    )


def _facts(outcome: Outcome) -> tuple[Section, ...]:
    """Objects, ship and water, inputs with the start of their SHA-256, the plan's digest."""
    request = outcome.request
    ship = request.ship
    radars = ", ".join(f"{radar.name} ({radar.band.value})" for radar in ship.radars)
    return (
        Section(
            title=Say.SHIP_AND_WATER,
            entries=(Entry(lead=ship.name, text=radars), Entry(text=data_words(outcome))),
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
        Section(title=Say.OBJECTS, entries=object_entries(outcome)),
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
