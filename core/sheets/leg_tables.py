"""The index table of a leg sheet: what is read at arm's length, with room for what was read."""

from core.passage.timetable import Timetable
from core.plan.plan_result import IndexLine, LegPlan, Role
from core.sheets.flow import Entry
from core.sheets.page import Anchor, Item, Measure, Rectangle, Text, Tone, outline
from core.sheets.short_names import described, short_names
from core.sheets.strip_lines import line_reference
from core.sheets.tables import Cell, Column, Row, Table
from core.sheets.wrapping import line_mm, wrap
from core.words import quantities, times
from core.words.line_words import short_fallback
from core.words.messages import Say

NUMBER_PT = 12.0
RANGE_PT = 14.0
_ROW_MM = 9.2
_TIGHT_ROW_MM = 8.6
_LOOSE_ROWS = 5
MOST_MM = 82.0
"""Greatest height of the table: the strip needs the rest of the sheet."""

_ROLE_WORDS = {
    Role.PRIMARY: Say.ROLE_PRIMARY,
    Role.CHECK: Say.ROLE_CHECK,
    Role.MARGIN: Say.ROLE_MARGIN,
    Role.WHEEL_OVER: Say.ROLE_WHEEL_OVER,
}


def index_table(plan: LegPlan, timetable: Timetable) -> Table:
    """Primary, check and margin lines of a leg, in the plan's order.

    The range stands in 14 pt, side, line and times in 12 pt; second lines in body size. The last
    column is blank, for the range and time that were read.
    """
    zone = times.zone_short(timetable)
    columns = (
        Column(head=Say.COLUMN_OBJECT, width_mm=44.2),
        Column(head=Say.COLUMN_SIDE_USE, width_mm=31.6),
        Column(head=f"{Say.COLUMN_RANGE_SHORT} NM", width_mm=24.6, anchor=Anchor.MIDDLE),
        Column(head=f"{Say.COLUMN_LINE} ° T", width_mm=21.0, anchor=Anchor.MIDDLE),
        Column(head=Say.COLUMN_CUT, width_mm=19.8),
        Column(head=f"{Say.COLUMN_WINDOW} {zone}", width_mm=30.0, anchor=Anchor.END),
        Column(head=Say.OBSERVED, width_mm=16.8),
    )
    lines = shown_lines(plan)
    shorts = short_names(plan)
    return Table(
        columns=columns,
        rows=tuple(_index_row(plan, line, timetable, shorts) for line in lines),
        row_mm=_ROW_MM if len(lines) <= _LOOSE_ROWS else _TIGHT_ROW_MM,
    )


def shown_lines(plan: LegPlan) -> list[IndexLine]:
    """Lines of the table in the plan's order; those that must be read before those for checking.

    A margin is the officer's own danger limit and never gives way to a check line.
    """
    lines = [line for line in plan.lines if line.role is not Role.WHEEL_OVER]
    if len(lines) > _LOOSE_ROWS:
        checks = [line for line in lines if line.role is Role.CHECK]
        lines = [line for line in lines if line.role is not Role.CHECK] + checks
    return lines


def _index_row(plan: LegPlan, line: IndexLine, timetable: Timetable, shorts: dict[str, str]) -> Row:
    if line.limit is None:
        number = quantities.index_number(line.cross_index_range_m, line.range_scale_m)
        below_number = quantities.uncertainty(line.uncertainty_m)
    else:
        number = quantities.margin_number(line.cross_index_range_m, line.limit, line.range_scale_m)
        below_number = line.limit.shown
    to_go = (
        f"{quantities.miles(plan.distance_m - line.from_along_m, 1)}{quantities.DASH}"
        f"{quantities.miles(plan.distance_m - line.to_along_m, 1)} {Say.NM_TO_GO}"
    )
    role = str(_ROLE_WORDS[line.role])
    if line.override is None and short_fallback(line):
        role += f", {Say.FALLBACK.format(object=short_fallback(line))}"
    return Row(
        cells=(
            object_cell(line, shorts),
            Cell(
                text=quantities.side(line.side),
                second=f"{role}, {Say.OFFICERS_CHOICE_SHORT}" if line.override else role,
                size_pt=NUMBER_PT,
                is_bold=True,
                is_second_bold=line.role is Role.PRIMARY,
            ),
            Cell(text=number, second=below_number, size_pt=RANGE_PT, is_bold=True),
            Cell(
                text=quantities.line_directions(line.line_bearing_deg),
                second=f"{Say.ECHO_TO} {quantities.whole_degrees(line.echo_travel_deg)}",
                size_pt=NUMBER_PT,
            ),
            _cut_cell(plan, line),
            Cell(
                text=times.span(timetable, plan.leg_index, line.from_along_m, line.to_along_m),
                second=to_go,
                size_pt=NUMBER_PT,
            ),
            Cell(is_blank_box=True),
        ),
        reference=line_reference(plan, line),
        is_broken_above=line.role is Role.MARGIN,
    )


