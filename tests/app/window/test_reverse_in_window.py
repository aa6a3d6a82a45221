"""Turning the passage round in the window."""

from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from app.state.document import Document
from app.state.notices import NoticeKind
from app.window.main_window import MainWindow


def test_turning_round_says_what_is_left_out_and_can_be_taken_back(
    qtbot: QtBot, planned: MainWindow, document: Document
) -> None:
    choices = document.project.overrides
    planned.actions_by_id["reverse"].trigger()
    assert document.project.is_reversed
    qtbot.waitUntil(lambda: not document.job.is_running)
    assert document.outcome is None
    (notice,) = document.notices.waiting
    assert "the other way" in notice.text
    assert ("left out" in notice.text) is bool(choices or document.project.options.start_utc)
    planned.actions_by_id["undo"].trigger()
    assert not document.project.is_reversed
    assert document.notices.waiting == (), "it runs the old way again, and nothing says otherwise"
    assert document.outcome is not None


def test_the_newest_notice_is_the_one_shown(planned: MainWindow, document: Document) -> None:
    document.notices.post(NoticeKind.CHECK, "look at this")
    document.notices.post(NoticeKind.DONE, "saved")
    shown = [label.text() for label in planned.findChildren(QLabel) if label.isVisible()]
    assert "saved  (1 more)" in shown
    planned.actions_by_id["dismiss"].trigger()
    shown = [label.text() for label in planned.findChildren(QLabel) if label.isVisible()]
    assert "look at this" in shown
