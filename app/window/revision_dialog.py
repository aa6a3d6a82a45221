"""Issuing a plan as a revision: what changed since the last one, who issues it and why."""

from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QVBoxLayout,
    QWidget,
)

from app.state.settings import Settings
from app.views.soft_caret import SoftCaret
from app.window.officer_field import OfficerField
from core.base.language import tr
from core.plan.revision import PlanRevision
from core.words.revision_words import revision_lines

_LONGEST_NOTE = 120


class RevisionDialog(QDialog):
    """Shows what changed leg by leg and takes a name and a note."""

    def __init__(
        self, revision: PlanRevision, settings: Settings, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Issue as revision {number}", number=revision.number))
        changes = QPlainTextEdit("\n".join(revision_lines(revision)), self)
        changes.setReadOnly(True)
        changes.setAccessibleName(tr("What changed"))
        self._officer = OfficerField(tr("Issued &by (rank and name):"), settings, self)
        label = QLabel(tr("&Why this revision (printed on the front page):"), self)
        self._note = QLineEdit(revision.note, self)
        self._note.setMaxLength(_LONGEST_NOTE)
        self._note.setAccessibleName(tr("Why this revision"))
        label.setBuddy(self._note)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel, self)
        self._issue = buttons.addButton(tr("&Issue"), QDialogButtonBox.ButtonRole.AcceptRole)
        self._issue.setDefault(True)
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addWidget(changes, 1)
        for part in (self._officer.label, self._officer.edit, label, self._note, buttons):
            layout.addWidget(part)
        self.resize(640, 460)
        SoftCaret(self)
        self._officer.edit.textChanged.connect(self._check)
        self._check()
        (self._note if self._officer.who else self._officer.edit).setFocus()

    @property
    def note(self) -> str:
        """Why, as typed."""
        return self._note.text().strip()

    @property
    def who(self) -> str:
        """Rank and name."""
        return self._officer.who

    def accept(self) -> None:
        """Remember the name and close."""
        self._officer.remember()
        super().accept()

    def _check(self) -> None:
        self._issue.setEnabled(bool(self.who))
