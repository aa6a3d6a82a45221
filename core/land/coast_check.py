"""How well coast and elevation agree: distance between their waterlines, cells that differ."""

from dataclasses import dataclass

import numpy as np
import shapely

from core.base.arrays import BoolArray, Float32Array, FloatArray
from core.land.coast import CoastPoints
from core.land.lattice import Lattice
from core.land.waterline import waterline

APART_M = 100.0
"""Coast and waterline of the heights farther apart than this are reported, m."""

_METRES_PER_DEG = 111_320.0
_MOST_POINTS = 20_000
_CLEARLY_LAND_M = 10.0


_STRIP_ROWS = 512


@dataclass(frozen=True, slots=True, kw_only=True)
class CoastMismatch:
    """Distances from the coast to the waterline of the heights, by length of coast."""

    median_m: float
    within_95_m: float
    apart_ratio: float
    """Share of the coast that is more than 100 m from that waterline."""


def coast_mismatch(
    points: CoastPoints, heights_m: Float32Array, lattice: Lattice
) -> CoastMismatch | None:
    """Distances from coast points to the waterline of the heights (above 0 is land).

    Parameters
    ----------
    points : CoastPoints
    heights_m : (rows, cols) float32
        Heights above mean sea level, NaN where unknown.

    Returns
    -------
    CoastMismatch or None
        None where there is nothing to compare: no coast, or no height known along it.
    """
    known = ~np.isnan(heights_m)
    chosen = np.flatnonzero(_known_round(points.lat_deg, points.lon_deg, known, lattice))
    chosen = chosen[:: max(1, -(-len(chosen) // _MOST_POINTS))]
    with np.errstate(invalid="ignore"):
        lines = waterline(heights_m > 0.0, known, lattice)
    if not len(chosen) or not lines:
        return None
    lat, lon = points.lat_deg[chosen], points.lon_deg[chosen]
    distance = distances_m(lat, lon, lines)
    length = points.length_m[chosen]
    order = np.argsort(distance)
    share = np.cumsum(length[order]) / length.sum()
    at = np.minimum(np.searchsorted(share, [0.5, 0.95]), len(order) - 1)
    return CoastMismatch(
        median_m=float(distance[order[at[0]]]),
        within_95_m=float(distance[order[at[1]]]),
        apart_ratio=float(length[distance > APART_M].sum() / length.sum()),
    )


def distances_m(
    lat_deg: FloatArray, lon_deg: FloatArray, lines: list[shapely.LineString]
) -> FloatArray:
    """Distances from places (n,) to the nearest of some lines, m.

    On a plane true to scale at the middle latitude of the places: within 1 % at short range
    over two degrees of latitude.
    """
    middle = float(np.median(lat_deg))
    scale = np.array([np.cos(np.radians(middle)), 1.0]) * _METRES_PER_DEG
    xy = shapely.get_coordinates(lines)
    number = np.repeat(np.arange(len(lines)), shapely.get_num_coordinates(lines))
    start = np.flatnonzero(number[1:] == number[:-1])
    segments = shapely.linestrings(np.stack([xy[start], xy[start + 1]], axis=1) * scale)
    tree = shapely.STRtree(segments)
    near = np.mod(lon_deg - xy[0, 0] + 180.0, 360.0) - 180.0 + xy[0, 0]
    places = shapely.points(np.stack([near, lat_deg], axis=1) * scale)
    (at, _), distance = tree.query_nearest(places, return_distance=True, all_matches=False)
    out = np.empty(len(places))
    out[at] = distance
    return out


def _known_round(
    lat_deg: FloatArray, lon_deg: FloatArray, known: BoolArray, lattice: Lattice
) -> BoolArray:
    """Places whose cell and eight neighbours are all of known height."""
    row, col = lattice.row_col(lat_deg, lon_deg)
    r, c = np.rint(row).astype(np.int64), np.rint(col).astype(np.int64)
    use = (r >= 1) & (r < lattice.rows - 1) & (c >= 1) & (c < lattice.cols - 1)
    for down in (-1, 0, 1):
        for across in (-1, 0, 1):
            use &= known[
                np.clip(r + down, 0, lattice.rows - 1), np.clip(c + across, 0, lattice.cols - 1)
            ]
    return np.asarray(use, dtype=np.bool_)


@dataclass(frozen=True, slots=True, kw_only=True)
class CellDisagreement:
    """Shares of cells on which coast and heights differ, bare."""

    high_sea_ratio: float
    """Of the sea cells by coast, those clearly land by height (more than 10 m)."""
    low_land_ratio: float
    """Of the land cells by coast, those at or below the sea by height."""


def cell_disagreement(
    heights_m: Float32Array, ruled: BoolArray, land: BoolArray
) -> CellDisagreement:
    """How many cells coast and heights see differently, among those with a known height."""
    counts = np.zeros(4, dtype=np.int64)
    # Strip by strip: masks of all cells would take as much room as the heights.
    for first in range(0, heights_m.shape[0], _STRIP_ROWS):
        strip = slice(first, first + _STRIP_ROWS)
        heights = heights_m[strip]
        known = ~np.isnan(heights) & ruled[strip]
        on_land, at_sea = known & land[strip], known & ~land[strip]
        with np.errstate(invalid="ignore"):
            high, low = heights > _CLEARLY_LAND_M, heights <= 0.0
        counts += [
            np.count_nonzero(part) for part in (at_sea, on_land, high & at_sea, low & on_land)
        ]
    sea_count, land_count, high_count, low_count = (int(count) for count in counts)
    return CellDisagreement(
        high_sea_ratio=high_count / sea_count if sea_count else 0.0,
        low_land_ratio=low_count / land_count if land_count else 0.0,
    )
