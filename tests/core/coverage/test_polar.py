"""The polar sweep: horizon, nearest land, hidden water, unknown heights."""

import math

import numpy as np
import pytest

from core.base.angles import difference_deg
from core.coverage.coverage_result import SweepSettings
from core.coverage.polar import HORIZON_RAYS, WATER_RAYS, PolarSweep, sweep_polar
from core.coverage.terrain import prepare_terrain
from core.geodesy import geodesic
from core.geodesy.position import Position
from core.land.land_model import Cell
from tests.helpers.islands import CENTRE, NM, Sea, box, disc, islet, place

K = 4.0 / 3.0
BEND = 1.0 / (2.0 * K * 6_371_000.0)
_CODES = (Cell.VOID, Cell.MISSING, Cell.BEYOND)


def _sea(cell_m: float = 50.0) -> Sea:
    return Sea(half_width_m=10.0 * NM, cell_m=cell_m)


def _sweep(
    sea: Sea,
    *,
    at: Position = CENTRE,
    radius_m: float = 9.0 * NM,
    antenna_m: float = 25.0,
    craft_m: float = 5.0,
    k: float = K,
    is_exact: bool = False,
) -> PolarSweep:
    return sweep_polar(
        prepare_terrain(sea.model()),
        at,
        SweepSettings(
            antenna_height_m=antenna_m,
            refraction_k=k,
            radius_m=radius_m,
            craft_height_m=craft_m,
            is_exact=is_exact,
        ),
    )


def _stretches(sweep: PolarSweep, bearing_deg: float) -> list[tuple[float, float]]:
    ray = round(bearing_deg * WATER_RAYS / 360.0)
    part = slice(int(sweep.hidden.offsets[ray]), int(sweep.hidden.offsets[ray + 1]))
    pairs = zip(sweep.hidden.from_m[part], sweep.hidden.to_m[part], strict=True)
    return [(float(a), float(b)) for a, b in pairs]


def test_open_sea_has_no_horizon_of_land_nothing_hidden_and_no_nearest_land() -> None:
    sweep = _sweep(_sea())
    assert sweep.horizon_slope.shape == (HORIZON_RAYS,)
    assert np.all(np.isnan(sweep.horizon_slope))
    assert sweep.nearest_land_range_m is None
    assert sweep.nearest_land_bearing_deg is None
    assert sweep.hidden.from_m.size == 0
    assert np.all(sweep.hidden.offsets == 0)
    assert np.all(np.isinf(sweep.unknown_from_m))


@pytest.mark.parametrize("is_exact", [False, True])
def test_horizon_over_a_block_of_land_is_the_slope_of_its_top(is_exact: bool) -> None:
    sweep = _sweep(_sea().land(box(4990.0, -1500.0, 6000.0, 1500.0), 80.0), is_exact=is_exact)
    # The top's near edge is at the first cell centre inside: 5000 m.
    assert sweep.horizon_slope[900] == pytest.approx(55.0 / 5000.0 - 5000.0 * BEND, rel=1e-2)
    land_deg = math.degrees(math.atan2(1500.0, 5000.0))
    for ray in range(HORIZON_RAYS):
        off_deg = abs(ray * 0.1 - 90.0)
        if off_deg < land_deg - 0.5:
            assert sweep.horizon_slope[ray] > 0.0
        elif off_deg > land_deg + 1.0:
            assert np.isnan(sweep.horizon_slope[ray])


def test_land_under_the_horizon_of_the_sea_leaves_no_horizon_of_land() -> None:
    # Antenna 4 m, horizon 4.45 NM; land 2 m high at 9 NM is hidden by (9 / 2.2256 - 2)^2 = 4.2 m.
    low = _sea().land(box(8.8 * NM, -1000.0, 9.4 * NM, 1000.0), 2.0)
    assert np.all(np.isnan(_sweep(low, antenna_m=4.0).horizon_slope))
    high = _sea().land(box(8.8 * NM, -1000.0, 9.4 * NM, 1000.0), 12.0)
    assert np.isfinite(_sweep(high, antenna_m=4.0).horizon_slope[900])


