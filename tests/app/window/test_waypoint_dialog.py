"""The waypoint table typed in by keyboard alone."""

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QLineEdit
from pytestqt.qtbot import QtBot

from app.state.document import Document
from app.views.waypoint_rows import (
    KIND,
    NAME,
    NOTE,
    PORT,
    POSITION,
    RADIUS,
    SPEED,
    STARBOARD,
    CellError,
    drafts_of,
    edit_of,
    kind_of,
    leg_words,
    position_text,
    turned,
    with_row_above,
    with_row_below,
    without_row,
)
from app.window.main_window import MainWindow
from app.window.waypoint_dialog import WaypointDialog
from core.base.units import m_from_nm, mps_from_kn
from core.geodesy.leg_line import LegKind
from core.geodesy.position import Position
from core.passage.passage import Leg, Passage
from core.passage.reverse import reversed_passage
from tests.helpers.modal import alt, when_open
from tests.helpers.sample_outcome import sample_outcome


@pytest.fixture
def passage() -> Passage:
    found = sample_outcome().request.passage
    leg = replace(
        found.legs[0],
        corridor_port_m=m_from_nm(0.3),
        corridor_starboard_m=m_from_nm(0.5),
        note="keep clear",
    )
    return replace(found, legs=(leg, *found.legs[1:]))


def test_a_table_that_is_not_touched_is_the_same_passage(passage: Passage) -> None:
    edit = edit_of(passage, drafts_of(passage))
    assert edit.passage == passage
    assert edit.sources == ((0,), (1,), (2,))


def test_typed_cells_become_their_values(passage: Passage) -> None:
    rows = list(drafts_of(passage))
    for column, text in (
        (NAME, "New"),
        (POSITION, "30 15.5 S 020 10.25 W"),
        (RADIUS, "0,5"),
        (KIND, "great circle"),
        (PORT, "0.4"),
        (STARBOARD, ""),
        (SPEED, "9.5"),
        (NOTE, "look out"),
    ):
        rows[1] = rows[1].with_cell(column, text)
    edited = edit_of(passage, tuple(rows)).passage
    waypoint, leg = edited.waypoints[1], edited.legs[0]
    assert waypoint.name == "New"
    assert waypoint.position == Position(lat_deg=-(30 + 15.5 / 60), lon_deg=-(20 + 10.25 / 60))
    assert waypoint.turn_radius_m == pytest.approx(926.0)  # half a mile of 1852 m
    assert leg == Leg(
        kind=LegKind.GEODESIC,
        corridor_port_m=m_from_nm(0.4),
        corridor_starboard_m=None,
        speed_mps=mps_from_kn(9.5),
        note="look out",
    )
    assert edited.waypoints[2:] == passage.waypoints[2:]


@pytest.mark.parametrize(
    ("column", "text", "words"),
    [
        (NAME, " ", "Row 2, waypoint: the waypoint has no name."),
        (POSITION, "", "Row 2, position: give it"),
        (POSITION, "somewhere", "Row 2, position: "),
        (RADIUS, "wide", "Row 2, turn radius: «wide» is not a number."),
        (RADIUS, "11", "Row 2, turn radius: 11 is not above 0 and at most 10 NM."),
        (KIND, "zigzag", "Row 2, leg to here: «zigzag» is neither rhumb line nor great circle."),
        (PORT, "0", "Row 2, port to here: 0 is not above 0 and at most 50 NM."),
        (SPEED, "nan", "Row 2, speed to here: nan is not above 0 and at most 100 kn."),
        (NOTE, "x" * 5000, "Row 2, note on the leg to here: the note is longer than"),
    ],
)
def test_what_cannot_be_used_is_told_in_a_sentence(
    passage: Passage, column: int, text: str, words: str
) -> None:
    rows = list(drafts_of(passage))
    rows[1] = rows[1].with_cell(column, text)
    with pytest.raises(CellError) as caught:
        edit_of(passage, tuple(rows))
    assert str(caught.value).startswith(words)
    assert (caught.value.row, caught.value.column) == (1, column)


def test_rows_put_in_and_taken_out_keep_what_belongs_to_legs(passage: Passage) -> None:
    rows = with_row_below(drafts_of(passage), 0)
    edit = edit_of(passage, rows)
    assert edit.sources == ((0,), (0,), (1,), (2,))
    assert [leg.note for leg in edit.passage.legs[:2]] == ["", "keep clear"]
    assert edit.passage.legs[0].corridor_port_m == passage.legs[0].corridor_port_m
    lat = edit.passage.waypoints[1].position.lat_deg
    ends = [w.position.lat_deg for w in passage.waypoints[:2]]
    assert lat == pytest.approx(sum(ends) / 2, abs=1e-4)
    joined = edit_of(passage, without_row(drafts_of(passage), 1))
    assert joined.sources == ((0, 1), (2,))
    assert len(joined.passage.waypoints) == 3
    first_gone = edit_of(passage, without_row(drafts_of(passage), 0))
    assert first_gone.sources == ((1,), (2,))
    last_gone = edit_of(passage, without_row(drafts_of(passage), 3))
    assert last_gone.sources == ((0,), (1,))
    above = with_row_above(drafts_of(passage), 0)
    above = (above[0].with_cell(POSITION, "29 0 S 020 0 W"), *above[1:])
    assert edit_of(passage, above).sources == ((), (0,), (1,), (2,))
    with pytest.raises(ValueError, match="two waypoints"):
        edit_of(passage, drafts_of(passage)[:1])


