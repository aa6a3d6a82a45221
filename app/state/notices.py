"""What the officer must be told: kept until a view listens, shown until it no longer holds."""

from collections.abc import Iterable
from dataclasses import dataclass, fields
from enum import Enum

from PySide6.QtCore import QObject, Signal

from core.files.project import Project

_PARTS = tuple(part.name for part in fields(Project))
EVERY_EDIT = frozenset(_PARTS)
"""Of what goes with any edit."""


class NoticeKind(Enum):
    """How a notice is meant."""

    DONE = "done"
    CHECK = "check"
    STOPPED = "stopped"
    TROUBLE = "cannot do"
    FAULT = "fault"


@dataclass(frozen=True, slots=True, kw_only=True)
class Notice:
    """One sentence for the officer."""

    kind: NoticeKind
    text: str
    about: frozenset[str] = frozenset()
    """Parts of the project it is about: once one of them changes it holds no longer."""
    lasts: bool = False
    """Whether neither another job nor another project makes it old."""


class Notices(QObject):
    """The notices that hold and are not dismissed, oldest first."""

    changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._waiting: list[Notice] = []

    @property
    def waiting(self) -> tuple[Notice, ...]:
        """All notices not yet dismissed."""
        return tuple(self._waiting)

    def post(
        self, kind: NoticeKind, text: str, *, about: Iterable[str] = (), lasts: bool = False
    ) -> None:
        """Add a notice; one told again comes anew, and news replaces older news.

        Trouble is about the project as it is, so that any edit takes it away, unless it lasts.
        """
        parts = frozenset(about)
        if kind is NoticeKind.TROUBLE and not parts and not lasts:
            parts = EVERY_EDIT
        if kind is NoticeKind.DONE:
            self._waiting = [n for n in self._waiting if n.kind is not NoticeKind.DONE]
        self._waiting = [n for n in self._waiting if (n.kind, n.text) != (kind, text)]
        self._waiting.append(Notice(kind=kind, text=text, about=parts, lasts=lasts))
        self.changed.emit()

    def dismiss(self) -> None:
        """Take the newest notice away, which is the one shown."""
        if self._waiting:
            del self._waiting[-1]
            self.changed.emit()

    def clear(self, *kinds: NoticeKind) -> None:
        """Take away all notices of some kinds, as a new attempt makes them old."""
        self._keep([n for n in self._waiting if n.lasts or n.kind not in kinds])

    def edited(self, before: Project, after: Project) -> None:
        """The project was edited, or an edit undone: what was told of those parts goes."""
        changed = {name for name in _PARTS if getattr(before, name) != getattr(after, name)}
        self._keep([n for n in self._waiting if not n.about & changed])

    def begin(self) -> None:
        """Another project is open: what was told of the one before goes."""
        self.clear(*(kind for kind in NoticeKind if kind is not NoticeKind.FAULT))

    def _keep(self, kept: list[Notice]) -> None:
        if len(kept) != len(self._waiting):
            self._waiting = kept
            self.changed.emit()
