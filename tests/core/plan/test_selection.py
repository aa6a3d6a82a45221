"""Chains of primary lines and check lines. Lengths in miles, answers by hand."""

from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.plan.selection import Stretch, check_chain, primary_chain, uncovered, without_thirds
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
) -> Stretch:
    return Stretch(
        key=key,
        from_m=start * NM,
        to_m=stop * NM,
        score=score,
        is_weak=is_weak,
        is_forced=is_forced,
        is_starboard=is_starboard,
    )


def keys(chain: tuple[Stretch, ...]) -> str:
    return "".join(s.key for s in chain)


def chain_of(*stretches: Stretch, end: float = 10.0, overlap: float = 0.6) -> str:
    return keys(primary_chain(stretches, end_m=end * NM, overlap_m=overlap * NM))


def test_fewest_hand_overs_win() -> None:
    assert (
        chain_of(stretch("A", 0, 4), stretch("B", 3, 7), stretch("C", 6, 10), stretch("D", 3, 10))
        == "AD"
    )


def test_one_object_that_does_it_all_stands_alone() -> None:
    assert chain_of(stretch("A", 0, 6, 90), stretch("B", 4, 10, 90), stretch("C", 0, 10, 10)) == "C"


def test_the_overlap_asked_for_is_worth_a_line_more() -> None:
    short = (stretch("A", 0, 5.2), stretch("B", 5, 10))
    assert chain_of(*short) == "AB"
    assert chain_of(*short, stretch("C", 3, 7)) == "ACB"


def test_less_gap_goes_before_fewer_lines() -> None:
    assert chain_of(stretch("A", 0, 4), stretch("B", 6, 10), stretch("C", 3, 7)) == "ACB"


def test_weak_objects_carry_only_what_others_cannot() -> None:
    assert (
        chain_of(stretch("W", 0, 10, is_weak=True), stretch("A", 0, 6), stretch("B", 5, 10)) == "AB"
    )
    assert chain_of(stretch("W", 0, 10, is_weak=True), stretch("A", 0, 6)) == "AW"


def test_scores_decide_between_equals() -> None:
    assert chain_of(stretch("A", 0, 10, 40), stretch("B", 0, 10, 60)) == "B"


def test_the_officers_choice_is_always_in_and_others_fill_up() -> None:
    chain = chain_of(stretch("A", 0, 10), stretch("F", 4, 6, 1, is_forced=True))
    assert chain == "AFA"


def test_no_windows_no_chain() -> None:
    assert primary_chain((), end_m=10.0, overlap_m=1.0) == ()


def test_no_more_than_two_primary_lines_run_at_once() -> None:
    chain = (stretch("A", 0, 6), stretch("B", 1, 8), stretch("C", 2, 10))
    cut = without_thirds(chain, 0.5 * NM)
    assert cut[2].from_m == pytest.approx(6.0 * NM)


windows = st.lists(
    st.tuples(st.integers(0, 18), st.integers(1, 10), st.booleans()).map(
        lambda t: (t[0] / 2.0, min(t[0] / 2.0 + t[1] / 2.0, 10.0), t[2])
    ),
    min_size=1,
    max_size=6,
)


@given(windows)
def test_chain_leaves_no_more_gap_than_any_other_and_takes_no_more_lines_than_needed(
    spans: list[tuple[float, float, bool]],
) -> None:
    stretches = tuple(stretch(chr(65 + i), a, b) for i, (a, b, _weak) in enumerate(spans))
    chain = primary_chain(stretches, end_m=10.0 * NM, overlap_m=0.0)

    def gap_m(some: tuple[Stretch, ...]) -> float:
        return sum(b - a for a, b in uncovered(some, 10.0 * NM))

    best_m = gap_m(stretches)
    assert gap_m(chain) == pytest.approx(best_m)
    for size in range(1, len(chain)):
        assert all(gap_m(subset) > best_m + 1.0 for subset in combinations(stretches, size))
    assert all(a.from_m < b.from_m and a.to_m < b.to_m for a, b in pairwise(chain))


def test_check_lines_prefer_the_other_side() -> None:
    primaries = (stretch("P", 0, 10, is_starboard=True),)
    offered = (
        primaries[0],
        stretch("S", 0, 10, 50, is_starboard=True),
        stretch("O", 0, 10, 40, is_starboard=False),
    )
    assert keys(check_chain(offered, primaries, end_m=10.0 * NM, least_m=NM)) == "O"


def test_check_lines_never_repeat_the_primary_object_where_it_is_primary() -> None:
    primaries = (stretch("P", 0, 4), stretch("Q", 3, 10))
    checks = check_chain(
        (stretch("P", 0, 8), stretch("Q", 3, 10)), primaries, end_m=10.0 * NM, least_m=NM
    )
    assert [(c.key, c.from_m / NM, c.to_m / NM) for c in checks] == [("P", 4.0, 8.0)]


def test_check_lines_follow_one_another_without_overlap() -> None:
    offered = tuple(stretch(chr(65 + i), i, i + 3.0) for i in range(8))
    checks = check_chain(offered, (), end_m=10.0 * NM, least_m=0.5 * NM)
    assert all(a.to_m <= b.from_m for a, b in pairwise(checks))


def test_check_choice_of_the_officer_goes_first() -> None:
    offered = (stretch("A", 0, 10, 90), stretch("F", 2, 5, 1, is_forced=True))
    checks = check_chain(offered, (), end_m=10.0 * NM, least_m=NM)
    assert keys(checks) == "AFA"
