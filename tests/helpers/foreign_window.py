"""The window in an invented language: prints what in it is still English, and what is cut.

Arguments: a folder to work in. Every text of the catalogue is made a third longer and marked.
"""

import json
import os
import sys
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from tests.helpers.foreign_catalogue import is_english, write_catalogue

_DIALOGS = (
    *("conditions", "edit_ship", "anchorage", "waypoints", "drawn", "land_shelf"),
    *("choose_object", "issue_revision", "help", "offings", "about", "keys", "sheets"),
)


def main(folder: Path) -> None:
    """Write the catalogue, open the window with the demo passage and its dialogs, print."""
    catalogue = folder / "zz.json"
    write_catalogue(catalogue)
    os.environ["LEGSHEET_LANGUAGE"] = str(catalogue)
    # The language is chosen when it is first imported, as at the start of the program.
    for name in [name for name in sys.modules if name.startswith(("core.", "app."))]:
        del sys.modules[name]
    seen = _seen(folder)
    from tests.helpers.foreign_words import names_of, said_elsewhere

    english = sorted(filter(is_english, seen.texts | said_elsewhere(folder)))
    names = names_of(seen.outcome)
    left = [text for text in english if is_english(_without(text, names))]
    told = {"english": left, "cut": seen.cut, "cut_heads": seen.cut_heads}
    print(json.dumps(told, ensure_ascii=False))  # noqa: T201 - for the test


def _without(text: str, names: list[str]) -> str:
    for name in names:
        text = text.replace(name, "")
    return text


@dataclass
class _Seen:
    texts: set[str] = field(default_factory=set)
    cut: list[str] = field(default_factory=list)
    cut_heads: list[str] = field(default_factory=list)
    outcome: Any = None


def _seen(folder: Path) -> _Seen:
    from PySide6.QtCore import QTimer
    from PySide6.QtWidgets import QApplication

    from app.start import make_application
    from app.state.document import Document
    from app.state.settings import Settings
    from app.window.main_window import MainWindow
    from app.window.plugged_jobs import real_jobs
    from tests.helpers.foreign_words import steps_of, texts_of
    from tests.helpers.gui_gaps import spin, spin_until
    from tests.helpers.long_words import cut_heads, cut_texts

    make_application()
    document = Document()
    window = MainWindow(document, real_jobs(), Settings(folder / "s.ini"))
    window.resize(1366, 768)
    window.show()
    seen = _Seen()
    found = seen.texts
    document.job.changed.connect(lambda: found.add(document.job.text))
    document.notices.changed.connect(lambda: found.update(n.text for n in document.notices.waiting))
    window.files.begin(None)
    spin_until(lambda: document.outcome is not None and not document.job.is_running, most_s=400.0)
    assert document.outcome is not None
    found.update({words for one in document.outcome.findings for words in (one.what, one.todo)})
    found.update(texts_of(window))
    seen.outcome = document.outcome
    spin(0.5)
    seen.cut += cut_texts(window)
    met: list[str] = []

    def look() -> None:
        dialog = QApplication.activeModalWidget()
        if dialog is not None and not dialog.property("is_met"):
            dialog.setProperty("is_met", True)
            QTimer.singleShot(0, dialog.close)
            met.append(dialog.windowTitle())
            found.update(texts_of(dialog))
            seen.cut.extend(f"{met[-1]}: {one}" for one in cut_texts(dialog))
            seen.cut_heads.extend(f"{met[-1]}: {one}" for one in cut_heads(dialog))

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
    tables = window.panes.tables
    for leg_index in range(document.leg_count):
        document.set_leg(leg_index)
        for number in range(tables.count()):
            tables.setCurrentIndex(number)
            spin(0.05)
            found.update(texts_of(window))
            heads = cut_heads(window)
            seen.cut_heads += [f"{tables.tabText(number)}: {one}" for one in heads]
    timer.stop()
    if len(met) < len(_DIALOGS) // 2:
        raise RuntimeError(f"only these dialogs opened: {met}")
    found.update(steps_of(window))
    document.undo_stack.setClean()
    window.close()
    seen.cut_heads = sorted(set(seen.cut_heads))
    return seen


if __name__ == "__main__":
    main(Path(sys.argv[1]))
