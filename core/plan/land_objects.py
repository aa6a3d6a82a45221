"""Islets and rocks among the coast: closed waterlines small enough to index on."""

import numpy as np
import shapely

from core.base.arrays import FloatArray, IntArray
from core.land.land_model import LandModel
from core.plan.feature import Feature
from core.plan.plan_result import ObjectKind
from core.plan.rules import PlanRules
from core.plan.shore import cell_size_m, cells_around, metres_from
from core.plan.shore_rise import ShoreRise, middling_rise

_NEIGHBOUR_REACH_M = 5_000.0


def line_point_indices(land: LandModel) -> tuple[IntArray, ...]:
    """Numbers of the coast points of each coast line, in order along it."""
    if not land.coast.lines:
        return ()
    order = np.argsort(land.points.line, kind="stable")
    counts = np.bincount(land.points.line, minlength=len(land.coast.lines))
    return tuple(np.asarray(part) for part in np.split(order, np.cumsum(counts)[:-1]))


def extent_m(lat_deg: FloatArray, lon_deg: FloatArray) -> float:
    """Greatest distance between any two places of a small waterline, m."""
    east, north = metres_from(
        lat_deg, lon_deg, from_lat_deg=float(lat_deg[0]), from_lon_deg=float(lon_deg[0])
    )
    # The greatest width over 36 directions misses the true one by less than 0.1 %.
    angles = np.radians(np.arange(0.0, 180.0, 5.0))
    across = np.outer(np.cos(angles), east) + np.outer(np.sin(angles), north)
    return float(np.max(across.max(axis=1) - across.min(axis=1)))


def islets(land: LandModel, rules: PlanRules) -> tuple[Feature, ...]:
    """Closed coast lines smaller than an islet may be, in file order, however low."""
    found = []
    for number, indices in enumerate(line_point_indices(land)):
        line = land.coast.lines[number]
        if indices.size == 0 or not line.is_closed:
            continue
        size = extent_m(line.lat_deg, line.lon_deg)
        if size >= rules.islet_extent_m:
            continue
        found.append(_islet(land, rules, number=number, indices=indices, size_m=size))
    return tuple(found)


def _islet(
    land: LandModel, rules: PlanRules, *, number: int, indices: IntArray, size_m: float
) -> Feature:
    lat, lon = land.points.lat_deg[indices], land.points.lon_deg[indices]
    return Feature(
        key=f"line {number}",
        kind=ObjectKind.ROCK if size_m < rules.rock_extent_m else ObjectKind.ISLET,
        lat_deg=lat,
        lon_deg=lon,
        point_index=indices,
        height_m=_islet_height_m(land, number=number, indices=indices, size_m=size_m),
        rise=_islet_rise(land, rules, lat_deg=lat, lon_deg=lon, size_m=size_m),
        extent_m=size_m,
        rounding_m=size_m / 2.0,
        isolation_m=_isolation_m(land, number=number, lat_deg=lat, lon_deg=lon),
    )


def _islet_rise(
    land: LandModel,
    rules: PlanRules,
    *,
    lat_deg: FloatArray,
    lon_deg: FloatArray,
    size_m: float,
) -> ShoreRise | None:
    """How the shore of an islet rises, if it is more than a few cells wide."""
    cell_m = cell_size_m(land, lat_deg=float(lat_deg[0]), lon_deg=float(lon_deg[0]))
    if size_m < rules.islet_cells_ratio * cell_m:
        return None
    return middling_rise(land, lat_deg, lon_deg, rules)


def _islet_height_m(land: LandModel, *, number: int, indices: IntArray, size_m: float) -> float:
    """Greatest height of the cells inside an islet; of those at its shore where it is too small."""
    line = land.coast.lines[number]
    lat0, lon0 = float(line.lat_deg[0]), float(line.lon_deg[0])
    around = cells_around(land, lat_deg=lat0, lon_deg=lon0, reach_m=size_m)
    east, north = metres_from(line.lat_deg, line.lon_deg, from_lat_deg=lat0, from_lon_deg=lon0)
    cell_east, cell_north = metres_from(
        around.lat_deg, around.lon_deg, from_lat_deg=lat0, from_lon_deg=lon0
    )
    ring = shapely.Polygon(np.column_stack([east, north])) if line.lat_deg.size >= 4 else None
    inside = (
        shapely.contains_xy(ring, cell_east, cell_north)
        if ring is not None
        else np.zeros(cell_east.shape, dtype=np.bool_)
    )
    if np.any(inside):
        return float(np.max(around.height_m[inside]))
    return float(np.max(land.points.height_m[indices]))


def _isolation_m(
    land: LandModel, *, number: int, lat_deg: FloatArray, lon_deg: FloatArray
) -> float:
    """Distance from an islet's shore to the nearest other coast, m, up to 5 km."""
    others = land.points.line != number
    others &= np.abs(land.points.lat_deg - lat_deg[0]) < 2.0 * _NEIGHBOUR_REACH_M / 110_000.0
    lat0, lon0 = float(lat_deg[0]), float(lon_deg[0])
    east, north = metres_from(lat_deg, lon_deg, from_lat_deg=lat0, from_lon_deg=lon0)
    other_east, other_north = metres_from(
        land.points.lat_deg[others],
        land.points.lon_deg[others],
        from_lat_deg=lat0,
        from_lon_deg=lon0,
    )
    beside = np.hypot(other_east, other_north) < 2.0 * _NEIGHBOUR_REACH_M
    off = np.hypot(east[:, None] - other_east[beside], north[:, None] - other_north[beside])
    return float(np.min(off, initial=_NEIGHBOUR_REACH_M))
