from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt, QTimer
from PySide6.QtGui import QStatusTipEvent, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QLabel, QProgressBar, QPushButton
from pytestqt.qtbot import QtBot

from app.state.document import Document
from app.state.settings import PALETTE, Settings
from app.window.ask import Unsaved
from app.window.choice_dialog import ChoiceDialog
from app.window.main_window import CAUTION, MainWindow
from app.window.plugged_jobs import real_jobs
from app.window.sheets_dialog import SheetsDialog
from core.base.errors import InputError
from core.base.progress import Quiet
from core.files.project import Options, read_project
from core.jobs.demo import demo_paths
from core.plan.plan_result import Override
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.window_jobs import DEMO, StandIns


def _key(qtbot: QtBot, window: MainWindow, key: Qt.Key, *held: Qt.KeyboardModifier) -> None:
    modifiers = Qt.KeyboardModifier.NoModifier
    for modifier in held:
        modifiers |= modifier
    target = QApplication.focusWidget() or window
    QTest.keyClick(target, key, modifiers)


_ALT, _CTRL = Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.ControlModifier


def test_the_caution_and_the_invented_passage_are_in_view(planned: MainWindow) -> None:
    words = [label.text() for label in planned.findChildren(QLabel) if label.isVisible()]
    assert CAUTION in words
    assert any("INVENTED" in word for word in words)


@pytest.mark.parametrize(("width", "height"), [(1366, 768), (1440, 900)])
def test_the_strip_is_the_tallest_pane_and_in_the_middle(
    qtbot: QtBot, planned: MainWindow, width: int, height: int
) -> None:
    planned.resize(width, height)
    qtbot.waitUntil(lambda: planned.panes.strip.is_current)
    panes = planned.panes
    heights = [w.height() for w in (panes.area, panes.tables, panes.findings)]
    assert panes.strip.height() > max(heights)
    assert panes.strip.width() * panes.strip.height() > panes.area.width() * panes.area.height()
    assert panes.strip.height() > 0.7 * height
    assert panes.legs.mapToGlobal(QPoint()).x() < panes.strip.mapToGlobal(QPoint()).x()
    assert panes.strip.mapToGlobal(QPoint()).x() < panes.area.mapToGlobal(QPoint()).x()
    assert planned.width() == width
    assert planned.height() == height


def test_legs_and_own_ship_go_by_keys(
    qtbot: QtBot, planned: MainWindow, document: Document
) -> None:
    planned.activateWindow()
    qtbot.waitUntil(planned.isActiveWindow)
    _key(qtbot, planned, Qt.Key.Key_Down, _CTRL)
    assert document.leg_index == 1
    assert planned.panes.legs.currentIndex().row() == 1
    _key(qtbot, planned, Qt.Key.Key_Up, _ALT)
    first = document.cursor_along_m
    assert first > 0.0
    _key(qtbot, planned, Qt.Key.Key_End, _ALT)
    assert document.cursor_along_m == document.leg_length_m()
    _key(qtbot, planned, Qt.Key.Key_Home, _ALT)
    assert document.cursor_along_m == 0.0
    planned.panes.strip.setFocus()
    QTest.keyClick(planned.panes.strip, Qt.Key.Key_Up)
    assert document.cursor_along_m == first
    _key(qtbot, planned, Qt.Key.Key_Up, _CTRL)
    assert document.leg_index == 0


def test_one_key_goes_round_all_panes(qtbot: QtBot, planned: MainWindow) -> None:
    planned.activateWindow()
    qtbot.waitUntil(planned.isActiveWindow)
    panes = planned.panes
    panes.legs.setFocus()
    seen = []
    for _ in range(5):
        _key(qtbot, planned, Qt.Key.Key_F6)
        seen.append(QApplication.focusWidget())
    assert seen == [
        panes.strip,
        panes.area,
        panes.tables.currentWidget(),
        panes.findings,
        panes.legs,
    ]


