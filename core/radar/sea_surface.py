"""The sea as a mirror: how it reflects, and how waves spoil the reflection."""

import math

import numpy as np
from numpy.typing import NDArray
from scipy import special

from core.base.arrays import FloatArray, Floats
from core.radar.radar_set import Polarisation

ComplexArray = NDArray[np.complex128]

CALMEST, ROUGHEST = 0.0, 6.0
"""Sea states the clutter model holds for (NRL/MR/5310--12-9346)."""

_VACUUM_F_PER_M = 8.8541878128e-12
_WATER_DEGC, _WATER_PSU = 15.0, 35.0


def sea_permittivity(frequency_hz: float) -> complex:
    """Relative permittivity of sea water of 15 C and 35 psu, eps' - j eps''.

    Single Debye relaxation of Klein and Swift, 1977 (coefficients from memory, handbook 5.3).
    At grazing angles of a degree and below the answer hardly matters: the sea reflects all.
    """
    t, s = _WATER_DEGC, _WATER_PSU
    static = (87.134 - 1.949e-1 * t - 1.276e-2 * t**2 + 2.491e-4 * t**3) * (
        1.0 + 1.613e-5 * s * t - 3.656e-3 * s + 3.210e-5 * s**2 - 4.232e-7 * s**3
    )
    relaxation_s = (1.768e-11 - 6.086e-13 * t + 1.104e-14 * t**2 - 8.111e-17 * t**3) * (
        1.0 + 2.282e-5 * s * t - 7.638e-4 * s - 7.760e-6 * s**2 + 1.105e-8 * s**3
    )
    omega = 2.0 * math.pi * frequency_hz
    loss = sea_conductivity() / (omega * _VACUUM_F_PER_M)
    return 4.9 + (static - 4.9) / (1.0 + 1j * omega * relaxation_s) - 1j * loss


def sea_conductivity() -> float:
    """Ionic conductivity of that water, S/m (the same source)."""
    s, below = _WATER_PSU, 25.0 - _WATER_DEGC
    at_25 = s * (0.182521 - 1.46192e-3 * s + 2.09324e-5 * s**2 - 1.28205e-7 * s**3)
    fall = (
        2.033e-2
        + 1.266e-4 * below
        + 2.464e-6 * below**2
        - s * (1.849e-5 - 2.551e-7 * below + 2.551e-8 * below**2)
    )
    return at_25 * math.exp(-below * fall)


def effective_conductivity(frequency_hz: float, permittivity: complex) -> float:
    """Conductivity that stands for all the losses of a permittivity, S/m."""
    return -permittivity.imag * 2.0 * math.pi * frequency_hz * _VACUUM_F_PER_M


def mirror_coefficient(
    grazing_rad: Floats, permittivity: complex, polarisation: Polarisation
) -> ComplexArray:
    """Fresnel's reflection coefficient of a smooth sea (handbook 5.2), -1 at grazing.

    ``(sin - q) / (sin + q)`` horizontal, ``(eps sin - q) / (eps sin + q)`` vertical, with
    ``q = sqrt(eps - cos^2)``.

    Parameters
    ----------
    grazing_rad : array
        Angle between ray and surface, rad.
    permittivity : complex
        eps, relative.
    polarisation : Polarisation
        Direction of the field.
    """
    angle = np.asarray(grazing_rad, np.float64)
    sine = np.sin(angle)
    q = np.sqrt(permittivity - np.cos(angle) ** 2 + 0j)
    first = sine if polarisation is Polarisation.HORIZONTAL else permittivity * sine
    return np.asarray((first - q) / (first + q))


def wave_height_m(sea_state: float) -> float:
    """Significant wave height of a sea state, m.

    ``0.04 + 0.1 SS^2.1`` (NRL/MR/5310--12-9346); sea state 0 is taken as glassy, without waves.
    """
    return 0.04 + 0.1 * sea_state**2.1 if sea_state > 0.0 else 0.0


def rms_height_m(sea_state: float) -> float:
    """Standard deviation of the surface of a sea state, m: a quarter of the wave height."""
    return wave_height_m(sea_state) / 4.0


def roughness_ratio(rms_m: float, grazing_rad: Floats, wavelength_m: float) -> FloatArray:
    """Share of the mirror reflection that waves leave (Miller and Brown, handbook 5.3).

    ``exp(-x) I0(x)`` with ``x = 2 (2 pi s sin / lambda)^2``.
    """
    x = 2.0 * (2.0 * math.pi * rms_m * np.sin(np.asarray(grazing_rad)) / wavelength_m) ** 2
    return np.asarray(special.ive(0, x))


def smooth_beyond_m(antenna_height_m: float, wave_m: float, wavelength_m: float) -> float:
    """Range beyond which waves of a height look smooth to the radar, m (flat sea).

    Rayleigh: ``8 dh sin < lambda``. About where sea clutter ends.
    """
    return 8.0 * antenna_height_m * wave_m / wavelength_m
