"""From a ship's radar to a full set."""

from dataclasses import replace

import pytest

from core.radar.echo_budget import Conditions
from core.radar.installation import InstallationStandard
from core.radar.presets import preset_named, preset_set, radar_set
from core.radar.radar_set import Polarisation, Preset
from core.radar.standard_table import table_of
from core.ship.ship import Band, Pulse, Radar

_BARE = Radar(name="main", band=Band.X, antenna_above_water_m=20.0)
_FULL = replace(
    _BARE,
    peak_power_w=12_000.0,
    antenna_gain_db=31.0,
    horizontal_beamwidth_deg=1.2,
    vertical_beamwidth_deg=22.0,
    frequency_hz=9.38e9,
    rotation_rpm=28.0,
    noise_figure_db=4.0,
    losses_db=7.5,
    polarisation="V",
    installation_standard="IMO MSC.64(67)",
    pulses=(
        Pulse(name="long", length_s=0.8e-6, repetition_hz=800.0, from_scale_m=22_224.0),
        Pulse(name="short", length_s=0.08e-6, to_scale_m=5556.0, bandwidth_hz=15e6),
    ),
)


@pytest.mark.parametrize(
    ("words", "preset"),
    [
        ("minimum standard", Preset.MINIMUM),
        ("Minimum", Preset.MINIMUM),
        ("typical", Preset.TYPICAL),
        (" Typical,  well kept ", Preset.TYPICAL),
        ("best", None),
    ],
)
def test_presets_by_name(words: str, preset: Preset | None) -> None:
    assert preset_named(words) is preset


def test_a_bare_radar_is_the_minimum_standard() -> None:
    made = radar_set(_BARE)
    assert made == replace(preset_set(Band.X, Preset.MINIMUM), name="main")
    assert made.losses_db == 26.1


def test_the_radars_own_preset_is_taken_unless_another_is_asked_for() -> None:
    own = replace(_BARE, preset="typical")
    assert radar_set(own).preset is Preset.TYPICAL
    assert radar_set(own).losses_db == 10.0
    assert radar_set(own, Preset.MINIMUM).preset is Preset.MINIMUM


def test_an_unknown_preset_is_refused() -> None:
    with pytest.raises(ValueError, match="best"):
        radar_set(replace(_BARE, preset="best"))


def test_the_ship_file_overrides_the_typical_set() -> None:
    made = radar_set(_FULL, Preset.TYPICAL)
    assert made.peak_power_w == 12_000.0
    assert made.antenna_gain_db == 31.0
    assert made.horizontal_beamwidth_deg == 1.2
    assert made.vertical_beamwidth_deg == 22.0
    assert made.frequency_hz == 9.38e9
    assert made.rotation_rpm == 28.0
    assert made.noise_figure_db == 4.0
    assert made.losses_db == 7.5
    assert made.polarisation is Polarisation.VERTICAL
    assert made.standard is InstallationStandard.MSC_64


def test_pulses_are_filled_from_the_like_of_them() -> None:
    short, long = radar_set(_FULL, Preset.TYPICAL).pulses
    assert (short.name, short.bandwidth_hz, short.repetition_hz) == ("short", 15e6, 3000.0)
    assert long.bandwidth_hz == 3e6  # 1.5 / 0.8 us is less than any receiver has
    assert (long.from_scale_m, long.repetition_hz) == (22_224.0, 800.0)
    assert long.to_scale_m >= long.from_scale_m


@pytest.mark.parametrize("band", list(Band))
def test_any_minimum_set_detects_what_the_fitted_one_does(band: Band) -> None:
    # The minimum standard is a performance: a stronger set in it has more losses.
    strong = replace(_FULL, band=band, frequency_hz=None, polarisation="", preset="minimum")
    made = radar_set(strong)
    fitted = preset_set(band, Preset.MINIMUM)
    assert made.losses_db > fitted.losses_db
    for mine, theirs in zip(
        table_of(made, (Conditions(),)), table_of(fitted, (Conditions(),)), strict=True
    ):
        assert mine.ranges[0].first_m == pytest.approx(theirs.ranges[0].first_m, rel=2e-3)


def test_a_longer_antenna_fits_the_table_with_the_handbooks_losses() -> None:
    # handbook 12, conclusion 5: X band antenna of 1.8 m (30 dB, 1.25 deg): L = 29.0
    longer = replace(_BARE, antenna_gain_db=30.0, horizontal_beamwidth_deg=1.25)
    assert radar_set(longer, Preset.MINIMUM).losses_db == pytest.approx(29.0, abs=0.15)


def test_losses_of_a_ship_file_do_not_change_the_minimum_standard() -> None:
    assert radar_set(replace(_BARE, losses_db=3.0), Preset.MINIMUM).losses_db == 26.1


def test_pulse_by_scale() -> None:
    made = preset_set(Band.X, Preset.TYPICAL)
    names = [made.pulse_for_scale(nm * 1852.0).name for nm in (0.25, 1.5, 3.0, 6.0, 12.0, 200.0)]
    assert names == ["short", "short", "medium", "medium", "long", "long"]
    assert made.long_pulse.name == "long"


def test_pulses_a_scan_are_those_of_the_fit() -> None:
    # handbook 12: n 13 in X band, 19 in S band, 13 with the typical S band antenna
    for band, preset, pulses in (
        (Band.X, Preset.MINIMUM, 13),
        (Band.S, Preset.MINIMUM, 19),
        (Band.S, Preset.TYPICAL, 13),
    ):
        made = preset_set(band, preset)
        assert made.pulses_a_scan(made.long_pulse) == pulses
