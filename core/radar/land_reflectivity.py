"""How much land sends back: constant gamma by the kind of ground, or by its slope.

``sigma0 = gamma sin psi`` with the angle psi between ray and ground (handbook 6.4). Low-angle
echoes are patchy, the strongest cells 10 to 15 dB above the mean; classes are good to 5 dB.
"""

import math
from enum import Enum

import numpy as np

from core.base.arrays import FloatArray, Floats


class LandClass(Enum):
    """Kinds of ground with their gamma at 10 GHz, dB."""

    METROPOLITAN = "metropolitan"
    RUGGED_MOUNTAIN = "rugged mountain"
    WOODED_HILL = "wooded hill"
    WOODS = "woods"
    FARMLAND = "farmland"
    FLATLAND = "flatland"
    CLIFF = "cliff or rock face"
    HARBOUR_WORKS = "harbour works"
    SCRUB = "scrub"
    SHINGLE = "shingle"
    DRY_SAND = "dry sand, dunes"
    SALT_MARSH = "salt marsh"
    WET_SAND = "wet sand or mud"
    SMOOTH_ICE = "smooth snow or ice"
    RIDGED_ICE = "pressure-ridged ice"


_GAMMA_10_GHZ_DB = {
    # Long 2001 and Nathanson 1999, read as tabulated in a published toolbox.
    LandClass.METROPOLITAN: 0.0,
    LandClass.RUGGED_MOUNTAIN: 0.0,
    LandClass.WOODED_HILL: -10.0,
    LandClass.WOODS: -15.0,
    LandClass.FARMLAND: -15.0,
    LandClass.FLATLAND: -20.0,
    # From memory, middle of a span of 5 dB to each side (handbook 6.4).
    LandClass.CLIFF: -2.5,
    LandClass.HARBOUR_WORKS: 2.5,
    LandClass.SCRUB: -15.0,
    LandClass.SHINGLE: -18.0,
    LandClass.DRY_SAND: -22.5,
    LandClass.SALT_MARSH: -20.0,
    LandClass.WET_SAND: -27.5,
    LandClass.SMOOTH_ICE: -22.5,
    LandClass.RIDGED_ICE: -12.5,
}

_SLOPES_DEG = (0.0, 1.1, 8.0, 20.0, 45.0)
_SLOPE_GAMMA_DB = (-20.0, -20.0, -15.0, -10.0, -5.0)
"""Where only the slope is known: beach 1:50 and rock of 45 deg as in handbook 8, between them
farmland or woods and wooded hills; our reading, to 5 dB, no source."""

_LEAST_SINE = math.sin(math.radians(0.2))
"""Ground is never so even that less of it faces the ray (handbook 6.4: 0.1 to 0.3 deg)."""


CLASS_NUMBERS = {kind: number for number, kind in enumerate(LandClass, start=1)}
"""What rasters of ground hold for each kind; 0 stands for ground of no known kind."""


def class_gamma_ratios() -> FloatArray:
    """Gamma at 10 GHz by number of kind, bare; 0 for ground of no known kind."""
    gamma_db = [_GAMMA_10_GHZ_DB[kind] for kind in CLASS_NUMBERS]
    return np.concatenate([[0.0], 10.0 ** (np.array(gamma_db) / 10.0)])


def frequency_step_db(frequency_hz: float) -> float:
    """Change of gamma from 10 GHz, dB: ``5 log10(f / 10 GHz)``; -2.6 in S band."""
    return 5.0 * math.log10(frequency_hz / 10e9)


def land_gamma_db(land_class: LandClass, frequency_hz: float) -> float:
    """Gamma of a kind of ground, dB."""
    return _GAMMA_10_GHZ_DB[land_class] + frequency_step_db(frequency_hz)


def slope_gamma_db(steepness_ratio: Floats, frequency_hz: float) -> FloatArray:
    """Gamma of ground of which only the slope is known, dB.

    Parameters
    ----------
    steepness_ratio : array
        Rise over run, bare, >= 0.
    frequency_hz : float
        Frequency, Hz.
    """
    slope_deg = np.degrees(np.arctan(np.asarray(steepness_ratio, np.float64)))
    gamma_db = np.interp(slope_deg, _SLOPES_DEG, _SLOPE_GAMMA_DB)
    return np.asarray(gamma_db + frequency_step_db(frequency_hz))


def land_reflectivity_db(gamma_db: Floats, grazing_rad: Floats) -> FloatArray:
    """Radar cross-section of a square metre of ground, sigma0, dB m2/m2.

    Parameters
    ----------
    gamma_db : array
        Gamma at the frequency in use, dB.
    grazing_rad : array
        Angle between ray and ground, rad; held at 0.2 deg and more.
    """
    sine = np.maximum(np.sin(np.asarray(grazing_rad, np.float64)), _LEAST_SINE)
    return np.asarray(gamma_db + 10.0 * np.log10(sine))
