"""Steps that come one by one, and workers that give way."""

import os
import sys
import threading

import pytest
from PySide6.QtCore import QObject, QTimer
from pytestqt.qtbot import QtBot

from app.base.by_turns import ByTurns
from app.base.give_way import give_way


def test_other_events_come_between_two_steps(qtbot: QtBot) -> None:
    owner, seen = QObject(), list[str]()

    def first() -> None:
        seen.append("first")
        QTimer.singleShot(0, owner, lambda: seen.append("between"))

    def last() -> None:
        seen.append("last")

    ByTurns(owner).begin((first, lambda: seen.append("second"), lambda: None, last))
    assert seen == []
    qtbot.waitUntil(lambda: "last" in seen)
    assert seen.index("first") < seen.index("between") < seen.index("last")


def test_newer_steps_take_the_place_of_older_ones(qtbot: QtBot) -> None:
    owner, seen = QObject(), list[str]()
    turns = ByTurns(owner)
    turns.begin((lambda: seen.append("old"),) * 3)
    turns.begin((lambda: seen.append("new"),) * 2)
    qtbot.waitUntil(lambda: len(seen) >= 2)
    qtbot.wait(20)
    assert seen == ["new", "new"]


def test_what_is_left_can_be_done_at_once() -> None:
    owner, seen = QObject(), list[int]()
    turns = ByTurns(owner)
    turns.begin((lambda: seen.append(1), lambda: seen.append(2)))
    turns.finish()
    assert seen == [1, 2]


@pytest.mark.skipif(sys.platform != "linux", reason="niceness of a thread is Linux's")
def test_a_thread_that_gives_way_leaves_the_others_as_they_are() -> None:
    found = list[int]()

    def work() -> None:
        give_way()
        own = threading.get_native_id()
        found.append(os.getpriority(os.PRIO_PROCESS, own))
        child = threading.Thread(
            target=lambda: found.append(os.getpriority(os.PRIO_PROCESS, threading.get_native_id()))
        )
        child.start()
        child.join()

    before = os.getpriority(os.PRIO_PROCESS, threading.get_native_id())
    thread = threading.Thread(target=work)
    thread.start()
    thread.join()
    assert found[0] == found[1] > before
    assert os.getpriority(os.PRIO_PROCESS, threading.get_native_id()) == before
