"""No text is cut where words are a third longer, as in other languages; and on any screen."""

import pytest
from PySide6.QtWidgets import QApplication, QDialog
from pytestqt.qtbot import QtBot

from app.window.main_window import MainWindow
from tests.app.window.test_night import DIALOGS
from tests.helpers.long_words import cut_texts, lengthen


@pytest.mark.parametrize(("width", "height"), [(1366, 768), (3840, 2160)])
def test_the_window_cuts_no_text(
    qtbot: QtBot, planned: MainWindow, width: int, height: int
) -> None:
    planned.resize(width, height)
    QApplication.processEvents()
    assert cut_texts(planned) == []
    lengthen(planned)
    qtbot.wait(50)
    assert cut_texts(planned) == []
    assert planned.width() <= width


@pytest.mark.parametrize("name", DIALOGS)
def test_no_dialog_cuts_a_text_or_grows_over_a_small_screen(
    qtbot: QtBot, planned: MainWindow, name: str
) -> None:
    dialog = DIALOGS[name](planned)
    dialog.show()
    qtbot.waitExposed(dialog)
    cut = cut_texts(dialog)
    if name != "file":  # Qt's own dialog makes its own room, but for the buttons we word
        lengthen(dialog)
    dialog.adjustSize()
    layout = dialog.layout()
    if layout is not None and layout.hasHeightForWidth():
        dialog.resize(dialog.width(), max(dialog.height(), layout.heightForWidth(dialog.width())))
    QApplication.processEvents()
    cut += cut_texts(dialog)
    size = dialog.size()
    if isinstance(dialog, QDialog):
        dialog.done(0)
    dialog.deleteLater()
    assert cut == []
    assert size.width() <= 1366
    assert size.height() <= 768
