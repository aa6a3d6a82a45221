"""The menu of files last opened: a digit opens one, what is not there is grey."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QPoint
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QWidget

from app.state.recent import Recent
from app.work.runner import JobProgress, Runner
from core.base.errors import LegsheetError
from core.base.language import tr

_LONGEST_FOLDER = 60


def entry_words(number: int, path: Path, *, is_missing: bool) -> str:
    """Name with its folder, as it stands in the menu."""
    folder = str(path.parent)
    if len(folder) > _LONGEST_FOLDER:
        folder = f"…{folder[-_LONGEST_FOLDER:]}"
    words = f"{path.name}   in {folder}".replace("&", "&&")
    return f"&{number}  {words}" + (tr("   (not there now)") if is_missing else "")


class RecentMenu(QMenu):
    """Opens over the window; whether files are there is looked up off this thread."""

    def __init__(self, recent: Recent, open_path: Callable[[Path], None], window: QWidget) -> None:
        super().__init__(tr("Recent files"), window)
        self._recent = recent
        self._open = open_path
        self._missing: frozenset[Path] = frozenset()
        self._runner = Runner("legsheet-recent", self)

    def show_over(self, window: QWidget) -> None:
        """Show it in the upper left of the window, the first one chosen."""
        self._fill()
        self._look()
        self.popup(window.mapToGlobal(QPoint(40, 60)))
        first = next((action for action in self.actions() if action.isEnabled()), None)
        if first is not None:
            self.setActiveAction(first)

    def close_threads(self) -> None:
        """Wait for the look-up to end."""
        self._runner.close()

    def _fill(self) -> None:
        self.clear()
        paths = self._recent.paths
        for number, path in enumerate(paths, 1):
            action = QAction(self)
            action.setData(str(path))
            action.triggered.connect(self._opener(path))
            self._put_words(action, number, path)
            self.addAction(action)
        if not paths:
            self.addAction(tr("No file was opened or saved yet")).setEnabled(False)

    def _opener(self, path: Path) -> Callable[[bool], None]:
        return lambda _checked: self._open(path)

    def _put_words(self, action: QAction, number: int, path: Path) -> None:
        is_missing = path in self._missing
        action.setText(entry_words(number, path, is_missing=is_missing))
        action.setEnabled(not is_missing)

    def _look(self) -> None:
        paths = self._recent.paths

        def work(_progress: JobProgress) -> frozenset[Path]:
            # A network drive that is away takes seconds to say so.
            return frozenset(path for path in paths if not _is_there(path))

        self._runner.submit(work, done=self._take, failed=_ignore)

    def _take(self, missing: frozenset[Path]) -> None:
        self._missing = missing
        for number, (action, path) in enumerate(
            zip(self.actions(), self._recent.paths, strict=False), 1
        ):
            if action.data() == str(path):
                self._put_words(action, number, path)


def _is_there(path: Path) -> bool:
    try:
        return path.exists()
    except OSError:
        return False


def _ignore(_error: LegsheetError) -> None:
    return
