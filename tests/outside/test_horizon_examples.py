"""Radar horizon against published examples.

Sources, each named beside its row:
- Bole, Wall and Norris, Radar and ARPA Manual, ch. 3, 3.8.1.1 (worked examples, read in a text
  copy of the chapter; design check values 1.04 to 1.07);
- horizon rule 2.21 sqrt(h) NM of a stored note on radar horizons (job.md, key RHZ): T5, T5b;
- IMO Res. MSC.192(79) table of detection ranges with the horizon of job.md T6 (computed by hand);
- coefficients by k: computed with an independent reference (check values 1.01 to 1.03).

Rows quoted with 2.21 are run at k = 1.3147, where the exact coefficient is 2.21; 2.2098 is
1.22 sqrt(ft) put into metres.
"""

import numpy as np
import pytest

from core.base.constants import STANDARD_REFRACTION_K
from core.base.units import nm_from_m
from core.coverage.profiles import horizon_distance_m

_K_221 = 1.3147


def _nm(antenna_m: float, target_m: float, k: float) -> float:
    return nm_from_m(float(horizon_distance_m(antenna_m, target_m, k)))


@pytest.mark.parametrize(
    ("k", "nm_per_root_m"),
    [
        (4.0 / 3.0, 2.2256),  # check value 1.01
        (1.0, 1.92743),  # check value 1.03
        (2.0, 2.7258),  # handbook 1.2, computed there
        (2.0 / 3.0, 1.5737),  # handbook 1.2, computed there
        (_K_221, 2.21),  # definitions.md: rows with 2.21 are run at this k
    ],
)
def test_coefficient_of_the_horizon(k: float, nm_per_root_m: float) -> None:
    assert _nm(1.0, 0.0, k) == pytest.approx(nm_per_root_m, abs=1e-4)


def test_standard_refraction_is_four_thirds() -> None:
    # ITU-R P.310 (from memory); check value 1.01
    assert pytest.approx(4.0 / 3.0) == STANDARD_REFRACTION_K


@pytest.mark.parametrize(
    ("antenna_m", "target_m", "k", "range_nm", "error_nm"),
    [
        (16.0, 0.0, _K_221, 8.84, 0.01),  # Radar and ARPA Manual 3.8.1.1; check value 1.04
        (16.0, 64.0, _K_221, 26.52, 0.02),  # the same, sheer cliff; check value 1.05
        (64.0, 0.0, _K_221, 17.68, 0.01),  # the same: four times the height, twice the range
        (25.0, 0.0, _K_221, 11.05, 0.01),  # RHZ; job.md T5
        (99.0, 0.0, _K_221, 22.0, 0.02),  # RHZ; job.md T5: 22 NM needs 99 m
        (25.0, 100.0, _K_221, 33.15, 0.01),  # RHZ and by hand; job.md T5b
        (25.0, 100.0, 4.0 / 3.0, 33.38, 0.01),  # exact 4/3; job.md T5b
        (15.0, 60.0, _K_221, 25.68, 0.01),  # by hand, heights of MSC.192(79); job.md T6
        (15.0, 6.0, _K_221, 13.97, 0.01),  # the same
        (15.0, 3.0, _K_221, 12.39, 0.01),  # the same
        (15.0, 60.0, 4.0 / 3.0, 25.859, 0.002),  # handbook 1.2
        (15.0, 60.0, 1.0, 22.39, 0.01),  # handbook 1.2
        (15.0, 60.0, 2.0, 31.67, 0.01),  # handbook 1.2
    ],
)
def test_land_clears_the_horizon_at_the_published_range(
    antenna_m: float, target_m: float, k: float, range_nm: float, error_nm: float
) -> None:
    assert _nm(antenna_m, target_m, k) == pytest.approx(range_nm, abs=error_nm)


@pytest.mark.parametrize(
    ("range_nm", "k", "height_m"),
    [
        (23.0, _K_221, 41.05),  # Radar and ARPA Manual 3.8.1.1; check value 1.06
        (26.0, _K_221, 60.3),  # the same, "some 60 m"; check value 1.07
        (23.0, 4.0 / 3.0, 40.12),  # check value 1.08
    ],
)
def test_land_first_seen_at_a_range_has_the_published_height(
    range_nm: float, k: float, height_m: float
) -> None:
    heights = np.arange(0.0, 100.0, 0.005)
    clears = horizon_distance_m(16.0, heights, k) >= range_nm * 1852.0
    assert float(heights[np.argmax(clears)]) == pytest.approx(height_m, abs=0.06)


def test_height_error_moves_first_sight_by_more_when_land_is_lower() -> None:
    # job.md T31 (computed by hand): 20 m +/- 5 m is 1.17 NM earlier and 1.32 NM later
    middle = _nm(25.0, 20.0, _K_221)
    assert _nm(25.0, 25.0, _K_221) - middle == pytest.approx(1.17, abs=0.01)
    assert middle - _nm(25.0, 15.0, _K_221) == pytest.approx(1.32, abs=0.01)


def test_draught_changes_the_horizon() -> None:
    # job.md T16b (computed by hand): 30 m against 25 m is 1.05 NM
    assert _nm(30.0, 0.0, _K_221) - _nm(25.0, 0.0, _K_221) == pytest.approx(1.05, abs=0.01)
