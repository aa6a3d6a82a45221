"""A raster of ground, carried onto the cells of a land model: the kind each cell's centre is of."""

import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import numpy as np
import rasterio
from pyproj import CRS
from pyproj.exceptions import CRSError
from rasterio.enums import Resampling
from rasterio.errors import NotGeoreferencedWarning, RasterioError
from rasterio.vrt import WarpedVRT
from rasterio.windows import Window

from core.base.arrays import BoolArray, ByteArray, IntArray
from core.base.findings import Finding, Severity, Where
from core.base.language import tr, tr_n
from core.base.progress import Progress
from core.files.cell_size import cell_size_m, resolution_words
from core.files.data_notes import note_for
from core.files.hashing import sha256_of
from core.files.raster_file import unusable
from core.land.land_model import Cell
from core.land.lattice import Lattice
from core.land.resample import places
from core.land.sources import DataSource, GroundCodes

_STRIP_CELLS = 4_000_000
_MOST_SHOWN = 6
_NO_CODE = -(2**63)


def read_ground(
    ground: GroundCodes, lattice: Lattice, cell: ByteArray, progress: Progress
) -> tuple[ByteArray, DataSource, tuple[Finding, ...]]:
    """The kind of ground at the centre of each cell.

    Parameters
    ----------
    ground : GroundCodes
        The raster, and the number of kind of each of its codes.
    lattice : Lattice
        Of the land model.
    cell : (rows, cols) uint8
        Its ``Cell`` codes; only of land is said what the table does not name.

    Returns
    -------
    kinds : (rows, cols) uint8
        Numbers of kinds, 0 where the raster does not reach, holds no value, or holds a code that
        the table does not name.
    source, findings
        The raster for sheets and receipt; what is wrong with it.

    Raises
    ------
    InputError
        The raster cannot be read or holds no whole numbers, in one sentence.
    """
    codes = np.array([code for code, _number in ground.numbers], dtype=np.int64)
    numbers = np.array([number for _code, number in ground.numbers], dtype=np.uint8)
    kinds = np.zeros((lattice.rows, lattice.cols), dtype=np.uint8)
    unnamed: set[int] = set()
    reaches = False
    with _opened(ground.path) as (grid, own, tags):
        step = _rows_at_once(lattice, own)
        for first in range(0, lattice.rows, step):
            rows = min(step, lattice.rows - first)
            on_land = cell[first : first + rows] == Cell.LAND
            values, inside = _values(grid, own, lattice, first, rows, ground.path.name)
            reaches |= bool((inside & on_land).any())
            at = np.minimum(np.searchsorted(codes, values), codes.size - 1)
            is_named = codes[at] == values
            kinds[first : first + rows] = np.where(is_named, numbers[at], 0)
            unnamed.update(np.unique(values[on_land & ~is_named & (values != _NO_CODE)]).tolist())
            progress.report((first + rows) / lattice.rows, tr("reading kinds of ground"))
        middle_row = np.array([lattice.rows / 2.0])
        lat, _lon = lattice.lat_lon(middle_row, np.array([lattice.cols / 2.0]))
        note = note_for(ground.path, tags)
        source = DataSource(
            role="classes",
            name=ground.path.name,
            sha256=sha256_of(ground.path),
            resolution=resolution_words(own, float(lat[0])),
            released=note.released,
            licence=note.licence,
        )
    is_used = bool((kinds[cell == Cell.LAND] > 0).any())
    return kinds, source, _findings(ground.path, unnamed, reaches=reaches, is_used=is_used)


def _findings(
    path: Path, unnamed: set[int], *, reaches: bool, is_used: bool
) -> tuple[Finding, ...]:
    if not reaches:
        what, todo = tr("reaches no land of this passage"), tr("Give the classes of these waters")
    elif unnamed:
        codes = ", ".join(str(code) for code in sorted(unnamed)[:_MOST_SHOWN])
        if len(unnamed) > _MOST_SHOWN:
            codes = tr("{codes} and others", codes=codes)
        what = tr_n(
            "code {codes} is not named in its table",
            "codes {codes} are not named in its table",
            len(unnamed),
            codes=codes,
        )
        todo = "" if is_used else tr("Name what lies on land")
    elif not is_used:
        what, todo = tr("holds no value on any land of this passage"), tr("Check the raster")
    else:
        return ()
    return (
        Finding(
            severity=Severity.NOTE if is_used else Severity.CHECK,
            code="ground-by-slope",
            what=tr("{finding}; there the slope tells how strongly ground echoes", finding=what),
            where=Where(file=path.name),
            todo=todo,
        ),
    )


