"""Shapes of coast files, cut to a box and made valid."""

import math
from pathlib import Path
from typing import Any

import numpy as np
import pyogrio.raw
import shapely
from pyproj import Transformer
from pyproj.exceptions import ProjError

from core.base.findings import Finding, Severity, Where
from core.base.language import tr, tr_n
from core.files.coast_header import (
    GDAL_ERRORS,
    CoastFile,
    CoastLayer,
    kind_words,
    quietly,
    transformer,
    unusable_coast,
)
from core.files.hashing import sha256_of
from core.geodesy import geodesic
from core.geodesy.position import Bounds
from core.land.coast_data import CoastData
from core.land.coast_shapes import Box, box_near, joined, uncut_lines
from core.land.sources import DataSource

_MARGIN_DEG = 0.05
_FARTHEST_DEG = 900.0
"""Longitudes run to 360 deg and are moved by one turn more, and half a turn of slack."""
_LAND_LEVELS = {1, 5, 6}


def read_coast(file: CoastFile, bounds: Bounds) -> tuple[CoastData, tuple[Finding, ...]]:
    """Coast of a file near a box.

    Raises
    ------
    InputError
        A shape has coordinates that are no places, or cannot be read.
    """
    middle = (bounds.west_deg + bounds.east_deg) / 2.0
    area = box_near(bounds.padded(lat_deg=_MARGIN_DEG, lon_deg=_MARGIN_DEG), middle)
    shapes: list[Any] = []
    for layer in file.layers:
        shapes += _shapes(file.path, layer, area)
    declared = tuple(box_near(b, middle) for b in file.declared)
    try:
        polygons, lines, findings = _sorted_out(file.path, shapes)
        spacing = _spacing_m(polygons, lines)
        rim = shapely.box(*area)
        polygons = list(joined([q for p in polygons for q in _pieces(p, rim, "Polygon")]))
        lines = [q for p in uncut_lines(lines, declared) for q in _pieces(p, rim, "LineString")]
    except shapely.errors.GEOSException as exc:
        raise unusable_coast(file.path, tr("has a shape too broken to be mended")) from exc
    return (
        CoastData(
            source=DataSource(
                role="coast",
                name=file.path.name,
                sha256=sha256_of(file.path),
                resolution=tr("vertices about {spacing:.0f} m apart", spacing=spacing)
                if spacing
                else "",
                released=file.note.released,
                licence=file.note.licence,
            ),
            polygons=tuple(polygons),
            lines=tuple(lines),
            declared=file.declared,
            cut_boxes=(*declared, area),
            spacing_m=spacing,
            rules=file.holds_polygons,
        ),
        (*file.findings, *findings),
    )


def _pieces(shape: Any, rim: Any, kind: str) -> list[Any]:  # noqa: ANN401 - shapely has no types
    if shapely.contains_properly(rim, shape):
        return [shape]
    parts = shapely.get_parts(shapely.intersection(shape, rim))
    return [p for p in parts if p.geom_type == kind and not p.is_empty]


def _shapes(path: Path, layer: CoastLayer, area: Box) -> list[Any]:
    """Shapes of a layer near an area, longitudes continuous there."""
    there = transformer(path, layer)
    if there is None:
        found = []
        for turn in (-360.0, 0.0, 360.0):
            box = (area[0] - turn, area[1], area[2] - turn, area[3])
            if layer.box is None or box[2] < layer.box[0] or box[0] > layer.box[2]:
                continue
            for shape in _read(path, layer, box):
                found.append(shapely.transform(shape, lambda xy, t=turn: xy + np.array([t, 0.0])))
        return found
    shapes = _read(path, layer, _own_box(there, area))
    middle = (area[0] + area[2]) / 2.0

    def degrees(xy: np.ndarray) -> np.ndarray:
        lon, lat = there.transform(xy[:, 0], xy[:, 1])
        lon = middle + np.mod(np.asarray(lon) - middle + 180.0, 360.0) - 180.0
        return np.stack([lon, np.asarray(lat)], axis=1)

    return [shapely.transform(shape, degrees) for shape in shapes]


