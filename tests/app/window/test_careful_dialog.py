"""Esc in a dialog does not throw work away unasked."""

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QMessageBox, QPlainTextEdit, QWidget
from pytestqt.qtbot import QtBot

from app.views.waypoint_rows import NAME
from app.window.anchor_dialog import AnchorDialog
from app.window.careful_dialog import CarefulDialog
from app.window.conditions_dialog import ConditionsDialog
from app.window.mark_dialog import MarkDialog
from app.window.route_dialog import RouteDialog
from app.window.ship_dialog import ShipDialog
from app.window.waypoint_dialog import WaypointDialog
from core.files.project import Options
from core.files.ship_file import default_ship
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.window_jobs import StandIns


@pytest.fixture(autouse=True)
def changes_may_go() -> None:
    """Here the question is asked."""


def _type_in_ship(dialog: CarefulDialog) -> None:
    assert isinstance(dialog, ShipDialog)
    dialog.ship_form.name.setText("Another")


def _draw_sector(dialog: CarefulDialog) -> None:
    assert isinstance(dialog, ShipDialog)
    dialog.sector_form.add_sector(10.0, 20.0)


def _type_in_row(dialog: CarefulDialog) -> None:
    assert isinstance(dialog, WaypointDialog)
    draft = dialog.table.draft
    draft.setData(draft.index(0, NAME), "Another")


def _type_in_line(dialog: CarefulDialog) -> None:
    dialog.findChildren(QLineEdit)[0].setText("2031-05-14 06:00")


def _type_text(dialog: CarefulDialog) -> None:
    dialog.findChildren(QPlainTextEdit)[0].setPlainText("A, 1, 2")


_CASES: tuple[tuple[Callable[[], CarefulDialog], Callable[[CarefulDialog], None]], ...] = (
    (lambda: ShipDialog(default_ship()), _type_in_ship),
    (lambda: ShipDialog(default_ship()), _draw_sector),
    (lambda: WaypointDialog(sample_outcome().request.passage), _type_in_row),
    (lambda: ConditionsDialog(Options()), _type_in_line),
    (lambda: RouteDialog("", StandIns().read_text), _type_text),
    (lambda: AnchorDialog(None), _type_in_line),
    (lambda: MarkDialog(None, None, frozenset()), _type_in_line),
)


@pytest.mark.parametrize(("make", "change"), _CASES)
def test_esc_asks_once_something_was_changed(
    qtbot: QtBot,
    make: Callable[[], CarefulDialog],
    change: Callable[[CarefulDialog], None],
) -> None:
    asked: list[str] = []

    def answer(word: str) -> None:
        box = QApplication.activeModalWidget()
        assert isinstance(box, QMessageBox)
        asked.append(word)
        next(button for button in box.buttons() if word in button.text()).click()

    def esc(widget: QWidget) -> None:
        QTest.keyClick(widget, Qt.Key.Key_Escape)

    dialog = make()
    qtbot.addWidget(dialog)
    dialog.show()
    esc(dialog)
    assert not dialog.isVisible(), "nothing was changed"
    dialog = make()
    qtbot.addWidget(dialog)
    dialog.show()
    change(dialog)
    QTimer.singleShot(20, lambda: answer("Go on"))
    esc(dialog)
    assert dialog.isVisible()
    QTimer.singleShot(20, lambda: answer("Drop"))
    esc(dialog)
    assert not dialog.isVisible()
    assert asked == ["Go on", "Drop"]
