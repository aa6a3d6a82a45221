"""What a data file or a note beside it says of its date and licence.

A note is our own small TOML file, ``NAME.source.toml`` beside one file (``NAME`` with or without
the file's suffix) or ``source.toml`` for all files of its folder, with any of the keys
``licence``, ``released`` and ``attribution`` (texts). What the file itself says comes first.
"""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from core.base.language import tr


@dataclass(frozen=True, slots=True, kw_only=True)
class DataNote:
    """Licence with attribution, and date of release, as stated; empty where not stated."""

    licence: str = ""
    released: str = ""


_LICENCE_KEYS = ("licence", "license", "tiffcopyright", "tifftag_copyright", "copyright")
_ATTRIBUTION_KEYS = ("attribution",)
_RELEASED_KEYS = ("released", "release_date", "tifftag_datetime", "date", "timestamp")


def _first(values: Mapping[str, str], keys: tuple[str, ...]) -> str:
    return next((values[key].strip() for key in keys if values.get(key, "").strip()), "")


def note_from(values: Mapping[str, object]) -> DataNote:
    """Licence and date among tags or members of any spelling of case."""
    texts = {str(k).casefold(): str(v) for k, v in values.items() if isinstance(v, str | int)}
    licence, attribution = _first(texts, _LICENCE_KEYS), _first(texts, _ATTRIBUTION_KEYS)
    if attribution and attribution not in licence:
        licence = f"{licence}; {attribution}" if licence else attribution
    source = _first(texts, ("source",))
    if source and not licence:
        licence = tr("source: {source}", source=source)
    return DataNote(licence=licence[:300], released=_first(texts, _RELEASED_KEYS)[:60])


def _read_toml(path: Path) -> DataNote:
    try:
        with path.open("rb") as stream:
            return note_from({k: str(v) for k, v in tomllib.load(stream).items()})
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError):
        return DataNote()


def note_for(path: Path, own: Mapping[str, object]) -> DataNote:
    """What the file's own members say, filled up from the notes beside it."""
    note = note_from(own)
    for beside in (
        path.with_name(f"{path.name}.source.toml"),
        path.with_name(f"{path.stem}.source.toml"),
        path.with_name("source.toml"),
    ):
        if note.licence and note.released:
            break
        more = _read_toml(beside)
        note = DataNote(
            licence=note.licence or more.licence, released=note.released or more.released
        )
    return note
