"""Tables in text files: remark lines, header, any usual separator; a row knows its line."""

import csv
import difflib
import io
import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from core.base.errors import InputError
from core.base.findings import Finding, Severity, Where
from core.base.language import tr

_MOST_ROWS = 20_000
_MOST_LEGS = 10_000
_YES = ("yes", "y", "true", "1", "x")
_NO = ("no", "n", "false", "0")


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row of a table: its cells by the column's proper name, and where it stands."""

    file: str
    place: str
    """Such as ``line 7`` or ``feature 3``."""
    line: int | None
    cells: Mapping[str, str]

    def fail(self, what: str, todo: str) -> InputError:
        """An error about this row."""
        return InputError(what, where=f"{self.file}, {self.place}", todo=todo)

    def finding(self, severity: Severity, code: str, what: str, todo: str = "") -> Finding:
        """A finding about this row."""
        if self.line is None:
            what = f"{self.place}: {what}"
        where = Where(file=self.file, line=self.line)
        return Finding(severity=severity, code=code, what=what, where=where, todo=todo)

    def text(self, column: str) -> str:
        """A cell with single blanks and none at its ends; empty where there is none."""
        return " ".join(self.cells.get(column, "").split())

    def number(self, column: str, low: float, high: float) -> float | None:
        """A number above ``low`` and up to ``high``, decimal point or comma; None if empty.

        Raises
        ------
        InputError
            No number, or outside the limits.
        """
        text = self.text(column)
        if not text:
            return None
        value = number_from_text(text)
        if value is None:
            raise self.fail(
                tr("{column} «{text}» is not a number", column=column, text=text[:40]),
                tr("Correct the value"),
            )
        if not low < value <= high:
            raise self.fail(
                tr(
                    "{column} {value:g} is not above {low:g} and up to {high:g}",
                    column=column,
                    value=value,
                    low=low,
                    high=high,
                ),
                tr("Correct the value"),
            )
        return value

    def number_from_zero(self, column: str, *, most: float, unit: str = "") -> float | None:
        """A number from 0 to ``most``, decimal point or comma; None if empty.

        Raises
        ------
        InputError
            No number, or outside the limits.
        """
        text = self.text(column)
        if not text:
            return None
        value = number_from_text(text)
        if value is None or not 0.0 <= value <= most:
            raise self.fail(
                tr(
                    "{column} «{text}» is not a number from 0 to {most:g}{unit}",
                    column=column,
                    text=text[:40],
                    most=most,
                    unit=unit,
                ),
                tr("Correct the value"),
            )
        return value

    def leg_number(self) -> int:
        """The number of a leg, from 1.

        Raises
        ------
        InputError
            None is there, or it cannot be one.
        """
        text = self.text("leg")
        is_number = text.isascii() and text.isdigit() and len(text) < 6
        if not is_number or not 1 <= int(text) <= _MOST_LEGS:
            raise self.fail(
                tr("leg «{text}» is not a number of a leg", text=text[:40]),
                tr("Write 1 for the first leg"),
            )
        return int(text)

    def flag(self, column: str) -> bool | None:
        """Yes or no; None if empty."""
        word = self.text(column).casefold()
        if not word:
            return None
        if word in _YES:
            return True
        if word in _NO:
            return False
        raise self.fail(
            tr("{column} «{word}» is neither yes nor no", column=column, word=word[:40]),
            tr("Write yes or no"),
        )


def number_from_text(text: str) -> float | None:
    """A finite number written with decimal point or comma; None for anything else."""
    if not re.fullmatch(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)([eE][+-]?\d{1,3})?", text, re.ASCII):
        return None
    value = float(text.replace(",", "."))
    return value if math.isfinite(value) else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """What a table may hold: proper names with other spellings, and those it must hold."""

    spellings: Mapping[str, tuple[str, ...]]
    needed: tuple[str, ...]

    def proper(self, heading: str) -> str | None:
        """The proper name of a column as its file spells it."""
        plain = plain_heading(heading)
        for name, others in self.spellings.items():
            if plain == name or plain in others:
                return name
        return None

    def nearest(self, heading: str) -> str:
        """What to do about a heading that is not known."""
        near = difflib.get_close_matches(plain_heading(heading), list(self.spellings), n=1)
        return (
            tr("Write «{heading}» if that was meant", heading=near[0])
            if near
            else tr("Take it out or correct it")
        )


