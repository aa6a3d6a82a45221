"""The language that words are said in: English stands in the code, others in catalogues.

A catalogue is a JSON object in ``resources/languages``, named by its language, from English texts
to texts of that language; parts in ``{braces}`` keep their names. What it does not hold is said in
English. ``LEGSHEET_LANGUAGE`` names the language, or a catalogue file of one's own.
"""

import json
import os
from enum import StrEnum
from pathlib import Path
from string import Formatter
from typing import Self

_FOLDER = Path(__file__).resolve().parents[2] / "resources" / "languages"


def read_catalogue(path: Path) -> dict[str, str]:
    """Texts of a catalogue; empty where the file is none.

    A translation that lost a part, or rounds it otherwise, is passed over: English says it all.

    Parameters
    ----------
    path : Path
        A JSON object from English texts to others.
    """
    try:
        texts = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    if not isinstance(texts, dict):
        return {}
    return {
        key: text
        for key, text in texts.items()
        if isinstance(text, str) and text and _parts(text) == _parts(key)
    }


def _parts(text: str) -> set[tuple[str, str | None, str | None]] | None:
    """Parts of a text and how they are written; None where its braces do not close."""
    try:
        found = {part[1:] for part in Formatter().parse(text)}
    except ValueError:
        return None
    return {(name, how, kind) for name, how, kind in found if name is not None}


def _chosen() -> dict[str, str]:
    name = os.environ.get("LEGSHEET_LANGUAGE", "")
    if not name:
        return {}
    return read_catalogue(Path(name) if name.endswith(".json") else _FOLDER / f"{name}.json")


_texts = _chosen()


def tr(text: str, **parts: object) -> str:
    """A text in the language chosen, its parts filled in.

    Parameters
    ----------
    text : str
        English, as it stands in the code; with parts, a template for ``str.format``.
    parts : object
        What the names in braces stand for.
    """
    said = _texts.get(text, text)
    return said.format(**parts) if parts else said


class Texts(StrEnum):
    """A table of texts, in the language chosen."""

    def __new__(cls, text: str) -> Self:
        """Take the text of the catalogue in its place."""
        said = tr(text)
        member = str.__new__(cls, said)
        member._value_ = said
        return member
