"""Land models made of nothing but heights, and real tiles on lattices of our choice."""

from pathlib import Path

import numpy as np
import rasterio
from rasterio.enums import Resampling
from rasterio.transform import Affine
from rasterio.warp import reproject

from core.base.arrays import ByteArray, Float32Array
from core.coverage.terrain import Terrain, prepare_terrain
from core.geodesy.position import Position
from core.land.coast import Coast, CoastPoints
from core.land.land_model import Cell, LandModel
from core.land.lattice import Lattice


def bare_land(
    lattice: Lattice, heights_m: Float32Array, cell: ByteArray | None = None
) -> LandModel:
    """Heights as a land model without coast; by default above 0 is land and NaN a void."""
    heights = np.asarray(heights_m, dtype=np.float32)
    if cell is None:
        cell = np.where(np.isnan(heights), Cell.VOID, np.where(heights > 0, Cell.LAND, Cell.SEA))
    none = np.empty(0)
    return LandModel(
        lattice=lattice,
        heights_m=heights.copy(),
        cell=cell.astype(np.uint8),
        coast=Coast(lines=(), declared=(), from_elevation=True),
        points=CoastPoints(
            lat_deg=none.copy(),
            lon_deg=none.copy(),
            length_m=none.copy(),
            height_m=np.empty(0, dtype=np.float32),
            line=np.empty(0, dtype=np.int64),
            is_line_start=np.empty(0, dtype=np.bool_),
        ),
        water_level_m=0.0,
        height_error_m=5.0,
        heights_assumed=False,
        sources=(),
        findings=(),
    )


def terrain_of(lattice: Lattice, heights_m: Float32Array, cell: ByteArray | None = None) -> Terrain:
    """The same, made ready for rays."""
    return prepare_terrain(bare_land(lattice, heights_m, cell))


def metric_lattice(
    crs: str, lat_deg: float, lon_deg: float, half_cells: int, cell_m: float = 30.0
) -> tuple[Lattice, Position]:
    """A square lattice in a projection, and the place of its middle cell's centre.

    The middle cell is the one of the projection's own 30 m raster that holds the place given.
    """
    probe = Lattice(crs=crs, left_x=0.0, top_y=0.0, cell_x=cell_m, cell_y=cell_m, rows=1, cols=1)
    row, col = probe.row_col(np.array([lat_deg]), np.array([lon_deg]))
    side = 2 * half_cells + 1
    lattice = probe.part(
        row=round(float(row[0])) - half_cells,
        col=round(float(col[0])) - half_cells,
        rows=side,
        cols=side,
    )
    lat, lon = lattice.lat_lon(np.array([float(half_cells)]), np.array([float(half_cells)]))
    return lattice, Position(lat_deg=float(lat[0]), lon_deg=float(lon[0]))


def real_tile(real_data: Path, area: str) -> tuple[Lattice, Float32Array]:
    """The 3 arc-second elevation of an area: sea 0, negative heights 0, voids NaN."""
    with rasterio.open(real_data / area / "dem_srtm3.tif") as raster:
        heights = raster.read(1).astype(np.float32)
        heights[heights == raster.nodata] = np.nan
        corner = raster.transform
    lattice = Lattice(
        crs="EPSG:4326",
        left_x=corner.c,
        top_y=corner.f,
        cell_x=corner.a,
        cell_y=-corner.e,
        rows=heights.shape[0],
        cols=heights.shape[1],
    )
    return lattice, np.maximum(heights, np.float32(0.0))


def corner_of(lattice: Lattice) -> Affine:
    """The lattice as rasterio's transform."""
    return Affine(lattice.cell_x, 0.0, lattice.left_x, 0.0, -lattice.cell_y, lattice.top_y)


def resampled(real_data: Path, area: str, lattice: Lattice) -> Float32Array:
    """An area's heights on another lattice, bilinear; voids and everything outside are sea."""
    source, heights = real_tile(real_data, area)
    out = np.zeros((lattice.rows, lattice.cols), dtype=np.float32)
    reproject(
        np.nan_to_num(heights),
        out,
        src_transform=corner_of(source),
        src_crs=source.crs,
        dst_transform=corner_of(lattice),
        dst_crs=lattice.crs,
        resampling=Resampling.bilinear,
    )
    out[out < 0.05] = 0.0
    return out


def overlap(one: np.ndarray, other: np.ndarray) -> float:
    """Intersection over union of two sets given as masks; 1 when both are empty."""
    union = int(np.count_nonzero(one | other))
    return 1.0 if union == 0 else int(np.count_nonzero(one & other)) / union
