"""Hand-made land in mid-ocean: flat sea and shapes of known size, height and place.

Places are metres east and north of ``CENTRE`` on a plane that touches the ellipsoid there; with
the centre on the equator a plane distance differs from the geodesic by less than 3 cm in 1 km
up to 25 NM off. Everything is invented.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
import shapely

from core.base.arrays import BoolArray, FloatArray, IntArray
from core.geodesy.position import Bounds, Position
from core.land.coast import Coast, CoastLine, CoastPoints
from core.land.land_model import Cell, LandModel
from core.land.lattice import Lattice
from core.passage.passage import Leg, Passage, Waypoint

CENTRE = Position(lat_deg=0.0, lon_deg=-30.0)
"""Mid-Atlantic, where no land is."""
NM = 1852.0
_M_PER_DEG_NORTH = 110_574.2758
"""Radius of the WGS-84 meridian at the equator, 6 335 439.327 m, times pi / 180."""
_M_PER_DEG_EAST = 111_319.4908
"""WGS-84 equatorial radius, 6 378 137 m, times pi / 180."""
_POINT_SPACING_M = 100.0

Slope = Callable[[FloatArray, FloatArray], FloatArray]
"""Height in m at metres east and north."""


def place(east_m: float, north_m: float) -> Position:
    """The position at metres east and north of the centre."""
    return Position(
        lat_deg=CENTRE.lat_deg + north_m / _M_PER_DEG_NORTH,
        lon_deg=CENTRE.lon_deg + east_m / _M_PER_DEG_EAST,
    )


def track(
    *points_m: tuple[float, float],
    corridor_m: float | None = 185.2,
    speed_mps: float = 12.0 * NM / 3600.0,
) -> Passage:
    """A passage through points given as metres east and north of the centre."""
    return Passage(
        name="invented",
        waypoints=tuple(
            Waypoint(name=f"WP{i + 1}", position=place(*point)) for i, point in enumerate(points_m)
        ),
        legs=tuple(
            Leg(corridor_port_m=corridor_m, corridor_starboard_m=corridor_m, speed_mps=speed_mps)
            for _ in points_m[1:]
        ),
    )


def box(west_m: float, south_m: float, east_m: float, north_m: float) -> shapely.Geometry:
    """A rectangle by its sides, metres east and north of the centre."""
    return shapely.box(west_m, south_m, east_m, north_m)


def disc(east_m: float, north_m: float, radius_m: float) -> shapely.Geometry:
    """A round area."""
    return shapely.Point(east_m, north_m).buffer(radius_m, quad_segs=16)


@dataclass(frozen=True, kw_only=True)
class Sea:
    """Sea with land on it, built up piece by piece; ``model()`` makes the land model.

    Cells whose centre lies in a shape take its height; where shapes meet the higher one rules,
    and a shape too small to hold a centre takes the cell its middle lies in.
    """

    half_width_m: float
    cell_m: float
    shapes: tuple[tuple[shapely.Geometry, float | Slope], ...] = ()
    unknown: tuple[tuple[shapely.Geometry, Cell], ...] = ()
    declared: Bounds | None = None
    height_error_m: float = 5.0
    water_level_m: float = 0.0
    heights_assumed: bool = False

    def land(self, shape: shapely.Geometry, height_m: float | Slope) -> "Sea":
        """The same with a piece of land."""
        return replace(self, shapes=(*self.shapes, (shape, height_m)))

    def without_heights(self, shape: shapely.Geometry, cell: Cell = Cell.VOID) -> "Sea":
        """The same with nothing known of an area."""
        return replace(self, unknown=(*self.unknown, (shape, cell)))

    @property
    def lattice(self) -> Lattice:
        """Geographic lattice; the centre of the sea is the centre of its middle cell."""
        half = round(self.half_width_m / self.cell_m)
        cell_x, cell_y = self.cell_m / _M_PER_DEG_EAST, self.cell_m / _M_PER_DEG_NORTH
        return Lattice(
            crs="EPSG:4326",
            left_x=CENTRE.lon_deg - (half + 0.5) * cell_x,
            top_y=CENTRE.lat_deg + (half + 0.5) * cell_y,
            cell_x=cell_x,
            cell_y=cell_y,
            rows=2 * half + 1,
            cols=2 * half + 1,
        )

    def model(self) -> LandModel:
        """The land model of this sea."""
        half = round(self.half_width_m / self.cell_m)
        axis: FloatArray = np.arange(-half, half + 1, dtype=np.float64) * self.cell_m
        heights = np.zeros((axis.size, axis.size), dtype=np.float32)
        cell = np.zeros(heights.shape, dtype=np.uint8)
        for shape, height in self.shapes:
            part, east, north = self._inside(axis, shape)
            values = height(east, north) if callable(height) else np.full(east.shape, height)
            heights[part] = np.maximum(heights[part], values.astype(np.float32))
            cell[part] = Cell.LAND
        for shape, code in self.unknown:
            part, _east, _north = self._inside(axis, shape)
            heights[part] = np.nan
            cell[part] = code
        coast = self._coast()
        bounds = self.declared or self._whole()
        return LandModel(
            lattice=self.lattice,
            heights_m=heights,
            cell=cell,
            coast=Coast(lines=coast, declared=(bounds,), from_elevation=False),
            points=self._points(coast),
            water_level_m=self.water_level_m,
            height_error_m=self.height_error_m,
            heights_assumed=self.heights_assumed,
            sources=(),
            findings=(),
        )

    def _inside(
        self, axis: FloatArray, shape: shapely.Geometry
    ) -> tuple[tuple[IntArray, IntArray], FloatArray, FloatArray]:
        """Row and column numbers of the cells in a shape, and their places."""
        west, south, east, north = shape.bounds
        cols: IntArray = np.flatnonzero((axis >= west) & (axis <= east)).astype(np.int64)
        rows: IntArray = np.flatnonzero((-axis >= south) & (-axis <= north)).astype(np.int64)
        col_grid, row_grid = np.meshgrid(cols, rows)
        inside: BoolArray = shapely.contains_xy(shape, axis[col_grid], -axis[row_grid])
        rows, cols = row_grid[inside], col_grid[inside]
        if rows.size == 0:
            middle = shape.centroid
            cols = np.array([np.argmin(np.abs(axis - middle.x))])
            rows = np.array([np.argmin(np.abs(-axis - middle.y))])
        return (rows, cols), axis[cols], -axis[rows]

    def _whole(self) -> Bounds:
        lattice = self.lattice
        return Bounds(
            south_deg=lattice.top_y - lattice.rows * lattice.cell_y,
            west_deg=lattice.left_x,
            north_deg=lattice.top_y,
            east_deg=lattice.left_x + lattice.cols * lattice.cell_x,
        )

    def _coast(self) -> tuple[CoastLine, ...]:
        whole = shapely.union_all([shape for shape, _height in self.shapes])
        lines = []
        for polygon in shapely.get_parts(whole):
            for ring in (polygon.exterior, *polygon.interiors):
                x, y = np.array(ring.coords).T
                lines.append(
                    CoastLine(
                        lat_deg=CENTRE.lat_deg + y / _M_PER_DEG_NORTH,
                        lon_deg=CENTRE.lon_deg + x / _M_PER_DEG_EAST,
                        is_closed=True,
                    )
                )
        return tuple(lines)

    def _points(self, lines: tuple[CoastLine, ...]) -> CoastPoints:
        lat, lon, length, height, number, is_first = [], [], [], [], [], []
        near_m = max(self.cell_m, 100.0)
        for index, line in enumerate(lines):
            x = (line.lon_deg - CENTRE.lon_deg) * _M_PER_DEG_EAST
            y = (line.lat_deg - CENTRE.lat_deg) * _M_PER_DEG_NORTH
            ring = shapely.LineString(np.column_stack([x, y]))
            count = max(4, round(ring.length / _POINT_SPACING_M))
            step_m = ring.length / count
            for i in range(count):
                point = ring.interpolate((i + 0.5) * step_m)
                lat.append(CENTRE.lat_deg + point.y / _M_PER_DEG_NORTH)
                lon.append(CENTRE.lon_deg + point.x / _M_PER_DEG_EAST)
                length.append(step_m)
                height.append(self._height_near(point, near_m))
                number.append(index)
                is_first.append(i == 0)
        return CoastPoints(
            lat_deg=np.array(lat, dtype=np.float64),
            lon_deg=np.array(lon, dtype=np.float64),
            length_m=np.array(length, dtype=np.float64),
            height_m=np.array(height, dtype=np.float32),
            line=np.array(number, dtype=np.int64),
            is_line_start=np.array(is_first, dtype=np.bool_),
        )

    def _height_near(self, point: shapely.Geometry, near_m: float) -> float:
        """Greatest height within a distance of a point of the coast."""
        best = 0.0
        for shape, height in self.shapes:
            if shape.distance(point) > near_m:
                continue
            if callable(height):
                around = np.linspace(-near_m, near_m, 9)
                east, north = np.meshgrid(point.x + around, point.y + around)
                inside = shapely.contains_xy(shape, east, north)
                value = float(np.max(height(east[inside], north[inside]), initial=0.0))
            else:
                value = float(height)
            best = max(best, value)
        return best


def flat_sea(*, half_width_m: float = 10.0 * NM, cell_m: float = 60.0) -> Sea:
    """Nothing but sea: a square round the centre."""
    return Sea(half_width_m=half_width_m, cell_m=cell_m)


def ridge_across(
    *, range_m: float, half_length_m: float, thickness_m: float = 200.0
) -> shapely.Geometry:
    """A wall from west to east whose near face stands ``range_m`` north of the centre."""
    return box(-half_length_m, range_m, half_length_m, range_m + thickness_m)


def islet(east_m: float, north_m: float, *, width_m: float = 60.0) -> shapely.Geometry:
    """A small square islet."""
    half = width_m / 2.0
    return box(east_m - half, north_m - half, east_m + half, north_m + half)


def headland_with_bay(*, tip_east_m: float, tip_north_m: float) -> shapely.Geometry:
    """Coast on the east side with a headland that reaches west to its tip; a bay north of it.

    The main shore runs north and south 3 NM east of the tip; the headland is 1000 m thick and
    its north face is at ``tip_north_m``.
    """
    shore_m = tip_east_m + 3.0 * NM
    main = box(shore_m, tip_north_m - 4.0 * NM, shore_m + 2.0 * NM, tip_north_m + 4.0 * NM)
    head = box(tip_east_m, tip_north_m - 1000.0, shore_m, tip_north_m)
    return shapely.union(main, head)
