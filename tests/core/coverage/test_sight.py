"""Points and coast seen each by a ray of its own."""

from dataclasses import replace

import numpy as np
import pytest

from core.coverage.coverage_result import CoastState, SweepSettings
from core.coverage.sight import PointSight, sight_of_points
from core.coverage.terrain import prepare_terrain
from core.geodesy.position import Position
from core.land.land_model import Cell
from tests.helpers.islands import CENTRE, NM, Sea, box, disc, place

SETTINGS = SweepSettings(antenna_height_m=25.0, refraction_k=4.0 / 3.0, radius_m=12.0 * NM)


def _sea() -> Sea:
    return Sea(half_width_m=13.0 * NM, cell_m=50.0)


def _look(
    sea: Sea, *points_m: tuple[float, float], inland_m: float | None, at: Position = CENTRE
) -> PointSight:
    places = [place(*point) for point in points_m]
    return sight_of_points(
        prepare_terrain(sea.model()),
        at,
        np.array([p.lat_deg for p in places]),
        np.array([p.lon_deg for p in places]),
        settings=SETTINGS,
        inland_limit_m=inland_m,
    )


def _coast(sea: Sea, *points_m: tuple[float, float], limit_m: float = 5.0 * NM) -> PointSight:
    return _look(sea, *points_m, inland_m=limit_m)


def test_open_coast_is_in_sight_at_no_distance_inland() -> None:
    sea = _sea().land(box(6000.0, -2000.0, 9000.0, 2000.0), 30.0)
    seen = _coast(sea, (6000.0, 0.0), (6000.0, 1500.0))
    assert seen.state.tolist() == [CoastState.IN_SIGHT] * 2
    assert seen.inland_m.tolist() == [0.0, 0.0]
    assert seen.height_m == pytest.approx([30.0, 30.0], abs=0.01)


def test_coast_behind_higher_land_is_hidden() -> None:
    sea = (
        _sea()
        .land(box(4000.0, -3000.0, 4500.0, 3000.0), 60.0)
        .land(box(9000.0, -2000.0, 12000.0, 2000.0), 30.0)
    )
    seen = _coast(sea, (9000.0, 0.0), (4000.0, 0.0))
    assert seen.state.tolist() == [CoastState.HIDDEN, CoastState.IN_SIGHT]
    assert np.isnan(seen.inland_m[0])


def test_coast_told_hidden_by_the_heights_behind_it_is_what_a_walk_inland_finds() -> None:
    random = np.random.default_rng(3)
    sea = _sea()
    for _ in range(40):
        west, south = random.uniform(-18000.0, 18000.0, 2)
        if max(abs(west), abs(south)) > 2500.0:
            wide, high = random.uniform(300.0, 3000.0, 2)
            sea = sea.land(box(west, south, west + wide, south + high), random.uniform(2.0, 150.0))
    land = sea.model()
    terrain = prepare_terrain(land)
    # Fields that promise nothing: every point is walked to, and on over the land behind it.
    promising_nothing = np.full_like(terrain.field_highest_m, np.inf)
    plain = replace(terrain, field_highest_m=promising_nothing)
    quick, walked = (
        sight_of_points(
            ground,
            CENTRE,
            land.points.lat_deg,
            land.points.lon_deg,
            settings=SETTINGS,
            inland_limit_m=5.0 * NM,
        )
        for ground in (terrain, plain)
    )
    assert np.array_equal(quick.state, walked.state)
    assert np.array_equal(quick.inland_m, walked.inland_m, equal_nan=True)
    counts = np.bincount(walked.state, minlength=5)
    assert counts[CoastState.HIDDEN] > 100
    assert counts[CoastState.LAND_BEHIND] > 5


def test_hills_behind_a_hidden_shore_are_found_with_their_distance_inland() -> None:
    # A bank 30 m high 2 km off, a beach 3 m high behind it, hills from 2 km inland. The line
    # over the bank's far edge at 2500 m: slope (30 - 25) / 2500 - 2500 / (2 k R); the hill is
    # in sight where 120 m stands above 25 + slope r + r^2 / (2 k R) = about 42 m at 8500 m.
    sea = (
        _sea()
        .land(box(2000.0, -3000.0, 2500.0, 3000.0), 30.0)
        .land(box(6500.0, -3000.0, 12000.0, 3000.0), 3.0)
        .land(box(8500.0, -3000.0, 12000.0, 3000.0), 120.0)
    )
    seen = _coast(sea, (6500.0, 0.0))
    assert seen.state.tolist() == [CoastState.LAND_BEHIND]
    assert seen.inland_m[0] == pytest.approx(2000.0, abs=60.0)
    near = _coast(sea, (6500.0, 0.0), limit_m=1500.0)
    assert near.state.tolist() == [CoastState.HIDDEN]


def test_land_across_another_water_is_not_this_coasts_land_behind() -> None:
    sea = (
        _sea()
        .land(box(2000.0, -3000.0, 2500.0, 3000.0), 30.0)
        .land(box(6500.0, -3000.0, 7500.0, 3000.0), 3.0)
        .land(box(8500.0, -3000.0, 12000.0, 3000.0), 120.0)
    )
    assert _coast(sea, (6500.0, 0.0)).state.tolist() == [CoastState.HIDDEN]


def test_water_of_two_cells_does_not_end_the_land() -> None:
    sea = (
        _sea()
        .land(box(2000.0, -3000.0, 2500.0, 3000.0), 30.0)
        .land(box(6500.0, -3000.0, 8500.0, 3000.0), 3.0)
        .land(box(8590.0, -3000.0, 12000.0, 3000.0), 120.0)
    )
    assert _coast(sea, (6500.0, 0.0)).state.tolist() == [CoastState.LAND_BEHIND]


