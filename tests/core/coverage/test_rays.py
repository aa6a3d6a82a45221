"""The kernel of a ray: passing over blocks changes nothing, and slopes are the formula's."""

import math

import numpy as np
import pytest

from core.coverage.local_map import local_map
from core.coverage.ray_course import aim, samples_before
from core.coverage.rays import UNKNOWN_CODES, trace, water_slope
from core.coverage.terrain import UNKNOWN_BITS, Ground, Terrain
from core.geodesy.position import Position
from core.land.lattice import Lattice
from tests.helpers.bare_land import metric_lattice, terrain_of

RADIUS_M = 20_000.0
BEND = 1.0 / (2.0 * 4.0 / 3.0 * 6_371_000.0)
HERE = Position(lat_deg=56.0, lon_deg=-6.0)


def _terrain(seed: int, *, has_voids: bool) -> Terrain:
    """Islands of rough land in the sea, perhaps with voids, 0.4 x 0.8 deg round the place."""
    random = np.random.default_rng(seed)
    rows, cols = 480, 960
    heights = np.zeros((rows, cols))
    for _ in range(25):
        i, j = random.integers(0, rows - 60), random.integers(0, cols - 60)
        size = random.integers(2, 60)
        heights[i : i + size, j : j + size] += random.random((size, size)) * random.choice([5, 80])
    if has_voids:
        for _ in range(6):
            i, j = random.integers(0, rows - 9), random.integers(0, cols - 9)
            heights[i : i + 6, j : j + 9] = np.nan
    lattice = Lattice(
        crs="EPSG:4326",
        left_x=-6.4,
        top_y=56.2,
        cell_x=1 / 1200,
        cell_y=1 / 1200,
        rows=rows,
        cols=cols,
    )
    return terrain_of(lattice, heights.astype(np.float32))


def _without_skipping(ground: Ground) -> Ground:
    """The same ground with blocks that promise nothing, so that every sample is read."""
    return ground._replace(
        highest=np.full_like(ground.highest, np.inf),
        free=np.zeros_like(ground.free),
        fields=np.full_like(ground.fields, np.inf),
    )


@pytest.mark.parametrize("has_voids", [False, True])
@pytest.mark.parametrize("unknown_height_m", [50.0, math.inf])
@pytest.mark.parametrize("antenna_m", [6.0, 40.0])
def test_passing_over_blocks_gives_the_same_horizon_bit_for_bit(
    has_voids: bool, unknown_height_m: float, antenna_m: float
) -> None:
    terrain = _terrain(7, has_voids=has_voids)
    here = local_map(terrain.lattice, HERE, RADIUS_M)
    row, col = np.empty(here.row_of.shape[0]), np.empty(here.row_of.shape[0])
    met_unknown = 0
    rises_met = 0
    for bearing in np.radians(np.arange(0.0, 360.0, 1.7)):
        ray = aim(here.grid, math.sin(bearing), math.cos(bearing), RADIUS_M, 0.5, row, col)
        last = samples_before(RADIUS_M, ray)
        answers = []
        for ground in (terrain.ground, _without_skipping(terrain.ground)):
            ranges, slopes = np.zeros(last), np.zeros(last)
            unknown = np.empty(UNKNOWN_CODES)
            top, rises = trace(
                ground, ray, last, antenna_m, BEND, unknown_height_m, ranges, slopes, unknown,
                math.inf,
            )  # fmt: skip
            answers.append((top, rises, unknown.tolist(), slopes[:rises].tolist(), ranges[:rises]))
        skipped, walked = answers
        assert skipped[0] == walked[0]
        assert skipped[1] == walked[1]
        assert skipped[3] == walked[3]
        assert skipped[4] == pytest.approx(walked[4], abs=1e-9)
        # Where a walk begins anew differs between the two, so ranges may differ in the last bit.
        assert skipped[2] == pytest.approx(walked[2], abs=1e-6)
        met_unknown += sum(math.isfinite(m) for m in skipped[2])
        rises_met += skipped[1]
    assert rises_met > 500
    assert (met_unknown > 0) or not has_voids


