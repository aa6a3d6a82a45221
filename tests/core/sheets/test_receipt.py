"""The receipt: every input whole, every parameter, quality of each leg, blanks, references."""

from core import __version__
from core.plan.digest import inputs_of, parameters_of
from core.sheets.book import make_book
from core.sheets.page import Stroke
from core.words.bridge_words import Bridge
from core.words.receipt_words import REFERENCES, parameter_words
from tests.helpers.demo_outcome import demo_outcome
from tests.helpers.fixed_measure import FixedMeasure
from tests.helpers.readable import words_of


def test_the_receipt_holds_what_a_reviewer_needs() -> None:
    # Capability C22: plan and data fingerprint so that a reviewer can run it again.
    outcome = demo_outcome()
    pages = [page for page in make_book(outcome, FixedMeasure()) if page.part == Bridge.RECEIPT]
    assert pages
    words = words_of(*pages).replace("\n", " ")
    for one in inputs_of(outcome):
        assert one["sha256"] in words
        assert one["name"] in words
    assert outcome.digest in words
    assert __version__ in words
    for source in outcome.land.sources:
        assert source.licence in words
    for leg in outcome.plan.legs:
        for reason in leg.quality.reasons:
            assert reason in words
    for reference in REFERENCES:
        assert reference in words
    assert words.count("Acknowledged") >= 4
    boxes = [
        item
        for page in pages
        for item in page.items
        if isinstance(item, Stroke) and len(item.points) == 5 and item.width_mm == 0.2
    ]
    assert len(boxes) == 3 * words.count("watch officer") + 3 * 3
    heights = [max(y for _x, y in box.points) - min(y for _x, y in box.points) for box in boxes]
    assert min(heights) >= 6.0


def test_every_parameter_is_told_with_its_unit() -> None:
    outcome = demo_outcome()
    told = parameter_words(outcome)
    assert len(told) == len(parameters_of(outcome))
    by_start = {text.partition(":")[0]: text for text in told}
    assert by_start["antenna height above water"].endswith(" m")
    assert by_start["radius"].endswith(" NM")
    assert by_start["rain"].endswith(" mm/h")
    assert by_start["tide"].endswith("not given")
    assert not any("_" in text for text in told)
