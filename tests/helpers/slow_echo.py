"""What an antenna lights, worked out the slow way for checking the echo sweep.

Written apart from the program's kernels: pyproj's geodesic points, bilinear heights in plain
numpy, running maximum of slopes over an Earth of radius k x 6 371 000 m, no cell passed over.
"""

from dataclasses import dataclass

import numpy as np
from pyproj import Geod

from core.geodesy.position import Position
from core.land.land_model import LandModel
from tests.helpers.independent_ray import _heights

_GEOD = Geod(ellps="WGS84")


@dataclass(frozen=True, kw_only=True)
class SlowEcho:
    """Sums and means by bearing and range cell, (B, N) arrays; see ``EchoField``."""

    face_m: np.ndarray
    height_m: np.ndarray
    span_m: np.ndarray
    has_water: np.ndarray


def slow_echo(
    land: LandModel,
    position: Position,
    *,
    antenna_height_m: float,
    refraction_k: float,
    radius_m: float,
    cell_m: float,
    bearings_deg: np.ndarray,
    step_m: float,
) -> SlowEcho:
    """One ray a bearing, sampled each ``step_m``."""
    ranges = np.arange(step_m, radius_m + step_m / 2.0, step_m)
    cells = np.minimum(((ranges - step_m / 2.0) / cell_m).astype(int), round(radius_m / cell_m) - 1)
    drop = ranges / (2.0 * refraction_k * 6_371_000.0)
    count = round(radius_m / cell_m)
    out = np.zeros((4, bearings_deg.size, count))
    for b, bearing in enumerate(bearings_deg):
        lon, lat, _ = _GEOD.fwd(
            np.full(ranges.size, position.lon_deg),
            np.full(ranges.size, position.lat_deg),
            np.full(ranges.size, bearing),
            ranges,
        )
        z = _heights(land, np.asarray(lat), np.asarray(lon))
        slope = (z - antenna_height_m) / ranges - drop
        before = np.concatenate([[-np.inf], np.maximum.accumulate(slope)[:-1]])
        is_lit = slope > before
        lit = is_lit & (z > 0.0) & np.isfinite(before)
        piece = np.where(lit, (ranges - step_m / 2.0) * (slope - np.where(lit, before, 0.0)), 0.0)
        out[0, b] = np.bincount(cells, piece, count)
        out[1, b] = np.bincount(cells, piece * z, count)
        out[2, b] = np.bincount(cells, piece * z * z, count)
        out[3, b] = np.bincount(cells, is_lit & (z <= 0.0), count)
    with np.errstate(invalid="ignore", divide="ignore"):
        mean = out[1] / out[0]
        spread = out[2] / out[0] - mean * mean
    return SlowEcho(
        face_m=out[0],
        height_m=mean,
        span_m=np.sqrt(12.0 * np.maximum(spread, 0.0)),
        has_water=out[3] > 0.0,
    )
