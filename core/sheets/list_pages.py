"""Lists at the end of the book that run over as many sheets as they need."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from core.plan.outcome import Outcome
from core.sheets.page import Measure, Page, Text
from core.sheets.sheet_frame import HEIGHT_MM, LEFT_MM, TOP_MM, WIDTH_MM, foot, head_line
from core.sheets.tables import Column, Row, Table, row_heights_mm, table_items
from core.words.messages import Say

_TITLE_MM = TOP_MM + 13.0
_TABLE_MM = TOP_MM + 16.0
_ROW_MM = 5.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Rows that belong together under a heading; without a title the list has no headings."""

    title: str
    rows: tuple[Row, ...]
    is_kept_whole: bool = False
    """Begun on a new sheet rather than broken over two, where one sheet holds it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ListLayout:
    """A list broken over sheets, and the sheet (from 0) on which each group begins."""

    title: str
    tables: tuple[Table, ...]
    page_of: tuple[int | None, ...]

    @property
    def page_count(self) -> int:
        """How many sheets it fills."""
        return len(self.tables)


def lay_out_list(
    outcome: Outcome,
    *,
    title: str,
    columns: tuple[Column, ...],
    groups: Sequence[Group],
    measure: Measure,
) -> ListLayout:
    """Break groups over sheets; a heading is said again where its rows go on."""
    whole = Table(columns=columns, rows=(), row_mm=_ROW_MM)
    _foot, foot_top = foot(outcome, measure)
    room = foot_top - _TABLE_MM - whole.head_mm - 1.0

    def high(*rows: Row) -> float:
        return sum(row_heights_mm(replace(whole, rows=rows), measure))

    pages: list[list[Row]] = []
    used = room
    page_of: list[int | None] = []
    for group in groups:
        begins: int | None = None
        if group.is_kept_whole:
            whole_mm = high(*_heading(group, is_again=False), *group.rows)
            used = room if used + whole_mm > room >= whole_mm else used
        for number, row in enumerate(group.rows):
            head = _heading(group, is_again=number > 0)
            needed = high(row) + (high(*head) if number == 0 else 0.0)
            if used + needed > room:
                pages.append([])
                used = 0.0
                needed = high(*head, row)
                pages[-1].extend(head)
            elif number == 0:
                pages[-1].extend(head)
            pages[-1].append(row)
            used += needed
            begins = len(pages) - 1 if begins is None else begins
        page_of.append(begins)
    tables = tuple(replace(whole, rows=tuple(rows)) for rows in pages)
    return ListLayout(title=title, tables=tables, page_of=tuple(page_of))


def _heading(group: Group, *, is_again: bool) -> tuple[Row, ...]:
    if not group.title:
        return ()
    title = f"{group.title}, {Say.CONTINUED}" if is_again else group.title
    return (Row(cells=(), title=title),)


def list_pages(
    outcome: Outcome, layout: ListLayout, *, first_number: int, page_count: int, measure: Measure
) -> tuple[Page, ...]:
    """The sheets of a list, numbered from ``first_number``."""
    pages = []
    for number, table in enumerate(layout.tables):
        rows, _bottom = table_items(
            table, x_mm=LEFT_MM, y_mm=_TABLE_MM, most_rows=len(table.rows), measure=measure
        )
        head = head_line(
            outcome, page_number=first_number + number, page_count=page_count, measure=measure
        )
        title = Text(x_mm=LEFT_MM, y_mm=_TITLE_MM, text=layout.title, size_pt=14.0, is_bold=True)
        pages.append(
            Page(
                width_mm=WIDTH_MM,
                height_mm=HEIGHT_MM,
                items=(*head, title, *rows, *foot(outcome, measure)[0]),
                name=layout.title,
            )
        )
    return tuple(pages)
