"""Waypoints moved, put in and taken out in the area view, by mouse and by keys."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.paint.palette import DAY
from app.paint.qt_setup import load_fonts
from app.state.document import Document
from app.views.area_measure import between_words, key_step, stepped
from app.views.area_view import AreaView
from core.base.units import m_from_nm
from core.files.project import Project
from core.geodesy.leg_line import LegKind, LegLine
from core.geodesy.position import Position
from tests.helpers.frame_times import FRAME_MS, frame_times_ms, median_ms
from tests.helpers.sample_outcome import sample_outcome

_ROUTE = Project(route_text="any")


@pytest.fixture
def area(qtbot: QtBot, qapp: QApplication, document: Document) -> Iterator[AreaView]:
    load_fonts()
    outcome = sample_outcome()
    document.open_project(_ROUTE, None)
    document.take_line(_ROUTE, outcome.request.passage)
    document.set_outcome(outcome, _ROUTE)
    view = AreaView(document, DAY)
    view.resize(640, 480)
    view.show()
    qtbot.waitUntil(lambda: view.is_ready)
    view.setFocus()
    yield view
    view.close_threads()
    view.close()
    view.deleteLater()


def _names(document: Document) -> list[str]:
    assert document.passage is not None
    return [w.name for w in document.passage.waypoints]


def _position(document: Document, index: int) -> Position:
    assert document.passage is not None
    return document.passage.waypoints[index].position


def _drag(view: AreaView, start: QPoint, end: QPoint) -> None:
    QTest.mousePress(view, Qt.MouseButton.LeftButton, pos=start)
    QTest.mouseMove(view, (start + end) / 2)
    QTest.mouseMove(view, end)


def test_a_dragged_waypoint_is_one_step_and_tells_its_legs_on_the_way(
    area: AreaView, document: Document
) -> None:
    names, before = _names(document), [_position(document, i) for i in range(4)]
    start = area.pixel_of_waypoint(1)
    end = start + QPoint(40, 0)
    _drag(area, start, end)
    words = area.tools.words(area.m_per_px)
    assert words[1].startswith("Leg 1: ")
    assert words[2].startswith("Leg 2: ")
    assert "was" in words[1]
    assert document.undo_stack.count() == 0, "nothing is edited until it is let go"
    QTest.mouseRelease(area, Qt.MouseButton.LeftButton, pos=end)
    assert document.undo_stack.count() == 1
    assert _names(document) == names
    moved = [i for i in range(4) if _position(document, i) != before[i]]
    assert [i for i in moved if _apart_m(_position(document, i), before[i]) > 1.0] == [1]
    went_m = _apart_m(before[1], _position(document, 1))
    assert went_m == pytest.approx(40 * area.m_per_px, rel=0.02)
    document.undo_stack.undo()
    assert _position(document, 1) == before[1]
    assert document.outcome is not None


def _apart_m(one: Position, other: Position) -> float:
    return LegLine(kind=LegKind.GEODESIC, start=one, end=other).length_m


def test_a_plan_that_comes_during_a_drag_leaves_the_waypoint_in_the_hand(
    area: AreaView, document: Document
) -> None:
    start = area.pixel_of_waypoint(1)
    end = start + QPoint(40, 0)
    _drag(area, start, end)
    document.set_outcome(sample_outcome(), _ROUTE)
    assert area.tools.moved_to is not None
    QTest.mouseRelease(area, Qt.MouseButton.LeftButton, pos=end)
    assert document.undo_stack.count() == 1
    _drag(area, start, end)
    document.undo_stack.undo()
    assert area.tools.moved_to is None, "but what it was moved from is gone"
    QTest.mouseRelease(area, Qt.MouseButton.LeftButton, pos=end)
    assert document.undo_stack.count() == 1
    assert not document.undo_stack.canUndo()


def test_escape_lets_go_of_a_drag(area: AreaView, document: Document) -> None:
    start = area.pixel_of_waypoint(1)
    _drag(area, start, start + QPoint(40, 30))
    QTest.keyClick(area, Qt.Key.Key_Escape)
    QTest.mouseRelease(area, Qt.MouseButton.LeftButton, pos=start + QPoint(40, 30))
    assert area.tools.moved_to is None
    assert document.undo_stack.count() == 0


def test_arrow_keys_move_a_chosen_waypoint_by_the_stated_step_in_one_edit(
    area: AreaView, document: Document
) -> None:
    before = _position(document, 1)
    QTest.keyClick(area, Qt.Key.Key_PageDown)
    assert area.tools.chosen == 0
    QTest.keyClick(area, Qt.Key.Key_PageDown)
    assert area.tools.chosen == 1
    step = key_step(area.m_per_px)
    assert f"{step.coarse_m / 1852.0:g} NM" in area.tools.words(area.m_per_px)[1]
    for _ in range(3):
        QTest.keyClick(area, Qt.Key.Key_Right)
    QTest.keyClick(area, Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier)
    assert document.undo_stack.count() == 0
    assert "NOT SET" in area.tools.words(area.m_per_px)[-1]
    QTest.keyClick(area, Qt.Key.Key_Return)
    assert document.undo_stack.count() == 1
    wanted_m = 3 * step.coarse_m + step.fine_m
    assert _apart_m(before, _position(document, 1)) == pytest.approx(wanted_m, abs=0.01)
    assert _position(document, 1).lon_deg > before.lon_deg
    QTest.keyClick(area, Qt.Key.Key_Up)
    QTest.keyClick(area, Qt.Key.Key_Escape)
    QTest.keyClick(area, Qt.Key.Key_Return)
    assert document.undo_stack.count() == 1


def test_insert_and_delete_by_keys(area: AreaView, document: Document) -> None:
    names = _names(document)
    for _ in range(2):
        QTest.keyClick(area, Qt.Key.Key_PageDown)
    QTest.keyClick(area, Qt.Key.Key_Insert)
    assert len(_names(document)) == 5
    assert area.tools.chosen == 2
    assert [n for i, n in enumerate(_names(document)) if i != 2] == names
    QTest.keyClick(area, Qt.Key.Key_Delete)
    assert _names(document) == names
    assert document.undo_stack.count() == 2
    QTest.keyClick(area, Qt.Key.Key_PageUp)
    assert area.tools.chosen == 0
    QTest.keyClick(area, Qt.Key.Key_Insert, Qt.KeyboardModifier.ShiftModifier)
    assert _names(document)[1:] == names, "before the first one"
    for _ in range(5):
        QTest.keyClick(area, Qt.Key.Key_PageDown)
    QTest.keyClick(area, Qt.Key.Key_Insert)
    assert _names(document)[1:-1] == names, "and behind the last"


def test_two_waypoints_must_stay(area: AreaView, document: Document) -> None:
    for _ in range(3):
        area.tools.delete(1)
    assert len(_names(document)) == 2
    (notice,) = document.notices.waiting
    assert "two waypoints" in notice.text
    assert document.undo_stack.count() == 2


def test_the_menu_inserts_on_the_leg_under_it_and_measures(
    area: AreaView, document: Document
) -> None:
    at = QPointF(area.pixel_of_leg(2))
    menu = area.menu_at(at)
    assert menu is not None
    texts = {action.text().replace("&", ""): action for action in menu.actions()}
    assert not any("Delete" in text for text in texts)
    rows: list[int] = []
    area.table_asked.connect(rows.append)
    texts["Waypoints and legs as a table…"].trigger()
    assert rows == [3], "the row of the waypoint that leg 3 leads to"
    texts["Measure from here"].trigger()
    QTest.mouseMove(area, area.pixel_of_waypoint(2))
    assert area.tools.words(area.m_per_px)[0].startswith("Measured ")
    texts["Insert waypoint on leg 3 here"].trigger()
    assert len(_names(document)) == 5
    assert area.tools.chosen == 3
    menu.deleteLater()
    menu = area.menu_at(QPointF(area.pixel_of_waypoint(1)))
    assert menu is not None
    delete = next(a for a in menu.actions() if "elete waypoint" in a.text())
    delete.trigger()
    assert len(_names(document)) == 4
    menu.deleteLater()


def test_the_ruler_by_keys(area: AreaView, document: Document) -> None:
    QTest.keyClick(area, Qt.Key.Key_M)
    QTest.keyClick(area, Qt.Key.Key_Return)
    for _ in range(4):
        QTest.keyClick(area, Qt.Key.Key_Right)
    QTest.keyClick(area, Qt.Key.Key_Return)
    ruler = area.tools.ruler
    assert ruler is not None
    assert ruler.is_fixed
    assert ruler.start is not None
    went_m = _apart_m(ruler.start, ruler.end)
    assert went_m == pytest.approx(4 * key_step(area.m_per_px).coarse_m, rel=1e-6)
    assert area.tools.words(area.m_per_px)[0].startswith("Measured 090° T")
    QTest.keyClick(area, Qt.Key.Key_Escape)
    assert area.tools.ruler is None
    assert document.undo_stack.count() == 0


def test_what_is_moved_by_keys_is_set_before_the_window_does_anything_else(
    area: AreaView, document: Document
) -> None:
    for key in (Qt.Key.Key_PageDown, Qt.Key.Key_Up, Qt.Key.Key_F5):
        QTest.keyClick(area, key)
    assert document.undo_stack.count() == 1


def test_a_key_step_can_be_seen_and_is_round() -> None:
    assert key_step(50.0).coarse_m == m_from_nm(0.1)
    assert key_step(50.0).words == "arrows 0.1 NM, Shift 0.01 NM"
    assert key_step(1e9).coarse_m == m_from_nm(20.0)


def test_a_minute_of_latitude_north_is_a_mile() -> None:
    # A minute of latitude is 1843 m at the equator and 1862 m at the poles (WGS-84); in 30 S it
    # is 1847.5 m: 111 132.95 - 559.85 cos 2 lat m a degree (series of the meridian arc).
    start = Position(lat_deg=-30.0, lon_deg=10.0)
    end = stepped(start, 0.0, 1847.5)
    assert (end.lat_deg + 30.0) * 60.0 == pytest.approx(1.0, abs=2e-4)
    assert between_words(start, end) == "000° T   1.00 NM"
    assert between_words(start, start) == "–"


def test_legs_that_were_kept_show_the_old_coast_and_others_do_not(
    qtbot: QtBot, area: AreaView, document: Document
) -> None:
    area.tools.choose(3)
    area.tools.move_to(stepped(_position(document, 3), 10.0, 3000.0))
    area.tools.set_move()
    assert document.outcome is None, "never the plan of the new line"
    assert document.outcome_before_edit is sample_outcome()
    assert document.kept_legs == {0: 0, 1: 1}

    def shows_edit() -> bool:
        scene = area.pictures.scene
        return scene is not None and scene.is_edited

    qtbot.waitUntil(shows_edit)
    scene = area.pictures.scene
    assert scene is not None
    assert [leg.source_leg for leg in scene.legs] == [0, 1, None]
    assert len(scene.gone) == 1
    assert scene.land is not None
    assert area.pictures.ground is not None, "the ground stays: an edit does not move the plan"
    document.set_leg(2)
    area.pictures.request_cover(area._frame, 1.0)
    qtbot.waitUntil(lambda: area.pictures.cover is None)


def test_a_frame_of_a_moved_plan_is_painted_in_time(area: AreaView) -> None:
    # Measured: some 2 ms; the limit is the frame itself.
    assert median_ms(frame_times_ms(area)) < FRAME_MS
