"""Garbage is looked for on the GUI thread alone, and not while much is made that stays."""

import gc
import threading
import weakref
from collections.abc import Callable, Iterator

import pytest
from PySide6.QtWidgets import QApplication

from app.base.collector import all_stays, garbage_on_this_thread, look, much_is_made
from tests.helpers.gui_gaps import spin


class _Circle:
    """Refers to itself, and tells on which thread it went."""

    def __init__(self) -> None:
        self.me = self
        self.went_on: list[int] = []
        weakref.finalize(self, lambda went: went.append(threading.get_ident()), self.went_on)


@pytest.fixture(autouse=True)
def as_before() -> Iterator[None]:
    yield
    gc.unfreeze()


def _circles(count: int = 20_000) -> list[int]:
    """Make circles that nobody holds; gives the threads on which they went, in time."""
    went = _Circle().went_on
    for _number in range(count):
        circle: list[object] = []
        circle.append(circle)
    return went


def test_a_worker_that_makes_garbage_does_not_look_for_it(qapp: QApplication) -> None:
    went: list[list[int]] = []
    with garbage_on_this_thread():
        worker = threading.Thread(target=lambda: went.append(_circles()))
        worker.start()
        worker.join()
        assert went == [[]]
        spin(1.3)
        assert went == [[threading.get_ident()]]


def test_few_objects_are_no_reason_to_look() -> None:
    gc.disable()
    gc.collect()
    went = _circles(count=1)
    look()
    assert went == []


def test_older_generations_get_their_turn_too() -> None:
    gc.disable()
    gc.collect()
    before = [stats["collections"] for stats in gc.get_stats()]
    for _turn in range(200):
        _circles(count=1_000)
        look()
    after = [stats["collections"] for stats in gc.get_stats()]
    assert all(now > then for now, then in zip(after, before, strict=True))


def test_while_much_is_made_nothing_is_looked_through() -> None:
    gc.disable()
    with much_is_made():
        went = _circles()
        look()
        assert went == []


def test_what_was_made_is_not_looked_through_again() -> None:
    frozen = gc.get_freeze_count()
    with much_is_made():
        kept = [[number] for number in range(50_000)]
    assert gc.get_freeze_count() >= frozen + len(kept)
    all_stays()


def _in_another_thread(work: Callable[[], None]) -> threading.Thread:
    thread = threading.Thread(target=work)
    thread.start()
    return thread


def test_blocks_may_overlap_in_several_threads() -> None:
    gc.disable()
    inside, leave = threading.Event(), threading.Event()

    def other() -> None:
        with much_is_made():
            inside.set()
            leave.wait(10.0)

    with much_is_made():
        thread = _in_another_thread(other)
        inside.wait(10.0)
    went = _circles()
    look()
    assert went == []
    leave.set()
    thread.join()
    went = _circles()
    look()
    assert went != []


@pytest.mark.parametrize("was_on", [True, False])
def test_afterwards_it_is_as_it_was(qapp: QApplication, was_on: bool) -> None:
    (gc.enable if was_on else gc.disable)()
    with pytest.raises(RuntimeError), garbage_on_this_thread(), much_is_made():
        raise RuntimeError
    assert gc.isenabled() == was_on
    went = _circles()
    spin(1.3)
    assert was_on or went == []
