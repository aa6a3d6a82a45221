"""Fixtures for tests of the window: nothing may stay alive, nothing touches the user's disk."""

import gc
import threading
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
import shiboken6
from PySide6.QtCore import QCoreApplication, QEvent, QTimer
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.state.document import Document
from app.state.settings import Settings

_PATIENCE_MS = 40_000


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Let the off-screen platform say what it does not support."""
    here = Path(__file__).parent
    for item in items:
        if here in item.path.parents:
            item.add_marker(pytest.mark.qt_log_ignore("This plugin does not support", extend=True))


@pytest.fixture(autouse=True, scope="session")
def patient_waits() -> Iterator[None]:
    """What is waited for has time to come on a busy computer too; 5 s was not enough there."""
    wait_until = QtBot.waitUntil

    def waits(
        bot: QtBot, callback: Callable[[], bool | None], *, timeout: int = _PATIENCE_MS
    ) -> None:
        wait_until(bot, callback, timeout=max(timeout, _PATIENCE_MS))

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(QtBot, "waitUntil", waits)
        yield


@pytest.fixture(autouse=True, scope="module")
def no_garbage_left() -> Iterator[None]:
    """What is left of windows goes here, on the GUI thread, not in some test without a window."""
    yield
    gc.collect()


@pytest.fixture(autouse=True)
def garbage_on_the_gui_thread() -> Iterator[None]:
    """As in the program, no worker looks for garbage (``app/base/collector.py``)."""
    gc.disable()
    yield
    gc.collect(1)
    gc.enable()


@pytest.fixture(autouse=True)
def nothing_left_alive(qapp: QApplication, garbage_on_the_gui_thread: None) -> Iterator[None]:
    """Fail the test that leaves a thread, a running timer or a top-level widget behind."""
    threads = set(threading.enumerate())
    widgets = set(QApplication.topLevelWidgets())
    timers = _running_timers()
    yield
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    left = [t.name for t in threading.enumerate() if t not in threads and t.is_alive()]
    assert not left, f"threads still run: {left}; close their Runner"
    # Qt keeps one hidden label for tips.
    alive = [
        w
        for w in QApplication.topLevelWidgets()
        if w not in widgets and w.metaObject().className() != "QTipLabel"
    ]
    names = [f"{type(w).__name__} {w.objectName()}" for w in alive]
    for widget in alive:
        widget.close()
        widget.deleteLater()
    assert not names, f"top-level widgets still alive: {names}; close and delete them"
    running = [t.parent() for t in _running_timers() if t not in timers]
    assert not running, f"timers of {running} still run"


def _running_timers() -> list[QTimer]:
    return [
        thing
        for thing in gc.get_objects()
        if issubclass(type(thing), QTimer) and shiboken6.isValid(thing) and thing.isActive()
    ]


@pytest.fixture
def document(qapp: QApplication) -> Document:
    return Document()


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    return Settings(tmp_path / "settings.ini")
