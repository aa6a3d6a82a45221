"""A dialog that is about to open, worked by keys; it never stays open after that."""

from collections.abc import Callable
from typing import TypeVar

from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QWidget

D = TypeVar("D", bound=QDialog)


def when_open(kind: type[D], do: Callable[[D], None]) -> None:
    """Do something once such a dialog is open and has the keyboard."""

    def look() -> None:
        dialog = QApplication.activeModalWidget()
        # It is modal a moment before it is shown.
        if not isinstance(dialog, kind) or not dialog.isActiveWindow():
            QTimer.singleShot(20, look)
            return
        try:
            do(dialog)
        finally:
            if dialog.isVisible():
                dialog.reject()

    QTimer.singleShot(0, look)


def alt(dialog: QWidget, key: Qt.Key) -> None:
    """Press a button by its letter; Qt shows it pressed for a tenth of a second first."""
    QTest.keyClick(dialog, key, Qt.KeyboardModifier.AltModifier)
    QTest.qWait(250)
