"""The one way to compile a kernel: serial, without the interpreter lock, cached on disk."""

import hashlib
import os
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any, ParamSpec, TypeVar, cast

_P = ParamSpec("_P")
_R = TypeVar("_R")


_MARK = b"core.base.compiled import"
_IMPORTED = re.compile(rb"^from (core(?:\.\w+)+) import", re.MULTILINE)


def sources_digest(root: Path) -> str:
    """Digest of everything that is built into kernels below a folder of packages.

    numba looks only at the file a kernel stands in. What the kernel calls and the constants it
    uses come from other files, so each state of all of them gets a cache folder of its own.

    Parameters
    ----------
    root : Path
        The folder that holds the package ``core``.
    """
    texts = {path: path.read_bytes() for path in sorted((root / "core").rglob("*.py"))}
    wanted = {path for path, text in texts.items() if _MARK in text}
    for path in tuple(wanted):
        for name in _IMPORTED.findall(texts[path]):
            wanted.add(root.joinpath(*name.decode().split(".")).with_suffix(".py"))
    digest = hashlib.sha256()
    for path in sorted(wanted & texts.keys()):
        digest.update(path.relative_to(root).as_posix().encode() + b"\0" + texts[path])
    return digest.hexdigest()[:16]


def _cache_folder() -> Path:
    base = os.environ.get("XDG_CACHE_HOME") or os.environ.get("LOCALAPPDATA")
    kernels = (Path(base) if base else Path.home() / ".cache") / "legsheet" / "kernels"
    return kernels / sources_digest(Path(__file__).resolve().parents[2])


def is_prepared() -> bool:
    """Whether kernels of this state of the program were compiled on this computer before.

    The first time takes up to half a minute, which whoever waits should be told.
    """
    return any(Path(os.environ["NUMBA_CACHE_DIR"]).glob("**/*.nbc"))


# numba reads this when it is first imported, so it must stand before that import.
os.environ.setdefault("NUMBA_CACHE_DIR", str(_cache_folder()))

import numba  # noqa: E402 - the cache folder must be set first

_UNCOUNTED: dict[str, Any] = {"cache": True, "nogil": True, "_nrt": False}


def kernel(function: Callable[_P, _R]) -> Callable[_P, _R]:
    """Compile a kernel: strict floating point, no threads of its own, GIL released, cached."""
    return cast("Callable[_P, _R]", numba.njit(cache=True, nogil=True)(function))


def bare(function: Callable[_P, _R]) -> Callable[_P, _R]:
    """Compile a kernel that neither makes nor returns arrays: it counts no references to them.

    Counting costs a kernel called a million times a tenth of its time, and two threads that count
    references to the same array wait for each other. numba does not look whether the promise is
    kept, so a test of the house does. (``_nrt`` is an option of numba's own; without it the
    answers are the same.)
    """
    return cast("Callable[_P, _R]", numba.njit(**_UNCOUNTED)(function))


def inlined(function: Callable[_P, _R]) -> Callable[_P, _R]:
    """Compile a small helper of kernels, put in line where it is called."""
    return cast("Callable[_P, _R]", numba.njit(cache=True, nogil=True, inline="always")(function))
