"""All texts that stand in the code, for who translates them.

``python -m core.base.catalogue [CATALOGUE.json]`` prints them as a catalogue, those that the given
one has already translated with their translations.
"""

import ast
import json
import sys
from collections.abc import Iterator
from pathlib import Path

from core.base.language import read_catalogue

_ROOT = Path(__file__).resolve().parents[2]


def _called(tree: ast.AST) -> Iterator[str]:
    """Texts of calls of ``tr``.

    Raises
    ------
    ValueError
        One is put together as the program runs, so that no catalogue can hold it.
    """
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and ast.unparse(node.func) == "tr":
            text = _literal(node.args[0]) if node.args else None
            if text is None:
                raise ValueError(f"line {node.lineno}: not a text that stands in the code")
            yield text


def _literal(node: ast.expr) -> str | None:
    return node.value if isinstance(node, ast.Constant) and isinstance(node.value, str) else None


def _tabled(tree: ast.AST) -> Iterator[str]:
    """Texts of tables."""
    for node in ast.walk(tree):
        if not (isinstance(node, ast.ClassDef) and "Texts" in map(ast.unparse, node.bases)):
            continue
        for row in node.body:
            text = _literal(row.value) if isinstance(row, ast.Assign) else None
            if text is not None:
                yield text


def texts_in_code(root: Path = _ROOT) -> tuple[str, ...]:
    """Texts of ``core`` and ``app``, each once, sorted.

    Raises
    ------
    ValueError
        A text cannot be translated; tells file and line.
    """
    found: set[str] = set()
    for folder in ("core", "app"):
        for path in sorted((root / folder).rglob("*.py")):
            tree = ast.parse(path.read_text(encoding="utf-8"))
            if path.name == "language.py":
                continue
            try:
                found.update(_called(tree), _tabled(tree))
            except ValueError as exc:
                raise ValueError(f"{path.relative_to(root)}, {exc}") from None
    return tuple(sorted(found))


def main(words: list[str]) -> None:
    """Print a catalogue."""
    known = read_catalogue(Path(words[0])) if words else {}
    texts = {text: known.get(text, "") for text in texts_in_code()}
    json.dump(texts, sys.stdout, ensure_ascii=False, indent=1)
    sys.stdout.write("\n")


if __name__ == "__main__":
    main(sys.argv[1:])
