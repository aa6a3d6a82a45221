"""The notice at the top: one sentence at a time, the newest first, never in the way."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QWidget

from app.state.document import Document
from app.state.notices import NoticeKind
from core.base.language import tr

_HEADS = {
    NoticeKind.DONE: tr("Done"),
    NoticeKind.CHECK: tr("Check"),
    NoticeKind.STOPPED: tr("Stopped"),
    NoticeKind.TROUBLE: tr("Cannot do this"),
    NoticeKind.FAULT: tr("Fault in the program"),
}


class NoticeBar(QFrame):
    """Shows the newest notice of the document, hidden where there is none."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._notices = document.notices
        self.setObjectName("notice_bar")
        self.setFrameShape(QFrame.Shape.StyledPanel)
        self._head = QLabel(self)
        self._head.setObjectName("notice_head")
        self._text = QLabel(self)
        self._text.setWordWrap(True)
        self._text.setTextFormat(Qt.TextFormat.PlainText)
        self._text.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self._dismiss = QPushButton(tr("Dismiss (F4)"), self)
        self._dismiss.clicked.connect(self._notices.dismiss)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(8, 3, 8, 3)
        layout.addWidget(self._head)
        layout.addWidget(self._text, 1)
        layout.addWidget(self._dismiss)
        self._notices.changed.connect(self._refresh)
        self._refresh()

    def _refresh(self) -> None:
        waiting = self._notices.waiting
        self.setVisible(bool(waiting))
        if waiting:
            more = tr("  ({count} more)", count=len(waiting) - 1) if len(waiting) > 1 else ""
            newest = waiting[-1]
            self.setProperty("kind", newest.kind.name.lower())
            for part in (self, self._head):
                self.style().unpolish(part)
                self.style().polish(part)
            self._head.setText(f"{_HEADS[newest.kind]}:")
            self._text.setText(newest.text + more)
