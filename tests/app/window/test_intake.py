"""Land looked at and remembered, files dropped, steps and guide: the way from route to plan."""

import shutil
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDropEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.state.document import Document
from app.state.notices import NoticeKind
from app.state.settings import GUIDE, Settings
from app.state.shelf_store import ShelfStore
from app.views.guide_bar import LINES
from app.views.steps_bar import StepsBar
from app.window.ask import Unsaved
from app.window.land_dialog import LandDialog
from app.window.main_window import MainWindow
from core.files.land_shelf import read_shelf
from core.files.project import Project, write_project
from core.files.readers import read_passage
from core.jobs.demo import demo_paths
from tests.helpers.window_jobs import StandIns


def _land_folder() -> Path:
    return demo_paths().land[0]


def _drop(window: MainWindow, *paths: Path) -> None:
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    event = QDropEvent(
        QPointF(20.0, 20.0), Qt.DropAction.CopyAction, data, Qt.MouseButton.LeftButton,
        Qt.KeyboardModifier.NoModifier,
    )  # fmt: skip
    window.dropEvent(event)


def test_all_inputs_dropped_at_once_are_one_step(
    qtbot: QtBot, window: MainWindow, document: Document
) -> None:
    paths = demo_paths()
    _drop(window, paths.route, _land_folder(), paths.ship, paths.marks, paths.limits)
    project = document.project
    assert project.route == paths.route
    assert project.land == (_land_folder(),)
    assert (project.ship, project.marks, project.limits) == (paths.ship, paths.marks, paths.limits)
    assert document.undo_stack.count() == 1
    qtbot.waitUntil(lambda: not window.job.is_busy, timeout=30_000)
    assert any("looked at and remembered" in n.text for n in document.notices.waiting)
    document.undo_stack.undo()
    assert document.project == Project()


def test_a_dropped_project_is_opened_and_only_alone(
    qtbot: QtBot, window: MainWindow, document: Document, tmp_path: Path
) -> None:
    path = tmp_path / "plan.legsheet"
    write_project(path, Project(route=demo_paths().route, land=demo_paths().land))
    _drop(window, path, demo_paths().ship)
    assert document.path is None
    assert document.notices.waiting[0].kind is NoticeKind.TROUBLE
    _drop(window, path)
    assert document.path == path
    qtbot.waitUntil(lambda: not window.job.is_busy, timeout=30_000)


def test_what_cannot_be_used_is_said_and_changes_nothing(
    window: MainWindow, document: Document, tmp_path: Path
) -> None:
    picture = tmp_path / "photo.png"
    picture.write_bytes(b"\x89PNG\r\n\x1a\n")
    _drop(window, picture)
    assert document.project == Project()
    assert "photo.png" in document.notices.waiting[0].text


def test_a_route_over_the_demo_takes_nothing_of_it(
    qtbot: QtBot, planned: MainWindow, document: Document
) -> None:
    _drop(planned, demo_paths().route)
    qtbot.waitUntil(lambda: not document.is_demo)
    assert document.project.land == ()
    assert document.project.ship is None
    qtbot.waitUntil(lambda: not planned.job.is_busy, timeout=30_000)


def test_a_route_over_an_edited_demo_is_taken_only_if_the_edits_may_go(
    qtbot: QtBot, planned: MainWindow, document: Document, monkeypatch: pytest.MonkeyPatch
) -> None:
    document.edit("remove land", replace(document.project, land=()))
    edited = document.project
    asked: list[Unsaved] = []

    def stay() -> Unsaved:
        asked.append(Unsaved.STAY)
        return Unsaved.STAY

    monkeypatch.setattr(planned.files.ask, "unsaved", stay)
    _drop(planned, demo_paths().route)
    qtbot.waitUntil(lambda: bool(asked))
    assert document.is_demo
    assert document.project is edited


def test_a_route_without_land_takes_what_the_shelf_has(
    qtbot: QtBot, qapp: QApplication, document: Document, settings: Settings, stand_ins: StandIns
) -> None:
    passage = read_passage(demo_paths().route).passage
    jobs = replace(stand_ins.jobs(), read_route=lambda _project: passage)
    settings.put(GUIDE, "seen")
    window = MainWindow(document, jobs, settings)
    window.files.intake.take_land([_land_folder()])
    qtbot.waitUntil(lambda: not window.job.is_busy, timeout=30_000)
    document.open_project(Project(route=demo_paths().route), None)
    qtbot.waitUntil(lambda: bool(document.project.land), timeout=30_000)
    assert {path.parent for path in document.project.land} == {_land_folder().resolve()}
    assert any("serves this passage" in n.text for n in document.notices.waiting)
    # Taken out again it stays out.
    document.undo_stack.undo()
    document.set_passage(passage)
    qtbot.waitUntil(lambda: not window.job.is_busy, timeout=30_000)
    assert document.project.land == ()
    document.undo_stack.setClean()
    window.close()
    qapp.setStyleSheet("")
    window.deleteLater()


