"""Write whole numbers as a small GeoTIFF, byte by byte, so that it never depends on a library."""

import struct
import zlib

import numpy as np
from numpy.typing import NDArray

_ROWS_PER_STRIP = 64
_SHORT, _LONG, _ASCII, _DOUBLE = 3, 4, 2, 12
_SIZES = {_SHORT: ("H", 2), _LONG: ("I", 4), _DOUBLE: ("d", 8)}


def geotiff_bytes(
    values: NDArray[np.int16],
    *,
    west_deg: float,
    north_deg: float,
    cell_deg: float,
    nodata: int,
    description: str,
    rights: str,
) -> bytes:
    """A GeoTIFF in EPSG:4326: int16, deflate with differences along rows, pixel is area."""
    rows, cols = values.shape
    strips = []
    for start in range(0, rows, _ROWS_PER_STRIP):
        block = values[start : start + _ROWS_PER_STRIP].astype("<i2")
        steps = block.copy()
        steps[:, 1:] = block[:, 1:] - block[:, :-1]
        strips.append(zlib.compress(steps.tobytes(), 9))
    place = 8
    offsets = []
    for strip in strips:
        offsets.append(place)
        place += len(strip) + len(strip) % 2
    geo_keys = (1, 1, 0, 3, 1024, 0, 1, 2, 1025, 0, 1, 1, 2048, 0, 1, 4326)
    tags: list[tuple[int, int, tuple[float, ...] | str]] = [
        (256, _LONG, (cols,)),
        (257, _LONG, (rows,)),
        (258, _SHORT, (16,)),
        (259, _SHORT, (8,)),
        (262, _SHORT, (1,)),
        (270, _ASCII, description),
        (273, _LONG, tuple(offsets)),
        (277, _SHORT, (1,)),
        (278, _LONG, (_ROWS_PER_STRIP,)),
        (279, _LONG, tuple(len(strip) for strip in strips)),
        (284, _SHORT, (1,)),
        (317, _SHORT, (2,)),
        (339, _SHORT, (2,)),
        (33432, _ASCII, rights),
        (33550, _DOUBLE, (cell_deg, cell_deg, 0.0)),
        (33922, _DOUBLE, (0.0, 0.0, 0.0, west_deg, north_deg, 0.0)),
        (34735, _SHORT, geo_keys),
        (42113, _ASCII, str(nodata)),
    ]
    directory, extra = _directory(tags, place)
    body = b"".join(strip + b"\0" * (len(strip) % 2) for strip in strips)
    return struct.pack("<2sHI", b"II", 42, place) + body + directory + extra


def _directory(
    tags: list[tuple[int, int, tuple[float, ...] | str]], place: int
) -> tuple[bytes, bytes]:
    """The list of tags at a place in the file, and the values too long to stand in it."""
    entries, extra = [], b""
    beyond = place + 2 + 12 * len(tags) + 4
    for tag, kind, value in tags:
        if isinstance(value, str):
            raw = value.encode("ascii") + b"\0"
            count = len(raw)
        else:
            letter, _size = _SIZES[kind]
            numbers = value if kind == _DOUBLE else tuple(int(number) for number in value)
            raw, count = struct.pack(f"<{len(value)}{letter}", *numbers), len(value)
        if len(raw) <= 4:
            entries.append(struct.pack("<HHI4s", tag, kind, count, raw.ljust(4, b"\0")))
        else:
            entries.append(struct.pack("<HHII", tag, kind, count, beyond + len(extra)))
            extra += raw + b"\0" * (len(raw) % 2)
    return struct.pack("<H", len(tags)) + b"".join(entries) + struct.pack("<I", 0), extra
