"""The whole window on the invented outcome."""

from collections.abc import Iterator

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.paint.qt_setup import load_fonts
from app.state.document import Document
from app.state.settings import GUIDE, Settings
from app.window.careful_dialog import CarefulDialog
from app.window.main_window import MainWindow
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.window_jobs import StandIns


@pytest.fixture(autouse=True)
def changes_may_go() -> Iterator[None]:
    """Dialogs left changed at the end of a test close without a question that nobody answers."""
    # Of its own: what a test patches itself must go before its window closes.
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(CarefulDialog, "_may_drop", lambda _dialog: True)
        yield


@pytest.fixture
def stand_ins() -> StandIns:
    return StandIns()


@pytest.fixture
def window(
    qtbot: QtBot, qapp: QApplication, document: Document, settings: Settings, stand_ins: StandIns
) -> Iterator[MainWindow]:
    qapp.setStyle("Fusion")
    load_fonts()
    settings.put(GUIDE, "seen")
    made = MainWindow(document, stand_ins.jobs(), settings)
    made.show()
    yield made
    stand_ins.gate.set()
    document.undo_stack.setClean()
    made.close()
    qapp.setStyleSheet("")
    made.deleteLater()


@pytest.fixture
def planned(qtbot: QtBot, window: MainWindow, document: Document) -> MainWindow:
    # Made before the clock of the wait runs: on a busy machine it takes seconds.
    sample_outcome()
    window.files.open_demo()
    qtbot.waitUntil(lambda: document.outcome is not None, timeout=20_000)
    qtbot.waitUntil(lambda: window.panes.strip.is_current, timeout=20_000)
    return window
