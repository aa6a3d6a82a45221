"""That every worked case of the trade note has a test of its own.

``data/worked_cases.csv`` lists them: case, status (published source; common practice, no source;
computed by hand), what it is, and the tests that assert it. A test counts where it asserts
something and names the case: in its docstring or a comment of its own.
"""

import ast
import csv
import io
import re
import tokenize
from functools import lru_cache
from pathlib import Path

import pytest

_ROOT = Path(__file__).resolve().parents[2]
_STATUSES = {"published source", "common practice, no source", "computed by hand"}
_PARTS = {5: "b", 6: "bc", 9: "bcde", 15: "b", 16: "b", 17: "b"}
_NAME = re.compile(r"\bT\d{1,2}[b-e]?\b")
_MORE = re.compile(r"\b(T\d{1,2}[b-e]?) to (T\d{1,2}[b-e]?)\b")


def _cases() -> list[dict[str, str]]:
    path = Path(__file__).parent / "data" / "worked_cases.csv"
    with path.open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def _listed() -> list[tuple[str, str]]:
    return [(row["case"], test) for row in _cases() for test in row["tests"].split()]


def _asserts(node: ast.FunctionDef) -> bool:
    return any(
        isinstance(part, ast.Assert)
        or (isinstance(part, ast.Call) and ast.unparse(part.func) == "pytest.raises")
        for part in ast.walk(node)
    )


@lru_cache(maxsize=64)
def _named_in(file: str) -> dict[str, set[str]]:
    """Cases that every test of a file names; a span of cases names none of them."""
    source = (_ROOT / file).read_text(encoding="utf-8")
    words = [
        (token.start[0], token.string)
        for token in tokenize.generate_tokens(io.StringIO(source).readline)
        if token.type in (tokenize.STRING, tokenize.COMMENT)
    ]
    found: dict[str, set[str]] = {}
    for node in ast.parse(source).body:
        if not isinstance(node, ast.FunctionDef) or not node.name.startswith("test_"):
            continue
        if not _asserts(node):
            continue
        first = min([node.lineno, *(part.lineno for part in node.decorator_list)])
        text = "\n".join(word for line, word in words if first <= line <= (node.end_lineno or 0))
        found[node.name] = set(_NAME.findall(_MORE.sub("", text)))
    return found


def test_no_case_is_left_out() -> None:
    expected = [
        f"T{number}{part}" for number in range(1, 33) for part in ("", *_PARTS.get(number, ""))
    ]
    assert [row["case"] for row in _cases()] == expected


def test_every_case_has_a_status_a_word_and_a_test() -> None:
    for row in _cases():
        assert set(row["status"].split("; ")) <= _STATUSES, row["case"]
        assert row["what"], row["case"]
        assert row["tests"], row["case"]


@pytest.mark.parametrize(("case", "test"), _listed())
def test_the_test_is_there_and_names_the_case(case: str, test: str) -> None:
    file, name = test.split("::")
    assert case in _named_in(file).get(name, set())
