"""Issuing revisions, and looking through those that were issued."""

from collections.abc import Callable

from PySide6.QtWidgets import QWidget

from app.state.document import Document
from app.state.notices import NoticeKind
from app.state.settings import Settings
from app.window.revision_dialog import RevisionDialog
from app.window.revision_list_dialog import RevisionListDialog
from core.base.language import tr


class RevisionActions:
    """Handlers of revisions."""

    def __init__(self, window: QWidget, document: Document, settings: Settings) -> None:
        self._window = window
        self._document = document
        self._settings = settings

    def handlers(self) -> dict[str, Callable[[], None]]:
        """Handlers by the id of their action."""
        return {"issue_revision": self.issue, "revisions": self.show_all}

    def issue(self) -> None:
        """Ask who and why, and keep the plan as the next revision."""
        outcome = self._document.outcome
        if outcome is None or self._document.is_stale:
            return
        if self._document.refuses(tr("issue a revision")):
            return
        # Loaded with the plan; at the start of the window it would take seconds.
        from core.jobs.plan_passage import created_utc

        dialog = RevisionDialog(outcome.revision, self._settings, self._window)
        if dialog.exec() == RevisionDialog.DialogCode.Accepted:
            before = self._document.project.revisions
            self._document.issue_revision(dialog.note, issued_utc=created_utc(), by=dialog.who)
            if self._document.project.revisions != before:
                self._document.notices.post(
                    NoticeKind.DONE,
                    tr(
                        "Issued as revision {number}. Save the project to keep it.",
                        number=outcome.revision.number,
                    ),
                    about=("revisions",),
                )
        dialog.deleteLater()

    def show_all(self) -> None:
        """Show all that were issued."""
        dialog = RevisionListDialog(self._document.project.revisions, self._window)
        dialog.exec()
        dialog.deleteLater()
