"""When Python looks for garbage: on the GUI thread, between events, and not while much is made.

Left alone, Python looks in whichever thread makes the object that is one too many. A worker would
then take apart what is left of a closed part of the window, which Qt bears on the GUI thread only.
And a search through all that a plan holds, several hundred thousand objects, takes 100 to 600 ms,
during which nothing else runs. Nothing in a plan refers to itself in a circle, so it goes as soon
as nobody holds it, and the search can pass it over.
"""

import gc
import threading
from collections.abc import Iterator
from contextlib import contextmanager

from PySide6.QtCore import QObject, QTimer

_EVERY_MS = 1000

_lock = threading.Lock()
_making = [0]
"""How many blocks run now in which much is made."""


@contextmanager
def garbage_on_this_thread() -> Iterator[None]:
    """While the block runs, garbage is looked for by a timer of this thread's event loop alone."""
    was_on = gc.isenabled()
    gc.disable()
    owner = QObject()
    timer = QTimer(owner)
    timer.setInterval(_EVERY_MS)
    timer.timeout.connect(look)
    timer.start()
    try:
        yield
    finally:
        timer.stop()
        if was_on:
            gc.enable()


def look() -> None:
    """Look through the generations that are due by Python's own counts."""
    if _making[0]:
        return
    due = [
        number
        for number, (count, limit) in enumerate(
            zip(gc.get_count(), gc.get_threshold(), strict=True)
        )
        if 0 < limit < count
    ]
    if due:
        gc.collect(due[-1])


@contextmanager
def much_is_made() -> Iterator[None]:
    """While much is made that stays, nothing is looked through.

    Afterwards all there is counts as here to stay and is not looked through again.
    """
    with _lock:
        _making[0] += 1
    try:
        yield
    finally:
        with _lock:
            gc.freeze()
            _making[0] -= 1


def all_stays() -> None:
    """What there is now stays to the end, such as the parts of the program and its window."""
    gc.freeze()
