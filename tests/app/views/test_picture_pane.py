"""The picture pane: follows the cursor, its rows act, its echoes and points tell what they are."""

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, TypeVar

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QDoubleSpinBox,
    QLabel,
    QLineEdit,
    QPushButton,
    QTabWidget,
    QWidget,
)
from pytestqt.qtbot import QtBot

from app.paint.palette import DAY, NIGHT
from app.state.document import Document
from app.views.picture_key import PictureKey
from app.views.picture_pane import ECHO_HEADS, PicturePane
from app.views.set_up_presets import OWN, PRESETS, preset_of
from core.files.project import Project
from core.words.picture_words import KEY
from tests.helpers.cut_cells import cut_cells
from tests.helpers.sample_outcome import sample_outcome

_W = TypeVar("_W", bound=QWidget)
_PROJECT = Project(route=Path("a.rtz"), land=(Path("land"),))


@pytest.fixture
def pane(document: Document, qtbot: QtBot) -> Iterator[PicturePane]:
    document.open_project(_PROJECT, None)
    document.set_outcome(sample_outcome(), _PROJECT)
    pane = PicturePane(document, DAY)
    qtbot.addWidget(pane)
    pane.resize(700, 420)
    pane.show()
    _wait(qtbot, pane)
    yield pane
    pane.close_threads()


def _wait(qtbot: QtBot, pane: PicturePane) -> None:
    qtbot.waitUntil(lambda: pane.is_current, timeout=60_000)


def _row(pane: PicturePane, kind: type[_W], name: str) -> _W:
    (found,) = [w for w in pane.rows.findChildren(kind) if w.accessibleName() == name]
    return found


def _lost(pane: PicturePane) -> int:
    assert pane.made is not None
    return sum(words[-1].startswith("lost") for words in pane.made.echoes)


def _choose_preset(pane: PicturePane, name: str) -> None:
    box = _row(pane, QComboBox, "Set-up")
    box.setCurrentIndex(box.findText(name))
    box.activated.emit(box.currentIndex())


def test_nothing_is_held_before_the_first_picture(document: Document, qtbot: QtBot) -> None:
    pane = PicturePane(document, DAY)
    qtbot.addWidget(pane)
    pane.show()
    (hold,) = [b for b in pane.rows.findChildren(QPushButton) if b.isCheckable()]
    hold.click()
    assert not hold.isChecked()
    assert not pane.held_canvas.isVisible()
    pane.close_threads()


def test_it_shows_the_picture_of_the_cursor_and_follows_it(
    pane: PicturePane, document: Document, qtbot: QtBot
) -> None:
    first = pane.made
    assert first is not None
    assert first.ask.along_m == document.cursor_along_m
    assert first.image.width() == pane.canvas.side_px
    assert "calculated" in pane.words.text()
    document.set_cursor(4_000.0)
    qtbot.waitUntil(lambda: pane.made is not first and pane.is_current, timeout=60_000)
    assert pane.made is not None
    assert pane.made.ask.along_m == 4_000.0
    assert pane.made.image != first.image


def test_too_little_gain_loses_echoes_and_well_set_brings_them_back(
    pane: PicturePane, qtbot: QtBot
) -> None:
    assert _lost(pane) == 0
    gain = _row(pane, QDoubleSpinBox, "Gain")
    gain.setValue(-40.0)
    _wait(qtbot, pane)
    assert pane.made is not None
    assert pane.made.controls.gain_db == -40.0
    assert _lost(pane) > 0
    rows = [pane.echoes.table.row(n) for n in range(pane.echoes.table.rowCount())]
    lost = [row for row in rows if row is not None and row.is_alert]
    assert len(lost) == _lost(pane)
    assert all("gain" in row.cells[-1] for row in lost)
    assert all(len(row.cells) == len(ECHO_HEADS) for row in lost)
    _choose_preset(pane, "well set")
    _wait(qtbot, pane)
    assert _lost(pane) == 0
    assert gain.value() == 0.0


@pytest.mark.parametrize(
    ("name", "act", "field"),
    [
        ("Tuning", lambda box: box.setValue(12.0), "mistuning_db"),
        ("Sea clutter", lambda box: box.setValue(60.0), "sea_clutter"),
        ("Rain clutter", lambda box: box.setValue(50.0), "rain_clutter"),
        ("Interference rej.", lambda box: box.setChecked(True), "interference_rejection"),
        ("Echo stretch", lambda box: box.setChecked(True), "echo_stretch"),
    ],
)
def test_every_control_reaches_the_picture(
    pane: PicturePane, qtbot: QtBot, name: str, act: Callable[[Any], None], field: str
) -> None:
    kind = QCheckBox if name in ("Interference rej.", "Echo stretch") else QDoubleSpinBox
    before = pane.made
    assert before is not None
    act(_row(pane, kind, name))
    qtbot.waitUntil(lambda: pane.made is not before and pane.is_current, timeout=60_000)
    assert pane.made is not None
    assert getattr(pane.made.controls, field) != getattr(before.controls, field)


