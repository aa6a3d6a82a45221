"""Tables of fixed columns; each row is as high as its words need, and nothing is cut."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from core.sheets.page import (
    POINT_MM,
    Anchor,
    Dash,
    Item,
    Measure,
    Rectangle,
    Stroke,
    Text,
    Tone,
    outline,
)
from core.sheets.wrapping import BODY_PT, line_mm, set_in, wrap
from core.words.messages import Say

CELL_PAD_MM = 0.8
_BESIDE_MM = 1.6
_TOP_MM = 0.9
_BOTTOM_MM = 0.9
_CAPITAL = 0.73
"""Height of a capital as a share of the size of its letters."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column: head, width and how its cells stand."""

    head: str
    width_mm: float
    anchor: Anchor = Anchor.START


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """A cell: a main text, words ``beside`` it that go on below, a ``second`` text below it."""

    text: str = ""
    beside: str = ""
    second: str = ""
    size_pt: float = BODY_PT
    is_bold: bool = False
    is_second_bold: bool = False
    is_blank_box: bool = False
    """Nothing but a box to be filled with a pencil."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row of a table."""

    cells: tuple[Cell, ...]
    title: str = ""
    """A heading over the whole width instead of cells."""
    note: str = ""
    """Plain words over the whole width instead of cells."""
    reference: str = ""
    is_broken_above: bool = False
    """A broken rule above it instead of a full one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Columns and rows; ``row_mm`` is the least height of a row."""

    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    row_mm: float
    head_mm: float = 5.2

    @property
    def width_mm(self) -> float:
        """Width of all columns."""
        return sum(column.width_mm for column in self.columns)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Laid:
    """A cell set into its column."""

    main: tuple[str, ...]
    size_pt: float
    beside: tuple[str, ...]
    """The first beside the main text, the others below it over the whole cell."""
    beside_mm: float
    second: tuple[str, ...]

    @property
    def lines_below(self) -> int:
        """Lines in body size below the main text."""
        return max(0, len(self.beside) - 1) + len(self.second)


def _laid(column: Column, cell: Cell, measure: Measure) -> _Laid:
    """Set smaller, down to body size, before it is broken over lines."""
    room = column.width_mm - 2.0 * CELL_PAD_MM
    sizes = [cell.size_pt]
    while sizes[-1] > BODY_PT:
        sizes.append(max(BODY_PT, sizes[-1] - 0.5))
    main, size_pt = set_in(cell.text, room, measure, sizes_pt=sizes, is_bold=cell.is_bold)
    beside_mm = 0.0
    beside: tuple[str, ...] = ()
    if cell.beside:
        wide = measure.width_mm(cell.text, size_pt=size_pt, is_bold=cell.is_bold)
        beside_mm = wide + _BESIDE_MM if len(main) == 1 else room
        beside = wrap(cell.beside, room, measure, first_mm=room - beside_mm)
    return _Laid(
        main=main,
        size_pt=size_pt,
        beside=beside,
        beside_mm=beside_mm,
        second=wrap(cell.second, room, measure, is_bold=cell.is_second_bold),
    )


def _step_mm(laid: _Laid) -> float:
    return laid.size_pt * POINT_MM * 1.12


def _main_mm(laid: _Laid, first_mm: float) -> float:
    """From the top of the row to the baseline of the last main line."""
    return first_mm + max(0, len(laid.main) - 1) * _step_mm(laid)


@dataclass(frozen=True, slots=True, kw_only=True)
class _LaidRow:
    cells: tuple[_Laid, ...]
    first_mm: float
    """From the top of the row to its first baseline."""
    height_mm: float
    note_lines: tuple[str, ...] = ()


def _laid_row(table: Table, row: Row, measure: Measure) -> _LaidRow:
    if row.title:
        height = line_mm(BODY_PT) + 2.0
        return _LaidRow(cells=(), first_mm=height - 1.3, height_mm=height)
    if row.note:
        lines = wrap(row.note, table.width_mm - 2.0 * CELL_PAD_MM, measure)
        first = _TOP_MM + BODY_PT * POINT_MM * _CAPITAL
        height = first + (len(lines) - 1) * line_mm(BODY_PT) + _BOTTOM_MM
        return _LaidRow(cells=(), first_mm=first, height_mm=height, note_lines=lines)
    cells = tuple(_laid(c, cell, measure) for c, cell in zip(table.columns, row.cells, strict=True))
    capital = max((c.size_pt for c in cells if c.main), default=BODY_PT) * POINT_MM * _CAPITAL
    first = _TOP_MM + capital
    needed = max(_main_mm(c, first) + c.lines_below * line_mm(BODY_PT) + _BOTTOM_MM for c in cells)
    height = max(table.row_mm, needed)
    if all(c.lines_below == 0 and len(c.main) <= 1 for c in cells):
        first = (height + capital) / 2.0
    return _LaidRow(cells=cells, first_mm=first, height_mm=height)


def row_heights_mm(table: Table, measure: Measure) -> tuple[float, ...]:
    """Height of each row, mm."""
    return tuple(_laid_row(table, row, measure).height_mm for row in table.rows)


