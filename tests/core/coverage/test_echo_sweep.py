"""What an antenna lights: closed forms, a slow reference, the rules of unknown heights."""

import math

import numpy as np
import pytest

from core.base.arrays import FloatArray
from core.coverage.echo_field import EchoField, Surface
from core.coverage.echo_sweep import sweep_echo
from core.coverage.terrain import prepare_terrain
from core.geodesy.position import Position
from core.land.land_model import Cell, LandModel
from tests.helpers.islands import CENTRE, NM, Sea, box, disc, islet, place
from tests.helpers.slow_echo import slow_echo

K = 4.0 / 3.0
BEND = 1.0 / (2.0 * K * 6_371_000.0)
BEARINGS = 720
DEG = BEARINGS // 360


def _look(
    land: Sea | LandModel,
    *,
    at: Position = CENTRE,
    antenna_m: float = 20.0,
    radius_m: float = 8.0 * NM,
    cell_m: float = 50.0,
    k: float = K,
    bearings: int = BEARINGS,
) -> EchoField:
    return sweep_echo(
        prepare_terrain(land.model() if isinstance(land, Sea) else land),
        at,
        antenna_height_m=antenna_m,
        refraction_k=k,
        radius_m=radius_m,
        cell_m=cell_m,
        bearing_count=bearings,
    )


def _sea(cell_m: float = 30.0, half_nm: float = 9.0) -> Sea:
    return Sea(half_width_m=half_nm * NM, cell_m=cell_m)


def _ray(field: EchoField, bearing_deg: float, values: np.ndarray) -> FloatArray:
    return np.asarray(values[round(bearing_deg * field.surface.shape[0] / 360.0)], np.float64)


def _area_m2(field: EchoField, *, is_solid_angle: bool = False) -> float:
    """Area across the line of sight of all land in sight, m2, or the solid angle it fills."""
    bearings, cells = field.face_m.shape
    range_m = (np.arange(cells) + 0.5) * field.cell_m
    weight = 1.0 / range_m if is_solid_angle else range_m
    return float((field.face_m * weight).sum() * 2.0 * math.pi / bearings)


def test_open_sea_shows_water_to_its_horizon_and_nothing_after() -> None:
    field = _look(_sea(), antenna_m=4.0, cell_m=100.0)
    assert field.face_m.shape == (BEARINGS, math.ceil(80.0 * NM / 1000.0))
    assert np.all(field.face_m == 0.0)
    assert np.all(np.isnan(field.height_m))
    assert np.all(np.isnan(field.span_m))
    assert np.all(np.isnan(field.steepness))
    # sqrt(2 k R h) = 8244 m for 4 m.
    assert np.all(field.surface[:, :82] == Surface.SEA)
    assert np.all(field.surface[:, 83:] == Surface.HIDDEN)


def test_even_slope_has_the_face_of_its_angle_to_the_ray() -> None:
    # z = (r - r0) / 50 due east: sin psi = 1/50 + (h - z) / r - r / (2 k R), summed over range:
    # r0 m ln(b / a) + h ln(b / a) - (b^2 - a^2) / (4 k R).
    near, slope, height = 5000.0, 1.0 / 50.0, 20.0
    sea = _sea().land(
        box(near, -2000.0, near + 3000.0, 2000.0), lambda east, north: slope * (east - near)
    )
    field = _look(sea, antenna_m=height)
    face = _ray(field, 90.0, field.face_m)
    for a, b in ((5500.0, 7500.0), (6000.0, 6100.0)):
        whole = (slope * near + height) * math.log(b / a) - BEND * (b * b - a * a) / 2.0
        part = face[round(a / 50.0) : round(b / 50.0)]
        assert part.sum() == pytest.approx(whole, rel=0.0005)
    middle = slice(round(5500.0 / 50.0), round(7500.0 / 50.0))
    assert _ray(field, 90.0, field.steepness)[middle] == pytest.approx(slope, rel=0.01)
    middles = (np.arange(160) + 0.5) * 50.0
    heights = _ray(field, 90.0, field.height_m)[middle]
    assert heights == pytest.approx(slope * (middles[middle] - near), abs=0.06)
    assert _ray(field, 90.0, field.span_m)[middle] == pytest.approx(1.0, rel=0.01)
    assert np.all(_ray(field, 90.0, field.surface)[middle] == Surface.LAND)


