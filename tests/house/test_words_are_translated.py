"""Whatever somebody reads goes through the catalogue: sentences, and words given to widgets."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from string import Formatter

ROOT = Path(__file__).resolve().parents[2]
_CODE = sorted([*ROOT.glob("core/**/*.py"), *ROOT.glob("app/**/*.py")])
_TABLES = {"Texts", "Worded", "Enum", "StrEnum", "IntEnum"}
_BUGS = {"TypeError", "ValueError", "RuntimeError", "KeyError", "AssertionError", "IndexError"}
_NOT_READ = re.compile(
    r"_?log(ger)?\..*|logging\..*|re\..*|cast|TypeVar|BlockingIOError|memory\.of|setStyleSheet"
)
_WIDGETS = re.compile(
    r"(.*\.)?(QLabel|QPushButton|QToolButton|QCheckBox|QRadioButton|QGroupBox|setText|setTitle"
    r"|setWindowTitle|setToolTip|setStatusTip|setAccessibleName|setPlaceholderText|addItem|addTab"
    r"|addAction|addMenu|addButton|showMessage)"
)
_ALIKE = {"NM", "kn", "min", "dB", "deg", "EPSG", "UTC", "CSV", "GPX", "RTZ", "WP"}
"""Units and names of formats, the same in every language."""

_FILES = {
    "core/base/(compiled|catalogue|catalogue_file|language)": "types, rules and tools",
    "core/files/plan_.*": "the plan file: its words are those of its schema",
    "core/files/.*_json": "files of the program: their words are those of their schema",
    "core/files/(gpx_write|rtz_write|csv_route_write|ship_write|sweep_raster)": "formats of files",
    "core/radar/.*": "tables of the physics; core/words/kept_words shows their names",
    "core/plan/(setup_codes|mark_echo|mark_objects)": "codes, and words of files looked for",
    "core/plan/(headlands|land_objects)": "keys of what was found",
    "core/words/kept_words": "words of files beside what is shown for them",
    "core/sheets/(page|wrapping)": "names of pens; patterns",
    "app/paint/(pdf|qt_setup)": "the format PDF; a font",
    "app/views/light": "a style sheet",
    "app/state/settings": "remarks for who reads the code",
}
"""Files whose literals nobody reads on a screen or a sheet, each with its reason."""
_TEXTS = {
    "must not": "a key of the memory",
    "peak {}": "a key of what was found",
    "legsheet {}": "the name of the program",
    "legsheet: {}\n": "the name of the program",
    "{} band radar": "the name of a radar that has none, which the plan is made from",
    "us survey foot": "a unit as files name it",
    "typed route": "the file name of a route that has none",
    ", reversed": "part of the name of a passage, taken off again",
    "either side": "a word of the plan file, never shown",
    "--tide, --msl": "options",
    "NM:KN ...": "what stands for a value in the help",
    "Shift+Up, Shift+Down": "keys",
    "contingency {}": "the name under which facts of a leg are compared",
    "contingency {} ": "the name under which facts of a leg are compared",
    "contingency {} {}": "the name under which facts of a leg are compared",
    "{} to {}": "names of waypoints as a revision keeps them",
    "47.1234 or 47 07.40 N": "figures",
    "-31.5678 or 031 34.07 W": "figures",
}
"""Literals that stay as they are, each with its reason."""
_KEPT = {"light vessel", "harbour mouth", "harbour entrance", "river mouth", "ferry slip"}
_KEPT |= {"ferry landing", "traffic lane", "pilot station", "breakwater end", "pier end"}
_KEPT |= {"minimum standard"}
"""Kinds of marks, and a preset, as files have them."""


def _literal(node: ast.AST) -> str | None:
    """A text; parts that are filled in stand as ``{}``."""
    if isinstance(node, ast.Constant):
        return node.value if isinstance(node.value, str) else None
    if isinstance(node, ast.JoinedStr):
        return "".join(str(v.value) if isinstance(v, ast.Constant) else "{}" for v in node.values)
    return None


def _is_apart(node: ast.AST, child: ast.AST) -> bool:
    """Whether nobody reads what stands there."""
    if isinstance(node, ast.Call):
        name = ast.unparse(node.func)
        if name in ("tr", "tr_n") and child in node.args[:2]:
            return True
        return _NOT_READ.fullmatch(name) is not None
    if isinstance(node, ast.Raise):
        name = ast.unparse(node.exc.func) if isinstance(node.exc, ast.Call) else ""
        return name in _BUGS
    if isinstance(node, ast.ClassDef):
        return any(ast.unparse(base) in _TABLES for base in node.bases)
    if isinstance(node, ast.Subscript):
        return child is node.slice
    if isinstance(node, ast.arg | ast.AnnAssign):
        return child is node.annotation
    if isinstance(node, ast.FunctionDef):
        return child is node.returns
    return isinstance(node, ast.Expr | ast.FormattedValue) and not isinstance(child, ast.Call)


def _read(tree: ast.AST) -> Iterator[tuple[int, str, str]]:
    """Line, text, and what it is given to, of all literals that somebody may read."""
    above: dict[ast.AST, ast.AST] = {}
    for node in ast.walk(tree):
        for child in ast.iter_child_nodes(node):
            above[child] = node
    for node in ast.walk(tree):
        text = _literal(node)
        if text is None or isinstance(above.get(node), ast.JoinedStr):
            continue
        at, given_to, is_read = node, "", True
        while is_read and at in above:
            up = above[at]
            if isinstance(up, ast.Call) and not given_to:
                given_to = ast.unparse(up.func)
            is_read = not _is_apart(up, at)
            if isinstance(up, ast.FunctionDef | ast.ClassDef):
                break
            at = up
        if is_read:
            yield getattr(node, "lineno", 0), text, given_to


def _says_something(text: str, given_to: str) -> bool:
    own = re.sub(r"\{\w*\}", "", text)
    words = [word for word in re.findall(r"[^\W\d_]+", own) if len(word) > 2]
    if not words or set(words) <= _ALIKE or text in _TEXTS or text in _KEPT:
        return False
    if _WIDGETS.fullmatch(given_to):
        return text != "WORDS" and re.search(r"[<{]", text) is None
    return " " in text.strip() and re.search(r"[<%\\]|^\{\}-|\(\?", text) is None


def _untranslated(path: Path) -> list[str]:
    name = path.relative_to(ROOT).as_posix().removesuffix(".py")
    if any(re.fullmatch(pattern, name) for pattern in _FILES):
        return []
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return [
        f"{name}.py, line {line}: {text!r}"
        for line, text, given_to in _read(tree)
        if _says_something(text, given_to)
    ]


def test_no_text_passes_the_catalogue_by() -> None:
    assert [text for path in _CODE for text in _untranslated(path)] == []


def test_the_rule_finds_a_sentence_and_a_word_on_a_widget(tmp_path: Path) -> None:
    tree = ast.parse(
        'label = QLabel("Close")\n'
        'raise InputError(f"the leg {number} is too long", todo=tr("Give another"))\n'
        'raise ValueError("a bug is told to nobody")\n'
    )
    found = [text for _line, text, given_to in _read(tree) if _says_something(text, given_to)]
    assert found == ["Close", "the leg {} is too long"]


def _parts(node: ast.Call) -> Iterator[set[str]]:
    """Names in braces of each text of a call."""
    for text in filter(None, map(_literal, node.args[:2])):
        yield {name for _text, name, _how, _kind in Formatter().parse(text) if name}


def test_every_part_of_a_text_is_given() -> None:
    wrong = []
    for path in _CODE:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.Call) or ast.unparse(node.func) not in ("tr", "tr_n"):
                continue
            given = {part.arg or "" for part in node.keywords}
            # Without parts nothing is filled in; parts in one mapping are not seen here.
            if "" in given or (not given and ast.unparse(node.func) == "tr"):
                continue
            given |= {"count"} if ast.unparse(node.func) == "tr_n" else set()
            wrong += [
                (path.name, node.lineno, parts ^ given - {"count"})
                for parts in _parts(node)
                if not (parts <= given and given - {"count"} <= parts | {"count"})
            ]
    assert wrong == []
