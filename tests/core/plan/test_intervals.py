"""Arithmetic of stretches, against counting whole metres."""

from hypothesis import given
from hypothesis import strategies as st

from core.plan.intervals import Intervals, difference, intersection, length_m, longer_than, union

ends = st.integers(min_value=0, max_value=60)
parts = st.lists(st.tuples(ends, ends).map(lambda p: (float(min(p)), float(max(p)))), max_size=5)


def metres(stretches: Intervals) -> set[int]:
    """Whole metres covered."""
    return {m for a, b in stretches for m in range(int(a), int(b))}


@given(parts, parts)
def test_stretches_behave_like_sets_of_metres(
    one: list[tuple[float, float]], other: list[tuple[float, float]]
) -> None:
    a, b = union(tuple(one)), union(tuple(other))
    assert metres(a) == metres(tuple(one))
    assert metres(intersection(a, b)) == metres(a) & metres(b)
    assert metres(difference(a, b)) == metres(a) - metres(b)
    assert length_m(a) == len(metres(a))


def test_stretches_that_nearly_touch_become_one() -> None:
    assert union(((0.0, 10.0), (10.5, 20.0)), join_m=1.0) == ((0.0, 20.0),)
    assert union(((0.0, 10.0), (10.5, 20.0))) == ((0.0, 10.0), (10.5, 20.0))


def test_short_stretches_are_dropped() -> None:
    assert longer_than(((0.0, 5.0), (10.0, 30.0)), 10.0) == ((10.0, 30.0),)
