"""One elevation raster through rasterio: its header, and heights read window by window."""

import logging
import lzma
import math
import re
import struct
import warnings
import zipfile
import zlib
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path, PurePosixPath
from typing import Any

import numpy as np
import rasterio
from pyproj import CRS, Transformer
from pyproj.exceptions import CRSError, ProjError
from rasterio.enums import Resampling
from rasterio.errors import NotGeoreferencedWarning, RasterioError, RasterioIOError
from rasterio.io import MemoryFile
from rasterio.vrt import WarpedVRT
from rasterio.windows import Window

from core.base.arrays import Float32Array
from core.base.errors import InputError
from core.base.language import tr
from core.files.data_notes import DataNote, note_for
from core.geodesy.position import Bounds, wrap_lon_deg
from core.land.lattice import Lattice

# GDAL's own complaints would reach standard error; ours name the file and say what to do.
logging.getLogger("rasterio").addHandler(logging.NullHandler())
logging.getLogger("rasterio").propagate = False

_LOWEST_M, _HIGHEST_M = -12_000.0, 9_000.0
_FOOT_M = 0.3048
_SAME_DATUM_M = 2.0
_DRIVERS = {".hgt": "SRTMHGT", ".vrt": "VRT", ".dt0": "DTED", ".dt1": "DTED", ".dt2": "DTED"}
_HGT_NAME = re.compile(r"^([NS])(\d{2})([EW])(\d{3})", re.IGNORECASE)
_REMOTE = re.compile(
    r"/vsi(curl|s3|gs|az|adls|oss|swift|webhdfs|hdfs|stdin)|https?://|ftp://", re.IGNORECASE
)
_VRT_LIMIT_BYTES = 64 << 20
_MEMBER_LIMIT_BYTES = 512 << 20
_ZIP_ERRORS = (
    zipfile.BadZipFile,
    zlib.error,
    lzma.LZMAError,
    struct.error,
    EOFError,
    IndexError,
    NotImplementedError,
    OSError,
    RuntimeError,
    ValueError,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class RasterFile:
    """Header of an elevation raster.

    ``lattice`` is the north-up grid it is read on: its own, or where it is rotated, upside down
    or on another datum, the one it is warped to (``is_warped``).
    """

    path: Path
    member: str
    """Name inside a zip file, empty for others."""
    name: str
    driver: str
    crs_name: str
    lattice: Lattice
    area: Bounds
    is_warped: bool
    metres_per_unit: float
    has_ellipsoid_heights: bool
    parts: tuple[Path, ...]
    """Files a mosaic is made of; empty for others."""
    note: DataNote


def unusable(
    name: str, why: str, todo: str = tr("Give the file again from its source")
) -> InputError:
    """The error for a land file that cannot be used."""
    return InputError(why, where=name, todo=todo)


def hgt_bounds(path: Path) -> Bounds | None:
    """The degree square that the name of an HGT tile stands for; None without such a name."""
    match = _HGT_NAME.match(path.name)
    if match is None or ".hgt" not in path.name.casefold():
        return None
    north, lat, east, lon = match.groups()
    south = int(lat) * (1 if north in "nN" else -1)
    west = int(lon) * (1 if east in "eE" else -1)
    if not (-90 <= south <= 89 and -180 <= west <= 179):
        return None
    return Bounds(south_deg=south, west_deg=west, north_deg=south + 1, east_deg=west + 1)


def _members(path: Path) -> list[str]:
    """The rasters in a zipped file, or one empty name for a file that is not zipped."""
    if path.suffix.casefold() != ".zip":
        return [""]
    try:
        with zipfile.ZipFile(path) as archive:
            members = [m for m in archive.infolist() if m.filename[-4:].casefold() in _ZIPPED]
    except _ZIP_ERRORS as exc:
        raise unusable(path.name, tr("the zip file is broken")) from exc
    if not members:
        raise unusable(path.name, tr("the zip file holds no elevation (HGT or GeoTIFF)"))
    if any(m.file_size > _MEMBER_LIMIT_BYTES for m in members):
        raise unusable(
            path.name, tr("the zip file holds a member of more than 512 MiB"), tr("Unpack it")
        )
    return [m.filename for m in members]


@contextmanager
def _gdal_name(path: Path, member: str) -> Iterator[str]:
    """A name GDAL can open: the file itself, or a member unpacked into memory.

    GDAL's own reading of zip files crashes on some damaged ones, so it is not used.
    """
    if not member:
        yield str(path)
        return
    try:
        with zipfile.ZipFile(path) as archive:
            data = archive.read(member)
    except _ZIP_ERRORS as exc:
        raise unusable(path.name, tr("the zip file is broken")) from exc
    except KeyError as exc:
        raise unusable(path.name, tr("the zip file has changed while it was read")) from exc
    with MemoryFile(data, filename=PurePosixPath(member).name) as unpacked:
        yield unpacked.name


_ZIPPED = {".hgt", ".tif"}


def _driver(name: str) -> str:
    return _DRIVERS.get(Path(name).suffix.casefold(), "GTiff")


def _refuse_remote(path: Path) -> None:
    """Refuse a mosaic that points at a server: this program makes no network call."""
    if path.suffix.casefold() != ".vrt":
        return
    try:
        if path.stat().st_size > _VRT_LIMIT_BYTES:
            raise unusable(path.name, tr("the mosaic description is larger than 64 MiB"))
        text = path.read_text(encoding="utf-8", errors="replace")
    except OSError as exc:
        raise unusable(
            path.name, tr("cannot be read ({reason})", reason=exc.strerror or exc)
        ) from exc
    if _REMOTE.search(re.sub(r"<(SRS|GeogCS)[^>]*>.*?</\1>", "", text, flags=re.DOTALL)):
        raise unusable(
            path.name, tr("points at files on a server"), tr("Copy the files here and make it anew")
        )


@contextmanager
def _dataset(path: Path, member: str) -> Iterator[Any]:
    driver = _driver(member or path.name)
    with _gdal_name(path, member) as gdal_name:
        try:
            with warnings.catch_warnings():
                warnings.simplefilter("ignore", NotGeoreferencedWarning)
                source = rasterio.open(gdal_name, driver=driver)
        except (RasterioError, OSError, ValueError) as exc:
            kind = {
                "SRTMHGT": tr("an HGT tile (its size or name is wrong)"),
                "VRT": tr("a VRT mosaic"),
            }
            what = kind.get(driver, tr("an elevation raster"))
            raise unusable(path.name, tr("cannot be read as {kind}", kind=what)) from exc
        with source:
            yield source


def _is_wgs84(crs: CRS, lat_deg: float, lon_deg: float) -> bool:
    """Whether degrees of this system are those of WGS-84 within 2 m."""
    there = Transformer.from_crs(crs, "EPSG:4326", always_xy=True)
    lon, lat = there.transform(lon_deg, lat_deg)
    north_m = (lat - lat_deg) * 111_320.0
    east_m = (lon - lon_deg) * 111_320.0 * math.cos(math.radians(lat_deg))
    return math.hypot(north_m, east_m) < _SAME_DATUM_M


def _area(lattice: Lattice, name: str) -> Bounds:
    least, most = (1e-7, 20.0) if lattice.is_geographic else (0.01, 2e6)
    sizes = (lattice.cell_x, lattice.cell_y)
    corner = (lattice.left_x, lattice.top_y)
    if not all(least <= size <= most for size in sizes) or not all(map(math.isfinite, corner)):
        raise unusable(name, tr("has cells of no sensible size"))
    right = lattice.left_x + lattice.cell_x * lattice.cols
    bottom = lattice.top_y - lattice.cell_y * lattice.rows
    if lattice.is_geographic:
        box = (lattice.left_x, bottom, right, lattice.top_y)
    else:
        there = Transformer.from_crs(lattice.crs, "EPSG:4326", always_xy=True)
        try:
            box = there.transform_bounds(lattice.left_x, bottom, right, lattice.top_y)
        except ProjError as exc:
            raise unusable(name, tr("lies outside the reach of its coordinate system")) from exc
    west, south, east, north = box
    if not all(math.isfinite(v) for v in box) or south > 90.001 or north < -90.001:
        raise unusable(name, tr("lies at no place on Earth"))
    if east < west:
        east += 360.0
    start = west if -180.0 <= west < 180.0 else wrap_lon_deg(west)
    return Bounds(
        south_deg=max(south, -90.0),
        west_deg=start,
        north_deg=min(north, 90.0),
        east_deg=start + min(east - west, 360.0),
    )


def _metres_per_unit(source: Any) -> float:  # noqa: ANN401 - rasterio ships no types
    unit = (source.units[0] or "").casefold().strip()
    return _FOOT_M if unit in {"ft", "foot", "feet", "us-ft", "us survey foot"} else 1.0


def _header(path: Path, member: str) -> RasterFile:
    name = path.name
    with _dataset(path, member) as source:
        if source.crs is None:
            raise unusable(
                name, tr("has no coordinate reference system"), tr("Assign one and give it again")
            )
        if source.count < 1 or all(d in {"uint8", "int8"} for d in source.dtypes):
            raise unusable(
                name, tr("is a picture of 8-bit values, not heights"), tr("Give elevation data")
            )
        if any("complex" in d for d in source.dtypes):
            raise unusable(
                name, tr("holds complex numbers, not heights"), tr("Give elevation data")
            )
        try:
            crs = CRS.from_user_input(source.crs.to_wkt())
        except CRSError as exc:
            raise unusable(name, tr("has an unknown coordinate reference system")) from exc
        flat, transform = crs.to_2d(), source.transform
        north_up = transform.b == 0 and transform.d == 0 and transform.a > 0 and transform.e < 0
        lattice = Lattice(
            crs=_crs_text(flat, name),
            left_x=transform.c,
            top_y=transform.f,
            cell_x=abs(transform.a),
            cell_y=abs(transform.e),
            rows=source.height,
            cols=source.width,
        )
        is_warped = not north_up
        if flat.is_geographic:
            middle_lat = lattice.top_y - lattice.cell_y * lattice.rows / 2.0
            middle_lon = lattice.left_x + lattice.cell_x * lattice.cols / 2.0
            same = is_warped or _is_wgs84(flat, middle_lat, middle_lon)
            is_warped = is_warped or not same
            lattice = replace(lattice, crs="EPSG:4326")
        if is_warped:
            with _warped(source, lattice.crs, name) as grid:
                t = grid.transform
                lattice = replace(
                    lattice, left_x=t.c, top_y=t.f, cell_x=t.a, cell_y=-t.e,
                    rows=grid.height, cols=grid.width,
                )  # fmt: skip
        parts = tuple(Path(f) for f in source.files[1:]) if source.driver == "VRT" else ()
        tags: Mapping[str, object] = {**source.tags(), **source.tags(1)}
        return RasterFile(
            path=path,
            member=member,
            name=name,
            driver=source.driver,
            crs_name=crs.name,
            lattice=lattice,
            area=_area(lattice, name),
            is_warped=is_warped,
            metres_per_unit=_metres_per_unit(source),
            has_ellipsoid_heights=crs.is_geographic and len(crs.axis_info) == 3,
            parts=parts,
            note=note_for(path, tags),
        )


def _crs_text(crs: CRS, name: str) -> str:
    if not (crs.is_geographic or crs.is_projected):
        raise unusable(
            name,
            tr("has a coordinate reference system that is neither geographic nor projected"),
            tr("Assign the right one and give it again"),
        )
    code = crs.to_epsg()
    return f"EPSG:{code}" if code else str(crs.to_wkt())


@contextmanager
def _warped(source: Any, crs: str, name: str) -> Iterator[Any]:  # noqa: ANN401 - no types there
    try:
        grid = WarpedVRT(source, crs=crs, resampling=Resampling.bilinear)
    except (RasterioError, OSError, ValueError) as exc:
        raise unusable(name, tr("cannot be turned north up")) from exc
    with grid:
        yield grid


def read_headers(path: Path) -> tuple[RasterFile, ...]:
    """Headers of the rasters of a file: one, or more where it is zipped.

    Raises
    ------
    InputError
        The file is broken, no raster of heights, or lacks a coordinate reference system.
    """
    _refuse_remote(path)
    return tuple(_header(path, member) for member in _members(path))


def read_heights(file: RasterFile, *, row: int, col: int, rows: int, cols: int) -> Float32Array:
    """Heights of a rectangle of cells inside the raster's lattice, m, NaN in voids.

    Raises
    ------
    InputError
        The file cannot be read to its end.
    """
    with _dataset(file.path, file.member) as source:
        if file.is_warped:
            with _warped(source, file.lattice.crs, file.name) as grid:
                return _heights(grid, file, Window(col, row, cols, rows))
        return _heights(source, file, Window(col, row, cols, rows))


def _heights(source: Any, file: RasterFile, window: Window) -> Float32Array:  # noqa: ANN401 - as above
    try:
        raw = source.read(1, window=window, masked=True)
    except (RasterioIOError, RasterioError, OSError) as exc:
        raise unusable(file.name, tr("is cut short or damaged inside")) from exc
    heights = np.asarray(raw.data, dtype=np.float32)
    heights[np.ma.getmaskarray(raw)] = np.nan
    scale, offset = source.scales[0] or 1.0, source.offsets[0] or 0.0
    if scale != 1.0 or offset != 0.0:
        heights = heights * np.float32(scale) + np.float32(offset)
    if file.metres_per_unit != 1.0:
        heights = heights * np.float32(file.metres_per_unit)
    # Values no height on Earth has are voids that the file does not declare.
    with np.errstate(invalid="ignore"):
        heights[(heights < _LOWEST_M) | (heights > _HIGHEST_M)] = np.nan
    return np.asarray(heights, dtype=np.float32)
