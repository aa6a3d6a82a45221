"""Legs worked at in threads, a few at a time, while a stop is looked out for."""

from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor, wait
from threading import Event
from typing import TypeVar

from core.base.errors import Cancelled
from core.base.language import tr
from core.base.progress import Progress

_T = TypeVar("_T")

_POLL_S = 0.05

Alive = Callable[[], None]
"""Asked again and again; raises when a stop was asked for."""


def leg_by_leg(
    work: Sequence[Callable[[Alive], _T]],
    progress: Progress,
    words: str,
    *,
    thread_count: int = 2,
) -> list[_T]:
    """The results of all pieces of work, in their order, the same with any number of threads.

    Parameters
    ----------
    work : sequence of callable
        One piece a leg; none may change what another reads.
    progress : Progress
        Told the leg.
    words : str
        What is done to the leg, as in ``First paint``.
    thread_count : int
        Pieces worked at at a time.

    Raises
    ------
    Cancelled
        A stop was asked for.
    """
    stop = Event()

    def alive() -> None:
        if stop.is_set():
            raise Cancelled

    done: list[_T] = []
    with ThreadPoolExecutor(max_workers=thread_count, thread_name_prefix="leg") as pool:
        try:
            futures = [pool.submit(piece, alive) for piece in work]
            for index, future in enumerate(futures):
                text = tr(
                    "{work}: leg {leg_number} of {leg_count}",
                    work=words,
                    leg_number=index + 1,
                    leg_count=len(work),
                )
                progress.report(index / len(work), text)
                while not future.done():
                    wait([future], timeout=_POLL_S)
                    progress.report(index / len(work), text)
                done.append(future.result())
        finally:
            stop.set()
            pool.shutdown(wait=True, cancel_futures=True)
    return done
