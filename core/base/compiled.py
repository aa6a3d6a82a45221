"""The one way to compile a kernel: serial, without the interpreter lock, cached on disk."""

import os
from collections.abc import Callable
from pathlib import Path
from typing import ParamSpec, TypeVar, cast

_P = ParamSpec("_P")
_R = TypeVar("_R")


def _cache_folder() -> Path:
    base = os.environ.get("XDG_CACHE_HOME") or os.environ.get("LOCALAPPDATA")
    return (Path(base) if base else Path.home() / ".cache") / "legsheet" / "kernels"


# numba reads this when it is first imported, so it must stand before that import.
os.environ.setdefault("NUMBA_CACHE_DIR", str(_cache_folder()))

import numba  # noqa: E402 - the cache folder must be set first


def kernel(function: Callable[_P, _R]) -> Callable[_P, _R]:
    """Compile a kernel: strict floating point, no threads of its own, GIL released, cached."""
    return cast("Callable[_P, _R]", numba.njit(cache=True, nogil=True)(function))


def inlined(function: Callable[_P, _R]) -> Callable[_P, _R]:
    """Compile a small helper of kernels, put in line where it is called."""
    return cast("Callable[_P, _R]", numba.njit(cache=True, nogil=True, inline="always")(function))
