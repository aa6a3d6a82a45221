"""A route is read before anything changes, and never slips into a project of another one."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication, QLabel, QPlainTextEdit
from pytestqt.qtbot import QtBot

from app.paint.qt_setup import load_fonts
from app.state.document import Document
from app.state.notices import NoticeKind
from app.state.settings import GUIDE, Settings
from app.window import route_actions
from app.window.ask import Unsaved
from app.window.main_window import MainWindow
from app.window.route_dialog import RouteDialog
from app.window.route_question import Where
from core.files.copy_mark import CopyMark
from core.files.project import Options, Project, read_project, write_project
from core.jobs.demo import demo_paths
from core.jobs.edit_project import passage_to_edit
from tests.helpers.window_jobs import StandIns

_GOOD = "name,lat,lon\nA,1N,2W\nB,2N,2W\n"
_OTHER = "name,lat,lon\nC,3N,2W\nD,4N,2W\nE,4N,3W\n"


@pytest.fixture
def reading(
    qtbot: QtBot, qapp: QApplication, document: Document, settings: Settings, stand_ins: StandIns
) -> Iterator[MainWindow]:
    """A window that reads routes as the program does."""
    qapp.setStyle("Fusion")
    load_fonts()
    settings.put(GUIDE, "seen")
    made = MainWindow(document, replace(stand_ins.jobs(), read_route=passage_to_edit), settings)
    made.show()
    yield made
    document.undo_stack.setClean()
    made.close()
    qapp.setStyleSheet("")
    made.deleteLater()


@pytest.fixture
def saved(qtbot: QtBot, reading: MainWindow, document: Document, tmp_path: Path) -> Path:
    """A project with a path, open in the window."""
    route = tmp_path / "old.csv"
    route.write_text(_GOOD, encoding="utf-8")
    path = tmp_path / "old.legsheet"
    options = Options(tide_m=2.0, mean_sea_level_m=2.0, fix_interval_s=180.0)
    write_project(path, Project(route=route, ship=demo_paths().ship, options=options))
    reading.files.open_path(path)
    qtbot.waitUntil(lambda: document.passage is not None)
    return path


def _write(folder: Path, name: str, text: str) -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def _open(window: MainWindow, path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(window.files.ask, "file", lambda *_words: path)
    window.actions_by_id["open_route"].trigger()


def _title(window: MainWindow) -> str:
    return window.findChildren(QLabel, "passage_title")[0].text()


def _told(document: Document, kind: NoticeKind) -> str:
    return " ".join(notice.text for notice in document.notices.waiting if notice.kind is kind)


def test_another_route_leaves_the_saved_project_as_it_is(
    qtbot: QtBot,
    reading: MainWindow,
    document: Document,
    saved: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    before = read_project(saved)
    _open(reading, _write(tmp_path, "new.csv", _OTHER), monkeypatch)
    qtbot.waitUntil(lambda: document.path is None)
    qtbot.waitUntil(lambda: document.leg_count == 2)
    project = document.project
    assert project.route == tmp_path / "new.csv"
    assert project.ship == before.ship
    assert project.options == Options(fix_interval_s=180.0), "a tide is of one voyage"
    assert "not saved yet" in _told(document, NoticeKind.CHECK)
    # Saving asks for a name of its own.
    assert "not saved as a project" in _title(reading)
    target = tmp_path / "new.legsheet"
    monkeypatch.setattr(reading.files.ask, "target", lambda *_words: target)
    reading.actions_by_id["save"].trigger()
    assert read_project(saved) == before
    assert read_project(target).route == project.route
    assert "new.legsheet" in _title(reading)


def test_edits_not_saved_are_asked_about_first(
    qtbot: QtBot,
    reading: MainWindow,
    document: Document,
    saved: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    document.set_options(Options())
    asked: list[str] = []

    def stay() -> Unsaved:
        asked.append("unsaved")
        return Unsaved.STAY

    monkeypatch.setattr(reading.files.ask, "unsaved", stay)
    _open(reading, _write(tmp_path, "new.csv", _OTHER), monkeypatch)
    qtbot.waitUntil(lambda: bool(asked))
    assert document.path == saved
    assert document.project.options == Options()
    reading.actions_by_id["new_passage"].trigger()
    assert document.path == saved
    monkeypatch.setattr(reading.files.ask, "unsaved", lambda: Unsaved.DROP)
    reading.actions_by_id["new_passage"].trigger()
    assert document.path is None
    assert document.project == Project(ship=demo_paths().ship)
    assert document.passage is None


def test_the_same_file_written_anew_is_read_again_in_its_place(
    qtbot: QtBot,
    reading: MainWindow,
    document: Document,
    saved: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    before = document.project
    _open(reading, tmp_path / "old.csv", monkeypatch)
    qtbot.waitUntil(lambda: "as it was read before" in _told(document, NoticeKind.DONE))
    _write(tmp_path, "old.csv", _OTHER)
    _open(reading, tmp_path / "old.csv", monkeypatch)
    qtbot.waitUntil(lambda: document.leg_count == 2)
    assert "read again" in _told(document, NoticeKind.CHECK)
    assert (document.path, document.project) == (saved, before)


def test_a_route_of_the_same_name_is_asked_about(
    qtbot: QtBot,
    reading: MainWindow,
    document: Document,
    saved: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    (tmp_path / "again").mkdir()
    path = _write(tmp_path / "again", "old.csv", _OTHER)
    answers = [Where.NOWHERE, Where.IN_PLACE]
    monkeypatch.setattr(route_actions, "ask_where", lambda _window, _name: answers.pop(0))
    _open(reading, path, monkeypatch)
    qtbot.waitUntil(lambda: len(answers) == 1)
    assert document.leg_count == 1
    _open(reading, path, monkeypatch)
    qtbot.waitUntil(lambda: document.leg_count == 2)
    assert document.path == saved
    assert document.undo_stack.count() == 1
    document.undo_stack.undo()
    assert document.project.route == tmp_path / "old.csv"


def test_a_route_leaves_a_read_only_copy(
    qtbot: QtBot,
    reading: MainWindow,
    document: Document,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    path = tmp_path / "copy.legsheet"
    mark = CopyMark(by="2/O A. Example", made_utc="2031-05-14T06:00:00Z", of="plan.legsheet")
    write_project(path, Project(route_text=_GOOD, read_only_copy=mark))
    reading.files.open_path(path)
    assert document.standing.read_only
    _open(reading, _write(tmp_path, "new.csv", _OTHER), monkeypatch)
    qtbot.waitUntil(lambda: document.path is None)
    assert not document.standing.read_only
    assert document.project.route == tmp_path / "new.csv"


@pytest.mark.parametrize(
    ("name", "text"), [("junk.gpx", "no route"), ("one.csv", "name,lat,lon\nA,1N,2W\n")]
)
def test_what_is_no_route_changes_nothing(
    qtbot: QtBot,
    reading: MainWindow,
    document: Document,
    saved: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    name: str,
    text: str,
) -> None:
    before, passage = document.project, document.passage
    path = _write(tmp_path, name, text)
    _open(reading, path, monkeypatch)
    qtbot.waitUntil(lambda: name in _told(document, NoticeKind.TROUBLE))
    assert (document.path, document.project, document.passage) == (saved, before, passage)
    document.notices.clear(NoticeKind.TROUBLE)
    reading.actions_by_id["open_project"].trigger()
    qtbot.waitUntil(
        lambda: f"{name}: this is neither a project nor" in _told(document, NoticeKind.TROUBLE)
    )
    assert (document.path, document.project, document.passage) == (saved, before, passage)


def test_what_is_typed_wrong_is_said_in_the_dialog_that_stays(
    qtbot: QtBot, reading: MainWindow, document: Document
) -> None:
    seen: list[str] = []

    def answer() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, RouteDialog)
        text = dialog.findChildren(QPlainTextEdit)[0]
        text.setPlainText("A, 95, 2\nB, 3, 4")
        dialog.accept()
        assert dialog.isVisible()
        seen.append(dialog.findChildren(QLabel, "trouble")[0].text())
        text.setPlainText("A, 5, 2\nB, 3, 4")
        dialog.accept()

    def take_it() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, RouteDialog)
        dialog.accept()

    QTimer.singleShot(50, answer)
    reading.actions_by_id["type_route"].trigger()
    assert "95" in seen[0]
    assert document.project.route_text == "A, 5, 2\nB, 3, 4"
    # Typed on, it is the same passage: one step.
    QTimer.singleShot(50, take_it)
    count = document.undo_stack.count()
    reading.actions_by_id["type_route"].trigger()
    assert document.undo_stack.count() == count


def test_nothing_computed_for_the_passage_before_comes_into_the_next(
    qtbot: QtBot, planned: MainWindow, document: Document, stand_ins: StandIns
) -> None:
    stand_ins.gate.clear()
    planned.actions_by_id["compute"].trigger()
    planned.actions_by_id["new_passage"].trigger()
    stand_ins.gate.set()
    qtbot.waitUntil(lambda: not document.job.is_running)
    assert document.outcome is None
    assert document.project == Project()
    assert document.project_to_keep.known_objects == ()


def test_a_ship_file_that_cannot_be_read_takes_no_place(
    qtbot: QtBot,
    reading: MainWindow,
    document: Document,
    saved: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    before = document.project
    bad = _write(tmp_path, "bad.toml", "this is no ship file")
    monkeypatch.setattr(reading.files.ask, "file", lambda *_words: bad)
    reading.actions_by_id["open_ship"].trigger()
    qtbot.waitUntil(lambda: "bad.toml" in _told(document, NoticeKind.TROUBLE))
    assert document.project == before
    marks = demo_paths().marks
    monkeypatch.setattr(reading.files.ask, "file", lambda *_words: marks)
    reading.actions_by_id["open_marks"].trigger()
    qtbot.waitUntil(lambda: document.project.marks == marks)
    assert _told(document, NoticeKind.TROUBLE) == "", "its cause is gone"
