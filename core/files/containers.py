"""The zipped container of RTZ: one route in a zip file, taken out within limits."""

import io
import lzma
import struct
import zipfile
import zlib
from pathlib import PurePosixPath

from core.base.errors import InputError
from core.base.language import tr
from core.files.reading import LIMIT_BYTES, Blob, blob_of
from core.files.route_parts import clean_text

_LIMIT_MEMBERS = 1_000
_LIMIT_RATIO = 500
"""XML of routes packs to a tenth or so; a thousandth is no honest file."""
_ENTRY_SIGNATURE = b"PK\x01\x02"


def looks_like_zip(data: bytes) -> bool:
    """Whether the first bytes are those of a zip file."""
    return data.startswith((b"PK\x03\x04", b"PK\x05\x06"))


def route_in_container(blob: Blob) -> Blob:
    """Take the one RTZ route out of a zip file.

    Raises
    ------
    InputError
        No zip, damaged, encrypted, no route or several, too many members, too large, packed
        too tightly to be honest.
    """
    # The list of members is read whole when a zip is opened; look how long it is before.
    if blob.data.count(_ENTRY_SIGNATURE) > _LIMIT_MEMBERS:
        raise InputError(
            tr("the zip file has more than {limit_members} members", limit_members=_LIMIT_MEMBERS),
            where=blob.name,
            todo=tr("Take the route out of it"),
        )
    try:
        with zipfile.ZipFile(io.BytesIO(blob.data)) as archive:
            member = _only_route(archive, blob.name)
            with archive.open(member) as stream:
                data = stream.read(LIMIT_BYTES + 1)
    except (
        zipfile.BadZipFile,
        zlib.error,
        struct.error,
        lzma.LZMAError,
        EOFError,
        NotImplementedError,
        OSError,
        RuntimeError,
        ValueError,
        IndexError,
    ) as exc:
        raise InputError(
            tr("the zip file is damaged, cut short or encrypted"),
            where=blob.name,
            todo=tr("Copy it again, or take the route out of it"),
        ) from exc
    if not data:
        raise InputError(
            tr("the route in the zip file is empty"), where=blob.name, todo=tr("Copy it again")
        )
    if len(data) > LIMIT_BYTES:
        raise _too_large(blob.name)
    inner = clean_text(PurePosixPath(member.filename).name)
    return blob_of(f"{blob.name} ({inner})", data)


def _only_route(archive: zipfile.ZipFile, name: str) -> zipfile.ZipInfo:
    routes = [
        member
        for member in archive.infolist()
        if member.filename.lower().endswith(".rtz")
        # Some systems add a hidden shadow of every file.
        and not PurePosixPath(member.filename).name.startswith(".")
    ]
    if not routes:
        raise InputError(
            tr("the zip file holds no .rtz route"), where=name, todo=tr("Choose another file")
        )
    if len(routes) > 1:
        shown = ", ".join(clean_text(member.filename)[:60] for member in routes[:3])
        raise InputError(
            tr(
                "the zip file holds {count} routes ({file_names})",
                count=len(routes),
                file_names=shown,
            ),
            where=name,
            todo=tr("Take the one you want out of it"),
        )
    member = routes[0]
    if member.file_size > LIMIT_BYTES:
        raise _too_large(name)
    if member.file_size > _LIMIT_RATIO * max(member.compress_size, 1):
        raise InputError(
            tr(
                "the route in the zip file is packed tighter than {limit_ratio} to 1",
                limit_ratio=_LIMIT_RATIO,
            ),
            where=name,
            todo=tr("Check where the file comes from"),
        )
    return member


def _too_large(name: str) -> InputError:
    return InputError(
        tr(
            "the route in the zip file is larger than {most_mb:.0f} MB",
            most_mb=LIMIT_BYTES / 2**20,
        ),
        where=name,
        todo=tr("Check that it is the right file"),
    )