def test_no_ring_where_every_second_ray_ends() -> None:
    # An even slope across 12 NM, where half of the rays end: face as its angle to the ray says.
    near, slope, height = 11.0 * NM, 1.0 / 20.0, 20.0
    sea = _sea(30.0, 14.0).land(
        box(near, -2000.0, near + 5000.0, 2000.0), lambda east, north: slope * (east - near)
    )
    field = _look(sea, antenna_m=height, radius_m=13.5 * NM, cell_m=37.5)
    face = _ray(field, 90.0, field.face_m)
    ends = (np.arange(face.size + 1)) * 37.5
    a, b = ends[:-1], ends[1:]
    whole = (slope * near + height) * np.log(b / np.maximum(a, 1.0)) - BEND * (b * b - a * a) / 2
    ring = int(12.0 * NM / 37.5)
    beside = slice(ring - 4, ring + 5)
    assert face[beside] == pytest.approx(whole[beside], rel=0.02)


def test_steepness_is_that_of_the_ground_not_of_the_ray() -> None:
    # Seen from the south-west, a slope of 1:5 that rises eastwards is met at 45 deg.
    sea = _sea().land(box(3000.0, 3000.0, 6000.0, 6000.0), lambda east, north: 0.2 * (east - 3000))
    field = _look(sea)
    steep = _ray(field, 45.0, field.steepness)
    lit = _ray(field, 45.0, field.face_m) > 1.0
    assert lit.sum() > 20
    inner = np.flatnonzero(lit)[3:-3]
    assert steep[inner] == pytest.approx(0.2, rel=0.02)


@pytest.mark.parametrize("bearing_deg", [0.0, 37.5, 90.0, 210.0])
def test_cliff_shows_its_whole_height_and_nothing_behind(bearing_deg: float) -> None:
    # A round plateau 60 m high, higher than the antenna: only its cliff is in sight.
    angle = math.radians(bearing_deg)
    east, north = 7000.0 * math.sin(angle), 7000.0 * math.cos(angle)
    field = _look(_sea().land(disc(east, north, 1500.0), 60.0))
    face = _ray(field, bearing_deg, field.face_m)
    assert face.sum() == pytest.approx(60.0, abs=0.5)
    # The raster's cliff is a ramp one cell wide, met at up to 45 deg.
    assert face[round(5440.0 / 50.0) : round(5560.0 / 50.0)].sum() == pytest.approx(60.0, abs=0.5)
    surface = _ray(field, bearing_deg, field.surface)
    assert np.all(surface[: round(5400.0 / 50.0)] == Surface.SEA)
    assert np.all(surface[round(5600.0 / 50.0) :] == Surface.HIDDEN)
    lit = face > 0.1
    heights = _ray(field, bearing_deg, field.height_m)[lit]
    assert np.average(heights, weights=face[lit]) == pytest.approx(30.0, abs=1.0)
    # ramp: 60 m over a cell or its diagonal
    steep = _ray(field, bearing_deg, field.steepness)[lit]
    assert np.average(steep, weights=face[lit]) > 1.0


def test_wall_in_one_range_cell_spans_its_height() -> None:
    field = _look(_sea().land(box(5100.0, -500.0, 5600.0, 500.0), 60.0), cell_m=200.0)
    at = round(90.0 * DEG), int(5090.0 / 200.0)
    assert field.face_m[at] == pytest.approx(60.0, abs=0.3)
    assert field.height_m[at] == pytest.approx(30.0, abs=0.2)
    assert field.span_m[at] == pytest.approx(60.0, abs=0.5)


