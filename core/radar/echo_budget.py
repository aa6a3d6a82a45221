"""The powers that meet in a receiver: echo, noise, sea and rain."""

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from core.base.arrays import FloatArray, Floats
from core.base.constants import (
    BOLTZMANN_J_PER_K,
    NOISE_TEMPERATURE_K,
    STANDARD_REFRACTION_K,
)
from core.radar.gas_loss import gas_loss_db
from core.radar.over_sea import OverSea
from core.radar.radar_set import RadarPulse, RadarSet
from core.radar.rain import RAIN_TOP_M, rain_loss_db, rain_reflectivity
from core.radar.resolution_cell import (
    beam_gain_db,
    effective_width_rad,
    elevation_rad,
    rain_cell_m3,
    surface_cell_m2,
)
from core.radar.sea_clutter import sea_grazing_rad, sea_reflectivity_db
from core.radar.sea_surface import CALMEST, ROUGHEST, rms_height_m

SEA_CLUTTER_ALLOWANCE_DB = 10.0
"""How much more than its mean the sea's echo counts beside noise, dB.

It does not average out from pulse to pulse as noise does, and it has spikes: 8 to 12 dB over the
mean (handbook 4.2, from memory); the middle is taken."""
RAIN_CLUTTER_ALLOWANCE_DB = 4.0
"""The same for rain, dB: without spikes, but alike for some 3 ms (from memory), so that the 13
pulses of a scan count as about 4; these need 3.6 dB more (computed, ``square_law.py``)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Conditions:
    """Air, sea and rain, the same everywhere."""

    refraction_k: float = STANDARD_REFRACTION_K
    sea_state: float = 0.0
    """Bare, 0 to 6; 0 is glassy: a mirror without clutter."""
    rain_mm_h: float = 0.0
    """Rate of rain, mm/h."""

    def __post_init__(self) -> None:
        """Refuse what the models do not hold for."""
        if not CALMEST <= self.sea_state <= ROUGHEST:
            raise ValueError(f"sea_state {self.sea_state!r} is not between 0 and 6")
        if not (self.rain_mm_h >= 0.0 and self.refraction_k > 0.0):
            raise ValueError(f"rain {self.rain_mm_h!r} or k {self.refraction_k!r} is impossible")


@dataclass(frozen=True, kw_only=True)
class EchoBudget:
    """One set with one pulse, its antenna at a height, in given conditions.

    All powers are those of one pulse at the receiver, W, losses taken off (handbook 4.1, 4.2).
    """

    radar: RadarSet
    pulse: RadarPulse
    antenna_height_m: float
    conditions: Conditions = Conditions()

    @cached_property
    def sea(self) -> OverSea:
        """What the field over the sea depends on."""
        return OverSea(
            antenna_height_m=self.antenna_height_m,
            frequency_hz=self.radar.frequency_hz,
            refraction_k=self.conditions.refraction_k,
            rms_wave_m=rms_height_m(self.conditions.sea_state),
            polarisation=self.radar.polarisation,
        )

    @property
    def pulses(self) -> int:
        """Pulses summed in a scan."""
        return self.radar.pulses_a_scan(self.pulse)

    @cached_property
    def noise_power_w(self) -> float:
        """Noise of the receiver: ``k T0 B NF``."""
        bare = BOLTZMANN_J_PER_K * NOISE_TEMPERATURE_K * self.pulse.bandwidth_hz
        return float(bare * 10.0 ** (self.radar.noise_figure_db / 10.0))

    def echo_power_w(
        self, range_m: Floats, rcs_m2: Floats, f4_ratio: Floats, elevation_deg: Floats = 0.0
    ) -> FloatArray:
        """Power of an echo.

        ``Pt G^2 lambda^2 sigma F^4 / ((4 pi)^3 R^4 L)``, gas, rain and the antenna's pattern in
        elevation included.

        Parameters
        ----------
        range_m : array
            R, m, > 0.
        rcs_m2 : array
            sigma, m2.
        f4_ratio : array
            F^4, bare: 1 in free space; see ``over_sea.py``.
        elevation_deg : array
            Angle of the target above the horizontal at the antenna, deg.
        """
        radar, d = self.radar, np.asarray(range_m, np.float64)
        gain_db = (
            2.0 * radar.antenna_gain_db
            - radar.losses_db
            - gas_loss_db(radar.band, d)
            - rain_loss_db(radar.frequency_hz, radar.polarisation, self.conditions.rain_mm_h, d)
            + 2.0 * beam_gain_db(elevation_deg, radar.vertical_beamwidth_deg)
        )
        sent = radar.peak_power_w * radar.wavelength_m**2 / (4.0 * math.pi) ** 3
        return np.asarray(sent * rcs_m2 * f4_ratio / d**4 * 10.0 ** (gain_db / 10.0))

    def sea_power_w(self, range_m: Floats) -> FloatArray:
        """Mean power of the sea's own echo in a cell; nothing beyond the horizon."""
        conditions, radar, d = self.conditions, self.radar, np.asarray(range_m, np.float64)
        if conditions.sea_state <= CALMEST:
            return np.zeros(d.shape)
        k = conditions.refraction_k
        grazing = sea_grazing_rad(d, self.antenna_height_m, k)
        sigma0_db = sea_reflectivity_db(
            radar.frequency_hz, conditions.sea_state, grazing, radar.polarisation
        )
        area = surface_cell_m2(
            d,
            effective_width_rad(radar.horizontal_beamwidth_deg),
            self.pulse.depth_m,
            grazing,
            effective_width_rad(radar.vertical_beamwidth_deg),
        )
        elevation_deg = np.degrees(elevation_rad(d, self.antenna_height_m, 0.0, k))
        return self.echo_power_w(d, 10.0 ** (sigma0_db / 10.0) * area, 1.0, elevation_deg)

    def rain_power_w(self, range_m: Floats) -> FloatArray:
        """Mean power of the rain's own echo in a cell."""
        conditions, radar, d = self.conditions, self.radar, np.asarray(range_m, np.float64)
        if conditions.rain_mm_h <= 0.0:
            return np.zeros(d.shape)
        volume = rain_cell_m3(
            d,
            radar.horizontal_beamwidth_deg,
            radar.vertical_beamwidth_deg,
            self.pulse.depth_m,
            antenna_height_m=self.antenna_height_m,
            top_m=RAIN_TOP_M,
            refraction_k=conditions.refraction_k,
        )
        eta = rain_reflectivity(radar.frequency_hz, conditions.rain_mm_h)
        return self.echo_power_w(d, eta * volume, 1.0)

    def background_power_w(self, range_m: Floats) -> FloatArray:
        """Noise, and sea and rain with their allowances: what an echo has to stand out from."""
        sea = self.sea_power_w(range_m) * 10.0 ** (SEA_CLUTTER_ALLOWANCE_DB / 10.0)
        rain = self.rain_power_w(range_m) * 10.0 ** (RAIN_CLUTTER_ALLOWANCE_DB / 10.0)
        return np.asarray(self.noise_power_w + sea + rain)
