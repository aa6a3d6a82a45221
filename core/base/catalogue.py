"""All texts that stand in the code, for who translates them.

``python -m core.base.catalogue [CATALOGUE.json]`` prints them as a catalogue, those that the given
one has already translated with their translations.
"""

import ast
import json
import sys
from collections.abc import Iterator
from pathlib import Path

from core.base.catalogue_file import PLURAL_RULES, RULE_KEY, Catalogue, plural_key, read_catalogue
from core.base.language import plain_word

_ROOT = Path(__file__).resolve().parents[2]


def _called(tree: ast.AST, function: str, count: int) -> Iterator[tuple[str, ...]]:
    """Texts of calls of ``tr`` or ``tr_n``.

    Raises
    ------
    ValueError
        One is put together as the program runs, so that no catalogue can hold it.
    """
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and ast.unparse(node.func) == function:
            texts = tuple(filter(None, map(_literal, node.args[:count])))
            if len(texts) != count:
                raise ValueError(f"line {node.lineno}: not a text that stands in the code")
            yield texts


def _literal(node: ast.expr) -> str | None:
    return node.value if isinstance(node, ast.Constant) and isinstance(node.value, str) else None


def _tabled(tree: ast.AST) -> Iterator[str]:
    """Texts of tables, and words that are shown otherwise than they are kept."""
    for node in ast.walk(tree):
        bases = set(map(ast.unparse, node.bases)) if isinstance(node, ast.ClassDef) else set()
        if not (isinstance(node, ast.ClassDef) and bases & {"Texts", "Worded"}):
            continue
        for row in node.body:
            text = _literal(row.value) if isinstance(row, ast.Assign) else None
            if text is not None:
                yield plain_word(text) if "Worded" in bases else text


def _trees(root: Path) -> Iterator[tuple[Path, ast.AST]]:
    for folder in ("core", "app"):
        for path in sorted((root / folder).rglob("*.py")):
            if path.name != "language.py":
                yield path, ast.parse(path.read_text(encoding="utf-8"))


def texts_in_code(root: Path = _ROOT) -> tuple[str, ...]:
    """Texts of ``core`` and ``app``, each once, sorted.

    Raises
    ------
    ValueError
        A text cannot be translated; tells file and line.
    """
    found: set[str] = {"{names} and {last_name}"}
    for path, tree in _trees(root):
        try:
            found.update(text for (text,) in _called(tree, "tr", 1))
            found.update(_tabled(tree))
        except ValueError as exc:
            raise ValueError(f"{path.relative_to(root)}, {exc}") from None
    return tuple(sorted(found))


def plurals_in_code(root: Path = _ROOT) -> tuple[tuple[str, str], ...]:
    """Texts that count, each once, sorted, for one and for many.

    Raises
    ------
    ValueError
        A text cannot be translated; tells file and line.
    """
    found: set[tuple[str, str]] = set()
    for path, tree in _trees(root):
        try:
            found.update((one, many) for one, many in _called(tree, "tr_n", 2))
        except ValueError as exc:
            raise ValueError(f"{path.relative_to(root)}, {exc}") from None
    return tuple(sorted(found))


def main(words: list[str]) -> None:
    """Print a catalogue."""
    known = read_catalogue(Path(words[0])) if words else Catalogue()
    table: dict[str, object] = {RULE_KEY: known.rule}
    table |= {text: known.texts.get(text, "") for text in texts_in_code()}
    none = ("",) * PLURAL_RULES[known.rule][0]
    keys = [plural_key(one, many) for one, many in plurals_in_code()]
    table |= {key: known.plurals.get(key, none) for key in keys}
    json.dump(table, sys.stdout, ensure_ascii=False, indent=1)
    sys.stdout.write("\n")


if __name__ == "__main__":
    main(sys.argv[1:])
