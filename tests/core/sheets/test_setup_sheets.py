"""Set-up cards in the book: once how to set up, then a card a leg with what was found."""

from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache

from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
from core.plan.setup_result import Control
from core.sheets.book import make_book
from core.sheets.page import Page, Text
from core.sheets.setup_list import setup_groups, usual_rows
from core.sheets.tables import Row
from core.words.messages import Say
from core.words.setup_words import ORDER_OF_SET_UP
from tests.helpers.fixed_measure import FixedMeasure
from tests.helpers.sample_outcome import sample_outcome


@lru_cache(maxsize=1)
def _book() -> tuple[Page, ...]:
    return make_book(sample_outcome(), FixedMeasure())


def _words(pages: tuple[Page, ...], name: str) -> str:
    texts = [
        item.text
        for page in pages
        if page.name == name
        for item in page.items
        if isinstance(item, Text)
    ]
    return " ".join(texts)


def _said(row: Row) -> str:
    return " | ".join(f"{cell.text} {cell.second}".strip() for cell in row.cells)


def _with_legs(legs: tuple[LegPlan, ...]) -> Outcome:
    outcome = sample_outcome()
    return replace(outcome, plan=replace(outcome.plan, legs=legs))


def test_the_order_of_set_up_stands_once_in_the_book_and_says_what_it_rests_on() -> None:
    pages = _book()
    assert sum(page.name == Say.SETTING_UP for page in pages) == 1
    words = _words(pages, Say.SETTING_UP)
    for text in ORDER_OF_SET_UP:
        assert text in words
    assert "common practice, no source" in words
    elsewhere = " ".join(_words(pages, page.name) for page in pages if page.name != Say.SETTING_UP)
    assert ORDER_OF_SET_UP[3] not in elsewhere


def test_every_setting_of_every_leg_stands_on_its_card_or_once_for_all() -> None:
    outcome = sample_outcome()
    groups = setup_groups(outcome)
    usual = usual_rows(outcome.plan.legs)
    assert len(groups) == 1 + len(outcome.plan.legs)
    assert len(groups[0].rows) == len(usual)
    for leg, group in zip(outcome.plan.legs, groups[1:], strict=True):
        assert leg.setup is not None
        own = [row for row in leg.setup.rows if row.control is not Control.SCALE]
        others = [
            row
            for row in own
            if row.control not in (Control.OFF_CENTRE, Control.PULSE)
            and (row.control, row.setting, row.reason)
            not in [(one.control, one.setting, one.reason) for one in usual]
        ]
        cards = [row for row in group.rows if row.reference.startswith("setup:")]
        assert len(cards) == len(others) + len(leg.scales)
        assert all(row.cells[1].text and row.cells[2].text for row in cards)


def test_what_most_legs_have_alike_is_said_once_and_the_odd_leg_for_itself() -> None:
    groups = setup_groups(sample_outcome())
    # The third leg has nothing to index and the 12 NM scale: longer trails, another reason.
    usual = [_said(row) for row in groups[0].rows]
    assert any(said.startswith("trails | relative, 3 min") for said in usual)
    assert not any(_said(row).startswith("trails") for row in groups[1].rows)
    assert any(_said(row).startswith("trails | relative, 6 min") for row in groups[3].rows)


def test_a_passage_of_one_leg_has_the_whole_card_on_it() -> None:
    outcome = _with_legs(sample_outcome().plan.legs[:1])
    first, card = setup_groups(outcome)
    assert first.rows == ()
    said = [_said(row) for row in card.rows]
    for control in ("radar", "gain", "sea clutter", "rain clutter", "vectors", "trails"):
        assert any(one.startswith(f"{control} |") for one in said), control


def test_scale_centre_and_pulse_change_together_with_their_times() -> None:
    rows = setup_groups(sample_outcome())[1].rows
    scale = next(row for row in rows if row.reference == "setup:scale")
    assert scale.cells[1].text == "3 NM, centred, short"
    line = next(row for row in rows if row.reference == "setup:index_line")
    assert line.cells[1].text == "A STARBOARD 1.20 NM, 000/180"
    assert line.cells[2].text.startswith("0500–0526 UTC, primary")


def _boxes(rows: tuple[Row, ...]) -> Iterator[int]:
    for row in rows:
        yield sum(cell.is_blank_box for cell in row.cells)


def test_the_tune_check_has_four_echoes_with_yes_or_no_and_boxes_for_what_was_found() -> None:
    rows = setup_groups(sample_outcome())[1].rows
    check = [row for row in rows if row.reference.startswith("tune")]
    assert _said(check[0]).startswith(
        "tune check | 0508 UTC, 6.4 NM to go on the 3 NM scale, short pulse"
    )
    assert [row.cells[0].text for row in check[1:5]] == [
        "expect strong",
        "expect medium",
        "expect weak",
        "expect NONE",
    ]
    assert [row.cells[1].text for row in check[1:5]] == [
        "A  2.10 NM 040° T, 34 dB to spare",
        "B  1.40 NM 318° T, 14 dB to spare",
        "D  2.30 NM 085° T, 4 dB to spare",
        "E  2.50 NM 282° T",
    ]
    assert all(row.cells[3].text == Say.YES_NO for row in check[1:5])
    assert "behind land 84 m high" in check[4].cells[2].text
    assert list(_boxes((check[5],))) == [3]


def test_a_leg_without_a_check_prints_the_reason() -> None:
    rows = setup_groups(sample_outcome())[2].rows
    assert _said(rows[-1]).startswith("tune check | NONE | echoes were not worked out for this leg")


def test_the_sheet_of_a_leg_says_on_which_page_its_card_is() -> None:
    pages = _book()
    card_pages = [n for n, page in enumerate(pages, start=1) if page.name == Say.SETUP_LIST]
    assert f"Set-up, tune check 0508: page {card_pages[0]}" in _words(pages, "Leg 1 of 3")
    assert "Set-up: page" in _words(pages, "Leg 3 of 3")


def test_a_card_is_not_broken_over_two_pages_where_one_holds_it() -> None:
    legs = sample_outcome().plan.legs
    pages = make_book(sample_outcome(), FixedMeasure())
    for leg in legs:
        title = f"Leg {leg.leg_index + 1}, "
        listed = [page for page in pages if page.name == Say.SETUP_LIST]
        starts = [
            page
            for page in listed
            if any(isinstance(i, Text) and i.text.startswith(title) for i in page.items)
        ]
        assert len(starts) == 1
    assert Say.CONTINUED not in _words(pages, Say.SETUP_LIST)
