"""The anchoring card on one sheet: countdown on top, drag watch below."""

from core.plan.outcome import Outcome
from core.sheets.page import Anchor, Item, Measure, Page, Text
from core.sheets.sheet_frame import (
    CONTENT_MM,
    HEIGHT_MM,
    LEFT_MM,
    TOP_MM,
    WIDTH_MM,
    foot,
    head_line,
)
from core.sheets.tables import Cell, Column, Row, Table, table_items
from core.sheets.wrapping import line_mm, wrap
from core.words import times
from core.words.anchor_words import (
    CAUTION,
    TITLE,
    card_lines,
    step_words,
    watch_lines,
    watch_words,
)
from core.words.messages import Say

_NIGHT_PT = 12.0
_LINE_PT = 10.5
_GAP_MM = 3.0


def anchor_pages(
    outcome: Outcome, *, first_number: int, page_count: int, measure: Measure
) -> tuple[Page, ...]:
    """The card; none where the passage does not end at anchor."""
    card = outcome.plan.anchoring
    if card is None:
        return ()
    items: list[Item] = [
        *head_line(outcome, page_number=first_number, page_count=page_count, measure=measure),
        *foot(outcome, measure)[0],
        Text(x_mm=LEFT_MM, y_mm=TOP_MM + 13.0, text=TITLE, size_pt=17.0, is_bold=True),
    ]
    y = TOP_MM + 16.0
    for line in card_lines(outcome, card):
        y = _paragraph(items, line, y, measure, is_bold=line.startswith("LET GO"))
    y = _put(items, _countdown(outcome), y + _GAP_MM, measure)
    for line in watch_lines(card):
        y = _paragraph(items, line, y + _GAP_MM, measure)
    if card.watch:
        y = _put(items, _watch(outcome), y + _GAP_MM, measure)
    _paragraph(items, CAUTION, y + _GAP_MM, measure)
    return (Page(width_mm=WIDTH_MM, height_mm=HEIGHT_MM, items=tuple(items), name=TITLE),)


def _paragraph(
    items: list[Item], text: str, y_mm: float, measure: Measure, *, is_bold: bool = False
) -> float:
    size_pt = 14.0 if is_bold else _LINE_PT
    for line in wrap(text, CONTENT_MM, measure, size_pt=size_pt, is_bold=is_bold):
        y_mm += line_mm(size_pt)
        items.append(Text(x_mm=LEFT_MM, y_mm=y_mm, text=line, size_pt=size_pt, is_bold=is_bold))
    return y_mm + 1.0


def _put(items: list[Item], table: Table, y_mm: float, measure: Measure) -> float:
    rows, y_mm = table_items(
        table, x_mm=LEFT_MM, y_mm=y_mm, most_rows=len(table.rows), measure=measure
    )
    items.extend(rows)
    return y_mm


def _countdown(outcome: Outcome) -> Table:
    card = outcome.plan.anchoring
    assert card is not None  # noqa: S101 - the page is made for a card
    dead = card.dead_range
    head = Say.COLUMN_RANGE_SHORT if dead is None else f"range {dead.object_id}"
    return Table(
        columns=(
            Column(head="to go NM", width_mm=26.0, anchor=Anchor.END),
            Column(head=f"{head} NM", width_mm=56.0, anchor=Anchor.END),
            Column(head="speed kn", width_mm=26.0, anchor=Anchor.END),
            Column(head="min to go", width_mm=26.0, anchor=Anchor.END),
            Column(
                head=f"{Say.OBSERVED} {times.zone_short(outcome.plan.timetable)}", width_mm=54.0
            ),
        ),
        rows=tuple(
            Row(
                cells=(
                    *(Cell(text=word, size_pt=_NIGHT_PT, is_bold=n == 1) for n, word in pairs),
                    Cell(is_blank_box=True),
                )
            )
            for pairs in (enumerate(words) for words in step_words(card))
        ),
        row_mm=8.0,
    )


def _watch(outcome: Outcome) -> Table:
    card = outcome.plan.anchoring
    assert card is not None  # noqa: S101 - the page is made for a card
    return Table(
        columns=(
            Column(head=Say.COLUMN_OBJECT, width_mm=74.0),
            Column(head="NM", width_mm=18.0, anchor=Anchor.END),
            Column(head="° T", width_mm=16.0, anchor=Anchor.END),
            Column(head="limits NM", width_mm=34.0, anchor=Anchor.END),
            Column(head="scale", width_mm=18.0, anchor=Anchor.END),
            Column(head=Say.OBSERVED, width_mm=28.0),
        ),
        rows=tuple(
            Row(
                cells=(
                    Cell(text=letter, beside=name, size_pt=_NIGHT_PT, is_bold=True),
                    Cell(text=range_nm, size_pt=_NIGHT_PT),
                    Cell(text=bearing, size_pt=_NIGHT_PT),
                    Cell(text=limits, size_pt=_NIGHT_PT, is_bold=True),
                    Cell(text=scale),
                    Cell(is_blank_box=True),
                )
            )
            for letter, name, range_nm, bearing, limits, scale in watch_words(card)
        ),
        row_mm=8.0,
    )
