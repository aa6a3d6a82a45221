"""What was not saved yet of a project, in one file: the project, where it belongs, from when."""

import hashlib
import json
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from core.base.errors import InputError
from core.base.language import tr
from core.files.project import Project, project_from_text, project_text
from core.files.reading import decode_text, read_blob

FORMAT = "legsheet-autosave"
VERSION = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Autosave:
    """A project with edits that its file does not hold."""

    count: int
    """From 1, of the saves of one window; the greater one is the later."""
    saved_utc: datetime
    project: Project
    path: Path | None = None
    """The project file it belongs to; None where it was never saved."""
    base_sha256: str = ""
    """Of that file when it was opened or last saved by this window; empty without one."""
    title: str = ""
    """Of the passage, for the officer."""
    last_edit: str = ""
    """The last edit in words."""
    is_demo: bool = False


def autosave_bytes(save: Autosave, folder: Path) -> bytes:
    """The file that will stand in ``folder``."""
    text = project_text(save.project, folder)
    document = {
        "format": FORMAT,
        "version": VERSION,
        "count": save.count,
        "saved_utc": save.saved_utc.astimezone(UTC).isoformat(),
        "path": None if save.path is None else str(save.path.resolve()),
        "base_sha256": save.base_sha256,
        "title": save.title,
        "last_edit": save.last_edit,
        "is_demo": save.is_demo,
        # As text with its own digest: a disk that lost power may hold blocks of something else.
        "project": text,
        "project_sha256": _sha256(text),
    }
    return (json.dumps(document, indent=1, ensure_ascii=False) + "\n").encode("utf-8")


def read_autosave(path: Path) -> Autosave:
    """Read one such file.

    Raises
    ------
    InputError
        It is none, cut short, damaged, or of a newer program.
    """
    blob = read_blob(path)
    broken = InputError(
        tr("this autosave is cut short or damaged"),
        where=blob.name,
        todo=tr("Open the project as it was last saved"),
    )
    text, _findings = decode_text(blob)
    try:
        document = json.loads(text)
    except (ValueError, RecursionError) as exc:
        raise broken from exc
    if not isinstance(document, dict) or document.get("format") != FORMAT:
        raise broken
    if document.get("version") != VERSION:
        raise InputError(
            tr(
                "the autosave has version {found_version!r}, this program knows {version}",
                found_version=document.get("version"),
                version=VERSION,
            ),
            where=blob.name,
            todo=tr("Open it with the program that wrote it"),
        )
    try:
        return _autosave(document, path)
    except (KeyError, TypeError, ValueError) as exc:
        raise broken from exc


def _autosave(document: dict[str, Any], path: Path) -> Autosave:
    text, count = _text(document["project"]), document["count"]
    if _sha256(text) != document["project_sha256"]:
        raise ValueError("digest")
    if isinstance(count, bool) or not isinstance(count, int):
        raise TypeError(count)
    saved = datetime.fromisoformat(_text(document["saved_utc"]))
    of = document["path"]
    return Autosave(
        count=count,
        saved_utc=saved if saved.tzinfo is not None else saved.replace(tzinfo=UTC),
        project=project_from_text(text, path.name, path.parent),
        path=None if of is None else Path(_text(of)),
        base_sha256=_text(document["base_sha256"]),
        title=_text(document["title"]),
        last_edit=_text(document["last_edit"]),
        is_demo=document["is_demo"] is True,
    )


def _text(value: object) -> str:
    if not isinstance(value, str) or "\0" in value:
        raise TypeError(value)
    return value


def _sha256(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8")).hexdigest()
