"""Fixtures for tests of the window: nothing may stay alive, nothing touches the user's disk."""

import gc
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, QTimer
from PySide6.QtWidgets import QApplication

from app.state.document import Document
from app.state.settings import Settings


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Let the off-screen platform say what it does not support."""
    here = Path(__file__).parent
    for item in items:
        if here in item.path.parents:
            item.add_marker(pytest.mark.qt_log_ignore("This plugin does not support", extend=True))


@pytest.fixture(autouse=True)
def nothing_left_alive(qapp: QApplication) -> Iterator[None]:
    """Fail the test that leaves a thread, a running timer or a top-level widget behind."""
    threads = set(threading.enumerate())
    widgets = set(QApplication.topLevelWidgets())
    yield
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    gc.collect()
    left = [t.name for t in threading.enumerate() if t not in threads and t.is_alive()]
    assert not left, f"threads still run: {left}"
    shown = [w for w in QApplication.topLevelWidgets() if w not in widgets and w.isVisible()]
    names = [f"{type(w).__name__} {w.objectName()}" for w in shown]
    for widget in shown:
        widget.close()
    assert not names, f"top-level widgets still shown: {names}"
    timers = [t for t in qapp.findChildren(QTimer) if t.isActive()]
    assert not timers, f"timers still run: {timers}"


@pytest.fixture
def document(qapp: QApplication) -> Document:
    return Document()


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    return Settings(tmp_path / "settings.ini")
