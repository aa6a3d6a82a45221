"""How much the sea itself sends back: the NRL model of 2012."""

import numpy as np

from core.base.arrays import FloatArray, Floats
from core.base.constants import EARTH_RADIUS_M
from core.radar.radar_set import Polarisation

# NRL/MR/5310--12-9346 (Gregers-Hansen and Mital, 2012), table 1.
_COEFFICIENTS = {
    Polarisation.HORIZONTAL: (-73.00, 20.78, 7.351, 25.65, 0.00540),
    Polarisation.VERTICAL: (-50.79, 25.93, 0.7093, 21.58, 0.00211),
}
_STEEPEST_DEG = 60.0
_LEAST_RAD = 1e-7


def sea_grazing_rad(range_m: Floats, antenna_height_m: float, refraction_k: float) -> FloatArray:
    """Angle at which the antenna's ray meets the sea, rad; 0 and less beyond the horizon.

    ``asin(h / R - R / (2 k a))``.
    """
    d = np.asarray(range_m, np.float64)
    sine = antenna_height_m / d - d / (2.0 * refraction_k * EARTH_RADIUS_M)
    return np.asarray(np.arcsin(np.clip(sine, -1.0, 1.0)))


def sea_reflectivity_db(
    frequency_hz: float, sea_state: float, grazing_rad: Floats, polarisation: Polarisation
) -> FloatArray:
    """Radar cross-section of a square metre of sea, sigma0, dB m2/m2, mean over wind directions.

    ``c1 + c2 log sin psi + (27.5 + c3 psi) log f / (1 + 0.95 psi)
    + c4 (1 + SS)^(1 / (2 + 0.085 psi + 0.033 SS)) + c5 psi^2`` with psi in deg and f in GHz
    (NRL/MR/5310--12-9346, equation 7); 0.5 to 35 GHz, sea state 0 to 6, 0.1 to 60 deg. Mean
    deviation from the measured table it was fitted to: 2.3 dB horizontal, 2.2 dB vertical to
    10 deg. Below 0.1 deg the same law is followed, which keeps more clutter than there may be;
    above 60 deg its value at 60; at and below 0 nothing. Measured values hold propagation over
    the sea already, so it is not to be multiplied by F^4.

    Parameters
    ----------
    frequency_hz : float
        Frequency, Hz.
    sea_state : float
        Sea state, bare, 0 to 6.
    grazing_rad : array
        psi, rad.
    polarisation : Polarisation
        Direction of the field.
    """
    c1, c2, c3, c4, c5 = _COEFFICIENTS[polarisation]
    grazing = np.asarray(grazing_rad, np.float64)
    held = np.clip(grazing, _LEAST_RAD, np.radians(_STEEPEST_DEG))
    psi = np.degrees(held)
    sigma0_db = (
        c1
        + c2 * np.log10(np.sin(held))
        + (27.5 + c3 * psi) * np.log10(frequency_hz / 1e9) / (1.0 + 0.95 * psi)
        + c4 * (1.0 + sea_state) ** (1.0 / (2.0 + 0.085 * psi + 0.033 * sea_state))
        + c5 * psi * psi
    )
    return np.asarray(np.where(grazing > 0.0, sigma0_db, -np.inf))
