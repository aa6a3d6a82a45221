"""Places in and out of hidden stretches made by hand."""

from dataclasses import replace

import numpy as np
import pytest
import shapely

from core.base.arrays import BoolArray
from core.coverage.coverage_result import (
    HiddenWater,
    LegCoverage,
    Viewpoint,
    ViewpointCoverage,
)
from core.coverage.hidden_outlines import hidden_outlines
from core.coverage.hidden_water import hidden_from, hidden_through_leg
from tests.helpers.islands import NM, place

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


def _through(
    leg: LegCoverage, *spots: tuple[float, float], radius_m: float = 24.0 * NM
) -> list[tuple[bool, bool]]:
    """Whether places, metres off the track and along it, are hidden and computed."""
    positions = [place(east, north) for east, north in spots]
    found = hidden_through_leg(
        leg,
        along_m=np.array([north for _east, north in spots]),
        cross_m=np.array([east for east, _north in spots]),
        lat_deg=np.array([p.lat_deg for p in positions]),
        lon_deg=np.array([p.lon_deg for p in positions]),
        radius_m=radius_m,
    )
    return [(bool(h), bool(c)) for h, c in zip(found.hidden, found.computed, strict=True)]


def test_hidden_through_the_leg_means_from_every_viewpoint_on_the_track() -> None:
    # seen from the south everything east of bearing 45 is hidden, from the north all south of 135
    south = _coverage(0.0, 0.0, [(45.0, 90.0, 500.0, 9000.0)])
    north = _coverage(0.0, 2.0 * NM, [(90.0, 135.0, 500.0, 9000.0)])
    # at 1 NM along and 3 NM off the bearings are 71.6 and 108.4; at 0.5 NM off 26.6: in sight
    spots = [(-3.0, 1.0), (0.5, 1.0), (3.0, 1.0), (3.0, 3.0)]
    found = _through(_leg(south, north), *((x * NM, y * NM) for x, y in spots))
    assert found == [(False, True), (False, True), (True, True), (False, True)]


def test_edge_viewpoints_do_not_count() -> None:
    south = _coverage(0.0, 0.0, [(45.0, 90.0, 500.0, 9000.0)])
    edge = replace(
        _coverage(-200.0, 0.0, []),
        viewpoint=Viewpoint(leg_index=0, along_m=0.0, cross_m=-200.0, position=place(-200.0, 0.0)),
    )
    assert _through(_leg(edge, south), (3.0 * NM, NM)) == [(True, True)]


def test_viewpoints_too_far_off_have_no_say_and_places_none_reaches_are_not_open() -> None:
    # 9000 m is the end of the sweep: the far viewpoint saw nothing hidden out there.
    near = _coverage(0.0, 0.0, [(45.0, 90.0, 500.0, 9000.0)])
    far = _coverage(0.0, 12_000.0, [])
    leg = _leg(near, far)
    found = _through(leg, (6000.0, 1000.0), (20_000.0, 0.0), (0.0, 12_500.0), radius_m=9000.0)
    assert found == [(True, True), (False, False), (False, True)]


@pytest.mark.parametrize("count", [1, 2, 3, 7, 20])
def test_order_of_viewpoints_does_not_change_the_answer(count: int) -> None:
    views = [
        _coverage(0.0, i * 400.0, [(45.0 + 3 * i, 90.0 + i, 500.0, 6000.0 - 90.0 * i)])
        for i in range(count)
    ]
    spots = [(x, y) for x in np.linspace(-500.0, 7000.0, 16) for y in np.linspace(-1e3, 9e3, 21)]
    found = [hidden for hidden, _computed in _through(_leg(*views), *spots)]
    plain = np.all([_at(view, *spots) for view in views], axis=0)
    assert found == plain.tolist()
    assert count > 7 or plain.any()


@pytest.mark.parametrize(
    "sectors",
    [
        [(80.0, 100.0, 2000.0, 4000.0)],
        [(350.0, 370.0, 1000.0, 5000.0), (10.0, 40.0, 3000.0, 9000.0)],
        [(0.0, 359.5, 2000.0, 4000.0)],
        [(0.0, 359.5, 2000.0, 9000.0), (30.0, 50.0, 500.0, 800.0), (90.0, 180.0, 800.0, 2000.0)],
        [(20.0, 80.0, 1000.0, 8000.0), (300.0, 340.0, 2000.0, 3000.0)],
        [],
    ],
)
def test_outlines_hold_what_is_hidden_and_nothing_else(
    sectors: list[tuple[float, float, float, float]],
) -> None:
    coverage = _coverage(0.0, 0.0, sectors)
    shapes = [
        shapely.Polygon(
            np.column_stack(rings[0][::-1]), [np.column_stack(ring[::-1]) for ring in rings[1:]]
        )
        for rings in hidden_outlines(coverage)
    ]
    assert all(shape.is_valid for shape in shapes)
    steps = range(-9500, 9600, 380)
    spots = [(x + 3.0, y + 7.0) for x in steps for y in steps]
    points = [shapely.Point(p.lon_deg, p.lat_deg) for p in (place(*spot) for spot in spots)]
    inside = [any(shape.contains(point) for shape in shapes) for point in points]
    edge = shapely.union_all([shape.boundary for shape in shapes])
    wrong = [
        spot
        for spot, point, is_in, is_hidden in zip(
            spots, points, inside, _at(coverage, *spots), strict=True
        )
        # a metre of latitude either side of an edge is left out
        if is_in != is_hidden and edge.distance(point) > 1e-5
    ]
    assert wrong == []
    assert any(inside) is bool(sectors)


def test_small_pieces_can_be_left_out() -> None:
    # By hand: 20 deg from 2000 to 4000 m and half a ray each side, 20.5 / 360 of the ring, 2.15e6
    # square metres.
    coverage = _coverage(0.0, 0.0, [(80.0, 100.0, 2000.0, 4000.0)])
    assert len(hidden_outlines(coverage, least_m2=2.14e6)) == 1
    assert len(hidden_outlines(coverage, least_m2=2.16e6)) == 0


def test_a_hole_in_hidden_water_stays_a_hole() -> None:
    ring = [(10.0, 40.0, 2000.0, 3000.0), (10.0, 40.0, 6000.0, 7000.0)]
    sides = [(10.0, 12.0, 2000.0, 7000.0), (38.0, 40.0, 2000.0, 7000.0)]
    ((_outer, _hole),) = hidden_outlines(_coverage(0.0, 0.0, ring + sides))
