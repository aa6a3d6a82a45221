"""Progress and stop, without any window or thread."""

from typing import Protocol


class Progress(Protocol):
    """Takes reports of work done; raises ``Cancelled`` when a stop was asked for."""

    def report(self, fraction: float, text: str = "") -> None:
        """Say how far the work is.

        Parameters
        ----------
        fraction : float
            Done so far, bare, 0 to 1.
        text : str
            What is being done, naming the leg.

        Raises
        ------
        Cancelled
            A stop was asked for.
        """


class Quiet:
    """Progress that tells nobody; for tests and scripts."""

    def report(self, fraction: float, text: str = "") -> None:
        """Take the report and drop it."""


class Span:
    """A part of a longer piece of work, from ``start`` to ``stop`` of its parent."""

    def __init__(self, parent: Progress, start: float, stop: float) -> None:
        self._parent = parent
        self._start = start
        self._stop = stop

    def report(self, fraction: float, text: str = "") -> None:
        """Pass the report on, scaled into the parent's part."""
        share = min(max(fraction, 0.0), 1.0)
        self._parent.report(self._start + (self._stop - self._start) * share, text)
