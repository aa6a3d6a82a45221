"""The field over the sea against the exact series of modes on a smooth sphere.

``data/mode_sum.csv`` holds 420 cases, made by the script beside it with mpmath: two bands,
antennas of 15 and 30 m, k 4/3 and 1, targets of 1 to 60 m, 0.3 to 1.25 of the horizon. The series
takes a perfect mirror, so the smooth sea of rule F3 is compared. The series is also summed below
with scipy's Airy functions, which have digits enough from 0.4 of the horizon on. Check values
5.34 to 5.48: computed with an independent kernel; coefficients of sea water there from memory.
"""

from pathlib import Path

import numpy as np
import pytest
from scipy import special

from core.base.arrays import FloatArray
from core.radar.over_sea import OverSea, over_sea_factor_db
from core.radar.radar_set import Polarisation
from core.radar.sea_surface import roughness_ratio, sea_permittivity
from core.radar.two_ray import mirror_point

_FILE = Path(__file__).parent / "data" / "mode_sum.csv"
_NM = 1852.0


def _cases() -> FloatArray:
    """Columns: frequency, antenna, height, k, share of the horizon, range, field in dB."""
    return np.loadtxt(_FILE, delimiter=",", skiprows=1)


def _rule_db(cases: FloatArray) -> FloatArray:
    out = np.empty(len(cases))
    for at, (hz, antenna_m, height_m, k, _share, range_m, _f) in enumerate(cases):
        exact_k = 4.0 / 3.0 if k > 1.1 else 1.0
        sea = OverSea(antenna_height_m=antenna_m, frequency_hz=hz, refraction_k=exact_k)
        out[at] = float(over_sea_factor_db(sea, range_m, height_m))
    return out


def _rms(values: FloatArray) -> float:
    return float(np.sqrt(np.mean(values**2)))


def _modes_db(hz: float, antenna_m: float, height_m: float, k: float, range_m: float) -> float:
    """The series of Fock, perfect mirror, horizontal polarisation (from memory; handbook 5.6)."""
    wavelength_m = 299_792_458.0 / hz
    earth_m = k * 6_371_000.0
    m = (np.pi * earth_m / wavelength_m) ** (1.0 / 3.0)
    x = m * range_m / earth_m
    y1, y2 = (2.0 * np.pi * h / (wavelength_m * m) for h in (antenna_m, height_m))
    turn = np.exp(2j * np.pi / 3.0)
    poles = -special.ai_zeros(400)[0] * np.exp(1j * np.pi / 3.0)
    slopes = turn * special.airy((poles * turn).real)[1]
    terms = np.exp(1j * x * poles) / slopes**2
    for y in (y1, y2):
        z = (poles - y) * turn
        # airye() takes out exp(2/3 z^1.5), which alone overflows
        terms = terms * special.airye(z)[0] * np.exp(-2.0 / 3.0 * z * np.sqrt(z))
    return float(20.0 * np.log10(2.0 * np.sqrt(np.pi * x) * abs(terms.sum())))


def test_the_stored_field_is_the_sum_of_its_modes() -> None:
    cases = _cases()
    cases = cases[cases[:, 4] >= 0.4]
    assert len(cases) == 378
    for hz, antenna_m, height_m, k, _share, range_m, stored_db in cases:
        exact_k = 4.0 / 3.0 if k > 1.1 else 1.0
        summed_db = _modes_db(hz, antenna_m, height_m, exact_k, range_m)
        assert summed_db == pytest.approx(stored_db, abs=1e-4)


def test_rule_stays_near_the_exact_field() -> None:
    cases = _cases()
    error = _rule_db(cases) - cases[:, 6]
    assert len(cases) == 420
    assert _rms(error) < 0.65
    assert np.abs(error).max() < 2.9
    assert abs(error.mean()) < 0.1


def test_rule_is_as_good_as_claimed_for_the_standard_antenna() -> None:
    # handbook 5.6: 0.67 dB rms, 1.7 dB at most over 125 cases at 15 m and k 4/3
    cases = _cases()
    chosen = (cases[:, 1] == 15.0) & (cases[:, 3] > 1.1) & (cases[:, 4] < 1.2)
    error = (_rule_db(cases) - cases[:, 6])[chosen]
    assert _rms(error) < 0.67
    assert np.abs(error).max() < 1.7


def test_beyond_the_horizon_the_first_term_is_enough() -> None:
    # handbook 5.6 says 0.32 dB rms, 0.9 at most; at the horizon itself it is 1.4 here
    cases = _cases()
    beyond = cases[:, 4] > 1.05
    error = (_rule_db(cases) - cases[:, 6])[beyond]
    assert _rms(error) < 0.32
    assert np.abs(error).max() < 0.9


