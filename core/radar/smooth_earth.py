"""Bending of radar waves round the smooth Earth (ITU-R P.526, section 3)."""

import math
from dataclasses import dataclass

import numpy as np

from core.base.arrays import FloatArray, Floats
from core.base.constants import SPEED_OF_LIGHT_MPS
from core.radar.radar_set import Polarisation


@dataclass(frozen=True, slots=True, kw_only=True)
class DiffractionScales:
    """What turns metres into the bare lengths of the residue series (P.526 3.1.1.2)."""

    x_per_m: float
    """X a metre of range."""
    b_per_m: float
    """beta Y a metre of height."""
    least_gain_db: float
    """Height gain at the surface itself, 2 + 20 log K, dB."""


def diffraction_scales(
    *,
    frequency_hz: float,
    earth_m: float,
    permittivity: float,
    conductivity_s_per_m: float,
    polarisation: Polarisation,
) -> DiffractionScales:
    """Scales of range and height from wave, Earth and surface; see ``first_term_loss_db``."""
    mhz, earth_km = frequency_hz / 1e6, earth_m / 1000.0
    loss = (18000.0 * conductivity_s_per_m / mhz) ** 2
    k = 0.36 * (earth_km * mhz) ** (-1.0 / 3.0)
    k *= ((permittivity - 1.0) ** 2 + loss) ** -0.25
    if polarisation is Polarisation.VERTICAL:
        k *= (permittivity**2 + loss) ** 0.5
    beta = (1.0 + 1.6 * k**2 + 0.67 * k**4) / (1.0 + 4.5 * k**2 + 1.53 * k**4)
    return DiffractionScales(
        x_per_m=2.188e-3 * beta * mhz ** (1.0 / 3.0) * earth_km ** (-2.0 / 3.0),
        b_per_m=9.575e-3 * beta * beta * mhz ** (2.0 / 3.0) * earth_km ** (-1.0 / 3.0),
        least_gain_db=2.0 + 20.0 * math.log10(k),
    )


def first_term_loss_db(
    range_m: Floats,
    antenna_height_m: Floats,
    height_m: Floats,
    *,
    frequency_hz: float,
    earth_m: float,
    permittivity: float,
    conductivity_s_per_m: float,
    polarisation: Polarisation,
) -> FloatArray:
    """Loss below free space by the first term of the residue series, one way, dB.

    ``-F(X) - G(Y1) - G(Y2)`` of P.526 3.1.1 (formulas as in P.452-17 4.2.2). Right beyond the
    horizon; inside it a term alone grows too large the nearer the range.

    Parameters
    ----------
    range_m, antenna_height_m, height_m : array
        Range along the sea and heights above it, m.
    frequency_hz : float
        Frequency, Hz.
    earth_m : float
        Effective radius of the Earth, m.
    permittivity, conductivity_s_per_m : float
        Of the surface: relative, and S/m.
    polarisation : Polarisation
        Direction of the field.
    """
    scales = diffraction_scales(
        frequency_hz=frequency_hz,
        earth_m=earth_m,
        permittivity=permittivity,
        conductivity_s_per_m=conductivity_s_per_m,
        polarisation=polarisation,
    )
    x = np.asarray(scales.x_per_m * np.asarray(range_m, np.float64))
    far = 11.0 + 10.0 * np.log10(x) - 17.6 * x
    near = -20.0 * np.log10(x) - 5.6488 * x**1.425
    by_range = np.where(x >= 1.6, far, near)
    own, other = (
        np.maximum(
            _height_gain_db(scales.b_per_m * np.asarray(h, np.float64)), scales.least_gain_db
        )
        for h in (antenna_height_m, height_m)
    )
    return np.asarray(-by_range - own - other)


def _height_gain_db(b: FloatArray) -> FloatArray:
    high = np.maximum(b, 2.0) - 1.1
    low = np.maximum(b, 1e-9)
    return np.where(
        b > 2.0,
        17.6 * np.sqrt(high) - 5.0 * np.log10(high) - 8.0,
        20.0 * np.log10(low + 0.1 * low**3),
    )


def smooth_earth_loss_db(
    range_m: float,
    antenna_height_m: float,
    height_m: float,
    *,
    frequency_hz: float,
    earth_m: float,
    permittivity: float,
    conductivity_s_per_m: float,
    polarisation: Polarisation,
) -> float:
    """Loss below free space over the smooth Earth, one way, dB, >= 0 (P.526 3.2, one path).

    Beyond the horizon the first term; inside it nothing where the path clears the bulge well
    enough, and a share of the first term of a lesser Earth else. It knows no lobes, so it is
    not for echoes over the sea: see ``over_sea.py``. ``delta_bullington_db`` needs it.
    """
    surface = {
        "frequency_hz": frequency_hz,
        "permittivity": permittivity,
        "conductivity_s_per_m": conductivity_s_per_m,
    }
    h1, h2, d = antenna_height_m, height_m, range_m
    horizon_m = math.sqrt(2.0 * earth_m) * (math.sqrt(h1) + math.sqrt(h2))
    if d >= horizon_m:
        beyond = first_term_loss_db(
            d, h1, h2, earth_m=earth_m, polarisation=polarisation, **surface
        )
        return max(float(beyond), 0.0)
    # The point of least clearance, and the clearance there (equations 24 to 26).
    m = d * d / (4.0 * earth_m * (h1 + h2))
    c = (h1 - h2) / (h1 + h2)
    turn = math.acos(3.0 * c / 2.0 * math.sqrt(3.0 * m / (m + 1.0) ** 3)) / 3.0
    b = 2.0 * math.sqrt((m + 1.0) / (3.0 * m)) * math.cos(math.pi / 3.0 + turn)
    d1 = d / 2.0 * (1.0 + b)
    d2 = d - d1
    clear_m = ((h1 - d1 * d1 / (2.0 * earth_m)) * d2 + (h2 - d2 * d2 / (2.0 * earth_m)) * d1) / d
    needed_m = 0.552 * math.sqrt(d1 * d2 * SPEED_OF_LIGHT_MPS / frequency_hz / d)
    if clear_m > needed_m:
        return 0.0
    lesser_m = 0.5 * (d / (math.sqrt(h1) + math.sqrt(h2))) ** 2
    loss = float(
        first_term_loss_db(d, h1, h2, earth_m=lesser_m, polarisation=polarisation, **surface)
    )
    return max((1.0 - clear_m / needed_m) * loss, 0.0)
