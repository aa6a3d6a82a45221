"""Own ship edited in the window: numbers, sectors drawn and typed, refused in one sentence."""

from dataclasses import replace

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QDialogButtonBox
from pytestqt.qtbot import QtBot

from app.state.document import Document
from app.window.main_window import MainWindow
from app.window.sector_form import SectorForm
from app.window.ship_dialog import ShipDialog
from core.files.reading import blob_of
from core.files.ship_file import builtin_ship, default_ship, read_ship
from core.ship.ship import BlindSector


def _accept(dialog: ShipDialog) -> None:
    box = dialog.findChild(QDialogButtonBox)
    assert isinstance(box, QDialogButtonBox)
    box.accepted.emit()


def _at(dialog: ShipDialog, bearing_deg: float) -> QPoint:
    place: QPointF = dialog.sector_form.dial.place_at(bearing_deg, 0.7)
    return place.toPoint()


def test_nothing_changed_is_the_same_ship(qtbot: QtBot) -> None:
    ship = builtin_ship("general_cargo")
    dialog = ShipDialog(ship)
    qtbot.addWidget(dialog)
    assert dialog.read() == ship
    _accept(dialog)
    assert dialog.result() == ShipDialog.DialogCode.Accepted


def test_numbers_are_taken_and_refused_with_their_name(qtbot: QtBot) -> None:
    ship = builtin_ship("general_cargo")
    dialog = ShipDialog(ship)
    qtbot.addWidget(dialog)
    edits = dialog.ship_form._size.edits
    edits["draught_forward_m"].setText("9,1")
    dialog.radar_forms[0]._set.edits["peak_power_w"].setText("12")
    made = dialog.read()
    assert made.draught_forward_m == pytest.approx(9.1)
    assert made.radars[0].peak_power_w == pytest.approx(12_000.0)
    assert made.radars[1] == ship.radars[1]
    edits["draught_forward_m"].setText("deep")
    _accept(dialog)
    assert dialog.result() != ShipDialog.DialogCode.Accepted
    assert "Draught forward" in dialog.trouble
    # What single fields allow can still be no ship: the reader of ship files has the last word.
    edits["draught_forward_m"].setText("39")
    edits["draught_aft_m"].setText("39")
    _accept(dialog)
    assert "under water" in dialog.trouble


def test_turns_by_speed_are_lines_of_text(qtbot: QtBot) -> None:
    dialog = ShipDialog(builtin_ship("general_cargo"))
    qtbot.addWidget(dialog)
    dialog.ship_form.turns.setPlainText("12 kn  850 m\n6 700")
    assert [round(turn.radius_m) for turn in dialog.read().turns] == [700, 850]
    dialog.ship_form.turns.setPlainText("fast")
    with pytest.raises(ValueError, match="fast"):
        dialog.read()


def test_a_sector_is_drawn_moved_and_typed(qtbot: QtBot) -> None:
    dialog = ShipDialog(builtin_ship("general_cargo"))
    qtbot.addWidget(dialog)
    dialog.show()
    dialog.tabs.setCurrentWidget(dialog.sector_form)
    qtbot.waitExposed(dialog)
    form = dialog.sector_form
    before = form.sectors
    dial = form.dial
    QTest.mousePress(dial, Qt.MouseButton.LeftButton, pos=_at(dialog, 40.0))
    QTest.mouseMove(dial, _at(dialog, 55.0))
    QTest.mouseMove(dial, _at(dialog, 70.0))
    QTest.mouseRelease(dial, Qt.MouseButton.LeftButton, pos=_at(dialog, 70.0))
    assert len(form.sectors) == len(before) + 1
    drawn = form.sectors[-1]
    assert drawn.from_relative_deg == pytest.approx(40.0, abs=1.0)
    assert drawn.to_relative_deg == pytest.approx(70.0, abs=1.0)
    # Its end is dragged on, its start moved by keys.
    QTest.mousePress(dial, Qt.MouseButton.LeftButton, pos=_at(dialog, 70.0))
    QTest.mouseMove(dial, _at(dialog, 80.0))
    QTest.mouseRelease(dial, Qt.MouseButton.LeftButton, pos=_at(dialog, 80.0))
    assert form.sectors[-1].to_relative_deg == pytest.approx(80.0, abs=1.0)
    start_deg = form.sectors[-1].from_relative_deg
    dial.setFocus()
    QTest.keyClick(dial, Qt.Key.Key_Left)
    assert form.sectors[-1].from_relative_deg == pytest.approx(start_deg - 1.0)
    row = len(form.sectors) - 1
    for column, words in ((2, "shadow"), (3, "crane"), (0, "nonsense")):
        form.table.model().setData(form.table.model().index(row, column), words)
    assert form.sectors[-1].is_shadow
    assert form.sectors[-1].cause == "crane"
    assert form.sectors[-1].from_relative_deg == pytest.approx(start_deg - 1.0)
    made = dialog.read()
    assert made.radars[0].blind_sectors == form.sectors
    assert made.radars[1].blind_sectors == builtin_ship("general_cargo").radars[1].blind_sectors


