"""The window in an invented language: nothing on it passes the catalogue by."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

pytestmark = pytest.mark.slow

_ROOT = Path(__file__).resolve().parents[2]
_QTS_OWN = {"Cancel", "Close", "OK", "Apply"}
"""Buttons that Qt has translations of its own for."""
_OF_THE_DEMO = ("Merrowan", "main mast", "Ship", "(invented)")
"""Names that stand in the demo's files."""


def test_all_words_of_the_window_come_from_the_catalogue(tmp_path: Path) -> None:
    answer = subprocess.run(
        [sys.executable, "-m", "tests.helpers.foreign_window", str(tmp_path)],
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
        cwd=_ROOT,
        capture_output=True,
        text=True,
        check=False,
        timeout=900,
    )
    assert answer.returncode == 0, answer.stderr[-2000:]
    english = json.loads(answer.stdout.splitlines()[-1])
    left = [
        text
        for text in english
        if text.replace("&", "") not in _QTS_OWN and not any(n in text for n in _OF_THE_DEMO)
    ]
    assert left == []
