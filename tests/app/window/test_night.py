"""At night no pixel of window, menu or dialog is bright: read from pictures of them."""

from collections.abc import Callable, Iterator
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QApplication,
    QCheckBox,
    QComboBox,
    QDialog,
    QDoubleSpinBox,
    QLineEdit,
    QMenu,
    QPlainTextEdit,
    QPushButton,
    QToolTip,
    QVBoxLayout,
    QWidget,
)
from pytestqt.qtbot import QtBot

from app.paint.palette import PALETTES
from app.state.document import Document
from app.state.notices import NoticeKind
from app.state.settings import PALETTE, Settings
from app.views.area_inks import rgb
from app.window.about import AboutDialog, KeysDialog
from app.window.anchor_dialog import AnchorDialog
from app.window.ask import Unsaved, overwrite_box, unsaved_box
from app.window.careful_dialog import drop_box
from app.window.choice_dialog import ChoiceDialog
from app.window.conditions_dialog import ConditionsDialog
from app.window.copy_dialog import CopyDialog
from app.window.drawn_dialog import DrawnDialog
from app.window.help_dialog import HelpDialog
from app.window.land_dialog import LandDialog
from app.window.land_places_dialog import LandPlacesDialog
from app.window.lighting import STEPS, Lighting
from app.window.limit_dialog import LimitDialog
from app.window.main_window import MainWindow
from app.window.mark_dialog import MarkDialog
from app.window.offings_dialog import OffingsDialog
from app.window.recent_menu import RecentMenu
from app.window.recovery_dialog import RecoveryDialog
from app.window.revision_dialog import RevisionDialog
from app.window.revision_list_dialog import RevisionListDialog
from app.window.route_dialog import RouteDialog
from app.window.route_question import same_name_box
from app.window.seen_dialog import SeenDialog
from app.window.sheets_dialog import SheetsDialog
from app.window.ship_dialog import ShipDialog
from app.window.waypoint_dialog import WaypointDialog
from core.files.expected_plan import expected_of
from core.files.land_shelf import Shelf
from core.files.plan_json import plan_document
from core.files.project import Options
from core.files.ship_file import default_ship
from core.jobs.revise_plan import issued
from core.plan.observed import observed_report
from core.sheets.page import Page, Rectangle, Text, Tone, box
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.sample_paints import with_paints
from tests.helpers.window_jobs import StandIns

_BRIGHTEST = 185
"""Greatest value of any channel, of 255; the strongest warm line of the palette has 176."""


