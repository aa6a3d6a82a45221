"""Work on the GUI thread in steps, each in a turn of its own, so that none holds up the window."""

from collections.abc import Callable, Iterable

from PySide6.QtCore import QObject, QTimer


class ByTurns(QObject):
    """Does steps one after another; between two of them Qt handles what came meanwhile."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._steps: list[Callable[[], None]] = []
        self._timer = QTimer(self)
        self._timer.setInterval(0)
        self._timer.timeout.connect(self._do_next)

    def begin(self, steps: Iterable[Callable[[], None]]) -> None:
        """Do these, the first one in the next turn; steps not done yet are dropped for them."""
        self._steps = list(steps)
        self._timer.start()

    def finish(self) -> None:
        """Do what is left now."""
        while self._steps:
            self._do_next()

    def _do_next(self) -> None:
        if self._steps:
            self._steps.pop(0)()
        if not self._steps:
            self._timer.stop()
