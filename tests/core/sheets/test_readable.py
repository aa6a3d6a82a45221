"""Whatever the leg: no text over another, none on the ruler, none cut, nothing lost."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.plan.plan_result import Role
from core.sheets.book import make_book
from core.sheets.leg_sheet import leg_sheet
from core.sheets.page import Item, Rectangle, Stroke
from core.sheets.strip_block import make_strip
from tests.helpers.fixed_measure import FixedMeasure
from tests.helpers.random_legs import CrowdedLeg, crowded_legs
from tests.helpers.readable import (
    cut_texts,
    off_page,
    on_ruler,
    outside,
    overlaps,
    small_texts,
    texts_of,
    words_of,
)
from tests.helpers.sample_outcome import sample_outcome

_MEASURE = FixedMeasure()


@given(drawn=crowded_legs(), height_mm=st.sampled_from([80.0, 120.0, 170.0]))
@settings(max_examples=60)
def test_no_label_of_a_strip_lies_over_another_or_on_the_ruler(
    drawn: CrowdedLeg, height_mm: float
) -> None:
    leg, outcome = drawn.leg_index, drawn.outcome
    room = Rectangle(x_mm=77.0, y_mm=60.0, width_mm=122.0, height_mm=height_mm)
    strip = make_strip(outcome, leg, frame=room, measure=_MEASURE)
    assert overlaps(strip.items, _MEASURE) == []
    assert on_ruler(strip, outcome, drawn.plan, _MEASURE) == []
    assert outside(strip.items, room, _MEASURE) == []
    assert small_texts(strip.items) == []
    assert cut_texts(strip.items) == []


@given(drawn=crowded_legs())
@settings(max_examples=40)
def test_a_leg_sheet_is_whole_and_nothing_on_it_lies_over_another(
    drawn: CrowdedLeg,
) -> None:
    leg, outcome = drawn.leg_index, drawn.outcome
    page = leg_sheet(outcome, leg, page_number=2, page_count=4, measure=_MEASURE)
    assert overlaps(page.items, _MEASURE) == []
    assert off_page(page, _MEASURE) == []
    assert small_texts(page.items) == []
    assert cut_texts(page.items) == []


@given(drawn=crowded_legs())
@settings(max_examples=25)
def test_every_object_and_every_line_stands_somewhere_in_the_book(
    drawn: CrowdedLeg,
) -> None:
    leg, outcome = drawn.leg_index, drawn.outcome
    plan = drawn.plan
    pages = make_book(outcome, _MEASURE)
    words = words_of(*pages).replace("\n", " ")
    sheet = next(p for p in pages if p.name == f"Leg {leg + 1} of {len(outcome.plan.legs)}")
    told = {int(n) for n in re.findall(r"page (\d+)", words_of(sheet)) if int(n) > 1}
    reachable = words_of(
        sheet, *(page for n, page in enumerate(pages, 1) if told and n >= min(told))
    )
    for line in plan.lines:
        if line.role is not Role.WHEEL_OVER:
            assert line.object.id in reachable.replace("\n", " "), line
    for sight in plan.first_sights:
        assert sight.object_id in words, sight
    assert "plan file" not in words
    for number, page in enumerate(pages, 1):
        assert f"Page {number} of {len(pages)}" in words_of(page)
        assert cut_texts(page.items) == []
        assert off_page(page, _MEASURE) == []
        assert overlaps(page.items, _MEASURE) == []


@pytest.mark.parametrize("leg", [0, 1, 2])
def test_every_index_line_has_a_box_for_what_was_read(leg: int) -> None:
    # Blank boxes for actual range and time: trade note 1.9.9, common practice, no source.
    outcome = sample_outcome()
    plan = outcome.plan.legs[leg]
    page = leg_sheet(outcome, leg, page_number=2, page_count=4, measure=_MEASURE)
    head = [text for text in texts_of(page.items) if text.text == "observed"]
    lines = [line for line in plan.lines if line.role is not Role.WHEEL_OVER]
    assert bool(head) is bool(lines)
    blanks = _closed_boxes(page.items, head[0].x_mm if head else 0.0)
    assert len(blanks) == len(lines)
    assert all(width >= 14.0 and height >= 7.0 for width, height in blanks)
    seen = [text for text in texts_of(page.items) if text.text == "seen at"]
    coming = [sight for sight in plan.first_sights if sight.in_sight_from is not None]
    assert bool(seen) is bool(coming)
    if seen:
        assert len(_closed_boxes(page.items, seen[0].x_mm)) == len(coming)


def _closed_boxes(items: tuple[Item, ...], x_mm: float) -> list[tuple[float, float]]:
    """Width and height of fine frames that begin at a place across."""
    found = []
    for item in items:
        if isinstance(item, Stroke) and len(item.points) == 5 and item.width_mm == 0.2:
            xs, ys = [x for x, _y in item.points], [y for _x, y in item.points]
            if abs(min(xs) - x_mm) < 0.1:
                found.append((max(xs) - min(xs), max(ys) - min(ys)))
    return found