def test_where_two_legs_become_one_the_narrower_corridor_counts(passage: Passage) -> None:
    rows = list(drafts_of(passage))
    rows[2] = rows[2].with_cell(PORT, "0.2").with_cell(STARBOARD, "0.9")
    leg = edit_of(passage, without_row(tuple(rows), 1)).passage.legs[0]
    assert leg.corridor_port_m == pytest.approx(m_from_nm(0.2))
    assert leg.corridor_starboard_m == pytest.approx(m_from_nm(0.5))


def test_turned_rows_are_the_reversed_passage(passage: Passage) -> None:
    rows = turned(drafts_of(passage))
    edited = edit_of(passage, rows).passage
    other_way = reversed_passage(passage)
    assert [w.name for w in edited.waypoints] == [w.name for w in other_way.waypoints]
    assert [(x.corridor_port_m, x.corridor_starboard_m) for x in edited.legs] == [
        (x.corridor_port_m, x.corridor_starboard_m) for x in other_way.legs
    ]
    assert turned(rows) == drafts_of(passage)


def test_a_position_as_it_is_shown_reads_as_itself_to_two_metres() -> None:
    place = Position(lat_deg=-12.3456789, lon_deg=179.99999)
    assert position_text(place) == "12° 20.741′ S 179° 59.999′ E"
    assert (
        position_text(Position(lat_deg=0.0, lon_deg=-0.99999999)) == "00° 00.000′ N 001° 00.000′ W"
    )


def test_a_kind_of_leg_goes_by_its_first_letter() -> None:
    assert kind_of(" R") is LegKind.RHUMB
    assert kind_of("great") is LegKind.GEODESIC
    assert kind_of("") is None


def test_the_leg_to_a_row_is_told(passage: Passage) -> None:
    rows = drafts_of(passage)
    assert "NM" in leg_words(rows, 1)
    assert leg_words(rows, 0) == ""
    assert leg_words((rows[0], rows[0]), 1) == "no length"


# By keyboard in the window


def _type(dialog: WaypointDialog, text: str) -> None:
    QTest.keyClick(dialog.table, Qt.Key.Key_Return)
    editor = dialog.table.findChild(QLineEdit)
    assert editor is not None
    editor.selectAll()
    QTest.keyClicks(editor, text)
    QTest.keyClick(editor, Qt.Key.Key_Return)
    QTest.qWait(50)


def test_the_table_is_typed_by_keys_and_is_one_step(
    qtbot: QtBot, planned: MainWindow, document: Document
) -> None:
    qtbot.waitUntil(lambda: document.line is not None)

    def type_it(dialog: WaypointDialog) -> None:
        dialog.table.show_cell(1, NAME)
        _type(dialog, "Turn")
        for _ in range(RADIUS):
            QTest.keyClick(dialog.table, Qt.Key.Key_Right)
        _type(dialog, "wide")
        alt(dialog, Qt.Key.Key_O)
        assert dialog.isVisible()
        trouble = dialog.findChild(QLabel, "trouble")
        assert trouble is not None
        assert trouble.text() == "Row 2, turn radius: «wide» is not a number."
        assert dialog.table.currentIndex().column() == RADIUS
        _type(dialog, "0.4")
        QTest.keyClick(dialog.table, Qt.Key.Key_Insert)
        assert dialog.table.draft.rowCount() == 5
        alt(dialog, Qt.Key.Key_O)

    when_open(WaypointDialog, type_it)
    planned.actions_by_id["waypoints"].trigger()
    assert document.undo_stack.count() == 1
    assert document.passage is not None
    assert document.passage.waypoints[1].name == "Turn"
    assert document.passage.waypoints[1].turn_radius_m == pytest.approx(m_from_nm(0.4))
    assert document.leg_count == 4
    planned.actions_by_id["undo"].trigger()
    assert document.leg_count == 3


def test_turning_round_in_the_table_is_the_same_step_and_says_what_to_check(
    qtbot: QtBot, planned: MainWindow, document: Document
) -> None:
    qtbot.waitUntil(lambda: document.line is not None)
    assert document.passage is not None
    names = [w.name for w in document.passage.waypoints]

    def turn(dialog: WaypointDialog) -> None:
        alt(dialog, Qt.Key.Key_R)
        dialog.table.show_cell(0, NAME)
        _type(dialog, "Start")
        alt(dialog, Qt.Key.Key_O)

    when_open(WaypointDialog, turn)
    planned.actions_by_id["waypoints"].trigger()
    assert document.project.is_reversed
    assert [w.name for w in document.passage.waypoints] == ["Start", *names[-2::-1]]
    assert document.undo_stack.count() == 1
    (notice,) = document.notices.waiting
    assert "the other way" in notice.text


def test_cancel_and_a_table_not_touched_are_no_edit(
    qtbot: QtBot, planned: MainWindow, document: Document
) -> None:
    qtbot.waitUntil(lambda: document.line is not None)
    for key in (Qt.Key.Key_O, Qt.Key.Key_C):

        def press(dialog: WaypointDialog, key: Qt.Key = key) -> None:
            alt(dialog, key)
            assert not dialog.isVisible()

        when_open(WaypointDialog, press)
        planned.actions_by_id["waypoints"].trigger()
    assert document.undo_stack.count() == 0
    assert document.outcome is not None
