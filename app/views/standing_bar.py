"""What holds for the whole project, in view until it no longer does."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QLabel, QVBoxLayout, QWidget

from app.state.document import Document


class StandingBar(QFrame):
    """One line for each sentence that stands; hidden where there is none."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._standing = document.standing
        self.setObjectName("standing_bar")
        self.setFrameShape(QFrame.Shape.StyledPanel)
        self._text = QLabel(self)
        self._text.setObjectName("standing_text")
        self._text.setWordWrap(True)
        self._text.setTextFormat(Qt.TextFormat.PlainText)
        self._text.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 3, 8, 3)
        layout.addWidget(self._text)
        self._standing.changed.connect(self._refresh)
        self._refresh()

    def _refresh(self) -> None:
        sentences = self._standing.sentences
        self.setVisible(bool(sentences))
        self._text.setText("\n".join(sentences))
