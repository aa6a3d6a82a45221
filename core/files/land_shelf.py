"""The land shelf: what is known of land files looked at before, remembered by area.

A cache, nothing that cannot be found out anew: a broken shelf is an empty one. An entry counts
as long as size and time of its file are those it was made of.
"""

import json
import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

from core.base.language import LANGUAGE
from core.files.writing import write_atomic
from core.geodesy.position import Bounds

_FORMAT = "legsheet-land-shelf"
_VERSION = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfFile:
    """One land file as it was when it was looked at."""

    path: Path
    size: int
    """Bytes."""
    changed_ns: int
    """Time of the last change, ns since 1970."""
    kind: str
    """``elevation`` or ``coast``; ``unusable`` with the reason in ``problem``."""
    areas: tuple[Bounds, ...] = ()
    resolution: str = ""
    released: str = ""
    licence: str = ""
    grade: str = ""
    reason: str = ""
    problem: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """All files known."""

    files: tuple[ShelfFile, ...] = ()

    def of(self, path: Path) -> ShelfFile | None:
        """What is known of a file; None where it is new, changed or gone."""
        for file in self.files:
            if file.path == path:
                return file if file_stamp(path) == (file.size, file.changed_ns) else None
        return None

    def with_files(self, files: Iterable[ShelfFile]) -> "Shelf":
        """The shelf with files put in place of what was known of them."""
        by_path = {file.path: file for file in self.files}
        by_path.update({file.path: file for file in files})
        return replace(self, files=tuple(by_path[path] for path in sorted(by_path)))

    def below(self, paths: Iterable[Path]) -> "Shelf":
        """What of the shelf lies at or below some paths."""
        whole = {path.resolve() for path in paths}
        kept = (f for f in self.files if f.path in whole or whole & set(f.path.parents))
        return replace(self, files=tuple(kept))

    def without(self, paths: Iterable[Path]) -> "Shelf":
        """The shelf without some files."""
        gone = set(paths)
        return replace(self, files=tuple(file for file in self.files if file.path not in gone))


def file_stamp(path: Path) -> tuple[int, int]:
    """Size, bytes, and time of the last change, ns; (-1, -1) where there is no such file."""
    try:
        stat = path.stat()
    except (OSError, ValueError):
        return -1, -1
    return stat.st_size, stat.st_mtime_ns


def read_shelf(path: Path) -> Shelf:
    """The shelf of a file; empty where there is none or it cannot be used."""
    try:
        document = json.loads(path.read_text(encoding="utf-8"))
        if document["format"] != _FORMAT or document["version"] != _VERSION:
            return Shelf()
        # Its words are those of the language in which files were looked at.
        if document.get("language", "") != LANGUAGE:
            return Shelf()
        return Shelf(files=tuple(_file(row) for row in document["files"]))
    except (OSError, ValueError, KeyError, TypeError, RecursionError):
        return Shelf()


def write_shelf(path: Path, shelf: Shelf) -> None:
    """Write the shelf whole or not at all.

    Raises
    ------
    OutputError
        The file cannot be written.
    """
    document = {
        "format": _FORMAT,
        "version": _VERSION,
        "language": LANGUAGE,
        "files": [_row(file) for file in shelf.files],
    }
    text = json.dumps(document, indent=1, ensure_ascii=False) + "\n"
    write_atomic(path, text.encode("utf-8"))


def _row(file: ShelfFile) -> dict[str, Any]:
    return {
        "path": str(file.path),
        "size": file.size,
        "changed_ns": file.changed_ns,
        "kind": file.kind,
        "areas": [[a.south_deg, a.west_deg, a.north_deg, a.east_deg] for a in file.areas],
        "resolution": file.resolution,
        "released": file.released,
        "licence": file.licence,
        "grade": file.grade,
        "reason": file.reason,
        "problem": file.problem,
    }


def _file(row: dict[str, Any]) -> ShelfFile:
    words = {
        name: str(row[name])
        for name in ("kind", "resolution", "released", "licence", "grade", "reason", "problem")
    }
    areas = []
    for south, west, north, east in row["areas"]:
        values = tuple(float(v) for v in (south, west, north, east))
        if not all(math.isfinite(v) for v in values):
            raise ValueError("an area is not of finite numbers")
        areas.append(
            Bounds(south_deg=values[0], west_deg=values[1], north_deg=values[2], east_deg=values[3])
        )
    return ShelfFile(
        path=Path(row["path"]),
        size=int(row["size"]),
        changed_ns=int(row["changed_ns"]),
        areas=tuple(areas),
        **words,
    )
