"""Danger limits typed by hand, from the table, by key, and in the dialog."""

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialogButtonBox, QLabel, QLineEdit, QPushButton
from pytestqt.qtbot import QtBot

from app.state.document import Document
from app.views.plan_tables import WordsView
from app.views.strip_drag import LIMITS_FROM_CHART
from app.window.choice_dialog import ChoiceDialog
from app.window.limit_dialog import LimitDialog
from app.window.main_window import MainWindow
from core.base.units import m_from_nm
from core.jobs.edit_project import limits_of
from core.plan.plan_result import DangerLimit, IndexLine, Limit, Role
from tests.helpers.sample_outcome import sample_outcome

_EVERY = DangerLimit(
    object_id="A", leg_number=None, least_m=m_from_nm(0.9), most_m=m_from_nm(2.0), note="foul"
)


_OK = QDialogButtonBox.StandardButton.Ok
_LEAST = "Not less than, NM"


def _margin(name: str) -> IndexLine:
    lines = sample_outcome().plan.legs[0].lines
    return next(x for x in lines if x.role is Role.MARGIN and x.object.id == name)


def _edit(dialog: LimitDialog, name: str) -> QLineEdit:
    return next(e for e in dialog.findChildren(QLineEdit) if e.accessibleName() == name)


def _press(dialog: LimitDialog, text: str) -> None:
    next(b for b in dialog.findChildren(QPushButton) if b.text() == text).click()


@pytest.mark.parametrize(
    ("which", "typed", "least", "most"),
    [
        (Limit.NOT_LESS_THAN, "0", "0", "2"),
        (Limit.NOT_MORE_THAN, "1", "0.9", "1"),
        (Limit.NOT_MORE_THAN, "", "0.9", "2"),
    ],
)
def test_typing_begins_on_the_distance_that_the_line_shows(
    qtbot: QtBot, which: Limit, typed: str, least: str, most: str
) -> None:
    dialog = LimitDialog(_EVERY, ("A",), ("leg 1", "leg 2"), frozenset())
    qtbot.addWidget(dialog)
    dialog.begin_with(which, typed)
    fields = [e.text() for e in dialog.findChildren(QLineEdit)]
    assert least in fields
    assert most in fields
    assert LIMITS_FROM_CHART in " ".join(label.text() for label in dialog.findChildren(QLabel))


def _answer(kind: type, act: Callable[..., None]) -> list[object]:
    met: list[object] = []

    def answer() -> None:
        found = [w for w in QApplication.topLevelWidgets() if isinstance(w, kind) and w.isVisible()]
        met.extend(found)
        act(found[0])

    QTimer.singleShot(80, answer)
    return met


def _index(window: MainWindow) -> WordsView:
    view = window.panes.tables.currentWidget()
    assert isinstance(view, WordsView)
    return view


def _choose_row(window: MainWindow, role: Role, name: str) -> WordsView:
    view = _index(window)
    for number in range(view.table.rowCount()):
        row = view.table.row(number)
        subject = None if row is None else row.subject
        if isinstance(subject, IndexLine) and (subject.role, subject.object.id) == (role, name):
            view.setCurrentIndex(view.table.index(number, 0))
            return view
    raise AssertionError(f"no row for {name}")


def test_a_figure_typed_on_a_margin_of_the_table_becomes_a_limit(
    qtbot: QtBot, planned: MainWindow, document: Document
) -> None:
    view = _choose_row(planned, Role.MARGIN, "A")

    def finish(dialog: LimitDialog) -> None:
        edit = _edit(dialog, _LEAST)
        assert edit.text() == "0"
        QTest.keyClicks(edit, ".85")
        _press(dialog, dialog.findChildren(QDialogButtonBox)[0].button(_OK).text())

    assert_met = _answer(LimitDialog, finish)
    QTest.keyClick(view, Qt.Key.Key_0)
    assert assert_met
    (limit,) = limits_of(document.project, leg_count=3)
    assert limit.least_m == pytest.approx(m_from_nm(0.85), abs=0.01)
    assert document.undo_stack.count() == 1

    def take_out(dialog: LimitDialog) -> None:
        _press(dialog, "Take &out")

    _answer(LimitDialog, take_out)
    planned.actions_by_id["danger_limit"].trigger()
    assert limits_of(document.project, leg_count=3) == ()
    document.undo_stack.undo()
    assert len(limits_of(document.project, leg_count=3)) == 1


def test_a_letter_typed_on_an_index_line_offers_that_object(
    qtbot: QtBot, planned: MainWindow, document: Document
) -> None:
    view = _choose_row(planned, Role.PRIMARY, "A")
    _answer(ChoiceDialog, ChoiceDialog.accept)
    QTest.keyClick(view, Qt.Key.Key_B)
    (override,) = document.project.overrides
    assert (override.role, override.object_id) == ("primary", "B")


def test_enter_on_what_the_keys_point_at_changes_it(
    qtbot: QtBot, planned: MainWindow, document: Document
) -> None:
    strip = planned.panes.strip
    document.set_cursor(_margin("A").from_along_m + 3000.0)
    heard: list[str] = []
    strip.said.connect(heard.append)
    for _ in range(30):
        strip.point(1)
        if heard[-1].startswith("margin line on A"):
            break
    met = _answer(LimitDialog, LimitDialog.reject)
    QTest.keyClick(strip, Qt.Key.Key_Return)
    assert met
    strip.said.disconnect(heard.append)
    assert document.undo_stack.count() == 0
