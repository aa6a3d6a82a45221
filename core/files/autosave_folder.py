"""The folder of autosaves: each window writes its own, and finds those of windows that died.

A window has a folder of its own and writes two files in it in turn, so that the newest whole one
is never touched, whatever a full disk or a lost supply does to the other.
"""

import secrets
import shutil
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path

from core.base.errors import InputError, OutputError
from core.base.language import tr
from core.files.autosave_file import Autosave, autosave_bytes, read_autosave
from core.files.file_lock import HeldLock
from core.files.writing import write_atomic

_LOCK = ".lock"
_TRIES = 8


class OwnAutosave:
    """The two files of this window and the lock that says it lives."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._lock: HeldLock | None = None
        self._own = folder
        self._count = 0

    def write(self, save: Autosave) -> None:
        """Write over the older of the two files; ``count`` of ``save`` is set here.

        Raises
        ------
        OutputError
            Nothing can be written there; the last autosave is intact.
        """
        self._hold()
        counted = replace(save, count=self._count + 1)
        write_atomic(_slot(self._own, counted.count), autosave_bytes(counted, self._own))
        self._count = counted.count

    def clear(self) -> None:
        """Nothing is unsaved any more."""
        if self._lock is not None:
            _remove_slots(self._own)

    def close(self) -> None:
        """Clear and let the lock go."""
        if self._lock is not None:
            shutil.rmtree(self._own, ignore_errors=True)
            self._lock.release()
            self._lock = None

    def _hold(self) -> None:
        try:
            tries = _TRIES if self._lock is None else 0
            self._folder.mkdir(parents=True, exist_ok=True, mode=0o700)
            for _ in range(tries):
                token = secrets.token_hex(8)
                self._lock = HeldLock.take(self._folder / f"{token}{_LOCK}")
                if self._lock is not None:
                    self._own = self._folder / token
                    break
            if self._lock is None:
                raise BlockingIOError("every name is taken")
            self._own.mkdir(exist_ok=True, mode=0o700)
        except OSError as exc:
            raise OutputError(
                tr("no autosave can be kept there ({reason})", reason=exc.strerror or exc),
                where=str(self._folder),
                todo=tr("Save the project often"),
            ) from exc


@dataclass(slots=True, kw_only=True)
class LeftBehind:
    """What a window that no longer runs left; nobody else is offered it while it is held."""

    save: Autosave | None
    """The newest one that can be read; None where none can."""
    folder: Path
    lock: HeldLock

    def throw_away(self) -> None:
        """Take its files away for good."""
        shutil.rmtree(self.folder, ignore_errors=True)
        self.lock.release()

    def leave(self) -> None:
        """Leave it for later."""
        self.lock.release(is_removed=False)


def left_behind(folder: Path) -> tuple[LeftBehind, ...]:
    """Autosaves whose window no longer runs, the newest first, each held by its lock."""
    found = []
    for path in sorted(folder.glob(f"*{_LOCK}")):
        lock = None
        with suppress(OSError):
            lock = HeldLock.take(path)
        if lock is None:
            continue
        own = path.with_suffix("")
        one = LeftBehind(save=_newest(own), folder=own, lock=lock)
        if any(_slot(own, number).exists() for number in range(2)):
            found.append(one)
        else:
            # It died with everything saved, or within its first autosave.
            one.throw_away()
    return tuple(
        sorted(found, key=lambda one: one.save.saved_utc.timestamp() if one.save else 0.0)[::-1]
    )


def _newest(own: Path) -> Autosave | None:
    saves = []
    for number in range(2):
        with suppress(InputError):
            saves.append(read_autosave(_slot(own, number)))
    return max(saves, key=lambda save: save.count, default=None)


def _slot(own: Path, count: int) -> Path:
    return own / f"{count % 2}.autosave"


def _remove_slots(own: Path) -> None:
    for number in range(2):
        with suppress(OSError):
            _slot(own, number).unlink(missing_ok=True)