def rows_within(table: Table, room_mm: float, measure: Measure) -> int:
    """How many rows from the top a room holds under the table's head."""
    left = room_mm - table.head_mm
    count = 0
    for height in row_heights_mm(table, measure):
        left -= height
        if left < 0.0:
            break
        count += 1
    return count


def table_items(
    table: Table,
    *,
    x_mm: float,
    y_mm: float,
    most_rows: int,
    measure: Measure,
    where: str = Say.IN_PLAN_FILE,
) -> tuple[tuple[Item, ...], float]:
    """A table from its upper left corner, and the y below it.

    Rows past ``most_rows`` are counted in a last line that says ``where`` they are.
    """
    width = table.width_mm
    # No shade behind words: a one-bit printer makes it a pattern of dots.
    items: list[Item] = [_rule(x_mm, y_mm, width, 0.35)]
    x = x_mm
    for column in table.columns:
        items.append(_text(column, x, y_mm + table.head_mm - 1.5, column.head))
        x += column.width_mm
    y = y_mm + table.head_mm
    items.append(_rule(x_mm, y, width, 0.35))
    shown = table.rows[:most_rows]
    for number, row in enumerate(shown):
        laid = _laid_row(table, row, measure)
        if number:
            dash = Dash.FINE if row.is_broken_above else Dash.SOLID
            items.append(_rule(x_mm, y, width, 0.35 if row.title else 0.15, dash))
        items.extend(_row_items(table, row, laid, x_mm, y))
        y += laid.height_mm
    items.append(_rule(x_mm, y, width, 0.35))
    left_out = len(table.rows) - len(shown)
    if left_out:
        y += 4.0
        words = Say.MORE_ELSEWHERE.format(count=left_out, where=where)
        items.append(Text(x_mm=x_mm + CELL_PAD_MM, y_mm=y - 0.6, text=words, size_pt=BODY_PT))
    return tuple(items), y


def _rule(x: float, y: float, width: float, pen: float, dash: Dash = Dash.SOLID) -> Stroke:
    return Stroke(points=((x, y), (x + width, y)), width_mm=pen, tone=Tone.RULE, dash=dash)


def _row_items(
    table: Table, row: Row, laid_row: _LaidRow, x_mm: float, y_mm: float
) -> Sequence[Item]:
    first = y_mm + laid_row.first_mm
    if row.title:
        return (
            Text(
                x_mm=x_mm + CELL_PAD_MM,
                y_mm=first,
                text=row.title,
                size_pt=BODY_PT + 1.0,
                is_bold=True,
                reference=row.reference,
            ),
        )
    if row.note:
        return tuple(
            Text(
                x_mm=x_mm + CELL_PAD_MM,
                y_mm=first + number * line_mm(BODY_PT),
                text=line,
                size_pt=BODY_PT,
                reference=row.reference,
            )
            for number, line in enumerate(laid_row.note_lines)
        )
    items: list[Item] = []
    x = x_mm
    for column, cell, laid in zip(table.columns, row.cells, laid_row.cells, strict=True):
        if cell.is_blank_box:
            blank = Rectangle(
                x_mm=x + CELL_PAD_MM,
                y_mm=y_mm + 0.5,
                width_mm=column.width_mm - 2.0 * CELL_PAD_MM,
                height_mm=laid_row.height_mm - 1.0,
            )
            items.append(outline(blank, width_mm=0.2, tone=Tone.RULE))
        items.extend(_cell_texts(column, cell, laid, x, first, row.reference))
        x += column.width_mm
    return items


def _cell_texts(
    column: Column, cell: Cell, laid: _Laid, x: float, first: float, reference: str
) -> Iterator[Text]:
    for number, line in enumerate(laid.main):
        baseline = first + number * _step_mm(laid)
        yield _text(column, x, baseline, line, laid.size_pt, cell.is_bold, reference)
    step = line_mm(BODY_PT)
    y = _main_mm(laid, first)
    for number, line in enumerate(laid.beside):
        if line:
            yield Text(
                x_mm=x + CELL_PAD_MM + (laid.beside_mm if number == 0 else 0.0),
                y_mm=y + number * step,
                text=line,
                size_pt=BODY_PT,
                reference=reference,
            )
    y += max(0, len(laid.beside) - 1) * step
    for number, line in enumerate(laid.second):
        baseline = y + (number + 1) * step
        yield _text(column, x, baseline, line, BODY_PT, cell.is_second_bold, reference)


def _text(
    column: Column,
    x: float,
    baseline: float,
    text: str,
    size_pt: float = BODY_PT,
    is_bold: bool = False,
    reference: str = "",
) -> Text:
    place = {
        Anchor.START: x + CELL_PAD_MM,
        Anchor.MIDDLE: x + column.width_mm / 2.0,
        Anchor.END: x + column.width_mm - CELL_PAD_MM,
    }[column.anchor]
    return Text(
        x_mm=place,
        y_mm=baseline,
        text=text,
        size_pt=size_pt,
        anchor=column.anchor,
        is_bold=is_bold,
        reference=reference,
    )
