"""Tables of fixed columns with rows of one or two lines."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from core.sheets.flow import BODY_PT, fitted
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
    box,
)
from core.words.messages import Say

CELL_PAD_MM = 0.8

_LEAST_PT = 8.0
"""Smallest size a text is set in to fit its column."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column: head, width and how its cells stand."""

    head: str
    width_mm: float
    anchor: Anchor = Anchor.START


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """A cell: a main text and, below it or ``beside`` it, lines in body size."""

    text: str
    beside: tuple[str, ...] = ()
    """One or two lines to the right of the main text."""
    beside_pt: float = BODY_PT
    second: str = ""
    size_pt: float = BODY_PT
    is_bold: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row of a table."""

    cells: tuple[Cell, ...]
    reference: str = ""
    is_broken_above: bool = False
    """A broken rule above it instead of a full one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """Columns, rows and their heights."""

    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    row_mm: float
    head_mm: float = 5.2

    def height_mm(self, count: int) -> float:
        """Height with some of the rows, mm."""
        return self.head_mm + count * self.row_mm


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
    width = sum(column.width_mm for column in table.columns)
    items: list[Item] = [
        box(Rectangle(x_mm=x_mm, y_mm=y_mm, width_mm=width, height_mm=table.head_mm), Tone.SHADE)
    ]
    x = x_mm
    for column in table.columns:
        items.append(_in_cell(column, x, y_mm + table.head_mm - 1.5, column.head, measure))
        x += column.width_mm
    y = y_mm + table.head_mm
    items.append(_rule(x_mm, y, width, 0.35))
    shown = table.rows[:most_rows]
    for number, row in enumerate(shown):
        if number:
            dash = Dash.FINE if row.is_broken_above else Dash.SOLID
            items.append(_rule(x_mm, y, width, 0.15, dash))
        items.extend(_row_items(table, row, x_mm, y, measure))
        y += table.row_mm
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
    table: Table, row: Row, x_mm: float, y_mm: float, measure: Measure
) -> Sequence[Item]:
    items: list[Item] = []
    x = x_mm
    for column, cell in zip(table.columns, row.cells, strict=True):
        tall = max(c.size_pt for c in row.cells) * POINT_MM
        if any(c.second or len(c.beside) > 1 for c in row.cells):
            main, second = y_mm + tall * 0.73 + 0.6, y_mm + table.row_mm - 0.9
        else:
            main, second = y_mm + (table.row_mm + tall * 0.72) / 2.0, 0.0
        if cell.text:
            items.append(
                _in_cell(
                    column, x, main, cell.text, measure, cell.size_pt, cell.is_bold, row.reference
                )
            )
        if cell.beside:
            lead_mm = measure.width_mm(cell.text, size_pt=cell.size_pt, is_bold=cell.is_bold)
            items.extend(
                Text(
                    x_mm=x + CELL_PAD_MM + lead_mm + 1.6,
                    y_mm=baseline,
                    text=line,
                    size_pt=cell.beside_pt,
                    reference=row.reference,
                )
                for line, baseline in zip(cell.beside, (main, second), strict=False)
            )
        if cell.second:
            items.append(_in_cell(column, x, second, cell.second, measure, reference=row.reference))
        x += column.width_mm
    return items


def _in_cell(
    column: Column,
    x: float,
    baseline: float,
    text: str,
    measure: Measure,
    size_pt: float = BODY_PT,
    is_bold: bool = False,
    reference: str = "",
) -> Text:
    """A text in its column: set smaller, down to a least size, before anything is cut.

    Two marks may differ in their last word alone, and half a margin's sense is none.
    """
    room = column.width_mm - 2.0 * CELL_PAD_MM
    wide = measure.width_mm(text, size_pt=size_pt, is_bold=is_bold)
    if wide > room:
        size_pt = max(min(size_pt, _LEAST_PT), math.floor(10.0 * size_pt * room / wide) / 10.0)
    place = {
        Anchor.START: x + CELL_PAD_MM,
        Anchor.MIDDLE: x + column.width_mm / 2.0,
        Anchor.END: x + column.width_mm - CELL_PAD_MM,
    }[column.anchor]
    return Text(
        x_mm=place,
        y_mm=baseline,
        text=fitted(text, room, measure, size_pt=size_pt, is_bold=is_bold),
        size_pt=size_pt,
        anchor=column.anchor,
        is_bold=is_bold,
        reference=reference,
    )
