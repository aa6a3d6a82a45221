"""Heights and coast brought together into the land of one passage."""

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
import shapely

from core.base.arrays import BoolArray, ByteArray, Float32Array
from core.base.findings import Finding
from core.base.language import tr
from core.base.progress import Progress
from core.geodesy.position import Bounds
from core.land import land_findings
from core.land.cell_filling import fill_cells, fill_heights
from core.land.coast import Coast, CoastPoints
from core.land.coast_check import CellDisagreement, cell_disagreement, coast_mismatch
from core.land.coast_data import CoastData
from core.land.coast_points import coast_line, coast_points
from core.land.coast_shapes import (
    Box,
    box_near,
    clipped,
    merged_lines,
    outside,
    shorelines,
    without_cuts,
)
from core.land.frame import full_in_frame
from core.land.lakes import water_at_sea_level
from core.land.land_model import Cell, LandModel
from core.land.land_raster import cells_in_boxes, cells_of_polygons, ring_coordinates
from core.land.lattice import Lattice
from core.land.line_faces import ruled_by_lines
from core.land.sources import HeightWindow
from core.land.waterline import waterline

_COARSER = 3.0
_STRIP_ROWS = 512


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterAndErrors:
    """What the officer states about heights.

    ``coast_height_m`` is taken, above the water now, for all land where there is no elevation.
    """

    water_level_m: float
    height_error_m: float
    coast_height_m: float | None


@dataclass(slots=True)
class _Ruling:
    """What the coast files say of each cell, built up file by file."""

    ruled: BoolArray
    land: BoolArray
    lagoons: list[shapely.LineString] = field(default_factory=list)
    """Shores of holes at sea level."""
    used: list[CoastData] = field(default_factory=list)

    def use(self, coast: CoastData) -> None:
        if not any(coast is one for one in self.used):
            self.used.append(coast)


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

    Land polygons rule what is land, the finest file first; then shorelines without polygons;
    then the heights. What none of them tells is void, missing or beyond the data.

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
    middle = (bounds.west_deg + bounds.east_deg) / 2.0
    ordered = _without_coarse_lines(sorted(coasts, key=lambda c: c.spacing_m or np.inf))
    ruling = _rule_by_polygons(lattice, heights, [c for c in ordered if c.rules])
    progress.report(0.25, tr("land and sea"))
    _rule_by_lines(ruling, lattice, heights, ordered, middle)
    cell = _cells(window, ruling, ordered, elevation_extent, stated)
    differing = cell_disagreement(heights, ruling.ruled, ruling.land)
    ruling.land = np.zeros((0, 0), dtype=np.bool_)
    above = _heights_above_water(heights, cell, stated, has_elevation=bool(elevation_extent))
    progress.report(0.5, tr("coast"))
    lines = _coast_lines(ruling, ordered, middle)
    if elevation_extent and not ruling.ruled.all():
        undrawn = _undrawn(cell, ruling, ordered, lattice)
        if undrawn.any():
            lines += waterline(cell == Cell.LAND, undrawn, lattice)
        del undrawn
    ruling.ruled = np.zeros((0, 0), dtype=np.bool_)
    reach = shapely.box(*box_near(bounds, middle))
    shown = tuple(coast_line(line) for line in clipped(lines, reach) if line.length > 0.0)
    points = coast_points(shown, above, lattice)
    progress.report(0.75, tr("coast and elevation compared"))
    more = _findings(
        ruling,
        coasts,
        points,
        window,
        stated,
        differing,
        has_elevation=bool(elevation_extent),
    )
    return LandModel(
        lattice=lattice,
        heights_m=above,
        cell=cell,
        coast=Coast(
            lines=shown,
            declared=_declared(ruling, elevation_extent),
            from_elevation=not ruling.used,
        ),
        points=points,
        water_level_m=stated.water_level_m,
        height_error_m=stated.height_error_m,
        heights_assumed=not elevation_extent,
        sources=(*window.sources, *(c.source for c in ruling.used)),
        findings=(*findings, *more),
    )


def _without_coarse_lines(coasts: list[CoastData]) -> list[CoastData]:
    """Drop shorelines much coarser than the polygons: those know the shore better."""
    spacing = [c.spacing_m for c in coasts if c.rules and c.spacing_m]
    return [c for c in coasts if c.rules or not spacing or c.spacing_m <= _COARSER * min(spacing)]


def _declared(ruling: _Ruling, elevation_extent: Sequence[Bounds]) -> tuple[Bounds, ...]:
    boxes = [b for c in ruling.used for b in c.declared]
    return tuple(dict.fromkeys(boxes)) or tuple(elevation_extent)


def _rule_by_polygons(
    lattice: Lattice, heights: Float32Array, coasts: Sequence[CoastData]
) -> _Ruling:
    """Cells ruled by land polygons, and land among them; the finest file rules first."""
    shape = (lattice.rows, lattice.cols)
    ruling = _Ruling(np.zeros(shape, dtype=np.bool_), np.zeros(shape, dtype=np.bool_))
    for coast in coasts:
        new = cells_in_boxes(lattice, coast.declared) & ~ruling.ruled
        if not new.any():
            continue
        holes = water_at_sea_level(lattice, coast.polygons, heights)
        water = [ring_coordinates(lattice, hole) for hole in holes]
        ruling.land |= cells_of_polygons(lattice, coast.polygons, water, coast.cut_boxes) & new
        ruling.ruled |= new
        for hole in holes:
            pieces = without_cuts(shapely.get_coordinates(hole), coast.cut_boxes)
            ruling.lagoons += [shapely.LineString(piece) for piece in pieces]
        ruling.use(coast)
    return ruling


