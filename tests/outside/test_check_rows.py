"""That every check value of sections 1 to 8 and of the standard's table has a test of its own.

``data/check_rows.csv`` lists them: row, where its expected number is from (``verified``: read in
the source named beside the test; ``computed``: by an independent kernel or a package; ``memory``:
neither, so never asserted), and the tests that assert it. Section 3 has no rows; 9 and 10 are
those of ``test_geographiclib.py``, ``test_index_geometry.py`` and ``test_wheel_over_geometry.py``.

A test counts where it names the row: in a text or comment of its own, or of a table it uses.
"""

import ast
import csv
import io
import re
import tokenize
from collections import Counter
from functools import lru_cache
from pathlib import Path

import pytest

_HERE = Path(__file__).parent
_ROWS_OF_A_SECTION = {"1": 14, "2": 19, "4": 21, "5": 48, "6": 28, "7": 6, "8": 9}
_FITS = ("MSC.X", "MSC.S", "MSC.P1", "MSC.P2")
_NAME = re.compile(r"(?<![\w.])(?:[1-8]\.\d\d|MSC\.[XSP]\d?)(?![\w.]*\d)")
_SPAN = re.compile(r"(?<![\w.])([1-8])\.(\d\d) to ([1-8])\.(\d\d)(?!\d)")


def _rows() -> list[dict[str, str]]:
    with (_HERE / "data" / "check_rows.csv").open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def _tests() -> list[tuple[str, str]]:
    return [(row["row"], test) for row in _rows() for test in row["tests"].split()]


def _named_in(text: str) -> set[str]:
    """Rows a text names, «1.01 to 1.03» spelt out."""
    spans = [
        f"{section}.{number:02d}"
        for section, first, same, last in _SPAN.findall(text)
        if section == same
        for number in range(int(first), int(last) + 1)
    ]
    return {*spans, *_NAME.findall(text)}


@lru_cache(maxsize=32)
def _rows_by_test(file: str) -> dict[str, set[str]]:
    """What every test of a file that asserts something names; its numbers do not count."""
    source = (_HERE / file).read_text(encoding="utf-8")
    body = ast.parse(source).body
    words = [
        (token.start[0], token.string)
        for token in tokenize.generate_tokens(io.StringIO(source).readline)
        if token.type in (tokenize.STRING, tokenize.COMMENT)
    ]
    tables: dict[str, set[str]] = {}
    tests: dict[str, set[str]] = {}
    last = 0
    for node in body:
        # Comments above a statement belong to it.
        text = "\n".join(word for line, word in words if last < line <= (node.end_lineno or 0))
        last = node.end_lineno or 0
        if isinstance(node, ast.Assign | ast.AnnAssign):
            targets = node.targets if isinstance(node, ast.Assign) else [node.target]
            for target in targets:
                tables[ast.unparse(target)] = _named_in(text)
        elif isinstance(node, ast.FunctionDef) and node.name.startswith("test_"):
            used = {name.id for name in ast.walk(node) if isinstance(name, ast.Name)}
            if not any(isinstance(part, ast.Assert) for part in ast.walk(node)):
                continue
            tests[node.name] = _named_in(text).union(*(tables.get(name, set()) for name in used))
    return tests


def test_no_row_is_left_out_of_the_list() -> None:
    expected = [
        *(f"{s}.{n:02d}" for s, count in _ROWS_OF_A_SECTION.items() for n in range(1, count + 1)),
        *_FITS,
    ]
    rows = _rows()
    assert [row["row"] for row in rows] == expected
    assert Counter(row["tag"] for row in rows) == {"computed": 82, "verified": 65, "memory": 2}


def test_every_row_read_or_computed_has_a_test_and_none_from_memory_has() -> None:
    for row in _rows():
        assert bool(row["tests"]) == (row["tag"] != "memory"), row["row"]


@pytest.mark.parametrize(("row", "test"), _tests())
def test_the_test_is_there_and_names_the_row(row: str, test: str) -> None:
    file, name = test.split("::")
    assert row in _rows_by_test(file).get(name, set())


def test_rows_from_memory_are_named_by_no_test() -> None:
    from_memory = {row["row"] for row in _rows() if row["tag"] == "memory"}
    for path in sorted(_HERE.glob("test_*.py")):
        for name, named in _rows_by_test(path.name).items():
            assert not named & from_memory, f"{path.name}::{name}"
