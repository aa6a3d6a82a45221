"""The sheet that says once how a radar is set up by hand and how its picture is read."""

from core.plan.outcome import Outcome
from core.sheets.flow import Entry, Section, section_items
from core.sheets.leg_check_list import diagnosis_section
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
from core.words.setup_words import (
    BEFORE_READINGS,
    COMMON_PRACTICE,
    ORDER_OF_SET_UP,
    READINGS,
    WHEN_TUNED,
)

_GUTTER_MM = 5.0
_COLUMN_MM = (CONTENT_MM - _GUTTER_MM) / 2.0
_WORDS_TOP_MM = TOP_MM + 18.0


def setup_page(outcome: Outcome, *, number: int, page_count: int, measure: Measure) -> Page:
    """Order of set-up on the left, what to expect and how to read the tune check on the right."""
    bottom, foot_top = foot(outcome, measure)
    items = [
        *head_line(outcome, page_number=number, page_count=page_count, measure=measure),
        Text(x_mm=LEFT_MM, y_mm=TOP_MM + 13.0, text=Say.SETTING_UP, size_pt=14.0, is_bold=True),
        *bottom,
    ]
    for place, sections in enumerate(((*_order(), diagnosis_section()), (_tuned(), _readings()))):
        room = Rectangle(
            x_mm=LEFT_MM + place * (_COLUMN_MM + _GUTTER_MM),
            y_mm=_WORDS_TOP_MM,
            width_mm=_COLUMN_MM,
            height_mm=foot_top - _WORDS_TOP_MM - 1.0,
        )
        items.extend(section_items(sections, room, measure))
    return Page(
        width_mm=WIDTH_MM, height_mm=HEIGHT_MM, items=tuple(items), name=str(Say.SETTING_UP)
    )


def _order() -> tuple[Section, ...]:
    entries = tuple(
        Entry(lead=f"{number}.", text=text, is_inline=True)
        for number, text in enumerate(ORDER_OF_SET_UP, start=1)
    )
    entries += (Entry(text=COMMON_PRACTICE),)
    return (Section(title=Say.ORDER_OF_SET_UP, entries=entries, keep=len(entries)),)


def _tuned() -> Section:
    entries = tuple(Entry(text=text) for text in WHEN_TUNED)
    return Section(title=Say.WHEN_TUNED, entries=entries, keep=len(entries))


def _readings() -> Section:
    entries = tuple(Entry(text=text) for text in BEFORE_READINGS)
    entries += tuple(Entry(lead=sign, text=meaning) for sign, meaning in READINGS.values())
    return Section(title=Say.HOW_TO_READ, entries=entries, keep=len(entries))
