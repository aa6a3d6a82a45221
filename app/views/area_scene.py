"""What the area view shows, as plain geometry: Mercator metres, worked out off the GUI thread."""

from dataclasses import dataclass, field

import numpy as np

from app.views.area_plot import AreaLeg, AreaLimit, AreaMark, AreaProjection
from core.base.arrays import ByteArray, Float32Array, FloatArray
from core.coverage.coverage_result import LegCoverage
from core.coverage.painted_edge import edge_runs
from core.files.marks_file import is_place
from core.geodesy.leg_line import LegKind
from core.land.land_model import LandModel
from core.passage.passage import Passage
from core.plan.outcome import Outcome
from core.plan.plan_result import DangerLimit, Mark

_CORRIDOR_STEP_M = 2_000.0
_SAME_LAT_DEG = 1.0
_SAME_M = 1.0


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
    source: Outcome | None
    """What land, coast and hidden water are of: the plan, or that before the line was edited."""
    is_edited: bool
    """Whether ``source`` is of a line that was edited since: true of legs that were kept alone."""
    gone: tuple[FloatArray, ...]
    """Tracks of legs of ``source`` that are not of the line now."""
    marks: tuple[AreaMark, ...]
    limits: tuple[AreaLimit, ...]

    def coverage_of(self, leg_index: int) -> LegCoverage | None:
        """Coverage that a leg is drawn with; None without any."""
        if self.source is None or leg_index >= len(self.legs):
            return None
        source_leg = self.legs[leg_index].source_leg
        return None if source_leg is None else self.source.coverage.legs[source_leg]

    def extent(self) -> tuple[float, float, float, float]:
        """Box round the waypoints: left, top, right, bottom, m."""
        low, high = self.waypoints.min(axis=0), self.waypoints.max(axis=0)
        return float(low[0]), float(low[1]), float(high[0]), float(high[1])


@dataclass(frozen=True, slots=True, kw_only=True)
class AreaAsk:
    """What a scene is made of."""

    passage: Passage
    outcome: Outcome | None
    """The plan of the passage."""
    before_edit: Outcome | None = None
    """Without one: the plan of the line that the passage was edited out of."""
    kept_legs: dict[int, int] = field(default_factory=dict)
    """Legs that run as there, by their number there."""
    first: Outcome | None = None
    """Without a plan: the first legs as far as they are covered."""
    covered: frozenset[int] = frozenset()
    """Those legs."""
    marks: tuple[Mark, ...] = ()
    limits: tuple[DangerLimit, ...] = ()

    @property
    def is_first(self) -> bool:
        """Whether first results are shown: once they have all that was kept from before."""
        return (
            self.outcome is None
            and self.first is not None
            and self.kept_legs.keys() <= (self.covered)
        )


def _track_of(passage: Passage, leg_index: int, projection: AreaProjection) -> FloatArray:
    line = passage.line(leg_index)
    along = _stations(line.length_m)
    lats, lons, _courses = line.at(along if line.kind is LegKind.GEODESIC else along[[0, -1]])
    return projection.points(lats, lons)


def _stations(length_m: float) -> FloatArray:
    count = max(2, int(length_m / _CORRIDOR_STEP_M) + 2)
    along: FloatArray = np.linspace(0.0, length_m, count)
    return along


def _leg_of(
    passage: Passage,
    leg_index: int,
    projection: AreaProjection,
    source: Outcome | None,
    source_leg: int | None,
) -> AreaLeg:
    line = passage.line(leg_index)
    leg = passage.legs[leg_index]
    along = _stations(line.length_m)
    edges = []
    for cross_m, sign in ((leg.corridor_port_m, -1.0), (leg.corridor_starboard_m, 1.0)):
        if cross_m is None:
            edges.append(np.empty((0, 2)))
        else:
            cross: FloatArray = np.full(along.shape, sign * cross_m)
            edges.append(projection.points(*line.offset(along, cross)))
    views: FloatArray = np.empty((0, 2))
    painted: tuple[FloatArray, ...] = ()
    if source is not None and source_leg is not None:
        coverage, points = source.coverage.legs[source_leg], source.land.points
        edge = coverage.painted_edge
        if edge is not None:
            runs = edge_runs(points, edge)
            painted = tuple(projection.points(edge.lat_deg[r], edge.lon_deg[r]) for r in runs)
        places = [v.viewpoint.position for v in coverage.viewpoints]
        views = projection.points(
            np.array([p.lat_deg for p in places]), np.array([p.lon_deg for p in places])
        )
    return AreaLeg(
        track=_track_of(passage, leg_index, projection),
        port_edge=edges[0],
        starboard_edge=edges[1],
        viewpoints=views,
        painted=painted,
        source_leg=source_leg,
    )


def land_of(model: LandModel, projection: AreaProjection, last: AreaScene | None) -> AreaLand:
    """Land with its coast in plan; that of the last scene where it is the same."""
    kept = None if last is None or last.projection != projection else last.land
    if kept is not None and kept.model is model:
        return kept
    coast = tuple(projection.points(line.lat_deg, line.lon_deg) for line in model.coast.lines)
    boxes = np.array([[*c.min(axis=0), *c.max(axis=0)] for c in coast]).reshape(-1, 4)
    return AreaLand(model=model, coast=coast, boxes=boxes)


