"""Errors meant for a user: one sentence that says where, what and what to do."""

from collections.abc import Callable
from typing import Any


def _rebuild(cls: "type[LegsheetError]", what: str, where: str, todo: str) -> "LegsheetError":
    return cls(what, where=where, todo=todo)


class LegsheetError(Exception):
    """Something a user can put right; ``str()`` is one sentence «where: what. todo»."""

    exit_code = 2

    def __init__(self, what: str, *, where: str = "", todo: str = "") -> None:
        super().__init__(what)
        self.what = what
        self.where = where
        self.todo = todo

    def __str__(self) -> str:
        text = f"{self.where}: {self.what}" if self.where else self.what
        text = text.rstrip(".") + "."
        return f"{text} {self.todo.rstrip('.')}." if self.todo else text

    def __reduce__(self) -> tuple[Callable[..., Any], tuple[Any, ...]]:
        return _rebuild, (type(self), self.what, self.where, self.todo)


class InputError(LegsheetError):
    """A file or a value that cannot be used."""


class DataGapError(LegsheetError):
    """Land data does not cover what was asked for."""


class OutputError(LegsheetError):
    """Nothing can be written there; what stood there before is intact."""


class Cancelled(Exception):
    """The user asked for a stop; never shown as an error."""

    exit_code = 130
