"""The window as it is started: in a process of its own, with its own settings and log."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from app.start import make_application
from core.base.errors import InputError

_RUN = """
import sys
from pathlib import Path
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication
import app.start as start
from app.window.main_window import MainWindow

def look():
    window = next(w for w in QApplication.topLevelWidgets() if isinstance(w, MainWindow))
    if window.panes.legs.model().rowCount() == 2:
        print(window.windowTitle())
        window.close()
    else:
        QTimer.singleShot(50, look)

make = start.make_application
def made():
    application = make()
    QTimer.singleShot(50, look)
    return application
start.make_application = made
sys.exit(start.run_window(Path(sys.argv[1])))
"""


def test_a_route_named_at_the_start_is_open_and_nothing_is_left_running(tmp_path: Path) -> None:
    route = tmp_path / "two legs.csv"
    route.write_text(
        "name,lat,lon\nA,-30.0,-20.0\nB,-29.9,-20.0\nC,-29.8,-19.9\n", encoding="utf-8"
    )
    folders = {
        name: str(tmp_path / name)
        for name in ("XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME", "XDG_STATE_HOME")
    }
    done = subprocess.run(
        [sys.executable, "-c", _RUN, str(route)],
        env={**os.environ, **folders, "QT_QPA_PLATFORM": "offscreen"},
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    assert "two legs" in done.stdout
    assert list(tmp_path.glob("XDG_*/**/settings.ini")), "settings are kept"
    assert list(tmp_path.glob("XDG_*/**/legsheet.log")), "a log is kept"


_EDIT_AND_DIE = """
import os, signal, sys
from pathlib import Path
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication
import app.start as start
from app.window.main_window import MainWindow
from core.files.project import Options

def edit():
    windows = [w for w in QApplication.topLevelWidgets() if isinstance(w, MainWindow)]
    if windows and windows[0].panes.legs.model().rowCount() == 2:
        windows[0]._document.set_options(Options(tide_m=1.5, mean_sea_level_m=2.0))
        QTimer.singleShot(20, die)
    else:
        QTimer.singleShot(50, edit)

def die():
    # one being written still bears another name, which begins with a dot
    if list(Path(os.environ["XDG_STATE_HOME"]).rglob("[!.]*.autosave")):
        os.kill(os.getpid(), signal.SIGKILL)
    QTimer.singleShot(20, die)

make = start.make_application
def made():
    application = make()
    QTimer.singleShot(50, edit)
    return application
start.make_application = made
start.run_window(Path(sys.argv[1]))
"""

_RECOVER = """
import sys
from pathlib import Path
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QListWidget
import app.start as start
from app.window.main_window import MainWindow
from app.window.recovery_dialog import RecoveryDialog

def answer():
    dialog = QApplication.activeModalWidget()
    if isinstance(dialog, RecoveryDialog):
        print(dialog.findChildren(QListWidget)[0].item(0).text())
        QTimer.singleShot(50, look)
        QTest.keyClick(dialog.findChildren(QListWidget)[0], Qt.Key.Key_Return)
    else:
        QTimer.singleShot(50, answer)

def look():
    window = next(w for w in QApplication.topLevelWidgets() if isinstance(w, MainWindow))
    document = window._document
    if QApplication.activeModalWidget() is not None or not document.is_modified:
        QTimer.singleShot(50, look)  # a busy computer has not taken the key or read the file yet
        return
    print("tide", document.project.options.tide_m, "modified", document.is_modified)
    document.undo_stack.setClean()
    window.close()

make = start.make_application
def made():
    application = make()
    QTimer.singleShot(50, answer)
    return application
start.make_application = made
sys.exit(start.run_window(None))
"""


@pytest.mark.skipif(sys.platform == "win32", reason="no such signal there")
def test_edits_of_a_killed_window_come_back_at_the_next_start(tmp_path: Path) -> None:
    route = tmp_path / "two legs.csv"
    route.write_text(
        "name,lat,lon\nA,-30.0,-20.0\nB,-29.9,-20.0\nC,-29.8,-19.9\n", encoding="utf-8"
    )
    folders = {
        name: str(tmp_path / name)
        for name in ("XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME", "XDG_STATE_HOME")
    }

    def run(script: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [sys.executable, "-c", script, str(route)],
            env={**os.environ, **folders, "QT_QPA_PLATFORM": "offscreen"},
            capture_output=True,
            text=True,
            timeout=90,
            check=False,
        )

    killed = run(_EDIT_AND_DIE)
    assert killed.returncode == -9, killed.stderr
    again = run(_RECOVER)
    assert again.returncode == 0, again.stderr
    assert "two legs: edits of" in again.stdout
    assert "last: change conditions" in again.stdout
    assert "tide 1.5 modified True" in again.stdout
    assert list((tmp_path / "XDG_STATE_HOME").rglob("*.autosave")) == []


def test_without_a_screen_one_sentence_says_what_to_do(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr(sys, "platform", "linux")
    with pytest.raises(InputError, match="there is no screen"):
        make_application()
