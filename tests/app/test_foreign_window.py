"""The window in an invented language: nothing passes the catalogue by, nothing is cut."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

pytestmark = pytest.mark.slow

_ROOT = Path(__file__).resolve().parents[2]
_QTS_OWN = {"Cancel", "Close", "OK", "Apply", "Scroll Left", "Scroll Right"}
"""Words that Qt has translations of its own for, as it has for keys."""
_KEYS = re.compile(r"((Ctrl|Alt|Shift)\+)*(\S|F\d+|Up|Down|Left|Right|Home|End|Backspace|, )+")
_OF_THE_DEMO = ("Merrowan", "main mast", "Ship", "(invented)")
"""Names that stand in the demo's files."""


@pytest.fixture(scope="module")
def seen(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    answer = subprocess.run(
        [sys.executable, "-m", "tests.helpers.foreign_window", str(tmp_path_factory.mktemp("zz"))],
        env={**os.environ, "QT_QPA_PLATFORM": "offscreen"},
        cwd=_ROOT,
        capture_output=True,
        text=True,
        check=False,
        timeout=900,
    )
    assert answer.returncode == 0, answer.stderr[-2000:]
    told: dict[str, Any] = json.loads(answer.stdout.splitlines()[-1])
    return told


def test_all_words_come_from_the_catalogue(seen: dict[str, Any]) -> None:
    # Window, dialogs, tables, progress, steps, notices, errors, findings, help, words of files.
    left = [
        text
        for text in seen["english"]
        if text.replace("&", "") not in _QTS_OWN
        and not _KEYS.fullmatch(text)
        and not any(name in text for name in _OF_THE_DEMO)
    ]
    assert left == []


def test_a_third_longer_no_word_of_window_or_dialog_is_cut(seen: dict[str, Any]) -> None:
    assert seen["cut"] == []


def test_a_third_longer_no_head_of_a_table_is_cut(seen: dict[str, Any]) -> None:
    assert seen["cut_heads"] == []
