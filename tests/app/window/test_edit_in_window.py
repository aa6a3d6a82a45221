"""A waypoint moved in the whole window: the line is drawn at once, the plan is marked old."""

from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from app.state.document import Document
from app.window.main_window import MainWindow
from tests.helpers.window_jobs import StandIns


def _move_by_keys(window: MainWindow) -> None:
    area = window.panes.area
    area.setFocus()
    for key in (Qt.Key.Key_PageDown, Qt.Key.Key_PageDown, Qt.Key.Key_Up, Qt.Key.Key_Return):
        QTest.keyClick(area, key)


def test_after_a_move_all_is_marked_old_and_undo_brings_the_plan_back(
    qtbot: QtBot, planned: MainWindow, document: Document
) -> None:
    qtbot.waitUntil(lambda: document.line is not None)
    _move_by_keys(planned)
    assert document.undo_stack.count() == 1
    assert "move waypoint" in planned.actions_by_id["undo"].text()
    words = [label.text() for label in planned.findChildren(QLabel) if label.isVisible()]
    assert any("line edited" in word for word in words)
    for name in ("print", "export_json", "export_pdf", "issue_revision"):
        assert not planned.actions_by_id[name].isEnabled()
    planned.actions_by_id["undo"].trigger()
    assert document.outcome is not None
    assert planned.actions_by_id["print"].isEnabled()


def test_an_edit_does_not_end_a_running_computation_nor_take_its_legs(
    qtbot: QtBot, planned: MainWindow, document: Document, stand_ins: StandIns
) -> None:
    qtbot.waitUntil(lambda: document.line is not None)
    stand_ins.gate.clear()
    planned.actions_by_id["compute"].trigger()
    qtbot.waitUntil(lambda: len(document.first_legs.numbers) == 2)
    _move_by_keys(planned)
    assert document.job.is_running
    assert document.first_legs.numbers == frozenset()
    edited = document.passage
    stand_ins.gate.set()
    qtbot.waitUntil(lambda: not document.job.is_running)
    assert document.passage is edited
    assert document.outcome is None


def test_escape_in_the_area_lets_go_before_it_stops_a_computation(
    qtbot: QtBot, planned: MainWindow, document: Document, stand_ins: StandIns
) -> None:
    planned.activateWindow()
    qtbot.waitUntil(planned.isActiveWindow)
    stand_ins.gate.clear()
    planned.actions_by_id["compute"].trigger()
    qtbot.waitUntil(lambda: document.job.fraction > 0.0)
    area = planned.panes.area
    area.setFocus()
    QTest.keyClick(area, Qt.Key.Key_PageDown)
    QTest.keyClick(area, Qt.Key.Key_Escape)
    assert area.tools.chosen is None
    assert not document.job.is_stopping
    QTest.keyClick(area, Qt.Key.Key_Escape)
    assert document.job.is_stopping
    stand_ins.gate.set()


def test_coast_and_hidden_water_of_own_ship_or_the_leg(qtbot: QtBot, planned: MainWindow) -> None:
    area = planned.panes.area
    qtbot.waitUntil(lambda: area.is_ready and area.pictures.cover is not None)
    before = area.scope
    planned.actions_by_id["coast_scope"].trigger()
    assert area.scope is not before
    planned.actions_by_id["coast_scope"].trigger()
    assert area.scope is before


def test_a_drag_on_open_water_moves_the_plan_and_edits_nothing(
    qtbot: QtBot, planned: MainWindow, document: Document
) -> None:
    area = planned.panes.area
    qtbot.waitUntil(lambda: area.is_ready)
    was = area.pixel_of_waypoint(0)
    at = QPoint(area.width() - 30, area.height() // 2)
    QTest.mousePress(area, Qt.MouseButton.LeftButton, pos=at)
    QTest.mouseMove(area, at - QPoint(30, 10))
    QTest.mouseRelease(area, Qt.MouseButton.LeftButton, pos=at - QPoint(30, 10))
    assert area.pixel_of_waypoint(0) != was
    assert document.undo_stack.count() == 0
