"""The window stands before what only computing needs is loaded."""

import os
import subprocess
import sys
from pathlib import Path

_ROOT = Path(__file__).resolve().parents[2]
_LATE = ("rasterio", "pyogrio", "scipy.signal", "scipy.stats", "scipy.ndimage", "matplotlib")
"""Each takes from a tenth of a second to more than one."""


def test_the_window_is_imported_without_what_computing_needs() -> None:
    code = f"import sys, app.start; print([n for n in {_LATE!r} if n in sys.modules])"
    made = subprocess.run(
        [sys.executable, "-c", code], cwd=_ROOT, capture_output=True, text=True, check=True
    )
    assert made.stdout.strip() == "[]"


_RUN = """
import sys, time
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication
import app.start as start
from app.window.main_window import MainWindow

def look():
    shown = [w for w in QApplication.topLevelWidgets() if isinstance(w, MainWindow)]
    if not shown or not shown[0].isVisible():
        QTimer.singleShot(5, look)
        return
    shown[0].repaint()
    print(time.process_time(), flush=True)
    shown[0].close()

make = start.make_application
def made():
    application = make()
    QTimer.singleShot(5, look)
    return application
start.make_application = made
sys.exit(start.run_window(None))
"""


def test_the_window_stands_within_three_seconds(tmp_path: Path) -> None:
    """CPU time of the whole process to the first frame, the program's files read before."""
    names = ("XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME")
    env = {**os.environ, **{name: str(tmp_path) for name in names}, "QT_QPA_PLATFORM": "offscreen"}
    made = subprocess.run(
        [sys.executable, "-c", _RUN], cwd=_ROOT, env=env, capture_output=True, text=True, check=True
    )
    assert float(made.stdout) < 3.0
