"""The language that words are said in: English stands in the code, others in catalogues.

A catalogue is a file in ``resources/languages`` (``catalogue_file.py``), named by its language;
parts in ``{braces}`` keep their names. What it does not hold is said in English.
``LEGSHEET_LANGUAGE`` names the language, or a catalogue file of one's own.
"""

import os
from enum import Enum, StrEnum
from pathlib import Path
from typing import Self

from core.base.catalogue_file import Catalogue, read_catalogue

_FOLDER = Path(__file__).resolve().parents[2] / "resources" / "languages"


LANGUAGE = os.environ.get("LEGSHEET_LANGUAGE", "")
"""The language chosen, by name or file; empty for English."""


def _chosen() -> Catalogue:
    if not LANGUAGE:
        return Catalogue()
    is_file = LANGUAGE.endswith(".json")
    return read_catalogue(Path(LANGUAGE) if is_file else _FOLDER / f"{LANGUAGE}.json")


_catalogue = _chosen()


def tr(text: str, /, **parts: object) -> str:
    """A text in the language chosen, its parts filled in.

    Parameters
    ----------
    text : str
        English, as it stands in the code; with parts, a template for ``str.format``.
    parts : object
        What the names in braces stand for.
    """
    said = _catalogue.texts.get(text, text)
    return said.format(**parts) if parts else said


def tr_n(one: str, many: str, count: int, /, **parts: object) -> str:
    """A text that counts, in the form that the language chosen has for the count.

    Parameters
    ----------
    one, many : str
        English, as it stands in the code, for a count of 1 and any other; both are templates.
    count : int
        What is counted, bare; ``{count}`` in the texts.
    parts : object
        What the other names in braces stand for.
    """
    return _catalogue.form(one, many, count).format(count=count, **parts)


def tr_listed(names: list[str] | tuple[str, ...]) -> str:
    """Names in a row, the last one joined by «and»."""
    if len(names) < 2:
        return "".join(names)
    return tr("{names} and {last_name}", names=", ".join(names[:-1]), last_name=names[-1])


class Texts(StrEnum):
    """A table of texts, in the language chosen."""

    def __new__(cls, text: str) -> Self:
        """Take the text of the catalogue in its place."""
        said = tr(text)
        member = str.__new__(cls, said)
        member._value_ = said
        return member


class Worded(Enum):
    """Words that are kept in files as they stand, in English, and shown in the language chosen."""

    @property
    def shown(self) -> str:
        """The word for who reads it."""
        return tr(plain_word(self.value))


def plain_word(value: str) -> str:
    """A word of a file as it is read: blanks for underscores."""
    return value.replace("_", " ")
