"""What small forms share: rows of edits, a line for what is wrong, and two buttons."""

from PySide6.QtWidgets import (
    QDialogButtonBox,
    QFormLayout,
    QLabel,
    QVBoxLayout,
    QWidget,
)

from app.views.soft_caret import SoftCaret
from app.window.careful_dialog import CarefulDialog

_EDIT_PX = 300


class FormDialog(CarefulDialog):
    """A form that is checked before it closes; ``take`` reads it or says what is wrong."""

    def __init__(self, title: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self.form = QFormLayout()
        self.trouble = QLabel(self)
        self.trouble.setObjectName("trouble")
        self.trouble.setWordWrap(True)
        self.trouble.setMinimumHeight(self.trouble.fontMetrics().lineSpacing() * 2)
        self._layout = QVBoxLayout(self)
        self._layout.addLayout(self.form)
        self._layout.addWidget(self.trouble)

    def row(self, label: str, edit: QWidget) -> None:
        """One row of the form."""
        edit.setMinimumWidth(_EDIT_PX)
        edit.setAccessibleName(label.replace("&", ""))
        self.form.addRow(label, edit)

    def finish(self) -> QDialogButtonBox:
        """Add the buttons below the rows."""
        buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel, self
        )
        buttons.accepted.connect(self._try)
        buttons.rejected.connect(self.reject)
        self._layout.addWidget(buttons)
        SoftCaret(self)
        return buttons

    def take(self) -> None:
        """Read the form.

        Raises
        ------
        ValueError
            What is wrong, in one sentence.
        """
        raise NotImplementedError

    def _try(self) -> None:
        try:
            self.take()
        except ValueError as exc:
            words = str(exc).rstrip(".")
            self.trouble.setText(f"{words[0].upper()}{words[1:]}.")
            return
        self.accept()
