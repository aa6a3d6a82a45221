"""Dead ranges and check spots on the sheets."""

from dataclasses import replace

from core.sheets.leg_check_list import (
    check_list_rows,
    countdown_section,
    diagnosis_section,
    most_telling,
)
from core.words.check_words import DIAGNOSIS
from tests.helpers.sample_checks import checks_over
from tests.helpers.sample_outcome import sample_outcome


def test_each_check_has_its_row_with_a_box() -> None:
    outcome = sample_outcome()
    rows = list(check_list_rows(outcome, outcome.plan.legs[0]))
    assert [row.cells[0].text for row in rows] == [
        "dead range",
        "range check",
        "heading marker",
        "two lines",
    ]
    assert [row.cells[-1].is_blank_box for row in rows] == [True, True, True, False]


def test_a_leg_without_says_of_each_why() -> None:
    outcome = sample_outcome()
    (row,) = check_list_rows(outcome, outcome.plan.legs[1])
    for words in ("No dead range", "no range check", "no check of the heading marker", "10°"):
        assert words in row.note


def test_the_leg_sheet_counts_down_in_one_line_or_not_at_all() -> None:
    outcome = sample_outcome()
    section = countdown_section(outcome, outcome.plan.legs[0], where="page 9")
    assert section.title == "Dead range A 2.01 at WO"
    assert section.is_pointer
    assert countdown_section(outcome, outcome.plan.legs[1], where="page 9").left_out == 0


def test_pairs_that_tell_more_apart_come_first() -> None:
    (one,) = checks_over(10_000.0).cross_checks
    better = replace(one, first_id="C", alike=())
    assert most_telling((one, better))[0] is better


def test_the_table_of_patterns_is_printed_whole() -> None:
    assert len(diagnosis_section().entries) == len(DIAGNOSIS)
