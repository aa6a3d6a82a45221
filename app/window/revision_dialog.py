"""Issuing a plan as a revision: what changed since the last one, and why."""

from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QVBoxLayout,
    QWidget,
)

from app.views.soft_caret import SoftCaret
from core.plan.revision import PlanRevision
from core.words.revision_words import revision_lines

_LONGEST_NOTE = 120


class RevisionDialog(QDialog):
    """Shows what changed leg by leg and takes a note."""

    def __init__(self, revision: PlanRevision, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(f"Issue as revision {revision.number}")
        changes = QPlainTextEdit("\n".join(revision_lines(revision)), self)
        changes.setReadOnly(True)
        changes.setAccessibleName("What changed")
        label = QLabel("&Why this revision (printed on the front page):", self)
        self._note = QLineEdit(revision.note, self)
        self._note.setMaxLength(_LONGEST_NOTE)
        self._note.setAccessibleName("Why this revision")
        label.setBuddy(self._note)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel, self)
        issue = buttons.addButton("&Issue", QDialogButtonBox.ButtonRole.AcceptRole)
        issue.setDefault(True)
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addWidget(changes, 1)
        layout.addWidget(label)
        layout.addWidget(self._note)
        layout.addWidget(buttons)
        self.resize(640, 420)
        SoftCaret(self)
        self._note.setFocus()

    @property
    def note(self) -> str:
        """Why, as typed."""
        return self._note.text().strip()
