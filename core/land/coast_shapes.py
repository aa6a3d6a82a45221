"""Shorelines out of land polygons: joined over tile edges, without the edges of a cut."""

from collections.abc import Iterable, Sequence

import numpy as np
import shapely

from core.base.arrays import FloatArray
from core.geodesy.position import Bounds

Box = tuple[float, float, float, float]
"""West, south, east, north, deg."""

CUT_LENGTH_M = 100.0
"""A straight run longer than this on the edge of the declared area is a cut, never coast."""

ON_EDGE_DEG = 2e-6
"""Coordinates this near an edge lie on it; files are often rounded to 1e-6 deg."""

_METRES_PER_DEG = 111_320.0


def box_near(bounds: Bounds, middle_lon_deg: float) -> Box:
    """A box with longitudes taken the nearest way round to a meridian."""
    middle = (bounds.west_deg + bounds.east_deg) / 2.0
    turn = round((middle_lon_deg - middle) / 360.0) * 360.0
    return (bounds.west_deg + turn, bounds.south_deg, bounds.east_deg + turn, bounds.north_deg)


def joined(polygons: Sequence[shapely.Polygon]) -> tuple[shapely.Polygon, ...]:
    """Polygons with those that touch or overlap made one, so that tile edges vanish."""
    if len(polygons) < 2:
        return tuple(polygons)
    shapes = np.array(polygons, dtype=object)
    tree = shapely.STRtree(shapes)
    one, other = tree.query(shapes, predicate="intersects")
    meeting = np.zeros(len(shapes), dtype=np.bool_)
    meeting[one[one != other]] = True
    if not meeting.any():
        return tuple(polygons)
    parts = shapely.get_parts(shapely.union_all(shapes[meeting]))
    united = [p for p in parts if p.geom_type == "Polygon"]
    return (*shapes[~meeting].tolist(), *united)


def without_cuts(coordinates: FloatArray, boxes: Sequence[Box]) -> list[FloatArray]:
    """A line broken where it runs along the edge of a box for more than 100 m.

    Parameters
    ----------
    coordinates : (n, 2) array
        Longitude, latitude, deg; a ring repeats its first point.
    boxes : sequence of (west, south, east, north)

    Returns
    -------
    list of (m, 2) arrays
        The pieces left; the whole line where nothing is cut.
    """
    if len(coordinates) < 2:
        return []
    cut = np.zeros(len(coordinates) - 1, dtype=np.bool_)
    lengths = _lengths_m(coordinates)
    for box in boxes:
        for on_edge in _edge_segments(coordinates, box):
            if on_edge.any():
                cut |= _long_runs(on_edge, lengths, is_ring=_is_ring(coordinates))
    if not cut.any():
        return [coordinates]
    if _is_ring(coordinates) and not cut.all():
        # Start right after a cut, so that the ring's first point splits nothing.
        start = int(np.flatnonzero(cut)[-1]) + 1
        coordinates = np.concatenate([coordinates[start:-1], coordinates[: start + 1]])
        cut = np.roll(cut, -start)
    pieces = []
    edges = np.flatnonzero(np.diff(np.concatenate([[True], cut, [True]]).astype(np.int8)))
    for first, last in zip(edges[::2], edges[1::2], strict=True):
        pieces.append(coordinates[first : last + 1])
    return pieces


def _is_ring(coordinates: FloatArray) -> bool:
    return len(coordinates) > 3 and bool(np.all(coordinates[0] == coordinates[-1]))


def _lengths_m(coordinates: FloatArray) -> FloatArray:
    steps = np.diff(coordinates, axis=0)
    middle = np.radians((coordinates[1:, 1] + coordinates[:-1, 1]) / 2.0)
    return np.asarray(np.hypot(steps[:, 0] * np.cos(middle), steps[:, 1]) * _METRES_PER_DEG)


def _edge_segments(coordinates: FloatArray, box: Box) -> list[np.ndarray]:
    west, south, east, north = box
    x, y = coordinates[:, 0], coordinates[:, 1]
    masks = []
    for values, edge in ((x, west), (x, east), (y, south), (y, north)):
        on = np.abs(values - edge) <= ON_EDGE_DEG
        masks.append(on[1:] & on[:-1])
    return masks


def _long_runs(on_edge: np.ndarray, lengths_m: FloatArray, *, is_ring: bool) -> np.ndarray:
    """The segments of runs along an edge that are longer than a cut must be."""
    if on_edge.all():
        return np.asarray(on_edge & (lengths_m.sum() > CUT_LENGTH_M))
    shift = int(np.flatnonzero(~on_edge)[0]) if is_ring else 0
    mask, length = np.roll(on_edge, -shift), np.roll(lengths_m, -shift)
    run = np.cumsum(np.diff(np.concatenate([[False], mask]).astype(np.int8)) == 1) * mask
    total = np.bincount(run, weights=length)
    long = mask & (total[run] > CUT_LENGTH_M)
    return np.asarray(np.roll(long, shift), dtype=np.bool_)


def shorelines(
    polygons: Iterable[shapely.Polygon], boxes: Sequence[Box]
) -> list[shapely.LineString]:
    """Outer rings of land polygons without the edges of cuts; closed rings stay closed."""
    lines = []
    for polygon in polygons:
        ring = shapely.get_coordinates(polygon.exterior)
        lines += [shapely.LineString(p) for p in without_cuts(ring, boxes)]
    return lines


def uncut_lines(
    lines: Iterable[shapely.LineString], boxes: Sequence[Box]
) -> list[shapely.LineString]:
    """Lines without the edges of cuts."""
    pieces = []
    for line in lines:
        pieces += [
            shapely.LineString(p) for p in without_cuts(shapely.get_coordinates(line), boxes)
        ]
    return pieces


def clipped(
    lines: Sequence[shapely.LineString], inside: shapely.Geometry
) -> list[shapely.LineString]:
    """The parts of lines inside an area; rings inside it stay closed."""
    if not lines:
        return []
    shapes = np.array(lines, dtype=object)
    shapely.prepare(inside)
    whole = shapely.contains_properly(inside, shapes)
    kept: list[shapely.LineString] = shapes[whole].tolist()
    cut = shapely.intersection(shapes[~whole & shapely.intersects(inside, shapes)], inside)
    for piece in cut:
        kept += _line_parts(piece)
    return kept


def outside(
    lines: Sequence[shapely.LineString], covered: Sequence[Box]
) -> list[shapely.LineString]:
    """The parts of lines outside boxes that better data covers."""
    if not lines or not covered:
        return list(lines)
    area = shapely.union_all([shapely.box(*box) for box in covered])
    kept = []
    for piece in shapely.difference(np.array(lines, dtype=object), area):
        kept += _line_parts(piece)
    return kept


def _line_parts(shape: shapely.Geometry) -> list[shapely.LineString]:
    parts: list[shapely.LineString] = [
        p for p in shapely.get_parts(shape) if p.geom_type == "LineString" and not p.is_empty
    ]
    if len(parts) < 2:
        return parts
    merged = shapely.line_merge(shapely.multilinestrings(parts))
    return [p for p in shapely.get_parts(merged) if not p.is_empty]


def merged_lines(lines: Sequence[shapely.LineString]) -> list[shapely.LineString]:
    """Lines joined end to end where two and only two meet, so that rings close."""
    return _line_parts(shapely.multilinestrings(list(lines))) if lines else []