def plain_heading(heading: str) -> str:
    """A heading in lower case with single underscores for blanks and signs."""
    return re.sub(r"[^a-z0-9]+", "_", heading.casefold()).strip("_")


def table_rows(file: str, text: str, columns: Columns) -> tuple[tuple[Row, ...], list[Finding]]:
    """Rows of a table with a header; remark lines begin with ``#``.

    The separator is comma, semicolon or tab, whichever the header has most of.

    Raises
    ------
    InputError
        No header, a needed column is missing, a row is longer than the header, too many rows.
    """
    lines = [
        (number, line)
        for number, line in enumerate(text.splitlines(), start=1)
        if line.strip() and not line.lstrip().startswith("#")
    ]
    if not lines:
        raise InputError(
            tr("there is no table in this file"), where=file, todo=tr("Choose another file")
        )
    header_line = lines[0][1]
    separator = max(",;\t", key=header_line.count)
    records = _records(file, lines, separator)
    _, headings = next(records)
    names, findings = _header(file, lines[0][0], headings, columns)
    rows = []
    for number, cells in records:
        place = tr("line {line_number}", line_number=number)
        if len(cells) > len(names) and any(cell.strip() for cell in cells[len(names) :]):
            raise InputError(
                tr(
                    "the row has {cell_count} cells, the header {heading_count}",
                    cell_count=len(cells),
                    heading_count=len(names),
                ),
                where=f"{file}, {place}",
                todo=tr("Put texts with separators in quotation marks"),
            )
        known = {name: cell for name, cell in zip(names, cells, strict=False) if name is not None}
        rows.append(Row(file=file, place=place, line=number, cells=known))
        if len(rows) > _MOST_ROWS:
            raise InputError(
                tr("there are more than {most_rows} rows", most_rows=_MOST_ROWS),
                where=file,
                todo=tr("Check the file"),
            )
    return tuple(rows), findings


def _records(
    file: str, lines: list[tuple[int, str]], separator: str
) -> Iterator[tuple[int, list[str]]]:
    for number, line in lines:
        try:
            yield number, next(csv.reader(io.StringIO(line), delimiter=separator, strict=True))
        except (csv.Error, StopIteration) as exc:
            raise InputError(
                tr("the row has an open quotation mark or is far too long"),
                where=tr("{file}, line {line_number}", file=file, line_number=number),
                todo=tr("Correct the row"),
            ) from exc


def _header(
    file: str, line: int, headings: list[str], columns: Columns
) -> tuple[list[str | None], list[Finding]]:
    names: list[str | None] = []
    findings = []
    for heading in headings:
        name = columns.proper(heading)
        if name is not None and name in names:
            raise InputError(
                tr("there are two columns for {name}", name=name),
                where=tr("{file}, line {line_number}", file=file, line_number=line),
                todo=tr("Take one of them out"),
            )
        names.append(name)
        if name is None and heading.strip():
            findings.append(
                Finding(
                    severity=Severity.CHECK,
                    code="unknown-column",
                    what=tr(
                        "the column «{heading}» is not known and was left out",
                        heading=heading.strip()[:60],
                    ),
                    where=Where(file=file, line=line),
                    todo=columns.nearest(heading),
                )
            )
    for name in columns.needed:
        if name not in names:
            raise InputError(
                tr("there is no column {name}", name=name),
                where=tr("{file}, line {line_number}", file=file, line_number=line),
                todo=tr(
                    "Begin the table with a header such as {spellings}",
                    spellings=",".join(columns.spellings),
                ),
            )
    return names, findings
