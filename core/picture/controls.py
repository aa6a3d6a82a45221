"""Set-up controls as physics: what each one does to echo, noise and clutter.

Laws from the handbook, section 8 (sea clutter, rain clutter, gain), all from memory; controls are
named as in the trade. The pulse is not among them: it changes powers and smear, so it belongs to
the view (``picture_view.py``).
"""

import math
from dataclasses import dataclass

import numpy as np
from scipy import special

from core.base.arrays import FloatArray, Floats
from core.base.units import m_from_nm
from core.radar.square_law import DetectionRule, required_snr_db, threshold_ratio

LEAST_GAIN_DB, MOST_GAIN_DB = -40.0, 15.0
MOST_MISTUNING_DB = 40.0
STC_REACH_M = m_from_nm(8.0)
"""How far out the sea clutter control works when fully on, m (common practice, no source)."""
STC_EXPONENT = 3.0
STC_MOST_DB = 50.0
"""The law is clipped here, dB (40 to 60, from memory)."""
RAIN_LOOKS = 4
"""Independent looks at rain in a scan; see ``RAIN_CLUTTER_ALLOWANCE_DB``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Controls:
    """How the set is set up. The defaults are well set for a glassy sea without rain."""

    gain_db: float = 0.0
    """Threshold lowered by this, dB. At 0 noise paints one cell in ten thousand, the standard's
    rate of false alarms, within the light, even speckle of good practice (1e-3 to 1e-4)."""
    mistuning_db: float = 0.0
    """Loss of everything received, dB; noise stays."""
    sea_clutter: float = 0.0
    """0 off to 1 full: the sensitivity is cut inside ``sea_clutter * STC_REACH_M``."""
    rain_clutter: float = 0.0
    """0 off to 1 full: share of the level a pulse nearer that is taken off, dB for dB."""
    interference_rejection: bool = False
    """Paints only what two scans running show."""
    echo_stretch: bool = False
    """Draws what paints longer, outward."""

    def __post_init__(self) -> None:
        """Refuse what no control can do."""
        if not (
            LEAST_GAIN_DB <= self.gain_db <= MOST_GAIN_DB
            and 0.0 <= self.mistuning_db <= MOST_MISTUNING_DB
            and 0.0 <= self.sea_clutter <= 1.0
            and 0.0 <= self.rain_clutter <= 1.0
        ):
            raise ValueError(f"{self!r} is out of its limits")


CONTROL_FIELDS = (
    "gain_db",
    "mistuning_db",
    "sea_clutter",
    "rain_clutter",
    "interference_rejection",
    "echo_stretch",
)


def stc_db(range_m: Floats, sea_clutter: float) -> FloatArray:
    """Attenuation of the sea clutter control, dB: ``10 n log10(Rs / R)`` inside Rs, n = 3.

    Parameters
    ----------
    range_m : array
        R, m, > 0.
    sea_clutter : float
        Amount, 0 to 1; ``Rs = amount * STC_REACH_M``.
    """
    reach_m = max(sea_clutter * STC_REACH_M, 1e-9)
    law = 10.0 * STC_EXPONENT * np.log10(reach_m / np.asarray(range_m, np.float64))
    return np.asarray(np.clip(law, 0.0, STC_MOST_DB))


def threshold_db(rule: DetectionRule, pulses: int) -> float:
    """Threshold over the mean noise of one pulse, dB, at gain 0."""
    return 10.0 * math.log10(threshold_ratio(rule.pfa, pulses) / pulses)


def speckle_rate(over_db: Floats, rule: DetectionRule, pulses: int) -> FloatArray:
    """Share of cells that noise alone paints in a scan.

    Noise of n pulses, squared and summed, is a gamma of shape n (exponential for one pulse).

    Parameters
    ----------
    over_db : array
        Gain less all attenuation of noise, dB; 0 gives the rule's ``pfa``.
    rule, pulses
        As in ``square_law.py``.
    """
    level = threshold_ratio(rule.pfa, pulses) * 10.0 ** (-np.asarray(over_db, np.float64) / 10.0)
    return np.asarray(special.gammaincc(pulses, level))


def rain_rate(level_ratio: Floats) -> FloatArray:
    """Share of cells that rain paints: its mean echo beside the threshold, ``RAIN_LOOKS`` looks."""
    ratio = np.maximum(np.asarray(level_ratio, np.float64), 1e-12)
    return np.asarray(special.gammaincc(RAIN_LOOKS, RAIN_LOOKS / ratio))


def two_scans_cost_db(rule: DetectionRule, pulses: int) -> float:
    """What an echo must be stronger to be seen in two scans running as often as in one, dB."""
    both = required_snr_db(math.sqrt(rule.pd), rule.pfa, pulses, rule.fluctuation)
    return both - required_snr_db(rule.pd, rule.pfa, pulses, rule.fluctuation)
