"""Coverage of a real passage (Firth of Lorn to the Sound of Mull, SRTM and GSHHG).

Not for navigation. The sweep is held against the point-to-point profiles, which share nothing
with it but the terrain and the formula of the effective Earth.
"""

import math
from pathlib import Path

import numpy as np
import pytest

from core.base.arrays import BoolArray, FloatArray
from core.base.progress import Quiet
from core.coverage.coverage_result import Cause, Coverage, SweepSettings, ViewpointCoverage
from core.coverage.hidden_water import hidden_from
from core.coverage.profiles import Grid, Pairs, PairState, grid_of, sight_of_pairs
from core.coverage.run import cover_passage
from core.files.load_land import load_land
from core.files.readers import read_passage
from core.geodesy import geodesic
from core.geodesy.position import bounds_of
from core.land.land_model import Cell, LandModel
from core.passage.defaults import resolve_passage
from core.passage.passage import Passage
from tests.helpers.islands import NM

pytestmark = pytest.mark.slow

_SETTINGS = SweepSettings(antenna_height_m=25.0, refraction_k=4.0 / 3.0, radius_m=12.0 * NM)


@pytest.fixture(scope="module")
def covered(real_data: Path) -> tuple[Passage, LandModel, Coverage]:
    area = real_data / "scotland_lorn_kintyre"
    route = read_passage(area / "routes" / "FirthOfLorn_SoundOfMull_rtz12.rtz")
    passage, _timetable, _findings = resolve_passage(
        route.passage,
        speed_mps=None,
        corridor_m=None,
        default_speed_mps=6.0,
        default_corridor_m=463.0,
        start_utc=None,
    )
    reach_deg = _SETTINGS.radius_m * 1.05 / 110_500.0
    bounds = bounds_of(tuple(w.position for w in passage.waypoints)).padded(
        lat_deg=reach_deg, lon_deg=reach_deg / math.cos(math.radians(57.0))
    )
    land = load_land(
        [area],
        bounds=bounds,
        water_level_m=0.0,
        height_error_m=5.0,
        coast_height_m=None,
        progress=Quiet(),
    )
    return passage, land, cover_passage(passage, land, _SETTINGS, Quiet())


def _some(coverage: Coverage) -> list[ViewpointCoverage]:
    """A few viewpoints on the track, spread over the legs."""
    return [v for leg in coverage.legs for v in leg.on_track()[3::9]]


def _in_sight(
    view: ViewpointCoverage, grid: Grid, lat: FloatArray, lon: FloatArray, height_m: FloatArray
) -> BoolArray:
    position = view.viewpoint.position
    count = lat.size
    sight = sight_of_pairs(
        Pairs(
            from_lat_deg=np.full(count, position.lat_deg),
            from_lon_deg=np.full(count, position.lon_deg),
            to_lat_deg=lat,
            to_lon_deg=lon,
            to_height_m=height_m,
            margin_m=np.full(count, 0.5 * grid.cell_m),
        ),
        grid,
        None,
        antenna_height_m=_SETTINGS.antenna_height_m,
        refraction_k=_SETTINGS.refraction_k,
    )
    return np.asarray(sight.state == PairState.IN_SIGHT)


def _cells(land: LandModel, lat: FloatArray, lon: FloatArray) -> BoolArray:
    row, col = land.lattice.row_col(lat, lon)
    i, j = np.rint(row).astype(int), np.rint(col).astype(int)
    inside = (i >= 0) & (i < land.lattice.rows) & (j >= 0) & (j < land.lattice.cols)
    is_sea = np.zeros(lat.size, dtype=np.bool_)
    is_sea[inside] = land.cell[i[inside], j[inside]] == Cell.SEA
    return is_sea


def test_hidden_water_agrees_with_profiles(
    covered: tuple[Passage, LandModel, Coverage],
) -> None:
    _passage, land, coverage = covered
    grid = grid_of(land)
    rng = np.random.default_rng(17)
    both = either = asked = 0
    for view in _some(coverage):
        position = view.viewpoint.position
        # on rays of the sweep, so that turning to the nearest ray costs nothing
        lat, lon, _course = geodesic.direct(
            lat_deg=position.lat_deg,
            lon_deg=position.lon_deg,
            bearing_deg=rng.integers(0, 720, 600).astype(np.float64) * 0.5,
            distance_m=np.sqrt(rng.uniform(0.003, 1.0, 600)) * 11.9 * NM,
        )
        is_sea = _cells(land, lat, lon)
        lat, lon = lat[is_sea], lon[is_sea]
        swept = hidden_from(view, lat, lon)
        craft_m = np.full(lat.size, _SETTINGS.craft_height_m)
        traced = ~_in_sight(view, grid, lat, lon, craft_m)
        both += int((swept & traced).sum())
        either += int((swept | traced).sum())
        asked += lat.size
    assert asked > 1000
    assert both > 200
    assert both / either > 0.97


def test_every_leg_is_covered_and_its_gaps_are_told(
    covered: tuple[Passage, LandModel, Coverage],
) -> None:
    passage, _land, coverage = covered
    assert [leg.leg_index for leg in coverage.legs] == list(range(len(passage.legs)))
    assert not any(leg.crosses_land for leg in coverage.legs)
    assert all(leg.shadows for leg in coverage.legs)
    # the passage begins at the western edge of the data (6 W): nothing is known beyond
    first = coverage.legs[0]
    assert not first.is_complete
    assert {gap.cause for gap in first.gaps} == {Cause.BEYOND_DATA}
    told = {f.where.leg_number for f in coverage.findings if f.code == "coverage-incomplete"}
    assert told == {leg.leg_index + 1 for leg in coverage.legs if not leg.is_complete}
    # leg 3 lies 3.3 NM long between Mull and the mainland: closed in, 12 NM inside the data
    assert coverage.legs[2].is_complete


def test_coast_in_sight_is_a_small_share_in_a_strait(
    covered: tuple[Passage, LandModel, Coverage],
) -> None:
    _passage, land, coverage = covered
    whole_m = float(land.points.length_m.sum())
    for view in _some(coverage):
        fraction = view.coast_in_sight_fraction
        assert fraction is not None
        assert 0.0 < fraction < 0.6
        assert view.nearest_land_range_m is not None
        assert 50.0 < view.nearest_land_range_m < 6.0 * NM
        seen_m = float(land.points.length_m[view.coast_state == 1].sum())
        assert 0.0 < seen_m < whole_m
