"""Marks and danger limits by forms: checked in one sentence, kept in the project, one step each."""

from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox, QDialog, QLabel, QLineEdit
from pytestqt.qtbot import QtBot

from app.state.document import Document
from app.window.drawn_dialog import DrawnDialog, limit_rows, mark_rows
from app.window.limit_dialog import LimitDialog
from app.window.main_window import MainWindow
from app.window.mark_dialog import MarkDialog
from core.base.units import m_from_nm
from core.files.project import Project
from core.geodesy.position import Position
from core.jobs.edit_project import limits_of, marks_of
from core.plan.plan_result import DangerLimit, Mark
from tests.helpers.modal import alt, when_open

_PLACE = Position(lat_deg=-30.2, lon_deg=-20.1)
_MARK = Mark(
    name="Beacon X", position=_PLACE, height_above_water_m=8.0, is_fixed=True, kind="beacon"
)
_LIMIT = DangerLimit(object_id="Beacon X", leg_number=2, least_m=m_from_nm(1 / 3), most_m=None)


def _edit(dialog: QDialog, label: str) -> QLineEdit:
    return next(e for e in dialog.findChildren(QLineEdit) if e.accessibleName() == label)


def _combo(dialog: QDialog, label: str) -> QComboBox:
    return next(e for e in dialog.findChildren(QComboBox) if e.accessibleName() == label)


def _trouble(dialog: QDialog) -> str:
    label = dialog.findChild(QLabel, "trouble")
    assert label is not None
    return label.text()


def test_a_mark_is_read_from_its_form(qtbot: QtBot) -> None:
    dialog = MarkDialog(None, _PLACE, frozenset({"taken"}))
    qtbot.addWidget(dialog)
    wrong = (
        ("", "beacon", "fixed", "", "Give the mark a name"),
        ("Taken", "beacon", "fixed", "", "There is already a mark called «Taken»"),
        ("N" * 61, "beacon", "fixed", "", "The name is longer than 60 letters"),
        ("N", "beacon", "fixed", "high", "Height above water: «high» is not a number."),
        ("N", "beacon", "fixed", "1001", "Height above water: 1001 is not between"),
        ("N", "red buoy", "fixed", "3", "A red buoy floats: choose floating"),
    )
    for name, kind, stands, height, words in wrong:
        _edit(dialog, "Name").setText(name)
        _combo(dialog, "Kind").setCurrentText(kind)
        _combo(dialog, "Fixed or floating").setCurrentText(stands)
        _edit(dialog, "Height above water, m").setText(height)
        dialog._try()
        assert dialog.mark is None
        assert _trouble(dialog).startswith(words)
    _combo(dialog, "Kind").setCurrentText("buoy")
    assert _combo(dialog, "Fixed or floating").currentText() == "floating"
    dialog._try()
    assert dialog.mark == Mark(
        name="N", position=_PLACE, height_above_water_m=3.0, is_fixed=False, kind="buoy"
    )
    _combo(dialog, "Kind").setCurrentText("harbour mouth")
    assert not _edit(dialog, "Height above water, m").isEnabled()


def test_a_limit_is_read_from_its_form(qtbot: QtBot) -> None:
    taken = frozenset({("a", None)})
    dialog = LimitDialog(None, ("A",), ("leg 1", "leg 2"), taken, object_id="A")
    qtbot.addWidget(dialog)
    least, most = _edit(dialog, "Not less than, NM"), _edit(dialog, "Not more than, NM")
    for low, high, words in (
        ("", "", "Give the least distance"),
        ("1", "0.5", "Not less than 1 is not below not more than 0.5."),
        ("near", "", "Not less than: «near» is not a number."),
        ("0.5", "", "There is already a limit off «A» on every leg"),
    ):
        least.setText(low)
        most.setText(high)
        dialog._try()
        assert dialog.limit is None
        assert _trouble(dialog).startswith(words)
    _combo(dialog, "On leg").setCurrentIndex(2)
    dialog._try()
    assert dialog.limit == DangerLimit(
        object_id="A", leg_number=2, least_m=m_from_nm(0.5), most_m=None
    )


def test_what_is_not_typed_anew_is_not_rounded(qtbot: QtBot) -> None:
    limit_form = LimitDialog(_LIMIT, (), ("leg 1", "leg 2"), frozenset())
    odd = replace(_MARK, position=Position(lat_deg=-30.123456789, lon_deg=-20.0))
    mark_form = MarkDialog(odd, None, frozenset())
    for dialog in (limit_form, mark_form):
        qtbot.addWidget(dialog)
        dialog._try()
    assert limit_form.limit == _LIMIT
    assert mark_form.mark == odd


