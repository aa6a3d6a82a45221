"""Heights and coast brought together into the land of one passage."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from core.base.arrays import BoolArray, Float32Array
from core.base.findings import Finding
from core.base.progress import Progress
from core.geodesy.position import Bounds
from core.land.coast import Coast
from core.land.coast_data import CoastData
from core.land.coast_points import coast_line, coast_points
from core.land.coast_shapes import (
    box_near,
    clipped,
    merged_lines,
    outside,
    shorelines,
)
from core.land.land_model import Cell, LandModel
from core.land.land_raster import cells_in_boxes, cells_of_polygons
from core.land.lattice import Lattice
from core.land.sources import HeightWindow
from core.land.waterline import waterline


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterAndErrors:
    """What the officer states about heights.

    ``coast_height_m`` is taken, above the water now, for all land where there is no elevation.
    """

    water_level_m: float
    height_error_m: float
    coast_height_m: float | None


def build_land(
    *,
    window: HeightWindow,
    coasts: Sequence[CoastData],
    bounds: Bounds,
    elevation_extent: Sequence[Bounds],
    stated: WaterAndErrors,
    findings: Sequence[Finding],
    progress: Progress,
) -> LandModel:
    """Land of a box from heights and coast.

    Parameters
    ----------
    window : HeightWindow
        Heights above mean sea level; all missing where there is no elevation.
    coasts : sequence of CoastData
        Coast files that meet the box.
    elevation_extent : sequence of Bounds
        Areas of the elevation files that meet the box, empty without any.
    """
    lattice, heights = window.lattice, window.heights_m
    ordered = sorted(coasts, key=lambda c: c.spacing_m or np.inf)
    filled = [c for c in ordered if c.polygons or (c.may_be_empty and not c.lines)]
    ruled, land = _land_by_coast(lattice, filled)
    progress.report(0.3, "land and sea")
    ruled, land = _with_closed_lines(lattice, ordered, ruled, land)
    cell = _cells(window, ruled, land, ordered, elevation_extent, stated)
    above = _heights_above_water(heights, cell, stated, has_elevation=bool(elevation_extent))
    progress.report(0.5, "coast")
    middle = (bounds.west_deg + bounds.east_deg) / 2.0
    reach = shapely.box(*box_near(bounds, middle))
    lines = _coast_lines(ordered, middle)
    if not ruled.all() and elevation_extent:
        by_lines = cells_in_boxes(lattice, [b for c in ordered if c.lines for b in c.declared])
        lines += waterline(cell == Cell.LAND, (cell <= Cell.LAND) & ~ruled & ~by_lines, lattice)
    shown = tuple(coast_line(line) for line in clipped(lines, reach) if line.length > 0.0)
    points = coast_points(shown, above, lattice)
    progress.report(0.8, "coast")
    declared = tuple(b for c in ordered for b in c.declared)
    return LandModel(
        lattice=lattice,
        heights_m=above,
        cell=cell,
        coast=Coast(
            lines=shown,
            declared=declared or tuple(elevation_extent),
            from_elevation=not ordered,
        ),
        points=points,
        water_level_m=stated.water_level_m,
        height_error_m=stated.height_error_m,
        heights_assumed=not elevation_extent,
        sources=(*window.sources, *(c.source for c in ordered)),
        findings=tuple(findings),
    )


def _land_by_coast(lattice: Lattice, coasts: Sequence[CoastData]) -> tuple[BoolArray, BoolArray]:
    """Cells ruled by land polygons, and land among them; the finest file rules first."""
    ruled = np.zeros((lattice.rows, lattice.cols), dtype=np.bool_)
    land = np.zeros(ruled.shape, dtype=np.bool_)
    for coast in coasts:
        new = cells_in_boxes(lattice, coast.declared) & ~ruled
        if new.any():
            land |= cells_of_polygons(lattice, coast.polygons) & new
            ruled |= new
    return ruled, land


def _with_closed_lines(
    lattice: Lattice, coasts: Sequence[CoastData], ruled: BoolArray, land: BoolArray
) -> tuple[BoolArray, BoolArray]:
    """Land inside closed shorelines where no polygon rules."""
    for coast in coasts:
        if not coast.lines or ruled.all():
            continue
        rings = [line for line in merged_lines(coast.lines) if line.is_closed]
        polygons = [shapely.Polygon(r) for r in rings if len(r.coords) > 3]
        if polygons:
            inside = cells_of_polygons(lattice, polygons) & ~ruled
            land, ruled = land | inside, ruled | inside
    return ruled, land


def _cells(
    window: HeightWindow,
    ruled: BoolArray,
    land: BoolArray,
    coasts: Sequence[CoastData],
    elevation_extent: Sequence[Bounds],
    stated: WaterAndErrors,
) -> np.ndarray:
    heights, missing = window.heights_m, window.is_missing
    known = ~np.isnan(heights)
    cell = np.full(heights.shape, Cell.SEA, dtype=np.uint8)
    if not elevation_extent:
        cell[ruled & land] = Cell.LAND
        cell[~ruled] = Cell.BEYOND
        return cell
    cell[ruled & land & known] = Cell.LAND
    # Heights of 0 are sea in the open elevation sets, whatever the tide.
    dry = max(stated.water_level_m, 0.0)
    with np.errstate(invalid="ignore"):
        cell[~ruled & known & (heights > dry)] = Cell.LAND
    wanting = ~known & (land | ~ruled)
    cell[wanting & ~missing] = Cell.VOID
    inside = ruled.copy()
    if not coasts:
        inside |= cells_in_boxes(window.lattice, [_envelope(elevation_extent)])
    cell[wanting & missing & inside] = Cell.MISSING
    cell[wanting & missing & ~inside] = Cell.BEYOND
    return cell


def _envelope(boxes: Sequence[Bounds]) -> Bounds:
    """One box round all, longitudes taken the nearest way round to the first."""
    middle = (boxes[0].west_deg + boxes[0].east_deg) / 2.0
    near = np.array([box_near(b, middle) for b in boxes])
    west = float(near[:, 0].min())
    start = (west + 180.0) % 360.0 - 180.0
    return Bounds(
        south_deg=float(near[:, 1].min()),
        west_deg=start,
        north_deg=float(near[:, 3].max()),
        east_deg=start + min(float(near[:, 2].max()) - west, 360.0),
    )


def _heights_above_water(
    heights: Float32Array, cell: np.ndarray, stated: WaterAndErrors, *, has_elevation: bool
) -> Float32Array:
    above = np.zeros(heights.shape, dtype=np.float32)
    on_land = cell == Cell.LAND
    if has_elevation:
        level = np.float32(stated.water_level_m)
        above[on_land] = np.maximum(heights[on_land] - level, np.float32(0.0))
    else:
        above[on_land] = stated.coast_height_m or 0.0
    above[cell > Cell.LAND] = np.nan
    return above


def _coast_lines(coasts: Sequence[CoastData], middle_lon_deg: float) -> list[shapely.LineString]:
    """Shorelines, the finest file first: lines where a file gives lines, else polygon edges."""
    lines: list[shapely.LineString] = []
    covered: list[tuple[float, float, float, float]] = []
    with_lines = [c for c in coasts if c.lines]
    for coast in [*with_lines, *(c for c in coasts if c.polygons and not c.lines)]:
        own = (
            merged_lines(coast.lines)
            if coast.lines
            else shorelines(coast.polygons, coast.cut_boxes)
        )
        lines += outside(own, covered)
        covered += [box_near(b, middle_lon_deg) for b in coast.declared]
    return lines
