"""Results kept from one computation to the next, each by all that it depends on.

A result is asked for with a key that holds everything it is made from: values, and by identity
objects that never change. So a computation with a memory comes out as one without, only sooner.
"""

import threading
from collections.abc import Callable, Hashable
from typing import Any, TypeVar

_T = TypeVar("_T")


class Memory:
    """What computations found out; may be used from several threads.

    It holds what the last finished computation used and what was found out since: a computation
    that was stopped goes on from there, and nothing older is kept.
    """

    def __init__(self, *, is_keeping: bool = True) -> None:
        self._is_keeping = is_keeping
        self._lock = threading.Lock()
        self._kept: dict[Hashable, Any] = {}
        self._run_of: dict[Hashable, int] = {}
        self._run = 0
        self._finished: frozenset[Hashable] = frozenset()

    def __len__(self) -> int:
        """How many results are kept."""
        return len(self._kept)

    def begin(self) -> None:
        """A computation begins: what neither the last one nor the last finished one used goes."""
        with self._lock:
            self._drop_older(self._finished)
            self._run += 1

    def finish(self) -> None:
        """The computation came to its end: what it did not use goes."""
        with self._lock:
            self._drop_older()
            self._finished = frozenset(self._kept)

    def clear(self) -> None:
        """Keep nothing of what is known."""
        with self._lock:
            self._kept.clear()
            self._run_of.clear()
            self._finished = frozenset()

    def of(self, key: Hashable, make: Callable[[], _T]) -> _T:
        """The result of a key, made if it is not known.

        ``make`` depends on nothing that the key does not hold, and what it makes is never changed
        afterwards. What it raises is passed on, and nothing is kept.
        """
        if not self._is_keeping:
            return make()
        with self._lock:
            if key in self._kept:
                self._run_of[key] = self._run
                found: _T = self._kept[key]
                return found
        made = make()
        with self._lock:
            self._run_of[key] = self._run
            # Of two threads at the same key the first is taken by both.
            kept: _T = self._kept.setdefault(key, made)
            return kept

    def _drop_older(self, spared: frozenset[Hashable] = frozenset()) -> None:
        """Drop what the last computation did not use."""
        for key in [key for key, used in self._run_of.items() if used < self._run]:
            if key not in spared:
                del self._kept[key], self._run_of[key]


NOTHING_KEPT = Memory(is_keeping=False)
"""For computations that stand alone."""
