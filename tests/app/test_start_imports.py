"""The window stands before what only computing needs is loaded."""

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