@pytest.mark.parametrize("k", [1.0, 4.0 / 3.0, 2.0])
def test_land_behind_the_horizon_shows_what_stands_over_it(k: float) -> None:
    # Hidden below the horizon of the water: (R - sqrt(2 k a h))^2 / (2 k a).
    earth = k * 6_371_000.0
    range_m, height = 16.0 * NM, 80.0
    sea = _sea(60.0, 20.0).land(box(range_m, -3000.0, range_m + 2000.0, 3000.0), height)
    field = _look(sea, antenna_m=15.0, radius_m=18.0 * NM, cell_m=100.0, k=k)
    hidden = (range_m - math.sqrt(2.0 * earth * 15.0)) ** 2 / (2.0 * earth)
    assert _ray(field, 90.0, field.face_m).sum() == pytest.approx(height - hidden, rel=0.01)
    face, heights = _ray(field, 90.0, field.face_m), _ray(field, 90.0, field.height_m)
    middle = np.average(heights[face > 0.1], weights=face[face > 0.1])
    assert middle == pytest.approx((height + hidden) / 2.0, abs=1.0)


def test_land_hidden_by_nearer_land_shows_what_stands_over_the_sight_line() -> None:
    sea = (
        _sea()
        .land(box(4000.0, -2000.0, 4300.0, 2000.0), 50.0)
        .land(box(9000.0, -1500.0, 10_000.0, 1500.0), 120.0)
    )
    field = _look(sea, antenna_m=20.0)
    sight = 20.0 + ((50.0 - 20.0) / 4000.0 - BEND * 4000.0) * 9000.0 + BEND * 9000.0**2
    far = _ray(field, 90.0, field.face_m)[round(8900.0 / 50.0) :]
    assert far.sum() == pytest.approx(120.0 - sight, rel=0.02)
    surface = _ray(field, 90.0, field.surface)
    assert np.all(surface[round(4500.0 / 50.0) : round(8800.0 / 50.0)] == Surface.HIDDEN)


def test_water_behind_a_low_wall_comes_back_in_sight() -> None:
    # Shadow of 10 m at 2000 m under an antenna of 30 m: the sight line meets the water where
    # h + m r + r^2 / (2 k R) = 0, 3011 m on this Earth (3000 m on a plane).
    sea = _sea(20.0, 5.0).land(box(1960.0, -800.0, 2000.0, 800.0), 10.0)
    field = _look(sea, antenna_m=30.0, radius_m=4.0 * NM)
    surface = _ray(field, 90.0, field.surface)
    m = (10.0 - 30.0) / 2000.0 - BEND * 2000.0
    meets = (-m - math.sqrt(m * m - 4.0 * 30.0 * BEND)) / (2.0 * BEND)
    # The wall's far top lies somewhere in its last 20 m.
    assert np.all(surface[round(2100.0 / 50.0) : int((meets - 60.0) / 50.0)] == Surface.HIDDEN)
    assert np.all(surface[int((meets + 60.0) / 50.0) :] == Surface.SEA)


def test_cone_fills_the_solid_angle_of_its_outline() -> None:
    # Straight cone, 150 m high, 1200 m to its foot, seen from 20 m high 7 km off. By bearing the
    # greatest slope over the cone against that of the water at its foot, on a fine mesh.
    east, height, foot = 7000.0, 150.0, 1200.0

    def cone(x: FloatArray, y: FloatArray) -> FloatArray:
        return np.maximum(height * (1.0 - np.hypot(x - east, y) / foot), 0.0)

    field = _look(_sea(15.0, 5.0).land(disc(east, 0.0, foot), cone), cell_m=30.0, bearings=1440)
    angles = np.radians(np.linspace(80.0, 100.0, 2001))
    ranges = np.arange(5500.0, 8500.0, 2.0)
    x, y = np.sin(angles)[:, None] * ranges, np.cos(angles)[:, None] * ranges
    z = cone(x, y)
    slope = (z - 20.0) / ranges - BEND * ranges
    first = np.argmax(z > 0.0, axis=1)
    rise = np.where(z.max(axis=1) > 0.0, slope.max(axis=1), np.nan)
    base = slope[np.arange(angles.size), first]
    truth = float(np.nansum(rise - base) * (angles[1] - angles[0]))
    assert _area_m2(field, is_solid_angle=True) == pytest.approx(truth, rel=0.01)