@pytest.mark.parametrize("bearing_deg", [0.03, 77.77, 181.04, 300.45])
@pytest.mark.parametrize("is_exact", [False, True])
def test_islet_of_one_cell_is_on_the_horizon_whatever_its_bearing(
    bearing_deg: float, is_exact: bool
) -> None:
    range_m = 8.5 * NM
    angle = math.radians(bearing_deg)
    rock = islet(range_m * math.sin(angle), range_m * math.cos(angle), width_m=50.0)
    sweep = _sweep(_sea().land(rock, 10.0), is_exact=is_exact)
    seen = np.flatnonzero(np.isfinite(sweep.horizon_slope)) / 10.0
    off = np.abs((seen - bearing_deg + 180.0) % 360.0 - 180.0)
    assert seen.size >= 1
    assert off.max() < 0.5
    # Rays up to half their spacing beside the peak read it lower, never higher.
    best = float(np.nanmax(sweep.horizon_slope))
    top = (10.0 - 25.0) / range_m - range_m * BEND
    assert best >= top - (4.5 if is_exact else 6.5) / range_m
    assert best <= top + 0.5 / range_m


def test_nearest_land_is_the_nearest_edge_of_a_cell_from_where_the_antenna_stands() -> None:
    at = place(13.0, -21.0)
    sweep = _sweep(_sea().land(box(3990.0, -60.0, 6000.0, 60.0), 5.0), at=at)
    edge = place(4000.0 - 25.0, -21.0)
    distance, bearing, _ = geodesic.inverse(
        from_lat_deg=at.lat_deg,
        from_lon_deg=at.lon_deg,
        to_lat_deg=edge.lat_deg,
        to_lon_deg=edge.lon_deg,
    )
    assert sweep.nearest_land_range_m == pytest.approx(float(distance), abs=0.5)
    assert sweep.nearest_land_bearing_deg == pytest.approx(float(bearing), abs=0.2)


def test_land_past_the_radius_is_not_nearest_land() -> None:
    sea = _sea().land(disc(0.0, 9.5 * NM, 300.0), 50.0)
    assert _sweep(sea).nearest_land_range_m is None
    bearing_deg = _sweep(sea, radius_m=9.6 * NM).nearest_land_bearing_deg
    assert bearing_deg is not None
    # Due north is 0 or, by the last bit, next to 360.
    assert difference_deg(bearing_deg, 0.0) == pytest.approx(0.0, abs=2.0)


def test_shadow_of_low_land_ends_where_similar_triangles_say() -> None:
    # job.md 4.3.7 and T7: behind an obstacle of height o at range d the water is hidden to
    # d a / (a - o) on a flat Earth (k = 1000 here): a 25 m, o 15 m, d 3000 m: to 7500 m.
    sea = _sea(20.0).land(box(2500.0, -800.0, 3000.0, 800.0), 15.0)
    sweep = _sweep(sea, craft_m=0.0, k=1000.0)
    (stretch,) = _stretches(sweep, 90.0)
    assert stretch[0] == pytest.approx(3000.0, abs=40.0)
    assert stretch[1] == pytest.approx(7500.0, rel=0.01)


def test_water_behind_land_as_high_as_the_antenna_is_hidden_to_the_radius() -> None:
    # job.md T8: for ever if o >= a.
    sea = _sea(20.0).land(box(2500.0, -800.0, 3000.0, 800.0), 26.0)
    (stretch,) = _stretches(_sweep(sea, craft_m=0.0, k=1000.0), 90.0)
    assert stretch[1] == pytest.approx(9.0 * NM, abs=20.0)


def test_height_of_the_craft_shortens_the_shadow() -> None:
    # The same triangle to a craft 5 m high: (a - c) d / (a - o) = 20 x 3000 / 10 = 6000 m.
    sea = _sea(20.0).land(box(2500.0, -800.0, 3000.0, 800.0), 15.0)
    (stretch,) = _stretches(_sweep(sea, craft_m=5.0, k=1000.0), 90.0)
    assert stretch[1] == pytest.approx(6000.0, rel=0.01)


def test_only_water_is_hidden_water() -> None:
    sea = (
        _sea(20.0)
        .land(box(2500.0, -800.0, 3000.0, 800.0), 60.0)
        .land(box(6000.0, -3000.0, 7000.0, 3000.0), 10.0)
    )
    stretches = _stretches(_sweep(sea), 90.0)
    assert len(stretches) == 2
    assert stretches[0] == pytest.approx((3000.0, 6000.0), abs=40.0)
    assert stretches[1][0] == pytest.approx(7000.0, abs=40.0)
    assert _stretches(_sweep(sea), 270.0) == []


def test_water_past_the_horizon_of_the_craft_is_not_listed() -> None:
    # Antenna 4 m and craft 1 m: out of sight past 2.2256 x (2 + 1) = 6.68 NM (handbook 1.1).
    sea = _sea(50.0).land(box(2500.0, -800.0, 3000.0, 800.0), 60.0)
    sweep = _sweep(sea, antenna_m=4.0, craft_m=1.0)
    assert sweep.craft_horizon_m / NM == pytest.approx(6.677, abs=0.005)
    (stretch,) = _stretches(sweep, 90.0)
    assert stretch[1] == pytest.approx(sweep.craft_horizon_m, abs=50.0)