@pytest.mark.parametrize(
    ("row", "ghz", "height_m", "nm", "exact_db", "rule_db"),
    [
        ("5.34", 3.05, 3.5, 3.6, -1.454, -1.704),
        ("5.35", 3.05, 4.0, 3.7, -0.648, -0.902),
        ("5.36", 3.05, 10.0, 11.0, -8.661, -8.574),
        ("5.37", 9.41, 3.5, 4.6, 4.015, 3.846),
        ("5.38", 9.41, 3.5, 4.9, 3.400, 3.173),
        ("5.39", 9.41, 4.0, 5.0, 4.034, 3.822),
        ("5.40", 9.41, 2.0, 3.4, 3.166, 3.096),
        ("5.41", 9.41, 10.0, 11.0, -1.861, -3.135),
        ("5.42", 9.41, 5.0, 8.0, -1.015, -2.152),
    ],
)
def test_rule_at_the_ranges_of_the_standard(
    row: str, ghz: float, height_m: float, nm: float, exact_db: float, rule_db: float
) -> None:
    sea = OverSea(antenna_height_m=15.0, frequency_hz=ghz * 1e9)
    mine = float(over_sea_factor_db(sea, nm * _NM, height_m))
    summed_db = _modes_db(ghz * 1e9, 15.0, height_m, 4.0 / 3.0, nm * _NM)
    assert summed_db == pytest.approx(exact_db, abs=0.01)
    assert mine == pytest.approx(rule_db, abs=0.01)
    assert mine == pytest.approx(summed_db, abs=1.7)


def test_geometry_of_the_mirrored_ray() -> None:
    # check value 5.43, computed
    mirror = mirror_point(4.6 * _NM, 15.0, 3.5, 4.0 / 3.0)
    assert float(mirror.distance_m) == pytest.approx(6718.2, abs=0.1)
    assert float(mirror.antenna_above_plane_m) == pytest.approx(12.343, abs=1e-3)
    assert float(mirror.target_above_plane_m) == pytest.approx(3.309, abs=1e-3)
    assert float(np.degrees(mirror.grazing_rad)) == pytest.approx(0.10527, abs=1e-5)
    assert float(mirror.path_difference_m) == pytest.approx(0.00959, abs=1e-5)
    assert float(mirror.divergence_ratio) == pytest.approx(0.9198, abs=1e-4)


@pytest.mark.parametrize(
    ("row", "x", "exact", "rational"),
    [
        ("5.44", 0.5, 0.64504, 0.64031),
        ("5.45", 1.0, 0.46576, 0.46134),
        ("5.46", 5.0, 0.18354, 0.18517),
    ],
)
def test_rough_sea_keeps_the_published_share(
    row: str, x: float, exact: float, rational: float
) -> None:
    grazing = 0.01
    wavelength_m = 0.0319
    rms_m = float(np.sqrt(x / 2.0) * wavelength_m / (2.0 * np.pi * np.sin(grazing)))
    assert float(roughness_ratio(rms_m, grazing, wavelength_m)) == pytest.approx(exact, abs=1e-4)
    # the common rational form of the same law, within 0.005
    form = 1.0 / np.sqrt(3.2 * x - 2.0 + np.sqrt((3.2 * x) ** 2 - 7.0 * x + 9.0))
    assert form == pytest.approx(rational, abs=1e-4)
    assert abs(form - exact) < 0.005
    assert float(special.ive(0, x)) == pytest.approx(exact, abs=1e-4)


@pytest.mark.parametrize(
    ("row", "ghz", "real", "loss"), [("5.47", 3.05, 71.41, 38.67), ("5.48", 9.41, 54.84, 39.21)]
)
def test_sea_water_is_that_of_the_reference_kernel(
    row: str, ghz: float, real: float, loss: float
) -> None:
    # computed there from coefficients that are from memory: equal, not proved right
    water = sea_permittivity(ghz * 1e9)
    assert water.real == pytest.approx(real, abs=0.05)
    assert -water.imag == pytest.approx(loss, abs=0.05)


def test_sea_water_hardly_matters_to_the_rule() -> None:
    # so the coefficients from memory cannot do harm: the mode sum knows no water at all, and the
    # other polarisation, which sees the water quite differently, gives the same beyond lobes
    for polarisation in Polarisation:
        sea = OverSea(antenna_height_m=15.0, frequency_hz=9.41e9, polarisation=polarisation)
        assert float(over_sea_factor_db(sea, 11.0 * _NM, 10.0)) == pytest.approx(-3.135, abs=0.2)
