"""A lock that the system itself lets go when its process ends, however it ends."""

import os
import sys
from pathlib import Path

if sys.platform == "win32":
    import msvcrt

    def _take(handle: int) -> None:
        msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)

else:
    import fcntl

    def _take(handle: int) -> None:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)


def _is_still_there(path: Path, handle: int) -> bool:
    """Whether nobody took the file away between opening and locking it."""
    try:
        return os.path.samestat(path.stat(), os.fstat(handle))
    except FileNotFoundError:
        return False


class HeldLock:
    """An exclusive lock on a file made for it.

    The number of a process is never asked for: after a power loss another process soon has it.
    """

    def __init__(self, path: Path, handle: int | None) -> None:
        self.path = path
        self._handle = handle

    @classmethod
    def take(cls, path: Path) -> "HeldLock | None":
        """Take the lock at once; None where somebody else holds it.

        Raises
        ------
        OSError
            The file cannot be made there, or the file system knows no locks.
        """
        handle = os.open(path, os.O_RDWR | os.O_CREAT, 0o600)
        try:
            _take(handle)
        except (BlockingIOError, PermissionError):
            os.close(handle)
            return None
        except OSError:
            os.close(handle)
            raise
        if not _is_still_there(path, handle):
            os.close(handle)
            return None
        return cls(path, handle)

    @classmethod
    def none(cls) -> "HeldLock":
        """A lock of nothing, where no file can be made."""
        return cls(Path(), None)

    def release(self, *, is_removed: bool = True) -> None:
        """Let go, and take the file away, which nobody can hold at this moment."""
        if self._handle is None:
            return
        # Systems that refuse to remove an open file keep it; whoever takes it next is alone too.
        if is_removed and sys.platform != "win32":
            self.path.unlink(missing_ok=True)
        os.close(self._handle)
        self._handle = None
        if is_removed and sys.platform == "win32":
            try:
                self.path.unlink(missing_ok=True)
            except OSError:
                return
