"""The laws of the controls against hand-worked values and statistics."""

import math

import numpy as np
import pytest
from scipy import stats

from core.picture.controls import (
    STC_MOST_DB,
    STC_REACH_M,
    Controls,
    rain_rate,
    speckle_rate,
    stc_db,
    threshold_db,
    two_scans_cost_db,
)
from core.radar.square_law import DetectionRule, detection_probability

RULE = DetectionRule()


def test_sea_clutter_law_is_ten_n_log_of_the_ratio_of_ranges() -> None:
    # Handbook 8, A(R) = 10 n log10(Rs / R) with n = 3, worked by hand: 30 dB at a tenth of the
    # reach, 9.031 dB at half of it (the cube of 2 is 8), nothing from the reach on; clipped.
    reach_m = 0.5 * STC_REACH_M
    ranges = np.array([0.1, 0.5, 1.0, 2.0, 1e-4]) * reach_m
    assert stc_db(ranges, 0.5) == pytest.approx([30.0, 9.031, 0.0, 0.0, STC_MOST_DB], abs=1e-3)
    assert np.all(stc_db(ranges, 0.0) == 0.0)


@pytest.mark.parametrize("pulses", [1, 5, 13])
def test_noise_paints_as_often_as_chi_square_says(pulses: int) -> None:
    # n pulses of noise, squared and summed: chi-square of 2 n degrees (handbook 4.3); by scipy's
    # statistics here, by incomplete gamma ratios in the code.
    y = stats.chi2.isf(1e-4, 2 * pulses)
    for gain_db in (-6.0, 0.0, 3.0, 8.0):
        wanted = stats.chi2.sf(y * 10.0 ** (-gain_db / 10.0), 2 * pulses)
        assert float(speckle_rate(gain_db, RULE, pulses)) == pytest.approx(wanted, rel=1e-9)


def test_threshold_of_one_pulse_lies_nine_and_a_half_decibels_over_noise() -> None:
    # Exponential: -ln 1e-4 = 9.2103, 9.643 dB; at 1e-3 6.9078, 8.394 dB, the 8 to 9 dB at which
    # speckle shows (handbook 8).
    assert threshold_db(RULE, 1) == pytest.approx(9.643, abs=1e-3)
    assert threshold_db(DetectionRule(pfa=1e-3), 1) == pytest.approx(8.394, abs=1e-3)


def test_rain_far_under_the_threshold_does_not_paint() -> None:
    rate = rain_rate(np.array([1e-3, 0.3, 1.0, 30.0]))
    assert np.all(np.diff(rate) > 0.0)
    assert rate[0] < 1e-12
    assert rate[3] > 0.999
    # Mean at the threshold: a gamma of shape 4 exceeds its mean in 43.3 %.
    assert rate[2] == pytest.approx(stats.gamma.sf(4.0, 4), rel=1e-9)


@pytest.mark.parametrize("pulses", [1, 13])
def test_two_scans_agreeing_costs_what_brings_both_back(pulses: int) -> None:
    from core.radar.square_law import required_snr_db

    cost = two_scans_cost_db(RULE, pulses)
    assert 0.0 < cost < 1.5
    snr = required_snr_db(RULE.pd, RULE.pfa, pulses) + cost
    once = float(detection_probability(snr, RULE.pfa, pulses))
    assert once**2 == pytest.approx(RULE.pd, abs=1e-6)


@pytest.mark.parametrize(
    "wrong",
    [
        {"gain_db": math.nan},
        {"gain_db": 99.0},
        {"mistuning_db": -1.0},
        {"sea_clutter": 1.1},
        {"rain_clutter": -0.1},
    ],
)
def test_what_no_control_can_do_is_refused(wrong: dict[str, float]) -> None:
    with pytest.raises(ValueError, match="limits"):
        Controls(**wrong)  # type: ignore[arg-type]  # numbers only, on purpose