def test_a_ray_ends_where_its_horizon_comes_over_what_is_enough() -> None:
    terrain = _terrain(7, has_voids=False)
    here = local_map(terrain.lattice, HERE, RADIUS_M)
    row, col = np.empty(here.row_of.shape[0]), np.empty(here.row_of.shape[0])
    none, unknown = np.empty(0), np.empty(UNKNOWN_CODES)
    ended_early = 0
    for bearing in np.radians(np.arange(0.0, 360.0, 1.7)):
        ray = aim(here.grid, math.sin(bearing), math.cos(bearing), RADIUS_M, 0.5, row, col)
        last = samples_before(RADIUS_M, ray)
        most = trace(terrain.ground, ray, last, 25.0, BEND, 0.0, none, none, unknown, math.inf)
        part = trace(terrain.ground, ray, last, 25.0, BEND, 0.0, none, none, unknown, -0.001)
        assert part[0] == most[0] or -0.001 < part[0] < most[0]
        assert (part[0] > -0.001) == (most[0] > -0.001)
        ended_early += part[0] < most[0]
    assert ended_early > 10


def test_legs_keep_a_ray_within_a_hundredth_of_a_cell_and_are_longer_where_it_is_straight() -> None:
    metric, there = metric_lattice("EPSG:32630", 56.0, -5.0, 700, 30.0)
    longest = []
    for lattice, place in ((_terrain(7, has_voids=False).lattice, HERE), (metric, there)):
        here = local_map(lattice, place, RADIUS_M)
        row, col = np.empty(here.row_of.shape[0]), np.empty(here.row_of.shape[0])
        legs: set[int] = set()
        for bearing in np.radians(np.arange(0.0, 360.0, 7.0)):
            ray = aim(here.grid, math.sin(bearing), math.cos(bearing), RADIUS_M, 0.5, row, col)
            legs.add(ray.leg)
            half = 0.5 * ray.leg * ray.step_m / ray.scale_m
            at = np.linspace(0.0, RADIUS_M / ray.scale_m - 2.0 * half, 40)
            for polynomial_of in (row, col):
                start, middle, end = (
                    np.polynomial.polynomial.polyval(at + n * half, polynomial_of) for n in range(3)
                )
                assert np.abs(0.5 * (start + end) - middle).max() < 0.0101
        longest.append(max(legs))
    assert longest[0] == 64
    assert longest[1] > 64


def test_codes_of_blocks_name_every_kind_of_unknown() -> None:
    terrain = _terrain(7, has_voids=True)
    assert terrain.block_codes.max() & UNKNOWN_BITS


@pytest.mark.parametrize("antenna_m", [5.0, 25.0, 60.0])
def test_slope_of_the_water_rises_to_the_horizon_and_stays(antenna_m: float) -> None:
    horizon_m = math.sqrt(antenna_m / BEND)
    ranges = np.linspace(100.0, 2.0 * horizon_m, 4001)
    walked = np.maximum.accumulate(-antenna_m / ranges - ranges * BEND)
    formula = [water_slope(float(r), antenna_m, BEND) for r in ranges]
    assert formula == pytest.approx(walked, rel=1e-6)
    assert water_slope(0.0, antenna_m, BEND) == -math.inf


def test_horizon_of_16_m_is_at_8_84_nm_by_the_common_rule() -> None:
    # handbook 1.3: 2.21 NM a root metre, k = 1.3147 (Bole, Wall and Norris, Radar and ARPA
    # Manual, chapter 3.8.1.1): antenna 16 m, horizon 8.84 NM; the slope is flattest there.
    bend = 1.0 / (2.0 * 1.3147 * 6_371_000.0)
    at = 8.84 * 1852.0
    before = water_slope(at * 0.99, 16.0, bend)
    flattest = water_slope(at * 3.0, 16.0, bend)
    assert before < flattest
    assert water_slope(at * 1.002, 16.0, bend) == pytest.approx(flattest, rel=1e-9)
