"""Rhumb lines (lines of constant course) on the WGS-84 ellipsoid."""

import math

import numpy as np

from core.base.angles import wrap_360_deg
from core.base.arrays import FloatArray

_A_M = 6_378_137.0
_F = 1.0 / 298.257223563
_E2 = _F * (2.0 - _F)
_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(24)
_PANEL_RAD = math.radians(4.0)


def _meridian_radius_m(lat_rad: FloatArray) -> FloatArray:
    return np.asarray(_A_M * (1.0 - _E2) / (1.0 - _E2 * np.sin(lat_rad) ** 2) ** 1.5)


def _parallel_radius_m(lat_rad: FloatArray) -> FloatArray:
    return np.asarray(_A_M * np.cos(lat_rad) / np.sqrt(1.0 - _E2 * np.sin(lat_rad) ** 2))


def _integrals(from_rad: float, to_rad: float) -> tuple[float, float]:
    """Meridian arc in m and difference of isometric latitude in rad between two latitudes.

    Both are integrated over the same nodes (Gauss-Legendre, panels of 4 deg), so that their
    ratio keeps full precision however close the latitudes are.
    """
    panels = max(1, math.ceil(abs(to_rad - from_rad) / _PANEL_RAD))
    edges = np.linspace(from_rad, to_rad, panels + 1)
    half = (edges[1:] - edges[:-1]) / 2.0
    lats = edges[:-1, None] + half[:, None] * (1.0 + _NODES[None, :])
    meridian = _meridian_radius_m(lats)
    arc_m = float(np.sum(meridian @ _WEIGHTS * half))
    isometric = float(np.sum((meridian / _parallel_radius_m(lats)) @ _WEIGHTS * half))
    return arc_m, isometric


def _lat_after_rad(from_rad: float, arc_m: float) -> float:
    """Latitude reached after a distance along the meridian, by Newton's method."""
    lat = from_rad + arc_m / _A_M
    for _ in range(8):
        done_m, _iso = _integrals(from_rad, lat)
        step = (arc_m - done_m) / float(_meridian_radius_m(np.asarray(lat)))
        lat += step
        if abs(step) < 1e-14:
            break
    return lat


def inverse(
    *, from_lat_deg: float, from_lon_deg: float, to_lat_deg: float, to_lon_deg: float
) -> tuple[float, float]:
    """Distance and course of the rhumb line that takes the shorter way round.

    Parameters
    ----------
    from_lat_deg, from_lon_deg, to_lat_deg, to_lon_deg : float
        Positions, deg; latitudes strictly inside the poles.

    Returns
    -------
    distance_m, course_deg : float
        Length in m; course deg true in [0, 360), 0 for no distance.

    Notes
    -----
    course = atan2(dlon, dq), distance = |dM / cos course|, with M the meridian arc and q the
    isometric latitude; near a parallel distance = hypot(dlon, dq) dM/dq. Within 1 mm of
    GeographicLib 2.1.2 (tests/outside/test_geographiclib.py).
    """
    lat1, lat2 = math.radians(from_lat_deg), math.radians(to_lat_deg)
    dlon = math.radians((to_lon_deg - from_lon_deg + 180.0) % 360.0 - 180.0)
    arc_m, isometric = _integrals(lat1, lat2)
    radius_m = arc_m / isometric if isometric else float(_parallel_radius_m(np.asarray(lat1)))
    course = wrap_360_deg(math.degrees(math.atan2(dlon, isometric)))
    return math.hypot(dlon, isometric) * radius_m, course


def direct(
    *, lat_deg: float, lon_deg: float, course_deg: float, distance_m: float
) -> tuple[float, float]:
    """Where a rhumb line leads; negative distances run backwards.

    Returns
    -------
    lat_deg, lon_deg : float
        End of the line, deg; the longitude is not wrapped.

    Raises
    ------
    ValueError
        The line would run over a pole.
    """
    lat1 = math.radians(lat_deg)
    course = math.radians(course_deg)
    lat2 = _lat_after_rad(lat1, distance_m * math.cos(course))
    if abs(lat2) >= math.pi / 2.0:
        raise ValueError(f"rhumb line from latitude {lat_deg} runs over the pole")
    arc_m, isometric = _integrals(lat1, lat2)
    radius_m = arc_m / isometric if isometric else float(_parallel_radius_m(np.asarray(lat1)))
    dlon = distance_m * math.sin(course) / radius_m
    return math.degrees(lat2), lon_deg + math.degrees(dlon)
