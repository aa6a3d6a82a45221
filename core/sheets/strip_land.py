"""Land, coast, unknown ground and hidden water in the shape they have in track coordinates.

Shapes are made in **plain millimetres**: u across (starboard positive, the track at 0) and v along
from the start of the leg, without the spine; then they are cut into the two halves.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry import LineString, MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry

from core.base.arrays import BoolArray, ByteArray, FloatArray, IntArray
from core.coverage.coverage_result import LegCoverage
from core.coverage.hidden_water import hidden_through_leg
from core.geodesy import geodesic
from core.geodesy.leg_line import LegLine
from core.land.land_model import Cell, LandModel
from core.passage.passage import Side
from core.sheets.page import Area, Hatch, Item, Place, Rectangle, Tone, box
from core.sheets.strip_coast import coast_lines, coast_strokes
from core.sheets.strip_frame import StripFrame
from core.sheets.strip_plain import halves, window_of

GRID_MM = 0.8
"""Step of the grid on which cells are looked up."""
_LEAST_FACE_MM2 = 0.05
_MIXED_CELLS = 200
_MIXED_SHARE = 0.12
"""From so many grid places on, a face with more of both kinds than this share is no one kind.

Coast and elevation differ by a cell or two, which in faces of this size is a smaller share.
"""
_REFERENCES = {
    Tone.LAND: "land",
    Tone.LAND_GRAIN: "",
    Tone.HIDDEN_WATER: "hidden-water",
    Tone.NO_DATA: "no-data",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """What the strip shows of land: items from back to front, and room for the words «no data»."""

    areas: tuple[Item, ...]
    coast: tuple[Item, ...]
    no_data_places: tuple[Place, ...]
    """Middle of each larger area without data, on the page."""
    has_hidden_water: bool
    has_no_data: bool


def ground(
    frame: StripFrame, line: LegLine, land: LandModel, coverage: LegCoverage, radius_m: float
) -> Ground:
    """Land, unknown ground, hidden water and coast of one leg.

    Parameters
    ----------
    frame : StripFrame
        Where they go.
    line : LegLine
        The leg.
    land : LandModel
        Cells and coast.
    coverage : LegCoverage
        What is in sight from the leg's viewpoints.
    radius_m : float
        Sweep radius, m.
    """
    grid = _Grid.of(frame, line, land)
    lines = coast_lines(frame, line, land)
    land_shape = _land_shape(frame, lines, grid)
    is_sea = grid.codes == int(Cell.SEA)
    is_hidden, is_unknown = np.zeros(is_sea.shape, dtype=np.bool_), grid.is_unknown
    through = hidden_through_leg(
        coverage,
        along_m=grid.along_m[is_sea],
        cross_m=grid.cross_m[is_sea],
        lat_deg=grid.lat_deg[is_sea],
        lon_deg=grid.lon_deg[is_sea],
        radius_m=radius_m,
    )
    is_hidden[is_sea], is_unknown[is_sea] = through.hidden, ~through.computed
    hidden, unknown = _shape_of(grid, is_hidden), _shape_of(grid, is_unknown)
    if not land_shape.is_empty:
        hidden = hidden.difference(land_shape)
    areas = [
        *_areas(frame, land_shape, Tone.LAND, None),
        *_across_spine(frame, land_shape),
        *_areas(frame, land_shape, Tone.LAND_GRAIN, Hatch.STIPPLED),
        *_areas(frame, hidden, Tone.HIDDEN_WATER, Hatch.SLANTED),
        *_areas(frame, unknown, Tone.NO_DATA, Hatch.CROSSED),
    ]
    return Ground(
        areas=tuple(areas),
        coast=tuple(coast_strokes(frame, line, land, coverage, lines)),
        no_data_places=tuple(_middles(frame, unknown)),
        has_hidden_water=not hidden.is_empty,
        has_no_data=not unknown.is_empty,
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Grid:
    """Points spread evenly over the water of the strip, and what cell each lies in."""

    columns: int
    u_mm: FloatArray
    v_mm: FloatArray
    along_m: FloatArray
    cross_m: FloatArray
    lat_deg: FloatArray
    lon_deg: FloatArray
    codes: ByteArray

    @property
    def is_unknown(self) -> BoolArray:
        return np.isin(self.codes, (int(Cell.VOID), int(Cell.MISSING), int(Cell.BEYOND)))

    @classmethod
    def of(cls, frame: StripFrame, line: LegLine, land: LandModel) -> "_Grid":
        half = frame.half_width_m * frame.cross_mm_per_m
        columns = max(2, int(np.ceil(2.0 * half / GRID_MM)))
        rows = max(2, int(np.ceil(frame.water.height_mm / GRID_MM)))
        u = (np.arange(columns) + 0.5) / columns * 2.0 * half - half
        v = (np.arange(rows) + 0.5) / rows * frame.water.height_mm
        v = v + frame.low_along_m * frame.along_mm_per_m
        along = v / frame.along_mm_per_m
        lats, lons, courses = line.at(along)
        all_u, all_v = np.tile(u, rows), np.repeat(v, columns)
        cross = all_u / frame.cross_mm_per_m
        lat, lon, _final = geodesic.direct(
            lat_deg=np.repeat(lats, columns),
            lon_deg=np.repeat(lons, columns),
            bearing_deg=np.repeat(courses, columns) + 90.0,
            distance_m=cross,
        )
        return cls(
            columns=columns,
            u_mm=all_u,
            v_mm=all_v,
            along_m=all_v / frame.along_mm_per_m,
            cross_m=cross,
            lat_deg=lat,
            lon_deg=lon,
            codes=_codes(land, lat, lon),
        )


def _codes(land: LandModel, lat_deg: FloatArray, lon_deg: FloatArray) -> ByteArray:
    """Cell codes at places (n,); beyond the lattice nothing is known."""
    row, col = land.lattice.row_col(lat_deg, lon_deg)
    row_index = np.rint(row).astype(np.int64)
    col_index = np.rint(col).astype(np.int64)
    inside = (
        (row_index >= 0)
        & (row_index < land.lattice.rows)
        & (col_index >= 0)
        & (col_index < land.lattice.cols)
    )
    codes = np.full(lat_deg.shape, int(Cell.BEYOND), dtype=np.uint8)
    codes[inside] = land.cell[row_index[inside], col_index[inside]]
    return codes


def _land_shape(frame: StripFrame, lines: list[LineString], grid: _Grid) -> BaseGeometry:
    """The land: faces between coast lines that hold more land cells than sea cells.

    A coast that ends inside the window, at the edge of its data, leaves one face of land and
    water: that face is drawn cell by cell, since land may never look like open water.
    """
    window = window_of(frame)
    # Cut a little outside, so that every line clearly crosses the edge and closes its faces.
    around = window.buffer(2.0)
    inside = [part for part in (line.intersection(around) for line in lines) if not part.is_empty]
    if not inside:
        land_cells = grid.codes == int(Cell.LAND)
        return window if land_cells.mean() > 0.5 else Polygon()
    network = shapely.unary_union([*inside, window.exterior])
    faces = [
        face
        for face in shapely.get_parts(shapely.polygonize(shapely.get_parts(network)))
        if face.area > _LEAST_FACE_MM2 and window.contains(face.representative_point())
    ]
    face_of, point_of = _points_in(faces, grid)
    codes = grid.codes[point_of]
    land_count = np.bincount(face_of[codes == int(Cell.LAND)], minlength=len(faces))
    sea_count = np.bincount(face_of[codes == int(Cell.SEA)], minlength=len(faces))
    rings = [Polygon(line.coords) for line in lines if line.is_ring]
    is_land = land_count > sea_count
    both = land_count + sea_count
    small = both < 4
    is_mixed = (both >= _MIXED_CELLS) & (np.minimum(land_count, sea_count) > _MIXED_SHARE * both)
    chosen = [
        face
        for face, land_face, is_small, mixed in zip(faces, is_land, small, is_mixed, strict=True)
        if (land_face and not mixed) or (is_small and _in_odd_rings(face, rings))
    ]
    if is_mixed.any():
        in_mixed = np.zeros(grid.codes.shape, dtype=np.bool_)
        in_mixed[point_of[is_mixed[face_of]]] = True
        chosen.append(_shape_of(grid, in_mixed & (grid.codes == int(Cell.LAND))))
    return shapely.unary_union(chosen) if chosen else Polygon()


def _points_in(faces: list[Polygon], grid: _Grid) -> tuple[IntArray, IntArray]:
    """Numbers of faces and of the grid points they contain, pair by pair.

    Only the points of each face's own rows and columns are asked about. A tree of all points would
    be built with the interpreter held, and the window would wait for it.
    """
    u_mm, v_mm = grid.u_mm[: grid.columns], grid.v_mm[:: grid.columns]
    numbers = [np.zeros(0, dtype=np.int64)]
    for face in faces:
        left, low, right, high = face.bounds
        in_rows = np.flatnonzero((v_mm >= low) & (v_mm <= high))
        in_columns = np.flatnonzero((u_mm >= left) & (u_mm <= right))
        near = (in_rows[:, np.newaxis] * grid.columns + in_columns).ravel()
        shapely.prepare(face)
        numbers.append(near[shapely.contains_xy(face, grid.u_mm[near], grid.v_mm[near])])
    counts = [found.size for found in numbers[1:]]
    return np.repeat(np.arange(len(faces)), counts), np.concatenate(numbers)


def _in_odd_rings(face: Polygon, rings: list[Polygon]) -> bool:
    """Whether a face too small for the cells lies inside an odd number of closed coast lines."""
    middle = face.representative_point()
    return sum(1 for ring in rings if ring.contains(middle)) % 2 == 1


def _shape_of(grid: _Grid, chosen: BoolArray) -> BaseGeometry:
    """The area of chosen grid points as one shape, its steps taken off."""
    if not chosen.any():
        return Polygon()
    step_u = float(np.min(np.diff(np.unique(grid.u_mm))))
    step_v = float(np.min(np.diff(np.unique(grid.v_mm))))
    u, v = grid.u_mm[chosen], grid.v_mm[chosen]
    # A hair of overlap, so that neighbours join whatever the rounding of their middles.
    boxes = shapely.box(
        u - 0.501 * step_u, v - 0.501 * step_v, u + 0.501 * step_u, v + 0.501 * step_v
    )
    return shapely.unary_union(boxes).simplify(0.75 * max(step_u, step_v)).buffer(0.0)


def _areas(
    frame: StripFrame, shape: BaseGeometry, tone: Tone, hatch: Hatch | None
) -> Iterator[Area]:
    for part in halves(frame, shape):
        for polygon in _polygons(part):
            if polygon.area > _LEAST_FACE_MM2:
                yield Area(
                    rings=_rings(polygon), tone=tone, hatch=hatch, reference=_REFERENCES[tone]
                )


def _polygons(shape: BaseGeometry) -> Iterable[Polygon]:
    parts = shapely.get_parts(shape) if not isinstance(shape, MultiPolygon) else shape.geoms
    return (part for part in parts if isinstance(part, Polygon))


def _rings(polygon: Polygon) -> tuple[tuple[Place, ...], ...]:
    rings = (polygon.exterior, *polygon.interiors)
    return tuple(
        tuple((float(x), float(y)) for x, y in np.asarray(ring.coords)[:-1]) for ring in rings
    )


def _across_spine(frame: StripFrame, land_shape: BaseGeometry) -> Iterator[Area]:
    """Land that lies on the track line itself, drawn across the spine so that it shows."""
    low = frame.low_along_m * frame.along_mm_per_m
    high = frame.high_along_m * frame.along_mm_per_m
    cut = land_shape.intersection(LineString([(0.0, low), (0.0, high)]))
    for part in shapely.get_parts(cut):
        if not isinstance(part, LineString) or part.is_empty:
            continue
        start, stop = part.bounds[1], part.bounds[3]
        left = frame.spine_edge_mm(Side.PORT)
        yield box(
            Rectangle(
                x_mm=left,
                y_mm=frame.water.bottom_mm - (stop - low),
                width_mm=frame.spine_mm,
                height_mm=stop - start,
            ),
            Tone.LAND,
            reference="land",
        )


def _middles(frame: StripFrame, unknown: BaseGeometry) -> Iterator[Place]:
    """Where the words «no data» fit, larger areas first."""
    for half in halves(frame, unknown):
        for polygon in sorted(_polygons(half), key=lambda p: -p.area):
            if polygon.area > 60.0:
                middle = shapely.get_point(shapely.maximum_inscribed_circle(polygon, 1.0), 0)
                yield float(middle.x), float(middle.y)