def test_the_shelf_outlives_the_window(
    qtbot: QtBot, window: MainWindow, settings: Settings
) -> None:
    window.files.intake.take_land([_land_folder()])
    qtbot.waitUntil(lambda: not window.job.is_busy, timeout=30_000)
    kept = read_shelf(settings.folder / "land_shelf.json")
    assert {file.kind for file in kept.files} == {"elevation", "coast"}


def test_land_is_chosen_by_keyboard_among_files_known(
    qtbot: QtBot, window: MainWindow, stand_ins: StandIns, tmp_path: Path
) -> None:
    store = ShelfStore(tmp_path / "shelf.json")
    passage = read_passage(demo_paths().route).passage
    dialog = LandDialog(
        store, stand_ins.jobs(), (_land_folder(),), passage, 1852.0 * 6, window.files.ask, window
    )
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitUntil(lambda: len(dialog.ticked) >= 2, timeout=30_000)
    assert dialog.chosen is None
    dialog.table.setCurrentIndex(dialog.table.model().index(0, 0))
    dialog.table.setFocus()
    QTest.keyClick(dialog.table, Qt.Key.Key_Space)
    assert dialog.chosen == dialog.ticked
    assert len(dialog.ticked) == len(store.shelf.files) - 1
    dialog.tick_what_fits()
    assert len(dialog.ticked) == len(store.shelf.files)
    dialog.reject()


def test_land_unticked_stays_so_when_more_is_added(
    qtbot: QtBot,
    window: MainWindow,
    stand_ins: StandIns,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    store = ShelfStore(tmp_path / "shelf.json")
    dialog = LandDialog(
        store, stand_ins.jobs(), (_land_folder(),), None, 1852.0 * 6, window.files.ask, window
    )
    qtbot.addWidget(dialog)
    qtbot.waitUntil(lambda: len(dialog.ticked) >= 2, timeout=30_000)
    before, count = dialog.ticked, len(store.shelf.files)
    first = dialog.table.topLevelItem(0)
    assert first is not None
    first.setCheckState(0, Qt.CheckState.Unchecked)
    kept = dialog.ticked
    more = tmp_path / "more"
    shutil.copytree(_land_folder(), more)
    monkeypatch.setattr(window.files.ask, "folder", lambda _title: more)
    dialog.add_folder()
    qtbot.waitUntil(lambda: len(store.shelf.files) > count, timeout=30_000)
    assert set(kept) <= set(dialog.ticked)
    assert not (set(before) - set(kept)) & set(dialog.ticked)
    # Asked for once more, what is listed already is ticked again.
    monkeypatch.setattr(window.files.ask, "folder", lambda _title: _land_folder())
    dialog.add_folder()
    qtbot.waitUntil(lambda: set(before) <= set(dialog.ticked), timeout=30_000)
    dialog.reject()


def test_the_step_to_do_next_is_framed(
    qtbot: QtBot, window: MainWindow, document: Document, stand_ins: StandIns
) -> None:
    steps = window.findChild(StepsBar)
    assert isinstance(steps, StepsBar)

    def following() -> list[str]:
        return [name for name, button in steps.buttons.items() if button.property("next")]

    assert following() == ["open_route"]
    document.edit("type", replace(document.project, route_text="A 1N 2W\nB 2N 2W\n"))
    qtbot.waitUntil(lambda: not window.job.is_busy, timeout=30_000)
    assert following() == ["add_land_folder"]
    assert steps.buttons["open_route"].text().startswith("1 Route:")
    document.edit("land", replace(document.project, land=(Path("somewhere"),)))
    assert following() == ["compute"]
    assert steps.buttons["add_land_folder"].text() == "2 Land: somewhere"
    steps.buttons["compute"].click()
    qtbot.waitUntil(lambda: document.outcome is not None, timeout=30_000)
    assert following() == []
    assert steps.buttons["compute"].text() == "4 Computed"


def test_the_guide_has_five_lines_and_stays_closed(
    qtbot: QtBot, window: MainWindow, settings: Settings
) -> None:
    assert len(LINES) == 5
    assert GUIDE.default == "show"
    window.actions_by_id["guide"].trigger()
    assert window.guide.isVisible()
    window.files.open_demo()
    assert window.guide.isVisible()
    window.guide.closed.emit()
    assert not window.guide.isVisible()
    assert settings.get(GUIDE) == "seen"
    window.actions_by_id["guide"].trigger()
    assert window.guide.isVisible()


def test_the_guide_makes_room_for_a_passage_of_ones_own(
    qtbot: QtBot, window: MainWindow, document: Document
) -> None:
    window.actions_by_id["guide"].trigger()
    _drop(window, demo_paths().route)
    qtbot.waitUntil(lambda: document.passage is not None)
    assert not window.guide.isVisible()
