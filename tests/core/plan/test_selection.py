"""Chains of primary lines and check lines. Lengths in miles, answers by hand."""

import math
from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.plan.check_selection import CheckRules, check_chain
from core.plan.selection import (
    HandOverRules,
    Stretch,
    primary_chain,
    uncovered,
    without_thirds,
)
from tests.helpers.islands import NM


def stretch(
    key: str,
    start: float,
    stop: float,
    score: float = 50.0,
    *,
    is_weak: bool = False,
    is_forced: bool = False,
    is_starboard: bool = False,
    quality: float = 1.0,
    echo: str = "",
    edge: tuple[float, float] = (0.0, 0.0),
) -> Stretch:
    return Stretch(
        key=key,
        from_m=start * NM,
        to_m=stop * NM,
        score=score,
        is_weak=is_weak,
        is_forced=is_forced,
        is_starboard=is_starboard,
        quality_ratio=quality,
        echo=echo,
        edge_along_m=edge[0] * NM,
        edge_cross_m=edge[1] * NM,
    )


def keys(chain: tuple[Stretch, ...]) -> str:
    return "".join(s.key for s in chain)


def chain_of(
    *stretches: Stretch,
    end: float = 10.0,
    overlap: float = 0.6,
    gap: float = 0.6,
    settled: float = math.inf,
    start: float = 0.0,
) -> str:
    return keys(
        primary_chain(
            stretches,
            end_m=end * NM,
            start_m=start * NM,
            rules=HandOverRules(
                overlap_m=overlap * NM, gap_m=gap * NM, settled_from_m=settled * NM
            ),
        )
    )


def test_fewest_hand_overs_win() -> None:
    assert (
        chain_of(stretch("A", 0, 4), stretch("B", 3, 7), stretch("C", 6, 10), stretch("D", 3, 10))
        == "AD"
    )


def test_one_object_that_does_it_all_stands_alone() -> None:
    assert chain_of(stretch("A", 0, 6, 90), stretch("B", 4, 10, 90), stretch("C", 0, 10, 10)) == "C"


def test_an_overlap_that_is_missing_is_worth_a_line_more_and_a_little_less_is_not() -> None:
    third = stretch("C", 3, 7)
    assert chain_of(stretch("A", 0, 5.05), stretch("B", 5, 10), third) == "ACB"
    assert chain_of(stretch("A", 0, 5.4), stretch("B", 5, 10), third) == "AB"
    assert chain_of(stretch("A", 0, 4.9), stretch("B", 5, 10)) == "AB"


def test_a_gap_as_long_as_a_hand_over_is_worth_a_line_and_a_shorter_one_is_not() -> None:
    assert chain_of(stretch("A", 0, 4), stretch("B", 6, 10), stretch("C", 3, 7)) == "ACB"
    assert chain_of(stretch("A", 0, 9.2), stretch("B", 5, 10)) == "AB"
    assert chain_of(stretch("A", 0, 9.6), stretch("B", 5, 10)) == "A"


def test_a_gap_before_the_wheel_over_counts_thrice() -> None:
    # 0.4 NM of gap is 0.7 of a line, and 2.0 in the last minutes.
    offered = (stretch("A", 0, 9.6), stretch("B", 5, 10))
    assert chain_of(*offered, settled=9.0) == "AB"


def test_a_gap_in_the_turn_onto_the_leg_is_none() -> None:
    offered = (stretch("A", 1, 10), stretch("B", 0, 5))
    assert chain_of(*offered) == "BA"
    assert chain_of(*offered, start=1.0) == "A"


def test_a_hand_over_is_not_left_to_the_last_minutes() -> None:
    # A hands over to either; to B before 9 NM, to C only after it. C has the better score.
    offered = (stretch("A", 0, 9.6), stretch("B", 8, 10, 40), stretch("C", 8.7, 10, 90))
    assert chain_of(*offered, settled=9.0) == "AB"
    assert chain_of(*offered, gap=0.3) == "AC"


def test_good_objects_are_worth_a_hand_over_and_middling_ones_are_not() -> None:
    # Over 10 NM a poor object (half of full quality) is 2.5 lines worse than two good ones.
    good = (stretch("A", 0, 6), stretch("B", 4, 10))
    assert chain_of(*good, stretch("P", 0, 10, quality=0.5)) == "AB"
    assert chain_of(*good, stretch("M", 0, 10, quality=0.85)) == "M"


def test_nothing_is_handed_over_to_its_own_echo() -> None:
    beacon = stretch("B", 0, 6, echo="islet")
    assert chain_of(beacon, stretch("I", 5, 10, echo="islet"), stretch("C", 5, 10, 10)) == "BC"


def test_weak_objects_carry_only_what_others_cannot() -> None:
    weak = stretch("W", 0, 10, is_weak=True)
    assert chain_of(weak, stretch("A", 0, 6), stretch("B", 5, 10)) == "AB"
    assert chain_of(weak, stretch("A", 0, 6)) == "AW"


