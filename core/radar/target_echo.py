"""How strong the echo of one target over open sea is, beside what it has to stand out from."""

import numpy as np

from core.base.arrays import FloatArray, Floats
from core.radar.echo_budget import EchoBudget
from core.radar.over_sea import over_sea_factor_db
from core.radar.radar_target import RadarTarget, Spread
from core.radar.resolution_cell import elevation_rad

SAMPLES = 9
"""Heights at which an extended target is sampled: the middles of as many equal parts."""


def target_power_w(budget: EchoBudget, target: RadarTarget, range_m: Floats) -> FloatArray:
    """Power of a target's echo over open sea, W.

    An extended one sends back evenly from 0 to its height, its parts' powers add up.

    Parameters
    ----------
    budget : EchoBudget
        Set, pulse, antenna and conditions.
    target : RadarTarget
        What is looked at.
    range_m : array
        Range along the sea, m, > 0.
    """
    d = np.asarray(range_m, np.float64)
    if target.spread is not Spread.POINT:
        heights = (np.arange(SAMPLES) + 0.5) / SAMPLES * target.height_m
    else:
        heights = np.array([target.height_m])
    far = d[..., np.newaxis]
    f4 = 10.0 ** (2.0 * over_sea_factor_db(budget.sea, far, heights) / 10.0)
    elevation_deg = np.degrees(
        elevation_rad(far, budget.antenna_height_m, heights, budget.conditions.refraction_k)
    )
    parts = budget.echo_power_w(far, target.rcs_m2 / heights.size, f4, elevation_deg)
    return np.asarray(parts.sum(axis=-1))


def target_snr_db(budget: EchoBudget, target: RadarTarget, range_m: Floats) -> FloatArray:
    """Echo over noise, sea and rain, one pulse, dB."""
    power = target_power_w(budget, target, range_m) / budget.background_power_w(range_m)
    return np.asarray(10.0 * np.log10(np.maximum(power, 1e-40)))
