"""Dead ranges and check spots as rows of the window."""

from app.views.check_rows import check_rows
from app.views.fix_rows import FIX_HEADS
from core.words.check_words import DIAGNOSIS
from tests.helpers.sample_outcome import sample_outcome


def test_the_window_shows_every_check_under_the_heads_of_the_fixes() -> None:
    outcome = sample_outcome()
    checks = outcome.plan.legs[0].checks
    assert checks is not None
    rows = [row for row in check_rows(outcome, outcome.plan.legs[0]) if not row.is_note]
    assert [row.subject for row in rows] == [
        *checks.dead_ranges,
        checks.index_spot,
        checks.heading_spot,
        *checks.cross_checks,
    ]
    assert all(len(row.cells) == len(FIX_HEADS) for row in rows)


def test_a_leg_without_says_why_and_the_patterns_stand_below() -> None:
    outcome = sample_outcome()
    notes = [row.cells[0] for row in check_rows(outcome, outcome.plan.legs[1]) if row.is_note]
    assert sum(text.startswith("No ") and "no " in text.casefold() for text in notes) >= 3
    assert all(any(sign in text for text in notes) for sign, _meaning in DIAGNOSIS)