def object_cell(line: IndexLine, shorts: dict[str, str]) -> Cell:
    """Letter with what it is beside and below it, or a mark's name over its kind.

    A star says that the object is known from the data alone; the short form by which the strip
    names a mark stands after its kind.
    """
    thing = line.object
    star = " *" if thing.confirm_on_chart else ""
    if thing.name != thing.id:
        words = described(thing.name, None)
        return Cell(text=f"{thing.id}{star}", beside=words, size_pt=NUMBER_PT, is_bold=True)
    kind = thing.kind.shown
    short = shorts.get(thing.id, thing.id)
    second = kind if short == thing.id else Say.ON_STRIP.format(kind=kind, short=short)
    return Cell(text=f"{thing.id}{star}", second=second, size_pt=NUMBER_PT, is_bold=True)


def _cut_cell(plan: LegPlan, line: IndexLine) -> Cell:
    """Where to cut the line short, ahead and astern, from the key-in rows."""
    for key in plan.key_in:
        if key.line == line:
            ahead = quantities.miles(key.truncate_ahead_m, 1)
            astern = quantities.miles(key.truncate_astern_m, 1)
            return Cell(
                text=Say.CUT_AHEAD.format(ahead=ahead), second=Say.CUT_ASTERN.format(astern=astern)
            )
    return Cell(text="")


def line_entry(plan: LegPlan, line: IndexLine, timetable: Timetable) -> Entry:
    """A line that finds no room in the table, in words."""
    span = times.span(timetable, plan.leg_index, line.from_along_m, line.to_along_m)
    limit = f"{line.limit.shown} " if line.limit is not None else ""
    return Entry(
        lead=f"{_ROLE_WORDS[line.role]} {line.object.id}",
        text=f"{line.object.name}: {quantities.side(line.side)} "
        f"{limit}{quantities.index_range(line.cross_index_range_m, line.range_scale_m)}, "
        f"{quantities.line_directions(line.line_bearing_deg)}, "
        f"{span} {times.zone_words(timetable)}",
        reference=line_reference(plan, line),
    )


def no_index_block(
    plan: LegPlan, y_mm: float, x_mm: float, width_mm: float, measure: Measure
) -> tuple[tuple[Item, ...], float]:
    """In place of the table, where nothing can be indexed: says so, and why."""
    reason = plan.no_index_reason
    lines = wrap(reason, width_mm - 4.0, measure, size_pt=10.0)
    step = line_mm(10.0)
    height = 8.5 + step * len(lines)
    frame = Rectangle(x_mm=x_mm, y_mm=y_mm, width_mm=width_mm, height_mm=height)
    items: list[Item] = [
        outline(frame, width_mm=0.6, tone=Tone.INK),
        Text(
            x_mm=x_mm + 2.0,
            y_mm=y_mm + 6.0,
            text=Say.NOTHING_TO_INDEX,
            size_pt=RANGE_PT,
            is_bold=True,
        ),
    ]
    for number, line in enumerate(lines):
        items.append(
            Text(x_mm=x_mm + 2.0, y_mm=y_mm + 10.6 + step * number, text=line, size_pt=10.0)
        )
    return tuple(items), y_mm + height
