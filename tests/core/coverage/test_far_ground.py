"""Ground beyond 12 NM in coarser cells: what is nearer is untouched, what is farther agrees."""

from dataclasses import replace

import numpy as np
import pytest

from core.coverage.coverage_result import SweepSettings
from core.coverage.echo_sweep import sweep_echo
from core.coverage.polar import PolarSweep, sweep_polar
from core.coverage.terrain import COARSER_FROM_M, Terrain, prepare_terrain
from tests.helpers.islands import CENTRE, NM, Sea, box, disc


def _hills(east_m: np.ndarray, north_m: np.ndarray) -> np.ndarray:
    return 120.0 + 60.0 * np.sin(east_m / 700.0) * np.cos(north_m / 900.0)


@pytest.fixture(scope="module")
def terrain() -> Terrain:
    sea = Sea(half_width_m=19.0 * NM, cell_m=30.0)
    sea = sea.land(box(3.0 * NM, -4.0 * NM, 6.0 * NM, 4.0 * NM), _hills)
    sea = sea.land(box(-18.0 * NM, -6.0 * NM, -14.0 * NM, 6.0 * NM), _hills)
    sea = sea.land(disc(0.0, 15.0 * NM, 1500.0), 150.0)
    return prepare_terrain(sea.model())


def _polar(terrain: Terrain, radius_nm: float = 18.0) -> PolarSweep:
    settings = SweepSettings(
        antenna_height_m=25.0, refraction_k=4.0 / 3.0, radius_m=radius_nm * NM, craft_height_m=5.0
    )
    return sweep_polar(terrain, CENTRE, settings)


def test_within_twelve_miles_the_horizon_is_that_of_the_fine_cells(terrain: Terrain) -> None:
    assert terrain.coarser is not None
    fine = replace(terrain, coarser=None)
    near = [_polar(one, 12.0).horizon_slope for one in (terrain, fine)]
    np.testing.assert_array_equal(near[0], near[1])


def test_beyond_it_horizon_and_hidden_water_agree(terrain: Terrain) -> None:
    fine = replace(terrain, coarser=None)
    two, one = _polar(terrain), _polar(fine)
    has = ~np.isnan(two.horizon_slope) & ~np.isnan(one.horizon_slope)
    assert np.count_nonzero(has) > 800
    assert np.count_nonzero(np.isnan(two.horizon_slope) != np.isnan(one.horizon_slope)) <= 12
    # A metre of height at 16 NM is a slope of 3e-5; the coarser cells level hills by some metres.
    off = np.abs(two.horizon_slope - one.horizon_slope)[has]
    assert np.median(off) < 1e-4
    assert np.quantile(off, 0.98) < 5e-4
    hidden = [float((s.hidden.to_m - s.hidden.from_m).sum()) for s in (two, one)]
    assert hidden[0] == pytest.approx(hidden[1], rel=0.02)


def test_the_lit_face_is_kept_near_by_and_nearly_so_far_off(terrain: Terrain) -> None:
    fields = [
        sweep_echo(
            one,
            CENTRE,
            antenna_height_m=25.0,
            refraction_k=4.0 / 3.0,
            radius_m=18.0 * NM,
            cell_m=60.0,
            bearing_count=720,
        )
        for one in (terrain, replace(terrain, coarser=None))
    ]
    split = int(COARSER_FROM_M / 60.0)
    near = [float(field.face_m[:, : split - 1].sum()) for field in fields]
    far = [float(field.face_m[:, split + 1 :].sum()) for field in fields]
    assert min(near) > 1000.0
    assert min(far) > 1000.0
    assert near[0] == pytest.approx(near[1], rel=0.01)
    assert far[0] == pytest.approx(far[1], rel=0.05)