def _own_box(there: Transformer, area: Box) -> Box | None:
    try:
        box = there.transform_bounds(*area, direction="INVERSE")
    except ProjError:
        return None
    return box if all(math.isfinite(v) for v in box) and box[0] <= box[2] else None


def _read(path: Path, layer: CoastLayer, box: Box | None) -> list[Any]:
    columns = [field for field in layer.fields if field.casefold() == "level"]
    try:
        meta, _, raw, values = quietly(
            pyogrio.raw.read, path, layer=layer.name, columns=columns, bbox=box, force_2d=True
        )
    except GDAL_ERRORS as exc:
        raise unusable_coast(path, tr("cannot be read as a {kind}", kind=kind_words(path))) from exc
    fields = dict(zip([str(f).casefold() for f in meta["fields"]], values, strict=True))
    keep = np.array([g is not None for g in raw], dtype=np.bool_)
    if "level" in fields:
        # Levels 2 to 4 of GSHHG are lakes, islands in lakes and ponds: no sea coast.
        keep &= np.array([_is_land_level(v) for v in fields["level"]], dtype=np.bool_)
    wanted = np.asarray(raw, dtype=object)[keep]
    with np.errstate(all="ignore"):
        shapes = shapely.from_wkb(wanted, on_invalid="ignore")
    if any(s is None for s in shapes):
        raise unusable_coast(
            path, tr("has a ring of fewer than four points or one that is not closed")
        )
    return [s for s in shapes if not s.is_empty]


def _is_land_level(value: object) -> bool:
    try:
        return int(float(str(value))) in _LAND_LEVELS
    except ValueError:
        return True


def _sorted_out(path: Path, shapes: list[Any]) -> tuple[list[Any], list[Any], list[Finding]]:
    """Polygons, made valid, and lines among shapes, with what had to be repaired."""
    polygons: list[Any] = []
    lines: list[Any] = []
    repaired = 0
    for shape in shapes:
        if not np.all(np.isfinite(shapely.get_coordinates(shape))):
            raise unusable_coast(path, tr("has a coordinate that is not a number"))
        west, south, east, north = shapely.bounds(shape)
        if south < -90.001 or north > 90.001:
            raise unusable_coast(path, tr("has a latitude beyond 90 degrees"))
        if west < -_FARTHEST_DEG or east > _FARTHEST_DEG:
            raise unusable_coast(path, tr("has a longitude beyond 360 degrees"))
        for part in shapely.get_parts(shape):
            if part.geom_type in {"LineString", "LinearRing"}:
                lines.append(shapely.LineString(part))
            elif part.geom_type == "Polygon":
                if not part.is_valid:
                    repaired += 1
                    mended = shapely.get_parts(shapely.make_valid(part))
                    parts = [q for m in mended for q in shapely.get_parts(m)]
                    polygons += [q for q in parts if q.geom_type == "Polygon"]
                else:
                    polygons.append(part)
    findings = []
    if repaired:
        findings.append(
            Finding(
                severity=Severity.CHECK,
                code="coast-repaired",
                what=tr_n(
                    "has {count} polygon that crosses itself; "
                    "both sides of each crossing are taken as land",
                    "has {count} polygons that cross themselves; "
                    "both sides of each crossing are taken as land",
                    repaired,
                ),
                where=Where(file=path.name),
                todo=tr("Compare the coast there with the chart"),
            )
        )
    return polygons, lines, findings


def _spacing_m(polygons: list[Any], lines: list[Any]) -> float:
    """Median distance between neighbouring vertices, m; 0 without any."""
    steps = []
    for shape in [*[p.exterior for p in polygons[:400]], *lines[:400]]:
        xy = shapely.get_coordinates(shape)[:20_000]
        if len(xy) > 1:
            distance, _, _ = geodesic.inverse(
                from_lat_deg=xy[:-1, 1],
                from_lon_deg=xy[:-1, 0],
                to_lat_deg=xy[1:, 1],
                to_lon_deg=xy[1:, 0],
            )
            steps.append(distance[distance > 0.0])
    return float(np.median(np.concatenate(steps))) if steps else 0.0
