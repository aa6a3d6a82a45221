"""Powers at the receiver: limits, signs and shapes."""

import numpy as np
import pytest

from core.radar.echo_budget import RAIN_CLUTTER_ALLOWANCE_DB, Conditions, EchoBudget
from core.radar.presets import preset_set
from core.radar.radar_set import Preset
from core.radar.resolution_cell import rain_cell_m3, surface_cell_m2
from core.radar.sea_clutter import sea_grazing_rad
from core.radar.square_law import required_snr_db
from core.ship.ship import Band


def _budget(conditions: Conditions, band: Band = Band.X) -> EchoBudget:
    radar = preset_set(band, Preset.TYPICAL)
    return EchoBudget(
        radar=radar, pulse=radar.long_pulse, antenna_height_m=20.0, conditions=conditions
    )


@pytest.mark.parametrize(
    ("sea_state", "rain_mm_h", "k"),
    [
        (-1.0, 0.0, 1.0),
        (7.0, 0.0, 1.0),
        (0.0, -1.0, 1.0),
        (0.0, 0.0, 0.0),
        (0.0, float("nan"), 1.0),
    ],
)
def test_weather_no_model_holds_for_is_refused(
    sea_state: float, rain_mm_h: float, k: float
) -> None:
    with pytest.raises(ValueError, match="is"):
        Conditions(sea_state=sea_state, rain_mm_h=rain_mm_h, refraction_k=k)


def test_power_falls_with_the_fourth_power_of_range() -> None:
    budget = _budget(Conditions())
    near, far = budget.echo_power_w(np.array([5000.0, 10_000.0]), 10.0, 1.0)
    gas_db = 2.0 * 0.013273 * 5.0
    assert 10.0 * np.log10(near / far) == pytest.approx(40.0 * np.log10(2.0) + gas_db)


def test_five_times_the_power_reaches_half_as_far_again() -> None:
    # Radar and ARPA Manual, ch. 3.2.1 (read): "about 50 % more"; 5^(1/4) = 1.495
    assert pytest.approx(1.495, abs=1e-3) == 5.0**0.25
    budget = _budget(Conditions())
    near, far = budget.echo_power_w(np.array([1000.0, 1000.0 * 5.0**0.25]), 1.0, 1.0)
    assert near / far == pytest.approx(5.0, rel=0.01)


def test_free_space_range_of_a_square_metre_is_the_handbooks() -> None:
    # handbook 12, conclusion 5: X 1.96 NM, S 4.33 NM at the fitted losses
    for band, nm in ((Band.X, 1.96), (Band.S, 4.33)):
        radar = preset_set(band, Preset.MINIMUM)
        budget = EchoBudget(radar=radar, pulse=radar.long_pulse, antenna_height_m=15.0)
        snr = float(budget.echo_power_w(nm * 1852.0, 1.0, 1.0)) / budget.noise_power_w
        needed_db = required_snr_db(0.8, 1e-4, budget.pulses)
        assert 10.0 * np.log10(snr) == pytest.approx(needed_db, abs=0.2)


def test_there_is_no_sea_clutter_in_calm_and_beyond_the_horizon() -> None:
    ranges = np.array([500.0, 5000.0, 50_000.0])
    assert np.all(_budget(Conditions()).sea_power_w(ranges) == 0.0)
    rough = _budget(Conditions(sea_state=5.0)).sea_power_w(ranges)
    assert np.all(rough[:2] > 0.0)
    assert rough[2] == 0.0


def test_rain_clutter_is_far_less_in_s_band() -> None:
    # handbook 6.5: reflectivity 19.6 dB lower; these two sets have the same beam and pulse
    range_m = np.array([10_000.0])
    x, s = (
        budget.rain_power_w(range_m)[0] / budget.echo_power_w(range_m, 1.0, 1.0)[0]
        for budget in (_budget(Conditions(rain_mm_h=16.0), band) for band in (Band.X, Band.S))
    )
    assert 10.0 * np.log10(x / s) == pytest.approx(19.6, abs=0.05)


def test_allowance_for_rain_is_what_four_pulses_need_more_than_thirteen() -> None:
    more_db = required_snr_db(0.8, 1e-4, 4) - required_snr_db(0.8, 1e-4, 13)
    assert more_db == pytest.approx(RAIN_CLUTTER_ALLOWANCE_DB, abs=0.5)


def test_rain_below_the_horizon_and_above_its_top_does_not_count() -> None:
    def volume(top_m: float, antenna_m: float = 20.0) -> float:
        return float(
            rain_cell_m3(
                20_000.0,
                1.0,
                25.0,
                90.0,
                antenna_height_m=antenna_m,
                top_m=top_m,
                refraction_k=4.0 / 3.0,
            )
        )

    assert volume(3000.0) < volume(6000.0) < volume(60_000.0)
    # the lower half of the beam lies below the sea: half the volume of a free beam
    free = float(
        rain_cell_m3(
            20_000.0,
            1.0,
            25.0,
            90.0,
            antenna_height_m=50_000.0,
            top_m=150_000.0,
            refraction_k=4.0 / 3.0,
        )
    )
    assert volume(150_000.0) / free == pytest.approx(0.5, abs=0.01)


def test_steep_faces_fill_the_beam_before_the_pulse() -> None:
    # 100 m deep pulse on a cliff at 60 deg, 1 km, beam 5 mrad high: 5.8 m of face, by hand
    area = float(surface_cell_m2(1000.0, 0.02, 100.0, np.radians(60.0), 0.005))
    assert area == pytest.approx(1000.0 * 0.02 * 1000.0 * 0.005 / np.sin(np.radians(60.0)))


def test_grazing_ends_at_the_horizon() -> None:
    horizon_m = 2.2256 * 1852.0 * 20.0**0.5
    assert float(sea_grazing_rad(horizon_m, 20.0, 4.0 / 3.0)) == pytest.approx(0.0, abs=1e-6)


def test_the_beams_edge_costs_an_echo_twice() -> None:
    # at half the beam's height half the power goes out and half of that comes back
    budget = _budget(Conditions())
    edge_deg = budget.radar.vertical_beamwidth_deg / 2.0
    on_axis, edge = budget.echo_power_w(1000.0, 1.0, 1.0, np.array([0.0, edge_deg]))
    assert edge / on_axis == pytest.approx(0.25)
