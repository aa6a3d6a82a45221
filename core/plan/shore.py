"""Heights and slopes of the shore round a point of the coast."""

from dataclasses import dataclass

import numpy as np

from core.base.arrays import BoolArray, FloatArray
from core.geodesy import geodesic
from core.land.land_model import Cell, LandModel
from core.plan.rules import PlanRules

UNKNOWN = (Cell.VOID, Cell.MISSING, Cell.BEYOND)
"""Kinds of cells without a height."""


def metres_from(
    lat_deg: FloatArray, lon_deg: FloatArray, *, from_lat_deg: float, from_lon_deg: float
) -> tuple[FloatArray, FloatArray]:
    """East and north of a place on a plane through it, m; for distances of a few miles."""
    half = np.radians((lat_deg + from_lat_deg) / 2.0)
    lon = np.mod(lon_deg - from_lon_deg + 180.0, 360.0) - 180.0
    # Radii of the WGS-84 ellipsoid to better than 0.1 % (series in latitude, plain geometry).
    north = (lat_deg - from_lat_deg) * (111_132.954 - 559.822 * np.cos(2.0 * half))
    east = lon * (111_412.877 * np.cos(half) - 93.504 * np.cos(3.0 * half))
    return np.asarray(east), np.asarray(north)


def cell_size_m(land: LandModel, *, lat_deg: float, lon_deg: float) -> float:
    """Longer side of an elevation cell at a place, m."""
    return max(_cell_sides_m(land, lat_deg=lat_deg, lon_deg=lon_deg))


def _cell_sides_m(land: LandModel, *, lat_deg: float, lon_deg: float) -> tuple[float, float]:
    """Sides of an elevation cell at a place, from row to row and from column to column, m."""
    row, col = land.lattice.row_col(np.array([lat_deg]), np.array([lon_deg]))
    lats, lons = land.lattice.lat_lon(
        np.array([row[0], row[0] + 1.0, row[0]]), np.array([col[0], col[0], col[0] + 1.0])
    )
    distance, _first, _last = geodesic.inverse(
        from_lat_deg=lats[0], from_lon_deg=lons[0], to_lat_deg=lats[1:], to_lon_deg=lons[1:]
    )
    return float(distance[0]), float(distance[1])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Surroundings:
    """Cells round a place with distance and height, m."""

    distance_m: FloatArray
    height_m: FloatArray
    lat_deg: FloatArray
    lon_deg: FloatArray


def cells_around(
    land: LandModel,
    *,
    lat_deg: float,
    lon_deg: float,
    reach_m: float,
    kinds: tuple[Cell, ...] = (Cell.LAND,),
) -> Surroundings:
    """Cells within a distance of a place; land unless other kinds are asked for.

    Heights of unknown kinds are NaN; land and sea of unknown height is left out.
    """
    row_m, col_m = _cell_sides_m(land, lat_deg=lat_deg, lon_deg=lon_deg)
    row, col = land.lattice.row_col(np.array([lat_deg]), np.array([lon_deg]))
    # A tenth more, since sides change with latitude and need not stand quite square.
    row_span, col_span = (
        int(np.ceil(1.1 * reach_m / row_m)) + 1,
        int(np.ceil(1.1 * reach_m / col_m)) + 1,
    )
    row_from, row_to = (
        max(round(row[0]) - row_span, 0),
        min(round(row[0]) + row_span + 1, land.cell.shape[0]),
    )
    col_from, col_to = (
        max(round(col[0]) - col_span, 0),
        min(round(col[0]) + col_span + 1, land.cell.shape[1]),
    )
    empty = np.zeros(0)
    if row_to <= row_from or col_to <= col_from:
        return Surroundings(distance_m=empty, height_m=empty, lat_deg=empty, lon_deg=empty)
    part = land.cell[row_from:row_to, col_from:col_to]
    heights = land.heights_m[row_from:row_to, col_from:col_to]
    is_wanted: BoolArray = np.isin(part, [int(kind) for kind in kinds])
    is_wanted &= np.isfinite(heights) | np.isin(part, [int(kind) for kind in UNKNOWN])
    rows, cols = np.nonzero(is_wanted)
    lats, lons = land.lattice.lat_lon(
        rows.astype(np.float64) + row_from, cols.astype(np.float64) + col_from
    )
    east, north = metres_from(lats, lons, from_lat_deg=lat_deg, from_lon_deg=lon_deg)
    distance = np.hypot(east, north)
    near = distance <= reach_m
    return Surroundings(
        distance_m=distance[near],
        height_m=np.asarray(heights[rows[near], cols[near]], dtype=np.float64),
        lat_deg=lats[near],
        lon_deg=lons[near],
    )


def is_known_low(
    land: LandModel, *, lat_deg: float, lon_deg: float, height_m: float, rules: PlanRules
) -> bool:
    """Whether a thing of that height is lower than anything a line is laid on, for all we know.

    With heights missing beside it, it may be higher.
    """
    if height_m >= rules.least_height_m:
        return False
    missing = cells_around(
        land, lat_deg=lat_deg, lon_deg=lon_deg, reach_m=rules.height_reach_m, kinds=UNKNOWN
    )
    return missing.distance_m.size == 0


def highest_within_m(land: LandModel, *, lat_deg: float, lon_deg: float, reach_m: float) -> float:
    """Greatest height of land within a distance, m; 0 where there is none."""
    around = cells_around(land, lat_deg=lat_deg, lon_deg=lon_deg, reach_m=reach_m)
    return float(np.max(around.height_m, initial=0.0))
