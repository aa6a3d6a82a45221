"""Points spread along the coast, with the height of the land behind them."""

import numpy as np
import shapely

from core.base.arrays import Float32Array, FloatArray, IntArray
from core.geodesy import geodesic
from core.land.coast import CoastLine, CoastPoints
from core.land.lattice import Lattice

SPACING_M = 100.0
"""Greatest distance between coast points along the line."""

NEAR_M = 100.0
"""Land this near (or one cell) counts as standing at the coast."""

_METRES_PER_DEG = 111_320.0


def coast_line(line: shapely.LineString) -> CoastLine:
    """A line of longitude, latitude as a coast line."""
    at = shapely.get_coordinates(line)
    return CoastLine(
        lat_deg=at[:, 1].copy(), lon_deg=at[:, 0].copy(), is_closed=bool(line.is_closed)
    )


def coast_points(
    lines: tuple[CoastLine, ...], heights_m: Float32Array, lattice: Lattice
) -> CoastPoints:
    """Points in the middle of equal pieces of each line, pieces at most 100 m long."""
    if not lines:
        none, whole = np.zeros(0), np.zeros(0, dtype=np.int64)
        return CoastPoints(
            lat_deg=none,
            lon_deg=none.copy(),
            length_m=none.copy(),
            height_m=np.zeros(0, dtype=np.float32),
            line=whole,
            is_line_start=np.zeros(0, dtype=np.bool_),
        )
    lat = np.concatenate([line.lat_deg for line in lines])
    lon = np.concatenate([line.lon_deg for line in lines])
    of = np.repeat(np.arange(len(lines)), [len(line.lat_deg) for line in lines])
    steps, _, _ = geodesic.inverse(
        from_lat_deg=lat[:-1], from_lon_deg=lon[:-1], to_lat_deg=lat[1:], to_lon_deg=lon[1:]
    )
    steps[of[1:] != of[:-1]] = 0.0
    along = np.concatenate([[0.0], np.cumsum(steps)])
    starts = np.searchsorted(of, np.arange(len(lines)), side="left")
    ends = np.searchsorted(of, np.arange(len(lines)), side="right") - 1
    lengths = along[ends] - along[starts]
    pieces = np.maximum(1, np.ceil(lengths / SPACING_M - 1e-9)).astype(np.int64)
    line = np.repeat(np.arange(len(lines)), pieces)
    number = np.arange(len(line)) - np.repeat(np.cumsum(pieces) - pieces, pieces)
    piece_m = (lengths / pieces)[line]
    at = along[starts][line] + (number + 0.5) * piece_m
    # Between the lines' own ends only: the step from one line to the next has no length.
    point_lat, point_lon = _between(along, lat, lon, at, starts[line], ends[line])
    return CoastPoints(
        lat_deg=point_lat,
        lon_deg=np.mod(point_lon + 180.0, 360.0) - 180.0,
        length_m=piece_m,
        height_m=_greatest_near(point_lat, point_lon, heights_m, lattice),
        line=line,
        is_line_start=number == 0,
    )


def _between(
    along: FloatArray,
    lat: FloatArray,
    lon: FloatArray,
    at: FloatArray,
    first: IntArray,
    last: IntArray,
) -> tuple[FloatArray, FloatArray]:
    after = np.clip(np.searchsorted(along, at, side="left"), first + 1, last)
    before = after - 1
    length = along[after] - along[before]
    share = np.divide(at - along[before], length, out=np.zeros_like(at), where=length > 0.0)
    share = np.clip(share, 0.0, 1.0)
    return (
        lat[before] + share * (lat[after] - lat[before]),
        lon[before] + share * (lon[after] - lon[before]),
    )


def _greatest_near(
    lat_deg: FloatArray, lon_deg: FloatArray, heights_m: Float32Array, lattice: Lattice
) -> Float32Array:
    """Greatest known height within one cell or 100 m of places; NaN where none is known."""
    row, col = lattice.row_col(lat_deg, lon_deg)
    middle = float(np.median(lat_deg))
    across_m = _METRES_PER_DEG * np.cos(np.radians(middle)) if lattice.is_geographic else 1.0
    down_m = lattice.cell_y * (_METRES_PER_DEG if lattice.is_geographic else 1.0)
    across_m = lattice.cell_x * float(across_m)
    reach_m = max(NEAR_M, down_m, across_m)
    near_r, near_c = np.rint(row).astype(np.int64), np.rint(col).astype(np.int64)
    best = np.full(row.shape, -np.inf, dtype=np.float32)
    for dr in range(-int(reach_m // down_m) - 1, int(reach_m // down_m) + 2):
        for dc in range(-int(reach_m // across_m) - 1, int(reach_m // across_m) + 2):
            r, c = near_r + dr, near_c + dc
            away = np.hypot((r - row) * down_m, (c - col) * across_m)
            use = (away <= reach_m) & (r >= 0) & (r < lattice.rows) & (c >= 0) & (c < lattice.cols)
            here = heights_m[np.clip(r, 0, lattice.rows - 1), np.clip(c, 0, lattice.cols - 1)]
            use &= ~np.isnan(here)
            best = np.where(use, np.maximum(best, here), best)
    best[np.isneginf(best)] = np.nan
    return np.asarray(best, dtype=np.float32)
