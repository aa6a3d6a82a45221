"""Words in another language: taken from a catalogue, never at the cost of what they tell."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from core.base.catalogue import texts_in_code
from core.base.catalogue_file import Catalogue, read_catalogue
from core.base.language import tr

_ROOT = Path(__file__).resolve().parents[3]


def test_without_a_catalogue_english_is_said() -> None:
    assert tr("Close") == "Close"
    assert tr("{count} legs, {part:.1f} NM", count=3, part=2.25) == "3 legs, 2.2 NM"
    assert tr("100 {percent}") == "100 {percent}", "no parts, nothing is filled in"


def _said(code: str, language: str) -> str:
    return subprocess.run(
        [sys.executable, "-c", code],
        env={**os.environ, "LEGSHEET_LANGUAGE": language},
        cwd=_ROOT,
        capture_output=True,
        text=True,
        check=True,
    ).stdout.strip()


def test_a_catalogue_is_taken_for_texts_tables_and_their_parts(tmp_path: Path) -> None:
    catalogue = tmp_path / "xx.json"
    texts = {
        "Close": "Zu",
        "{count} legs": "Beine: {count}",
        "{a} lost": "{a} weg",
        "Course": "Kurs",
    }
    catalogue.write_text(json.dumps(texts), encoding="utf-8")
    code = (
        "from core.base.language import tr\n"
        "from core.words.messages import Say\n"
        "print(tr('Close'), tr('{count} legs', count=4), tr('{a} lost', a=1))\n"
        "print(tr('Open'), Say.COURSE)"
    )
    assert _said(code, str(catalogue)) == "Zu Beine: 4 1 weg\nOpen Kurs"


def test_a_translation_that_lost_a_part_or_rounds_otherwise_is_passed_over(tmp_path: Path) -> None:
    catalogue = tmp_path / "xx.json"
    texts = {
        "{count} legs": "Beine: {zahl}",
        "{a} lost": "weg {",
        "{range_nm:.2f} NM off": "{range_nm:.0f} NM weg",
        "hidden from {from_nm} NM": "verdeckt",
    }
    catalogue.write_text(json.dumps(texts), encoding="utf-8")
    code = (
        "from core.base.language import tr\n"
        "print(tr('{count} legs', count=4), tr('{a} lost', a=1))\n"
        "print(tr('{range_nm:.2f} NM off', range_nm=0.4))\n"
        "print(tr('hidden from {from_nm} NM', from_nm=3))"
    )
    assert _said(code, str(catalogue)) == "4 legs 1 lost\n0.40 NM off\nhidden from 3 NM"


@pytest.mark.parametrize("content", ["", "[1, 2]", "{", '{"Close": 3, "Open": ""}'])
def test_a_file_that_is_no_catalogue_says_nothing(tmp_path: Path, content: str) -> None:
    path = tmp_path / "xx.json"
    path.write_text(content, encoding="utf-8")
    assert read_catalogue(path) == Catalogue()
    assert read_catalogue(tmp_path / "none.json") == Catalogue()


def test_every_text_stands_in_the_code_so_that_it_can_be_translated() -> None:
    # Fails on a text that is put together before ``tr`` sees it.
    texts = texts_in_code(_ROOT)
    assert len(texts) > 1500
    assert "Close" in " ".join(texts)
    assert len(set(texts)) == len(texts)


def test_a_text_put_together_is_told_with_its_place(tmp_path: Path) -> None:
    (tmp_path / "core").mkdir()
    (tmp_path / "app").mkdir()
    (tmp_path / "core" / "one.py").write_text("x = tr('a ' + y)\n", encoding="utf-8")
    with pytest.raises(ValueError, match=r"one\.py, line 1"):
        texts_in_code(tmp_path)


def test_the_catalogue_is_printed_with_what_is_translated_already(tmp_path: Path) -> None:
    known = tmp_path / "xx.json"
    known.write_text(json.dumps({"Course": "Kurs", "gone": "weg"}), encoding="utf-8")
    printed = subprocess.run(
        [sys.executable, "-m", "core.base.catalogue", str(known)],
        cwd=_ROOT,
        capture_output=True,
        text=True,
        check=True,
    ).stdout
    texts = json.loads(printed)
    assert texts["Course"] == "Kurs"
    assert texts["Distance"] == ""
    assert "gone" not in texts
