"""Marks of a revision on the sheets."""

from dataclasses import replace

from core.jobs.revise_plan import compared_with, issued
from core.plan.outcome import Outcome
from core.sheets.book import make_book
from core.sheets.page import Page, Text
from core.sheets.revision_marks import changed_pages
from tests.helpers.fixed_measure import FixedMeasure
from tests.helpers.sample_outcome import sample_outcome

_MEASURE = FixedMeasure()


def _revised() -> Outcome:
    """The sample with a later wheel-over on its first leg, against itself as issued."""
    outcome = sample_outcome()
    revision = issued(outcome, issued_utc="2031-05-14T00:00:00Z", note="", by="2/O Example")
    first, *others = outcome.plan.legs
    assert first.wheel_over is not None
    turn = replace(first.wheel_over, along_m=first.wheel_over.along_m - 800.0)
    legs = (replace(first, wheel_over=turn), *others)
    return compared_with(
        replace(outcome, plan=replace(outcome.plan, legs=legs)), revision, note="slower engine"
    )


def _words(page: Page) -> str:
    return " ".join(item.text for item in page.items if isinstance(item, Text))


def test_the_changed_leg_says_what_changed_and_the_front_which_legs() -> None:
    outcome = _revised()
    pages = make_book(outcome, _MEASURE)
    assert all("Rev 2" in _words(page) for page in pages)
    legs = [page for page in pages if page.name.startswith("Leg ")]
    assert "Changed in this revision" in _words(legs[0])
    assert "Revision 2" in _words(legs[0])
    for page in legs[1:]:
        assert "Changed in this revision" not in _words(page)
        assert "Revision 1" in _words(page)
    front = _words(pages[0])
    for said in ("Revision 2", "slower engine", "Legs whose sheets changed: 1"):
        assert said in front
    assert "Revision 1 issued 2031-05-14T00:00:00Z by 2/O Example" in front


def test_a_first_plan_has_no_marks() -> None:
    pages = make_book(compared_with(sample_outcome(), None), _MEASURE)
    assert not any("Changed in this revision" in _words(page) for page in pages)


def test_only_what_changed_is_printed_with_the_numbers_of_the_whole_book() -> None:
    outcome = _revised()
    pages = make_book(outcome, _MEASURE)
    changed = changed_pages(outcome, pages)
    assert [page.name for page in changed if page.name.startswith("Leg ")] == ["Leg 1 of 3"]
    assert changed[0] is pages[0]
    assert len(changed) < len(pages)
    assert all(page in pages for page in changed)
