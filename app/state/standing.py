"""What holds for the whole project until something is done: read-only, and a plan of old."""

from PySide6.QtCore import QObject, Signal

from core.base.language import tr

SAVE_AS = tr("To change it, save it as another file (Ctrl+Shift+S).")


class Standing(QObject):
    """Sentences shown as long as they hold, apart from notices, which are dismissed."""

    changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._read_only = self._old_plan = self._changes = ""
        self._is_waiting = False

    @property
    def read_only(self) -> str:
        """Why the project cannot be changed where it stands; empty where it can."""
        return self._read_only

    @property
    def is_waiting(self) -> bool:
        """Whether no plan was made since a project was opened that held old ones or what ages."""
        return self._is_waiting

    @property
    def is_old(self) -> bool:
        """Whether what was planned of this project before has not been computed again."""
        return bool(self._old_plan)

    @property
    def sentences(self) -> tuple[str, ...]:
        """All that holds now."""
        found = []
        if self._read_only:
            found.append(
                tr("READ ONLY. {read_only} {save_as}", read_only=self._read_only, save_as=SAVE_AS)
            )
        if self._old_plan:
            found.append(self._old_plan)
            if self._changes:
                found.append(self._changes)
        return tuple(found)

    def begin(self, *, read_only: str = "", old_plan: str = "") -> None:
        """A project was opened."""
        self._read_only, self._old_plan, self._changes = read_only, old_plan, ""
        self._is_waiting = bool(old_plan)
        self.changed.emit()

    def tell_old_plan(self, words: str) -> None:
        """The inputs were edited: what is to be looked at again is no longer what it was."""
        if self._is_waiting and words != self._old_plan:
            self._old_plan = words
            self.changed.emit()

    def tell_changes(self, words: str) -> None:
        """What changed since the plan of old was looked up."""
        self._changes = words
        self.changed.emit()

    def saved(self) -> None:
        """The project has a file of its own now."""
        if self._read_only:
            self._read_only = ""
            self.changed.emit()

    def computed(self) -> None:
        """There is a plan of today."""
        self._is_waiting = False
        if self._old_plan:
            self._old_plan = self._changes = ""
            self.changed.emit()
