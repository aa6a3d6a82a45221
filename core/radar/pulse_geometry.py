"""What pulse and beam do to places on the screen."""

import math

import numpy as np

from core.base.arrays import FloatArray, Floats
from core.base.constants import SPEED_OF_LIGHT_MPS


def pulse_depth_m(length_s: float) -> float:
    """How far a point is drawn outward by the length of the pulse, and the least range, m."""
    return SPEED_OF_LIGHT_MPS * length_s / 2.0


def unambiguous_range_m(repetition_hz: float) -> float:
    """Range from which an echo comes back just as the next pulse leaves, m: c / (2 PRF)."""
    return SPEED_OF_LIGHT_MPS / (2.0 * repetition_hz)


def shown_range_m(range_m: Floats, repetition_hz: float) -> FloatArray:
    """Range at which an echo is drawn; beyond the unambiguous range a second trace, m."""
    return np.asarray(np.mod(range_m, unambiguous_range_m(repetition_hz)))


def beam_smear_m(range_m: Floats, beamwidth_deg: float) -> FloatArray:
    """How wide a point is drawn by the beam, half of it to each side, m."""
    return np.asarray(np.asarray(range_m, np.float64) * math.radians(beamwidth_deg))
