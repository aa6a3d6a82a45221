"""Actions and menus of the window, made from the table of actions."""

from collections.abc import Callable, Mapping

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMainWindow, QMenu

from app.state.document import Document
from app.window.action_row import Menu
from app.window.action_table import ACTIONS


def build_actions(
    window: QMainWindow, handlers: Mapping[str, Callable[[], None]]
) -> dict[str, QAction]:
    """Make every action of the table and its menus; each needs a handler of the same id."""
    made: dict[str, QAction] = {}
    menus: dict[Menu, QMenu] = {menu: window.menuBar().addMenu(menu.value) for menu in Menu}
    for row in ACTIONS:
        action = QAction(row.text, window)
        action.setObjectName(row.id)
        action.setShortcut(QKeySequence(row.shortcut))
        action.setStatusTip(row.tip)
        action.setToolTip(f"{row.tip} ({row.shortcut})")
        if row.in_strip:
            action.setIconText(row.in_strip)
        action.triggered.connect(_caller(handlers[row.id]))
        if row.starts_group:
            menus[row.menu].addSeparator()
        menus[row.menu].addAction(action)
        made[row.id] = action
    return made


def _caller(handler: Callable[[], None]) -> Callable[[bool], None]:
    return lambda _checked: handler()


def enable_actions(actions: Mapping[str, QAction], document: Document) -> None:
    """Switch every action on or off as the document stands."""
    for row in ACTIONS:
        actions[row.id].setEnabled(row.enabled_when(document))
