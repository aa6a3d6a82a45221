"""How far the running computation is; views show it, the job writes it."""

from PySide6.QtCore import QObject, Signal


class JobState(QObject):
    """Whether something is computed, how far it is and in what words."""

    changed = Signal()
    turned = Signal()
    """It began, or was asked to stop, or ended; not at each report of how far it is."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.is_running = False
        self.is_stopping = False
        self.is_plan = False
        """Whether it is a plan that is computed, not a file that is read or written."""
        self.fraction = 0.0
        self.text = ""

    def start(self, text: str, *, is_plan: bool = False) -> None:
        """A job begins."""
        self.is_running, self.is_stopping, self.is_plan = True, False, is_plan
        self.fraction, self.text = 0.0, text
        self.turned.emit()
        self.changed.emit()

    def report(self, fraction: float, text: str) -> None:
        """The job got so far; an empty text keeps the last one."""
        if self.is_running:
            self.fraction = fraction
            self.text = text or self.text
            self.changed.emit()

    def stopping(self) -> None:
        """A stop was asked for and the job has not ended yet."""
        if self.is_running:
            self.is_stopping = True
            self.turned.emit()
            self.changed.emit()

    def end(self) -> None:
        """The job is over, whichever way."""
        self.is_running = self.is_stopping = self.is_plan = False
        self.turned.emit()
        self.changed.emit()
