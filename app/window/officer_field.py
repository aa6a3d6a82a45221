"""Rank and name of who signs, remembered from one time to the next."""

from PySide6.QtWidgets import QLabel, QLineEdit, QWidget

from app.state.settings import OFFICER, Settings
from core.base.language import tr

_LONGEST = 60


class OfficerField:
    """A label and a line to type in, filled in with what was typed last."""

    def __init__(self, words: str, settings: Settings, parent: QWidget) -> None:
        self._settings = settings
        self.edit = QLineEdit(settings.get(OFFICER), parent)
        self.edit.setMaxLength(_LONGEST)
        self.edit.setPlaceholderText(tr("such as 2/O A. Example"))
        self.edit.setAccessibleName(tr("Rank and name"))
        self.label = QLabel(words, parent)
        self.label.setBuddy(self.edit)

    @property
    def who(self) -> str:
        """As typed, without needless blanks."""
        return " ".join(self.edit.text().split())

    def remember(self) -> None:
        """Keep it for the next time."""
        self._settings.put(OFFICER, self.who)
