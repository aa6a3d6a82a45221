"""The text cursor in ink: Qt inverts what is under it, which is near white in the dark."""

from PySide6.QtCore import QEvent, QObject, QRect, Qt
from PySide6.QtGui import QPainter, QPalette
from PySide6.QtWidgets import QLineEdit, QPlainTextEdit, QStyle, QWidget

_SLACK_PX = 5
"""Qt widens the rectangle it tells for a line's cursor by this much on the left."""


class SoftCaret(QObject):
    """Paints over the text cursor of an edit, or of all below a widget, before it is seen."""

    def __init__(self, owner: QWidget) -> None:
        super().__init__(owner)
        own = [owner] if isinstance(owner, QLineEdit) else []
        for line in (*own, *owner.findChildren(QLineEdit)):
            line.installEventFilter(self)
        for text in owner.findChildren(QPlainTextEdit):
            text.viewport().installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Let the edit paint itself, then lay ink over its cursor."""
        if event.type() != QEvent.Type.Paint or not isinstance(watched, QWidget):
            return False
        edit = watched if isinstance(watched, QLineEdit) else watched.parentWidget()
        place = _cursor_place(edit)
        if edit is None or place is None:
            return False
        if isinstance(edit, QPlainTextEdit):
            edit.viewportEvent(event)
        else:
            watched.event(event)
        painter = QPainter(watched)
        painter.fillRect(place, edit.palette().color(QPalette.ColorRole.Text))
        painter.end()
        return True


def _cursor_place(edit: QWidget | None) -> QRect | None:
    if edit is None or not edit.hasFocus():
        return None
    width = edit.style().pixelMetric(QStyle.PixelMetric.PM_TextCursorWidth, None, edit)
    if isinstance(edit, QLineEdit):
        place = edit.inputMethodQuery(Qt.InputMethodQuery.ImCursorRectangle)
        if isinstance(place, QRect):
            return QRect(place.left() + _SLACK_PX, place.top(), width, place.height())
        return None
    if isinstance(edit, QPlainTextEdit):
        place = edit.cursorRect()
        return QRect(place.left(), place.top(), width, place.height())
    return None
