"""Sheets of expected pictures: four a sheet, lettered rings, key, captions, clear of overlaps."""

import re
from dataclasses import replace
from functools import lru_cache

import numpy as np
import pytest

from core.picture.display_chain import Paint
from core.picture.inks import Ink
from core.picture.picture_view import Own
from core.picture.screen_frame import ScreenFrame
from core.plan.outcome import Outcome
from core.plan.tune_result import Rung, TuneCheck
from core.radar.echo_budget import Conditions, EchoBudget
from core.radar.presets import radar_set
from core.sheets.book import make_book
from core.sheets.check_pages import check_page_count, check_pages
from core.sheets.check_picture import CheckPicture, check_picture_items
from core.sheets.page import Dash, Page, Raster, Rectangle, Stroke, text_box
from core.words.messages import Say
from tests.helpers.fixed_measure import FixedMeasure
from tests.helpers.readable import (
    cut_texts,
    off_page,
    outside,
    overlaps,
    small_texts,
    texts_of,
    words_of,
)
from tests.helpers.sample_outcome import sample_outcome

_MEASURE = FixedMeasure()
_SIZE_PX = 200
_FORBIDDEN = re.compile(r"\bsafe|will be seen|\bwill paint", re.I)


def _check(outcome: Outcome) -> TuneCheck:
    check = outcome.plan.legs[0].tune_check
    assert check is not None
    return check


@lru_cache(maxsize=4)
def _picture(ink: Paint = Paint.NOTHING, off_centre_ratio: float = 0.0) -> CheckPicture:
    """An invented picture of one ink all over."""
    outcome = sample_outcome()
    check, leg = _check(outcome), outcome.plan.legs[0]
    fitted = radar_set(outcome.request.ship.radars[0])
    own = np.zeros(360, dtype=np.uint8)
    own[100:120] = Own.SHADOW
    return CheckPicture(
        leg_index=0,
        screen=np.full((_SIZE_PX, _SIZE_PX), ink, dtype=np.uint8),
        frame=ScreenFrame(
            size_px=_SIZE_PX,
            scale_m=check.scale_m,
            up_deg=leg.course_deg,
            off_centre_ratio=off_centre_ratio,
            off_centre_deg=leg.course_deg,
        ),
        radius_m=check.scale_m * (1.0 + off_centre_ratio),
        heading_deg=leg.course_deg,
        own=own,
        budget=EchoBudget(
            radar=fitted,
            pulse=fitted.long_pulse,
            antenna_height_m=25.0,
            conditions=Conditions(sea_state=3.0, rain_mm_h=1.0),
        ),
    )


def _pages(*pictures: CheckPicture, outcome: Outcome | None = None) -> tuple[Page, ...]:
    return check_pages(
        outcome or sample_outcome(), pictures, first_number=7, page_count=9, measure=_MEASURE
    )


def test_four_pictures_stand_on_a_sheet_and_none_makes_no_sheet() -> None:
    assert _pages() == ()
    for count, sheets in ((1, 1), (4, 1), (5, 2), (9, 3)):
        pages = _pages(*[_picture()] * count)
        assert len(pages) == check_page_count([_picture()] * count) == sheets
        squares = [_squares(page) for page in pages]
        assert sum(len(found) for found in squares) == count
        assert max(len(found) for found in squares) <= 4


def _squares(page: Page) -> list[Rectangle]:
    """Boxes of the pictures; swatches of the key are no squares."""
    rooms = [item.room for item in page.items if isinstance(item, Raster)]
    return [room for room in rooms if room.width_mm == room.height_mm]


def test_pictures_are_large_and_lie_beside_one_another() -> None:
    page = _pages(*[_picture()] * 4)[0]
    squares = _squares(page)
    assert all(75.0 <= square.width_mm <= 92.0 for square in squares)
    for number, one in enumerate(squares):
        assert one.x_mm >= 10.0
        assert one.right_mm <= 200.0
        assert not any(one.meets(other) for other in squares[number + 1 :])


@pytest.mark.parametrize("ink", [Paint.NOTHING, Paint.STRONG, Paint.UNKNOWN])
@pytest.mark.parametrize("off_centre_ratio", [0.0, 0.4])
def test_nothing_lies_over_another_or_is_cut_or_small(ink: Paint, off_centre_ratio: float) -> None:
    for page in _pages(*[_picture(ink, off_centre_ratio)] * 5):
        assert overlaps(page.items, _MEASURE) == []
        assert off_page(page, _MEASURE) == []
        assert cut_texts(page.items) == []
        assert small_texts(page.items) == []
        assert _FORBIDDEN.search(words_of(page)) is None


def test_the_four_echoes_are_ringed_at_their_places_and_lettered() -> None:
    picture, check = _picture(), _check(sample_outcome())
    square = Rectangle(x_mm=20.0, y_mm=30.0, width_mm=80.0, height_mm=80.0)
    items = check_picture_items(picture, check, square, _MEASURE)
    words = [text.text for text in texts_of(items)]
    for letter, rung in (
        ("S", Rung.STRONG),
        ("M", Rung.MEDIUM),
        ("W", Rung.WEAK),
        ("NONE", Rung.ABSENT),
    ):
        echo = check.echo(rung)
        assert echo is not None
        assert f"{letter}: {echo.object_id}" in words
        ring = next(
            i for i in items if isinstance(i, Stroke) and i.reference == f"tune:{echo.object_id}"
        )
        assert (ring.dash is Dash.FINE) == (rung is Rung.ABSENT)
        # Course-up: where the relative bearing and the range say, by hand.
        relative = np.radians(echo.bearing_deg - picture.frame.up_deg)
        reach_mm = 40.0 * echo.range_m / check.scale_m
        x = float(np.mean([place[0] for place in ring.points[:-1]]))
        y = float(np.mean([place[1] for place in ring.points[:-1]]))
        assert x == pytest.approx(60.0 + reach_mm * np.sin(relative), abs=0.1)
        assert y == pytest.approx(70.0 - reach_mm * np.cos(relative), abs=0.1)
    assert outside(items, square, _MEASURE) == []


