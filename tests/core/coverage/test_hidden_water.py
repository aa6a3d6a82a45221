"""Places in and out of hidden stretches made by hand."""

from dataclasses import replace

import numpy as np
import pytest

from core.base.arrays import BoolArray
from core.coverage.coverage_result import (
    HiddenWater,
    LegCoverage,
    Viewpoint,
    ViewpointCoverage,
)
from core.coverage.hidden_water import hidden_from, hidden_through_leg
from tests.helpers.islands import NM, place, track

_RAYS = 720


def _coverage(
    east_m: float,
    north_m: float,
    sectors: list[tuple[float, float, float, float]],
    cross_m: float = 0.0,
) -> ViewpointCoverage:
    """A viewpoint with hidden sectors: bearings in deg, ranges in m."""
    rays: list[list[tuple[float, float]]] = [[] for _ in range(_RAYS)]
    for from_deg, to_deg, near_m, far_m in sectors:
        for ray in range(round(from_deg * 2), round(to_deg * 2) + 1):
            rays[ray % _RAYS].append((near_m, far_m))
    flat = [pair for ray in rays for pair in ray]
    return ViewpointCoverage(
        viewpoint=Viewpoint(
            leg_index=0, along_m=north_m, cross_m=cross_m, position=place(east_m, north_m)
        ),
        nearest_land_range_m=None,
        nearest_land_bearing_deg=None,
        coast_state=np.zeros(0, dtype=np.uint8),
        coast_inland_m=np.zeros(0, dtype=np.float32),
        coast_in_sight_fraction=None,
        first_land_inland_m=None,
        horizon_slope=np.zeros(3600, dtype=np.float32),
        hidden=HiddenWater(
            offsets=np.concatenate([[0], np.cumsum([len(r) for r in rays])]).astype(np.int64),
            from_m=np.array([a for a, _b in flat], dtype=np.float32),
            to_m=np.array([b for _a, b in flat], dtype=np.float32),
        ),
        shadows=(),
    )


def _at(coverage: ViewpointCoverage, *places: tuple[float, float]) -> list[bool]:
    spots = [place(*p) for p in places]
    found: BoolArray = hidden_from(
        coverage,
        np.array([s.lat_deg for s in spots]),
        np.array([s.lon_deg for s in spots]),
    )
    return [bool(f) for f in found]


def test_place_is_hidden_inside_the_stretch_only() -> None:
    coverage = _coverage(0.0, 0.0, [(80.0, 100.0, 2000.0, 4000.0)])
    assert _at(coverage, (3000.0, 0.0), (1900.0, 0.0), (4100.0, 0.0), (0.0, 3000.0)) == [
        True,
        False,
        False,
        False,
    ]


def test_ray_across_north_is_found() -> None:
    coverage = _coverage(0.0, 0.0, [(350.0, 370.0, 1000.0, 5000.0)])
    assert _at(coverage, (-100.0, 3000.0), (100.0, 3000.0), (-0.1, 3000.0)) == [True] * 3


def test_shape_of_the_places_is_kept() -> None:
    coverage = _coverage(0.0, 0.0, [(0.0, 10.0, 1000.0, 5000.0)])
    lat = np.full((2, 3), place(0.0, 3000.0).lat_deg)
    lon = np.full((2, 3), place(100.0, 0.0).lon_deg)
    assert hidden_from(coverage, lat, lon).shape == (2, 3)


def _leg(*viewpoints: ViewpointCoverage) -> LegCoverage:
    return LegCoverage(
        leg_index=0,
        viewpoints=viewpoints,
        is_complete=True,
        gaps=(),
        shadows=(),
        crosses_land=False,
    )


def test_hidden_through_the_leg_means_from_every_viewpoint_on_the_track() -> None:
    # seen from the south everything east of bearing 45 is hidden, from the north all south of 135
    south = _coverage(0.0, 0.0, [(45.0, 90.0, 500.0, 9000.0)])
    north = _coverage(0.0, 2.0 * NM, [(90.0, 135.0, 500.0, 9000.0)])
    line = track((0.0, 0.0), (0.0, 2.0 * NM)).line(0)
    along, cross = np.array([NM, 3.0 * NM]), np.array([-3.0 * NM, 0.5 * NM, 3.0 * NM])
    grid = hidden_through_leg(_leg(south, north), line, along, cross)
    # at 1 NM along and 3 NM off the bearings are 71.6 and 108.4; at 0.5 NM off 26.6: in sight
    assert grid.tolist() == [[False, False, True], [False, False, False]]


def test_edge_viewpoints_do_not_count() -> None:
    south = _coverage(0.0, 0.0, [(45.0, 90.0, 500.0, 9000.0)])
    edge = replace(
        _coverage(-200.0, 0.0, []),
        viewpoint=Viewpoint(leg_index=0, along_m=0.0, cross_m=-200.0, position=place(-200.0, 0.0)),
    )
    line = track((0.0, 0.0), (0.0, 2.0 * NM)).line(0)
    grid = hidden_through_leg(_leg(edge, south), line, np.array([NM]), np.array([3.0 * NM]))
    assert grid.tolist() == [[True]]


@pytest.mark.parametrize("count", [1, 2, 3, 7, 20])
def test_order_of_viewpoints_does_not_change_the_answer(count: int) -> None:
    views = [
        _coverage(0.0, i * 400.0, [(45.0 + 3 * i, 90.0 + i, 500.0, 6000.0 - 90.0 * i)])
        for i in range(count)
    ]
    line = track((0.0, 0.0), (0.0, 20 * 400.0)).line(0)
    along, cross = np.linspace(-1000.0, 9000.0, 21), np.linspace(-500.0, 7000.0, 16)
    grid = hidden_through_leg(_leg(*views), line, along, cross)
    lat, lon = line.offset(np.repeat(along, 16), np.tile(cross, 21))
    plain = np.all([hidden_from(view, lat, lon) for view in views], axis=0)
    assert np.array_equal(grid, plain.reshape(21, 16))
    assert count > 7 or plain.any()
