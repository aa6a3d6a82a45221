"""All revisions that were issued: who, when, why, and what changed in each."""

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QLabel,
    QListWidget,
    QPlainTextEdit,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from app.views.soft_caret import SoftCaret
from core.base.language import tr
from core.plan.revision import Revision
from core.words.revision_words import history_lines, issued_words


class RevisionListDialog(QDialog):
    """The last one stands first; what changed in the chosen one below."""

    def __init__(self, revisions: Sequence[Revision], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Issued revisions"))
        self._revisions = tuple(revisions)
        self._list = QListWidget(self)
        self._list.setWordWrap(True)
        self._list.setAccessibleName(tr("Issued revisions, the last one first"))
        self._list.addItems([issued_words(one) for one in reversed(self._revisions)])
        self._changes = QPlainTextEdit(self)
        self._changes.setReadOnly(True)
        self._changes.setAccessibleName(tr("What changed in it"))
        label = QLabel(tr("What &changed in it:"), self)
        label.setBuddy(self._changes)
        below = QWidget(self)
        column = QVBoxLayout(below)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(label)
        column.addWidget(self._changes, 1)
        halves = QSplitter(Qt.Orientation.Vertical, self)
        halves.addWidget(self._list)
        halves.addWidget(below)
        halves.setStretchFactor(1, 1)
        buttons = QDialogButtonBox(self)
        close = buttons.addButton(tr("C&lose"), QDialogButtonBox.ButtonRole.RejectRole)
        close.setDefault(True)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addWidget(halves, 1)
        layout.addWidget(buttons)
        self.resize(700, 520)
        SoftCaret(self)
        self._list.currentRowChanged.connect(self._show)
        self._list.setCurrentRow(0)
        self._list.setFocus()

    def _show(self, row: int) -> None:
        index = len(self._revisions) - 1 - row
        before = self._revisions[index - 1] if index > 0 else None
        self._changes.setPlainText("\n".join(history_lines(self._revisions[index], before)))
