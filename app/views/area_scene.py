"""What the area view shows, as plain geometry: Mercator metres, worked out off the GUI thread."""

from dataclasses import dataclass

import numpy as np

from core.base.arrays import ByteArray, FloatArray, HoldsArrays
from core.coverage.painted_edge import edge_runs
from core.geodesy.leg_line import LegKind
from core.land.land_model import LandModel
from core.passage.passage import Passage
from core.plan.outcome import Outcome

_SPHERE_M = 6_371_000.0
_CORRIDOR_STEP_M = 2_000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class AreaProjection:
    """Mercator on a sphere, true to scale at one latitude; enough to look at, not to measure."""

    lat_deg: float
    lon_deg: float

    @property
    def _scale_m(self) -> float:
        return _SPHERE_M * float(np.cos(np.radians(self.lat_deg)))

    def x_of(self, lon_deg: FloatArray) -> FloatArray:
        """Metres east of the middle meridian, the nearest way round."""
        turn = np.mod(lon_deg - self.lon_deg + 180.0, 360.0) - 180.0
        x: FloatArray = self._scale_m * np.radians(turn)
        return x

    def y_of(self, lat_deg: FloatArray) -> FloatArray:
        """Metres south of the middle latitude."""
        lat = np.clip(lat_deg, -85.0, 85.0)
        middle = np.arcsinh(np.tan(np.radians(self.lat_deg)))
        y: FloatArray = self._scale_m * (middle - np.arcsinh(np.tan(np.radians(lat))))
        return y

    def lon_of(self, x_m: FloatArray) -> FloatArray:
        """Longitudes of places east of the middle meridian, not wrapped."""
        lon: FloatArray = self.lon_deg + np.degrees(x_m / self._scale_m)
        return lon

    def lat_of(self, y_m: FloatArray) -> FloatArray:
        """Latitudes of places south of the middle latitude."""
        middle = np.arcsinh(np.tan(np.radians(self.lat_deg)))
        lat: FloatArray = np.degrees(np.arctan(np.sinh(middle - y_m / self._scale_m)))
        return lat

    def points(self, lat_deg: FloatArray, lon_deg: FloatArray) -> FloatArray:
        """Places as an (n, 2) array of x and y, m."""
        return np.column_stack((self.x_of(np.asarray(lon_deg)), self.y_of(np.asarray(lat_deg))))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class AreaLeg(HoldsArrays):
    """One leg in plan; every array is (n, 2) x and y in m. ``painted`` is its painted edge."""

    track: FloatArray
    port_edge: FloatArray
    starboard_edge: FloatArray
    viewpoints: FloatArray
    painted: tuple[FloatArray, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class AreaLand:
    """Land with its coast lines, each an (n, 2) array with its box (left, top, right, bottom)."""

    model: LandModel
    coast: tuple[FloatArray, ...]
    boxes: FloatArray


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class AreaScene:
    """Everything of a passage that is drawn in plan."""

    projection: AreaProjection
    names: tuple[str, ...]
    waypoints: FloatArray
    legs: tuple[AreaLeg, ...]
    objects: tuple[tuple[str, float, float], ...]
    """Id, x and y of each index object."""
    land: AreaLand | None

    def extent(self) -> tuple[float, float, float, float]:
        """Box round the waypoints: left, top, right, bottom, m."""
        low, high = self.waypoints.min(axis=0), self.waypoints.max(axis=0)
        return float(low[0]), float(low[1]), float(high[0]), float(high[1])


def _leg_of(
    passage: Passage, leg_index: int, projection: AreaProjection, outcome: Outcome | None
) -> AreaLeg:
    line = passage.line(leg_index)
    leg = passage.legs[leg_index]
    count = max(2, int(line.length_m / _CORRIDOR_STEP_M) + 2)
    along = np.linspace(0.0, line.length_m, count)
    lats, lons, _courses = line.at(along if line.kind is LegKind.GEODESIC else along[[0, -1]])
    track = projection.points(lats, lons)
    edges = []
    for cross_m, sign in ((leg.corridor_port_m, -1.0), (leg.corridor_starboard_m, 1.0)):
        if cross_m is None:
            edges.append(np.empty((0, 2)))
        else:
            edges.append(projection.points(*line.offset(along, np.full(count, sign * cross_m))))
    views = np.empty((0, 2))
    painted: tuple[FloatArray, ...] = ()
    if outcome is not None:
        edge, points = outcome.coverage.legs[leg_index].painted_edge, outcome.land.points
        if edge is not None:
            runs = edge_runs(points, edge)
            painted = tuple(projection.points(edge.lat_deg[r], edge.lon_deg[r]) for r in runs)
        places = [v.viewpoint.position for v in outcome.coverage.legs[leg_index].viewpoints]
        views = projection.points(
            np.array([p.lat_deg for p in places]), np.array([p.lon_deg for p in places])
        )
    return AreaLeg(
        track=track,
        port_edge=edges[0],
        starboard_edge=edges[1],
        viewpoints=views,
        painted=painted,
    )


def _land_of(model: LandModel, projection: AreaProjection) -> AreaLand:
    coast = tuple(projection.points(line.lat_deg, line.lon_deg) for line in model.coast.lines)
    boxes = np.array([[*c.min(axis=0), *c.max(axis=0)] for c in coast]).reshape(-1, 4)
    return AreaLand(model=model, coast=coast, boxes=boxes)


def build_scene(passage: Passage, outcome: Outcome | None) -> AreaScene:
    """Lay a passage out in plan, with its land where there is a plan."""
    places = [w.position for w in passage.waypoints]
    first_lon = places[0].lon_deg
    lons = [first_lon + (p.lon_deg - first_lon + 180.0) % 360.0 - 180.0 for p in places]
    projection = AreaProjection(
        lat_deg=(min(p.lat_deg for p in places) + max(p.lat_deg for p in places)) / 2.0,
        lon_deg=(min(lons) + max(lons)) / 2.0,
    )
    points = projection.points(
        np.array([p.lat_deg for p in places]), np.array([p.lon_deg for p in places])
    )
    objects: list[tuple[str, float, float]] = []
    if outcome is not None:
        for item in outcome.plan.objects:
            at = projection.points(
                np.array([item.position.lat_deg]), np.array([item.position.lon_deg])
            )[0]
            objects.append((item.id, float(at[0]), float(at[1])))
    return AreaScene(
        projection=projection,
        names=tuple(w.name for w in passage.waypoints),
        waypoints=points,
        legs=tuple(_leg_of(passage, i, projection, outcome) for i in range(len(passage.legs))),
        objects=tuple(objects),
        land=None if outcome is None else _land_of(outcome.land, projection),
    )


def land_classes(
    land: AreaLand, projection: AreaProjection, x_m: FloatArray, y_m: FloatArray
) -> ByteArray:
    """Class of land at each pixel of an image with columns ``x_m`` (w,) and rows ``y_m`` (h,).

    Returns
    -------
    (h, w) uint8 array
        0 sea, 1 to 6 land from low to high, 7 unknown heights, 255 outside the model.
    """
    lattice = land.model.lattice
    lat, lon = projection.lat_of(y_m), projection.lon_of(x_m)
    if lattice.is_geographic:
        rows, _ = lattice.row_col(lat, np.full(lat.shape, projection.lon_deg))
        _, cols = lattice.row_col(np.full(lon.shape, projection.lat_deg), lon)
        row, col = np.rint(rows).astype(np.int64), np.rint(cols).astype(np.int64)
        row_2d, col_2d = row[:, None], col[None, :]
    else:
        row_2d, col_2d = _metric_cells(land, lat, lon)
    inside = (row_2d >= 0) & (row_2d < lattice.rows) & (col_2d >= 0) & (col_2d < lattice.cols)
    row_2d, col_2d = np.clip(row_2d, 0, lattice.rows - 1), np.clip(col_2d, 0, lattice.cols - 1)
    cell = land.model.cell[row_2d, col_2d]
    height = np.nan_to_num(land.model.heights_m[row_2d, col_2d])
    steps = np.searchsorted(np.array([25.0, 75.0, 150.0, 300.0, 600.0]), height)
    classes = np.where(cell == 0, 0, np.where(cell == 1, 1 + steps, 7)).astype(np.uint8)
    classes[~inside] = 255
    return classes


def _metric_cells(
    land: AreaLand, lat: FloatArray, lon: FloatArray
) -> tuple[np.ndarray[tuple[int, ...], np.dtype[np.int64]], ...]:
    """Row and column of each pixel for a lattice in metres, through a coarse grid of knots."""
    row_knots = np.unique(np.append(np.arange(0, lat.size, 16), lat.size - 1))
    col_knots = np.unique(np.append(np.arange(0, lon.size, 16), lon.size - 1))
    lat_2d, lon_2d = np.meshgrid(lat[row_knots], lon[col_knots], indexing="ij")
    rows, cols = land.model.lattice.row_col(lat_2d.ravel(), lon_2d.ravel())
    found = []
    for values in (rows.reshape(lat_2d.shape), cols.reshape(lat_2d.shape)):
        across = np.stack([np.interp(np.arange(lon.size), col_knots, v) for v in values])
        full = np.stack(
            [np.interp(np.arange(lat.size), row_knots, across[:, j]) for j in range(lon.size)],
            axis=1,
        )
        found.append(np.rint(full).astype(np.int64))
    return found[0], found[1]
