"""How far the shadow of an obstacle reaches: all figures of job.md T8, through the polar sweep."""

import pytest

from core.coverage.coverage_result import SweepSettings
from core.coverage.polar import sweep_polar
from core.coverage.terrain import prepare_terrain
from tests.helpers.islands import CENTRE, NM, flat_sea, ridge_across

_FLAT_K = 1000.0


@pytest.mark.parametrize(
    ("antenna_m", "obstacle_m", "off_nm", "craft_m", "refraction_k", "hidden_to_nm"),
    [
        (40.0, 20.0, 1.0, 0.0, _FLAT_K, 2.00),
        (40.0, 20.0, 1.0, 0.0, 4.0 / 3.0, 2.02),
        (40.0, 20.0, 1.0, 5.0, _FLAT_K, 1.75),
        (40.0, 20.0, 1.0, 5.0, 4.0 / 3.0, 1.76),
        (30.0, 15.0, 2.0, 2.0, _FLAT_K, 3.73),
        (30.0, 15.0, 2.0, 2.0, 4.0 / 3.0, 3.94),
    ],
)
def test_shadow_ends_where_the_worked_case_says(
    antenna_m: float,
    obstacle_m: float,
    off_nm: float,
    craft_m: float,
    refraction_k: float,
    hidden_to_nm: float,
) -> None:
    # job.md T8 (computed by hand there), within 1 % as A2 asks; the wall's last row of cells,
    # whose centres carry its height, lies at the stated distance to half a cell of 10 m
    wall = ridge_across(range_m=off_nm * NM - 32.0, half_length_m=0.3 * NM, thickness_m=32.0)
    land = flat_sea(half_width_m=4.2 * NM, cell_m=10.0).land(wall, obstacle_m).model()
    sweep = sweep_polar(
        prepare_terrain(land),
        CENTRE,
        SweepSettings(
            antenna_height_m=antenna_m,
            refraction_k=refraction_k,
            radius_m=4.1 * NM,
            craft_height_m=craft_m,
        ),
    )
    first, past = sweep.hidden.offsets[:2]
    assert past - first == 1
    assert float(sweep.hidden.to_m[first]) / NM == pytest.approx(hidden_to_nm, rel=0.01)
