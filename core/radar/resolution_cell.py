"""The beam and the pulse: what one cell of bearing and range holds."""

import math

import numpy as np
from scipy import special

from core.base.arrays import FloatArray, Floats
from core.base.constants import EARTH_RADIUS_M

_GAUSS_PER_WIDTH2 = 4.0 * math.log(2.0)
"""One-way power of a Gaussian beam: exp(-this (angle / width)^2), half at half a width."""

TWO_WAY_WIDTH_RATIO = math.sqrt(math.pi / (2.0 * _GAUSS_PER_WIDTH2))
"""Width that holds a Gaussian beam's two-way power, over its one-way half-power width: 0.753.

The common round figure is 1 / sqrt 2, 0.27 dB less; with this one surface and rain agree, whose
volume holds its square, pi / (8 ln 2).
"""


def effective_width_rad(beamwidth_deg: float) -> float:
    """Width over which echoes of spread scatterers add up, both ways, rad."""
    return math.radians(beamwidth_deg) * TWO_WAY_WIDTH_RATIO


def beam_gain_db(off_axis_deg: Floats, beamwidth_deg: float) -> FloatArray:
    """Gain off the axis of a Gaussian beam beside that on it, one way, dB, <= 0.

    ``exp(-2.773 (e / width)^2)`` as power (handbook 4.1).
    """
    ratio = np.asarray(off_axis_deg, np.float64) / beamwidth_deg
    return np.asarray(-10.0 / math.log(10.0) * _GAUSS_PER_WIDTH2 * ratio * ratio)


def elevation_rad(
    range_m: Floats, antenna_height_m: float, height_m: Floats, refraction_k: float
) -> FloatArray:
    """Angle above the horizontal at which the antenna sees a height, rad."""
    d = np.asarray(range_m, np.float64)
    rise = np.asarray(height_m, np.float64) - antenna_height_m
    return np.asarray(np.arctan(rise / d - d / (2.0 * refraction_k * EARTH_RADIUS_M)))


def surface_cell_m2(
    range_m: Floats,
    width_rad: float,
    depth_m: float,
    grazing_rad: Floats,
    height_rad: float = math.inf,
) -> FloatArray:
    """Area of surface in one cell, m2.

    ``R theta min(depth / cos psi, R phi / sin psi)`` (handbook 4.2): steep faces fill the beam's
    height before the pulse's depth.

    Parameters
    ----------
    range_m : array
        R, m.
    width_rad : float
        theta, width of the beam, rad: the effective one for sums of echoes.
    depth_m : float
        c tau / 2, m.
    grazing_rad : array
        psi, angle between ray and surface, rad.
    height_rad : float
        phi, height of the beam, rad.
    """
    d = np.asarray(range_m, np.float64)
    psi = np.abs(np.asarray(grazing_rad, np.float64))
    along = depth_m / np.maximum(np.cos(psi), 1e-9)
    if math.isfinite(height_rad):
        along = np.minimum(along, d * height_rad / np.maximum(np.sin(psi), 1e-9))
    return np.asarray(d * width_rad * along)


def rain_cell_m3(
    range_m: Floats,
    width_deg: float,
    height_deg: float,
    depth_m: float,
    *,
    antenna_height_m: float,
    top_m: float,
    refraction_k: float,
) -> FloatArray:
    """Volume of rain in one cell, weighted by the beam both ways, m3.

    ``R^2 theta phi (c tau / 2) pi / (8 ln 2)`` for a beam all in the rain (handbook 4.2); here
    the height is weighted between the sea's surface and the top of the rain, the rest as there.

    Parameters
    ----------
    range_m : array
        R, m.
    width_deg, height_deg : float
        Half-power widths of the beam, one way, deg.
    depth_m : float
        c tau / 2, m.
    antenna_height_m, top_m : float
        Heights of antenna and rain above the sea, m.
    refraction_k : float
        k, bare.
    """
    d = np.asarray(range_m, np.float64)
    width_m = d * effective_width_rad(width_deg)
    steep = math.sqrt(2.0 * _GAUSS_PER_WIDTH2) / math.radians(height_deg)
    high, low = (
        special.erf(steep * elevation_rad(d, antenna_height_m, h, refraction_k))
        for h in (top_m, 0.0)
    )
    height_m = d * effective_width_rad(height_deg) * (high - low) / 2.0
    return np.asarray(width_m * height_m * depth_m)