def _projection_of(passage: Passage) -> AreaProjection:
    places = [w.position for w in passage.waypoints]
    first_lon = places[0].lon_deg
    lons = [first_lon + (p.lon_deg - first_lon + 180.0) % 360.0 - 180.0 for p in places]
    return AreaProjection(
        lat_deg=(min(p.lat_deg for p in places) + max(p.lat_deg for p in places)) / 2.0,
        lon_deg=(min(lons) + max(lons)) / 2.0,
    )


def _waypoints_of(passage: Passage, projection: AreaProjection) -> FloatArray:
    places = [w.position for w in passage.waypoints]
    return projection.points(
        np.array([p.lat_deg for p in places]), np.array([p.lon_deg for p in places])
    )


def _kept_projection(passage: Passage, last: AreaScene | None) -> AreaProjection | None:
    """That of the last scene, if the passage is there still: an edit must not move the plan."""
    if last is None:
        return None
    kept, own = last.projection, _projection_of(passage)
    if abs(kept.lat_deg - own.lat_deg) > _SAME_LAT_DEG:
        return None
    apart = _waypoints_of(passage, kept)[:, None, :] - last.waypoints[None, :, :]
    return kept if bool(np.any(np.hypot(apart[..., 0], apart[..., 1]) < _SAME_M)) else None


def build_scene(ask: AreaAsk, last: AreaScene | None = None) -> AreaScene:
    """Lay a passage out in plan, with its land where there is a plan.

    Parameters
    ----------
    last : AreaScene, optional
        What was shown before: its projection and coast are kept where they still serve.
    """
    passage = ask.passage
    projection = _kept_projection(passage, last) or _projection_of(passage)
    source = ask.outcome or (ask.first if ask.is_first else ask.before_edit)
    is_edited = source is not None and source is ask.before_edit
    count = len(passage.legs)
    sources = ask.kept_legs if is_edited else {i: i for i in range(count)}
    if ask.is_first:
        sources = {i: i for i in ask.covered}
    gone: tuple[FloatArray, ...] = ()
    if is_edited and source is not None:
        before, kept = source.plan.passage, set(sources.values())
        gone = tuple(
            _track_of(before, i, projection) for i in range(len(before.legs)) if i not in kept
        )
    objects: tuple[tuple[str, float, float], ...] = ()
    if source is not None:
        objects = tuple((o.id, *projection.point(o.position)) for o in source.plan.objects)
    marks = tuple(_mark_of(mark, projection) for mark in ask.marks)
    return AreaScene(
        projection=projection,
        names=tuple(w.name for w in passage.waypoints),
        waypoints=_waypoints_of(passage, projection),
        legs=tuple(
            _leg_of(passage, i, projection, source, None if source is None else sources.get(i))
            for i in range(count)
        ),
        objects=objects,
        land=None if source is None else land_of(source.land, projection, last),
        source=source,
        is_edited=is_edited,
        gone=gone,
        marks=marks,
        limits=_limits_of(ask.limits, marks, projection),
    )


def _mark_of(mark: Mark, projection: AreaProjection) -> AreaMark:
    x_m, y_m = projection.point(mark.position)
    return AreaMark(
        name=mark.name, x_m=x_m, y_m=y_m, is_fixed=mark.is_fixed, is_place=is_place(mark.kind)
    )


def _limits_of(
    limits: tuple[DangerLimit, ...], marks: tuple[AreaMark, ...], projection: AreaProjection
) -> tuple[AreaLimit, ...]:
    """Limits off marks; off land they are measured from its edge, which no circle shows."""
    by_name = {mark.name.casefold(): mark for mark in marks}
    found = []
    for limit in limits:
        mark = by_name.get(limit.object_id.casefold())
        if mark is None:
            continue
        lat_deg = float(projection.lat_of(np.array([mark.y_m]))[0])
        stretch = float(np.cos(np.radians(projection.lat_deg)) / np.cos(np.radians(lat_deg)))
        found.append(
            AreaLimit(
                x_m=mark.x_m,
                y_m=mark.y_m,
                leg_index=None if limit.leg_number is None else limit.leg_number - 1,
                least_m=None if limit.least_m is None else limit.least_m * stretch,
                most_m=None if limit.most_m is None else limit.most_m * stretch,
            )
        )
    return tuple(found)


def land_classes(
    land: AreaLand, projection: AreaProjection, x_m: FloatArray, y_m: FloatArray
) -> tuple[ByteArray, Float32Array]:
    """Class of land at each pixel of an image with columns ``x_m`` (w,) and rows ``y_m`` (h,).

    Returns
    -------
    classes, height_m : (h, w) uint8 and float32 arrays
        0 sea, 1 to 6 land from low to high, 7 unknown heights, 255 outside the model; heights, 0
        where unknown.
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
    return classes, height


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
