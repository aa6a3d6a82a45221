"""Land and sea between shorelines that come without polygons, told apart by the heights."""

from collections.abc import Sequence

import numpy as np
import shapely

from core.base.arrays import BoolArray, Float32Array
from core.land.coast_shapes import Box
from core.land.land_raster import IntegerArray, cells_of_polygons, ring_coordinates, winding
from core.land.lattice import Lattice

_CLEAR_SHARE = 0.9
_FEWEST_CELLS = 50


def ruled_by_lines(
    lattice: Lattice,
    lines: Sequence[shapely.LineString],
    areas: Sequence[Box],
    heights_m: Float32Array,
) -> tuple[BoolArray, BoolArray]:
    """Cells that shorelines decide, and which of them are land.

    Parameters
    ----------
    lines : sequence of LineString
        Shorelines, longitude and latitude in deg.
    areas : sequence of boxes
        The area the lines are said to cover.
    heights_m : (rows, cols) float32
        Heights above mean sea level, NaN where unknown.

    Returns
    -------
    ruled, land : (rows, cols) bool

    Notes
    -----
    Lines and the areas' edges divide the area into faces. A face with 50 known cells or more of
    which 9 in 10 are above 0 is land, at 0 or below sea, whole: no shoreline runs through it. A
    face shut in by one closed line is an island, unless the face round it is land (then it may
    be a lake). Other faces are left to the heights of their cells.
    """
    nothing = np.zeros(heights_m.shape, dtype=np.bool_)
    frame = shapely.union_all([shapely.box(*a) for a in areas])
    edges = [*lines, *shapely.get_parts(shapely.boundary(frame))]
    noded = shapely.get_parts(shapely.union_all(np.array(edges, dtype=object)))
    faces = [
        face
        for face in shapely.get_parts(shapely.polygonize(noded))
        if shapely.intersects(frame, shapely.point_on_surface(face))
    ]
    if not faces:
        return nothing, nothing.copy()
    label = _labels(lattice, faces, areas)
    known = ~np.isnan(heights_m)
    count = np.bincount(label[known], minlength=len(faces) + 1)[1:]
    with np.errstate(invalid="ignore"):
        high = np.bincount(label[known & (heights_m > 0.0)], minlength=len(faces) + 1)[1:]
    share = high / np.maximum(count, 1)
    is_land = (count >= _FEWEST_CELLS) & (share >= _CLEAR_SHARE)
    is_sea = (count >= _FEWEST_CELLS) & (share <= 1.0 - _CLEAR_SHARE)
    island = _islands(lines, faces, is_land)
    is_land, is_sea = is_land | island, is_sea & ~island
    land = np.concatenate([[False], is_land])[label]
    ruled = np.concatenate([[False], is_land | is_sea])[label]
    small = cells_of_polygons(lattice, [f for f, yes in zip(faces, island, strict=True) if yes])
    return np.asarray(ruled | small, dtype=np.bool_), np.asarray(land | small, dtype=np.bool_)


def _labels(
    lattice: Lattice, faces: Sequence[shapely.Polygon], areas: Sequence[Box]
) -> IntegerArray:
    """Number from 1 of the face each cell's centre lies in, 0 outside all."""
    rings, weights = [], []
    for number, face in enumerate(faces, start=1):
        rings.append(ring_coordinates(lattice, face.exterior, areas))
        weights.append(number)
        for hole in face.interiors:
            rings.append(ring_coordinates(lattice, hole, areas))
            weights.append(-number)
    return winding(lattice, rings, weights)


def _islands(
    lines: Sequence[shapely.LineString], faces: Sequence[shapely.Polygon], is_land: np.ndarray
) -> np.ndarray:
    """Faces shut in by one closed line whose surroundings are not clearly land."""
    island = np.zeros(len(faces), dtype=np.bool_)
    rings = {_key(line) for line in lines if line.is_closed}
    shut = [n for n, face in enumerate(faces) if _key(face.exterior) in rings]
    if not shut:
        return island
    tree = shapely.STRtree(np.array(faces, dtype=object))
    for number in shut:
        # The first vertex lies on the edge of the face itself and of the one round it.
        start = shapely.Point(shapely.get_coordinates(faces[number].exterior)[0])
        beside = [n for n in tree.query(start, predicate="intersects") if n != number]
        island[number] = not any(is_land[n] for n in beside)
    return island


def _key(ring: shapely.Geometry) -> tuple[int, float, float, float, float]:
    west, south, east, north = (float(v) for v in shapely.bounds(ring))
    return shapely.get_num_coordinates(ring), west, south, east, north
