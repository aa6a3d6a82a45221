"""SHA-256 of files of any size, read in pieces and remembered while the file stays the same."""

import hashlib
from functools import lru_cache
from pathlib import Path

from core.base.errors import InputError
from core.base.language import tr

_PIECE_BYTES = 1 << 20


@lru_cache(maxsize=4096)
def _digest(path: Path, size_bytes: int, changed_ns: int) -> str:
    """Digest of a file; its size and time of change are part of the cache's key."""
    digest = hashlib.sha256()
    with path.open("rb") as stream:
        while piece := stream.read(_PIECE_BYTES):
            digest.update(piece)
    return digest.hexdigest()


def sha256_of(path: Path) -> str:
    """SHA-256 of a file in hexadecimal; a file unchanged in size and time is read once.

    Raises
    ------
    InputError
        The file cannot be read.
    """
    try:
        state = path.stat()
        return _digest(path, state.st_size, state.st_mtime_ns)
    except OSError as exc:
        raise InputError(
            tr("cannot be read ({reason})", reason=exc.strerror or exc),
            where=path.name,
            todo=tr("Check the file"),
        ) from exc