def test_far_side_of_an_island_is_hidden() -> None:
    sea = _sea().land(disc(6000.0, 0.0, 800.0), 40.0)
    seen = _coast(sea, (5200.0, 0.0), (6800.0, 0.0))
    assert seen.state.tolist() == [CoastState.IN_SIGHT, CoastState.HIDDEN]


def test_beyond_the_radius_is_outside() -> None:
    sea = _sea().land(box(22_500.0, -500.0, 23_500.0, 500.0), 80.0)
    seen = _coast(sea, (22_500.0, 0.0), (-60_000.0, 0.0), (0.0, 1e6))
    assert seen.state.tolist() == [CoastState.OUTSIDE] * 3


def test_void_in_front_makes_coast_unknown_unless_known_land_hides_it() -> None:
    shore = box(9000.0, -3000.0, 11_000.0, 3000.0)
    with_void = _sea().land(shore, 20.0).without_heights(box(5000.0, -3000.0, 5400.0, 3000.0))
    assert _coast(with_void, (9000.0, 0.0)).state.tolist() == [CoastState.UNKNOWN]
    hidden = with_void.land(box(3000.0, -3000.0, 3500.0, 3000.0), 90.0)
    assert _coast(hidden, (9000.0, 0.0)).state.tolist() == [CoastState.HIDDEN]
    behind = _sea().land(shore, 20.0).without_heights(box(9500.0, -3000.0, 9900.0, 3000.0))
    assert _coast(behind, (9000.0, 0.0)).state.tolist() == [CoastState.IN_SIGHT]


def test_void_inland_of_a_hidden_coast_is_not_passed_over_in_silence() -> None:
    # Behind the bank 28 m high the line of sight is below 50 m: the void could be in sight.
    sea = (
        _sea()
        .land(box(2000.0, -3000.0, 2500.0, 3000.0), 28.0)
        .land(box(6500.0, -3000.0, 12000.0, 3000.0), 3.0)
        .without_heights(box(7500.0, -3000.0, 8000.0, 3000.0))
    )
    assert _coast(sea, (6500.0, 0.0)).state.tolist() == [CoastState.UNKNOWN]


@pytest.mark.parametrize("cell", [Cell.VOID, Cell.MISSING, Cell.BEYOND])
def test_every_kind_of_unknown_counts(cell: Cell) -> None:
    sea = (
        _sea()
        .land(box(9000.0, -3000.0, 11_000.0, 3000.0), 20.0)
        .without_heights(box(5000.0, -3000.0, 5400.0, 3000.0), cell)
    )
    assert _coast(sea, (9000.0, 0.0)).state.tolist() == [CoastState.UNKNOWN]


def test_low_beach_below_the_horizon_is_hidden_and_the_cliff_behind_in_sight() -> None:
    # Horizon of 25 m at k 4/3: 2.2256 x 5 = 11.13 NM; at 11.8 NM the sea hides only 0.3 m,
    # so with a 4 m antenna: horizon 4.45 NM, at 9 NM hidden (9 / 2.2256 - 2)^2 = 4.18 m.
    low = SweepSettings(antenna_height_m=4.0, refraction_k=4.0 / 3.0, radius_m=12.0 * NM)
    shore_m = 9.0 * NM
    sea = (
        _sea()
        .land(box(shore_m, -3000.0, shore_m + 1500.0, 3000.0), 3.0)
        .land(box(shore_m + 1000.0, -3000.0, shore_m + 1500.0, 3000.0), 40.0)
    )
    there = place(shore_m, 0.0)
    seen = sight_of_points(
        prepare_terrain(sea.model()),
        CENTRE,
        np.array([there.lat_deg]),
        np.array([there.lon_deg]),
        settings=low,
        inland_limit_m=5.0 * NM,
    )
    assert seen.state.tolist() == [CoastState.LAND_BEHIND]
    assert seen.inland_m[0] == pytest.approx(1000.0, abs=60.0)


def test_targets_stand_on_the_surface_and_are_hidden_below_the_line_of_sight() -> None:
    sea = _sea().land(box(3000.0, -3000.0, 3500.0, 3000.0), 40.0)
    terrain = prepare_terrain(sea.model())
    there = place(9000.0, 0.0)
    # Line over the near edge 3000 m off: 25 + 9000 (15 / 3000 - 3000 c) + 9000^2 c, with
    # c = 1 / (2 k R) = 5.886e-8: 70 + 3.2 = 73.2 m (computed by hand).
    heights = np.array([0.0, 70.0, 72.0, 75.0, 80.0])
    seen = sight_of_points(
        terrain,
        CENTRE,
        np.full(5, there.lat_deg),
        np.full(5, there.lon_deg),
        settings=SETTINGS,
        target_height_m=heights,
    )
    assert seen.state.tolist() == [0, 0, 0, 1, 1]
    assert seen.height_m.tolist() == [0.0] * 5


def test_target_on_or_behind_unknown_heights_is_unknown() -> None:
    sea = _sea().without_heights(box(5000.0, -3000.0, 5400.0, 3000.0))
    seen = _look(sea, (5200.0, 0.0), (8000.0, 0.0), (4000.0, 0.0), inland_m=None)
    assert seen.state.tolist() == [CoastState.UNKNOWN, CoastState.UNKNOWN, CoastState.IN_SIGHT]


def test_target_at_the_antenna_itself_is_in_sight() -> None:
    seen = _look(_sea(), (0.0, 0.0), inland_m=None)
    assert seen.state.tolist() == [CoastState.IN_SIGHT]


def test_no_points_give_no_answers() -> None:
    none = np.empty(0)
    seen = sight_of_points(
        prepare_terrain(_sea().model()), CENTRE, none, none, settings=SETTINGS, inland_limit_m=0.0
    )
    assert seen.state.size == 0