def test_conditions_are_of_the_ship_and_sectors_of_one_radar(qtbot: QtBot) -> None:
    ship = builtin_ship("general_cargo")
    dialog = ShipDialog(ship)
    qtbot.addWidget(dialog)
    form = dialog.sector_form
    form.add_case("deck cargo")
    form.add_sector(10.0, 20.0)
    form.radar.setCurrentIndex(1)
    form.add_sector(100.0, 110.0)
    made = dialog.read()
    assert made.load_condition == "deck cargo"
    assert made.radars[0].blind_sectors[-1] == BlindSector(
        from_relative_deg=10.0, to_relative_deg=20.0
    )
    assert made.radars[1].blind_sectors[-1].from_relative_deg == 100.0
    form.case.setCurrentText("cranes topped")
    assert dialog.read().load_condition == "cranes topped"
    assert dialog.read().radars[0].blind_sectors == ship.radars[0].load_conditions[1].blind_sectors


def test_a_ship_without_conditions_gets_one_with_the_first_sector(qtbot: QtBot) -> None:
    ship = builtin_ship("general_cargo")
    bare = replace(
        ship,
        load_condition="",
        radars=tuple(replace(r, load_conditions=(), blind_sectors=()) for r in ship.radars),
    )
    dialog = ShipDialog(bare)
    qtbot.addWidget(dialog)
    dialog.sector_form.add_sector(170.0, 190.0)
    assert dialog.read().load_condition == "as drawn"


def test_the_edited_ship_is_kept_in_the_project_as_one_step(
    qtbot: QtBot, window: MainWindow, document: Document, monkeypatch: pytest.MonkeyPatch
) -> None:
    def edit(dialog: ShipDialog) -> int:
        dialog.ship_form.name.setText("Merrow (invented)")
        _accept(dialog)
        return dialog.result()

    monkeypatch.setattr(ShipDialog, "exec", edit)
    window.actions_by_id["edit_ship"].trigger()
    qtbot.waitUntil(lambda: document.project.ship_text != "")
    text = document.project.ship_text
    ship = read_ship(blob_of("ship", text.encode("utf-8")))[0]
    assert ship.name == "Merrow (invented)"
    assert ship.length_m == default_ship().length_m
    assert document.undo_stack.count() == 1
    document.undo_stack.undo()
    assert document.project.ship_text == ""


def test_two_radars_of_one_name_keep_their_own_sectors(qtbot: QtBot) -> None:
    first, second = builtin_ship("general_cargo").radars[:2]
    pair = tuple(
        replace(r, name="X band", load_conditions=(), blind_sectors=()) for r in (first, second)
    )
    form = SectorForm(pair, "")
    qtbot.addWidget(form)
    form.add_sector(10.0, 20.0)
    form.radar.setCurrentIndex(1)
    assert form.sectors == ()
    form.add_sector(200.0, 210.0)
    made = form.put_into(pair)
    starts = [[s.from_relative_deg for s in radar.blind_sectors] for radar in made]
    assert starts == [[10.0], [200.0]]
