"""Looking for garbage waits while much is made, and passes over what was made."""

import gc
import threading
from collections.abc import Iterator

import pytest

from app.base.collector import all_stays, much_is_made


@pytest.fixture(autouse=True)
def as_before() -> Iterator[None]:
    usual = gc.get_threshold()
    yield
    gc.unfreeze()
    assert gc.get_threshold() == usual


def _full_searches() -> int:
    return int(gc.get_stats()[2]["collections"])


def test_no_full_search_runs_while_much_is_made() -> None:
    gc.collect()
    with much_is_made():
        before = _full_searches()
        kept = [[number] for number in range(400_000)]
        assert _full_searches() == before
    assert len(kept) == 400_000


def test_what_was_made_is_not_looked_through_again() -> None:
    frozen = gc.get_freeze_count()
    with much_is_made():
        kept = [[number] for number in range(50_000)]
    assert gc.get_freeze_count() >= frozen + len(kept)
    all_stays()


def test_circles_that_die_young_go_all_the_same() -> None:
    with much_is_made():
        gc.collect(1)
        for _number in range(20_000):
            circle: list[object] = []
            circle.append(circle)
        assert gc.collect(1) < 20_000


def test_blocks_may_overlap_in_several_threads() -> None:
    usual = gc.get_threshold()
    inside, leave = threading.Event(), threading.Event()

    def other() -> None:
        with much_is_made():
            inside.set()
            leave.wait(10.0)

    thread = threading.Thread(target=other)
    with much_is_made():
        thread.start()
        inside.wait(10.0)
    assert gc.get_threshold() != usual
    leave.set()
    thread.join()
    assert gc.get_threshold() == usual


def test_an_error_leaves_it_as_it_was() -> None:
    with pytest.raises(RuntimeError), much_is_made():
        raise RuntimeError