def test_a_weak_object_beside_a_better_one_is_not_paid_for() -> None:
    # W covers the join of A and B from far before to far after; they meet well without it.
    offered = (stretch("A", 0, 6), stretch("B", 3, 10), stretch("W", 1, 8, 90, is_weak=True))
    assert chain_of(*offered) == "AB"


def test_scores_decide_between_equals() -> None:
    assert chain_of(stretch("A", 0, 10, 40), stretch("B", 0, 10, 60)) == "B"


def test_the_officers_choice_is_always_in_and_others_fill_up() -> None:
    chain = chain_of(stretch("A", 0, 10), stretch("F", 4, 6, 1, is_forced=True))
    assert chain == "AFA"


def test_no_windows_no_chain() -> None:
    assert chain_of() == ""


def test_no_more_than_two_primary_lines_run_at_once() -> None:
    chain = (stretch("A", 0, 6), stretch("B", 1, 8), stretch("C", 2, 10))
    cut = without_thirds(chain, 0.5 * NM)
    assert cut[2].from_m == pytest.approx(6.0 * NM)


windows = st.lists(
    st.tuples(st.integers(0, 18), st.integers(1, 10)).map(
        lambda t: (t[0] / 2.0, min(t[0] / 2.0 + t[1] / 2.0, 10.0))
    ),
    min_size=1,
    max_size=6,
)


def burden(chain: tuple[Stretch, ...], overlap: float) -> float:
    """Lines, gaps and short hand-overs of a chain of good objects, counted place by place."""
    total, done = 0.0, 0.0
    for i, node in enumerate(chain):
        start = node.from_m / NM
        total += 1.0 + max(start - done, 0.0) / 0.5
        if i > 0 and done - start < overlap:
            total += 1.5 * (1.0 - max(done - start, 0.0) / overlap) ** 2
        done = node.to_m / NM
    return total + (10.0 - done) / 0.5


def greedy_lines(spans: list[tuple[float, float]], overlap: float) -> int:
    """Lines of an officer who always takes what reaches farthest, written apart from the program.

    He walks the leg: what is still to be had when the old line has the overlap left to run is
    taken by its reach; if nothing is, the first thing to begin that goes on beyond the old line.
    """
    left = sorted(spans)
    old: tuple[float, float] | None = None
    count = 0
    while True:
        in_time: list[tuple[float, float]] = []
        later: list[tuple[float, float]] = []
        for span in left:
            if old is None:
                (in_time if span[0] <= 0.0 else later).append(span)
            elif span[1] > old[1] and span[0] >= old[0]:
                (in_time if span[0] <= old[1] - overlap else later).append(span)
        if in_time:
            old = max(in_time, key=lambda span: span[1])
        elif later:
            old = max((s for s in later if s[0] == later[0][0]), key=lambda span: span[1])
        else:
            return count
        count += 1


@given(windows)
def test_no_chain_of_as_few_lines_is_less_of_a_burden(spans: list[tuple[float, float]]) -> None:
    # Windows in half miles, so that gaps are whole lines of half a mile.
    stretches = tuple(stretch(chr(65 + i), a, b) for i, (a, b) in enumerate(spans))
    rules = HandOverRules(overlap_m=1.0 * NM, gap_m=0.5 * NM)
    chain = primary_chain(stretches, end_m=10.0 * NM, rules=rules)
    assert all(a.from_m <= b.from_m and a.to_m < b.to_m for a, b in pairwise(chain))
    least = burden(chain, 1.0)
    for size in range(1, greedy_lines(spans, 1.0) + 1):
        for some in combinations(sorted(stretches, key=lambda s: (s.to_m, s.from_m)), size):
            if all(a.from_m <= b.from_m and a.to_m < b.to_m for a, b in pairwise(some)):
                assert least <= burden(some, 1.0) + 1e-6


@given(
    windows,
    st.sampled_from([1e-6, 0.5, 1.0, 1.5]),
    st.lists(st.floats(0.7, 1.0), min_size=6, max_size=6),
)
def test_c5_never_more_hand_overs_than_a_greedy_officer_makes(
    spans: list[tuple[float, float]], overlap: float, qualities: list[float]
) -> None:
    # C5 (common practice, no source): with whatever overlap is asked for, however good each is.
    stretches = tuple(
        stretch(chr(65 + i), a, b, quality=quality)
        for i, ((a, b), quality) in enumerate(zip(spans, qualities, strict=False))
    )
    rules = HandOverRules(overlap_m=overlap * NM, gap_m=0.6 * NM)
    chain = primary_chain(stretches, end_m=10.0 * NM, rules=rules)
    assert len(chain) <= greedy_lines(spans, overlap)


