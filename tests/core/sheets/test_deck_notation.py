"""Deck notation, cautions and forbidden words on every page of the demo's book.

Trade notes 1.10, 8.12, 8.13 and capabilities A18, A19; common practice, no source.
"""

import re
from dataclasses import replace
from functools import lru_cache

from core.base.progress import Quiet
from core.jobs.check_pictures import check_pictures, landfall_pictures
from core.sheets.book import make_book
from core.sheets.page import Page, Text, text_box
from core.words.bridge_words import Bridge
from core.words.messages import CAUTION_SHORT, CAUTIONS
from tests.helpers.demo_outcome import demo_outcome
from tests.helpers.fixed_measure import FixedMeasure
from tests.helpers.readable import texts_of, words_of

_MEASURE = FixedMeasure()
_FORBIDDEN = re.compile(
    r"\bsafe(ly|ty|r|st)?\b|\bunsafe\b|\bwill (be seen|see|paint|show|appear)\b|\bguarantee|"
    r"\bdefinite|\bno danger\b|\ball clear\b",
    re.I,
)
_NUMBER = re.compile(r"[+±-]?\d+(\.\d+)?")
_CLOCK = re.compile(r"(\d\d )?\d{4}|[+]\d+:\d\d")
_UNIT = re.compile(
    r"NM|\bkn\b|°|\bm\b|UTC|h:mm|from start|\blegs?\b|\bno\.|\bpage\b|\bc\b|\bmin\b|\bdB\b"
)
_ZONE = re.compile(r"UTC|h:mm|from start")
_TITLE_PT = 11.0
_LONGEST_HEAD = 24
"""Letters: what is longer is a sentence and no head."""


@lru_cache(maxsize=1)
def _book() -> tuple[Page, ...]:
    outcome = demo_outcome()
    return make_book(
        outcome,
        _MEASURE,
        check_pictures(outcome, Quiet(), size_px=200),
        landfall_pictures(outcome, Quiet(), size_px=200),
    )


def test_no_page_says_what_may_not_be_said() -> None:
    for page in _book():
        found = _FORBIDDEN.search(words_of(page).replace("\n", " "))
        assert found is None, (page.name, found)


def _read(page: Page) -> str:
    """Words from the top down, as they are read."""
    texts = sorted(texts_of(page.items), key=lambda text: (text.y_mm, text.x_mm))
    return " ".join(text.text for text in texts)


def test_every_page_carries_the_caution_and_one_carries_them_all() -> None:
    for page in _book():
        assert CAUTION_SHORT in _read(page), page.name
    receipt = " ".join(_read(page) for page in _book() if page.part == Bridge.RECEIPT)
    for caution in CAUTIONS:
        assert caution in receipt


def test_no_letter_is_below_nine_points_and_times_to_act_on_are_in_twelve() -> None:
    for page in _book():
        assert min(text.size_pt for text in texts_of(page.items)) >= 9.0, page.name
        if page.part in (Bridge.MASTER_CARD, Bridge.NEXT_HOURS):
            clocks = [
                text.size_pt
                for text in texts_of(page.items)
                if text.is_bold and _CLOCK.fullmatch(text.text)
            ]
            assert clocks
            assert min(clocks) >= 12.0


def _unlabelled(page: Page) -> list[str]:
    """Bare numbers with no unit, and times with no zone, above them or beside them.

    A title speaks for all below it.
    """
    texts = [text for text in texts_of(page.items) if text.angle_deg == 0.0]
    found = []
    for text in texts:
        is_clock = _CLOCK.fullmatch(text.text) is not None
        if not is_clock and _NUMBER.fullmatch(text.text) is None:
            continue
        wanted = _ZONE if is_clock else _UNIT
        labels = [one for one in texts if one is not text and wanted.search(one.text)]
        if not any(_labels(label, text) for label in labels):
            found.append(text.text)
    return found


def _labels(label: Text, text: Text) -> bool:
    """Whether a label stands over a number, close on its right, or is a title above it."""
    box, room = text_box(text, _MEASURE), text_box(label, _MEASURE)
    is_above = room.bottom_mm <= box.y_mm + 0.6
    is_head = len(label.text) <= _LONGEST_HEAD
    shares = room.x_mm - 1.5 < box.right_mm and box.x_mm < room.right_mm + 1.5
    # The head of a leg sheet says «Time UTC» for the words below it.
    is_title = (label.size_pt >= _TITLE_PT and label.is_bold) or label.text.startswith("Time ")
    is_beside = abs(label.y_mm - text.y_mm) < 0.3 and -0.5 <= room.x_mm - box.right_mm <= 4.0
    return (is_above and (is_title or (is_head and shares))) or is_beside


def test_no_number_is_without_its_unit_and_no_time_without_its_zone() -> None:
    for page in _book():
        assert _unlabelled(page) == [], (page.part, page.name)


def test_the_walk_finds_a_number_whose_head_is_gone() -> None:
    for part, head in ((Bridge.HEIGHTS, "NM|m"), (Bridge.MASTER_CARD, "NM"), (Bridge.FRONT, "UTC")):
        page = next(page for page in _book() if page.part == part)
        bare = tuple(
            replace(item, text=re.sub(rf"\b({head})\b", "", item.text))
            if isinstance(item, Text)
            else item
            for item in page.items
        )
        assert _unlabelled(replace(page, items=bare)) != [], part
