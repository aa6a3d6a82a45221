"""Guarded reading: a file becomes a name and bytes, bytes become text, or one clear sentence."""

import codecs
import hashlib
import stat
from dataclasses import dataclass
from pathlib import Path

from core.base.errors import InputError
from core.base.findings import Finding, Severity, Where
from core.base.language import tr

LIMIT_BYTES = 32 * 1024 * 1024
"""Largest file taken into memory as a whole; a route of ten thousand waypoints has 2 MB."""

_MARKS = (
    # The longer marks first: that of UTF-32 begins like that of UTF-16.
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF32_LE, "utf-32-le"),
    (codecs.BOM_UTF32_BE, "utf-32-be"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
)

_KINDS = (
    (b"\x89PNG", tr("a PNG picture")),
    (b"\xff\xd8\xff", tr("a JPEG picture")),
    (b"GIF8", tr("a GIF picture")),
    (b"%PDF", tr("a PDF document")),
    (b"PK\x03\x04", tr("a zip file")),
    (b"PK\x05\x06", tr("an empty zip file")),
    (b"II*\x00", tr("a TIFF raster")),
    (b"MM\x00*", tr("a TIFF raster")),
    (b"II+\x00", tr("a TIFF raster")),
    (b"SQLite format 3\x00", tr("an SQLite or GeoPackage file")),
    (b"\x1f\x8b", tr("a gzip file")),
    (b"7z\xbc\xaf", tr("a 7z file")),
    (b"\xd0\xcf\x11\xe0", tr("an old office document")),
    (b"\x7fELF", tr("a program")),
    (b"MZ", tr("a program")),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Blob:
    """What stood in a file: its name without the folder, its bytes and their SHA-256."""

    name: str
    data: bytes
    sha256: str


def blob_of(name: str, data: bytes) -> Blob:
    """Bytes that are already in memory, such as pasted text or a member of a container."""
    return Blob(name=name, data=data, sha256=hashlib.sha256(data).hexdigest())


def read_blob(path: Path, *, limit_bytes: int = LIMIT_BYTES) -> Blob:
    """Read a whole file of bounded size.

    Raises
    ------
    InputError
        Missing, a folder, no ordinary file, not to be read, empty, or larger than the limit.
    """
    where = str(path)
    try:
        mode = path.stat().st_mode
        if stat.S_ISDIR(mode):
            raise InputError(
                tr("this is a folder, not a file"), where=where, todo=tr("Name a file in it")
            )
        if not stat.S_ISREG(mode):
            # A pipe or device could keep us waiting for ever.
            raise InputError(
                tr("this is not an ordinary file"), where=where, todo=tr("Name another file")
            )
        with path.open("rb") as stream:
            data = stream.read(limit_bytes + 1)
    except FileNotFoundError as exc:
        raise InputError(
            tr("there is no such file"), where=where, todo=tr("Check the name and the folder")
        ) from exc
    except PermissionError as exc:
        raise InputError(
            tr("this file may not be read"), where=where, todo=tr("Check who may read it")
        ) from exc
    except (OSError, ValueError) as exc:
        # ValueError: a name with a null character.
        reason = getattr(exc, "strerror", None) or tr("its name is not valid")
        raise InputError(
            tr("this file cannot be read ({reason})", reason=reason.lower()),
            where=where.replace("\x00", "?"),
            todo=tr("Check the name and the disk"),
        ) from exc
    if not data:
        raise InputError(tr("this file is empty"), where=where, todo=tr("Export or copy it again"))
    if len(data) > limit_bytes:
        raise InputError(
            tr("this file is larger than {most_mb:.0f} MB", most_mb=limit_bytes / 2**20),
            where=where,
            todo=tr("Check that it is the right file"),
        )
    return blob_of(path.name, data)


def kind_by_signature(data: bytes) -> str | None:
    """What a file is by its first bytes, in words with an article, if it is no text."""
    for signature, words in _KINDS:
        if data.startswith(signature):
            return words
    return None


def source_blob(source: Path | Blob, *, limit_bytes: int = LIMIT_BYTES) -> Blob:
    """A file read whole, or bytes that are there already."""
    return source if isinstance(source, Blob) else read_blob(source, limit_bytes=limit_bytes)


def decode_text(blob: Blob) -> tuple[str, tuple[Finding, ...]]:
    """Text of a blob: by byte order mark, else UTF-8, else Windows-1252 with a finding.

    Raises
    ------
    InputError
        The bytes are no text.
    """
    words = kind_by_signature(blob.data)
    if words is not None:
        raise InputError(
            tr("this is {kind_of_file}, not a text file", kind_of_file=words),
            where=blob.name,
            todo=tr("Choose another file"),
        )
    for mark, encoding in _MARKS:
        if blob.data.startswith(mark):
            try:
                return _no_nulls(blob.data[len(mark) :].decode(encoding), blob.name), ()
            except UnicodeDecodeError as exc:
                raise _not_text(blob.name) from exc
    try:
        return _no_nulls(blob.data.decode("utf-8"), blob.name), ()
    except UnicodeDecodeError as exc:
        first_bad = exc.start
    try:
        text = _no_nulls(blob.data.decode("cp1252"), blob.name)
    except UnicodeDecodeError as exc:
        raise _not_text(blob.name) from exc
    finding = Finding(
        severity=Severity.CHECK,
        code="encoding-assumed",
        what=tr("the text is not UTF-8 and was read as Windows-1252"),
        where=Where(file=blob.name, line=blob.data.count(b"\n", 0, first_bad) + 1),
        todo=tr("Check names with accents"),
    )
    return text, (finding,)


def _no_nulls(text: str, name: str) -> str:
    if "\x00" in text:
        raise _not_text(name)
    return text


def _not_text(name: str) -> InputError:
    return InputError(
        tr("this is not a text file, or its encoding is unknown"),
        where=name,
        todo=tr("Save it as UTF-8 text"),
    )
