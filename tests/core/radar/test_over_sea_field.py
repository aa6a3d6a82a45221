"""The compiled field against the plain one, and its averages over heights."""

import numpy as np
import pytest

from core.base.arrays import FloatArray
from core.radar.over_sea import (
    LOWEST_DB,
    OverSea,
    over_sea_factor_db,
    sea_horizon_m,
    two_ray_factor_db,
)
from core.radar.over_sea_field import over_sea_field
from core.radar.radar_set import Polarisation


def _places(count: int = 20_000) -> tuple[FloatArray, FloatArray]:
    rng = np.random.default_rng(7)
    range_m = np.exp(rng.uniform(np.log(50.0), np.log(120_000.0), count))
    height_m = np.exp(rng.uniform(np.log(0.02), np.log(3000.0), count))
    return range_m, height_m


@pytest.mark.parametrize("frequency_hz", [9.41e9, 3.05e9])
@pytest.mark.parametrize("antenna_m", [4.0, 15.0, 60.0])
@pytest.mark.parametrize(
    ("rms_m", "k", "polarisation"),
    [
        (0.0, 4.0 / 3.0, Polarisation.HORIZONTAL),
        (0.1, 1.0, Polarisation.VERTICAL),
        (0.7, 2.0, Polarisation.HORIZONTAL),
    ],
)
def test_field_is_the_rule_to_a_thousandth_of_a_decibel(
    frequency_hz: float, antenna_m: float, rms_m: float, k: float, polarisation: Polarisation
) -> None:
    sea = OverSea(
        antenna_height_m=antenna_m,
        frequency_hz=frequency_hz,
        refraction_k=k,
        rms_wave_m=rms_m,
        polarisation=polarisation,
    )
    range_m, height_m = _places()
    plain = 2.0 * over_sea_factor_db(sea, range_m, height_m)
    fast = over_sea_field(sea).f4_db(range_m, height_m)
    assert np.abs(np.maximum(plain, 2.0 * LOWEST_DB) - fast).max() < 1e-3


def test_field_keeps_the_shape_it_is_given() -> None:
    field = over_sea_field(OverSea(antenna_height_m=20.0, frequency_hz=9.41e9))
    many = field.f4_db(np.linspace(1e3, 5e4, 12).reshape(3, 4), np.array([[5.0], [10.0], [20.0]]))
    assert many.shape == (3, 4)
    assert float(many[1, 2]) == pytest.approx(
        float(field.f4_db(np.linspace(1e3, 5e4, 12).reshape(3, 4)[1, 2], 10.0))
    )


@pytest.mark.parametrize("frequency_hz", [9.41e9, 3.05e9])
def test_power_over_a_span_is_the_mean_of_its_heights(frequency_hz: float) -> None:
    # Brute force: 2000 heights in each span, by the plain rule.
    sea = OverSea(antenna_height_m=20.0, frequency_hz=frequency_hz, rms_wave_m=0.2)
    field = over_sea_field(sea)
    rng = np.random.default_rng(3)
    errors_db = []
    for number in range(400):
        range_m = float(np.exp(rng.uniform(np.log(500.0), np.log(60_000.0))))
        low_m = float(rng.uniform(0.0, 200.0)) if number % 2 else 0.0
        span_m = float(rng.uniform(1.0, 150.0))
        heights = np.linspace(low_m, low_m + span_m, 2001)[:-1] + span_m / 4000.0
        power = 10.0 ** (2.0 * over_sea_factor_db(sea, range_m, heights) / 10.0)
        brute_db = 10.0 * np.log10(power.mean())
        fast_db = float(field.f4_db(range_m, low_m + span_m / 2.0, span_m))
        if brute_db > -60.0:
            errors_db.append(fast_db - brute_db)
    assert len(errors_db) > 350
    assert np.abs(errors_db).max() < 0.8
    assert float(np.sqrt(np.mean(np.square(errors_db)))) < 0.08


def test_fine_lobes_average_to_six_over_a_mirror() -> None:
    # (1 + 1)^2 = 4 at a peak and 0 in a null; the mean of F^4 = (2 - 2 cos)^2 is 6 by hand.
    sea = OverSea(antenna_height_m=20.0, frequency_hz=9.41e9)
    near_db = float(over_sea_field(sea).f4_db(2000.0, 60.0, 100.0))
    assert near_db == pytest.approx(10.0 * np.log10(6.0), abs=0.3)


def test_lobes_stand_where_the_paths_differ_by_half_waves() -> None:
    # handbook 5.2, computed: 15/10 m, X: outermost peaks at 6.63 and 3.12 NM, nulls 4.34 and 2.42
    sea = OverSea(antenna_height_m=15.0, frequency_hz=9.41e9)
    miles = np.arange(2.0, 8.0, 0.005)
    f_db = two_ray_factor_db(sea, miles * 1852.0, 10.0)
    inner = f_db[1:-1]
    peaks = miles[1:-1][(inner > f_db[:-2]) & (inner > f_db[2:])]
    nulls = miles[1:-1][(inner < f_db[:-2]) & (inner < f_db[2:])]
    assert peaks[-2:] == pytest.approx([3.12, 6.63], abs=0.02)
    assert nulls[-2:] == pytest.approx([2.42, 4.34], abs=0.02)


def test_field_is_the_same_at_both_sides_of_the_horizon() -> None:
    for height_m in (1.0, 5.0, 60.0):
        sea = OverSea(antenna_height_m=15.0, frequency_hz=9.41e9)
        horizon_m = float(sea_horizon_m(sea, height_m))
        before, behind = over_sea_factor_db(sea, np.array([0.9999, 1.0001]) * horizon_m, height_m)
        assert before == pytest.approx(behind, abs=0.05)


def test_waves_fill_the_nulls() -> None:
    calm = OverSea(antenna_height_m=15.0, frequency_hz=9.41e9)
    rough = OverSea(antenna_height_m=15.0, frequency_hz=9.41e9, rms_wave_m=0.5)
    miles = np.arange(1.0, 3.0, 0.002) * 1852.0
    assert two_ray_factor_db(calm, miles, 10.0).min() < -15.0
    assert two_ray_factor_db(rough, miles, 10.0).min() > -10.0


def test_a_target_at_the_water_is_as_good_as_none() -> None:
    sea = OverSea(antenna_height_m=15.0, frequency_hz=9.41e9)
    at_water = over_sea_factor_db(sea, np.array([500.0, 5000.0, 50_000.0]), 0.0)
    assert np.all(np.isfinite(at_water))
    assert np.all(at_water < -20.0)