@contextmanager
def _opened(path: Path) -> Iterator[tuple[Any, Lattice, dict[str, object]]]:
    """The raster north up in degrees of WGS-84 or in metres, its lattice and its tags."""
    name = path.name
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", NotGeoreferencedWarning)
            source = rasterio.open(path, driver="GTiff")
    except (RasterioError, OSError, ValueError) as exc:
        raise unusable(name, tr("cannot be read as a GeoTIFF of classes")) from exc
    with source:
        if source.crs is None:
            raise unusable(
                name, tr("has no coordinate reference system"), tr("Assign one and give it again")
            )
        if np.dtype(source.dtypes[0]).kind not in "iu":
            raise unusable(
                name, tr("holds numbers that are no classes"), tr("Give a raster of whole numbers")
            )
        try:
            crs = CRS.from_user_input(source.crs.to_wkt()).to_2d()
        except CRSError as exc:
            raise unusable(name, tr("has an unknown coordinate reference system")) from exc
        t, code = source.transform, crs.to_epsg()
        north_up = t.b == 0 and t.d == 0 and t.a > 0 and t.e < 0
        tags: dict[str, object] = {**source.tags(), **source.tags(1)}
        if north_up and (code == 4326 or crs.is_projected):
            text = f"EPSG:{code}" if code else str(crs.to_wkt())
            yield source, _lattice(source, text, name), tags
            return
        try:
            grid = WarpedVRT(source, crs="EPSG:4326", resampling=Resampling.nearest)
        except (RasterioError, OSError, ValueError) as exc:
            raise unusable(name, tr("cannot be turned north up")) from exc
        with grid:
            yield grid, _lattice(grid, "EPSG:4326", name), tags


def _lattice(grid: Any, crs: str, name: str) -> Lattice:  # noqa: ANN401 - rasterio ships no types
    t = grid.transform
    sizes = np.array([t.a, -t.e, t.c, t.f])
    if not np.isfinite(sizes).all() or min(sizes[:2]) <= 0.0:
        raise unusable(name, tr("has cells of no sensible size"))
    return Lattice(
        crs=crs,
        left_x=t.c,
        top_y=t.f,
        cell_x=t.a,
        cell_y=-t.e,
        rows=grid.height,
        cols=grid.width,
    )


def _rows_at_once(lattice: Lattice, own: Lattice) -> int:
    """Rows of the lattice whose part of the raster is of bounded size."""
    lat, _lon = lattice.lat_lon(np.array([lattice.rows / 2.0]), np.array([lattice.cols / 2.0]))
    down, across = cell_size_m(lattice, float(lat[0]))
    own_down, own_across = cell_size_m(own, float(lat[0]))
    finer = max(down / own_down, 1.0) * max(across / own_across, 1.0)
    return int(max(_STRIP_CELLS / (lattice.cols * finer), 1.0))


def _values(
    grid: Any,  # noqa: ANN401 - rasterio ships no types
    own: Lattice,
    lattice: Lattice,
    first: int,
    rows: int,
    name: str,
) -> tuple[IntArray, BoolArray]:
    """Codes at the centres of some rows of the lattice, and where the raster reaches."""
    row_of, col_of = own.row_col(*places(lattice, first, rows))
    inside = (row_of > -0.5) & (row_of < own.rows - 0.5) & (col_of > -0.5)
    inside &= col_of < own.cols - 0.5
    values = np.full(inside.shape, _NO_CODE, dtype=np.int64)
    if inside.any():
        row, col = (np.rint(at[inside]).astype(np.int64) for at in (row_of, col_of))
        top, left = int(row.min()), int(col.min())
        window = Window(left, top, int(col.max()) - left + 1, int(row.max()) - top + 1)
        try:
            part = grid.read(1, window=window, masked=True)
        except (RasterioError, OSError) as exc:
            raise unusable(name, tr("is cut short or damaged inside")) from exc
        found = np.ma.filled(part.astype(np.int64), _NO_CODE)
        values[inside] = found[row - top, col - left]
    shape = (rows, lattice.cols)
    return values.reshape(shape), np.asarray(inside.reshape(shape))