def test_dragging_on_the_strip_takes_own_ship_along(
    qtbot: QtBot, planned: MainWindow, document: Document
) -> None:
    strip = planned.panes.strip
    middle = strip.width() // 2
    QTest.mousePress(strip, Qt.MouseButton.LeftButton, pos=QPoint(middle, strip.height() // 2))
    at_middle = document.cursor_along_m
    QTest.mouseMove(strip, QPoint(middle, strip.height() // 3))
    qtbot.waitUntil(lambda: document.cursor_along_m > at_middle)
    QTest.mouseRelease(strip, Qt.MouseButton.LeftButton, pos=QPoint(middle, 5))
    assert 0.0 < at_middle < document.leg_length_m()
    words = planned.panes.readout.words
    assert "to go" in words[0]


def test_a_finding_leads_to_its_leg(qtbot: QtBot, planned: MainWindow, document: Document) -> None:
    findings = planned.panes.findings
    findings.selectRow(0)
    findings.setFocus()
    findings.activated.emit(findings.model().index(0, 0))
    assert document.leg_index == 2


def test_a_click_in_the_area_chooses_the_leg_and_a_drag_does_not(
    qtbot: QtBot, planned: MainWindow, document: Document
) -> None:
    area = planned.panes.area
    qtbot.waitUntil(lambda: area.is_ready)
    place = area.pixel_of_leg(2)
    QTest.mouseClick(area, Qt.MouseButton.LeftButton, pos=place)
    assert document.leg_index == 2
    QTest.mousePress(area, Qt.MouseButton.LeftButton, pos=place)
    for step in range(1, 6):
        QTest.mouseMove(area, place + QPoint(10 * step, 0))
    QTest.mouseRelease(area, Qt.MouseButton.LeftButton, pos=place + QPoint(50, 0))
    moved = area.pixel_of_leg(2) - place
    assert document.leg_index == 2
    assert moved.x() == pytest.approx(50, abs=3)


def test_the_wheel_comes_nearer_round_the_mouse(qtbot: QtBot, planned: MainWindow) -> None:
    area = planned.panes.area
    qtbot.waitUntil(lambda: area.is_ready)
    before, place = area.m_per_px, area.pixel_of_leg(1)
    event = QWheelEvent(
        QPointF(place),
        QPointF(area.mapToGlobal(place)),
        QPoint(),
        QPoint(0, 120),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(area, event)
    assert area.m_per_px == pytest.approx(0.8 * before)
    assert (area.pixel_of_leg(1) - place).manhattanLength() <= 3
    QTest.keyClick(area, Qt.Key.Key_Minus)
    assert area.m_per_px == pytest.approx(before)


def test_a_plan_is_computed_with_a_progress_line_and_can_be_stopped(
    qtbot: QtBot, window: MainWindow, document: Document, stand_ins: StandIns
) -> None:
    stand_ins.gate.clear()
    window.files.open_demo()
    bar = window.findChild(QProgressBar)
    assert isinstance(bar, QProgressBar)
    qtbot.waitUntil(lambda: bar.isVisible() and bar.value() > 0)
    stop = next(b for b in window.findChildren(QPushButton) if b.text().startswith("Stop"))
    QTest.mouseClick(stop, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: not document.job.is_running)
    assert not bar.isVisible()
    assert document.outcome is None


def test_trouble_is_a_notice_in_the_window_and_a_key_dismisses_it(
    qtbot: QtBot, window: MainWindow, document: Document, stand_ins: StandIns
) -> None:
    stand_ins.error = InputError("the file is empty", where="a.rtz", todo="Open another one")
    window.files.open_demo()
    qtbot.waitUntil(lambda: bool(document.notices.waiting))
    words = [label.text() for label in window.findChildren(QLabel) if label.isVisible()]
    assert "a.rtz: the file is empty. Open another one." in words
    window.actions_by_id["dismiss"].trigger()
    assert not document.notices.waiting


def test_an_edit_marks_the_plan_out_of_date_until_it_is_undone(
    planned: MainWindow, document: Document
) -> None:
    def said() -> bool:
        return any(
            "OUT OF DATE" in label.text()
            for label in planned.findChildren(QLabel)
            if label.isVisible()
        )

    assert not said()
    document.set_options(Options(refraction_k=1.2))
    assert said()
    assert planned.isWindowModified()
    planned.actions_by_id["undo"].trigger()
    assert not said()
    planned.actions_by_id["redo"].trigger()
    assert said()


def test_another_object_can_be_chosen_and_left_to_the_plan_again(
    qtbot: QtBot, planned: MainWindow, document: Document
) -> None:
    def answer() -> None:
        dialog = next(w for w in QApplication.topLevelWidgets() if isinstance(w, ChoiceDialog))
        dialog.findChildren(QPushButton)
        dialog.accept()

    QTimer.singleShot(50, answer)
    planned.choose_object()
    assert document.project.overrides == (
        Override(leg_number=1, role="primary", object_id="A", is_locked=True, remark=""),
    )

    def leave() -> None:
        dialog = next(w for w in QApplication.topLevelWidgets() if isinstance(w, ChoiceDialog))
        free = next(b for b in dialog.findChildren(QPushButton) if "plan" in b.text())
        assert free.isEnabled()
        free.click()

    QTimer.singleShot(50, leave)
    planned.choose_object()
    assert not document.project.overrides


def test_a_project_is_saved_and_opens_with_the_same_inputs(
    qtbot: QtBot,
    planned: MainWindow,
    document: Document,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    document.set_options(Options(refraction_k=1.2))
    target = tmp_path / "a.legsheet"
    monkeypatch.setattr(planned.files.ask, "target", lambda *_args: target)
    assert planned.files.save()
    assert not document.is_modified
    saved = read_project(target)
    assert saved.options == Options(refraction_k=1.2)
    planned.files.open_path(target)
    assert document.standing.is_old, "a plan of before is not computed again by itself"
    planned.actions_by_id["compute"].trigger()
    qtbot.waitUntil(lambda: document.outcome is not None)
    assert document.project == saved
    assert document.path == target
    assert not document.is_demo


def test_a_broken_project_leaves_what_is_open(
    planned: MainWindow, document: Document, tmp_path: Path
) -> None:
    broken = tmp_path / "b.legsheet"
    broken.write_text("{", encoding="utf-8")
    planned.files.open_path(broken)
    assert document.outcome is sample_outcome()
    assert len(document.notices.waiting) == 1


def test_an_export_is_written_by_the_worker_and_told(
    qtbot: QtBot,
    planned: MainWindow,
    document: Document,
    stand_ins: StandIns,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(planned.files.ask, "target", lambda *_args: tmp_path / "x.json")
    planned.actions_by_id["export_json"].trigger()
    qtbot.waitUntil(lambda: bool(document.notices.waiting))
    assert stand_ins.exports == [("json", tmp_path / "x.json")]
    assert document.notices.waiting[0].text.startswith("Written: ")


def test_both_files_of_the_tables_are_told(
    qtbot: QtBot,
    planned: MainWindow,
    document: Document,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(planned.files.ask, "target", lambda *_args: tmp_path / "x.csv")
    planned.actions_by_id["export_csv"].trigger()
    qtbot.waitUntil(lambda: bool(document.notices.waiting))
    assert document.notices.waiting[0].text == (
        f"Written: {tmp_path / 'x.csv'} and x-wheelover.csv."
    )
    written = real_jobs().write_export(sample_outcome(), "csv", tmp_path / "y.csv", Quiet())
    assert sorted(tmp_path.glob("y*")) == sorted(written)
    assert len(written) == 2


def test_the_status_line_keeps_clear_of_the_caution_and_of_the_leg_before(
    planned: MainWindow, document: Document
) -> None:
    bar, caution = planned.statusBar(), planned._caution
    tip = "What this is and where it stands, in many words. " * 5
    for say in (planned.say, lambda words: QApplication.sendEvent(planned, QStatusTipEvent(words))):
        say(tip)
        shown = bar.currentMessage()
        assert shown.endswith("…")
        assert bar.fontMetrics().horizontalAdvance(shown) < caution.x() - 10
        assert bar.toolTip() == tip
        say("Few words")
        assert bar.currentMessage() == "Few words"
        assert bar.toolTip() == ""
    planned.panes.area.place_shown.emit("Here the pointer was")
    assert bar.currentMessage() == "Here the pointer was"
    document.set_leg(1)
    assert "pointer" not in bar.currentMessage()


def test_a_typed_route_does_not_inherit_the_demo(
    qtbot: QtBot, planned: MainWindow, document: Document, monkeypatch: pytest.MonkeyPatch
) -> None:
    def answer() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, QDialog)
        from PySide6.QtWidgets import QPlainTextEdit

        dialog.findChildren(QPlainTextEdit)[0].setPlainText("A, 1, 2\nB, 3, 4")
        dialog.accept()

    QTimer.singleShot(50, answer)
    planned.files.routes.type_route()
    assert document.project.route_text.startswith("A, 1, 2")
    assert document.project.land == ()
    assert document.outcome is None
    qtbot.waitUntil(lambda: document.passage is not None)


def test_land_is_added_once_and_can_be_taken_out(
    qtbot: QtBot, planned: MainWindow, document: Document, monkeypatch: pytest.MonkeyPatch
) -> None:
    land = demo_paths().land[0]
    monkeypatch.setattr(planned.files.ask, "files", lambda *_args: [land, land, DEMO.land[0]])
    planned.actions_by_id["add_land"].trigger()
    qtbot.waitUntil(lambda: document.project == replace(DEMO, land=(*DEMO.land, land)))
    planned.actions_by_id["clear_land"].trigger()
    assert document.project.land == ()
    assert document.undo_stack.count() == 2


@pytest.mark.parametrize(
    ("answer", "is_closed"), [(Unsaved.STAY, False), (Unsaved.DROP, True), (Unsaved.SAVE, True)]
)
def test_closing_asks_about_edits_that_are_not_saved(
    planned: MainWindow,
    document: Document,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    answer: Unsaved,
    is_closed: bool,
) -> None:
    document.set_options(Options(refraction_k=1.2))
    monkeypatch.setattr(planned.files.ask, "unsaved", lambda: answer)
    monkeypatch.setattr(planned.files.ask, "target", lambda *_args: tmp_path / "c.legsheet")
    assert planned.close() is is_closed
    assert (tmp_path / "c.legsheet").exists() is (answer is Unsaved.SAVE)


def test_closing_while_computing_stops_and_waits(
    qtbot: QtBot, window: MainWindow, document: Document, stand_ins: StandIns
) -> None:
    stand_ins.gate.clear()
    window.files.open_demo()
    qtbot.waitUntil(lambda: document.job.fraction > 0.0)
    assert window.close()
    assert stand_ins.planned == 0
    assert not document.job.is_running


def test_the_light_is_remembered(planned: MainWindow, settings: Settings) -> None:
    assert planned.light.name == "day"
    planned.actions_by_id["light"].trigger()
    planned.actions_by_id["light"].trigger()
    assert planned.light.name == "night"
    assert settings.get(PALETTE) == "night"
    planned.actions_by_id["light"].trigger()
    assert planned.light.name == "day"


def test_the_sheets_are_made_by_the_worker_and_shown_in_the_colours_of_the_window(
    qtbot: QtBot, planned: MainWindow
) -> None:
    seen: list[tuple[int, str]] = []

    def look() -> None:
        dialog = QApplication.activeModalWidget()
        if not isinstance(dialog, SheetsDialog) or dialog.view.image is None:
            QTimer.singleShot(20, look)
            return
        seen.append((len(dialog.view.pages), dialog.view.pages[0].name))
        dialog.accept()

    planned.actions_by_id["preview"].trigger()
    look()
    qtbot.waitUntil(lambda: bool(seen))
    assert seen[0][0] >= 3
