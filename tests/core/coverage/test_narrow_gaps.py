"""Narrow gaps far off: none lies between two rays unseen, and none is made up."""

import math

import numpy as np
import pytest

from core.base.arrays import Float32Array
from core.coverage.coverage_result import Cause, SweepSettings
from core.coverage.narrow_gaps import narrow_gaps, with_narrow_gaps
from core.coverage.nearby import blocks_of
from core.coverage.place import Lookout
from core.coverage.polar import sweep_polar
from core.coverage.terrain import prepare_terrain
from core.land.land_model import Cell, LandModel
from tests.helpers.islands import CENTRE, NM, Sea, box, islet

_RADIUS_M = 20.0 * NM
_SETTINGS = SweepSettings(antenna_height_m=30.0, refraction_k=4.0 / 3.0, radius_m=_RADIUS_M)
_CELL_M = 30.0


def _sea() -> Sea:
    return Sea(half_width_m=20.5 * NM, cell_m=_CELL_M)


def _plain(land: LandModel) -> Float32Array:
    return sweep_polar(prepare_terrain(land), CENTRE, _SETTINGS).unknown_from_m


def _with(land: LandModel) -> Float32Array:
    terrain = prepare_terrain(land)
    return with_narrow_gaps(
        terrain, narrow_gaps(terrain, _RADIUS_M), CENTRE, _SETTINGS, _plain(land)
    )


def _strewn() -> tuple[LandModel, list[tuple[int, float]]]:
    """Sea with 120 voids of one cell 12.5 to 19.5 NM off; bearing (of 720) and range of each."""
    random = np.random.default_rng(3)
    sea, places = _sea(), []
    for n in range(120):
        turn_deg = 3.0 * n + random.uniform(-1.0, 1.0)
        angle, range_m = math.radians(turn_deg), random.uniform(12.5, 19.5) * NM
        sea = sea.without_heights(
            islet(range_m * math.sin(angle), range_m * math.cos(angle), width_m=1.0)
        )
        places.append((round(turn_deg * 2.0) % 720, range_m))
    return sea.model(), places


def _is_found(unknown_from_m: Float32Array, bearing: int, range_m: float) -> bool:
    """Whether a void is told on the bearing or next to it, within two cells."""
    told = unknown_from_m[[bearing - 1, bearing, (bearing + 1) % 720], 0]
    return bool(np.any(np.abs(told - range_m) < 2.0 * _CELL_M))


def test_voids_of_one_cell_far_off_are_all_found() -> None:
    land, places = _strewn()
    swept, found = _plain(land), _with(land)
    # The rays of a sweep alone pass some by; else this test would prove nothing.
    assert not all(_is_found(swept, *place) for place in places)
    assert all(_is_found(found, *place) for place in places)
    # Nothing is told where there is no void.
    near = {(bearing + side) % 720 for bearing, _r in places for side in (-1, 0, 1)}
    assert set(np.flatnonzero(np.isfinite(found[:, 0]))) <= near


def test_view_of_a_place_tells_a_narrow_gap_that_rays_pass_by() -> None:
    land, places = _strewn()
    view = Lookout(land, prepare_terrain(land), blocks_of(land), _SETTINGS).look(CENTRE)
    nearest = min(range_m for _bearing, range_m in places)
    assert min(gap.patch.range_from_m for gap in view.gaps) == pytest.approx(nearest, abs=100.0)
    assert {gap.cause for gap in view.gaps} == {Cause.VOID}


@pytest.mark.parametrize(("height_m", "is_told"), [(20.0, True), (200.0, False)])
def test_narrow_gap_behind_a_ridge_is_told_only_over_it(height_m: float, is_told: bool) -> None:
    sea = _sea().land(box(10.0 * NM, -3.0 * NM, 10.5 * NM, 3.0 * NM), height_m)
    for n in range(-10, 11):
        sea = sea.without_heights(islet(16.0 * NM, 0.2 * n * NM, width_m=1.0))
    assert np.isfinite(_with(sea.model())).any() == is_told


def test_wide_gaps_and_the_edge_of_all_data_are_left_to_the_sweep() -> None:
    wide = _sea().without_heights(box(13.0 * NM, -NM, 15.0 * NM, NM)).model()
    assert narrow_gaps(prepare_terrain(wide), _RADIUS_M).row.size == 0


def test_within_12_nm_nothing_needs_to_be_asked() -> None:
    land, _places = _strewn()
    terrain = prepare_terrain(land)
    assert narrow_gaps(terrain, 12.0 * NM).row.size == 0
    listed = narrow_gaps(terrain, _RADIUS_M)
    assert listed.row.size == 120
    cells = terrain.cell[listed.row.astype(int), listed.col.astype(int)]
    assert np.all(cells == Cell.VOID)


def test_what_is_narrow_grows_with_the_space_between_rays() -> None:
    # Three rays of a cell at 12 NM: 12 cells at 48 NM, 6 at 24.
    terrain = prepare_terrain(
        Sea(half_width_m=2.0 * NM, cell_m=_CELL_M)
        .without_heights(box(0.0, 0.0, 10.0 * _CELL_M, 10.0 * _CELL_M))
        .model()
    )
    assert narrow_gaps(terrain, 24.0 * NM).row.size == 0
    assert narrow_gaps(terrain, 48.0 * NM).row.size == np.count_nonzero(terrain.cell == Cell.VOID)