def test_more_stretches_than_room_are_all_kept() -> None:
    sea = Sea(half_width_m=3000.0, cell_m=10.0)
    model = sea.model()
    heights, cell = model.heights_m.copy(), model.cell.copy()
    random = np.random.default_rng(2)
    rocks = random.random(heights.shape) < 0.1
    rocks[280:321, 280:321] = False
    heights[rocks], cell[rocks] = 40.0, Cell.LAND
    land = type(model)(
        **{name: getattr(model, name) for name in model.__dataclass_fields__}
        | {"heights_m": heights, "cell": cell}
    )
    settings = SweepSettings(antenna_height_m=10.0, refraction_k=K, radius_m=2900.0)
    sweep = sweep_polar(prepare_terrain(land), CENTRE, settings)
    count = int(sweep.hidden.offsets[-1])
    assert count > 16 * WATER_RAYS
    assert sweep.hidden.from_m.size == sweep.hidden.to_m.size == count
    assert np.all(sweep.hidden.to_m > sweep.hidden.from_m)
    inner = np.ones(count - 1, dtype=bool)
    starts = sweep.hidden.offsets[1:-1]
    inner[starts[(starts > 0) & (starts < count)] - 1] = False
    assert np.all(sweep.hidden.from_m[1:][inner] > sweep.hidden.to_m[:-1][inner] - 0.01)


@pytest.mark.parametrize("code", _CODES)
def test_unknown_cell_in_reach_is_found_on_its_bearing_and_range(code: Cell) -> None:
    sea = _sea().without_heights(box(6000.0, -400.0, 6500.0, 400.0), code)
    sweep = _sweep(sea)
    column = _CODES.index(code)
    assert sweep.unknown_from_m[180, column] == pytest.approx(6000.0, abs=80.0)
    found = np.flatnonzero(np.isfinite(sweep.unknown_from_m[:, column])) / 2.0
    edge_deg = math.degrees(math.atan2(400.0, 6000.0))
    assert found.min() == pytest.approx(90.0 - edge_deg, abs=1.0)
    assert found.max() == pytest.approx(90.0 + edge_deg, abs=1.0)
    others = [c for c in range(3) if c != column]
    assert np.all(np.isinf(sweep.unknown_from_m[:, others]))


def test_single_unknown_cell_far_off_falls_between_no_rays() -> None:
    angle = math.radians(77.77)
    range_m = 8.7 * NM
    void = islet(range_m * math.sin(angle), range_m * math.cos(angle), width_m=50.0)
    found = _sweep(_sea().without_heights(void)).unknown_from_m[:, 0]
    assert np.isfinite(found).sum() >= 1
    assert np.nanmin(found) == pytest.approx(range_m, abs=150.0)


def test_void_behind_a_ridge_that_hides_50_m_is_not_reported() -> None:
    ridge, void = box(3000.0, -3000.0, 3500.0, 3000.0), box(6000.0, -400.0, 6500.0, 400.0)
    hidden = _sea().land(ridge, 60.0).without_heights(void)
    assert np.all(np.isinf(_sweep(hidden).unknown_from_m))
    in_reach = _sea().land(ridge, 30.0).without_heights(void)
    assert np.isfinite(_sweep(in_reach).unknown_from_m[180, 0])


def test_outside_all_data_is_unknown_from_where_the_data_ends() -> None:
    sweep = _sweep(Sea(half_width_m=4.0 * NM, cell_m=50.0))
    beyond = sweep.unknown_from_m[:, 2]
    assert np.all(np.isfinite(beyond))
    assert beyond[180] == pytest.approx(4.0 * NM, abs=100.0)
    assert beyond[90] == pytest.approx(4.0 * NM * math.sqrt(2.0), abs=150.0)
    assert np.all(np.isinf(sweep.unknown_from_m[:, :2]))


def test_second_run_gives_the_same_bits() -> None:
    sea = _sea().land(disc(5000.0, 3000.0, 900.0), 70.0).land(disc(-4000.0, 0.0, 300.0), 12.0)
    one, two = _sweep(sea), _sweep(sea)
    assert one.horizon_slope.tobytes() == two.horizon_slope.tobytes()
    assert one.hidden.from_m.tobytes() == two.hidden.from_m.tobytes()
    assert one.unknown_from_m.tobytes() == two.unknown_from_m.tobytes()
