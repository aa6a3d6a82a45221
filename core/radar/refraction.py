"""How the air bends radar rays: the factor k, its gradient, and the horizon that follows."""

from dataclasses import dataclass

import numpy as np

from core.base.arrays import FloatArray, Floats
from core.base.constants import EARTH_RADIUS_M

DUCTING_GRADIENT_PER_KM = -157.0
"""Gradient of refractivity below which rays are trapped, N units a km (handbook 1.1).

Ranges are not predicted then; only a warning is due.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class RefractionClass:
    """A named state of the air and its k; limits of classes are from memory (handbook 1.4)."""

    name: str
    refraction_k: float


REFRACTION_CLASSES = (
    RefractionClass(name="weak (no refraction)", refraction_k=1.0),
    RefractionClass(name="standard", refraction_k=4.0 / 3.0),
    RefractionClass(name="strong", refraction_k=2.0),
)
"""Those plans are worked out for, weakest first."""


def radar_horizon_m(height_m: Floats, refraction_k: float) -> FloatArray:
    """Distance of the horizon over open sea of an antenna or target, m.

    ``sqrt(2 k a h)``: 2.2256 NM a root metre at k 4/3 (handbook 1.2).

    Parameters
    ----------
    height_m : array
        h, height above the water, m; below zero counts as zero.
    refraction_k : float
        k, bare, > 0.
    """
    height = np.maximum(np.asarray(height_m, np.float64), 0.0)
    return np.asarray(np.sqrt(2.0 * refraction_k * EARTH_RADIUS_M * height))


def k_of_gradient(gradient_per_km: Floats) -> FloatArray:
    """Factor k from the gradient of refractivity with height.

    ``k = 1 / (1 + a dN/dh 1e-6)``, a in km (definition of ITU-R P.310, from memory). Negative
    where the ray bends more than the Earth: ducting, see ``DUCTING_GRADIENT_PER_KM``.

    Parameters
    ----------
    gradient_per_km : array
        dN/dh, N units a km of height; -39.24 is k 4/3.
    """
    gradient = np.asarray(gradient_per_km, np.float64)
    return np.asarray(1.0 / (1.0 + EARTH_RADIUS_M / 1000.0 * gradient * 1e-6))


def gradient_of_k(refraction_k: Floats) -> FloatArray:
    """Gradient of refractivity, N units a km, that makes a factor k; the inverse of the above."""
    k = np.asarray(refraction_k, np.float64)
    return np.asarray((1.0 / k - 1.0) / (EARTH_RADIUS_M / 1000.0 * 1e-6))


def vapour_pressure_hpa(pressure_hpa: float, temperature_degc: float) -> float:
    """Pressure of saturated water vapour, hPa (ITU-R P.453-14, over water).

    ``EF 6.1121 exp((18.678 - t / 234.5) t / (t + 257.14))`` with
    ``EF = 1 + 1e-4 (7.2 + P (0.0320 + 5.9e-6 t^2))``.
    """
    t = temperature_degc
    enhancement = 1.0 + 1e-4 * (7.2 + pressure_hpa * (0.0320 + 5.9e-6 * t * t))
    return float(enhancement * 6.1121 * np.exp((18.678 - t / 234.5) * t / (t + 257.14)))


def refractivity(pressure_hpa: float, temperature_degc: float, humidity_ratio: float) -> float:
    """Refractivity N of air, N units (ITU-R P.453-14).

    ``77.6 P_d / T + 72 e / T + 3.75e5 e / T^2`` with the vapour pressure e and the dry air's
    P_d in hPa, T in K.
    """
    kelvin = temperature_degc + 273.15
    vapour_hpa = humidity_ratio * vapour_pressure_hpa(pressure_hpa, temperature_degc)
    dry_hpa = pressure_hpa - vapour_hpa
    return 77.6 * dry_hpa / kelvin + 72.0 * vapour_hpa / kelvin + 3.75e5 * vapour_hpa / kelvin**2
