"""Which cells lie in which polygon: by the cell's centre, exactly, without a raster library."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from core.base.arrays import BoolArray, FloatArray, IntArray
from core.geodesy.position import Bounds
from core.land.coast_shapes import ON_EDGE_DEG, Box
from core.land.lattice import Lattice

IntegerArray = NDArray[np.int32]

_LONG_STEP_DEG = 0.02
_OUTWARDS_DEG = 1e-5
_STRIP_CELLS = 8_000_000


@dataclass(frozen=True, slots=True)
class _Crossings:
    """Where edges of rings cross rows of centres: what is added from a column onwards."""

    row: np.ndarray
    col: np.ndarray
    value: np.ndarray


def _crossings(
    lattice: Lattice, rings: Sequence[FloatArray], weights: Sequence[int] | None
) -> _Crossings:
    """All crossings, by row.

    An edge counts for rows in [upper end, lower end), so a vertex on a row counts once.
    """
    counts = np.array([len(r) for r in rings])
    points = np.concatenate(rings)
    row, col = lattice.row_col(points[:, 1], points[:, 0])
    ring = np.repeat(np.arange(len(rings)), counts)
    same = ring[1:] == ring[:-1]
    r0, r1, c0, c1 = row[:-1][same], row[1:][same], col[:-1][same], col[1:][same]
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
    start = np.clip(np.ceil(c0[edge] + (k - r0[edge]) * slope), 0, lattice.cols).astype(np.int64)
    added = value[of[edge]] * np.where(r1 > r0, 1, -1)[edge].astype(np.int32)
    order = np.argsort(k, kind="stable")
    return _Crossings(row=k[order], col=start[order], value=added[order])


_TILE = 32
"""Cells along the side of the tiles that are asked first."""
_SMALL_TILE = 8
_MOST_TILES = 20_000
"""Small tiles whose cells are asked at a time."""


def winding(
    lattice: Lattice, rings: Sequence[FloatArray], weights: Sequence[int] | None = None
) -> IntegerArray:
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
    to the right of the crossing.
    """
    out = np.zeros((lattice.rows, lattice.cols), dtype=np.int32)
    for first, strip in _strips(lattice, rings, weights):
        out[first : first + len(strip)] = strip
    return out


def inside_rings(
    lattice: Lattice, rings: Sequence[FloatArray], weights: Sequence[int] | None = None
) -> BoolArray:
    """Cells whose centre has a positive sum of weights, as ``winding`` but in less memory."""
    out = np.zeros((lattice.rows, lattice.cols), dtype=np.bool_)
    for first, strip in _strips(lattice, rings, weights):
        out[first : first + len(strip)] = strip > 0
    return out


