"""Detection against published values, scipy's own distributions, and approximations in use.

Sources beside the rows: documentation of the library sdr (4.03) and test suite of radarsimpy (4.04
to 4.11), both read; rows 4.12 to 4.21 computed with an independent kernel on scipy 1.17.1.
"""

import math

import numpy as np
import pytest
from scipy import integrate, stats

from core.radar.echo_budget import EchoBudget
from core.radar.presets import preset_set
from core.radar.radar_set import Preset, RadarPulse, RadarSet, hits_a_scan
from core.radar.square_law import (
    DetectionRule,
    Fluctuation,
    detection_probability,
    probability_at_margin,
    required_snr_db,
    threshold_ratio,
)
from core.ship.ship import Band

STEADY, ONE = Fluctuation.STEADY, Fluctuation.SCAN_TO_SCAN


@pytest.mark.parametrize(
    ("row", "prf", "beam_deg", "rpm", "hits"),
    [("4.01", 1000.0, 1.0, 24.0, 6.9444), ("4.02", 3000.0, 0.95, 24.0, 19.7917)],
)
def test_hits_a_scan(row: str, prf: float, beam_deg: float, rpm: float, hits: float) -> None:
    assert hits_a_scan(prf, beam_deg, rpm) == pytest.approx(hits, abs=1e-4)


def test_required_ratio_is_the_documented_one() -> None:
    # check value 4.03: sdr documentation, min_snr, to its last digit
    assert required_snr_db(0.9, 1e-6, 1) == pytest.approx(13.183490056794, abs=1e-9)


@pytest.mark.parametrize(
    ("row", "snr_db", "pfa", "pulses", "case", "probability", "error"),
    [
        ("4.04", 13.0, 1e-8, 1, STEADY, 0.6287, 5e-5),
        ("4.04, handbook 4.3", 11.0, 1e-8, 1, STEADY, 0.1683, 5e-5),
        ("4.05", -3.2, 1e-8, 256, STEADY, 0.8411, 1e-4),
        ("4.06", 16.0, 1e-4, 1, ONE, 0.798, 2e-4),
        ("4.06, handbook 4.3", 6.8, 1e-4, 1, ONE, 0.2036, 1e-4),
        ("4.07", 3.6, 1e-4, 256, ONE, 0.8959, 1e-4),
    ],
)
def test_probability_of_detection(
    row: str,
    snr_db: float,
    pfa: float,
    pulses: int,
    case: Fluctuation,
    probability: float,
    error: float,
) -> None:
    mine = float(detection_probability(snr_db, pfa, pulses, case))
    assert mine == pytest.approx(probability, abs=error)


@pytest.mark.parametrize(
    ("row", "pulses", "ratio"),
    [("4.08", 1, 9.21), ("4.09", 10, 26.19), ("4.10", 20, 41.03), ("4.11", 40, 67.89)],
)
def test_threshold(row: str, pulses: int, ratio: float) -> None:
    assert threshold_ratio(1e-4, pulses) == pytest.approx(ratio, abs=0.01)
    assert threshold_ratio(1e-4, pulses) == pytest.approx(
        float(stats.chi2.isf(1e-4, 2 * pulses)) / 2.0, rel=1e-12
    )


def _albersheim_db(pd: float, pfa: float, pulses: int) -> float:
    a, b = math.log(0.62 / pfa), math.log(pd / (1.0 - pd))
    spread = 6.2 + 4.54 / math.sqrt(pulses + 0.44)
    return -5.0 * math.log10(pulses) + spread * math.log10(a + 0.12 * a * b + 1.7 * b)


def _shnidman_db(pd: float, pfa: float, pulses: int, kind: float) -> float:
    alpha = 0.0 if pulses < 40 else 0.25
    eta = math.sqrt(-0.8 * math.log(4.0 * pfa * (1.0 - pfa)))
    eta += math.copysign(1.0, pd - 0.5) * math.sqrt(-0.8 * math.log(4.0 * pd * (1.0 - pd)))
    x = eta * (eta + 2.0 * math.sqrt(pulses / 2.0 + alpha - 0.25))
    c1 = (((17.7006 * pd - 18.4496) * pd + 14.5339) * pd - 3.525) / kind
    c2 = math.exp(27.31 * pd - 25.14)
    c2 += (pd - 0.8) * (0.7 * math.log(1e-5 / pfa) + (2.0 * pulses - 20.0) / 80.0)
    c_db = c1 if pd <= 0.872 else c1 + c2 / kind
    return 10.0 * math.log10(10.0 ** (c_db / 10.0) * x / pulses)


