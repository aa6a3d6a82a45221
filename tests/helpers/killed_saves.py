"""Edits and saves on and on in processes that are killed; tells whether the last save opens.

Run as ``python -m tests.helpers.killed_saves FOLDER COUNT SEED``; it prints one JSON line. The
parts of the program are loaded once and each process to be killed is forked from that one.
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

from core.files.autosave_file import Autosave
from core.files.autosave_folder import OwnAutosave, left_behind
from core.files.project import Options, Project, read_project, write_project

_LONGEST_S = 0.04


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


def _last_told(pipe: int) -> int:
    data = b""
    while piece := os.read(pipe, 65536):
        data += piece
    whole = len(data) // 4 * 4
    return int.from_bytes(data[whole - 4 : whole], "big") if whole else 0


def _is_as_edited(project: Project, number: int) -> bool:
    return project == edited(Project(), number)


def kill_one(folder: Path, random_s: float) -> str:
    """Kill one process after so long; empty where what it last saved, or better, opens."""
    reading, told = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(reading)
        _edit_and_save(folder, told)
    os.close(told)
    time.sleep(random_s)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    last = _last_told(reading)
    os.close(reading)
    found = left_behind(folder / "state") if (folder / "state").is_dir() else ()
    try:
        return _trouble(folder, last, [one.save for one in found])
    finally:
        for one in found:
            one.throw_away()
        (folder / "passage.legsheet").unlink(missing_ok=True)


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


def main(folder: Path, count: int, seed: int) -> None:
    """Kill many; print what went wrong, how many were killed while writing, what lies about."""
    chance = random.Random(seed)  # noqa: S311 - moments to kill at, no secrets
    troubles = [kill_one(folder, chance.uniform(0.0, _LONGEST_S)) for _ in range(count)]
    sys.stdout.write(
        json.dumps(
            {
                "kills": len(troubles),
                "troubles": [trouble for trouble in troubles if trouble],
                "killed_while_writing": sum(1 for _ in folder.glob(".part-*")),
                "left_in_state": sorted(path.name for path in (folder / "state").iterdir()),
            }
        )
    )


if __name__ == "__main__":
    main(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]))
