"""Where the coast paints: waterline, farther in, not at all; with the tide; by length."""

import math

import numpy as np
import pytest

from core.coverage.coast_paint import painted_coast
from core.coverage.coverage_result import CoastPaint, PaintedCoast
from core.coverage.echo_sweep import sweep_echo
from core.coverage.land_echo import land_echo
from core.coverage.terrain import prepare_terrain
from core.geodesy.position import Position
from core.land.land_model import LandModel
from core.radar.echo_budget import Conditions, EchoBudget
from core.radar.presets import preset_set
from core.radar.radar_set import Preset
from core.ship.ship import Band
from tests.helpers.beaches import beach
from tests.helpers.islands import CENTRE, NM, Sea, box, islet, place

RANGE_CELL_M = 20.0


def _look(
    land: LandModel,
    *,
    at: Position = CENTRE,
    band: Band = Band.X,
    preset: Preset = Preset.TYPICAL,
    pulse: int = -1,
    radius_m: float = 5.0 * NM,
    conditions: Conditions | None = None,
    inland_m: float = 5.0 * NM,
) -> PaintedCoast:
    radar = preset_set(band, preset)
    terrain = prepare_terrain(land)
    budget = EchoBudget(
        radar=radar,
        pulse=radar.pulses[pulse],
        antenna_height_m=15.0,
        conditions=conditions or Conditions(),
    )
    field = sweep_echo(
        terrain,
        at,
        antenna_height_m=15.0,
        refraction_k=budget.conditions.refraction_k,
        radius_m=radius_m,
        cell_m=RANGE_CELL_M,
        bearing_count=1440,
    )
    echo = land_echo(field, budget)
    return painted_coast(terrain, land.points, at, echo, inland_limit_m=inland_m)


def _facing(land: LandModel, *, west_m: float, half_m: float = 800.0) -> np.ndarray:
    """Points of a coast that runs north and south at a distance east of the ship."""
    east = (land.points.lon_deg - CENTRE.lon_deg) * 111_319.4908
    north = land.points.lat_deg * 110_574.2758
    return np.asarray((np.abs(east - west_m) < 1.0) & (np.abs(north) < half_m))


def _sea() -> Sea:
    return Sea(half_width_m=6.0 * NM, cell_m=25.0)


def test_a_cliff_paints_at_the_waterline() -> None:
    land = _sea().land(box(4000.0, -2000.0, 5000.0, 2000.0), 40.0).model()
    seen = _look(land)
    front = _facing(land, west_m=4000.0)
    assert front.sum() > 10
    assert set(seen.state[front]) == {CoastPaint.PAINTED}
    assert seen.inland_m[front].max() <= 25.0
    assert seen.margin_db[front].min() > 20.0


def test_a_beach_paints_inland_where_its_ground_rises() -> None:
    # Handbook 8: a flat beach is like a weak buoy at no height, so it paints at the bank, here
    # 600 m in; with a strong set near by it paints soon after the waterline.
    land = _sea().land(box(4000.0, -2000.0, 5200.0, 2000.0), beach(0.0)).model()
    front = _facing(land, west_m=4000.0)
    weak = _look(land, preset=Preset.MINIMUM, pulse=0)
    assert set(weak.state[front]) == {CoastPaint.PAINTED_BEHIND}
    assert np.median(weak.inland_m[front]) == pytest.approx(600.0, abs=60.0)
    strong = _look(land)
    assert np.median(strong.inland_m[front]) < 300.0
    assert strong.first_paint_inland_m is not None
    assert weak.first_paint_inland_m is not None
    assert strong.first_paint_inland_m < weak.first_paint_inland_m


def test_the_painted_edge_of_a_beach_moves_with_the_tide() -> None:
    # job.md T13: 1:50 and 5 m of tide, 250 m. The charted coast stays where it is.
    edges = []
    for water_m in (0.0, 5.0):
        land = _sea().land(box(4000.0, -2000.0, 5200.0, 2000.0), beach(water_m)).model()
        front = _facing(land, west_m=4000.0)
        edges.append(float(np.median(_look(land).inland_m[front])))
    assert edges[1] - edges[0] == pytest.approx(250.0, abs=2.0 * RANGE_CELL_M)


def test_the_painted_edge_of_a_steep_shore_stays_and_its_land_loses_the_height() -> None:
    # T13: steeper than 0.27 it moves by less than 0.1 cable; T17: 20 m above mean sea level with
    # the water 2.2 m over it stands 17.8 m above water.
    edges, faces = [], []
    for water_m in (0.0, 2.2):
        land = _sea().land(box(4000.0, -2000.0, 5000.0, 2000.0), 20.0 - water_m).model()
        seen = _look(land)
        front = _facing(land, west_m=4000.0)
        edges.append(float(np.median(seen.inland_m[front])))
        faces.append(
            sweep_echo(
                prepare_terrain(land),
                CENTRE,
                antenna_height_m=15.0,
                refraction_k=4.0 / 3.0,
                radius_m=4100.0,
                cell_m=RANGE_CELL_M,
                bearing_count=1440,
            )
            .face_m[360]
            .sum()
        )
    assert abs(edges[1] - edges[0]) <= RANGE_CELL_M
    assert faces == pytest.approx([20.0, 17.8], abs=0.15)