@pytest.mark.parametrize(
    ("row", "pd", "pfa", "pulses", "albersheim", "shnidman_0", "exact_0", "shnidman_1", "exact_1"),
    [
        ("4.12", 0.8, 1e-4, 1, 10.965, 11.040, 11.013, 16.397, 16.048),
        ("handbook 4.3", 0.8, 1e-4, 5, 5.453, 5.776, 5.640, 11.133, 10.825),
        ("4.13", 0.8, 1e-4, 10, 3.353, 3.639, 3.531, 8.996, 8.775),
        ("4.14", 0.8, 1e-4, 16, 2.019, 2.250, 2.170, 7.607, 7.450),
        ("handbook 4.3", 0.8, 1e-4, 30, 0.328, 0.468, 0.429, 5.825, 5.749),
        ("4.15", 0.9, 1e-6, 1, 13.115, 13.122, 13.183, 21.346, 21.071),
        ("4.16", 0.9, 1e-6, 10, 4.990, 5.334, 5.267, 13.581, 13.387),
        ("4.17", 0.5, 1e-4, 10, 2.157, 2.346, 2.216, 3.688, 3.717),
    ],
)
def test_required_ratio_and_the_approximations_in_use(
    row: str,
    pd: float,
    pfa: float,
    pulses: int,
    albersheim: float,
    shnidman_0: float,
    exact_0: float,
    shnidman_1: float,
    exact_1: float,
) -> None:
    steady = required_snr_db(pd, pfa, pulses)
    fluctuating = required_snr_db(pd, pfa, pulses, ONE)
    assert steady == pytest.approx(exact_0, abs=0.005)
    # Their last column is an average by 64 nodes of Gauss and Laguerre, which is not exact: the
    # step of many pulses is too steep for it. Adaptive quadrature agrees with ours, see below.
    assert fluctuating == pytest.approx(exact_1, abs=0.12)
    # Albersheim's is for a linear detector, Shnidman's for this one: both near, neither equal.
    assert _albersheim_db(pd, pfa, pulses) == pytest.approx(albersheim, abs=0.005)
    assert _shnidman_db(pd, pfa, pulses, math.inf) == pytest.approx(shnidman_0, abs=0.005)
    assert _shnidman_db(pd, pfa, pulses, 1.0) == pytest.approx(shnidman_1, abs=0.005)
    assert abs(steady - albersheim) < 0.30
    assert abs(steady - shnidman_0) < 0.14
    assert abs(fluctuating - shnidman_1) < 0.36


def test_fluctuation_costs_five_decibels_at_the_standard_rule() -> None:
    # check value 4.18, computed
    loss_db = required_snr_db(0.8, 1e-4, 1, ONE) - required_snr_db(0.8, 1e-4, 1)
    assert loss_db == pytest.approx(5.04, abs=0.01)


@pytest.mark.parametrize("pulses", [1, 2, 7, 13, 19, 40, 256])
@pytest.mark.parametrize("pfa", [1e-3, 1e-4, 1e-6, 1e-8])
def test_steady_echo_is_scipys_noncentral_chi_square(pulses: int, pfa: float) -> None:
    snr_db = np.linspace(-20.0, 20.0, 161)
    exact = stats.ncx2.sf(
        stats.chi2.isf(pfa, 2 * pulses), 2 * pulses, 2 * pulses * 10.0 ** (snr_db / 10.0)
    )
    assert np.abs(detection_probability(snr_db, pfa, pulses) - exact).max() < 1e-12


@pytest.mark.parametrize("pulses", [1, 2, 7, 13, 40, 256])
def test_fluctuating_echo_is_the_mean_over_an_exponential_strength(pulses: int) -> None:
    # The definition of Swerling's first case, by scipy's adaptive quadrature.
    twice_y = stats.chi2.isf(1e-4, 2 * pulses)
    for snr_db in (-5.0, 0.0, 5.0, 10.0, 15.0):
        full = 2.0 * pulses * 10.0 ** (snr_db / 10.0)

        def share(x: float, full: float = full) -> float:
            return float(np.exp(-x) * stats.ncx2.sf(twice_y, 2 * pulses, full * x))

        parts = [
            integrate.quad(share, low, high, epsabs=1e-10, limit=300)[0]
            for low, high in ((0.0, 0.1), (0.1, 1.0), (1.0, 60.0))
        ]
        mine = float(detection_probability(snr_db, 1e-4, pulses, ONE))
        assert mine == pytest.approx(sum(parts), abs=1e-7)


@pytest.mark.parametrize("case", [STEADY, ONE])
def test_table_of_margins_is_as_good_as_the_exact_curve(case: Fluctuation) -> None:
    rule = DetectionRule(fluctuation=case)
    margin_db = np.linspace(-25.0, 25.0, 3001)
    needed_db = required_snr_db(rule.pd, rule.pfa, 13, case)
    exact = detection_probability(margin_db + needed_db, rule.pfa, 13, case)
    assert np.abs(probability_at_margin(margin_db, rule, 13) - exact).max() < 1e-5
    assert float(probability_at_margin(0.0, rule, 13)) == pytest.approx(0.8, abs=1e-5)


def _set(gain_db: float) -> RadarSet:
    base = preset_set(Band.X, Preset.TYPICAL)
    return RadarSet(
        name="check",
        band=Band.X,
        preset=Preset.TYPICAL,
        frequency_hz=9.41e9,
        peak_power_w=25_000.0,
        antenna_gain_db=gain_db,
        horizontal_beamwidth_deg=1.0,
        vertical_beamwidth_deg=25.0,
        rotation_rpm=24.0,
        noise_figure_db=5.0,
        losses_db=0.0,
        polarisation=base.polarisation,
        pulses=(
            RadarPulse(
                name="check",
                length_s=0.5e-6,
                repetition_hz=1000.0,
                bandwidth_hz=3e6,
                from_scale_m=1.0,
                to_scale_m=1e5,
            ),
        ),
        standard=base.standard,
    )


def test_power_budget() -> None:
    # check values 4.19 to 4.21, computed: free space, 25 kW, 31 dBi, 10 m2, 6 NM, no losses
    radar = _set(31.0)
    budget = EchoBudget(radar=radar, pulse=radar.long_pulse, antenna_height_m=15.0)
    range_m = 6.0 * 1852.0
    with_gas = float(budget.echo_power_w(range_m, 10.0, 1.0))
    gas_db = 2.0 * 0.013273 * range_m / 1000.0
    power_dbm = 10.0 * math.log10(with_gas * 1000.0) + gas_db
    assert power_dbm == pytest.approx(-78.76, abs=0.01)
    noise_dbm = 10.0 * math.log10(budget.noise_power_w * 1000.0)
    assert noise_dbm - 5.0 == pytest.approx(-109.20, abs=0.01)
    assert power_dbm - noise_dbm == pytest.approx(25.44, abs=0.01)
