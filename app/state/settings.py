"""Settings of the window: one typed table over an INI file. Nothing here changes a result."""

import base64
import binascii
import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Generic, TypeVar

from PySide6.QtCore import QByteArray, QSettings

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry(Generic[T]):
    """One setting: its key, what it is when nothing usable is stored, and how it is written."""

    key: str
    default: T
    text: str
    read: Callable[[str], T | None]
    """From the stored text; None where the text means nothing."""
    write: Callable[[T], str]


def _one_of(*names: str) -> Callable[[str], str | None]:
    return lambda text: text if text in names else None


def _bytes_from(text: str) -> bytes | None:
    try:
        return base64.b64decode(text, validate=True)
    except (binascii.Error, ValueError):
        return None


def _text_from_bytes(value: bytes) -> str:
    return base64.b64encode(value).decode("ascii")


def _texts_from(text: str) -> tuple[str, ...] | None:
    try:
        found = json.loads(text)
    except (ValueError, RecursionError):
        return None
    if not isinstance(found, list) or not all(isinstance(one, str) for one in found):
        return None
    return tuple(found)


def _percents_from(text: str) -> dict[str, int] | None:
    pairs = [pair.partition(":") for pair in text.split()]
    if not all(value.isascii() and value.isdigit() for _name, _colon, value in pairs):
        return None
    return {name: int(value) for name, _colon, value in pairs}


PALETTE: Entry[str] = Entry(
    key="window/palette",
    default="day",
    text="Colours of the window: day, dusk or night",
    read=_one_of("day", "dusk", "night"),
    write=str,
)
GEOMETRY: Entry[bytes] = Entry(
    key="window/geometry",
    default=b"",
    text="Place and size of the window",
    read=_bytes_from,
    write=_text_from_bytes,
)
COLUMNS: Entry[bytes] = Entry(
    key="window/columns",
    default=b"",
    text="Widths of the panes side by side",
    read=_bytes_from,
    write=_text_from_bytes,
)
FOLDER: Entry[str] = Entry(
    key="files/folder",
    default="",
    text="Folder last opened",
    read=lambda text: text,
    write=str,
)
BRIGHTNESS: Entry[dict[str, int]] = Entry(
    key="window/brightness",
    default={},
    text="Light given by the colours of day, dusk and night, percent",
    read=_percents_from,
    write=lambda percents: " ".join(f"{name}:{value}" for name, value in percents.items()),
)
GUIDE: Entry[str] = Entry(
    key="window/guide",
    default="show",
    text="Whether the guide of the first start is shown: show or seen",
    read=_one_of("show", "seen"),
    write=str,
)
RECENT: Entry[tuple[str, ...]] = Entry(
    key="files/recent",
    default=(),
    text="Projects and routes last opened or saved, the last one first",
    read=_texts_from,
    write=lambda paths: json.dumps(paths, ensure_ascii=False),
)
OFFICER: Entry[str] = Entry(
    key="officer/rank_and_name",
    default="",
    text="Rank and name of who last issued a revision or made a copy",
    read=lambda text: text,
    write=str,
)
ENTRIES: tuple[Entry[str] | Entry[bytes] | Entry[tuple[str, ...]] | Entry[dict[str, int]], ...] = (
    PALETTE,
    BRIGHTNESS,
    GEOMETRY,
    COLUMNS,
    FOLDER,
    GUIDE,
    RECENT,
    OFFICER,
)


class Settings:
    """Reads and writes the entries; what cannot be used falls back to the default."""

    def __init__(self, path: Path) -> None:
        self.folder = path.parent
        self._store = QSettings(str(path), QSettings.Format.IniFormat)

    def get(self, entry: Entry[T]) -> T:
        """The stored value, or the default where none or a broken one is stored."""
        stored = self._store.value(entry.key)
        if not isinstance(stored, str):
            return entry.default
        value = entry.read(stored)
        return entry.default if value is None else value

    def put(self, entry: Entry[T], value: T) -> None:
        """Store a value; written to disk by ``flush`` or at the end."""
        self._store.setValue(entry.key, entry.write(value))

    def flush(self) -> None:
        """Write to disk now."""
        self._store.sync()


def as_bytes(array: QByteArray) -> bytes:
    """Plain bytes of Qt's byte array."""
    return bytes(array.data())