def test_coast_out_of_sight_does_not_paint_and_land_behind_a_flat_one_does() -> None:
    land = (
        _sea()
        .land(box(3000.0, -3000.0, 3300.0, 3000.0), 30.0)
        .land(box(5000.0, -1500.0, 8000.0, 1500.0), 3.0)
        .land(box(6500.0, -1500.0, 8000.0, 1500.0), 150.0)
    ).model()
    seen = _look(land)
    front = _facing(land, west_m=5000.0)
    assert set(seen.state[front]) == {CoastPaint.PAINTED_BEHIND}
    assert seen.inland_m[front] == pytest.approx(1500.0, abs=60.0)
    # Not on the same run of land, or farther in than is asked for: not this coast's paint.
    near = _look(land, inland_m=1000.0)
    assert set(near.state[front]) == {CoastPaint.UNPAINTED}
    assert np.all(np.isnan(near.inland_m[front]))
    cut = (
        _sea()
        .land(box(3000.0, -3000.0, 3300.0, 3000.0), 30.0)
        .land(box(5000.0, -1500.0, 6000.0, 1500.0), 3.0)
        .land(box(6500.0, -1500.0, 8000.0, 1500.0), 150.0)
    ).model()
    seen = _look(cut)
    assert set(seen.state[_facing(cut, west_m=5000.0)]) == {CoastPaint.UNPAINTED}
    assert np.nanmax(seen.inland_m[_facing(cut, west_m=6500.0)]) < 60.0


def test_what_stands_behind_unknown_heights_is_unknown_and_before_them_it_is_not() -> None:
    shore = box(6000.0, -2000.0, 8000.0, 2000.0)
    before = _sea().land(shore, 40.0).without_heights(box(3000.0, -2000.0, 3400.0, 2000.0)).model()
    front = _facing(before, west_m=6000.0)
    assert set(_look(before).state[front]) == {CoastPaint.UNKNOWN}
    after = _sea().land(shore, 40.0).without_heights(box(6600.0, -2000.0, 7000.0, 2000.0)).model()
    assert set(_look(after).state[front]) == {CoastPaint.PAINTED}
    # A low shore that does not paint, with unknown heights behind it.
    low = _sea().land(shore, 0.2).without_heights(box(6600.0, -2000.0, 7000.0, 2000.0)).model()
    seen = _look(low, preset=Preset.MINIMUM, pulse=0)
    assert set(seen.state[front]) == {CoastPaint.UNKNOWN}
    assert np.all(np.isnan(seen.inland_m[front]))


def test_beyond_the_radius_is_outside_and_does_not_count() -> None:
    land = _sea().land(box(4000.0, -2000.0, 5000.0, 2000.0), 40.0).model()
    seen = _look(land, radius_m=3000.0)
    assert set(seen.state) == {CoastPaint.OUTSIDE}
    assert seen.painted_fraction is None
    assert seen.behind_fraction is None
    assert seen.first_paint_inland_m is None
    none = _look(_sea().model())
    assert none.state.size == 0
    assert none.painted_fraction is None


def test_shares_are_by_length() -> None:
    land = _sea().land(box(4000.0, -2000.0, 5000.0, 2000.0), 40.0).model()
    seen = _look(land)
    length = land.points.length_m
    whole = float(length[seen.state != CoastPaint.OUTSIDE].sum())
    painted = float(length[seen.state == CoastPaint.PAINTED].sum())
    assert seen.painted_fraction == pytest.approx(painted / whole)
    # The front is 4000 m of 10 000 m; of the ends, seen edge-on, 100 m count, and the back not.
    assert seen.painted_fraction == pytest.approx(0.42, abs=0.03)
    has = np.isfinite(seen.inland_m)
    mean = np.average(seen.inland_m[has], weights=length[has])
    assert seen.first_paint_inland_m == pytest.approx(float(mean), rel=1e-6)


def test_an_islet_of_one_cell_paints_near_by() -> None:
    rock = islet(3000.0, 1000.0, width_m=25.0)
    land = _sea().land(rock, 8.0).model()
    seen = _look(land)
    assert np.any(seen.state == CoastPaint.PAINTED)


def test_rain_and_the_lesser_set_take_paint_away() -> None:
    land = _sea().land(box(4000.0, -2000.0, 5200.0, 2000.0), beach(0.0)).model()
    front = _facing(land, west_m=4000.0)
    typical = _look(land)
    minimum = _look(land, preset=Preset.MINIMUM, pulse=0)
    wet = _look(land, conditions=Conditions(rain_mm_h=16.0))
    assert np.all(minimum.inland_m[front] >= typical.inland_m[front])
    assert np.all(wet.inland_m[front] >= typical.inland_m[front])
    assert np.median(minimum.inland_m[front]) > np.median(typical.inland_m[front]) + 100.0


def test_ship_elsewhere_and_any_bearing_give_the_same() -> None:
    states = []
    for bearing_deg in (0.0, 90.0, 213.0):
        angle = math.radians(bearing_deg)
        middle = 4500.0 * math.sin(angle), 4500.0 * math.cos(angle)
        shape = box(middle[0] - 500.0, middle[1] - 500.0, middle[0] + 500.0, middle[1] + 500.0)
        land = _sea().land(shape, 40.0).model()
        seen = _look(land, at=place(3.0, -7.0))
        states.append(seen.painted_fraction)
    assert min(s for s in states if s is not None) > 0.2
