"""Which cells lie in which polygon: by the cell's centre, exactly, without a raster library."""

from collections.abc import Sequence

import numpy as np
import shapely

from core.base.arrays import BoolArray, FloatArray
from core.geodesy.position import Bounds
from core.land.lattice import Lattice
from core.land.resample import places

_LONG_STEP_DEG = 0.02


def winding(
    lattice: Lattice, rings: Sequence[FloatArray], weights: Sequence[int] | None = None
) -> np.ndarray:
    """Sum over rings of the weight of each ring that a cell's centre lies in.

    Parameters
    ----------
    rings : sequence of (n, 2) arrays
        Longitude, latitude, deg, closed; the sense of rotation does not matter.
    weights : sequence of int, optional
        What each ring adds inside itself; 1 where absent.

    Returns
    -------
    (rows, cols) int32 array

    Notes
    -----
    Along each row of centres every edge that crosses it adds or takes away its ring's weight
    to the right of the crossing. An edge counts for rows in [lower end, upper end), so a
    vertex on a row is counted once.
    """
    total = np.zeros((lattice.rows, lattice.cols + 1), dtype=np.int32)
    if not rings:
        return total[:, :-1]
    counts = np.array([len(r) for r in rings])
    points = np.concatenate(rings)
    row, col = lattice.row_col(points[:, 1], points[:, 0])
    ring = np.repeat(np.arange(len(rings)), counts)
    same = ring[1:] == ring[:-1]
    r0, r1, c0, c1 = (row[:-1][same], row[1:][same], col[:-1][same], col[1:][same])
    of = ring[1:][same]
    area = np.bincount(of, weights=c0 * r1 - c1 * r0, minlength=len(rings))
    value = -np.sign(area).astype(np.int32)
    if weights is not None:
        value = value * np.asarray(weights, dtype=np.int32)
    first = np.clip(np.ceil(np.minimum(r0, r1)), 0, lattice.rows).astype(np.int64)
    stop = np.clip(np.ceil(np.maximum(r0, r1)), 0, lattice.rows).astype(np.int64)
    number = stop - first
    edge = np.repeat(np.arange(len(r0)), number)
    k = np.arange(len(edge)) - np.repeat(np.cumsum(number) - number, number) + first[edge]
    slope = (c1[edge] - c0[edge]) / (r1[edge] - r0[edge])
    crossing = c0[edge] + (k - r0[edge]) * slope
    start = np.clip(np.ceil(crossing), 0, lattice.cols).astype(np.int64)
    np.add.at(total, (k, start), value[of[edge]] * np.where(r1 > r0, 1, -1)[edge].astype(np.int32))
    np.cumsum(total, axis=1, out=total)
    return total[:, :-1]


def ring_coordinates(lattice: Lattice, ring: shapely.Geometry) -> FloatArray:
    """Coordinates of a ring, long edges divided where the lattice is not in degrees."""
    if not lattice.is_geographic:
        ring = shapely.segmentize(ring, _LONG_STEP_DEG)
    return np.asarray(shapely.get_coordinates(ring), dtype=np.float64)


def cells_of_polygons(lattice: Lattice, polygons: Sequence[shapely.Polygon]) -> BoolArray:
    """Cells whose centre lies inside the outer ring of any polygon, its holes included.

    A polygon too small to hold any centre marks the cell it lies in, so that no islet is lost.
    """
    rings = [ring_coordinates(lattice, p.exterior) for p in polygons]
    inside = winding(lattice, rings) > 0
    small = [p for p, ring in zip(polygons, rings, strict=True) if _is_small(lattice, ring)]
    if small:
        points = shapely.get_coordinates(shapely.point_on_surface(np.array(small, dtype=object)))
        row, col = lattice.row_col(points[:, 1], points[:, 0])
        r, c = np.rint(row).astype(np.int64), np.rint(col).astype(np.int64)
        on = (r >= 0) & (r < lattice.rows) & (c >= 0) & (c < lattice.cols)
        for shape, at_row, at_col in zip(
            np.array(small, dtype=object)[on], r[on], c[on], strict=True
        ):
            if not _holds_centre(lattice, ring_coordinates(lattice, shape.exterior)):
                inside[at_row, at_col] = True
    return np.asarray(inside, dtype=np.bool_)


def _is_small(lattice: Lattice, ring: FloatArray) -> bool:
    """Whether a ring is so narrow that it may hold no centre."""
    row, col = lattice.row_col(ring[:, 1], ring[:, 0])
    return bool(np.ptp(row) < 4.0 or np.ptp(col) < 4.0)


def _holds_centre(lattice: Lattice, ring: FloatArray) -> bool:
    row, col = lattice.row_col(ring[:, 1], ring[:, 0])
    top, left = int(np.floor(row.min())), int(np.floor(col.min()))
    part = lattice.part(
        row=top,
        col=left,
        rows=int(np.ceil(row.max())) - top + 1,
        cols=int(np.ceil(col.max())) - left + 1,
    )
    return bool((winding(part, [ring]) > 0).any())


def cells_in_boxes(lattice: Lattice, boxes: Sequence[Bounds]) -> BoolArray:
    """Cells whose centre lies in any of the boxes."""
    inside = np.zeros((lattice.rows, lattice.cols), dtype=np.bool_)
    if lattice.is_geographic:
        lat, _ = lattice.lat_lon(np.arange(lattice.rows, dtype=np.float64), np.zeros(lattice.rows))
        _, lon = lattice.lat_lon(np.zeros(lattice.cols), np.arange(lattice.cols, dtype=np.float64))
        for box in boxes:
            inside |= _rows_in(lat, box)[:, None] & _cols_in(lon, box)[None, :]
        return inside
    step = max(1, 2_000_000 // max(lattice.cols, 1))
    for first in range(0, lattice.rows, step):
        rows = min(step, lattice.rows - first)
        lat, lon = places(lattice, first, rows)
        for box in boxes:
            hit = _rows_in(lat, box) & _cols_in(lon, box)
            inside[first : first + rows] |= hit.reshape(rows, lattice.cols)
    return inside


def _rows_in(lat_deg: FloatArray, box: Bounds) -> np.ndarray:
    edge = 1e-9
    return np.asarray((lat_deg >= box.south_deg - edge) & (lat_deg <= box.north_deg + edge))


def _cols_in(lon_deg: FloatArray, box: Bounds) -> np.ndarray:
    past = np.mod(lon_deg - box.west_deg + 1e-9, 360.0)
    return np.asarray(past <= box.east_deg - box.west_deg + 2e-9)
