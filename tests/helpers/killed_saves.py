"""Edits and saves on and on in processes that are killed; tells whether the last save opens.

Run as ``python -m tests.helpers.killed_saves FOLDER COUNT SEED``; it prints one JSON line. The
parts of the program are loaded once and each process to be killed is forked from that one. With
``window`` behind, edits go through the document of the window and its autosaves by their thread.
"""

import json
import os
import random
import signal
import sys
import time
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import NoReturn

from PySide6.QtCore import QCoreApplication, QTimer

from app.state.document import Document
from app.work import keeping
from core.files.autosave_file import Autosave
from core.files.autosave_folder import OwnAutosave, left_behind
from core.files.project import Options, Project, read_project, write_project

_LONGEST_S = 0.04
_LONGEST_IN_WINDOW_S = 0.12


def edited(project: Project, number: int) -> Project:
    """The project after an edit; all of it follows from the number, so that halves show."""
    text = "\n".join(f"{47 + number % 9}.{i:03d}, -31.{i:03d}" for i in range(10 + number % 60))
    return replace(project, route_text=text, options=Options(tide_m=float(number)))


def _edit_and_save(folder: Path, told: int) -> NoReturn:
    own = OwnAutosave(folder / "state")
    for number in range(1, 1_000_000):
        project = edited(Project(), number)
        own.write(Autosave(count=0, saved_utc=datetime.now(UTC), project=project))
        write_project(folder / "passage.legsheet", project)
        os.write(told, number.to_bytes(4, "big"))
    os._exit(0)


class _Telling(OwnAutosave):
    """Tells when a save is whole."""

    def __init__(self, folder: Path, told: int) -> None:
        super().__init__(folder)
        self._told = told

    def write(self, save: Autosave) -> None:
        super().write(save)
        os.write(self._told, int(save.project.options.tide_m or 0).to_bytes(4, "big"))


def _edit_in_a_window(folder: Path, told: int) -> NoReturn:
    application = QCoreApplication([])
    document = Document()
    keeping.WAIT_MS = keeping.SOON_MS = 0
    kept = keeping.Keeping(document, folder)
    numbers = iter(range(1, 1_000_000))
    kept._own = _Telling(folder / "autosave", told)
    edits = QTimer()
    edits.timeout.connect(lambda: document.edit("edit", edited(Project(), next(numbers))))
    edits.start(1)
    application.exec()
    kept.close()
    os._exit(0)


def _last_told(pipe: int) -> int:
    data = b""
    while piece := os.read(pipe, 65536):
        data += piece
    whole = len(data) // 4 * 4
    return int.from_bytes(data[whole - 4 : whole], "big") if whole else 0


def _is_as_edited(project: Project, number: int) -> bool:
    return project == edited(Project(), number)


def kill_one(folder: Path, random_s: float, *, is_window: bool = False) -> tuple[int, str]:
    """Kill one process after so long.

    Returns
    -------
    tuple of int and str
        The last save it told of, 0 without one; what is wrong, empty where that one, or a better
        one, opens.
    """
    reading, told = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reading)
        if is_window:
            _edit_in_a_window(folder, told)
        _edit_and_save(folder, told)
    os.close(told)
    time.sleep(random_s)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    last = _last_told(reading)
    os.close(reading)
    state = folder / ("autosave" if is_window else "state")
    found = left_behind(state)
    saves = [one.save for one in found]
    try:
        look = _trouble_in_window(last, saves) if is_window else _trouble(folder, last, saves)
    finally:
        for one in found:
            one.throw_away()
        (folder / "passage.legsheet").unlink(missing_ok=True)
    return last, look


def _trouble(folder: Path, last: int, saves: list[Autosave | None]) -> str:
    if last == 0 and not saves:
        return ""
    if len(saves) != 1:
        return f"{len(saves)} autosaves of one process"
    save = saves[0]
    if save is None:
        # Killed before its first save was told whole.
        return "" if last == 0 else f"save {last} was told and none can be read"
    if save.count not in (last, last + 1) or not _is_as_edited(save.project, save.count):
        return f"save {last} was told, {save.count} found"
    if last:
        written = read_project(folder / "passage.legsheet")
        if not any(_is_as_edited(written, number) for number in (last, last + 1)):
            return f"the project file is not as written after save {last}"
    return ""


def _trouble_in_window(last: int, saves: list[Autosave | None]) -> str:
    if not saves or saves == [None]:
        return f"save {last} was told and none is there" if last else ""
    save = saves[0]
    if len(saves) != 1 or save is None:
        return f"save {last} was told and {len(saves)} are there"
    number = int(save.project.options.tide_m or 0)
    # Edits go on while a save is written, so that the next one may be of a much later edit.
    if number < last or not _is_as_edited(save.project, number):
        return f"save {last} was told, {number} found"
    return ""


def main(folder: Path, count: int, seed: int, *, is_window: bool) -> None:
    """Kill many; print what went wrong, how many were killed while writing, what lies about."""
    chance = random.Random(seed)  # noqa: S311 - moments to kill at, no secrets
    longest_s = _LONGEST_IN_WINDOW_S if is_window else _LONGEST_S
    ends = [
        kill_one(folder, chance.uniform(0.0, longest_s), is_window=is_window) for _ in range(count)
    ]
    state = folder / ("autosave" if is_window else "state")
    sys.stdout.write(
        json.dumps(
            {
                "kills": len(ends),
                "troubles": [trouble for _last, trouble in ends if trouble],
                "killed_while_writing": sum(1 for _ in folder.glob(".part-*")),
                "killed_after_a_save": sum(1 for last, _trouble in ends if last),
                "left_in_state": sorted(path.name for path in state.glob("*")),
            }
        )
    )


if __name__ == "__main__":
    main(
        Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]), is_window=sys.argv[4:] == ["window"]
    )
