"""Writing that leaves a whole new file or the old one, never half of one."""

import errno
import os
import secrets
import stat
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path

from core.base.errors import OutputError
from core.base.language import tr

_PART = ".part-"
_OLD_S = 86_400.0
"""Nothing is being written for a day."""


def write_atomic(path: Path, data: bytes) -> None:
    """Write a whole file, or leave what stood there.

    Raises
    ------
    OutputError
        It cannot be written there.
    """
    with atomic_target(path) as temporary:
        temporary.write_bytes(data)


@contextmanager
def atomic_target(path: Path) -> Iterator[Path]:
    """Give a temporary path beside the target, which replaces it when the block ends well.

    On any exception the temporary file (and files a library put beside it under its name) is
    removed and the old file stays. The block is for writing alone: an ``OSError`` raised in it
    is taken as one of this target.

    Raises
    ------
    OutputError
        Missing folder, target is a folder or device, no permission, full disk.
    """
    with atomic_targets((path,)) as temporaries:
        yield temporaries[0]


@contextmanager
def atomic_targets(paths: Sequence[Path]) -> Iterator[tuple[Path, ...]]:
    """The same for several files of one command: none is replaced before all are complete.

    Yields
    ------
    tuple of Path
        Temporary paths in the order of the targets.

    Raises
    ------
    OutputError
        As ``atomic_target``; also when one file is named twice.
    """
    check_writable(paths)
    targets = [path.resolve() for path in paths]
    temporaries = tuple(_temporary_beside(target) for target in targets)
    try:
        try:
            yield temporaries
        except OSError as exc:
            raise _cannot_write(_blamed(exc, paths, temporaries), exc) from exc
        for path, target, temporary in zip(paths, targets, temporaries, strict=True):
            try:
                _flush(temporary)
                if target.exists():
                    temporary.chmod(stat.S_IMODE(target.stat().st_mode))
            except OSError as exc:
                raise _cannot_write(path, exc) from exc
        # Everything is on the disk; look once more before the first name changes hands.
        for path, target in zip(paths, targets, strict=True):
            _check_target(path, target)
        for path, target, temporary in zip(paths, targets, temporaries, strict=True):
            try:
                temporary.replace(target)
            except OSError as exc:
                raise _cannot_write(path, exc) from exc
        for folder in dict.fromkeys(target.parent for target in targets):
            _flush_folder(folder)
    finally:
        for temporary in temporaries:
            _remove(temporary)


def check_writable(paths: Sequence[Path]) -> None:
    """Find out before a long computation whether its files could be written.

    Raises
    ------
    OutputError
        One of them could not, or one file is named twice.
    """
    seen: set[Path] = set()
    for path in paths:
        try:
            target = path.resolve()
            if target in seen:
                raise OutputError(
                    tr("this file is named for two outputs"),
                    where=str(path),
                    todo=tr("Name two files"),
                )
            seen.add(target)
            _check_target(path, target)
            probe = _temporary_beside(target)
            try:
                probe.touch(exist_ok=False)
            finally:
                probe.unlink(missing_ok=True)
        except (OSError, ValueError, RuntimeError) as exc:
            # ValueError: a null character in the name; RuntimeError: links in a circle.
            raise _cannot_write(path, exc) from exc


def remove_left_over(beside: Path) -> None:
    """Remove what was being written beside a file when a supply was lost, days ago."""
    before_s = time.time() - _OLD_S
    with suppress(OSError):
        for entry in beside.resolve().parent.glob(f"{_PART}*{beside.suffix}"):
            if entry.stat().st_mtime < before_s:
                entry.unlink(missing_ok=True)


def _check_target(path: Path, target: Path) -> None:
    where = str(path)
    if not path.name or path.name == "..":
        raise OutputError(
            tr("this names no file"), where=where or ".", todo=tr("Name a file to write")
        )
    if not target.parent.is_dir():
        raise OutputError(
            tr("the folder {folder} does not exist", folder=path.parent),
            where=where,
            todo=tr("Create it or choose another"),
        )
    if target.is_dir():
        raise OutputError(
            tr("this is a folder, not a file"), where=where, todo=tr("Name a file in it")
        )
    if target.exists():
        if not target.is_file():
            raise OutputError(
                tr("this is not an ordinary file"), where=where, todo=tr("Choose another name")
            )
        if not os.access(target, os.W_OK):
            raise OutputError(
                tr("this file is write-protected"), where=where, todo=tr("Choose another name")
            )


def _temporary_beside(target: Path) -> Path:
    # The suffix stays last because some libraries choose the format by it; the name is short
    # so that a long target name does not grow over the limit of the file system.
    return target.with_name(f"{_PART}{secrets.token_hex(6)}{target.suffix}")


def _blamed(exc: OSError, paths: Sequence[Path], temporaries: Sequence[Path]) -> Path:
    """The target whose temporary file the exception names, else the first."""
    named = str(exc.filename) if exc.filename is not None else str(exc)
    for path, temporary in zip(paths, temporaries, strict=True):
        if temporary.name in named:
            return path
    return paths[0] if paths else Path()


def _flush(temporary: Path) -> None:
    with temporary.open("r+b") as stream:
        os.fsync(stream.fileno())


def _flush_folder(folder: Path) -> None:
    """Put the new names on the disk too: without it a lost supply may bring the old ones back."""
    # The files stand and are whole; where a folder cannot be flushed (Windows, some network
    # drives) the system does so in its own time.
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _remove(temporary: Path) -> None:
    """Remove a temporary file and what a library put beside it under its name."""
    # Whatever hinders the removal must not hide the error that led here.
    with suppress(OSError):
        for entry in list(temporary.parent.iterdir()):
            if entry.name.startswith(temporary.name):
                entry.unlink(missing_ok=True)


def _cannot_write(path: Path, exc: Exception) -> OutputError:
    where = str(path).replace("\x00", "?")
    code = exc.errno if isinstance(exc, OSError) else None
    if code in {errno.ENOSPC, errno.EDQUOT}:
        return OutputError(
            tr("the disk is full"), where=where, todo=tr("Free some space and write again")
        )
    if code in {errno.EACCES, errno.EPERM, errno.EROFS}:
        return OutputError(
            tr("nothing may be written there"), where=where, todo=tr("Choose another folder")
        )
    if code == errno.ENAMETOOLONG:
        return OutputError(
            tr("the name is too long"), where=where, todo=tr("Choose a shorter name")
        )
    if isinstance(exc, FileNotFoundError):
        return OutputError(
            tr("nothing was written there"),
            where=where,
            todo=tr("Check the folder and write again"),
        )
    reason = (exc.strerror or str(exc)) if isinstance(exc, OSError) else tr("its name is not valid")
    return OutputError(
        tr("it cannot be written ({reason})", reason=reason.rstrip(".").lower()),
        where=where,
        todo=tr("Choose another name or folder"),
    )
