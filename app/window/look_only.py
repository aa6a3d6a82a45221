"""Dialogs of a project that cannot be changed: they show all, and say so before any typing."""

from PySide6.QtWidgets import (
    QAbstractItemView,
    QCheckBox,
    QDialog,
    QDialogButtonBox,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QPushButton,
    QVBoxLayout,
)

from app.state.document import Document
from app.state.standing import SAVE_AS
from core.base.language import tr


def look_only(dialog: QDialog, document: Document) -> None:
    """Where the project is read-only, let nothing be typed and nothing be taken over."""
    layout = dialog.layout()
    if not document.standing.read_only or not isinstance(layout, QVBoxLayout):
        return
    words = QLabel(tr("READ ONLY: to look at alone. {save_as}", save_as=SAVE_AS), dialog)
    words.setObjectName("trouble")
    words.setWordWrap(True)
    layout.insertWidget(0, words)
    leaving = [
        button
        for box in dialog.findChildren(QDialogButtonBox)
        for button in box.buttons()
        if box.buttonRole(button) is QDialogButtonBox.ButtonRole.RejectRole
    ]
    for button in dialog.findChildren(QPushButton):
        button.setEnabled(button in leaving)
    for edit in dialog.findChildren(QLineEdit):
        edit.setReadOnly(True)
    for text in dialog.findChildren(QPlainTextEdit):
        text.setReadOnly(True)
    for view in dialog.findChildren(QAbstractItemView):
        view.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
    # Boxes to choose from stay: some choose what is shown.
    for tick in dialog.findChildren(QCheckBox):
        tick.setEnabled(False)
