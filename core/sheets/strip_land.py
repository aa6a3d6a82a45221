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

from core.base.arrays import BoolArray, ByteArray, FloatArray
from core.coverage.result import CoastState, LegCoverage
from core.geodesy import geodesic
from core.geodesy.leg_line import LegLine
from core.land.land_model import Cell, LandModel
from core.passage.passage import Side
from core.sheets.page import Area, Dash, Hatch, Item, Place, Rectangle, Stroke, Tone, box
from core.sheets.strip_frame import StripFrame
from core.sheets.strip_hidden import hidden_from_all

GRID_MM = 0.8
"""Step of the grid on which cells are looked up."""
_SIMPLIFY_MM = 0.06
_LEAST_FACE_MM2 = 0.05
_COAST_STEP_MM = 0.8
_COAST_REACH_MM = 4.0

_COAST_STYLE = {
    CoastState.IN_SIGHT: (Tone.COAST_IN_SIGHT, 0.75, Dash.SOLID),
    CoastState.LAND_BEHIND: (Tone.COAST_LAND_BEHIND, 0.25, Dash.SOLID),
    CoastState.HIDDEN: (Tone.COAST_HIDDEN, 0.18, Dash.FINE),
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
    lines = _coast_lines(frame, line, land)
    land_shape = _land_shape(frame, lines, grid)
    unknown = _shape_of(grid, grid.is_unknown)
    hidden_mask = hidden_from_all(
        coverage,
        course_deg=line.course_deg,
        along_m=grid.along_m,
        cross_m=grid.cross_m,
        radius_m=radius_m,
    )
    hidden = _shape_of(grid, hidden_mask & (grid.codes == int(Cell.SEA)))
    if not land_shape.is_empty:
        hidden = hidden.difference(land_shape)
    areas = [
        *_areas(frame, land_shape, Tone.LAND, None),
        *_across_spine(frame, land_shape),
        *_areas(frame, hidden, Tone.HIDDEN_WATER, Hatch.SLANTED),
        *_areas(frame, unknown, Tone.NO_DATA, Hatch.CROSSED),
    ]
    return Ground(
        areas=tuple(areas),
        coast=tuple(_coast_strokes(frame, line, land, coverage, lines)),
        no_data_places=tuple(_middles(frame, unknown)),
        has_hidden_water=not hidden.is_empty,
        has_no_data=not unknown.is_empty,
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Grid:
    """Points spread evenly over the water of the strip, and what cell each lies in."""

    u_mm: FloatArray
    v_mm: FloatArray
    along_m: FloatArray
    cross_m: FloatArray
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
            u_mm=all_u,
            v_mm=all_v,
            along_m=all_v / frame.along_mm_per_m,
            cross_m=cross,
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


def _window(frame: StripFrame) -> Polygon:
    half = frame.half_width_m * frame.cross_mm_per_m
    return shapely.box(
        -half,
        frame.low_along_m * frame.along_mm_per_m,
        half,
        frame.high_along_m * frame.along_mm_per_m,
    )


def _near(frame: StripFrame, line: LegLine, lat: FloatArray, lon: FloatArray) -> BoolArray:
    """Which places lie in a box of latitude and longitude that holds the strip."""
    along = np.array([frame.low_along_m, frame.high_along_m] * 2 + [0.5 * line.length_m] * 2)
    cross = np.array([-1.0, -1.0, 1.0, 1.0, -1.0, 1.0]) * frame.half_width_m
    lats, lons = line.offset(along, cross)
    middle = lons[0]
    near_lons = middle + np.mod(lons - middle + 180.0, 360.0) - 180.0
    lat_pad = 0.05 * float(np.ptp(lats)) + 0.02
    lon_pad = 0.05 * float(np.ptp(near_lons)) + 0.04
    shifted = middle + np.mod(lon - middle + 180.0, 360.0) - 180.0
    near: BoolArray = (
        (lat > lats.min() - lat_pad)
        & (lat < lats.max() + lat_pad)
        & (shifted > near_lons.min() - lon_pad)
        & (shifted < near_lons.max() + lon_pad)
    )
    return near


def _plain(frame: StripFrame, line: LegLine, lat: FloatArray, lon: FloatArray) -> FloatArray:
    """Plain millimetres (n, 2) of places."""
    along, cross = line.track_coordinates(lat, lon)
    return np.column_stack([cross * frame.cross_mm_per_m, along * frame.along_mm_per_m])


def _coast_lines(frame: StripFrame, line: LegLine, land: LandModel) -> list[LineString]:
    """Coast within the strip, in plain millimetres; whole rings stay closed."""
    found: list[LineString] = []
    for coast_line in land.coast.lines:
        near = _near(frame, line, coast_line.lat_deg, coast_line.lon_deg)
        if not near.any():
            continue
        # One neighbour on each side, so that a line that leaves the box is cut and not lost.
        wide = near.copy()
        wide[1:] |= near[:-1]
        wide[:-1] |= near[1:]
        edges = np.flatnonzero(np.diff(np.concatenate([[False], wide, [False]]).astype(np.int8)))
        for start, stop in zip(edges[::2], edges[1::2], strict=True):
            if stop - start < 2:
                continue
            plain = _plain(
                frame, line, coast_line.lat_deg[start:stop], coast_line.lon_deg[start:stop]
            )
            if coast_line.is_closed and stop - start == near.size:
                plain[-1] = plain[0]
            found.append(LineString(plain).simplify(_SIMPLIFY_MM))
    return found


def _land_shape(frame: StripFrame, lines: list[LineString], grid: _Grid) -> BaseGeometry:
    """The land: faces between coast lines that hold more land cells than sea cells."""
    window = _window(frame)
    inside = [part for part in (line.intersection(window) for line in lines) if not part.is_empty]
    if not inside:
        land_cells = grid.codes == int(Cell.LAND)
        return window if land_cells.mean() > 0.5 else Polygon()
    network = shapely.unary_union([*inside, window.exterior])
    faces = [
        face
        for face in shapely.get_parts(shapely.polygonize(shapely.get_parts(network)))
        if face.area > _LEAST_FACE_MM2
    ]
    tree = shapely.STRtree(shapely.points(grid.u_mm, grid.v_mm))
    face_of, point_of = tree.query(faces, predicate="contains")
    codes = grid.codes[point_of]
    land_count = np.bincount(face_of[codes == int(Cell.LAND)], minlength=len(faces))
    sea_count = np.bincount(face_of[codes == int(Cell.SEA)], minlength=len(faces))
    rings = [Polygon(line.coords) for line in lines if line.is_ring]
    is_land = land_count > sea_count
    small = (land_count + sea_count) < 4
    chosen = [
        face
        for face, land_face, is_small in zip(faces, is_land, small, strict=True)
        if land_face or (is_small and _in_odd_rings(face, rings))
    ]
    return shapely.unary_union(chosen) if chosen else Polygon()


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


def _halves(frame: StripFrame, shape: BaseGeometry) -> Iterator[BaseGeometry]:
    """A shape in plain millimetres, cut into the two halves and put on the page."""
    half = frame.half_width_m * frame.cross_mm_per_m
    low = frame.low_along_m * frame.along_mm_per_m
    high = frame.high_along_m * frame.along_mm_per_m
    for side, left, right in ((Side.PORT, -half, 0.0), (Side.STARBOARD, 0.0, half)):
        part = shape.intersection(shapely.box(left, low, right, high))
        if part.is_empty:
            continue
        edge = frame.spine_edge_mm(side)
        yield shapely.transform(
            part,
            lambda uv, edge=edge: np.column_stack(
                [edge + uv[:, 0], frame.water.bottom_mm - (uv[:, 1] - low)]
            ),
        )


def _areas(
    frame: StripFrame, shape: BaseGeometry, tone: Tone, hatch: Hatch | None
) -> Iterator[Area]:
    for part in _halves(frame, shape):
        for polygon in _polygons(part):
            if polygon.area > _LEAST_FACE_MM2:
                yield Area(rings=_rings(polygon), tone=tone, hatch=hatch)


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
        if not isinstance(part, LineString):
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
        )


def _best_states(land: LandModel, coverage: LegCoverage) -> ByteArray:
    """How each coast point stands to the leg: the best over the viewpoints on the track."""
    best = np.full(land.points.lat_deg.shape, int(CoastState.HIDDEN), dtype=np.uint8)
    states = [v.coast_state for v in coverage.on_track() if v.coast_state.size == best.size]
    for wanted in (CoastState.LAND_BEHIND, CoastState.IN_SIGHT):
        for state in states:
            best[state == int(wanted)] = int(wanted)
    return best


def _coast_strokes(
    frame: StripFrame,
    line: LegLine,
    land: LandModel,
    coverage: LegCoverage,
    lines: list[LineString],
) -> Iterator[Stroke]:
    """The coast, each stretch in the style of how it stands to the leg; the strongest last."""
    points = land.points
    near = _near(frame, line, points.lat_deg, points.lon_deg)
    states = _best_states(land, coverage)[near]
    tree = shapely.STRtree(
        shapely.points(_plain(frame, line, points.lat_deg[near], points.lon_deg[near]))
        if near.any()
        else []
    )
    strokes: dict[CoastState, list[Stroke]] = {state: [] for state in _COAST_STYLE}
    window = _window(frame)
    for coast_line in lines:
        cut = coast_line.intersection(window)
        for part in shapely.get_parts(shapely.segmentize(cut, _COAST_STEP_MM)):
            if not isinstance(part, LineString) or part.length < 0.05:
                continue
            for state, stretch in _stretches(part, tree, states):
                tone, width, dash = _COAST_STYLE[state]
                for half in _halves(frame, stretch):
                    for piece in shapely.get_parts(half):
                        if isinstance(piece, LineString):
                            places = tuple((float(x), float(y)) for x, y in piece.coords)
                            strokes[state].append(
                                Stroke(points=places, width_mm=width, tone=tone, dash=dash)
                            )
    for state in (CoastState.HIDDEN, CoastState.LAND_BEHIND, CoastState.IN_SIGHT):
        yield from strokes[state]


def _stretches(
    part: LineString, tree: shapely.STRtree, states: ByteArray
) -> Iterator[tuple[CoastState, LineString]]:
    """A line broken where the state of the nearest coast point changes."""
    places = np.asarray(part.coords)
    middles = shapely.points((places[1:] + places[:-1]) / 2.0)
    found = np.full(middles.size, int(CoastState.HIDDEN), dtype=np.int64)
    if states.size:
        which, nearest = tree.query_nearest(
            middles, max_distance=_COAST_REACH_MM, all_matches=False
        )
        found[which] = states[nearest]
    breaks = np.flatnonzero(np.diff(found)) + 1
    for start, stop in zip(
        np.concatenate([[0], breaks]), np.concatenate([breaks, [found.size]]), strict=True
    ):
        line = LineString(places[start : stop + 1]).simplify(_SIMPLIFY_MM)
        yield CoastState(int(found[start])), line


def _middles(frame: StripFrame, unknown: BaseGeometry) -> Iterator[Place]:
    """Where the words «no data» fit, larger areas first."""
    for half in _halves(frame, unknown):
        for polygon in sorted(_polygons(half), key=lambda p: -p.area):
            if polygon.area > 60.0:
                middle = polygon.representative_point()
                yield float(middle.x), float(middle.y)
