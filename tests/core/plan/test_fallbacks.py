"""Fallbacks and agreement at hand-overs. Lengths in miles, answers by hand."""

import math

import pytest

from core.plan.hand_overs import Usable, fallback_of, hand_overs_of
from core.plan.intervals import Interval
from core.plan.plan_result import Fallback
from tests.helpers.islands import NM


def usable(
    name: str, *windows: tuple[float, float], is_weak: bool = False, echo: str = ""
) -> Usable:
    return Usable(
        object_id=name,
        windows=tuple((a * NM, b * NM) for a, b in windows),
        score=50.0,
        is_weak=is_weak,
        echo=echo,
    )


def fallback(name: str, stretch: tuple[float, float], *others: Usable) -> Fallback | None:
    return fallback_of(name, (stretch[0] * NM, stretch[1] * NM), others)


def test_fallback_is_the_one_that_serves_most_of_the_line() -> None:
    found = fallback("A", (0, 8), usable("A", (0, 8)), usable("B", (0, 5)), usable("C", (1, 8)))
    assert found == Fallback(object_id="C", from_along_m=1.0 * NM, to_along_m=8.0 * NM)


def test_of_equals_the_better_placed_one_is_taken() -> None:
    found = fallback("A", (0, 8), usable("B", (0, 8)), usable("C", (0, 8)))
    assert found is not None
    assert found.object_id == "B"


def test_a_weak_one_only_where_no_other_serves_half() -> None:
    weak = usable("W", (0, 8), is_weak=True)
    for reach, name in ((5.0, "B"), (3.0, "W")):
        found = fallback("A", (0, 8), usable("B", (0, reach)), weak)
        assert found is not None
        assert found.object_id == name


def test_an_echo_is_no_fallback_for_itself_and_a_scrap_is_none() -> None:
    beacon = usable("A", (0, 8), echo="islet")
    assert fallback("A", (0, 8), beacon, usable("I", (0, 8), echo="islet")) is None
    assert fallback("A", (0, 8), beacon, usable("B", (7, 8))) is None


def test_both_lines_are_to_agree_within_their_errors_together() -> None:
    # By hand: 3 and 4 in the stretch they share make 5.
    asked: list[tuple[str, Interval]] = []

    def error_m(name: str, stretch: Interval) -> float:
        asked.append((name, stretch))
        return {"A": 30.0, "B": 40.0}[name]

    (change,) = hand_overs_of(
        (("A", 0.0, 5.0 * NM), ("B", 3.0 * NM, 9.0 * NM)), (), speed_mps=6.0, error_m=error_m
    )
    assert change.agreement_m == pytest.approx(math.hypot(30.0, 40.0))
    assert asked == [("A", (3.0 * NM, 5.0 * NM)), ("B", (3.0 * NM, 5.0 * NM))]


def test_the_fallback_of_a_hand_over_is_another_echo_than_both() -> None:
    others = (
        usable("A", (0, 9), echo="islet"),
        usable("I", (0, 9), echo="islet"),
        usable("B", (0, 9)),
        usable("C", (0, 9)),
    )
    (change,) = hand_overs_of(
        (("A", 0.0, 5.0 * NM), ("B", 3.0 * NM, 9.0 * NM)), others, speed_mps=6.0
    )
    assert change.fallback == "C"
