"""Radar fixes as rows of the window."""

from app.views.fix_rows import FIX_HEADS, fix_rows
from tests.helpers.sample_outcome import sample_outcome


def test_the_window_shows_every_fix() -> None:
    outcome = sample_outcome()
    fixing = outcome.plan.legs[0].fixing
    assert fixing is not None
    rows = fix_rows(outcome, outcome.plan.legs[0])
    fixes = [row for row in rows if row.subject is not None]
    assert [row.subject for row in fixes] == list(fixing.fixes)
    assert all(len(row.cells) == len(FIX_HEADS) for row in fixes)
    assert [row.is_alert for row in fixes] == [False, False, False, True, False]
