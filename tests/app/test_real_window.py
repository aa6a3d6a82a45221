"""The program as a process of its own on a real screen, used by mouse and keyboard.

Needs Xvfb and xdotool; it skips without them.
"""

import json
import os
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(
        not (shutil.which("Xvfb") and shutil.which("xdotool")), reason="no Xvfb or no xdotool"
    ),
]

_ROOT = Path(__file__).resolve().parents[2]
_RUN = """
import json, sys
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication
import app.start as start
from app.window.main_window import MainWindow

told = [None]

def look():
    windows = [w for w in QApplication.topLevelWidgets() if isinstance(w, MainWindow)]
    if windows and windows[0].isVisible():
        window, dialog = windows[0], QApplication.activeModalWidget()
        document, strip, legs = window._document, window.panes.strip, window.panes.legs
        middle = strip.mapToGlobal(strip.rect().center())
        row = legs.visualRect(legs.model().index(2, 0)).center()
        leg = legs.viewport().mapToGlobal(row)
        state = {
            "leg": document.leg_index,
            "along": round(document.cursor_along_m),
            "light": window.light.name,
            "planned": document.outcome is not None and not document.job.is_running,
            "dialog": "" if dialog is None else dialog.windowTitle(),
            "drawn": strip.is_current,
            "strip": [middle.x(), middle.y()],
            "third_leg": [leg.x(), leg.y()],
        }
        if state != told[0]:
            told[0] = state
            print(json.dumps(state), flush=True)

make = start.make_application
def made():
    application = make()
    timer = QTimer(application)
    timer.timeout.connect(look)
    timer.start(50)
    return application
start.make_application = made
sys.exit(start.run_window(None))
"""


class _Screen:
    """A screen with the program on it, and what the program told last."""

    def __init__(self, display: str, folder: Path) -> None:
        names = ("XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME")
        self._env = {
            **os.environ,
            **{name: str(folder / name) for name in names},
            "DISPLAY": display,
            "QT_QPA_PLATFORM": "xcb",
        }
        self._told = folder / "told"
        with self._told.open("wb") as out:
            self.process = subprocess.Popen(
                [sys.executable, "-c", _RUN], cwd=_ROOT, env=self._env, stdout=out
            )

    def hand(self, *words: str) -> None:
        """Move the mouse, press a key or a button."""
        subprocess.run(["xdotool", *words], env=self._env, check=True, capture_output=True)

    def keys(self, *names: str) -> None:
        """Press keys one after another."""
        for name in names:
            self.hand("key", name)
            time.sleep(0.15)

    def focus(self) -> None:
        """Give the keyboard to the window: no manager of windows does so here."""
        found = subprocess.run(
            ["xdotool", "search", "--onlyvisible", "--name", "Legsheet"],
            env=self._env, check=True, capture_output=True, text=True,
        )  # fmt: skip
        self.hand("windowfocus", "--sync", found.stdout.split()[0])

    @property
    def state(self) -> dict[str, Any]:
        """What the program told last."""
        lines = self._told.read_text(encoding="utf-8").splitlines()
        state: dict[str, Any] = json.loads(lines[-1]) if lines else {}
        return state

    def wait_for(self, most_s: float = 20.0, **wanted: object) -> None:
        """Wait until the program tells this."""
        end_s = time.monotonic() + most_s
        while any(self.state.get(name) != value for name, value in wanted.items()):
            assert self.process.poll() is None, "the program has ended"
            assert time.monotonic() < end_s, (wanted, self.state)
            time.sleep(0.1)


@pytest.fixture
def screen(tmp_path: Path) -> Iterator[_Screen]:
    reading, writing = os.pipe()
    server = subprocess.Popen(
        ["Xvfb", "-displayfd", str(writing), "-screen", "0", "1366x768x24"],
        pass_fds=(writing,),
        stderr=subprocess.DEVNULL,
    )
    os.close(writing)
    with os.fdopen(reading) as pipe:
        display = f":{pipe.readline().strip()}"
    made = _Screen(display, tmp_path)
    yield made
    made.process.kill()
    made.process.wait()
    server.terminate()
    server.wait()


def test_the_job_is_done_by_hand_on_a_real_screen(screen: _Screen) -> None:
    screen.wait_for(300.0, planned=True, leg=0)
    screen.focus()
    screen.keys("ctrl+Down")
    screen.wait_for(leg=1)
    x, y = screen.state["third_leg"]
    screen.hand("mousemove", str(x), str(y), "click", "1")
    screen.wait_for(leg=2, along=0, drawn=True)
    x, y = screen.state["strip"]
    screen.hand("mousemove", str(x), str(y), "click", "1")
    end_s = time.monotonic() + 20.0
    while screen.state["along"] < 1000 and time.monotonic() < end_s:
        time.sleep(0.1)
    assert screen.state["along"] > 1000, "own ship went where the strip was clicked"
    along = screen.state["along"]
    screen.hand("click", "4")
    end_s = time.monotonic() + 20.0
    while screen.state["along"] == along and time.monotonic() < end_s:
        time.sleep(0.1)
    assert screen.state["along"] != along, "the wheel moves own ship"
    screen.keys("F8")
    screen.wait_for(light="dusk")
    screen.keys("F8")
    screen.wait_for(light="night")
    screen.keys("F1")
    end_s = time.monotonic() + 20.0
    while not screen.state["dialog"] and time.monotonic() < end_s:
        time.sleep(0.1)
    assert screen.state["dialog"]
    screen.keys("Escape")
    screen.wait_for(dialog="")
    screen.focus()
    screen.keys("ctrl+q")
    assert screen.process.wait(30) == 0