def test_rows_say_what_a_mark_and_a_limit_are() -> None:
    place = replace(_MARK, kind="harbour mouth", height_above_water_m=0.0)
    rows = mark_rows((_MARK, place))
    assert rows[0].cells[2:] == ("beacon", "8.0 m", "fixed", "no")
    assert rows[1].cells[3:5] == ("–", "place in the water")
    assert limit_rows((_LIMIT,))[0].cells == ("Beacon X", "leg 2", "0.333 NM", "–", "")


def test_the_list_keeps_limits_with_their_mark(qtbot: QtBot) -> None:
    dialog = DrawnDialog((_MARK,), (_LIMIT,), ("A",), ("leg 1", "leg 2"))
    qtbot.addWidget(dialog)
    dialog.show()
    QTest.keyClick(dialog.mark_list, Qt.Key.Key_Delete)
    assert dialog.marks == (_MARK,)
    assert _trouble(dialog) == "«Beacon X» has a danger limit: take that out first."

    def rename(form: QDialog) -> None:
        _edit(form, "Name").setText("Beacon Y")
        QTest.keyClick(form, Qt.Key.Key_Return)

    when_open(MarkDialog, rename)
    QTest.keyClick(dialog.mark_list, Qt.Key.Key_Return)
    assert dialog.marks[0].name == "Beacon Y"
    assert dialog.limits == (replace(_LIMIT, object_id="Beacon Y"),)
    QTest.keyClick(dialog.limit_list, Qt.Key.Key_Delete)
    QTest.keyClick(dialog.mark_list, Qt.Key.Key_Delete)
    assert len(dialog.marks) == len(dialog.limits) == 0


@pytest.fixture
def routed(qtbot: QtBot, planned: MainWindow, document: Document, tmp_path: Path) -> MainWindow:
    """The window with a route that can be read, since limits count its legs."""
    path = tmp_path / "a.csv"
    path.write_text("name,lat,lon\nA,-30,-20\nB,-30.2,-20\nC,-30.2,-20.3\n")
    document.open_project(Project(route=path), None)
    qtbot.waitUntil(lambda: not document.job.is_running and document.passage is not None)
    return planned


def test_a_mark_and_a_limit_placed_in_the_area_are_a_step_each(
    qtbot: QtBot, routed: MainWindow, document: Document
) -> None:
    def name_it(form: QDialog) -> None:
        _edit(form, "Name").setText("Beacon X")
        QTest.keyClick(form, Qt.Key.Key_Return)

    when_open(MarkDialog, name_it)
    routed.panes.area.mark_asked.emit(_PLACE)
    qtbot.waitUntil(lambda: document.undo_stack.count() == 1)
    assert [mark.name for mark in marks_of(document.project)] == ["Beacon X"]
    qtbot.waitUntil(
        lambda: (
            routed.panes.area.pictures.scene is not None
            and len(routed.panes.area.pictures.scene.marks) == 1
        )
    )

    def limit_it(form: QDialog) -> None:
        _edit(form, "Not less than, NM").setText("0.4")
        QTest.keyClick(form, Qt.Key.Key_Return)

    when_open(LimitDialog, limit_it)
    routed.panes.area.limit_asked.emit("Beacon X")
    qtbot.waitUntil(lambda: document.undo_stack.count() == 2)
    (limit,) = limits_of(document.project)
    assert (limit.object_id, limit.leg_number) == ("Beacon X", 1)
    assert limit.least_m == pytest.approx(m_from_nm(0.4))
    qtbot.waitUntil(
        lambda: (
            routed.panes.area.pictures.scene is not None
            and len(routed.panes.area.pictures.scene.limits) == 1
        )
    )

    def empty(form: QDialog) -> None:
        assert isinstance(form, DrawnDialog)
        QTest.keyClick(form.limit_list, Qt.Key.Key_Delete)
        QTest.keyClick(form.mark_list, Qt.Key.Key_Delete)
        alt(form, Qt.Key.Key_O)

    when_open(DrawnDialog, empty)
    routed.actions_by_id["drawn"].trigger()
    qtbot.waitUntil(lambda: document.undo_stack.count() == 3)
    assert marks_of(document.project) == ()
    document.undo_stack.undo()
    assert limits_of(document.project) == (limit,)