@given(windows, st.sampled_from([1e-6, 0.5, 1.0]))
def test_fewest_lines_are_taken_where_the_leg_can_be_covered_with_the_overlap(
    spans: list[tuple[float, float]], overlap: float
) -> None:
    stretches = tuple(stretch(chr(65 + i), a, b) for i, (a, b) in enumerate(spans))
    ordered = sorted(stretches, key=lambda s: (s.to_m, s.from_m))
    covering = [
        len(some)
        for size in range(1, len(ordered) + 1)
        for some in combinations(ordered, size)
        if some[0].from_m == 0.0
        and some[-1].to_m >= 10.0 * NM
        and all(b.from_m <= a.to_m - overlap * NM and a.to_m < b.to_m for a, b in pairwise(some))
    ]
    if not covering:
        return
    rules = HandOverRules(overlap_m=overlap * NM, gap_m=0.5 * NM)
    chain = primary_chain(stretches, end_m=10.0 * NM, rules=rules)
    # A gap this short is not worth a hand-over, so a chain may leave it and have fewer lines.
    assert all(b - a <= rules.gap_m + 1e-6 for a, b in uncovered(chain, 10.0 * NM))
    assert len(chain) <= min(covering)


def test_a_weak_object_is_no_reason_for_more_hand_overs() -> None:
    # Good ones first, by the greedy officer as well: three good ones, not one weak.
    offered = (stretch("A", 0, 4), stretch("B", 3, 7), stretch("C", 6, 10))
    assert chain_of(*offered, stretch("W", 0, 10, is_weak=True)) == "ABC"


def test_over_a_long_leg_middling_objects_are_not_worth_a_hand_over_either() -> None:
    # Over 30 NM a lack of 0.2 weighs three lines, which once bought a hand-over.
    middling = stretch("M", 0, 30, quality=0.8)
    assert chain_of(middling, stretch("A", 0, 16), stretch("B", 14, 30), end=30.0) == "M"


def checks(
    offered: tuple[Stretch, ...],
    primaries: tuple[Stretch, ...],
    *,
    least: float = 1.0,
    apart: float = 0.0,
) -> tuple[Stretch, ...]:
    rules = CheckRules(least_m=least * NM, apart_m=apart * NM)
    return check_chain(offered, primaries, end_m=10.0 * NM, rules=rules)


def test_check_lines_prefer_the_other_side() -> None:
    primaries = (stretch("P", 0, 10, is_starboard=True),)
    offered = (
        primaries[0],
        stretch("S", 0, 10, 50, is_starboard=True),
        stretch("O", 0, 10, 40, is_starboard=False),
    )
    assert keys(checks(offered, primaries)) == "O"


def test_check_lines_never_repeat_the_primary_object_where_it_is_primary() -> None:
    primaries = (stretch("P", 0, 4), stretch("Q", 3, 10))
    found = checks((stretch("P", 0, 8), stretch("Q", 3, 10)), primaries)
    assert [(c.key, c.from_m / NM, c.to_m / NM) for c in found] == [("P", 4.0, 8.0)]


def test_an_echo_never_checks_itself() -> None:
    # A beacon on an islet, and a tip 0.2 NM from the primary's edge.
    primaries = (stretch("B", 0, 10, echo="islet", edge=(5, 1)),)
    islet = stretch("I", 0, 10, echo="islet", edge=(5, 1.4))
    tip = stretch("T", 0, 10, edge=(5.2, 1))
    assert checks((islet,), primaries, apart=0.3) == ()
    assert checks((tip,), primaries, apart=0.3) == ()
    assert keys(checks((tip,), primaries, apart=0.1)) == "T"


def test_a_weak_object_checks_nothing_unless_the_officer_says_so() -> None:
    primaries = (stretch("P", 0, 10),)
    assert checks((stretch("W", 0, 10, is_weak=True),), primaries) == ()
    forced = stretch("W", 0, 10, is_weak=True, is_forced=True)
    assert keys(checks((forced,), primaries)) == "W"


def test_the_rest_of_a_broken_window_is_not_worth_a_line() -> None:
    # D is longest; of B 1.7 NM are left in front, 1.4 behind: less than 0.4 of its 8 NM.
    offered = (stretch("B", 0, 8, 40), stretch("D", 1.7, 6.6, 90))
    assert keys(checks(offered, ())) == "D"


def test_check_lines_follow_one_another_without_overlap() -> None:
    offered = tuple(stretch(chr(65 + i), i, i + 3.0) for i in range(8))
    found = checks(offered, (), least=0.5)
    assert all(a.to_m <= b.from_m for a, b in pairwise(found))


def test_check_choice_of_the_officer_goes_first() -> None:
    offered = (stretch("A", 0, 10, 90), stretch("F", 2, 5, 1, is_forced=True))
    assert keys(checks(offered, ())) == "AFA"
