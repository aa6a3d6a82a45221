"""How strong the field is over open sea, beside free space: rule F3.

Two-ray where the paths differ by a quarter of a wave or more; nearer to the horizon the lesser of
two-ray and the first term of diffraction; beyond it the first term (handbook 5.6). Against the
exact mode sum on a smooth sphere, one way: 0.6 dB rms over 420 cases, antennas of 15 and 30 m,
targets of 1 to 60 m; at most 1.7 dB with 15 m and k 4/3, at most 2.9 dB anywhere, which is at
targets of 1 to 2 m deep in the weak zone before the horizon (tests/outside/test_mode_sum.py).
"""

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from core.base.arrays import FloatArray, Floats
from core.base.constants import EARTH_RADIUS_M, SPEED_OF_LIGHT_MPS, STANDARD_REFRACTION_K
from core.radar.radar_set import Polarisation
from core.radar.refraction import radar_horizon_m
from core.radar.sea_surface import (
    effective_conductivity,
    mirror_coefficient,
    roughness_ratio,
    sea_permittivity,
)
from core.radar.smooth_earth import first_term_loss_db
from core.radar.two_ray import mirror_point

LOWEST_DB = -200.0
"""Least factor given, dB one way: deep enough to be nothing, and finite."""
_QUARTER = 0.25


@dataclass(frozen=True, kw_only=True)
class OverSea:
    """Everything but range and target that the field over the sea depends on."""

    antenna_height_m: float
    frequency_hz: float
    refraction_k: float = STANDARD_REFRACTION_K
    rms_wave_m: float = 0.0
    """Standard deviation of the sea's surface, m; 0 is a mirror."""
    polarisation: Polarisation = Polarisation.HORIZONTAL

    @property
    def wavelength_m(self) -> float:
        """Wavelength, m."""
        return SPEED_OF_LIGHT_MPS / self.frequency_hz

    @property
    def earth_m(self) -> float:
        """Effective radius of the Earth, m."""
        return self.refraction_k * EARTH_RADIUS_M

    @cached_property
    def permittivity(self) -> complex:
        """Relative permittivity of the water."""
        return sea_permittivity(self.frequency_hz)

    @cached_property
    def conductivity(self) -> float:
        """Conductivity that stands for all losses of the water, S/m."""
        return effective_conductivity(self.frequency_hz, self.permittivity)


def sea_horizon_m(sea: OverSea, height_m: Floats) -> FloatArray:
    """Range at which a target of a height goes below the horizon, m."""
    own = radar_horizon_m(sea.antenna_height_m, sea.refraction_k)
    return np.asarray(own + radar_horizon_m(height_m, sea.refraction_k))


def two_ray_factor_db(sea: OverSea, range_m: Floats, height_m: Floats) -> FloatArray:
    """Field of direct and mirrored ray over that of free space, one way, dB.

    ``|1 + Gamma rho D exp(-j 2 pi delta / lambda)|`` (handbook 5.2); means nothing beyond the
    horizon.
    """
    mirror = mirror_point(range_m, sea.antenna_height_m, height_m, sea.refraction_k)
    reflected = (
        mirror_coefficient(mirror.grazing_rad, sea.permittivity, sea.polarisation)
        * roughness_ratio(sea.rms_wave_m, mirror.grazing_rad, sea.wavelength_m)
        * mirror.divergence_ratio
    )
    phase = np.exp(-2j * math.pi * mirror.path_difference_m / sea.wavelength_m)
    return _decibels(np.abs(1.0 + reflected * phase))


def diffraction_factor_db(sea: OverSea, range_m: Floats, height_m: Floats) -> FloatArray:
    """Field by the first term of diffraction over that of free space, one way, dB."""
    loss_db = first_term_loss_db(
        range_m,
        sea.antenna_height_m,
        height_m,
        frequency_hz=sea.frequency_hz,
        earth_m=sea.earth_m,
        permittivity=sea.permittivity.real,
        conductivity_s_per_m=sea.conductivity,
        polarisation=sea.polarisation,
    )
    return np.asarray(np.maximum(-loss_db, LOWEST_DB))


def over_sea_factor_db(sea: OverSea, range_m: Floats, height_m: Floats) -> FloatArray:
    """One-way propagation factor over open sea, 20 log F, dB, by rule F3.

    An echo goes both ways: it changes by twice this (F^4).

    Parameters
    ----------
    sea : OverSea
        Antenna, wave, air and water.
    range_m : array
        Range along the sea, m, > 0.
    height_m : array
        Height of the target above the water, m, >= 0; broadcast against the ranges.
    """
    d, h2 = np.broadcast_arrays(np.asarray(range_m, np.float64), np.asarray(height_m, np.float64))
    shape, d, h2 = d.shape, d.ravel(), h2.ravel()
    factor = np.empty(d.shape)
    before = d < sea_horizon_m(sea, h2)
    factor[~before] = diffraction_factor_db(sea, d[~before], h2[~before])
    d, h2 = d[before], h2[before]
    inside = two_ray_factor_db(sea, d, h2)
    mirror = mirror_point(d, sea.antenna_height_m, h2, sea.refraction_k)
    near = mirror.path_difference_m < _QUARTER * sea.wavelength_m
    bent = diffraction_factor_db(sea, d[near], h2[near])
    inside[near] = np.minimum(inside[near], bent)
    factor[before] = inside
    return factor.reshape(shape)


def _decibels(field: FloatArray) -> FloatArray:
    return np.asarray(20.0 * np.log10(np.maximum(field, 10.0 ** (LOWEST_DB / 20.0))))
