"""Writes small elevation and coast files of invented land in mid-ocean, for tests."""

import json
import shutil
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np
import pyogrio.raw
import rasterio
import shapely
from numpy.typing import ArrayLike
from rasterio.transform import Affine

from core.base.progress import Quiet
from core.files.load_land import load_land
from core.geodesy.position import Bounds
from core.land.land_model import LandModel

VOID = -32768

Ring = Sequence[tuple[float, float]]
"""Longitude and latitude of the corners, not repeated at the end."""


def box_ring(west: float, south: float, east: float, north: float) -> Ring:
    """Corners of a box, counter-clockwise."""
    return ((west, south), (east, south), (east, north), (west, north))


def write_tif(
    path: Path,
    heights: ArrayLike,
    *,
    west: float,
    north: float,
    cell: float,
    crs: str | None = "EPSG:4326",
    nodata: float | None = VOID,
    dtype: str = "int16",
    tags: dict[str, str] | None = None,
) -> Path:
    """A GeoTIFF whose outer corner is at ``west``, ``north``."""
    values = np.asarray(heights, dtype=dtype)
    path.parent.mkdir(parents=True, exist_ok=True)
    with rasterio.open(
        path, "w", driver="GTiff", height=values.shape[0], width=values.shape[1], count=1,
        dtype=dtype, crs=crs, nodata=nodata, transform=Affine(cell, 0.0, west, 0.0, -cell, north),
    ) as target:  # fmt: skip
        target.write(values, 1)
        target.update_tags(**(tags or {}))
    return path


def write_geojson(
    path: Path,
    *,
    polygons: Sequence[Any] = (),
    lines: Sequence[Ring] = (),
    bbox: Sequence[float] | None = None,
    properties: dict[str, Any] | None = None,
) -> Path:
    """A GeoJSON file; a polygon is a ring or a list of rings, the first one outside."""
    features: list[dict[str, Any]] = []
    for polygon in polygons:
        rings = polygon if isinstance(polygon, list) else [polygon]
        closed = [[[x, y] for x, y in (*ring, ring[0])] for ring in rings]
        features.append({"type": "Polygon", "coordinates": closed})
    for line in lines:
        features.append({"type": "LineString", "coordinates": [[x, y] for x, y in line]})
    collection: dict[str, Any] = {"type": "FeatureCollection"}
    if bbox is not None:
        collection["bbox"] = list(bbox)
    collection["features"] = [
        {"type": "Feature", "properties": properties or {}, "geometry": g} for g in features
    ]
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(json.dumps(collection), encoding="utf-8")
    return path


def write_layer(
    path: Path, shapes: Sequence[Any], *, kind: str, driver: str, crs: str | None = "EPSG:4326"
) -> Path:
    """A Shapefile or GeoPackage of shapely shapes."""
    pyogrio.raw.write(
        path,
        geometry=shapely.to_wkb(np.array(shapes, dtype=object)),
        field_data=[np.arange(len(shapes))],
        fields=["number"],
        geometry_type=kind,
        driver=driver,
        crs=crs,
    )
    return path


def write_hgt(folder: Path, name: str, heights: ArrayLike) -> Path:
    """A raw SRTM tile of 1201 x 1201 posts, big-endian, from the north-west corner on."""
    values = np.asarray(heights, dtype=">i2")
    assert values.shape == (1201, 1201)
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / name
    path.write_bytes(values.tobytes())
    return path


def land_of(
    *paths: Path,
    box: tuple[float, float, float, float],
    water_level_m: float = 0.0,
    coast_height_m: float | None = None,
) -> LandModel:
    """Land of a box (west, south, east, north) with the usual settings."""
    west, south, east, north = box
    return load_land(
        paths,
        bounds=Bounds(south_deg=south, west_deg=west, north_deg=north, east_deg=east),
        water_level_m=water_level_m,
        height_error_m=5.0,
        coast_height_m=coast_height_m,
        progress=Quiet(),
    )


def cell_at(land: LandModel, lat_deg: float, lon_deg: float) -> int:
    """Code of the cell that a place lies in."""
    row, col = land.lattice.row_col(np.array([lat_deg]), np.array([lon_deg]))
    return int(land.cell[round(float(row[0])), round(float(col[0]))])


def height_at(land: LandModel, lat_deg: float, lon_deg: float) -> float:
    """Height of the cell that a place lies in."""
    row, col = land.lattice.row_col(np.array([lat_deg]), np.array([lon_deg]))
    return float(land.heights_m[round(float(row[0])), round(float(col[0]))])


def copy_into(folder: Path, *paths: Path) -> Path:
    """A folder with copies of files."""
    folder.mkdir(parents=True, exist_ok=True)
    for path in paths:
        shutil.copy(path, folder / path.name)
    return folder