def _outline_m2(angle: float, width_m: float, height_m: float) -> float:
    """Area across the line of sight of a bilinear peak over one cell, on a fine mesh."""
    u = np.linspace(-1.0, 1.0, 801)
    peak = np.outer(1.0 - np.abs(u), 1.0 - np.abs(u)) * height_m
    across = (u[:, None] * math.cos(angle) - u[None, :] * math.sin(angle)) * width_m
    edges = np.arange(-1.5 * width_m, 1.5 * width_m, 0.5)
    top = np.zeros(edges.size + 1)
    np.maximum.at(top, np.digitize(across.ravel(), edges), peak.ravel())
    return float(top.sum() * 0.5)


@pytest.mark.parametrize("bearings", [360, 720, 4000])
def test_islets_of_one_cell_keep_their_faces_whatever_their_bearing(bearings: int) -> None:
    range_m, width_m, height_m = 7.0 * NM, 40.0, 30.0
    at_deg = np.arange(1.3, 360.0, 7.2)
    sea = Sea(half_width_m=9.0 * NM, cell_m=width_m)
    for angle in np.radians(at_deg):
        rock = islet(range_m * math.sin(angle), range_m * math.cos(angle), width_m=width_m)
        sea = sea.land(rock, height_m)
    land = sea.model()
    assert np.count_nonzero(land.cell == Cell.LAND) == at_deg.size
    # The horizon of the water is farther off than the islets, so nothing of them is hidden.
    assert range_m < math.sqrt(20.0 / BEND)
    field = _look(land, bearings=bearings)
    step_deg = 360.0 / bearings
    row_deg = np.arange(bearings) * step_deg
    ratios = []
    for deg in at_deg:
        off_deg = np.abs((row_deg - deg + 180.0) % 360.0 - 180.0)
        part = np.where((off_deg < 3.5)[:, None], field.face_m, 0.0)
        lit = np.flatnonzero(part.max(axis=1) > 0.0)
        assert lit.size >= 1
        assert off_deg[lit].max() < 0.5 * step_deg + math.degrees(80.0 / range_m)
        middles = (np.arange(part.shape[1]) + 0.5) * field.cell_m
        area = float((part * middles).sum()) * math.radians(step_deg)
        ratios.append(area / _outline_m2(math.radians(deg), width_m, height_m))
    # Samples half a cell apart pass a peak of one cell by up to a quarter of it, an eighth in
    # the mean; rays nearly a cell apart take more or less of it by chance.
    assert min(ratios) > 0.65
    assert max(ratios) < 1.2
    assert np.mean(ratios) == pytest.approx(0.92, abs=0.06)


def _rough(seed: int) -> LandModel:
    """Invented hills, bays and 40 rocks of one cell."""
    random = np.random.default_rng(seed)
    waves = random.normal(0.0, 1.0, (6, 3))

    def hills(x: FloatArray, y: FloatArray) -> FloatArray:
        z = np.full(x.shape, 25.0)
        for a, b, c in waves:
            z += 35.0 * np.sin(x / 900.0 * (1.0 + abs(a)) + y / 1100.0 * b + 6.0 * c)
        return np.asarray(np.maximum(z, 0.1), np.float64)

    sea = Sea(half_width_m=6.0 * NM, cell_m=40.0).land(
        box(3000.0, -7000.0, 10_500.0, 7000.0), hills
    )
    sea = sea.land(disc(-5000.0, 3000.0, 1500.0), hills)
    for east, north in random.uniform(-9000.0, 2500.0, (40, 2)):
        if math.hypot(east, north) > 800.0:
            sea = sea.land(islet(east, north, width_m=40.0), float(random.uniform(2.0, 25.0)))
    return sea.model()


