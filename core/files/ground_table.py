"""The table beside a raster of ground: which kind of ground each of its codes stands for.

It bears the raster's name with ``.csv`` (columns ``code`` and ``class``) or ``.toml`` (a table
``[classes]`` with lines such as ``50 = "metropolitan"``). Kinds are those of ``LandClass``;
what is not named is taken by its slope.
"""

import difflib
import tomllib
from collections.abc import Iterator
from pathlib import Path

from core.base.errors import InputError
from core.base.findings import Finding
from core.base.language import tr
from core.files.csv_table import Columns, Row, plain_heading, table_rows
from core.files.reading import Blob, decode_text, read_blob
from core.land.sources import GroundCodes
from core.radar.land_reflectivity import CLASS_NUMBERS, LandClass

_COLUMNS = Columns(
    spellings={
        "code": ("value", "number", "id"),
        "class": ("kind", "name", "ground", "land_class"),
    },
    needed=("code", "class"),
)
_NAMES = {
    name: kind
    for kind in LandClass
    for name in (plain_heading(kind.value), plain_heading(kind.name))
}
_MOST = 2**31


def read_ground_table(raster: Path) -> tuple[GroundCodes, tuple[Finding, ...], Path, str]:
    """Read the table that stands beside a raster of ground.

    Returns
    -------
    tuple
        Raster and codes, findings, the table's path and its SHA-256.

    Raises
    ------
    InputError
        No raster, no table beside it, or one that cannot be used, in one sentence.
    """
    if not raster.is_file():
        raise InputError(tr("there is no such file"), where=raster.name, todo=tr("Check the path"))
    path = next(
        (p for p in (raster.with_suffix(end) for end in (".csv", ".toml")) if p.is_file()), None
    )
    if path is None:
        raise InputError(
            tr("has no table beside it that says what its codes stand for"),
            where=raster.name,
            todo=tr("Write {stem}.csv with the columns code,class", stem=raster.stem),
        )
    blob = read_blob(path)
    text, findings = decode_text(blob)
    if path.suffix.casefold() == ".toml":
        rows: tuple[Row, ...] = tuple(_toml_rows(blob, text))
    else:
        rows, more = table_rows(blob.name, text, _COLUMNS)
        findings += tuple(more)
    numbers: dict[int, int] = {}
    for row in rows:
        code, number = _code(row), CLASS_NUMBERS[_kind(row)]
        if numbers.setdefault(code, number) != number:
            raise row.fail(
                tr("code {code} stands for two classes", code=code), tr("Take one of them out")
            )
    if not numbers:
        raise InputError(
            tr("there are no classes in this table"),
            where=blob.name,
            todo=tr("Add rows or leave it out"),
        )
    ground = GroundCodes(path=raster, numbers=tuple(sorted(numbers.items())))
    return ground, findings, path, blob.sha256


def _toml_rows(blob: Blob, text: str) -> Iterator[Row]:
    try:
        document = tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError) as exc:
        raise InputError(
            tr("is no TOML file ({error})", error=str(exc)[:80]),
            where=blob.name,
            todo=tr("Correct the line"),
        ) from exc
    classes = document.get("classes")
    if not isinstance(classes, dict):
        raise InputError(
            tr("has no table [classes]"),
            where=blob.name,
            todo=tr('Write [classes] and below it lines such as 50 = "metropolitan"'),
        )
    for code, name in classes.items():
        cells = {"code": str(code), "class": name if isinstance(name, str) else ""}
        yield Row(
            file=blob.name, place=tr("classes, {code}", code=code)[:60], line=None, cells=cells
        )


def _code(row: Row) -> int:
    text = row.text("code")
    digits = text.removeprefix("-")
    if not (digits.isascii() and digits.isdigit() and len(digits) <= 10):
        raise row.fail(
            tr("code «{text}» is not a whole number", text=text[:40]), tr("Correct the code")
        )
    code = int(text)
    if not -_MOST <= code < _MOST:
        raise row.fail(
            tr("code {code} is too large for a raster", code=code), tr("Correct the code")
        )
    return code


def _kind(row: Row) -> LandClass:
    name = row.text("class")
    kind = _NAMES.get(plain_heading(name))
    if kind is None:
        near = difflib.get_close_matches(plain_heading(name), list(_NAMES), n=1)
        known = ", ".join(f"«{k.value}»" for k in LandClass)
        raise row.fail(
            tr("«{name}» is no kind of ground", name=name[:40]),
            tr("Write «{class_name}» if that was meant", class_name=_NAMES[near[0]].value)
            if near
            else tr("Write one of {known}", known=known),
        )
    return kind
