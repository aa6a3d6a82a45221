"""At night no pixel of window, menu or dialog is bright: read from pictures of them."""

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QLineEdit, QMenu, QPlainTextEdit, QWidget
from pytestqt.qtbot import QtBot

from app.paint.palette import PALETTES
from app.state.document import Document
from app.state.notices import NoticeKind
from app.views.area_inks import rgb
from app.window.about import AboutDialog, KeysDialog
from app.window.ask import Unsaved, overwrite_box, unsaved_box
from app.window.choice_dialog import ChoiceDialog
from app.window.conditions_dialog import ConditionsDialog
from app.window.copy_dialog import CopyDialog
from app.window.main_window import MainWindow
from app.window.recent_menu import RecentMenu
from app.window.recovery_dialog import RecoveryDialog
from app.window.revision_dialog import RevisionDialog
from app.window.revision_list_dialog import RevisionListDialog
from app.window.route_dialog import RouteDialog
from app.window.sheets_dialog import SheetsDialog
from core.files.project import Options
from core.jobs.revise_plan import issued
from core.sheets.page import Page, Rectangle, Text, Tone, box
from tests.helpers.sample_outcome import sample_outcome

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
    return ChoiceDialog(sample_outcome().plan.legs[0], (), "primary", "A", window)


def _sheets(window: MainWindow) -> QWidget:
    dialog = SheetsDialog(
        window.light, print_them=lambda _parts: None, export_them=lambda _parts: None, parent=window
    )
    room = Rectangle(x_mm=0.0, y_mm=0.0, width_mm=210.0, height_mm=297.0)
    items = (box(room, Tone.PAPER), Text(x_mm=30.0, y_mm=40.0, text="Leg 1", size_pt=20.0))
    dialog.show_pages([Page(width_mm=210.0, height_mm=297.0, items=items)])
    return dialog


_DIALOGS: dict[str, Callable[[MainWindow], QWidget]] = {
    "about": AboutDialog,
    "keys": KeysDialog,
    "choice": _choice,
    "conditions": lambda window: ConditionsDialog(Options(), window),
    "route": lambda window: RouteDialog("", window),
    "sheets": _sheets,
    "recovery": lambda window: RecoveryDialog((None, None), lambda _index: None, window),
    "copy": lambda window: CopyDialog(window._settings, window),
    "revision": lambda window: RevisionDialog(sample_outcome().revision, window._settings, window),
    "revisions": lambda window: RevisionListDialog(
        (issued(sample_outcome(), issued_utc="2031-05-14T06:00:00Z", note="first"),), window
    ),
    "overwrite": lambda window: overwrite_box(window, Path("a.legsheet"))[0],
    "file": lambda window: window.files.ask.dialog("Open route", "route"),
    "unsaved": lambda window: unsaved_box(window)[0],
}


@pytest.mark.parametrize("name", _DIALOGS)
def test_every_dialog_is_dark(qtbot: QtBot, dark: MainWindow, name: str) -> None:
    dialog = _DIALOGS[name](dark)
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


def test_the_answers_to_unsaved_edits_are_all_there(dark: MainWindow) -> None:
    box_, answers = unsaved_box(dark)
    assert set(answers.values()) == {Unsaved.SAVE, Unsaved.DROP, Unsaved.STAY}
    box_.deleteLater()
