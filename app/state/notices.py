"""What the officer must be told: one queue, kept until a view listens, shown until dismissed."""

from dataclasses import dataclass
from enum import Enum

from PySide6.QtCore import QObject, Signal


class NoticeKind(Enum):
    """How a notice is meant."""

    DONE = "done"
    CHECK = "check"
    TROUBLE = "cannot do"
    FAULT = "fault"


@dataclass(frozen=True, slots=True, kw_only=True)
class Notice:
    """One sentence for the officer."""

    kind: NoticeKind
    text: str


class Notices(QObject):
    """The notices not yet dismissed, oldest first."""

    changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._waiting: list[Notice] = []

    @property
    def waiting(self) -> tuple[Notice, ...]:
        """All notices not yet dismissed."""
        return tuple(self._waiting)

    def post(self, kind: NoticeKind, text: str) -> None:
        """Add a notice; a trouble told again is shown once, and news replaces older news."""
        if kind is NoticeKind.DONE:
            self._waiting = [n for n in self._waiting if n.kind is not NoticeKind.DONE]
        notice = Notice(kind=kind, text=text)
        if notice not in self._waiting:
            self._waiting.append(notice)
        self.changed.emit()

    def dismiss(self) -> None:
        """Take the oldest notice away."""
        if self._waiting:
            del self._waiting[0]
            self.changed.emit()

    def clear(self, kind: NoticeKind) -> None:
        """Take away all notices of a kind, as a new attempt makes them old."""
        kept = [n for n in self._waiting if n.kind is not kind]
        if len(kept) != len(self._waiting):
            self._waiting = kept
            self.changed.emit()