def _pixels(widget: QWidget) -> np.ndarray[tuple[int, ...], np.dtype[np.uint8]]:
    image = widget.grab().toImage().convertToFormat(QImage.Format.Format_RGB32)
    block = np.frombuffer(image.constBits(), np.uint8).copy()
    return block.reshape(image.height(), image.bytesPerLine() // 4, 4)[:, : image.width(), :3]


@pytest.fixture
def dark(qtbot: QtBot, planned: MainWindow) -> MainWindow:
    planned.set_light("night")
    qtbot.waitUntil(lambda: planned.panes.strip.is_current and planned.panes.area.is_ready)
    return planned


def test_the_palette_itself_holds_the_limit() -> None:
    for tone in Tone:
        assert max(rgb(PALETTES["night"].colour(tone))) <= _BRIGHTEST, tone


def test_the_window_is_dark_and_by_day_it_is_not(qtbot: QtBot, dark: MainWindow) -> None:
    pixels = _pixels(dark)
    assert pixels.max() <= _BRIGHTEST
    assert pixels.mean() < 30
    dark.set_light("day")
    qtbot.waitUntil(lambda: dark.panes.strip.is_current and dark.panes.area.is_ready)
    assert _pixels(dark).mean() > 180


def test_the_window_is_dark_with_notices_and_out_of_date(
    dark: MainWindow, document: Document
) -> None:
    document.notices.post(NoticeKind.TROUBLE, "a.rtz: the file is empty. Open another one.")
    document.set_options(Options(refraction_k=1.2))
    document.standing.begin(read_only="This is a copy.", old_plan="STALE. Look again at the tide.")
    assert _pixels(dark).max() <= _BRIGHTEST


def test_every_menu_is_dark(qtbot: QtBot, dark: MainWindow) -> None:
    menus = dark.menuBar().findChildren(QMenu)
    assert len(menus) >= 7
    for menu in menus:
        menu.popup(dark.pos())
        qtbot.waitUntil(menu.isVisible)
        menu.setActiveAction(menu.actions()[0])
        assert _pixels(menu).max() <= _BRIGHTEST, menu.title()
        menu.close()


def test_the_menu_of_recent_files_is_dark(qtbot: QtBot, dark: MainWindow) -> None:
    menu = dark.findChildren(RecentMenu)[0]
    dark.actions_by_id["open_recent"].trigger()
    qtbot.waitUntil(menu.isVisible)
    assert _pixels(menu).max() <= _BRIGHTEST
    menu.close()


def _choice(window: MainWindow) -> QWidget:
    return ChoiceDialog(sample_outcome().plan.legs[0], (), None, window)


def _sheets(window: MainWindow) -> QWidget:
    dialog = SheetsDialog(
        window.light, print_them=lambda _parts: None, export_them=lambda _parts: None, parent=window
    )
    room = Rectangle(x_mm=0.0, y_mm=0.0, width_mm=210.0, height_mm=297.0)
    items = (box(room, Tone.PAPER), Text(x_mm=30.0, y_mm=40.0, text="Leg 1", size_pt=20.0))
    dialog.show_pages([Page(width_mm=210.0, height_mm=297.0, items=items)])
    return dialog


def _land(window: MainWindow) -> QWidget:
    intake = window.files.intake
    return LandDialog(intake.store, StandIns().jobs(), (), None, 1852.0, window.files.ask, window)


def _offings(window: MainWindow) -> QWidget:
    document = Document(window)
    return OffingsDialog(document, lambda *_given: None, lambda: None, window)


def _seen(window: MainWindow) -> QWidget:
    outcome = with_paints(sample_outcome())
    return SeenDialog(observed_report(expected_of(plan_document(outcome)), ()), window)


DIALOGS: dict[str, Callable[[MainWindow], QWidget]] = {
    "about": AboutDialog,
    "keys": KeysDialog,
    "help": HelpDialog,
    "choice": _choice,
    "conditions": lambda window: ConditionsDialog(Options(), window),
    "route": lambda window: RouteDialog("", StandIns().read_text, window),
    "sheets": _sheets,
    "recovery": lambda window: RecoveryDialog((None, None), lambda _index: None, window),
    "copy": lambda window: CopyDialog(window._settings, window),
    "revision": lambda window: RevisionDialog(sample_outcome().revision, window._settings, window),
    "revisions": lambda window: RevisionListDialog(
        (issued(sample_outcome(), issued_utc="2031-05-14T06:00:00Z", note="first"),), window
    ),
    "overwrite": lambda window: overwrite_box(window, Path("a.legsheet"))[0],
    "waypoints": lambda window: WaypointDialog(sample_outcome().request.passage, 0, window),
    "mark": lambda window: MarkDialog(None, None, frozenset(), window),
    "limit": lambda window: LimitDialog(None, ("A",), ("leg 1",), frozenset(), parent=window),
    "drawn": lambda window: DrawnDialog((), (), ("A",), ("leg 1",), window),
    "file": lambda window: window.files.ask.dialog("Open route", "route"),
    "land": _land,
    "places": lambda window: LandPlacesDialog((Path("a.tif"),), Shelf(), window),
    "ship": lambda window: ShipDialog(default_ship(), window),
    "anchor": lambda window: AnchorDialog(None, window),
    "offings": _offings,
    "seen": _seen,
    "unsaved": lambda window: unsaved_box(window)[0],
    "drop": lambda window: drop_box(window)[0],
    "same_name": lambda window: same_name_box(window, "Three islets")[0],
}


def _kinds(kind: type[QDialog]) -> Iterator[type[QDialog]]:
    """All kinds of dialogs; not those that only others are made of."""
    for below in kind.__subclasses__():
        if below.__subclasses__():
            yield from _kinds(below)
        else:
            yield below


def test_no_dialog_of_the_window_is_left_out(dark: MainWindow) -> None:
    shown = set()
    for make in DIALOGS.values():
        dialog = make(dark)
        shown.add(type(dialog))
        if isinstance(dialog, QDialog):
            dialog.done(0)
        dialog.deleteLater()
    ours = {cls for cls in _kinds(QDialog) if cls.__module__.startswith("app.")}
    assert {cls.__name__ for cls in ours - shown} == set()


def test_the_first_picture_of_the_window_is_dark(
    qtbot: QtBot, qapp: QApplication, settings: Settings, stand_ins: StandIns
) -> None:
    settings.put(PALETTE, "night")
    window = MainWindow(Document(), stand_ins.jobs(), settings)
    window.show()
    # Nothing has been drawn in the background yet: this is what stands on the screen first.
    assert _pixels(window).max() <= _BRIGHTEST
    qtbot.waitExposed(window)
    assert _pixels(window).max() <= _BRIGHTEST
    window.close()
    qapp.setStyleSheet("")
    window.deleteLater()


def test_a_tip_is_dark(qtbot: QtBot, dark: MainWindow) -> None:
    QToolTip.showText(dark.mapToGlobal(dark.rect().center()), "Land shadow behind Talpen", dark)
    tips = [w for w in QApplication.topLevelWidgets() if w.inherits("QTipLabel")]
    qtbot.waitUntil(lambda: any(tip.isVisible() for tip in tips))
    assert all(_pixels(tip).max() <= _BRIGHTEST for tip in tips)
    QToolTip.hideText()


def test_each_light_is_dimmed_by_itself_and_stays_so(
    qtbot: QtBot, dark: MainWindow, settings: Settings
) -> None:
    before = int(_pixels(dark).max())
    for _step in range(3):
        dark.actions_by_id["dimmer"].trigger()
    qtbot.waitUntil(lambda: dark.panes.strip.is_current and dark.panes.area.is_ready)
    # 55 % of the light: the value of a channel goes with its 2.2nd root (IEC 61966-2-1, rounded).
    qtbot.waitUntil(lambda: int(_pixels(dark).max()) <= before * 0.55 ** (1 / 2.2) + 1)
    assert dark.statusBar().currentMessage() == "Night colours, 55 % of their light"
    assert Lighting(settings).percent == 55
    dark.actions_by_id["light"].trigger()
    assert dark.light.name == "day"
    assert Lighting(settings).percent == 100
    for _step in range(9):
        dark.actions_by_id["dimmer"].trigger()
    assert Lighting(settings).percent == STEPS[-1]
    dark.actions_by_id["brighter"].trigger()
    assert Lighting(settings).percent == STEPS[-2]


@pytest.mark.parametrize("name", DIALOGS)
def test_every_dialog_is_dark(qtbot: QtBot, dark: MainWindow, name: str) -> None:
    dialog = DIALOGS[name](dark)
    dialog.show()
    dialog.activateWindow()
    qtbot.waitUntil(dialog.isActiveWindow)
    if isinstance(dialog, SheetsDialog):
        qtbot.waitUntil(lambda: dialog.view.image is not None)
    edits: list[QWidget] = [*dialog.findChildren(QLineEdit), *dialog.findChildren(QPlainTextEdit)]
    for edit in [None, *[e for e in edits if e.isVisible()]]:
        if edit is not None:
            edit.setFocus()
        # Seen once on a busy machine: a bright pixel in the file dialog's first picture.
        qtbot.waitUntil(lambda: bool(_pixels(dialog).max() <= _BRIGHTEST), timeout=2000)
        assert _pixels(dialog).mean() < 40
    dialog.close()
    if isinstance(dialog, SheetsDialog):
        dialog.view.close_threads()
    dialog.deleteLater()


@pytest.mark.parametrize("name", DIALOGS)
def test_light_keys_reach_every_dialog(qtbot: QtBot, dark: MainWindow, name: str) -> None:
    dialog = DIALOGS[name](dark)
    dialog.setWindowModality(Qt.WindowModality.ApplicationModal)
    dialog.show()
    dialog.activateWindow()
    qtbot.waitUntil(dialog.isActiveWindow)
    QTest.keyClick(QApplication.focusWidget() or dialog, Qt.Key.Key_F8)
    qtbot.waitUntil(lambda: dark.light.name == "day")
    if isinstance(dialog, SheetsDialog):
        qtbot.waitUntil(lambda: dialog.view.image is not None)
    qtbot.waitUntil(lambda: bool(_pixels(dialog).mean() > 150))
    QTest.keyClick(QApplication.focusWidget() or dialog, Qt.Key.Key_F8)
    QTest.keyClick(QApplication.focusWidget() or dialog, Qt.Key.Key_F8)
    if isinstance(dialog, SheetsDialog):
        qtbot.waitUntil(lambda: dialog.view.image is not None)
    qtbot.waitUntil(lambda: bool(_pixels(dialog).max() <= _BRIGHTEST))
    before = Lighting(dark._settings).percent
    QTest.keyClick(
        QApplication.focusWidget() or dialog, Qt.Key.Key_F8, Qt.KeyboardModifier.ShiftModifier
    )
    assert Lighting(dark._settings).percent < before
    dialog.close()
    if isinstance(dialog, SheetsDialog):
        dialog.view.close_threads()
    dialog.deleteLater()


@pytest.mark.parametrize("light", ["dusk", "night"])
def test_fields_and_boxes_to_tick_have_an_edge(
    qtbot: QtBot, planned: MainWindow, light: str
) -> None:
    planned.set_light(light)
    dialog = QDialog(planned)
    layout = QVBoxLayout(dialog)
    fields: list[QWidget] = [QPushButton(), QLineEdit(), QDoubleSpinBox(), QComboBox()]
    for field in (*fields, QCheckBox()):
        layout.addWidget(field)
    dialog.show()
    fields[0].setFocus()
    paper = np.array(rgb(planned.light.colour(Tone.SHADE)))
    for field in (*fields[1:], *dialog.findChildren(QCheckBox)):
        row = _pixels(field)[field.height() // 2, : field.height(), ::-1].astype(int)
        assert np.abs(row - paper).max(axis=1).max() >= 30, type(field).__name__
        assert row.max() <= max(rgb(planned.light.colour(Tone.INK))), "dimmer than letters"
    dialog.close()
    dialog.deleteLater()


def test_the_answers_to_unsaved_edits_are_all_there(dark: MainWindow) -> None:
    box_, answers = unsaved_box(dark)
    assert set(answers.values()) == {Unsaved.SAVE, Unsaved.DROP, Unsaved.STAY}
    box_.deleteLater()
