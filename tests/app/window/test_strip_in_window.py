"""The leg strip in the window: own ship, stretch, lines dragged, words, and one drawing."""

import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QImage, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.paint.measure import QtMeasure
from app.paint.page_image import page_image
from app.state.document import Document
from app.views.strip_drag import LIMITS_FROM_CHART
from app.views.strip_work import PX_PER_MM
from app.window.main_window import MainWindow
from core.base.units import m_from_nm
from core.jobs.edit_limits import with_limit
from core.jobs.edit_project import limits_of
from core.plan.plan_result import DangerLimit, IndexLine, Override, Role
from core.sheets.leg_sheet import leg_sheet
from core.sheets.page import Text
from core.sheets.strip_block import Strip, make_strip
from core.sheets.strip_lines import signed_m
from tests.helpers.sample_outcome import sample_outcome

_LEFT = Qt.MouseButton.LeftButton
_CTRL = Qt.KeyboardModifier.ControlModifier
_NONE = Qt.KeyboardModifier.NoModifier


@pytest.fixture
def said(planned: MainWindow) -> Iterator[list[str]]:
    heard: list[str] = []
    planned.panes.strip.said.connect(heard.append)
    yield heard
    planned.panes.strip.said.disconnect(heard.append)


def _line(role: Role, name: str, leg_index: int = 0) -> IndexLine:
    lines = sample_outcome().plan.legs[leg_index].lines
    return next(line for line in lines if (line.role, line.object.id) == (role, name))


def _at(window: MainWindow, cross_m: float, along_m: float) -> QPoint:
    drawn = window.panes.strip.drawn
    assert drawn is not None
    x, y = drawn.strip.frame.place(along_m, cross_m)
    return QPoint(round(x * PX_PER_MM), round(y * PX_PER_MM))


def _drag(window: MainWindow, line: IndexLine, to_m: float, *, is_let_go: bool = True) -> None:
    """Drag a line sideways from the middle of its window."""
    along_m = 0.35 * line.from_along_m + 0.65 * line.to_along_m
    strip = window.panes.strip
    start, stop = _at(window, signed_m(line), along_m), _at(window, to_m, along_m)
    QTest.mousePress(strip, _LEFT, pos=start)
    for share in (0.2, 0.6, 1.0):
        QTest.mouseMove(strip, start + (stop - start) * share)
    assert strip.drag is not None
    if is_let_go:
        QTest.mouseRelease(strip, _LEFT, pos=stop)


