"""The window in an invented language: prints every text in it that is still English.

Arguments: a folder to work in. Every text of the catalogue is made a third longer and marked, so
that it also shows whether longer words find room.
"""

import json
import os
import re
import sys
from pathlib import Path

_OPEN, _CLOSE = "\u27e6", "\u27e7"
_DIALOGS = (
    *("conditions", "edit_ship", "anchorage", "waypoints", "drawn", "land_shelf"),
    *("choose_object", "issue_revision", "help", "offings", "about"),
)


def _foreign(text: str) -> str:
    return f"{_OPEN}{text}{'~' * max(1, round(0.3 * len(text)) - 2)}{_CLOSE}"


def main(folder: Path) -> None:
    """Write the catalogue, open the window with the demo passage and its dialogs, print."""
    from core.base.catalogue import texts_in_code

    catalogue = folder / "zz.json"
    catalogue.write_text(json.dumps({text: _foreign(text) for text in texts_in_code()}))
    os.environ["LEGSHEET_LANGUAGE"] = str(catalogue)
    # The language is chosen when it is first imported, as at the start of the program.
    for name in [name for name in sys.modules if name.startswith(("core.", "app."))]:
        del sys.modules[name]
    print(json.dumps(sorted(_english(folder)), ensure_ascii=False))  # noqa: T201 - for the test


def _english(folder: Path) -> set[str]:
    from PySide6.QtCore import QTimer
    from PySide6.QtWidgets import QApplication

    from app.start import make_application
    from app.state.document import Document
    from app.state.settings import Settings
    from app.window.main_window import MainWindow
    from app.window.plugged_jobs import real_jobs
    from tests.helpers.gui_gaps import spin, spin_until

    make_application()
    document = Document()
    window = MainWindow(document, real_jobs(), Settings(folder / "s.ini"))
    window.resize(1366, 768)
    window.show()
    window.files.begin(None)
    spin_until(lambda: document.outcome is not None and not document.job.is_running, most_s=400.0)
    found = _texts(window)
    met: list[str] = []

    def look() -> None:
        dialog = QApplication.activeModalWidget()
        if dialog is not None and not dialog.property("is_met"):
            dialog.setProperty("is_met", True)
            met.append(dialog.windowTitle())
            found.update(_texts(dialog))
            QTimer.singleShot(0, dialog.close)

    timer = QTimer()
    timer.setInterval(50)
    timer.timeout.connect(look)
    timer.start()
    for name in _DIALOGS:
        action = window.actions_by_id.get(name)
        if action is not None and action.isEnabled():
            action.trigger()
            spin_until(lambda: not document.job.is_running, most_s=200.0)
            spin(0.2)
    for number in range(window.panes.tables.count()):
        window.panes.tables.setCurrentIndex(number)
        spin(0.05)
        found |= _texts(window)
    timer.stop()
    if len(met) < len(_DIALOGS) // 2:
        raise RuntimeError(f"only these dialogs opened: {met}")
    document.undo_stack.setClean()
    window.close()
    return {text for text in found if _OPEN not in text and re.search(r"[A-Za-z]{3}", text)}


def _texts(root: object) -> set[str]:
    """What is written on the widgets of a window."""
    from PySide6.QtCore import Qt
    from PySide6.QtGui import QAction
    from PySide6.QtWidgets import (
        QAbstractButton,
        QGroupBox,
        QLabel,
        QTableView,
        QTabWidget,
        QWidget,
    )

    found: set[str] = set()
    if not isinstance(root, QWidget):
        return found
    for widget in (root, *root.findChildren(QWidget)):
        found.add(widget.windowTitle())
        if isinstance(widget, QLabel | QAbstractButton):
            found.add(widget.text())
        elif isinstance(widget, QGroupBox):
            found.add(widget.title())
        elif isinstance(widget, QTabWidget):
            found.update(widget.tabText(number) for number in range(widget.count()))
        elif isinstance(widget, QTableView):
            table, across = widget.model(), Qt.Orientation.Horizontal
            found.update(str(table.headerData(c, across)) for c in range(table.columnCount()))
    for action in root.findChildren(QAction):
        found.update((action.text(), action.statusTip()))
    return found


if __name__ == "__main__":
    main(Path(sys.argv[1]))
