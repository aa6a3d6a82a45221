"""Dead ranges and check spots in words; nothing certain, ranges rounded so that they warn early."""

from dataclasses import replace

import pytest

from core.base.units import m_from_nm
from core.plan import check_codes as codes
from core.plan.leg_check_result import Cause
from core.words.check_facts import check_facts
from core.words.check_templates import CHECK_TEMPLATES
from core.words.check_words import (
    DIAGNOSIS,
    countdown_words,
    cross_check_means,
    cross_check_words,
    dead_range_words,
    heading_spot_means,
    heading_spot_words,
    index_spot_means,
    index_spot_words,
    rate_words,
)
from tests.helpers.sample_checks import checks_over
from tests.helpers.sample_outcome import sample_outcome

CHECKS = checks_over(m_from_nm(8.0))
DEAD = CHECKS.dead_ranges[0]


def test_every_code_has_words() -> None:
    assert set(CHECK_TEMPLATES) == {v for name, v in vars(codes).items() if name.isupper()}


def test_a_dead_range_with_its_countdown() -> None:
    assert dead_range_words(DEAD) == (
        "A ahead, 4.00 to 2.00 NM; at the wheel-over 2.01, 3 min before 2.60"
    )
    assert rate_words(DEAD) == "falls 0.20 NM a minute, within 7° of the track"
    assert countdown_words(DEAD, is_last_leg=True).startswith("at the waypoint 2.01")


def test_the_range_of_an_object_astern_is_rounded_down_so_that_it_is_met_early() -> None:
    astern = replace(
        DEAD,
        is_ahead=False,
        countdown=tuple(replace(c, range_m=m_from_nm(2.009)) for c in DEAD.countdown[-1:]),
    )
    assert countdown_words(astern) == "at the wheel-over 2.00"
    assert rate_words(astern).startswith("grows")


def test_a_range_check_says_the_sum_and_what_is_over() -> None:
    spot = CHECKS.index_spot
    assert spot is not None
    assert index_spot_words(spot) == (
        "PORT B 0.80 + STARBOARD A 0.80 = 1.60 NM, in line 300/120° T; 1.62 with the known error"
    )
    assert index_spot_means(spot) == (
        "half of what the sum is over is range error, ± 0.02 NM; read within 0.15 NM of the line"
    )
    assert "known" not in index_spot_words(replace(spot, known_error_m=0.0))


def test_a_check_of_the_heading_marker() -> None:
    spot = CHECKS.heading_spot
    assert spot is not None
    assert heading_spot_words(spot) == "B 2.50 NM, 10° to port, 020° T"
    assert "1° is 0.04 NM there" in heading_spot_means(spot)


def test_what_two_lines_tell_together() -> None:
    (check,) = CHECKS.cross_checks
    assert cross_check_words(check) == "A with B, same side"
    assert cross_check_means(check) == "look alike: range error, ship off her track"
    assert "apart" in cross_check_means(replace(check, alike=(), is_opposite=True))
    every = replace(check, alike=tuple(Cause))
    assert cross_check_means(every).count(",") == 2


def test_t23_the_printed_table_has_every_pattern_and_its_figure() -> None:
    # T23, computed by hand: 1 deg is 0.07 NM at 4 NM.
    said = " ".join(f"{sign} {meaning}" for sign, meaning in DIAGNOSIS)
    for words in (
        "range index error",
        "off her track",
        "heading marker or gyro",
        "0.07 NM at 4 NM",
    ):
        assert words in said


@pytest.mark.parametrize("word", ["will paint", "safe", "certain"])
def test_nothing_is_promised(word: str) -> None:
    said = " ".join((*CHECK_TEMPLATES.values(), *map(" ".join, DIAGNOSIS)))
    assert word not in said


def test_facts_to_compare_plans_by() -> None:
    plan = sample_outcome().plan
    facts = dict(check_facts(plan.legs[0], plan.timetable))
    assert set(facts) == {"dead range A", "range check", "heading marker"}
    assert check_facts(plan.legs[1], plan.timetable) == []
