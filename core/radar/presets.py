"""From the radar of a ship file to a full set of values, through one of two presets.

Handbook 12: with 15 m antenna, a smooth sea and one number fitted per band, the losses, the
model reproduces the standard's table of detection ranges for small targets. That fitted set is
the *minimum standard*; the same set with the losses of a sound installation is *typical, well
kept*. All figures but the fitted ones are from memory (handbook 3) and a ship file overrides them.

The minimum standard is a performance, not a piece of equipment: a stronger set, worn until it
just meets the table, has more losses. So where a ship file states another power, antenna,
receiver or pulse, the losses of this preset make up the difference, and losses stated there
belong to the typical set alone. (An X-band antenna of 1.8 m fits the table with 29.0 dB where
one of 1.2 m does with 26.1; handbook 12, conclusion 5.)
"""

import math
from dataclasses import replace

from core.base.constants import BOLTZMANN_J_PER_K, NOISE_TEMPERATURE_K
from core.base.units import m_from_nm
from core.radar.installation import InstallationStandard, standard_in
from core.radar.radar_set import Polarisation, Preset, RadarPulse, RadarSet
from core.radar.square_law import DetectionRule, required_snr_db
from core.ship.ship import Band, Pulse, Radar

_NAMES = {
    "minimum standard": Preset.MINIMUM,
    "minimum": Preset.MINIMUM,
    "typical": Preset.TYPICAL,
    "typical, well kept": Preset.TYPICAL,
}
PRESET_WORDS = ("minimum standard", "typical")
"""Names to offer; the other ones read are short and long forms of these."""

_BANDWIDTH_LENGTHS = 1.5
"""Bandwidth times pulse length of a matched receiver, bare (1.2 to 2, from memory)."""
_LEAST_BANDWIDTH_HZ, _MOST_BANDWIDTH_HZ = 3e6, 20e6
"""Bandwidths of common receivers (handbook 3, from memory)."""


def preset_named(name: str) -> Preset | None:
    """The preset of a name, in any case: minimum standard, minimum, typical; None if unknown."""
    return _NAMES.get(" ".join(name.casefold().split()))


def _pulse(
    name: str,
    length_us: float,
    repetition_hz: float,
    bandwidth_mhz: float,
    from_nm: float,
    to_nm: float,
) -> RadarPulse:
    return RadarPulse(
        name=name,
        length_s=length_us * 1e-6,
        repetition_hz=repetition_hz,
        bandwidth_hz=bandwidth_mhz * 1e6,
        from_scale_m=m_from_nm(from_nm),
        to_scale_m=m_from_nm(to_nm),
    )


# From memory (handbook 3); the long one is that of the fit: 3 MHz and 1000 Hz (handbook 12).
_PULSES = (
    _pulse("short", 0.07, 3000.0, 20.0, 0.125, 1.5),
    _pulse("medium", 0.25, 1800.0, 6.0, 1.5, 6.0),
    _pulse("long", 0.6, 1000.0, 3.0, 6.0, 96.0),
)


def _x_band(preset: Preset, losses_db: float) -> RadarSet:
    return RadarSet(
        name="X band",
        band=Band.X,
        preset=preset,
        frequency_hz=9.41e9,
        peak_power_w=25_000.0,
        antenna_gain_db=28.0,  # 1.2 m
        horizontal_beamwidth_deg=1.9,
        vertical_beamwidth_deg=25.0,
        rotation_rpm=24.0,
        noise_figure_db=5.0,
        losses_db=losses_db,
        polarisation=Polarisation.HORIZONTAL,
        pulses=_PULSES,
        standard=InstallationStandard.MSC_192,
    )


def _s_band(preset: Preset, losses_db: float, gain_db: float, beamwidth_deg: float) -> RadarSet:
    return RadarSet(
        name="S band",
        band=Band.S,
        preset=preset,
        frequency_hz=3.05e9,
        peak_power_w=30_000.0,
        antenna_gain_db=gain_db,
        horizontal_beamwidth_deg=beamwidth_deg,
        vertical_beamwidth_deg=25.0,
        rotation_rpm=24.0,
        noise_figure_db=4.0,
        losses_db=losses_db,
        polarisation=Polarisation.HORIZONTAL,
        pulses=_PULSES,
        standard=InstallationStandard.MSC_192,
    )


