"""Danger limits typed by hand, from the table, by key, and in the dialog."""

from collections.abc import Callable, Iterator

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit, QPushButton
from pytestqt.qtbot import QtBot

from app.state.document import Document
from app.views.plan_tables import WordsView
from app.views.strip_drag import LIMITS_FROM_CHART
from app.window.choice_dialog import ChoiceDialog
from app.window.main_window import MainWindow
from app.window.margin_dialog import MarginDialog
from core.base.units import m_from_nm
from core.jobs.edit_project import limits_of
from core.plan.plan_result import DangerLimit, IndexLine, Role
from tests.helpers.sample_outcome import sample_outcome

_EVERY = DangerLimit(
    object_id="A", leg_number=None, least_m=m_from_nm(0.9), most_m=m_from_nm(2.0), note="foul"
)


def _margin(name: str) -> IndexLine:
    lines = sample_outcome().plan.legs[0].lines
    return next(x for x in lines if x.role is Role.MARGIN and x.object.id == name)


@pytest.fixture
def dialog(qapp: QApplication) -> Iterator[MarginDialog]:
    made = MarginDialog(sample_outcome().plan.legs[0], (_EVERY,), _margin("A"))
    made.show()
    yield made
    made.close()
    made.deleteLater()


def _edit(dialog: MarginDialog, name: str) -> QLineEdit:
    return next(e for e in dialog.findChildren(QLineEdit) if e.accessibleName() == name)


def _press(dialog: MarginDialog, text: str) -> None:
    next(b for b in dialog.findChildren(QPushButton) if b.text() == text).click()


def _said(dialog: MarginDialog) -> str:
    return " ".join(label.text() for label in dialog.findChildren(QLabel))


def test_the_limit_behind_the_line_is_shown_with_the_warning(dialog: MarginDialog) -> None:
    assert _edit(dialog, "Not less than, NM").text() == "0.9"
    assert _edit(dialog, "Not more than, NM").text() == "2"
    assert LIMITS_FROM_CHART in _said(dialog)
    assert dialog.replaced == _EVERY


def test_what_is_typed_is_kept_with_the_rest(dialog: MarginDialog) -> None:
    _edit(dialog, "Not less than, NM").setText("0,85")
    _press(dialog, "&Keep limit")
    limit = dialog.limit
    assert limit is not None
    assert limit.least_m == pytest.approx(m_from_nm(0.85))
    assert (limit.most_m, limit.note, limit.leg_number) == (m_from_nm(2.0), "foul", None)


@pytest.mark.parametrize(
    ("least", "most", "words"),
    [
        ("", "", "or both"),
        ("2.5", "2", "below"),
        ("abc", "", "not a number"),
        ("0", "", "not between"),
        ("", "99", "not between"),
        ("nan", "", "not between"),
    ],
)
def test_what_is_no_limit_is_refused_in_a_sentence_and_the_form_stays(
    dialog: MarginDialog, least: str, most: str, words: str
) -> None:
    _edit(dialog, "Not less than, NM").setText(least)
    _edit(dialog, "Not more than, NM").setText(most)
    _press(dialog, "&Keep limit")
    assert dialog.limit is None
    assert dialog.isVisible()
    assert words in _said(dialog)


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

    def finish(dialog: MarginDialog) -> None:
        edit = _edit(dialog, "Not less than, NM")
        assert edit.text() == "0"
        QTest.keyClicks(edit, ".85")
        _press(dialog, "&Keep limit")

    assert_met = _answer(MarginDialog, finish)
    QTest.keyClick(view, Qt.Key.Key_0)
    assert assert_met
    (limit,) = limits_of(document.project, leg_count=3)
    assert limit.least_m == pytest.approx(m_from_nm(0.85), abs=0.01)
    assert document.undo_stack.count() == 1

    def take_out(dialog: MarginDialog) -> None:
        _press(dialog, "&Take out")

    _answer(MarginDialog, take_out)
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
    met = _answer(MarginDialog, MarginDialog.reject)
    QTest.keyClick(strip, Qt.Key.Key_Return)
    assert met
    strip.said.disconnect(heard.append)
    assert document.undo_stack.count() == 0
