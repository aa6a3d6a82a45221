"""``legsheet detect`` from outside."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


def _run(*words: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "app", "detect", *words],
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        timeout=120.0,
        check=False,
    )


def test_one_target_as_json_on_standard_output() -> None:
    answer = _run(
        "--band", "X", "--antenna", "15", "--rcs", "5", "--target-height", "3.5",
        "--preset", "minimum", "--json",
    )  # fmt: skip
    assert (answer.returncode, answer.stderr) == (0, "")
    found = json.loads(answer.stdout)
    assert found["first_detection_nm"] == pytest.approx(4.56, abs=0.05)
    assert found["refraction_k"] == pytest.approx(4.0 / 3.0, abs=1e-6)


def test_extended_and_shore_are_the_same_for_the_same_numbers() -> None:
    common = ("--band", "S", "--antenna", "15", "--refraction", "1", "--json")
    body = json.loads(_run(*common, "--rcs", "5000", "--target-height", "6", "--extended").stdout)
    shore = json.loads(_run(*common, "--shore-height", "6").stdout)
    assert body["first_detection_nm"] == shore["first_detection_nm"]
    assert (body["target"]["kind"], shore["target"]["kind"]) == ("extended", "shore")
    assert shore["refraction_k"] == 1.0


def test_the_table_in_words() -> None:
    answer = _run("--table", "--band", "X")
    assert answer.returncode == 0
    assert "shoreline rising to 60 m" in answer.stdout
    assert "MSC.192(79)" in answer.stdout
    assert max(len(line) for line in answer.stdout.splitlines()) < 120


@pytest.mark.parametrize(
    "words",
    [
        ("--antenna", "15", "--shore-height", "6"),
        ("--band", "X", "--shore-height", "6"),
        ("--band", "X", "--antenna", "15"),
        ("--band", "X", "--antenna", "15", "--shore-height", "6", "--sea-state", "9"),
        ("--table", "--sea-state", "3"),
    ],
)
def test_what_cannot_be_used_is_one_sentence_and_two(words: tuple[str, ...]) -> None:
    answer = _run(*words)
    assert answer.returncode == 2
    assert answer.stdout == ""
    assert len(answer.stderr.strip().splitlines()) == 1
    assert answer.stderr.startswith("legsheet: ")
