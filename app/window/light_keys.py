"""Keys of day, dusk, night and brightness also where a dialog holds the window."""

from collections.abc import Iterable

from PySide6.QtCore import QObject
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QApplication, QDialog, QWidget

LIGHT_KEYS = ("light", "dimmer", "brighter")


class LightKeys(QObject):
    """Lends its actions to every dialog as it becomes active.

    No key of the window reaches a dialog that holds it, not even one of the whole application.
    A filter on the application would hold up every event; this is asked once a dialog.
    """

    def __init__(self, actions: Iterable[QAction], window: QWidget) -> None:
        super().__init__(window)
        self._actions = list(actions)
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.focusWindowChanged.connect(self._lend)

    def _lend(self) -> None:
        dialog = QApplication.activeWindow()
        if isinstance(dialog, QDialog) and self._actions[0] not in dialog.actions():
            dialog.addActions(self._actions)
