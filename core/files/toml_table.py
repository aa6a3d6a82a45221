"""Checked values out of a parsed TOML table; what does not fit becomes one sentence."""

import difflib
import math
import tomllib
from pathlib import Path
from typing import Any

from core.base.errors import InputError
from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.files.reading import Blob, decode_text, source_blob

_LIMIT_BYTES = 1024 * 1024


class TomlTable:
    """One table of a TOML file: values by key, checked, and the keys nobody asked for.

    Parameters
    ----------
    file : str
        Name of the file, for sentences.
    place : str
        What the table is called there, such as ``radar 2``; empty for the top.
    values : dict
        The parsed table.
    """

    def __init__(self, file: str, place: str, values: dict[str, Any]) -> None:
        self._file = file
        self._place = place
        self._values = values
        self._known: set[str] = set()
        self._children: list[TomlTable] = []

    @property
    def where(self) -> str:
        """File and place, for an error."""
        return f"{self._file}, {self._place}" if self._place else self._file

    def fail(self, what: str, todo: str) -> InputError:
        """An error about this table."""
        return InputError(what, where=self.where, todo=todo)

    def has(self, key: str) -> bool:
        """Whether the file states a key."""
        self._known.add(key)
        return key in self._values

    def number(self, key: str, low: float, high: float) -> float | None:
        """A number from ``low`` to ``high``; None where the file is silent.

        Raises
        ------
        InputError
            No number, or outside the limits.
        """
        if not self.has(key):
            return None
        value = self._number(key, self._values[key])
        if not low <= value <= high:
            raise self.fail(
                tr(
                    "{key} {value:g} is not between {low:g} and {high:g}",
                    key=key,
                    value=value,
                    low=low,
                    high=high,
                ),
                tr("Correct the value"),
            )
        return value

    def number_or(self, key: str, default: float, low: float, high: float) -> float:
        """The same with a default."""
        value = self.number(key, low, high)
        return default if value is None else value

    def needed_number(self, key: str, low: float, high: float) -> float:
        """The same for a number that must be there."""
        value = self.number(key, low, high)
        if value is None:
            raise self.fail(
                tr("{key} is missing", key=key), tr("Add a line «{key} = ...»", key=key)
            )
        return value

    def numbers(self, key: str, low: float, high: float) -> tuple[float, ...] | None:
        """A list of numbers, at least one; None where the file is silent."""
        if not self.has(key):
            return None
        listed = self._values[key]
        if not isinstance(listed, list) or not listed:
            raise self.fail(
                tr("{key} is not a list of numbers", key=key), tr("Write it as [1, 2, 3]")
            )
        values = tuple(self._number(key, item) for item in listed)
        for value in values:
            if not low <= value <= high:
                raise self.fail(
                    tr(
                        "{value:g} in {key} is not between {low:g} and {high:g}",
                        value=value,
                        key=key,
                        low=low,
                        high=high,
                    ),
                    tr("Correct the value"),
                )
        return values

    def text(self, key: str, default: str = "") -> str:
        """A text without blanks at its ends, on one line."""
        if not self.has(key):
            return default
        value = self._values[key]
        if not isinstance(value, str):
            raise self.fail(
                tr("{key} is not text", key=key), tr("Put the value in quotation marks")
            )
        return " ".join(value.split())

    def needed_text(self, key: str) -> str:
        """A text that must be there and not be empty."""
        value = self.text(key)
        if not value:
            raise self.fail(
                tr("{key} is missing or empty", key=key), tr('Add a line «{key} = "..."»', key=key)
            )
        return value

    def choice(self, key: str, words: tuple[str, ...], default: str) -> str:
        """One of a few words."""
        value = self.text(key, default)
        if value not in words:
            raise self.fail(
                tr(
                    "{key} «{value}» is not one of {choices}",
                    key=key,
                    value=value,
                    choices=", ".join(words),
                ),
                tr("Correct the word"),
            )
        return value

    def flag(self, key: str) -> bool:
        """True or false; false where the file is silent."""
        if not self.has(key):
            return False
        value = self._values[key]
        if not isinstance(value, bool):
            raise self.fail(
                tr("{key} is neither true nor false", key=key), tr("Write true or false")
            )
        return value

    def table(self, key: str) -> "TomlTable":
        """A table inside this one; an empty one where the file is silent."""
        value = self._values[key] if self.has(key) else {}
        if not isinstance(value, dict):
            raise self.fail(
                tr("{key} is not a table", key=key), tr("Write it under a heading [{key}]", key=key)
            )
        return self._child(f"{self._place} {key}".strip(), value)

    def tables(self, key: str) -> tuple["TomlTable", ...]:
        """A list of tables inside this one, in their order; empty where the file is silent."""
        if not self.has(key):
            return ()
        listed = self._values[key]
        if not isinstance(listed, list) or not all(isinstance(item, dict) for item in listed):
            raise self.fail(
                tr("{key} is not a list of tables", key=key),
                tr("Write each under [[{key}]]", key=key),
            )
        return tuple(
            self._child(f"{self._place} {key} {number}".strip(), item)
            for number, item in enumerate(listed, start=1)
        )

    def finding(self, code: str, what: str, todo: str = "") -> Finding:
        """A finding to check about this table."""
        what = f"{self._place}: {what}" if self._place else what
        return Finding(
            severity=Severity.CHECK, code=code, what=what, where=Where(file=self._file), todo=todo
        )

    def unknown_keys(self) -> tuple[Finding, ...]:
        """A finding for each key that nobody asked for, here and in the tables inside."""
        findings = []
        for key in self._values:
            if key not in self._known:
                near = difflib.get_close_matches(key, sorted(self._known), n=1)
                todo = (
                    tr("Write «{word}» if that was meant", word=near[0])
                    if near
                    else tr("Correct it or take it out")
                )
                findings.append(
                    self.finding(
                        "unknown-key",
                        tr("«{key}» is not known and was left out", key=key[:60]),
                        todo,
                    )
                )
        for child in self._children:
            findings += child.unknown_keys()
        return tuple(findings)

    def _child(self, place: str, values: dict[str, Any]) -> "TomlTable":
        child = TomlTable(self._file, place, values)
        self._children.append(child)
        return child

    def _number(self, key: str, value: object) -> float:
        # bool is an int in Python, but true is no length.
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise self.fail(
                tr("{key} is not a number", key=key), tr("Write a plain number such as 12.5")
            )
        try:
            number = float(value)
        except OverflowError as exc:
            raise self.fail(tr("{key} is far too large", key=key), tr("Correct the value")) from exc
        if not math.isfinite(number):
            raise self.fail(tr("{key} is not a finite number", key=key), tr("Correct the value"))
        return number


def read_toml(source: Path | Blob) -> tuple[TomlTable, tuple[Finding, ...], str]:
    """Read a TOML file: its top table, findings of the reading, and the SHA-256 of its bytes.

    Raises
    ------
    InputError
        The file cannot be read or is not TOML.
    """
    blob = source_blob(source, limit_bytes=_LIMIT_BYTES)
    text, findings = decode_text(blob)
    try:
        values = tomllib.loads(text)
    except RecursionError as exc:
        raise InputError(
            tr("its tables are nested too deeply"), where=blob.name, todo=tr("Use a plain file")
        ) from exc
    except ValueError as exc:
        # TOMLDecodeError, or a plain ValueError for numbers of thousands of digits.
        reason = " ".join(str(exc).split())[:160]
        raise InputError(
            tr("this is not a valid TOML file ({reason})", reason=reason),
            where=blob.name,
            todo=tr("Correct the line or start from a built-in example"),
        ) from exc
    return TomlTable(blob.name, "", values), findings, blob.sha256
