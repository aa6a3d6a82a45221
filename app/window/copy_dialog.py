"""Who makes a read-only copy for others."""

from PySide6.QtWidgets import QDialog, QDialogButtonBox, QLabel, QVBoxLayout, QWidget

from app.state.settings import Settings
from app.views.soft_caret import SoftCaret
from app.window.officer_field import OfficerField
from core.base.language import tr


class CopyDialog(QDialog):
    """Says what such a copy is and asks for a name."""

    def __init__(self, settings: Settings, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Read-only copy for others"))
        words = QLabel(
            tr(
                "The copy says who made it and when. It can be looked at, computed "
                "and printed; whoever wants to change it saves it as another file. "
                "Route, land and ship files are named in it, not put into it."
            ),
            self,
        )
        words.setWordWrap(True)
        self._officer = OfficerField(tr("&Made by (rank and name):"), settings, self)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel, self)
        self._go_on = buttons.addButton(tr("&Go on"), QDialogButtonBox.ButtonRole.AcceptRole)
        self._go_on.setDefault(True)
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        for part in (words, self._officer.label, self._officer.edit, buttons):
            layout.addWidget(part)
        self.resize(460, 190)
        SoftCaret(self)
        self._officer.edit.textChanged.connect(self._check)
        self._officer.edit.setFocus()
        self._check()

    @property
    def who(self) -> str:
        """Rank and name."""
        return self._officer.who

    def accept(self) -> None:
        """Remember the name and close."""
        self._officer.remember()
        super().accept()

    def _check(self) -> None:
        self._go_on.setEnabled(bool(self.who))