def test_scale_up_and_place_make_another_view(pane: PicturePane, qtbot: QtBot) -> None:
    scale = _row(pane, QComboBox, "Range scale")
    scale.setCurrentIndex(scale.findText("12 NM"))
    _wait(qtbot, pane)
    assert pane.made is not None
    assert pane.made.picture.view.scale_m == pytest.approx(12.0 * 1852.0)
    up = _row(pane, QComboBox, "Up")
    up.setCurrentIndex(up.findText("north up"))
    _wait(qtbot, pane)
    assert pane.made.picture.frame.up_deg == 0.0
    place = _row(pane, QLineEdit, "Place")
    where = sample_outcome().plan.passage.waypoints[1].position
    place.setText(f"{where.lat_deg:.5f} {where.lon_deg:.5f}")
    place.editingFinished.emit()
    _wait(qtbot, pane)
    assert pane.made.ask.position is not None
    assert pane.made.ask.position.lat_deg == pytest.approx(where.lat_deg, abs=1e-4)
    place.setText("nowhere at all")
    place.editingFinished.emit()
    qtbot.waitUntil(lambda: "place" in pane.words.text(), timeout=5_000)


def test_a_point_tells_what_lies_there(pane: PicturePane, document: Document, qtbot: QtBot) -> None:
    before = pane.made
    side = min(pane.canvas.width(), pane.canvas.height())
    middle = pane.canvas.rect().center()
    QTest.mouseClick(
        pane.canvas,
        Qt.MouseButton.LeftButton,
        pos=QPoint(middle.x(), middle.y() - side // 5),
    )
    words = pane.words.text()
    assert "NM" in words
    assert "calculated" not in words
    # Another size of the window leaves what was asked about.
    pane.resize(720, 440)
    qtbot.waitUntil(lambda: pane.made is not before and pane.is_current, timeout=60_000)
    assert pane.words.text().split(",")[0] == words.split(",")[0]
    document.set_cursor(3_000.0)
    qtbot.waitUntil(lambda: "calculated" in pane.words.text(), timeout=60_000)


def test_the_file_is_a_png_of_the_picture_with_its_words(pane: PicturePane, qtbot: QtBot) -> None:
    got: list[bytes] = []
    assert pane.make_file(got.append)
    qtbot.waitUntil(lambda: bool(got), timeout=60_000)
    image = QImage.fromData(got[0])
    assert image.width() > 1000
    assert image.height() > image.width()


def test_night_is_dark(pane: PicturePane, qtbot: QtBot) -> None:
    pane.set_colours(NIGHT)
    _wait(qtbot, pane)
    assert pane.made is not None
    image = pane.made.image.scaled(16, 16)
    brightest = max(image.pixelColor(x, y).lightness() for x in range(16) for y in range(16))
    assert brightest < 120


def test_without_a_plan_it_says_when_the_picture_comes(document: Document, qtbot: QtBot) -> None:
    pane = PicturePane(document, DAY)
    qtbot.addWidget(pane)
    pane.show()
    qtbot.waitUntil(lambda: not pane.is_current, timeout=1_000)
    assert pane.made is None
    assert not pane.make_file(lambda _data: None)
    pane.close_threads()


def test_a_file_and_a_picture_asked_for_at_once_both_come(
    pane: PicturePane, document: Document, qtbot: QtBot
) -> None:
    files: list[bytes] = []
    document.set_cursor(3_000.0)
    pane._request()  # under way when the next comes
    assert pane.make_file(files.append)
    document.set_cursor(5_000.0)
    qtbot.waitUntil(lambda: bool(files) and pane.is_current, timeout=60_000)
    assert pane.made is not None
    assert pane.made.ask.along_m == document.cursor_along_m == 5_000.0


def test_a_picture_of_a_plan_that_is_gone_is_not_shown(
    pane: PicturePane, document: Document, qtbot: QtBot
) -> None:
    document.set_cursor(3_000.0)
    pane._request()  # under way when the next comes
    document.open_project(_PROJECT, None)
    assert document.outcome is None
    _settled(qtbot, pane)
    assert pane.made is None


def _settled(qtbot: QtBot, pane: PicturePane) -> None:
    qtbot.waitUntil(
        lambda: not pane._runner.is_busy and not pane._redraw.is_waiting,
        timeout=60_000,
    )


def test_set_ups_by_name_act_and_are_named_again(pane: PicturePane, qtbot: QtBot) -> None:
    box = _row(pane, QComboBox, "Set-up")
    assert box.currentText() == "well set"
    for name in PRESETS:
        before = pane.made
        _choose_preset(pane, name)
        qtbot.waitUntil(lambda: pane.made is not before and pane.is_current, timeout=60_000)  # noqa: B023 - waits within the round
        assert pane.made is not None
        assert pane.made.controls == PRESETS[name](pane.made.well)
        assert preset_of(pane.made.controls, pane.made.well) in PRESETS
    _row(pane, QDoubleSpinBox, "Tuning").setValue(3.0)
    qtbot.waitUntil(lambda: box.currentText() == OWN, timeout=60_000)


def test_two_set_ups_stand_side_by_side_and_say_what_differs(
    pane: PicturePane, document: Document, qtbot: QtBot
) -> None:
    (hold,) = [b for b in pane.rows.findChildren(QPushButton) if b.isCheckable()]
    hold.click()
    _wait(qtbot, pane)
    assert pane.held_canvas.isVisible()
    assert "the same echoes paint in both" in pane.words.text()
    _choose_preset(pane, "too little gain")
    _row(pane, QDoubleSpinBox, "Gain").setValue(-40.0)
    qtbot.waitUntil(lambda: "only above" in pane.words.text(), timeout=60_000)
    assert pane.made is not None
    assert pane.held is not None
    assert pane.held.controls == pane.held.well
    # Both follow own ship, each under its own set-up.
    document.set_cursor(4_000.0)
    _wait(qtbot, pane)
    assert pane.held.ask.along_m == pane.made.ask.along_m == 4_000.0
    assert pane.held.controls.gain_db != pane.made.controls.gain_db
    # Each says on itself what is set.
    assert pane.held_canvas.lines[0].startswith("Held: ")
    assert pane.held_canvas.lines[1].endswith("; well set")
    assert pane.canvas.lines[0].startswith("Now: ")
    assert pane.canvas.lines[1].endswith("; gain −40 dB")
    pane.held_canvas.picked.emit(0.5, 0.4)
    assert pane.words.text().startswith("Held: ")
    hold.click()
    _wait(qtbot, pane)
    assert not pane.held_canvas.isVisible()
    assert pane.held is None
    assert not pane.canvas.lines[0].startswith("Now: ")


def test_echoes_stand_by_margin_and_say_so(pane: PicturePane, qtbot: QtBot) -> None:
    _row(pane, QDoubleSpinBox, "Sea clutter").setValue(70.0)
    _wait(qtbot, pane)
    first, *rows = pane.echoes.table.rows
    assert first.is_note
    assert "least margin first" in first.cells[0]
    is_lost = [row.is_alert for row in rows]
    assert is_lost == sorted(is_lost, reverse=True)
    for lost in (True, False):
        words = [row.cells[-1].split()[0] for row in rows if row.is_alert is lost]
        margins = [int(word.replace("\u2212", "-")) for word in words if word != "\u2013"]
        assert margins == sorted(margins)
        assert words[: len(margins)] == [word for word in words if word != "\u2013"]


def test_no_echo_is_cut_beside_the_picture(pane: PicturePane, qtbot: QtBot) -> None:
    _row(pane, QDoubleSpinBox, "Gain").setValue(-40.0)
    _wait(qtbot, pane)
    _show_tab(pane, "Echoes")
    assert any(row.is_alert for row in pane.echoes.table.rows)
    qtbot.waitUntil(lambda: cut_cells(pane.echoes) == [])


def test_a_key_tells_the_inks(pane: PicturePane, qtbot: QtBot) -> None:
    _show_tab(pane, "Key")
    (key,) = pane.findChildren(PictureKey)
    assert key.isVisible()
    assert [w.text() for w in key.findChildren(QLabel) if w.text()] == [text for _ink, text in KEY]
    swatches = [w.pixmap().toImage() for w in key.findChildren(QLabel) if not w.text()]
    assert len({image.pixelColor(5, 5).rgb() for image in swatches[:2]}) == 2
    pane.set_colours(NIGHT)
    _wait(qtbot, pane)
    dark = [w.pixmap().toImage() for w in key.findChildren(QLabel) if not w.text()]
    assert all(one != other for one, other in zip(dark, swatches, strict=True))


def _show_tab(pane: PicturePane, title: str) -> None:
    (tabs,) = pane.findChildren(QTabWidget)
    tabs.setCurrentIndex([tabs.tabText(n) for n in range(tabs.count())].index(title))
