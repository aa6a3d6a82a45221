"""Coast in sight over hand-made land: shares and how far inland land begins."""

from dataclasses import replace

import numpy as np
import pytest

from core.base.arrays import BoolArray
from core.coverage.coast_cells import points_near
from core.coverage.coast_sight import CoastSight, coast_in_sight
from core.coverage.coverage_result import CoastState, SweepSettings
from core.coverage.terrain import prepare_terrain
from core.geodesy import geodesic
from core.geodesy.position import Position
from core.land.land_model import LandModel
from tests.helpers.islands import CENTRE, NM, box, flat_sea, ridge_across


def _settings(radius_nm: float = 8.0) -> SweepSettings:
    return SweepSettings(antenna_height_m=25.0, refraction_k=4.0 / 3.0, radius_m=radius_nm * NM)


def _look(land: LandModel, settings: SweepSettings | None = None) -> CoastSight:
    return coast_in_sight(prepare_terrain(land), land.points, CENTRE, settings or _settings())


def _by_hand(land: LandModel, sight: CoastSight, state: CoastState) -> float:
    return float(land.points.length_m[sight.state == state].sum())


def test_near_side_of_a_low_wall_is_in_sight_and_the_far_side_is_not() -> None:
    # a wall 4 NM long, 1000 m thick, 40 m high, 3 NM off: near side 7408 m of 16 816 m; of the
    # ends, seen edge-on, and the far side only what lies within 100 m of the front counts
    wall = ridge_across(range_m=3.0 * NM, half_length_m=2.0 * NM, thickness_m=1000.0)
    land = flat_sea(half_width_m=9.0 * NM, cell_m=60.0).land(wall, 40.0).model()
    sight = _look(land)
    assert sight.in_sight_fraction == pytest.approx(7408.0 / 16816.0, abs=0.02)
    assert _by_hand(land, sight, CoastState.OUTSIDE) == 0.0


def test_coast_outside_the_radius_does_not_count() -> None:
    # near side at 3 NM reaches 5 NM out at x = 4 NM: radius 5 NM takes in |x| <= 4 NM = 14 816 m
    wall = box(-7.0 * NM, 3.0 * NM, 7.0 * NM, 3.0 * NM + 9000.0)
    land = flat_sea(half_width_m=9.0 * NM, cell_m=60.0).land(wall, 40.0).model()
    sight = _look(land, _settings(5.0))
    in_radius_m = float(land.points.length_m.sum()) - _by_hand(land, sight, CoastState.OUTSIDE)
    assert in_radius_m == pytest.approx(8.0 * NM, abs=250.0)
    assert sight.in_sight_fraction == pytest.approx(1.0, abs=0.01)
    assert sight.first_land_inland_m == pytest.approx(0.0, abs=1.0)


def test_no_coast_in_reach_has_no_share() -> None:
    land = flat_sea(half_width_m=20.0 * NM, cell_m=250.0).land(box(28e3, 0, 30e3, 2e3), 9.0).model()
    sight = _look(land)
    assert sight.in_sight_fraction is None
    assert sight.first_land_inland_m is None
    assert set(sight.state) == {CoastState.OUTSIDE}


def test_mean_inland_distance_is_by_length() -> None:
    # two shores at 14 NM, each 2 NM of coast facing the ship: under 1.65 m is hidden there
    # ((14 / 2.2256 - 5)^2), one a cliff (0 m inland), one level at 0.5 m with a 60 m hill 900 m in
    cliff = box(-4.0 * NM, 14.0 * NM, -2.0 * NM, 14.0 * NM + 2000.0)
    flat = box(2.0 * NM, 14.0 * NM, 4.0 * NM, 14.0 * NM + 2000.0)
    hill = box(2.0 * NM, 14.0 * NM + 900.0, 4.0 * NM, 14.0 * NM + 2000.0)
    sea = flat_sea(half_width_m=17.0 * NM, cell_m=60.0)
    land = sea.land(cliff, 60.0).land(flat, 0.5).land(hill, 60.0).model()
    sight = _look(land, _settings(15.5))
    south = _south(land)
    # away from the corners, where a bearing may pass the hill
    inner = np.abs(np.abs(land.points.lon_deg - CENTRE.lon_deg) * 60.0 - 3.0) < 0.8
    east = land.points.lon_deg > CENTRE.lon_deg
    assert set(sight.state[south & inner & ~east]) == {CoastState.IN_SIGHT}
    assert set(sight.state[south & inner & east]) == {CoastState.LAND_BEHIND}
    assert sight.inland_m[south & inner & east] == pytest.approx(900.0, abs=120.0)
    held = np.isfinite(sight.inland_m)
    mean = np.average(sight.inland_m[held], weights=land.points.length_m[held])
    assert sight.first_land_inland_m == pytest.approx(float(mean), rel=1e-6)


def _south(land: LandModel) -> BoolArray:
    lats = land.points.lat_deg
    return np.asarray(lats < lats.min() + 1e-4)


@pytest.mark.parametrize("lat_deg", [0.0, 57.0, -71.0, 88.0])
def test_box_of_near_points_loses_none_within_the_radius(lat_deg: float) -> None:
    land = flat_sea(half_width_m=3000.0).land(box(0, 0, 600, 600), 5.0).model()
    rng = np.random.default_rng(1)
    lat, lon, _course = geodesic.direct(
        lat_deg=lat_deg,
        lon_deg=179.9,
        bearing_deg=rng.uniform(0, 360, 500),
        distance_m=rng.uniform(0, 24.0 * NM, 500),
    )
    points = replace(land.points, lat_deg=lat, lon_deg=lon)
    here = Position(lat_deg=lat_deg, lon_deg=179.9)
    assert points_near(points, here, 24.0 * NM).all()
