import re
from collections import Counter

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu
from pytestqt.qtbot import QtBot

from app.window.action_row import Menu
from app.window.action_table import ACTIONS
from app.window.main_window import MainWindow


def _mnemonic(text: str) -> str:
    found = re.search(r"&(\w)", text)
    return found.group(1).lower() if found else ""


def test_no_shortcut_is_given_twice() -> None:
    keys = Counter(QKeySequence(row.shortcut).toString() for row in ACTIONS)
    assert [key for key, count in keys.items() if count > 1 or not key] == []


def test_every_id_is_given_once_and_every_action_says_what_it_does() -> None:
    assert len({row.id for row in ACTIONS}) == len(ACTIONS)
    assert all(row.text and row.tip for row in ACTIONS)


def test_no_letter_is_underlined_twice_in_a_menu_or_between_menus_and_tabs(
    window: MainWindow,
) -> None:
    tabs = window.panes.tables
    top = [menu.value for menu in Menu] + [tabs.tabText(i) for i in range(tabs.count())]
    letters = Counter(_mnemonic(text) for text in top)
    assert [letter for letter, count in letters.items() if count > 1 or not letter] == []
    for menu in Menu:
        rows = [row for row in ACTIONS if row.menu is menu]
        letters = Counter(_mnemonic(row.text) for row in rows if "&" in row.text)
        assert [letter for letter, count in letters.items() if count > 1] == [], menu


def test_every_action_is_in_a_menu_with_its_key(window: MainWindow) -> None:
    shown: set[str] = set()
    for menu in window.menuBar().findChildren(QMenu):
        shown |= {action.objectName() for action in menu.actions() if not action.isSeparator()}
    assert shown >= {row.id for row in ACTIONS}
    made = window.findChildren(QAction)
    assert all(action.shortcut() for action in made if action.objectName() in shown)


def test_what_cannot_be_done_without_a_plan_is_off(window: MainWindow) -> None:
    on = {name for name, action in window.actions_by_id.items() if action.isEnabled()}
    assert {"open_route", "type_route", "add_land", "conditions", "about", "quit", "light"} <= on
    assert not on & {"print", "preview", "export_pdf", "export_json", "stop", "undo", "compute"}


def test_with_a_plan_it_is_on(planned: MainWindow) -> None:
    on = {name for name, action in planned.actions_by_id.items() if action.isEnabled()}
    assert {"print", "export_csv", "compute", "next_leg", "choose_object", "cursor_ahead"} <= on
    assert not on & {"stop", "undo", "redo", "last_leg", "dismiss"}


def test_what_is_off_looks_fainter_in_the_menus(qtbot: QtBot, window: MainWindow) -> None:
    """Seen in a picture of 2026-11-26: the style of menus gave all items one colour of ink."""
    menu = QMenu(window)
    menu.addAction("WWWW")
    pictures = []
    for is_on in (True, False):
        menu.actions()[0].setEnabled(is_on)
        menu.popup(window.pos())
        qtbot.waitUntil(menu.isVisible)
        image = menu.grab().toImage()
        pixels = [image.pixelColor(x, y) for x in range(image.width()) for y in range(4, 20)]
        pictures.append(min(pixel.lightness() for pixel in pixels))
        menu.close()
    menu.deleteLater()
    assert pictures[1] > pictures[0] + 40
