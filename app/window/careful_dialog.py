"""Dialogs in which work is done: Esc asks before it throws away what was changed."""

from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QCheckBox,
    QComboBox,
    QDialog,
    QLineEdit,
    QMessageBox,
    QPlainTextEdit,
    QWidget,
)

from core.base.language import tr


def drop_box(parent: QWidget) -> tuple[QMessageBox, QAbstractButton]:
    """The question whether changes may be dropped, and the button that says so."""
    box = QMessageBox(parent)
    box.setWindowTitle(tr("Changes not taken over"))
    box.setText(tr("What you changed here is not taken over yet."))
    stay = box.addButton(tr("&Go on here"), QMessageBox.ButtonRole.RejectRole)
    drop = box.addButton(tr("&Drop the changes"), QMessageBox.ButtonRole.DestructiveRole)
    box.setDefaultButton(stay)
    box.setEscapeButton(stay)
    return box, drop


def typed_in(widget: QWidget) -> tuple[object, ...]:
    """What stands in the fields of a form, and which boxes are ticked."""
    # Fields inside a table or a box to choose from come and go while one works in it.
    lines = [edit.text() for edit in widget.findChildren(QLineEdit) if not _is_inside(edit)]
    texts = [text.toPlainText() for text in widget.findChildren(QPlainTextEdit)]
    choices = [box.currentText() for box in widget.findChildren(QComboBox)]
    ticks = [box.isChecked() for box in widget.findChildren(QCheckBox)]
    return (tuple(lines), tuple(texts), tuple(choices), tuple(ticks))


def _is_inside(edit: QLineEdit) -> bool:
    above = edit.parentWidget()
    while above is not None:
        if isinstance(above, QAbstractItemView | QComboBox):
            return True
        above = above.parentWidget()
    return False


class CarefulDialog(QDialog):
    """Remembers how it stood when it was first shown; another state is not dropped unasked."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._begun: object = None

    def state(self) -> object:
        """What would be lost, to be compared."""
        return typed_in(self)

    def setVisible(self, visible: bool) -> None:
        """Note how it stands before anything is done in it."""
        if visible and self._begun is None:
            self._begun = self.state()
        super().setVisible(visible)

    def reject(self) -> None:
        """Close without taking over, if nothing is lost by it or the officer means it."""
        if not self.isVisible() or self.state() == self._begun or self._may_drop():
            super().reject()

    def _may_drop(self) -> bool:
        box, drop = drop_box(self)
        box.exec()
        is_meant = box.clickedButton() is drop
        box.deleteLater()
        return is_meant
