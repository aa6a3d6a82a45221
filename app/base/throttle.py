"""Rates: pass on reports at most so often, and redraw with the newest value only."""

import time
from collections.abc import Callable

from PySide6.QtCore import QObject, QTimer


class RateGate:
    """Says whether enough time has passed since it last said yes; for use off the GUI thread."""

    def __init__(self, rate_hz: float, clock: Callable[[], float] = time.monotonic) -> None:
        self._pause_s = 1.0 / rate_hz
        self._clock = clock
        self._last_s: float | None = None

    def is_due(self) -> bool:
        """Whether a report may pass now."""
        now_s = self._clock()
        if self._last_s is not None and now_s - self._last_s < self._pause_s:
            return False
        self._last_s = now_s
        return True


class LatestCall(QObject):
    """Calls a function a moment after the last request, once for many requests."""

    def __init__(self, function: Callable[[], None], pause_ms: int, parent: QObject) -> None:
        super().__init__(parent)
        self._function = function
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(pause_ms)
        self._timer.timeout.connect(function)

    def request(self) -> None:
        """Ask for the call; a call already waiting is the same one."""
        if not self._timer.isActive():
            self._timer.start()

    @property
    def is_waiting(self) -> bool:
        """Whether a call is about to come."""
        return self._timer.isActive()

    def stop(self) -> None:
        """Forget a waiting call."""
        self._timer.stop()

    def settle(self) -> bool:
        """Make a waiting call now; tell whether there was one."""
        was_waiting = self.is_waiting
        if was_waiting:
            self.stop()
            self._function()
        return was_waiting
