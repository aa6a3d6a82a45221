"""When Python looks for garbage: a search through all that a plan holds would stop the window.

A plan is several hundred thousand objects, and looking through them takes 100 to 600 ms, during
which nothing else runs. Nothing in a plan refers to itself in a circle, so it goes as soon as
nobody holds it, and the search can pass it over.
"""

import gc
import threading
from collections.abc import Iterator
from contextlib import contextmanager

_NEVER = 1_000_000_000

_lock = threading.Lock()
_running: list[tuple[int, int, int]] = []
"""For each of the blocks that run now, what was set before the first of them."""


@contextmanager
def much_is_made() -> Iterator[None]:
    """While much is made that stays: only young objects are looked through.

    Afterwards all there is counts as here to stay and is not looked through again.
    """
    with _lock:
        usual = _running[0] if _running else gc.get_threshold()
        _running.append(usual)
        gc.set_threshold(*usual[:2], _NEVER)
    try:
        yield
    finally:
        with _lock:
            gc.freeze()
            _running.pop()
            if not _running:
                gc.set_threshold(*usual)


def all_stays() -> None:
    """What there is now stays to the end, such as the parts of the program and its window."""
    gc.freeze()
