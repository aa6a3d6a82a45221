"""Exact conversions between SI inside and nautical units at the edges."""

from core.base.constants import NAUTICAL_MILE_M


def nm_from_m(distance_m: float) -> float:
    """Nautical miles from metres; 1 NM is 1852 m exactly."""
    return distance_m / NAUTICAL_MILE_M


def m_from_nm(distance_nm: float) -> float:
    """Metres from nautical miles."""
    return distance_nm * NAUTICAL_MILE_M


def kn_from_mps(speed_mps: float) -> float:
    """Knots from metres per second."""
    return speed_mps * 3600.0 / NAUTICAL_MILE_M


def mps_from_kn(speed_kn: float) -> float:
    """Metres per second from knots."""
    return speed_kn * NAUTICAL_MILE_M / 3600.0
