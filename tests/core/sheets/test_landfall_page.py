"""The landfall card of the demo, whose first leg has no land of use."""

import math

import pytest

from core.base.progress import Quiet
from core.jobs.check_pictures import landfall_pictures
from core.plan.landfall import cut_deg, landfalls_of
from core.sheets.book import make_book
from core.sheets.page import Dash, Page, Raster, Stroke
from core.words.bridge_words import Bridge
from tests.helpers.demo_outcome import demo_outcome
from tests.helpers.fixed_measure import FixedMeasure
from tests.helpers.readable import cut_texts, off_page, overlaps, small_texts, words_of
from tests.helpers.sample_outcome import sample_outcome

_MEASURE = FixedMeasure()


@pytest.fixture(scope="module", params=[True, False], ids=["picture", "places"])
def card(request: pytest.FixtureRequest) -> Page:
    outcome = demo_outcome()
    pictures = landfall_pictures(outcome, Quiet(), size_px=300) if request.param else ()
    pages = make_book(outcome, _MEASURE, (), pictures)
    (page,) = [page for page in pages if page.part == Bridge.LANDFALL]
    assert any(isinstance(item, Raster) for item in page.items) is request.param
    return page


def test_the_card_is_whole_and_readable(card: Page) -> None:
    assert overlaps(card.items, _MEASURE) == []
    assert off_page(card, _MEASURE) == []
    assert small_texts(card.items) == []
    assert cut_texts(card.items) == []


def test_ranges_bearings_and_cuts_are_those_of_the_landfall(card: Page) -> None:
    outcome = demo_outcome()
    (landfall,) = landfalls_of(outcome.plan, outcome.coverage)
    words = words_of(card)
    assert len(landfall.arcs) == 3
    for arc in landfall.arcs:
        nm = arc.range_m / 1852.0
        assert (f"{nm:.1f}" if nm >= 9.995 else f"{nm:.2f}") in words.split("\n")
        assert f"{round(arc.bearing_deg) % 360:03d}" in words.split("\n")
    first, _middle, last = landfall.arcs
    cut = int(cut_deg(first.bearing_deg, last.bearing_deg))
    assert f"1 and 3 {cut}°" in words.replace("\n", " ")
    for paint in landfall.paints[:3]:
        assert paint.object_id in words


def test_every_range_arc_goes_through_own_ship(card: Page) -> None:
    arcs = [item for item in card.items if isinstance(item, Stroke) and item.dash is Dash.BROKEN]
    assert len(arcs) == 3
    middles = [arc.points[len(arc.points) // 2] for arc in arcs]
    assert all(math.dist(middles[0], one) < 1e-6 for one in middles)


def test_without_a_landfall_there_is_no_card() -> None:
    pages = make_book(sample_outcome(), _MEASURE)
    assert all(page.part != Bridge.LANDFALL for page in pages)
    assert Bridge.LANDFALL not in words_of(pages[0])