@pytest.mark.parametrize(("seed", "antenna_m"), [(3, 12.0), (11, 35.0)])
def test_all_agrees_with_the_slow_reference(seed: int, antenna_m: float) -> None:
    land = _rough(seed)
    radius_m, cell_m, bearings = 5.0 * NM, 50.0 * NM / 1000.0, 360
    field = _look(land, antenna_m=antenna_m, radius_m=radius_m, cell_m=cell_m, bearings=bearings)
    per = 9
    fine = (np.arange(bearings * per) - per // 2) * 360.0 / (bearings * per)
    slow = slow_echo(
        land,
        CENTRE,
        antenna_height_m=antenna_m,
        refraction_k=K,
        radius_m=radius_m,
        cell_m=cell_m,
        bearings_deg=fine,
        step_m=4.0,
    )
    face = slow.face_m.reshape(bearings, per, -1).mean(axis=1)
    mine = field.face_m.astype(np.float64)
    assert mine.sum() == pytest.approx(face.sum(), rel=0.01)
    by_bearing = mine.reshape(90, -1).sum(axis=1), face.reshape(90, -1).sum(axis=1)
    strong = by_bearing[1] > 0.2 * by_bearing[1].mean()
    ratio = by_bearing[0][strong] / by_bearing[1][strong]
    assert np.abs(ratio - 1.0).max() < 0.1
    # cell by cell, where it matters: within 1 dB for most, and no strong cell missed
    big = face > 2.0
    assert big.sum() > 500
    db = 10.0 * np.log10(np.maximum(mine[big], 1e-6) / face[big])
    assert np.quantile(np.abs(db), 0.9) < 1.0
    near = (mine[big] > 0.0) | (np.roll(mine, 1, 1)[big] > 0.0) | (np.roll(mine, -1, 1)[big] > 0.0)
    assert np.all(near)
    held = big & np.isfinite(field.height_m)
    weighted = (slow.height_m * slow.face_m).reshape(bearings, per, -1)
    heights = (
        np.nansum(weighted, axis=1)[held]
        / (slow.face_m.reshape(bearings, per, -1).sum(axis=1)[held])
    )
    assert np.quantile(np.abs(field.height_m[held] - heights), 0.95) < 3.0
    water = slow.has_water.reshape(bearings, per, -1).any(axis=1)
    known_sea = field.surface == Surface.SEA
    bare = face <= 0.0
    assert np.count_nonzero(known_sea != (water & bare)) < 0.01 * known_sea.size


def test_void_in_front_makes_what_lies_behind_unknown_unless_known_land_hides_it() -> None:
    shore = box(9000.0, -3000.0, 11_000.0, 3000.0)
    sea = _sea().land(shore, 40.0).without_heights(box(5000.0, -3000.0, 5400.0, 3000.0))
    surface = _ray(_look(sea), 90.0, _look(sea).surface)
    assert np.all(surface[: round(4900.0 / 50.0)] == Surface.SEA)
    assert np.all(surface[round(5000.0 / 50.0) : round(9050.0 / 50.0)] == Surface.UNKNOWN)
    assert np.all(surface[round(9200.0 / 50.0) : round(10_800.0 / 50.0)] == Surface.HIDDEN)
    hidden = sea.land(box(3000.0, -3000.0, 3500.0, 3000.0), 90.0)
    surface = _ray(_look(hidden), 90.0, _look(hidden).surface)
    assert np.all(surface[round(3600.0 / 50.0) : round(10_800.0 / 50.0)] == Surface.HIDDEN)
    # Other bearings are as they were.
    assert np.all(_ray(_look(sea), 270.0, _look(sea).surface)[:150] == Surface.SEA)


def test_land_seen_over_a_void_behind_a_ridge_is_unknown() -> None:
    # As for points and coast: heights that are not known may be any height.
    sea = (
        _sea()
        .land(box(3000.0, -3000.0, 3500.0, 3000.0), 60.0)
        .land(box(9000.0, -3000.0, 11_000.0, 3000.0), 400.0)
        .without_heights(box(5000.0, -3000.0, 5400.0, 3000.0))
    )
    field = _look(sea)
    surface = _ray(field, 90.0, field.surface)
    # The void itself, taken as 50 m high, stays below the ridge's sight line.
    assert np.all(surface[round(3600.0 / 50.0) : round(8900.0 / 50.0)] == Surface.HIDDEN)
    assert np.any(surface[round(8950.0 / 50.0) : round(9100.0 / 50.0)] == Surface.UNKNOWN)
    assert not np.any(surface[round(8950.0 / 50.0) :] == Surface.LAND)


def test_nothing_is_known_outside_the_data() -> None:
    # Data end 2 NM off; 50 m could be in sight out to 8 NM, water to its horizon at 18.4 km.
    field = _look(_sea(30.0, 2.0))
    east = _ray(field, 90.0, field.surface)
    assert np.all(east[: round(3600.0 / 50.0)] == Surface.SEA)
    assert np.all(east[round(3800.0 / 50.0) :] == Surface.UNKNOWN)
    # From a place outside, what lies before and behind the data is unknown all the same.
    outside = _look(_sea(30.0, 2.0), at=place(-10_000.0, 0.0))
    assert np.all(outside.surface == Surface.UNKNOWN)


def test_range_cells_finer_than_the_lattice_hold_as_much() -> None:
    land = _rough(5)
    coarse = _look(land, radius_m=4.0 * NM, cell_m=80.0, bearings=360)
    fine = _look(land, radius_m=4.0 * NM, cell_m=8.0, bearings=360)
    whole, parts = coarse.face_m.sum(axis=1), fine.face_m.sum(axis=1)
    assert parts.sum() == pytest.approx(whole.sum(), rel=0.02)
    strong = whole > 30.0
    assert parts[strong] == pytest.approx(whole[strong], rel=0.05)
    # No empty cell between two lit ones on an even slope: samples are as fine as the cells.
    slope = _sea().land(box(5000.0, -2000.0, 8000.0, 2000.0), lambda east, n: (east - 5000) / 50)
    ray = _ray(_look(slope, cell_m=6.0), 90.0, _look(slope, cell_m=6.0).face_m)
    assert np.all(ray[round(5100.0 / 6.0) : round(7900.0 / 6.0)] > 0.0)


def test_same_again_is_the_same_and_arrays_are_read_only() -> None:
    land = _rough(7)
    one, two = _look(land), _look(land)
    assert np.array_equal(one.face_m, two.face_m)
    assert np.array_equal(one.surface, two.surface)
    assert not one.face_m.flags.writeable


def test_an_antenna_over_land_lights_the_land_round_it() -> None:
    field = _look(_sea().land(disc(0.0, 0.0, 3000.0), 5.0), antenna_m=25.0)
    inside = field.face_m[:, 2 : round(2900.0 / 50.0)]
    # level ground 20 m below: psi is 20 / r
    middles = (np.arange(2, round(2900.0 / 50.0)) + 0.5) * 50.0
    assert inside == pytest.approx(np.broadcast_to(20.0 / middles * 50.0, inside.shape), rel=0.05)
    assert np.all(np.isfinite(field.face_m))
    assert np.all(field.surface[:, :50] == Surface.LAND)


def test_far_off_a_rough_hill_has_the_face_it_has_with_rays_close_together() -> None:
    # Past 12 NM fewer rays go on. Twice as many bearings put twice as many rays over the same
    # hills, so both must find the same area across the line of sight, by bearing and in all.
    rng = np.random.default_rng(7)
    bumps = rng.uniform(60.0, 220.0, (40, 40))

    def rough(east: FloatArray, north: FloatArray) -> FloatArray:
        i = np.clip(((north + 4000.0) / 200.0).astype(np.int64), 0, 39)
        j = np.clip(((east - 24_000.0) / 200.0).astype(np.int64), 0, 39)
        return bumps[i, j]

    sea = _sea(cell_m=60.0, half_nm=18.0).land(box(24_000.0, -4000.0, 32_000.0, 4000.0), rough)
    few = _look(sea, radius_m=17.5 * NM)
    many = _look(sea, radius_m=17.5 * NM, bearings=8 * BEARINGS)
    assert _area_m2(few) == pytest.approx(_area_m2(many), rel=0.02)
    by_bearing = few.face_m.sum(axis=1), many.face_m.reshape(BEARINGS, 8, -1).sum(axis=2).mean(1)
    lit = by_bearing[1] > 30.0
    assert lit.sum() > 20
    ratio = by_bearing[0][lit] / by_bearing[1][lit]
    assert np.median(np.abs(ratio - 1.0)) < 0.25
