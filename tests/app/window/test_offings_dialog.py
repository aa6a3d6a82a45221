"""Comparing offings in the window: computed in the worker, stopped, told what is wrong."""

from collections.abc import Iterator

import pytest
from PySide6.QtWidgets import QLabel, QLineEdit, QPushButton, QTableView
from pytestqt.qtbot import QtBot

from app.state.document import Document
from app.views.offing_rows import offing_heads, offing_table_rows
from app.window.main_window import MainWindow
from app.window.offings_dialog import OffingsDialog, parse_shifts
from core.base.errors import InputError
from core.plan.offing_result import OffingTable
from tests.helpers.sample_offings import sample_offing, sample_offings
from tests.helpers.window_jobs import StandIns


@pytest.fixture
def dialog(
    planned: MainWindow, document: Document, monkeypatch: pytest.MonkeyPatch
) -> Iterator[OffingsDialog]:
    opened: list[OffingsDialog] = []
    monkeypatch.setattr(OffingsDialog, "exec", lambda self: opened.append(self))
    monkeypatch.setattr(OffingsDialog, "deleteLater", lambda _self: None)
    document.set_leg(1)
    planned.actions_by_id["compare_offings"].trigger()
    (made,) = opened
    made.show()
    yield made
    made.close()


def _button(dialog: OffingsDialog, text: str) -> QPushButton:
    return next(b for b in dialog.findChildren(QPushButton) if b.text() == text)


def _trouble(dialog: OffingsDialog) -> str:
    return next(w.text() for w in dialog.findChildren(QLabel) if w.objectName() == "trouble")


def test_offings_are_computed_in_the_worker_and_shown_side_by_side(
    qtbot: QtBot, dialog: OffingsDialog, stand_ins: StandIns, document: Document
) -> None:
    stand_ins.thread_names.clear()
    _button(dialog, "Com&pare").click()
    qtbot.waitUntil(lambda: dialog.model.rowCount() > 0)
    assert dialog.model.columnCount() == 5
    assert stand_ins.thread_names == {"legsheet-plan"}
    assert "leg 2" in dialog.windowTitle()
    assert not document.job.is_running


def test_a_running_comparison_can_be_stopped_and_leaves_the_plan(
    qtbot: QtBot, dialog: OffingsDialog, stand_ins: StandIns, document: Document
) -> None:
    outcome = document.outcome
    stand_ins.gate.clear()
    _button(dialog, "Com&pare").click()
    qtbot.waitUntil(lambda: document.job.is_running)
    assert not _button(dialog, "Com&pare").isEnabled()
    _button(dialog, "Stop (Esc)").click()
    qtbot.waitUntil(lambda: not document.job.is_running)
    assert dialog.model.rowCount() == 0
    assert document.outcome is outcome


def test_what_cannot_be_compared_is_said_in_the_dialog(
    qtbot: QtBot, dialog: OffingsDialog, stand_ins: StandIns
) -> None:
    dialog.findChildren(QLineEdit)[0].setText("half a mile")
    _button(dialog, "Com&pare").click()
    assert "«half» is not a distance" in _trouble(dialog)
    dialog.findChildren(QLineEdit)[0].setText("0.5")
    stand_ins.error = InputError("the land cannot be read", todo="Give another")
    _button(dialog, "Com&pare").click()
    qtbot.waitUntil(lambda: "the land cannot be read" in _trouble(dialog))


def test_sides_are_chosen_with_the_distances() -> None:
    assert parse_shifts("0.5", "to PORT") == (-926.0,)
    assert parse_shifts("0.5", "to STARBOARD") == (926.0,)
    assert parse_shifts("0.5 1", "to both sides") == (-926.0, -1852.0, 926.0, 1852.0)


def test_a_warning_makes_its_row_stand_out() -> None:
    table = sample_offings(3, (926.0,))
    assert offing_heads(table)[2] == "0.50 NM to STARBOARD"
    assert not offing_table_rows(table)[0].is_alert
    loud = OffingTable(
        leg_number=3,
        from_name="One",
        to_name="Two",
        offings=(sample_offing(0.0), sample_offing(926.0, warnings=("THE LEG CROSSES LAND",))),
        common_ids=(),
    )
    first = offing_table_rows(loud)[0]
    assert first.is_alert
    assert "CROSSES LAND" in first.cells[2]


def test_the_table_has_words_for_every_cell(qtbot: QtBot, dialog: OffingsDialog) -> None:
    _button(dialog, "Com&pare").click()
    qtbot.waitUntil(lambda: dialog.model.rowCount() > 0)
    assert dialog.findChildren(QTableView)
    for row in range(dialog.model.rowCount()):
        found = dialog.model.row(row)
        assert found is not None
        assert len(found.cells) == dialog.model.columnCount()
        assert all(found.cells)
