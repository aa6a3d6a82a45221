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


def _integrals(from_rad: float, to_rad: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Meridian arcs in m and differences of isometric latitude in rad from one latitude to others.

    Both are integrated over the same nodes (Gauss-Legendre, panels of 4 deg at most), so that
    their ratio keeps full precision however close the latitudes are.
    """
    span = to_rad - from_rad
    panels = max(1, math.ceil(float(np.max(np.abs(span), initial=0.0)) / _PANEL_RAD))
    half = span / (2.0 * panels)
    # Nodes of all panels as shares of the span, (panels * 24,).
    shares = ((np.arange(panels)[:, None] + (1.0 + _NODES) / 2.0) / panels).ravel()
    weights = np.tile(_WEIGHTS, panels)
    lats = from_rad + span[:, None] * shares
    meridian = _meridian_radius_m(lats)
    arc_m = np.sum(meridian * weights, axis=1) * half
    isometric = np.sum(meridian / _parallel_radius_m(lats) * weights, axis=1) * half
    return arc_m, isometric


def _lats_after_rad(from_rad: float, arc_m: FloatArray) -> FloatArray:
    """Latitudes reached after distances along the meridian, by Newton's method."""
    lats = from_rad + arc_m / _A_M
    for _ in range(8):
        done_m, _iso = _integrals(from_rad, lats)
        step = (arc_m - done_m) / _meridian_radius_m(lats)
        lats = lats + step
        if float(np.max(np.abs(step), initial=0.0)) < 1e-14:
            break
    return lats


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
    arcs_m, isometrics = _integrals(lat1, np.array([lat2]))
    arc_m, isometric = float(arcs_m[0]), float(isometrics[0])
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
    lats, lons = direct_many(
        lat_deg=lat_deg, lon_deg=lon_deg, course_deg=course_deg, distance_m=np.array([distance_m])
    )
    return float(lats[0]), float(lons[0])


def direct_many(
    *, lat_deg: float, lon_deg: float, course_deg: float, distance_m: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Places at distances along one rhumb line.

    Parameters
    ----------
    lat_deg, lon_deg, course_deg : float
        Start and course, deg.
    distance_m : (n,) array
        Any sign, m.

    Returns
    -------
    lat_deg, lon_deg : (n,) arrays
        deg; longitudes are not wrapped.

    Raises
    ------
    ValueError
        The line would run over a pole.
    """
    lat1 = math.radians(lat_deg)
    course = math.radians(course_deg)
    lats = _lats_after_rad(lat1, distance_m * math.cos(course))
    if np.any(np.abs(lats) >= math.pi / 2.0):
        raise ValueError(f"rhumb line from latitude {lat_deg} runs over the pole")
    arc_m, isometric = _integrals(lat1, lats)
    is_level = isometric == 0.0
    radius_m = np.where(
        is_level, _parallel_radius_m(np.asarray(lat1)), arc_m / np.where(is_level, 1.0, isometric)
    )
    dlon = distance_m * math.sin(course) / radius_m
    return np.degrees(lats), lon_deg + np.degrees(dlon)
