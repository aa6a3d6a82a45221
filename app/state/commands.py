"""Edits as commands on the undo stack: the project before and after, nothing live."""

from collections.abc import Callable

from PySide6.QtGui import QUndoCommand

from core.files.project import Project


class ProjectEdit(QUndoCommand):
    """One intention of the officer: swaps one project for another and back."""

    def __init__(
        self, text: str, *, before: Project, after: Project, put: Callable[[Project], None]
    ) -> None:
        super().__init__(text)
        self._before = before
        self._after = after
        self._put = put

    def redo(self) -> None:
        """Put the project after the edit."""
        self._put(self._after)

    def undo(self) -> None:
        """Put the project before the edit."""
        self._put(self._before)
