"""What land data lies under the given paths: elevation and coast files, told apart by name."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from pathlib import Path

from core.base.errors import InputError
from core.base.language import tr


class LandKind(Enum):
    """What a file of land data is for."""

    ELEVATION = "elevation"
    COAST = "coast"


@dataclass(frozen=True, slots=True, kw_only=True)
class LandPath:
    """One file that may hold land data; ``is_named`` if the user gave it, not only its folder."""

    path: Path
    kind: LandKind
    is_named: bool


_ELEVATION_SUFFIXES = {".tif", ".tiff", ".hgt", ".vrt", ".dt0", ".dt1", ".dt2", ".zip"}
_COAST_SUFFIXES = {".geojson", ".shp", ".gpkg"}
_GEOJSON_MARK = re.compile(rb'"type"\s*:\s*"(FeatureCollection|Feature|Multi\w+|Polygon|Line\w+)"')
_HEAD_BYTES = 65_536


def natural_key(path: Path) -> tuple[tuple[int, int, str], ...]:
    """Key that sorts tile2 before tile10."""
    parts = re.split(r"(\d+)", str(path).casefold())
    return tuple((0, int(p), "") if p.isdigit() else (1, 0, p) for p in parts if p)


def _is_geojson(path: Path) -> bool:
    try:
        with path.open("rb") as stream:
            head = stream.read(_HEAD_BYTES)
    except OSError:
        return False
    return head.lstrip(b"\xef\xbb\xbf \t\r\n").startswith(b"{") and bool(_GEOJSON_MARK.search(head))


def kind_of(path: Path) -> LandKind | None:
    """What a file is for, by its suffix (``.json`` by its first bytes too); None for others."""
    suffix = path.suffix.casefold()
    if suffix in _ELEVATION_SUFFIXES:
        return LandKind.ELEVATION
    if suffix in _COAST_SUFFIXES or (suffix == ".json" and _is_geojson(path)):
        return LandKind.COAST
    return None


def _in_folder(folder: Path) -> list[LandPath]:
    found: list[LandPath] = []
    for path in sorted(folder.rglob("*"), key=natural_key):
        kind = kind_of(path)
        if kind is not None and path.is_file():
            found.append(LandPath(path=path, kind=kind, is_named=False))
    return found


def find_land(paths: Sequence[Path]) -> tuple[LandPath, ...]:
    """All land files among paths; folders are searched through, in natural order.

    Raises
    ------
    InputError
        No path was given, one does not exist or is no land data, a folder holds none.
    """
    if not paths:
        raise InputError(
            tr("no land data was given"), todo=tr("Give a file or a folder with --land")
        )
    found: dict[Path, LandPath] = {}
    for path in paths:
        if path.is_dir():
            inside = _in_folder(path)
            if not inside:
                raise InputError(
                    tr("the folder holds no land data"),
                    where=path.name or str(path),
                    todo=tr(
                        "Give elevation (GeoTIFF, HGT, VRT) or coast (GeoJSON, Shapefile, "
                        "GeoPackage)"
                    ),
                )
            for one in inside:
                found.setdefault(one.path.resolve(), one)
            continue
        if not path.is_file():
            raise InputError(
                tr("there is no such file"), where=path.name, todo=tr("Check the path")
            )
        kind = kind_of(path)
        if kind is None:
            raise InputError(
                tr(
                    "is neither elevation (GeoTIFF, HGT, VRT) nor coast (GeoJSON, "
                    "Shapefile, GeoPackage)"
                ),
                where=path.name,
                todo=tr("Give land data of one of these kinds"),
            )
        found[path.resolve()] = LandPath(path=path, kind=kind, is_named=True)
    return tuple(found.values())
