"""The painted edge of a leg: each point of the coast at the one place where it paints.

From each viewpoint the edge lies elsewhere: a beach far off is too weak and only the ground
behind it paints, and what nearer land hides from one place is open from the next. The edge of the
leg is the one that lies least inland, what the coast comes to when it shows best; and of the
viewpoints that agree on that within a range cell the nearest one's, for it looks most nearly
square upon the coast, its echo is strongest, and cross-index ranges are read from there.
"""

from collections.abc import Iterator

import numpy as np

from core.base.arrays import BoolArray, Float32Array, FloatArray, IntArray
from core.coverage.coverage_result import CoastPaint, PaintedEdge, ViewpointCoverage
from core.geodesy import geodesic
from core.geodesy.position import Position
from core.land.coast import CoastPoints

_SAME_M = 60.0
"""Edges that differ by less are one: range cells are not deeper (place.py)."""
_STEP_M = 150.0
"""A step in range greater than this and than the way between two points is no edge: there land
is hidden, or lies too low, and nothing is known of what is between."""


def painted_edge_of(
    points: CoastPoints, views: tuple[ViewpointCoverage, ...]
) -> PaintedEdge | None:
    """The painted edge of a leg.

    Parameters
    ----------
    points : CoastPoints
        The coast.
    views : tuple of ViewpointCoverage
        The viewpoints on the track.

    Returns
    -------
    PaintedEdge or None
        None where nothing was worked out of what paints.
    """
    paints = [(v.viewpoint.position, v.paint) for v in views if v.paint is not None]
    if not paints:
        return None
    count = points.lat_deg.size
    least_m = np.full(count, np.inf, dtype=np.float32)
    state = np.full(count, int(CoastPaint.OUTSIDE), dtype=np.uint8)
    for _position, paint in paints:
        least_m = np.fmin(least_m, paint.inland_m)
    for wanted in (CoastPaint.UNPAINTED, CoastPaint.UNKNOWN):
        for _position, paint in paints:
            state[paint.state == int(wanted)] = int(wanted)
    inland_m: Float32Array = np.full(count, np.nan, dtype=np.float32)
    nearest = np.full(count, np.inf)
    from_view = np.full(count, -1, dtype=np.int64)
    for number, (position, paint) in enumerate(paints):
        shown = np.flatnonzero(paint.inland_m <= least_m + np.float32(_SAME_M))
        off = _square_off(points, shown, position)
        closer = off < nearest[shown]
        shown, off = shown[closer], off[closer]
        nearest[shown], from_view[shown] = off, number
        inland_m[shown], state[shown] = paint.inland_m[shown], paint.state[shown]
    has = np.flatnonzero(from_view >= 0)
    lat_deg, lon_deg = np.full(count, np.nan), np.full(count, np.nan)
    _distance, _first, bearing_deg = geodesic.inverse(
        from_lat_deg=np.array([p.lat_deg for p, _ in paints])[from_view[has]],
        from_lon_deg=np.array([p.lon_deg for p, _ in paints])[from_view[has]],
        to_lat_deg=points.lat_deg[has],
        to_lon_deg=points.lon_deg[has],
    )
    lat_deg[has], lon_deg[has], _last = geodesic.direct(
        lat_deg=points.lat_deg[has],
        lon_deg=points.lon_deg[has],
        bearing_deg=bearing_deg,
        distance_m=inland_m[has].astype(np.float64),
    )
    return PaintedEdge(state=state, inland_m=inland_m, lat_deg=lat_deg, lon_deg=lon_deg)


def runs_on(moved_m: FloatArray, way_m: FloatArray) -> BoolArray:
    """Whether the edge runs on between pairs of places on one coast, (n,) array.

    Parameters
    ----------
    moved_m : (n,) array
        By how much the ways from coast to edge of the two places differ, m.
    way_m : (n,) array
        How far apart the two places are, m.
    """
    return np.asarray(moved_m <= np.maximum(_STEP_M, way_m))


def edge_runs(points: CoastPoints, edge: PaintedEdge) -> Iterator[IntArray]:
    """Numbers of neighbouring points through which the edge is one line, two at least."""
    has = np.isfinite(edge.lat_deg)
    pairs = np.flatnonzero(has[:-1] & has[1:] & ~points.is_line_start[1:])
    shifts = [_shift_m(points, edge, numbers) for numbers in (pairs, pairs + 1)]
    moved_m = np.hypot(shifts[1][0] - shifts[0][0], shifts[1][1] - shifts[0][1])
    way_m = 0.5 * (points.length_m[pairs] + points.length_m[pairs + 1])
    joined = pairs[runs_on(moved_m, way_m)]
    for run in np.split(joined, np.flatnonzero(np.diff(joined) != 1) + 1):
        if run.size:
            yield np.append(run, run[-1] + 1)


def _square_off(points: CoastPoints, numbers: IntArray, position: Position) -> FloatArray:
    """Something that grows with the distance of points from a place; good enough to compare."""
    north = points.lat_deg[numbers] - position.lat_deg
    east = np.mod(points.lon_deg[numbers] - position.lon_deg + 180.0, 360.0) - 180.0
    return np.asarray(north**2 + (east * np.cos(np.radians(position.lat_deg))) ** 2)


def _shift_m(
    points: CoastPoints, edge: PaintedEdge, numbers: IntArray
) -> tuple[FloatArray, FloatArray]:
    """East and north from coast points to their edges, m, to a part in a hundred."""
    per_deg = 111_200.0
    north = (edge.lat_deg[numbers] - points.lat_deg[numbers]) * per_deg
    turn = np.mod(edge.lon_deg[numbers] - points.lon_deg[numbers] + 180.0, 360.0) - 180.0
    return turn * per_deg * np.cos(np.radians(points.lat_deg[numbers])), north
