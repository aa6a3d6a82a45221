"""A route typed or pasted as text."""

from collections.abc import Callable

from PySide6.QtWidgets import (
    QDialogButtonBox,
    QLabel,
    QPlainTextEdit,
    QVBoxLayout,
    QWidget,
)

from app.views.soft_caret import SoftCaret
from app.window.careful_dialog import CarefulDialog
from core.base.errors import LegsheetError
from core.base.language import tr
from core.passage.passage import Passage

_HELP = tr(
    "One waypoint a line: name, latitude, longitude. Decimal degrees, "
    "or degrees and minutes with N, S, E, W. A copied RTZ, GPX or "
    "GeoJSON text is taken as it is."
)
_EXAMPLE = tr("name, lat, lon\nPilot, 30 05.0 S, 020 10.0 W\nOuter buoy, 30 01.5 S, 020 02.0 W")


class RouteDialog(CarefulDialog):
    """Takes the text of a route and reads it before it closes; what is wrong is said here."""

    def __init__(
        self, text: str, read: Callable[[str], Passage], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._read = read
        self.passage: Passage | None = None
        """The passage as it was read, once the text is taken."""
        self.setWindowTitle(tr("Type or paste route"))
        help_line = QLabel(_HELP, self)
        help_line.setWordWrap(True)
        self._edit = QPlainTextEdit(text, self)
        self._edit.setPlaceholderText(_EXAMPLE)
        self._edit.setTabChangesFocus(True)
        self._edit.setAccessibleName(tr("Text of the route"))
        self._trouble = QLabel(self)
        self._trouble.setObjectName("trouble")
        self._trouble.setWordWrap(True)
        self._trouble.setMinimumHeight(self._trouble.fontMetrics().lineSpacing() * 2)
        buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel, self
        )
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        self._ok = buttons.button(QDialogButtonBox.StandardButton.Ok)
        self._edit.textChanged.connect(self._check)
        layout = QVBoxLayout(self)
        layout.addWidget(help_line)
        layout.addWidget(self._edit, 1)
        layout.addWidget(self._trouble)
        layout.addWidget(buttons)
        self.resize(640, 420)
        SoftCaret(self)
        self._check()

    @property
    def text(self) -> str:
        """What was typed."""
        return self._edit.toPlainText().strip()

    def accept(self) -> None:
        """Close once the text is a route."""
        try:
            self.passage = self._read(self.text)
        except LegsheetError as exc:
            self._trouble.setText(str(exc))
            self._edit.setFocus()
            return
        super().accept()

    def _check(self) -> None:
        self._trouble.clear()
        self._ok.setEnabled(bool(self.text))
