"""A radar set with every value the physics needs; nothing left open."""

from dataclasses import dataclass
from enum import Enum

from core.base.constants import SPEED_OF_LIGHT_MPS
from core.base.language import Worded
from core.radar.installation import ACCURACY, AccuracyLimits, InstallationStandard
from core.ship.ship import Band


class Preset(Worded):
    """Set of values that stands in for what a ship file leaves open (handbook 12.4)."""

    MINIMUM = "minimum standard"
    """Just meets the standard's table of detection ranges."""
    TYPICAL = "typical"
    """A typical set, well kept."""


class Polarisation(Enum):
    """Direction of the electric field."""

    HORIZONTAL = "H"
    VERTICAL = "V"


@dataclass(frozen=True, slots=True, kw_only=True)
class RadarPulse:
    """One pulse of a set."""

    name: str
    length_s: float
    repetition_hz: float
    bandwidth_hz: float
    """Bandwidth of the receiver with this pulse, Hz."""
    from_scale_m: float
    """Shortest range scale it serves, m."""
    to_scale_m: float
    """Longest range scale it serves, m."""

    @property
    def depth_m(self) -> float:
        """Depth of the range cell, m: c tau / 2."""
        return SPEED_OF_LIGHT_MPS * self.length_s / 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class RadarSet:
    """One radar as the physics sees it.

    ``losses_db`` are all losses, both ways, that nothing else here names: feeder, beam shape,
    filter, processing, ageing; for the minimum standard the figure fitted to its table.
    """

    name: str
    band: Band
    preset: Preset
    frequency_hz: float
    peak_power_w: float
    antenna_gain_db: float
    horizontal_beamwidth_deg: float
    """Between half-power points, one way, deg."""
    vertical_beamwidth_deg: float
    rotation_rpm: float
    noise_figure_db: float
    losses_db: float
    polarisation: Polarisation
    pulses: tuple[RadarPulse, ...]
    """By length, shortest first; at least one."""
    standard: InstallationStandard

    def __post_init__(self) -> None:
        """Refuse a set without a pulse."""
        if not self.pulses:
            raise ValueError("a radar set needs at least one pulse")

    @property
    def wavelength_m(self) -> float:
        """Wavelength, m."""
        return SPEED_OF_LIGHT_MPS / self.frequency_hz

    @property
    def accuracy(self) -> AccuracyLimits:
        """Accuracy by the standard it was approved to."""
        return ACCURACY[self.standard]

    @property
    def long_pulse(self) -> RadarPulse:
        """The pulse that reaches farthest: the longest."""
        return self.pulses[-1]

    def pulse_for_scale(self, range_scale_m: float) -> RadarPulse:
        """The pulse used on a range scale, m.

        The shortest of those that serve it; where none does, the one whose scales come nearest.
        """

        def miss(pulse: RadarPulse) -> float:
            too_short = pulse.from_scale_m / range_scale_m
            too_long = range_scale_m / pulse.to_scale_m
            return max(too_short, too_long, 1.0)

        return min(self.pulses, key=miss)

    def pulses_a_scan(self, pulse: RadarPulse) -> int:
        """Pulses that hit a point in one turn of the antenna: PRF theta / (6 rpm), at least 1."""
        hits = hits_a_scan(pulse.repetition_hz, self.horizontal_beamwidth_deg, self.rotation_rpm)
        return max(1, round(hits))


def hits_a_scan(repetition_hz: float, beamwidth_deg: float, rotation_rpm: float) -> float:
    """Pulses sent while the beam passes a point, not rounded (handbook 4.3)."""
    return repetition_hz * beamwidth_deg / (6.0 * rotation_rpm)
