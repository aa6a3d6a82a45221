"""Land looked at and remembered, files dropped, steps and guide: the way from route to plan."""

import shutil
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QTimer, QUrl
from PySide6.QtGui import QDropEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLabel
from pytestqt.qtbot import QtBot

from app.state.document import Document
from app.state.notices import NoticeKind
from app.state.settings import GUIDE, Settings
from app.state.shelf_store import ShelfStore
from app.views.guide_bar import LINES
from app.views.steps_bar import StepsBar
from app.window.ask import Unsaved
from app.window.land_dialog import LandDialog
from app.window.land_places_dialog import LandPlacesDialog
from app.window.main_window import MainWindow
from core.files.land_shelf import Shelf, ShelfFile, file_stamp, read_shelf
from core.files.project import Project, write_project
from core.files.readers import read_passage
from core.geodesy.position import Bounds
from core.jobs.demo import demo_paths
from tests.helpers.sample_outcome import sample_outcome
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


def test_a_folder_without_land_is_told_and_not_added(
    qtbot: QtBot, window: MainWindow, document: Document, tmp_path: Path
) -> None:
    empty, broken = tmp_path / "empty", tmp_path / "broken"
    for folder in (empty, broken):
        folder.mkdir()
    (broken / "a.tif").write_bytes(b"not a raster")
    window.files.intake.take_land([empty, _land_folder(), broken])
    qtbot.waitUntil(lambda: bool(document.project.land), timeout=30_000)
    assert document.project.land == (_land_folder(),)
    told = " ".join(n.text for n in document.notices.waiting if n.kind is NoticeKind.TROUBLE)
    assert "empty: the folder holds no land data" in told
    assert "a.tif" in told
    _drop(window, empty)
    assert document.project.land == (_land_folder(),)


def test_land_in_use_is_taken_out_one_by_one(
    window: MainWindow, document: Document, tmp_path: Path
) -> None:
    # Of an older project: a folder without land blocks the plan until it is out.
    empty = tmp_path / "empty"
    empty.mkdir()
    land = (_land_folder(), empty, tmp_path / "gone")
    document.open_project(Project(land=land), None)
    rows: list[str] = []

    def answer() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, LandPlacesDialog)
        rows.extend(dialog.places.item(row).text() for row in range(dialog.places.count()))
        dialog.places.setCurrentRow(1)
        QTest.keyClick(dialog.places, Qt.Key.Key_Delete)
        dialog.accept()

    QTimer.singleShot(50, answer)
    window.actions_by_id["land_places"].trigger()
    assert document.project.land == (land[0], land[2])
    assert document.undo_stack.count() == 1
    assert "NO LAND DATA" in rows[1]
    assert "NOT THERE NOW" in rows[2]
    assert str(tmp_path) in rows[1]


def _shelf_file(path: Path, south: float) -> ShelfFile:
    """A coast file that covers a strip of sea off the sample's waters or in them."""
    path.write_text("{}", encoding="utf-8")
    size, changed_ns = file_stamp(path)
    area = Bounds(south_deg=south, west_deg=-180.0, north_deg=south + 5.0, east_deg=180.0)
    return ShelfFile(path=path, size=size, changed_ns=changed_ns, kind="coast", areas=(area,))


@pytest.fixture
def far_and_near(window: MainWindow, tmp_path: Path) -> tuple[Path, Path]:
    """Two files known: one of elsewhere, one of the waters of the sample."""
    far, near = tmp_path / "far.geojson", tmp_path / "near.geojson"
    first = sample_outcome().request.passage.waypoints[0].position.lat_deg
    files = (_shelf_file(far, -70.0), _shelf_file(near, first - 2.5))
    window.files.intake.store.put(Shelf(files=files))
    return far, near


def test_land_of_elsewhere_gives_way_to_land_of_these_waters(
    qtbot: QtBot, window: MainWindow, document: Document, far_and_near: tuple[Path, Path]
) -> None:
    far, near = far_and_near

    def assume() -> None:
        # As a computation does, which knows more of the passage than its route says.
        passage = document.passage
        if passage is not None and passage.name != "assumed":
            document.set_passage(replace(passage, name="assumed"))

    document.passage_changed.connect(assume)
    document.open_project(Project(route=Path("a.rtz"), land=(far,)), None)
    qtbot.waitUntil(lambda: document.project.land == (near,))
    assert "covers nothing of this passage" in document.notices.waiting[-1].text
    document.undo_stack.undo()
    assert document.project.land == (far,)
    assert not any("covers nothing" in n.text for n in document.notices.waiting)


def test_land_of_elsewhere_is_told_where_no_other_is_known(
    qtbot: QtBot, window: MainWindow, document: Document, far_and_near: tuple[Path, Path]
) -> None:
    far, _near = far_and_near
    store = window.files.intake.store
    store.put(store.shelf.below([far]))
    document.open_project(Project(route=Path("a.rtz"), land=(far,)), None)
    qtbot.waitUntil(lambda: bool(document.notices.waiting))
    assert document.notices.waiting[-1].text.startswith("None of this land covers this passage.")
    assert document.project.land == (far,)


def test_rows_of_the_same_name_are_told_apart_by_folder_and_area(
    qtbot: QtBot, window: MainWindow, stand_ins: StandIns, tmp_path: Path
) -> None:
    passage = sample_outcome().request.passage
    files = []
    for folder, south in (("north", 50.0), ("south", -70.0)):
        (tmp_path / folder).mkdir()
        files.append(_shelf_file(tmp_path / folder / "coast.geojson", south))
    store = ShelfStore(tmp_path / "shelf.json")
    store.put(Shelf(files=tuple(files)))
    dialog = LandDialog(store, stand_ins.jobs(), (), passage, 1852.0, window.files.ask, window)
    qtbot.addWidget(dialog)
    cells = [[item.text(0), item.text(1)[-5:], item.text(2)] for item in dialog._items()]
    tips = {item.toolTip(1) for item in dialog._items()}
    assert tips == {str(tmp_path / "north"), str(tmp_path / "south")}
    assert sorted(cells) == sorted(
        [
            ["coast.geojson", "north", "50° N to 55° N, 180° W to 180° E"],
            ["coast.geojson", "south", "70° S to 65° S, 180° W to 180° E"],
        ]
    )
    words = [label.text() for label in dialog.findChildren(QLabel)]
    assert "Nothing is ticked." in words
    assert not any("shelf" in text for text in words)
    dialog.reject()