def test_rings_are_cased_in_paper_so_that_they_show_on_black_land() -> None:
    square = Rectangle(x_mm=20.0, y_mm=30.0, width_mm=80.0, height_mm=80.0)
    items = check_picture_items(_picture(Paint.STRONG), _check(sample_outcome()), square, _MEASURE)
    for number, item in enumerate(items):
        if isinstance(item, Stroke) and item.reference.startswith("tune:"):
            below = items[number - 1]
            assert isinstance(below, Stroke)
            assert below.points == item.points
            assert below.width_mm >= item.width_mm + 0.5
            assert below.dash is Dash.SOLID


def test_labels_keep_off_echoes_where_there_is_room() -> None:
    picture = _picture()
    screen = picture.screen.copy()
    screen[:, : _SIZE_PX // 2] = Paint.STRONG
    half = replace(picture, screen=screen)
    square = Rectangle(x_mm=0.0, y_mm=0.0, width_mm=80.0, height_mm=80.0)
    items = check_picture_items(half, _check(sample_outcome()), square, _MEASURE)
    echo = _check(sample_outcome()).echo(Rung.STRONG)
    assert echo is not None
    label = next(text for text in texts_of(items) if text.text == f"S: {echo.object_id}")
    assert text_box(label, _MEASURE).x_mm > 39.5


def test_a_caption_says_where_when_scale_pulse_weather_and_that_it_is_calculated() -> None:
    words = words_of(_pages(_picture())[0]).replace("\n", " ")
    budget = _picture().budget
    for needed in (
        "Leg 1, ",
        "UTC, ",
        "to go",
        "3 NM scale, course-up",
        f"long pulse {budget.pulse.length_s * 1e6:g} µs",
        f"Calculated: X band, {budget.radar.preset.value}, sea state 3, rain 1 mm/h, k 1.33",
        "No tune check, so no picture: leg 2, 3.",
        "Page 7 of 9",
    ):
        assert needed in words, needed
    assert "ther echoes in the pecked ring" not in words
    painted = words_of(_pages(_picture(Paint.PAINTED))[0]).replace("\n", " ")
    assert "Other echoes in the pecked ring" in painted


def test_steps_without_an_echo_are_told_and_not_ringed() -> None:
    outcome = sample_outcome()
    check = _check(outcome)
    rungs = tuple(
        replace(step, echo=None) if step.rung in (Rung.WEAK, Rung.ABSENT) else step
        for step in check.rungs
    )
    legs = outcome.plan.legs
    bare = replace(legs[0], tune_check=replace(check, rungs=rungs))
    outcome = replace(outcome, plan=replace(outcome.plan, legs=(bare, *legs[1:])))
    page = _pages(_picture(), outcome=outcome)[0]
    assert "No weak or hidden echo found" in words_of(page).replace("\n", " ")
    labels = [
        text.text for text in texts_of(page.items) if re.match(r"(S|M|W|NONE): \S+$", text.text)
    ]
    assert {label.split(":")[0] for label in labels} == {"S", "M"}


def test_the_key_tells_rings_and_what_the_pictures_hold() -> None:
    words = words_of(_pages(_picture(), _picture(Paint.UNKNOWN))[0])
    for needed in ("NONE: hidden by land, must not paint", "S strong", "no data: a gap", "shadow"):
        assert needed in words
    assert "clutter" not in words


def test_a_gap_is_hatched_as_a_gap_and_a_strong_echo_is_flat_ink() -> None:
    def codes(ink: Paint) -> set[int]:
        square = next(
            i
            for i in _pages(_picture(ink))[0].items
            if isinstance(i, Raster) and i.room.width_mm == i.room.height_mm
        )
        assert not square.codes.flags.writeable
        return set(np.unique(square.codes).tolist())

    assert codes(Paint.UNKNOWN) == {Ink.WATER, Ink.GAP}
    assert codes(Paint.STRONG) == {Ink.FULL_ECHO}
    assert codes(Paint.UNCERTAIN) == {Ink.WATER, Ink.OUTLINE}


def test_the_book_has_the_pictures_right_after_the_cards() -> None:
    names = [page.name for page in make_book(sample_outcome(), _MEASURE, [_picture()] * 5)]
    last_card = len(names) - 1 - names[::-1].index(str(Say.SETUP_LIST))
    assert names[last_card + 1 : last_card + 3] == [Say.CHECK_PICTURES] * 2
    plain = [page.name for page in make_book(sample_outcome(), _MEASURE)]
    assert [name for name in names if name != Say.CHECK_PICTURES] == plain
    pages = make_book(sample_outcome(), _MEASURE, [_picture()] * 5)
    for number, page in enumerate(pages):
        assert f"Page {number + 1} of {len(pages)}" in words_of(page)
    told = {
        text.text for page in pages for text in texts_of(page.items) if "more, page" in text.text
    }
    for words in told:
        number = int(words.rsplit(" ", 1)[1])
        assert pages[number - 1].name != Say.CHECK_PICTURES
