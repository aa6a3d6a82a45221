"""What the air's gases take, summed line by line, against the one number a band in use.

ITU-R P.676-12, annex 1: 44 lines of oxygen (table 1), 35 of water vapour (table 2), and the dry
continuum. ``data/gas_lines.csv`` holds both tables as the package itur 0.4.0 (MIT) ships them;
the equations are written anew below. Check value 5.33, the ITU's own validation example at
12 GHz, vouches for both; 5.31 and 5.32 were computed with that package.
"""

import csv
from pathlib import Path

import numpy as np
import pytest

from core.base.arrays import FloatArray
from core.radar.gas_loss import GAS_DB_PER_KM
from core.ship.ship import Band

_FILE = Path(__file__).parent / "data" / "gas_lines.csv"
_HPA = 1013.25


def _lines(gas: str) -> FloatArray:
    """Frequency, GHz, and six coefficients of every line, (7, n)."""
    with _FILE.open(encoding="utf-8", newline="") as stream:
        rows = [row for row in csv.reader(stream) if row[0] == gas]
    return np.array([[float(value) for value in row[1:]] for row in rows]).T


def _gas_db_per_km(
    ghz: float, celsius: float = 15.0, vapour_g_m3: float = 7.5
) -> tuple[float, float]:
    """Specific attenuation by oxygen and by water vapour, one way."""
    kelvin = celsius + 273.15
    theta = 300.0 / kelvin
    e = vapour_g_m3 * kelvin / 216.7
    f0, a1, a2, a3, a4, a5, a6 = _lines("oxygen")
    width = a3 * 1e-4 * (_HPA * theta ** (0.8 - a4) + 1.1 * e * theta)
    width = np.sqrt(width**2 + 2.25e-6)
    shift = (a5 + a6 * theta) * 1e-4 * (_HPA + e) * theta**0.8
    strength = a1 * 1e-7 * _HPA * theta**3 * np.exp(a2 * (1.0 - theta))
    oxygen = float(np.sum(strength * _shape(ghz, f0, width, shift)))
    debye = 5.6e-4 * (_HPA + e) * theta**0.8
    oxygen += (
        ghz
        * _HPA
        * theta**2
        * (
            6.14e-5 / (debye * (1.0 + (ghz / debye) ** 2))
            + 1.4e-12 * _HPA * theta**1.5 / (1.0 + 1.9e-5 * ghz**1.5)
        )
    )
    f0, b1, b2, b3, b4, b5, b6 = _lines("water")
    width = b3 * 1e-4 * (_HPA * theta**b4 + b5 * e * theta**b6)
    width = 0.535 * width + np.sqrt(0.217 * width**2 + 2.1316e-12 * f0**2 / theta)
    strength = b1 * 1e-1 * e * theta**3.5 * np.exp(b2 * (1.0 - theta))
    water = float(np.sum(strength * _shape(ghz, f0, width, np.zeros_like(f0))))
    return 0.1820 * ghz * oxygen, 0.1820 * ghz * water


def _shape(ghz: float, f0: FloatArray, width: FloatArray, shift: FloatArray) -> FloatArray:
    below = (width - shift * (f0 - ghz)) / ((f0 - ghz) ** 2 + width**2)
    above = (width - shift * (f0 + ghz)) / ((f0 + ghz) ** 2 + width**2)
    return np.asarray(ghz / f0 * (below + above))


def test_the_tables_are_whole() -> None:
    assert (_lines("oxygen").shape, _lines("water").shape) == ((7, 44), (7, 35))


def test_the_sum_of_lines_is_the_itu_example() -> None:
    # check value 5.33: ITU validation examples for P.676-12, 12 GHz, 7.5 g/m3, 15 C
    assert sum(_gas_db_per_km(12.0)) == pytest.approx(0.018233652, abs=1e-8)


@pytest.mark.parametrize(
    ("row", "band", "ghz", "oxygen", "water"),
    [
        ("5.31", Band.S, 3.05, 0.00709, 0.00048),
        ("5.32", Band.X, 9.41, 0.00810, 0.00517),
    ],
)
def test_the_number_in_use_is_the_sum_of_lines(
    row: str, band: Band, ghz: float, oxygen: float, water: float
) -> None:
    lines = _gas_db_per_km(ghz)
    assert lines == pytest.approx((oxygen, water), abs=5e-6)
    assert GAS_DB_PER_KM[band] == pytest.approx(sum(lines), abs=1e-6)


@pytest.mark.parametrize(
    ("band", "edges_ghz", "frost", "tropics"),
    [(Band.S, (2.9, 3.1), 0.00095, 0.00055), (Band.X, (9.2, 9.5), -0.00025, 0.01326)],
)
def test_one_number_does_for_a_whole_band_and_any_weather(
    band: Band, edges_ghz: tuple[float, float], frost: float, tropics: float
) -> None:
    # What is said beside the number in use; bands of MSC.192(79) (reproduced text read).
    at_hand = GAS_DB_PER_KM[band]
    for ghz in edges_ghz:
        assert sum(_gas_db_per_km(ghz)) == pytest.approx(at_hand, abs=0.0004)
    ghz = 3.05 if band is Band.S else 9.41
    cold = sum(_gas_db_per_km(ghz, 0.0, 4.8)) - at_hand
    wet = sum(_gas_db_per_km(ghz, 30.0, 25.0)) - at_hand
    assert (cold, wet) == pytest.approx((frost, tropics), abs=5e-5)
    assert 2.0 * 37.04 * wet < 1.0  # dB, 20 NM there and back