def _wheel(window: MainWindow, notches: int, held: Qt.KeyboardModifier = _NONE) -> None:
    strip = window.panes.strip
    at = QPointF(strip.rect().center())
    event = QWheelEvent(
        at,
        strip.mapToGlobal(at),
        QPoint(),
        QPoint(0, 120 * notches),
        Qt.MouseButton.NoButton,
        held,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(strip, event)


# One drawing


def test_the_strip_on_the_screen_is_the_drawing_of_the_sheet(
    qtbot: QtBot, planned: MainWindow, document: Document, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Screen and sheet show what ``make_strip`` makes, every item of it and nothing in between."""
    outcome = document.outcome
    assert outcome is not None
    printed: list[Strip] = []

    def noted(*given: Any, **named: Any) -> Strip:
        printed.append(make_strip(*given, **named))
        return printed[-1]

    monkeypatch.setattr("core.sheets.leg_sheet.make_strip", noted)
    for leg_index in range(3):
        document.set_leg(leg_index)
        qtbot.waitUntil(lambda: planned.panes.strip.is_current)
        drawn = planned.panes.strip.drawn
        assert drawn is not None
        measure = QtMeasure()
        again = make_strip(outcome, leg_index, frame=drawn.ask.room, measure=measure)
        assert drawn.strip.items == again.items
        page = leg_sheet(outcome, leg_index, page_number=1, page_count=9, measure=measure)
        strip = printed[-1]
        first = page.items.index(strip.items[0])
        assert page.items[first : first + len(strip.items)] == strip.items
        # What stands for something on the one stands on the other, whatever the room.
        things = ("line:", "wheel-over", "coast:", "object:A", "land", "hand-over", "index-gap")
        for thing in things:
            on_screen, on_paper = _count(again, thing), _count(strip, thing)
            assert bool(on_screen) is bool(on_paper), thing


def _count(strip: Strip, start: str) -> int:
    return sum(1 for item in strip.items if item.reference.startswith(start))


def test_the_pixels_are_those_items_with_own_ship_over_them(
    qtbot: QtBot, planned: MainWindow, document: Document
) -> None:
    strip = planned.panes.strip
    drawn = strip.drawn
    assert drawn is not None
    document.set_cursor(6000.0)
    expected = page_image(
        drawn.strip.items,
        width_mm=drawn.ask.room.width_mm,
        height_mm=drawn.ask.room.height_mm,
        px_per_mm=PX_PER_MM,
        ratio=drawn.ask.device_ratio,
        colours=planned.light,
    )
    planned.panes.legs.setFocus()
    shown, alone = _pixels(strip.grab().toImage()), _pixels(expected)
    differs = np.flatnonzero((shown != alone).any(axis=(1, 2)))
    y_px = drawn.strip.frame.y_mm(6000.0) * PX_PER_MM
    assert differs.size > 0
    assert abs(differs - y_px).max() < 16.0


def _pixels(image: QImage) -> np.ndarray[tuple[int, ...], np.dtype[np.uint8]]:
    image = image.convertToFormat(QImage.Format.Format_RGB32)
    block = np.frombuffer(image.constBits(), np.uint8).copy()
    return block.reshape(image.height(), image.bytesPerLine() // 4, 4)[:, : image.width(), :3]


# Own ship


def test_own_ship_goes_by_minutes_events_and_the_wheel(
    planned: MainWindow, document: Document, said: list[str]
) -> None:
    leg = document.leg_plan
    assert leg is not None
    planned.actions_by_id["minute_ahead"].trigger()
    assert document.cursor_along_m == pytest.approx(60.0 * leg.speed_mps)
    planned.actions_by_id["minute_astern"].trigger()
    assert document.cursor_along_m == 0.0
    QTest.keyClick(planned.panes.strip, Qt.Key.Key_Up, Qt.KeyboardModifier.ShiftModifier)
    assert document.cursor_along_m == pytest.approx(60.0 * leg.speed_mps)
    met = []
    while document.cursor_along_m < leg.distance_m:
        planned.actions_by_id["event_ahead"].trigger()
        met.append(document.cursor_along_m)
        stop = planned.panes.strip.ship.stop_here
        assert stop is not None
        assert stop.words in said[-1]
    assert leg.wheel_over is not None
    hand_over = leg.hand_overs[0]
    for along_m in (hand_over.from_along_m, hand_over.to_along_m, leg.wheel_over.along_m):
        assert min(abs(place - along_m) for place in met) < 1.0
    planned.actions_by_id["event_astern"].trigger()
    assert document.cursor_along_m == pytest.approx(met[-2])
    here = document.cursor_along_m
    _wheel(planned, -1)
    assert document.cursor_along_m < here
    _wheel(planned, 1)
    assert document.cursor_along_m > here - 1.0


# Stretch


def test_the_stretch_is_changed_written_and_kept_for_its_leg(
    qtbot: QtBot, planned: MainWindow, document: Document
) -> None:
    strip = planned.panes.strip

    def foot() -> tuple[float, str]:
        qtbot.waitUntil(lambda: strip.is_current)
        assert strip.drawn is not None
        texts = [i for i in strip.drawn.strip.items if isinstance(i, Text)]
        words = next(t.text for t in texts if t.reference == "stretch")
        return strip.drawn.strip.frame.half_width_m, words

    planned_m, planned_words = foot()
    _wheel(planned, 1, _CTRL)
    narrow_m, narrow_words = foot()
    assert narrow_m < planned_m
    assert narrow_words != planned_words
    QTest.keyClick(strip, Qt.Key.Key_Minus)
    QTest.keyClick(strip, Qt.Key.Key_Minus)
    wide_m, _words = foot()
    assert wide_m > planned_m
    document.set_leg(1)
    other_m, _words = foot()
    document.set_leg(0)
    assert foot()[0] == wide_m
    outcome = document.outcome
    assert outcome is not None
    document.set_outcome(outcome, document.project)
    assert foot()[0] == wide_m
    QTest.keyClick(strip, Qt.Key.Key_0)
    assert foot() == (planned_m, planned_words)
    document.set_leg(1)
    assert foot()[0] == other_m


# Lines dragged


def test_an_index_line_dragged_to_another_object_is_one_choice_that_can_be_undone(
    planned: MainWindow, document: Document, said: list[str]
) -> None:
    _drag(planned, _line(Role.PRIMARY, "A"), -m_from_nm(0.91), is_let_go=False)
    drag = planned.panes.strip.drag
    assert drag is not None
    assert drag.words[0].startswith("primary PORT 0.9")
    assert drag.words[1].startswith("B 0.90 NM, place 2")
    assert "B 0.90 NM" in said[-1]
    QTest.mouseRelease(planned.panes.strip, _LEFT)
    # With the part that B serves already.
    part_m = (_line(Role.PRIMARY, "A").from_along_m, _line(Role.PRIMARY, "B").to_along_m)
    assert document.project.overrides == (
        Override(
            leg_number=1, role="primary", object_id="B", is_locked=True, remark="", part_m=part_m
        ),
    )
    assert document.is_stale
    assert planned.panes.strip.pending.words() == ("primary: B",)
    assert document.undo_stack.count() == 1
    document.undo_stack.undo()
    assert not document.project.overrides
    assert not planned.panes.strip.pending.words()


def test_a_line_let_go_over_no_object_or_on_its_own_changes_nothing(
    planned: MainWindow, document: Document, said: list[str]
) -> None:
    _drag(planned, _line(Role.PRIMARY, "A"), m_from_nm(0.45), is_let_go=False)
    drag = planned.panes.strip.drag
    assert drag is not None
    assert "no object" in drag.words[1]
    QTest.mouseRelease(planned.panes.strip, _LEFT)
    _drag(planned, _line(Role.PRIMARY, "A"), m_from_nm(1.32))
    assert said[-1].startswith("Nothing changed")
    assert document.undo_stack.count() == 0
    assert not document.is_stale


def test_escape_puts_a_dragged_line_back(planned: MainWindow, document: Document) -> None:
    strip = planned.panes.strip
    planned.activateWindow()
    strip.setFocus()
    _drag(planned, _line(Role.PRIMARY, "A"), -m_from_nm(0.91), is_let_go=False)
    QTest.keyClick(strip, Qt.Key.Key_Escape)
    assert strip.drag is None
    QTest.mouseRelease(strip, _LEFT, pos=QPoint(80, 200))
    assert document.undo_stack.count() == 0


def test_a_drag_and_the_pointer_go_on_when_the_strip_is_drawn_anew(
    qtbot: QtBot, planned: MainWindow, document: Document, said: list[str]
) -> None:
    strip = planned.panes.strip
    _drag(planned, _line(Role.PRIMARY, "A"), -m_from_nm(0.91), is_let_go=False)
    strip.widen(1)
    qtbot.waitUntil(lambda: strip.is_current)
    assert strip.drag is not None
    assert strip.drawn is not None
    assert strip.drag.strip is strip.drawn.strip
    QTest.mouseRelease(strip, _LEFT)
    assert document.overrides_of(1, "primary")
    strip.point(1)
    told = said[-1]
    strip.widen(-1)
    qtbot.waitUntil(lambda: strip.is_current)
    strip.point(1)
    strip.point(-1)
    assert said[-1] == told


def test_a_click_on_a_line_takes_own_ship_there(planned: MainWindow, document: Document) -> None:
    line = _line(Role.PRIMARY, "A")
    QTest.mouseClick(planned.panes.strip, _LEFT, pos=_at(planned, signed_m(line), 3000.0))
    assert document.cursor_along_m == pytest.approx(3000.0, abs=40.0)
    assert document.undo_stack.count() == 0


def test_a_margin_dragged_becomes_a_limit_of_the_project_with_a_warning(
    planned: MainWindow, document: Document
) -> None:
    _drag(planned, _line(Role.MARGIN, "A"), m_from_nm(0.75), is_let_go=False)
    drag = planned.panes.strip.drag
    assert drag is not None
    assert drag.is_limit
    live = round(drag.limit_m / m_from_nm(0.01))
    assert 73 <= live <= 77
    assert f"not less than {live / 100:.2f} NM (was 0.90)" in drag.words[0]
    QTest.mouseRelease(planned.panes.strip, _LEFT)
    (limit,) = limits_of(document.project, leg_count=3)
    assert (limit.object_id, limit.leg_number, limit.most_m) == ("A", 1, None)
    assert limit.least_m == pytest.approx(m_from_nm(live / 100.0), abs=0.01)
    notice = document.notices.waiting[-1].text
    assert LIMITS_FROM_CHART in notice
    assert "CHECK IT ON THE CHART" in notice
    assert f"{live / 100:.2f} NM" in planned.panes.strip.pending.words()[0]
    assert document.undo_stack.count() == 1
    document.undo_stack.undo()
    assert limits_of(document.project, leg_count=3) == ()
    assert document.notices.waiting == (), "nor is a distance told that no longer counts"


def test_a_margin_stays_on_the_side_of_its_object(planned: MainWindow) -> None:
    _drag(planned, _line(Role.MARGIN, "A"), -m_from_nm(1.0), is_let_go=False)
    drag = planned.panes.strip.drag
    assert drag is not None
    assert drag.limit_m == pytest.approx(m_from_nm(0.01))
    planned.panes.strip.cancel_drag()


# Words


def test_the_keys_go_over_everything_on_own_ships_level_and_explain_it(
    planned: MainWindow, document: Document, said: list[str]
) -> None:
    strip = planned.panes.strip
    line = _line(Role.PRIMARY, "B")
    document.set_cursor(line.from_along_m + 1000.0)
    heard = []
    for _ in range(40):
        planned.actions_by_id["explain_here"].trigger()
        heard.append(said[-1])
    assert strip.hasFocus() or not planned.isActiveWindow()
    assert len(set(heard)) > 4
    assert any("primary line on A" in words for words in heard)
    assert any("margin line on B" in words for words in heard)
    assert all(heard)
    QTest.keyClick(strip, Qt.Key.Key_Left)
    assert said[-1] == heard[-2]


def test_the_mouse_learns_what_it_is_on(planned: MainWindow, said: list[str]) -> None:
    strip = planned.panes.strip
    line = _line(Role.MARGIN, "B")
    QTest.mouseMove(strip, _at(planned, signed_m(line), line.from_along_m + 2000.0))
    assert "margin line on B" in said[-1]
    assert strip.cursor().shape() is Qt.CursorShape.SizeHorCursor
    drawn = strip.drawn
    assert drawn is not None
    water = drawn.strip.frame.water
    foot = QPoint(
        round((water.x_mm + water.width_mm / 2.0) * PX_PER_MM),
        round((water.bottom_mm + 3.5) * PX_PER_MM),
    )
    QTest.mouseMove(strip, foot)
    assert "Ctrl and wheel" in said[-1]
    assert strip.cursor().shape() is Qt.CursorShape.ArrowCursor


# Out of date


def test_limits_changed_elsewhere_show_on_the_strip_at_once(
    planned: MainWindow, document: Document
) -> None:
    limit = DangerLimit(object_id="A", leg_number=None, least_m=m_from_nm(0.8), most_m=None)
    document.edit("limit", with_limit(document.project, limit))
    words = planned.panes.strip.pending.words()
    assert "A not less than 0.80 NM" in words
    assert "B not less than taken out" in words


def test_the_read_out_never_gives_an_old_distance_as_good(
    planned: MainWindow, document: Document
) -> None:
    readout = planned.panes.readout
    assert not any("OUT OF DATE" in line for line in readout.words)
    _drag(planned, _line(Role.MARGIN, "A"), m_from_nm(0.75))
    assert readout.words[1].startswith("OUT OF DATE: ")
    document.undo_stack.undo()
    assert not any("OUT OF DATE" in line for line in readout.words)


def test_a_leg_looked_at_before_is_there_again_at_once(
    qtbot: QtBot, planned: MainWindow, document: Document
) -> None:
    strip = planned.panes.strip
    first = strip.drawn
    document.set_leg(1)
    assert strip.drawn is None
    qtbot.waitUntil(lambda: strip.is_current)
    document.set_leg(0)
    assert strip.drawn is first
    outcome = document.outcome
    assert outcome is not None
    document.set_outcome(replace(outcome), document.project)
    assert strip.drawn is None
    qtbot.waitUntil(lambda: strip.is_current)
    planned.set_light("night")
    qtbot.waitUntil(lambda: strip.is_current)
    assert strip.drawn is not None
    assert strip.drawn.ask.colours.name == "night"


def test_nothing_dragged_changes_a_read_only_project(
    planned: MainWindow, document: Document, said: list[str]
) -> None:
    document.standing.begin(read_only="It is open in another window.")
    _drag(planned, _line(Role.PRIMARY, "A"), -m_from_nm(0.91))
    _drag(planned, _line(Role.MARGIN, "A"), m_from_nm(0.75))
    assert document.undo_stack.count() == 0
    assert not any("chosen" in words for words in said)
    assert not any("CHECK IT" in notice.text for notice in document.notices.waiting)
    assert any("read-only" in notice.text for notice in document.notices.waiting)


# Following


def test_area_and_picture_follow_own_ship_within_150_ms_of_work(
    qtbot: QtBot, planned: MainWindow, document: Document
) -> None:
    """Work of all threads from the move to the repaint; a busy machine only makes it wait."""
    area = planned.panes.area
    qtbot.waitUntil(lambda: area.is_ready and area.is_current)
    assert _work_ms(qtbot, document, lambda: area.is_current) < 150.0
    planned.panes.show_picture()
    picture = planned.panes.picture

    def is_there() -> bool:
        made = picture.made
        return (
            picture.is_current and made is not None and made.ask.along_m == document.cursor_along_m
        )

    qtbot.waitUntil(is_there, timeout=60_000)
    assert _work_ms(qtbot, document, is_there) < 150.0


def _work_ms(qtbot: QtBot, document: Document, is_there: Callable[[], bool]) -> float:
    """Median over some moves."""
    spent = []
    for _ in range(7):
        began = time.process_time()
        document.step_cursor(1)
        while not is_there():
            QApplication.processEvents()
            time.sleep(0.002)
        spent.append((time.process_time() - began) * 1e3)
    return sorted(spent)[len(spent) // 2]


def test_pictures_keep_coming_while_own_ship_moves(
    qtbot: QtBot, planned: MainWindow, document: Document
) -> None:
    """A hand that does not rest must not keep the picture back till it does."""
    planned.panes.show_picture()
    picture = planned.panes.picture
    qtbot.waitUntil(lambda: picture.is_current, timeout=60_000)
    seen: set[float] = set()
    moves, began = 0, time.monotonic()
    while len(seen) < 4 and time.monotonic() - began < 60.0:
        moves += 1
        document.set_cursor(document.leg_length_m() * (moves % 500) / 500.0)
        QApplication.processEvents()
        time.sleep(0.003)
        if picture.made is not None:
            seen.add(picture.made.ask.along_m)
    assert len(seen) == 4
    # Those in between are dropped.
    assert moves > 2 * len(seen)
