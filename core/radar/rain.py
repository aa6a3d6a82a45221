"""Rain: what it takes from an echo, and what it sends back itself."""

import math

import numpy as np

from core.base.arrays import FloatArray, Floats
from core.base.constants import SPEED_OF_LIGHT_MPS
from core.radar.radar_set import Polarisation

RAIN_TOP_M = 3000.0
"""Height of the rain's top above the sea, m: the freezing level of middle latitudes (memory)."""

_Terms = tuple[tuple[float, float, float], ...]

# ITU-R P.838-3, tables 1 to 4: (a_j, b_j, c_j) of the sum, then slope and constant.
_LOG_K: dict[Polarisation, tuple[_Terms, float, float]] = {
    Polarisation.HORIZONTAL: (
        (
            (-5.33980, -0.10008, 1.13098),
            (-0.35351, 1.26970, 0.45400),
            (-0.23789, 0.86036, 0.15354),
            (-0.94158, 0.64552, 0.16817),
        ),
        -0.18961,
        0.71147,
    ),
    Polarisation.VERTICAL: (
        (
            (-3.80595, 0.56934, 0.81061),
            (-3.44965, -0.22911, 0.51059),
            (-0.39902, 0.73042, 0.11899),
            (0.50167, 1.07319, 0.27195),
        ),
        -0.16398,
        0.63297,
    ),
}
_ALPHA: dict[Polarisation, tuple[_Terms, float, float]] = {
    Polarisation.HORIZONTAL: (
        (
            (-0.14318, 1.82442, -0.55187),
            (0.29591, 0.77564, 0.19822),
            (0.32177, 0.63773, 0.13164),
            (-5.37610, -0.96230, 1.47828),
            (16.1721, -3.29980, 3.43990),
        ),
        0.67849,
        -1.95537,
    ),
    Polarisation.VERTICAL: (
        (
            (-0.07771, 2.33840, -0.76284),
            (0.56727, 0.95545, 0.54039),
            (-0.20238, 1.14520, 0.26809),
            (-48.2991, 0.791669, 0.116226),
            (48.5833, 0.791459, 0.116479),
        ),
        -0.053739,
        0.83433,
    ),
}


def _sum(table: tuple[_Terms, float, float], log_ghz: float) -> float:
    terms, slope, constant = table
    return (
        sum(a * math.exp(-(((log_ghz - b) / c) ** 2)) for a, b, c in terms)
        + slope * log_ghz
        + constant
    )


def rain_coefficients(
    frequency_hz: float,
    polarisation: Polarisation,
    *,
    elevation_deg: float = 0.0,
    tilt_deg: float | None = None,
) -> tuple[float, float]:
    """Coefficients k and alpha of ``gamma = k R^alpha``, dB/km with R in mm/h (ITU-R P.838-3).

    Parameters
    ----------
    frequency_hz : float
        Frequency, Hz, 1e9 to 1e12.
    polarisation : Polarisation
        Taken where no tilt is given.
    elevation_deg : float
        Elevation of the path, deg.
    tilt_deg : float, optional
        Tilt of the polarisation from horizontal, deg; 45 stands for circular.
    """
    log_ghz = math.log10(frequency_hz / 1e9)
    k_h, k_v = (10.0 ** _sum(_LOG_K[p], log_ghz) for p in Polarisation)
    alpha_h, alpha_v = (_sum(_ALPHA[p], log_ghz) for p in Polarisation)
    if tilt_deg is None:
        tilt_deg = 0.0 if polarisation is Polarisation.HORIZONTAL else 90.0
    mix = math.cos(math.radians(elevation_deg)) ** 2 * math.cos(math.radians(2.0 * tilt_deg))
    k = (k_h + k_v + (k_h - k_v) * mix) / 2.0
    alpha = (k_h * alpha_h + k_v * alpha_v + (k_h * alpha_h - k_v * alpha_v) * mix) / (2.0 * k)
    return k, alpha


def rain_loss_db(
    frequency_hz: float, polarisation: Polarisation, rain_mm_h: float, range_m: Floats
) -> FloatArray:
    """Loss of an echo to rain all along the path, there and back, dB, >= 0.

    Parameters
    ----------
    frequency_hz : float
        Frequency, Hz.
    polarisation : Polarisation
        Polarisation of the antenna.
    rain_mm_h : float
        Rate of rain, mm/h, >= 0, the same everywhere.
    range_m : array
        Length of the path in rain, m.
    """
    k, alpha = rain_coefficients(frequency_hz, polarisation)
    db_per_km = k * rain_mm_h**alpha if rain_mm_h > 0.0 else 0.0
    return np.asarray(2.0 * db_per_km * np.asarray(range_m, np.float64) / 1000.0)


def rain_reflectivity(frequency_hz: float, rain_mm_h: float) -> float:
    """Radar cross-section of a cubic metre of rain, m2/m3 (handbook 6.5).

    ``pi^5 |K|^2 Z / lambda^4`` with ``Z = 200 R^1.6`` mm6/m3 and ``|K|^2 = 0.93``; linear
    polarisation, drops far smaller than the wave.
    """
    wavelength_m = SPEED_OF_LIGHT_MPS / frequency_hz
    drops = 200.0 * rain_mm_h**1.6 * 1e-18  # mm6 to m6
    return float(math.pi**5 * 0.93 * drops / wavelength_m**4)
