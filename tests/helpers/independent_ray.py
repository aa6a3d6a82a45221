"""A line of sight of its own for checking plans: geodesic samples, plain numpy, no kernel.

Written apart from the program's kernels: pyproj's geodesic points each ``step_m`` along the
bearing, bilinear heights between cell centres by map_coordinates-like arithmetic, running
maximum of slopes over an Earth of radius k x 6 371 000 m.
"""

import numpy as np
from pyproj import Geod

from core.land.land_model import LandModel

_GEOD = Geod(ellps="WGS84")


def _heights(land: LandModel, lat: np.ndarray, lon: np.ndarray) -> np.ndarray:
    lattice = land.lattice
    row = (lattice.top_y - lat) / lattice.cell_y - 0.5
    col = (lon - lattice.left_x) / lattice.cell_x - 0.5
    r0 = np.clip(np.floor(row).astype(int), 0, lattice.rows - 2)
    c0 = np.clip(np.floor(col).astype(int), 0, lattice.cols - 2)
    fr, fc = np.clip(row - r0, 0, 1), np.clip(col - c0, 0, 1)
    z = land.heights_m.astype(float)
    top = z[r0, c0] * (1 - fc) + z[r0, c0 + 1] * fc
    low = z[r0 + 1, c0] * (1 - fc) + z[r0 + 1, c0 + 1] * fc
    return np.asarray(top * (1 - fr) + low * fr)


def land_in_sight_near(
    land: LandModel,
    *,
    from_lat_deg: float,
    from_lon_deg: float,
    to_lat_deg: float,
    to_lon_deg: float,
    antenna_height_m: float,
    refraction_k: float,
    within_m: float,
    target_height_m: float = 0.0,
    step_m: float = 10.0,
) -> bool:
    """Whether land within ``within_m`` of a place, on its bearing, is in line of sight.

    A target of the given height on the surface at the place itself counts too.
    """
    bearing, _back, distance = _GEOD.inv(from_lon_deg, from_lat_deg, to_lon_deg, to_lat_deg)
    ranges = np.arange(step_m, distance + within_m, step_m)
    lon, lat, _ = _GEOD.fwd(
        np.full(ranges.size, from_lon_deg),
        np.full(ranges.size, from_lat_deg),
        np.full(ranges.size, bearing),
        ranges,
    )
    z = _heights(land, np.asarray(lat), np.asarray(lon))
    drop = ranges / (2.0 * refraction_k * 6_371_000.0)
    slope = (z - antenna_height_m) / ranges - drop
    horizon = np.fmax.accumulate(np.concatenate([[-np.inf], slope[:-1]]))
    near = np.abs(ranges - distance) <= within_m
    if bool(np.any(near & (z > 0.0) & (slope >= horizon - 1e-7))):
        return True
    # Past the side of a headland's tip no land lies on the bearing: then the place itself counts.
    at = int(np.argmin(np.abs(ranges - distance)))
    top = (target_height_m + z[at] - antenna_height_m) / ranges[at] - drop[at]
    return bool(top >= horizon[at] - 1e-7)