def _rule_by_lines(
    ruling: _Ruling,
    lattice: Lattice,
    heights: Float32Array,
    coasts: Sequence[CoastData],
    middle_lon_deg: float,
) -> None:
    """Cells between shorelines where no polygon rules."""
    for coast in coasts:
        if coast.rules or not (cells_in_boxes(lattice, coast.declared) & ~ruling.ruled).any():
            continue
        areas = [box_near(b, middle_lon_deg) for b in coast.declared]
        near = _cut_to(areas, coast.cut_boxes[-1])
        if near:
            ruled, land = ruled_by_lines(lattice, merged_lines(coast.lines), near, heights)
            ruling.land |= land & ~ruling.ruled
            ruling.ruled |= ruled


def _cut_to(boxes: Sequence[Box], rim: Box) -> list[Box]:
    kept = []
    for west, south, east, north in boxes:
        box = (max(west, rim[0]), max(south, rim[1]), min(east, rim[2]), min(north, rim[3]))
        if box[0] < box[2] and box[1] < box[3]:
            kept.append(box)
    return kept


def _cells(
    window: HeightWindow,
    ruling: _Ruling,
    coasts: Sequence[CoastData],
    elevation_extent: Sequence[Bounds],
    stated: WaterAndErrors,
) -> ByteArray:
    heights, missing, ruled, land = (
        window.heights_m, window.is_missing, ruling.ruled, ruling.land,
    )  # fmt: skip
    cell = full_in_frame(
        heights.shape[0], heights.shape[1], np.uint8(Cell.SEA), np.uint8(Cell.BEYOND)
    )
    if not elevation_extent:
        cell[ruled & land] = Cell.LAND
        cell[~ruled] = Cell.BEYOND
        return cell
    # A height of 0 is sea in the open elevation sets, whatever the tide.
    dry_m = np.float32(max(stated.water_level_m, 0.0))
    if fill_cells(heights, missing, ruled, land, dry_m, cell):
        area = [b for c in coasts for b in c.declared] or [_envelope(elevation_extent)]
        cell[(cell == Cell.BEYOND) & cells_in_boxes(window.lattice, area)] = Cell.MISSING
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
    heights: Float32Array, cell: ByteArray, stated: WaterAndErrors, *, has_elevation: bool
) -> Float32Array:
    above = full_in_frame(heights.shape[0], heights.shape[1], np.float32(0.0), np.float32(np.nan))
    if has_elevation:
        fill_heights(heights, cell, np.float32(stated.water_level_m), above)
        return above
    above[cell == Cell.LAND] = stated.coast_height_m or 0.0
    above[cell > Cell.LAND] = np.nan
    return above


def _undrawn(
    cell: ByteArray, ruling: _Ruling, coasts: Sequence[CoastData], lattice: Lattice
) -> BoolArray:
    """Known cells of which no coast file says anything.

    Made in the place of those that are ruled, strip by strip, for there are many.
    """
    undrawn, ruling.ruled = ruling.ruled, np.zeros((0, 0), dtype=np.bool_)
    boxes = [b for c in coasts for b in c.declared]
    for first in range(0, lattice.rows, _STRIP_ROWS):
        strip = undrawn[first : first + _STRIP_ROWS]
        np.logical_not(strip, out=strip)
        strip &= cell[first : first + _STRIP_ROWS] <= Cell.LAND
        if strip.any():
            part = lattice.part(row=first, col=0, rows=len(strip), cols=lattice.cols)
            strip &= ~cells_in_boxes(part, boxes)
    return undrawn


def _coast_lines(
    ruling: _Ruling, coasts: Sequence[CoastData], middle_lon_deg: float
) -> list[shapely.LineString]:
    """Shorelines, the finest file first: lines where a file gives lines, else polygon edges."""
    lines: list[shapely.LineString] = []
    covered: list[Box] = []
    # A file of lines is the true shoreline beside one of polygons, which rules land and sea.
    for coast in sorted(coasts, key=lambda c: c.rules):
        own = merged_lines(coast.lines)
        if coast.rules:
            own += shorelines(coast.polygons, coast.cut_boxes)
        boxes = [box_near(b, middle_lon_deg) for b in coast.declared]
        if not coast.rules and not own:
            continue
        added = outside(own, covered)
        if added or not coast.rules:
            ruling.use(coast)
        lines += added
        covered += boxes
    by_lines = [box_near(b, middle_lon_deg) for c in coasts if not c.rules for b in c.declared]
    return lines + outside(ruling.lagoons, by_lines)


def _findings(
    ruling: _Ruling,
    coasts: Sequence[CoastData],
    points: CoastPoints,
    window: HeightWindow,
    stated: WaterAndErrors,
    differing: CellDisagreement,
    *,
    has_elevation: bool,
) -> list[Finding]:
    used = ruling.used
    found: list[Finding | None] = [
        land_findings.second_opinion(c) for c in coasts if not any(c is one for one in used)
    ]
    if not has_elevation:
        found.append(land_findings.heights_assumed(stated.coast_height_m or 0.0))
        return [f for f in found if f is not None]
    if not used:
        return [land_findings.no_coast()]
    mismatch = coast_mismatch(points, window.heights_m, window.lattice)
    if mismatch is not None:
        found.append(land_findings.apart(mismatch))
    found.append(land_findings.cells_differ(differing, used[0].source.name))
    return [f for f in found if f is not None]
