"""A menu that stays open while things are ticked in it."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QKeyEvent, QMouseEvent
from PySide6.QtWidgets import QMenu

_KEYS = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space)


class OpenMenu(QMenu):
    """Choosing does not close it; Escape and a click beside it do."""

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Choose what the mouse is on."""
        if not _chosen(self.activeAction()):
            super().mouseReleaseEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return and Space choose what the cursor is on."""
        if Qt.Key(event.key()) not in _KEYS or not _chosen(self.activeAction()):
            super().keyPressEvent(event)


def _chosen(action: QAction | None) -> bool:
    """Choose an action, if there is one that can be."""
    if action is None or not action.isEnabled():
        return False
    action.trigger()
    return True