_SETS = {
    (Band.X, Preset.MINIMUM): _x_band(Preset.MINIMUM, 26.1),
    (Band.S, Preset.MINIMUM): _s_band(Preset.MINIMUM, 20.0, 25.5, 2.7),  # 2.7 m antenna
    (Band.X, Preset.TYPICAL): _x_band(Preset.TYPICAL, 10.0),
    (Band.S, Preset.TYPICAL): _s_band(Preset.TYPICAL, 10.0, 26.5, 1.9),  # 3.7 m antenna
}


def preset_set(band: Band, preset: Preset) -> RadarSet:
    """The set of a preset, as it is, without any ship."""
    return _SETS[band, preset]


def radar_set(radar: Radar, preset: Preset | None = None) -> RadarSet:
    """The full set of a ship's radar.

    Parameters
    ----------
    radar : Radar
        As the ship file states it; what it leaves open comes from the preset.
    preset : Preset, optional
        None takes the radar's own, and the minimum standard where it names none.

    Raises
    ------
    ValueError
        The radar's preset has a name nobody knows; readers refuse it before.
    """
    chosen = preset or (preset_named(radar.preset) if radar.preset else Preset.MINIMUM)
    if chosen is None:
        raise ValueError(f"there is no preset {radar.preset!r}")
    base = preset_set(radar.band, chosen)
    fitted = replace(
        base,
        name=radar.name,
        frequency_hz=_or(radar.frequency_hz, base.frequency_hz),
        peak_power_w=_or(radar.peak_power_w, base.peak_power_w),
        antenna_gain_db=_or(radar.antenna_gain_db, base.antenna_gain_db),
        horizontal_beamwidth_deg=radar.horizontal_beamwidth_deg,
        vertical_beamwidth_deg=_or(radar.vertical_beamwidth_deg, base.vertical_beamwidth_deg),
        rotation_rpm=_or(radar.rotation_rpm, base.rotation_rpm),
        noise_figure_db=_or(radar.noise_figure_db, base.noise_figure_db),
        losses_db=_or(radar.losses_db, base.losses_db),
        polarisation=Polarisation(radar.polarisation) if radar.polarisation else base.polarisation,
        pulses=_pulses_of(radar.pulses, base) if radar.pulses else base.pulses,
        standard=standard_in(radar.installation_standard) or base.standard,
    )
    if chosen is Preset.TYPICAL:
        return fitted
    surplus_db = _sensitivity_db(fitted) - _sensitivity_db(base)
    return replace(fitted, losses_db=base.losses_db + surplus_db)


def _or(stated: float | None, preset: float) -> float:
    return preset if stated is None else stated


def _sensitivity_db(radar: RadarSet) -> float:
    """Power budget of the long pulse against what the standard's rule needs, losses left out."""
    pulse, rule = radar.long_pulse, DetectionRule()
    noise_w = BOLTZMANN_J_PER_K * NOISE_TEMPERATURE_K * pulse.bandwidth_hz
    return (
        10.0 * math.log10(radar.peak_power_w * radar.wavelength_m**2 / noise_w)
        + 2.0 * radar.antenna_gain_db
        - radar.noise_figure_db
        - required_snr_db(rule.pd, rule.pfa, radar.pulses_a_scan(pulse))
    )


def _pulses_of(pulses: tuple[Pulse, ...], base: RadarSet) -> tuple[RadarPulse, ...]:
    return tuple(_filled(pulse, base) for pulse in sorted(pulses, key=lambda pulse: pulse.length_s))


def _filled(pulse: Pulse, base: RadarSet) -> RadarPulse:
    """A pulse of a ship file with what it leaves open: the like of it in the preset."""
    like = min(base.pulses, key=lambda known: abs(math.log(known.length_s / pulse.length_s)))
    matched_hz = min(
        max(_BANDWIDTH_LENGTHS / pulse.length_s, _LEAST_BANDWIDTH_HZ), _MOST_BANDWIDTH_HZ
    )
    return RadarPulse(
        name=pulse.name,
        length_s=pulse.length_s,
        repetition_hz=pulse.repetition_hz or like.repetition_hz,
        bandwidth_hz=pulse.bandwidth_hz or matched_hz,
        from_scale_m=pulse.from_scale_m or like.from_scale_m,
        to_scale_m=pulse.to_scale_m or max(like.to_scale_m, pulse.from_scale_m or 0.0),
    )
