"""What is not saved is kept in the user's state folder, and which projects stand open there."""

import hashlib
import logging
import os
from datetime import UTC, datetime
from pathlib import Path

from PySide6.QtCore import QElapsedTimer, QObject, QTimer

from app.state.document import Document
from app.state.notices import NoticeKind
from app.work.runner import JobProgress, Runner
from core.base.errors import InputError, LegsheetError
from core.base.language import tr
from core.files.autosave_file import Autosave
from core.files.autosave_folder import LeftBehind, OwnAutosave, left_behind
from core.files.file_lock import HeldLock
from core.files.hashing import sha256_of

log = logging.getLogger(__name__)

WAIT_MS = 3000
"""From one autosave to the next; further edits do not put it off."""
SOON_MS = 250
"""From an edit to its autosave where none was written for that long."""


class Keeping(QObject):
    """Autosaves of one window, and the projects it holds open.

    Without a folder nothing is kept. Autosaves are written by a thread of their own.
    """

    def __init__(
        self, document: Document, folder: Path | None, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._document = document
        self._folder = folder
        self._own = OwnAutosave(folder / "autosave") if folder is not None else None
        self._runner = Runner("legsheet-keep", self)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self.keep_now)
        self._since_last = QElapsedTimer()
        self._is_kept = self._is_trouble_told = False
        self._adopted: LeftBehind | None = None
        self._path: Path | None = None
        self._base_sha256 = ""
        self._claim: HeldLock | None = None
        document.project_changed.connect(self._note)
        document.undo_stack.cleanChanged.connect(self._note)
        document.job.turned.connect(self._note_job)

    # Autosaves

    def keep_now(self) -> None:
        """Write an autosave of what is not saved, off this thread."""
        self._timer.stop()
        own, document = self._own, self._document
        if own is None or not document.is_modified:
            return
        passage = document.passage
        save = Autosave(
            count=0,
            saved_utc=datetime.now(UTC),
            project=document.project_to_keep,
            path=document.path,
            base_sha256=self._base_sha256,
            title="" if passage is None else passage.name,
            last_edit=document.undo_stack.undoText(),
            is_demo=document.is_demo,
        )
        self._is_kept = True
        self._since_last.start()

        def work(_progress: JobProgress) -> None:
            own.write(save)

        self._runner.submit(work, done=self._written, failed=self._not_written)

    def _wait_ms(self) -> int:
        """An edit after a calm is kept at once: seconds of work are all that can be lost."""
        if not self._since_last.isValid():
            return SOON_MS
        return max(SOON_MS, WAIT_MS - self._since_last.elapsed())

    def left_behind(self) -> tuple[LeftBehind, ...]:
        """Autosaves of windows that no longer run; each is held until it is left or thrown."""
        if self._folder is None:
            return ()
        return left_behind(self._folder / "autosave")

    def adopt(self, left: LeftBehind) -> None:
        """Keep what is recovered as our own; the old files go once ours are written."""
        self._adopted = left
        self.keep_now()

    def _note(self) -> None:
        if self._path is not None and self._document.path != self._path:
            self._let_go()
        own = self._own
        if own is None:
            return
        if self._document.is_modified:
            if not self._timer.isActive():
                self._timer.start(self._wait_ms())
        elif self._is_kept:
            self._timer.stop()
            self._is_kept = False

            def work(_progress: JobProgress) -> None:
                own.clear()

            self._runner.submit(work, done=lambda _none: None, failed=self._not_written)
        else:
            self._timer.stop()

    def _note_job(self) -> None:
        # Before a computation: it is the time when a laptop runs hot, or out of memory.
        if self._document.job.is_running and self._timer.isActive():
            self.keep_now()

    def _written(self, _none: None) -> None:
        self._is_trouble_told = False
        if self._adopted is not None:
            self._adopted.throw_away()
            self._adopted = None

    def _not_written(self, error: LegsheetError) -> None:
        log.info("no autosave: %s", error)
        if self._document.is_modified:
            self._timer.start()
        if not self._is_trouble_told:
            self._is_trouble_told = True
            self._document.notices.post(
                NoticeKind.TROUBLE,
                tr(
                    "No autosave is kept: {trouble}. Save the project yourself (Ctrl+S).",
                    trouble=error.what,
                ),
                lasts=True,
            )

    # Projects that stand open

    def is_open_elsewhere(self, path: Path) -> bool:
        """Whether another window of this user has the project open."""
        if self._is_ours(path):
            return False
        lock = self._lock_of(path)
        if lock is None:
            return True
        lock.release()
        return False

    def take(self, path: Path, *, base_sha256: str = "") -> bool:
        """Hold a project as open in this window; False where another one has it open.

        Parameters
        ----------
        path : Path
            The project file, just read or written.
        base_sha256 : str
            Of the file that the edits are made on; empty takes the file as it stands.
        """
        if not self._is_ours(path):
            self._let_go()
            self._claim = self._lock_of(path)
            if self._claim is None:
                return False
        self._path, self._base_sha256 = path, base_sha256 or _digest(path)
        return True

    def is_changed_on_disk(self, path: Path) -> bool:
        """Whether somebody else wrote the file since this window read or wrote it."""
        if not self._is_ours(path) or not self._base_sha256:
            return False
        now = _digest(path)
        return bool(now) and now != self._base_sha256

    def _is_ours(self, path: Path) -> bool:
        return self._path is not None and _key(path) == _key(self._path)

    def _lock_of(self, path: Path) -> HeldLock | None:
        """The lock of a project; None where another window holds it.

        Where no lock can be made the project counts as free: that a state folder is full or
        read-only must not keep an officer from her plan.
        """
        if self._folder is None:
            return HeldLock.none()
        folder = self._folder / "open"
        try:
            folder.mkdir(parents=True, exist_ok=True, mode=0o700)
            return HeldLock.take(folder / f"{_key(path)}.lock")
        except OSError as exc:
            log.info("no lock: %s", exc)
            return HeldLock.none()

    def _let_go(self) -> None:
        if self._claim is not None:
            self._claim.release()
        self._claim, self._path, self._base_sha256 = None, None, ""

    def close(self) -> None:
        """The window closes by the officer's will: nothing is left to recover."""
        self._timer.stop()
        self._runner.close()
        if self._own is not None:
            self._own.close()
        if self._adopted is not None:
            self._adopted.throw_away()
            self._adopted = None
        self._let_go()


def _key(path: Path) -> str:
    name = os.path.normcase(str(path.resolve()))
    return hashlib.sha256(name.encode("utf-8", "surrogatepass")).hexdigest()[:32]


def _digest(path: Path) -> str:
    try:
        return sha256_of(path)
    except InputError:
        return ""
