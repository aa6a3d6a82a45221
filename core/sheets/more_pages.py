"""Sheets at the end of the book: in full, what did not fit on its own sheet."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from core.plan.outcome import Outcome
from core.sheets.flow import Section, section_items, section_mm
from core.sheets.page import Measure, Page, Rectangle, Text
from core.sheets.sheet_frame import (
    CONTENT_MM,
    HEIGHT_MM,
    LEFT_MM,
    TOP_MM,
    WIDTH_MM,
    foot,
    head_line,
)
from core.words.messages import Say

_COLUMNS = 2
_GUTTER_MM = 5.0
_COLUMN_MM = (CONTENT_MM - _GUTTER_MM * (_COLUMNS - 1)) / _COLUMNS
_WORDS_TOP_MM = TOP_MM + 18.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """What one sheet left out."""

    title: str
    sections: tuple[Section, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MoreLayout:
    """Columns of sections, and the page (from 0) on which each chapter begins."""

    columns: tuple[tuple[Section, ...], ...]
    page_of: tuple[int | None, ...]

    @property
    def page_count(self) -> int:
        """How many sheets they fill."""
        return -(-len(self.columns) // _COLUMNS)


def lay_out(outcome: Outcome, chapters: Sequence[Chapter], measure: Measure) -> MoreLayout:
    """Fill columns with chapters one after another, sections broken between entries."""
    height_mm = _room(outcome, measure, 0).height_mm
    columns: list[list[Section]] = [[]]
    page_of: list[int | None] = []
    for chapter in chapters:
        begins: int | None = None
        for section in chapter.sections:
            rest = replace(
                section,
                title=f"{chapter.title}: {section.title}",
                left_out=0,
                keep=0,
                is_shortened=False,
            )
            while rest.entries:
                count = _fitting(columns[-1], rest, height_mm, measure)
                if count == 0:
                    columns.append([])
                    continue
                columns[-1].append(replace(rest, entries=rest.entries[:count]))
                begins = (len(columns) - 1) // _COLUMNS if begins is None else begins
                title = rest.title.removesuffix(_GOES_ON) + _GOES_ON
                rest = replace(rest, entries=rest.entries[count:], title=title)
        page_of.append(begins)
    filled = tuple(tuple(column) for column in columns if column)
    return MoreLayout(columns=filled, page_of=tuple(page_of))


_GOES_ON = f", {Say.CONTINUED}"


def _fitting(column: list[Section], rest: Section, height_mm: float, measure: Measure) -> int:
    """How many entries of a section the column still holds; one at least in an empty column."""
    used = sum(section_mm(section, _COLUMN_MM, measure) for section in column)
    count = 0
    while count < len(rest.entries):
        longer = replace(rest, entries=rest.entries[: count + 1])
        if used + section_mm(longer, _COLUMN_MM, measure) > height_mm:
            break
        count += 1
    return count if column else max(count, 1)


def more_pages(
    outcome: Outcome, layout: MoreLayout, *, first_number: int, page_count: int, measure: Measure
) -> tuple[Page, ...]:
    """The sheets of a layout, numbered from ``first_number``."""
    pages = []
    for number in range(layout.page_count):
        items = [
            *head_line(
                outcome,
                page_number=first_number + number,
                page_count=page_count,
                measure=measure,
            ),
            Text(x_mm=LEFT_MM, y_mm=TOP_MM + 13.0, text=Say.IN_FULL, size_pt=14.0, is_bold=True),
            *foot(outcome, measure)[0],
        ]
        columns = layout.columns[number * _COLUMNS : (number + 1) * _COLUMNS]
        for place, sections in enumerate(columns):
            items.extend(section_items(sections, _room(outcome, measure, place), measure))
        pages.append(
            Page(width_mm=WIDTH_MM, height_mm=HEIGHT_MM, items=tuple(items), name=str(Say.IN_FULL))
        )
    return tuple(pages)


def _room(outcome: Outcome, measure: Measure, place: int) -> Rectangle:
    _items, foot_top = foot(outcome, measure)
    return Rectangle(
        x_mm=LEFT_MM + place * (_COLUMN_MM + _GUTTER_MM),
        y_mm=_WORDS_TOP_MM,
        width_mm=_COLUMN_MM,
        height_mm=foot_top - _WORDS_TOP_MM - 1.0,
    )
