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


def test_without_a_screen_one_sentence_says_what_to_do(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr(sys, "platform", "linux")
    with pytest.raises(InputError, match="there is no screen"):
        make_application()
