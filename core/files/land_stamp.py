"""Whether land data is still what it was: sizes and times of all files that it is read from."""

from collections.abc import Sequence
from pathlib import Path

from core.base.errors import InputError
from core.files.land_paths import find_land
from core.files.raster_file import read_headers
from core.land.sources import GroundCodes

FileStamp = tuple[str, int, int]
"""Path, bytes, time of the last change in ns."""
_MOSAIC = ".vrt"
_NOTE = "source.toml"


def land_stamp(paths: Sequence[Path], ground: GroundCodes | None) -> tuple[FileStamp, ...]:
    """Stamps of all land files among paths and of what they are read with.

    That is what lies beside them under the same name, the notes of their folders, the parts of
    mosaics and the raster of ground.

    Raises
    ------
    InputError
        As ``find_land``.
    """
    files = [one.path for one in find_land(paths)]
    files += [part for path in files if path.suffix.casefold() == _MOSAIC for part in _parts(path)]
    if ground is not None:
        files.append(ground.path)
    stems = {(path.parent, path.stem.casefold()) for path in files}
    stamps = set()
    for folder in {path.parent for path in files}:
        for path in folder.iterdir():
            # A name may have several endings: coast.shp.xml goes with coast.shp.
            name = path.name.casefold()
            if name == _NOTE or any(
                (folder, name[:end]) in stems for end, sign in enumerate(name) if sign == "."
            ):
                stamps.add(_stamp(path))
    return tuple(sorted(stamps))


def _parts(mosaic: Path) -> tuple[Path, ...]:
    try:
        return tuple(part for header in read_headers(mosaic) for part in header.parts)
    except InputError:
        return ()


def _stamp(path: Path) -> FileStamp:
    try:
        state = path.stat()
    except OSError:
        return str(path), -1, -1
    return str(path), state.st_size, state.st_mtime_ns
