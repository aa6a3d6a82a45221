"""The read-out under the strip: what holds where own ship is."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QLabel, QVBoxLayout, QWidget

from app.state.document import Document
from app.views.readout_words import readout
from core.base.language import tr


class ReadoutBar(QFrame):
    """Three lines of words that follow the cursor."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.setObjectName("readout")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(6, 2, 6, 2)
        layout.setSpacing(0)
        self._lines: list[QLabel] = []
        for number in range(3):
            label = QLabel(self)
            label.setTextFormat(Qt.TextFormat.PlainText)
            label.setWordWrap(True)
            label.setObjectName("readout_keep" if number == 1 else "readout_line")
            if number == 1:
                font = label.font()
                font.setBold(True)
                label.setFont(font)
            self._lines.append(label)
            layout.addWidget(label)
        # Room for two lines more, so that the strip does not jump while own ship moves.
        self.setMinimumHeight(5 * self.fontMetrics().lineSpacing() + 6)
        layout.addStretch(1)
        document.cursor_changed.connect(self._refresh)
        document.leg_changed.connect(self._refresh)
        document.outcome_changed.connect(self._refresh)
        document.project_changed.connect(self._refresh)
        self._refresh()

    @property
    def words(self) -> tuple[str, ...]:
        """What is shown, line by line."""
        return tuple(label.text() for label in self._lines)

    def _refresh(self) -> None:
        outcome, index = self._document.outcome, self._document.leg_index
        words = ("", "", "")
        if outcome is not None and index < len(outcome.plan.legs):
            words = readout(outcome, index, self._document.cursor_along_m)
            if self._document.is_stale:
                words = (words[0], tr("OUT OF DATE: {why}", why=words[1]), words[2])
        for label, text in zip(self._lines, words, strict=True):
            label.setText(text)
