"""Words in another language: taken from a catalogue, never at the cost of what they tell."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from core.base.catalogue import plurals_in_code, texts_in_code
from core.base.catalogue_file import PLURAL_RULES, Catalogue, read_catalogue
from core.base.language import tr, tr_listed, tr_n

_ROOT = Path(__file__).resolve().parents[3]


def test_without_a_catalogue_english_is_said() -> None:
    assert tr("Close") == "Close"
    assert tr("{count} legs, {part:.1f} NM", count=3, part=2.25) == "3 legs, 2.2 NM"
    assert tr("100 {percent}") == "100 {percent}", "no parts, nothing is filled in"


@pytest.mark.parametrize(("count", "said"), [(0, "0 legs"), (1, "1 leg"), (2, "2 legs")])
def test_a_text_that_counts_has_two_forms(count: int, said: str) -> None:
    assert tr_n("{count} leg", "{count} legs", count) == said


@pytest.mark.parametrize(
    ("names", "said"),
    [([], ""), (["A"], "A"), (["A", "B"], "A and B"), (("A", "B", "C"), "A, B and C")],
)
def test_names_in_a_row_are_joined_by_and(names: list[str], said: str) -> None:
    assert tr_listed(names) == said


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


def test_a_language_may_have_more_forms_than_english(tmp_path: Path) -> None:
    catalogue = tmp_path / "xx.json"
    texts = {
        "plural rule": "polish",
        "{count} leg | {count} legs": ["{count} noga", "{count} nogi", "{count} nóg"],
        "one mark | {count} marks": ["znak", "{count} znaki"],
        "a bay | {count} bays": ["zatoka", "{count} zatoki", "{liczba} zatok"],
    }
    catalogue.write_text(json.dumps(texts), encoding="utf-8")
    code = (
        "from core.base.language import tr_n\n"
        "print(*(tr_n('{count} leg', '{count} legs', n) for n in (1, 3, 5, 12, 22, 25)))\n"
        "print(tr_n('one mark', '{count} marks', 2), tr_n('a bay', '{count} bays', 5))"
    )
    assert _said(code, str(catalogue)) == (
        "1 noga 3 nogi 5 nóg 12 nóg 22 nogi 25 nóg\n2 marks 5 bays"
    ), "too few forms and a lost part are passed over"


@pytest.mark.parametrize("rule", PLURAL_RULES)
def test_every_rule_names_a_form_that_there_is(rule: str) -> None:
    forms, form_of = PLURAL_RULES[rule]
    assert {form_of(count) for count in range(300)} == set(range(forms))


def test_a_word_of_a_file_is_shown_but_not_kept_in_another_language(tmp_path: Path) -> None:
    catalogue = tmp_path / "xx.json"
    catalogue.write_text(json.dumps({"near side": "nahe Seite", "beacon": "Bake"}))
    code = (
        "from core.plan.index_object import Edge\n"
        "from core.words.kept_words import kept, shown\n"
        "print(Edge.NEAR_SIDE.value, Edge.NEAR_SIDE.shown)\n"
        "print(shown('beacon'), kept('Bake'), shown('Bake des Hafens'))"
    )
    assert _said(code, str(catalogue)) == "near_side nahe Seite\nBake beacon Bake des Hafens"


@pytest.mark.parametrize("content", ["", "[1, 2]", "{", '{"Close": 3, "Open": ""}'])
def test_a_file_that_is_no_catalogue_says_nothing(tmp_path: Path, content: str) -> None:
    path = tmp_path / "xx.json"
    path.write_text(content, encoding="utf-8")
    assert read_catalogue(path) == Catalogue()
    assert read_catalogue(tmp_path / "none.json") == Catalogue()


def test_every_text_stands_in_the_code_so_that_it_can_be_translated() -> None:
    # Fails on a text that is put together before ``tr`` sees it.
    texts = texts_in_code(_ROOT)
    assert len(texts) > 2500
    assert len(plurals_in_code(_ROOT)) > 10
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
    leg = "{count} leg | {count} legs"
    said = {"Course": "Kurs", "gone": "weg", leg: ["{count} Bein", "{count} Beine"]}
    known.write_text(json.dumps(said), encoding="utf-8")
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
    assert texts[leg] == said[leg]
    assert texts["plural rule"] == "one, many"