def _strips(
    lattice: Lattice, rings: Sequence[FloatArray], weights: Sequence[int] | None
) -> Iterator[tuple[int, IntegerArray]]:
    if not rings:
        return
    at = _crossings(lattice, rings, weights)
    step = max(1, _STRIP_CELLS // (lattice.cols + 1))
    for first in range(0, lattice.rows, step):
        rows = min(step, lattice.rows - first)
        low, high = np.searchsorted(at.row, [first, first + rows])
        total = np.zeros((rows, lattice.cols + 1), dtype=np.int32)
        part = slice(int(low), int(high))
        np.add.at(total, (at.row[part] - first, at.col[part]), at.value[part])
        np.cumsum(total, axis=1, out=total)
        yield first, total[:, :-1]


def ring_coordinates(
    lattice: Lattice, ring: shapely.Geometry, cut_boxes: Sequence[Box] = ()
) -> FloatArray:
    """Coordinates of a ring, ready for ``winding``.

    Long edges are divided where the lattice is not in degrees. What lies on the edge of a cut is
    moved 1 m outwards: cell centres often stand on whole degrees, right where land is cut off.
    """
    if not lattice.is_geographic:
        ring = shapely.segmentize(ring, _LONG_STEP_DEG)
    at = np.array(shapely.get_coordinates(ring), dtype=np.float64)
    for west, south, east, north in cut_boxes:
        for axis, edge, way in ((0, west, -1.0), (0, east, 1.0), (1, south, -1.0), (1, north, 1.0)):
            at[np.abs(at[:, axis] - edge) <= ON_EDGE_DEG, axis] = edge + way * _OUTWARDS_DEG
    return at


def cells_of_polygons(
    lattice: Lattice,
    polygons: Sequence[shapely.Polygon],
    water: Sequence[FloatArray] = (),
    cut_boxes: Sequence[Box] = (),
) -> BoolArray:
    """Cells whose centre lies inside the outer ring of any polygon, but in no ring of water.

    A polygon too small to hold any centre marks the cell it lies in, so that no islet is lost.
    """
    rings = [ring_coordinates(lattice, p.exterior, cut_boxes) for p in polygons]
    inside = inside_rings(lattice, [*rings, *water], [1] * len(rings) + [-1] * len(water))
    for polygon, ring in zip(polygons, rings, strict=True):
        if _is_small(lattice, ring) and not _holds_centre(lattice, ring):
            point = shapely.get_coordinates(shapely.point_on_surface(polygon))
            row, col = lattice.row_col(point[:, 1], point[:, 0])
            r, c = round(float(row[0])), round(float(col[0]))
            if 0 <= r < lattice.rows and 0 <= c < lattice.cols:
                inside[r, c] = True
    return inside


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
    return bool(inside_rings(part, [ring]).any())


def cells_in_boxes(lattice: Lattice, boxes: Sequence[Bounds]) -> BoolArray:
    """Cells whose centre lies in any of the boxes."""
    inside = np.zeros((lattice.rows, lattice.cols), dtype=np.bool_)
    if lattice.is_geographic:
        lat, _ = lattice.lat_lon(np.arange(lattice.rows, dtype=np.float64), np.zeros(lattice.rows))
        _, lon = lattice.lat_lon(np.zeros(lattice.cols), np.arange(lattice.cols, dtype=np.float64))
        for box in boxes:
            inside |= _rows_in(lat, box)[:, None] & _cols_in(lon, box)[None, :]
        return inside
    for box in boxes:
        _mark_cells_in(inside, lattice, box)
    return inside


def _mark_cells_in(inside: BoolArray, lattice: Lattice, box: Bounds) -> None:
    """Mark the cells of a lattice that is not in degrees whose centres lie in a box.

    Whole tiles by their corners first, then smaller ones: only where an edge of the box runs are
    cells asked.
    """
    row = np.arange(0, lattice.rows, _TILE)
    col = np.arange(0, lattice.cols, _TILE)
    rows, cols = np.repeat(row, col.size), np.tile(col, row.size)
    across = _TILE
    for side in (_TILE, _SMALL_TILE):
        # Corners of all tiles of this side in the squares that are left.
        steps = np.arange(0, across + 1, side)
        corner_row = (rows[:, None] + steps)[:, :, None] - 0.5
        corner_col = (cols[:, None] + steps)[:, None, :] - 0.5
        lat, lon = _lat_lon(lattice, *np.broadcast_arrays(corner_row, corner_col))
        corner = _rows_in(lat, box) & _cols_in(lon, box)
        on_edge = _near_edge(lat, lon, box)
        whole = _of_tiles(corner, np.logical_and) & ~on_edge
        on_edge |= _of_tiles(corner, np.logical_or) & ~whole
        of, i, j = np.nonzero(whole)
        _paint_tiles(inside, rows[of] + i * side, cols[of] + j * side, side)
        of, i, j = np.nonzero(on_edge)
        rows, cols = rows[of] + i * side, cols[of] + j * side
        across = side
    within = np.arange(across)
    for first in range(0, rows.size, _MOST_TILES):
        part = slice(first, first + _MOST_TILES)
        r, c = np.broadcast_arrays(
            rows[part, None, None] + within[:, None], cols[part, None, None] + within
        )
        is_there = (r < lattice.rows) & (c < lattice.cols)
        r, c = r[is_there], c[is_there]
        lat, lon = lattice.lat_lon(r, c)
        hit = _rows_in(lat, box) & _cols_in(lon, box)
        inside[r[hit], c[hit]] = True


def _paint_tiles(inside: BoolArray, rows: IntArray, cols: IntArray, side: int) -> None:
    """Mark tiles given by their first cells, those beside one another at one stroke."""
    if not rows.size:
        return
    goes_on = (rows[1:] == rows[:-1]) & (cols[1:] == cols[:-1] + side)
    first = np.concatenate([[0], np.flatnonzero(~goes_on) + 1])
    last = np.concatenate([first[1:], [rows.size]]) - 1
    for row, west, east in zip(rows[first], cols[first], cols[last] + side, strict=True):
        inside[row : row + side, west:east] = True


def _lat_lon(lattice: Lattice, row: FloatArray, col: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Places of rows and columns of any shape."""
    lat, lon = lattice.lat_lon(row.ravel(), col.ravel())
    return lat.reshape(row.shape), lon.reshape(row.shape)


def _of_tiles(corner: BoolArray, how: np.ufunc) -> BoolArray:
    """The four corners of every tile put together; corners (k, n + 1, m + 1), tiles (k, n, m)."""
    upper = how(corner[:, :-1, :-1], corner[:, :-1, 1:])
    lower = how(corner[:, 1:, :-1], corner[:, 1:, 1:])
    return np.asarray(how(upper, lower), dtype=np.bool_)


def _near_edge(lat_deg: FloatArray, lon_deg: FloatArray, box: Bounds) -> BoolArray:
    """Tiles that an edge of a box may run through, by the span of their corners and a tenth more.

    Corners that are no places at all count as near.
    """
    with np.errstate(invalid="ignore"):
        found = _of_tiles(~np.isfinite(lat_deg + lon_deg), np.logical_or)
        for value, edges in (
            (lat_deg, (box.south_deg, box.north_deg)),
            (lon_deg, (box.west_deg, box.east_deg)),
        ):
            for edge in edges:
                off = value - edge
                if value is lon_deg:
                    off = np.mod(off + 180.0, 360.0) - 180.0
                low, high = _of_tile_values(off, np.minimum), _of_tile_values(off, np.maximum)
                span = high - low
                # Where the far side of the Earth is near, the difference jumps round.
                found |= (span > 90.0) | ((low <= 0.1 * span) & (high >= -0.1 * span))
    return np.asarray(found, dtype=np.bool_)


def _of_tile_values(value: FloatArray, how: np.ufunc) -> FloatArray:
    upper = how(value[:, :-1, :-1], value[:, :-1, 1:])
    return np.asarray(how(upper, how(value[:, 1:, :-1], value[:, 1:, 1:])), np.float64)


def _rows_in(lat_deg: FloatArray, box: Bounds) -> np.ndarray:
    edge = 1e-9
    return np.asarray((lat_deg >= box.south_deg - edge) & (lat_deg <= box.north_deg + edge))


def _cols_in(lon_deg: FloatArray, box: Bounds) -> np.ndarray:
    past = np.mod(lon_deg - box.west_deg + 1e-9, 360.0)
    return np.asarray(past <= box.east_deg - box.west_deg + 2e-9)
