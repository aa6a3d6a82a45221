"""The shoreline rule, a cross-check beside the detection model: visible height R^2 / 12."""

import math

from core.base.units import m_from_nm, nm_from_m
from core.radar.refraction import radar_horizon_m

SHORE_RANGE_RATIO = 12.0
"""R in NM, visible height in m: the three shorelines that IMO MSC.192(79) asks for (60 m at 20 NM,
6 m at 8 NM, 3 m at 6 NM, antenna 15 m) fit R^2 / 12 (job.md 4.1.5, a fit of our own)."""


def shoreline_range_m(*, antenna_m: float, shore_m: float, refraction_k: float) -> float:
    """Range at which what the horizon leaves of a shoreline is R^2 / 12 high, m.

    Parameters
    ----------
    antenna_m, shore_m : float
        Heights above the water, m, >= 0.
    refraction_k : float
        k, bare, > 0.

    Notes
    -----
    ``h - (R - d)^2 / c^2 = R^2 / 12`` beyond the antenna's own horizon d, with c the horizon of
    one root metre; within it the whole height shows (job.md 4.1.3, 4.1.5).
    """
    own_nm = nm_from_m(float(radar_horizon_m(antenna_m, refraction_k)))
    root_nm = nm_from_m(float(radar_horizon_m(1.0, refraction_k)))
    whole_nm = math.sqrt(SHORE_RANGE_RATIO * max(shore_m, 0.0))
    if whole_nm <= own_nm:
        return m_from_nm(whole_nm)
    # (1/12 + 1/c^2) R^2 - 2 d / c^2 R + d^2 / c^2 - h = 0, the farther root.
    a = 1.0 / SHORE_RANGE_RATIO + 1.0 / root_nm**2
    half_b = own_nm / root_nm**2
    last = (own_nm / root_nm) ** 2 - shore_m
    return m_from_nm((half_b + math.sqrt(half_b**2 - a * last)) / a)


def horizon_range_m(*, antenna_m: float, shore_m: float, refraction_k: float) -> float:
    """Distance at which antenna and shore see each other over open sea, m (job.md 4.1.1)."""
    return float(radar_horizon_m(antenna_m, refraction_k) + radar_horizon_m(shore_m, refraction_k))
