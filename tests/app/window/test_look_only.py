"""In a project that cannot be changed nothing is typed in vain: it is said before."""

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QDialogButtonBox, QLabel, QLineEdit
from pytestqt.qtbot import QtBot

from app.state.document import Document
from app.window.drawn_dialog import DrawnDialog
from app.window.main_window import MainWindow
from app.window.waypoint_dialog import WaypointDialog


@pytest.fixture
def copy(planned: MainWindow, document: Document) -> MainWindow:
    """The planned passage as a copy to look at."""
    document.standing.begin(read_only="This is a copy.")
    return planned


@pytest.mark.parametrize("name", ["conditions", "anchorage", "waypoints", "edit_ship", "drawn"])
def test_a_dialog_shows_all_and_takes_nothing(
    qtbot: QtBot, copy: MainWindow, document: Document, name: str
) -> None:
    seen: list[str] = []

    def look() -> None:
        dialog = QApplication.activeModalWidget()
        if not isinstance(dialog, QDialog):
            QTimer.singleShot(20, look)
            return
        words = [label.text() for label in dialog.findChildren(QLabel, "trouble")]
        seen.extend(text for text in words if text.startswith("READ ONLY"))
        assert all(edit.isReadOnly() for edit in dialog.findChildren(QLineEdit))
        (buttons,) = dialog.findChildren(QDialogButtonBox)
        for button in buttons.buttons():
            is_leave = buttons.buttonRole(button) is QDialogButtonBox.ButtonRole.RejectRole
            assert button.isEnabled() is is_leave
        if isinstance(dialog, WaypointDialog):
            rows = dialog.table.draft.rows
            QTest.keyClick(dialog.table, Qt.Key.Key_Delete)
            assert dialog.table.draft.rows == rows
        if isinstance(dialog, DrawnDialog):
            QTest.keyClick(dialog.mark_list, Qt.Key.Key_Insert)
            assert QApplication.activeModalWidget() is dialog
        dialog.reject()

    QTimer.singleShot(20, look)
    copy.actions_by_id[name].trigger()
    qtbot.waitUntil(lambda: bool(seen))
    assert "Ctrl+Shift+S" in seen[0]
    assert document.undo_stack.count() == 0


@pytest.mark.parametrize(
    "name",
    ["open_ship", "add_land", "add_land_folder", "land_shelf", "choose_object", "danger_limit",
     "issue_revision"],
)  # fmt: skip
def test_what_would_only_be_refused_is_not_asked_for(
    copy: MainWindow, document: Document, name: str
) -> None:
    # A dialog would wait here for ever.
    copy.actions_by_id[name].trigger()
    assert "this project is read-only" in document.notices.waiting[-1].text
