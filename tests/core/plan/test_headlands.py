"""Headlands found along hand-made coasts; shapes in metres east and north of mid-ocean."""

from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from core.land.land_model import LandModel
from core.plan.feature import Feature
from core.plan.headlands import headlands, nearest_dips
from core.plan.land_objects import islets
from core.plan.leg_frame import leg_frame
from core.plan.plan_result import Edge, ObjectKind
from core.plan.ranking import is_straight
from core.plan.rules import DEFAULT_RULES
from core.plan.usable_window import edge_kind
from tests.helpers.islands import NM, box, disc, flat_sea, islet, track


def found_on(land: LandModel) -> tuple[Feature, ...]:
    """Headlands seen from a leg that runs north through the centre."""
    line = track((0.0, -6.0 * NM), (0.0, 6.0 * NM)).line(0)
    frame = leg_frame(line, land, 10.0 * NM)
    keys = frozenset(f.key for f in islets(land, DEFAULT_RULES))
    return headlands(frame, land, DEFAULT_RULES, islet_keys=keys)


def shore_with(shape: shapely.Geometry, height_m: float = 40.0) -> LandModel:
    """A straight shore 3 NM east of the leg with something in front of it."""
    main = box(3.0 * NM, -8.0 * NM, 5.0 * NM, 8.0 * NM)
    return (
        flat_sea(half_width_m=11.0 * NM, cell_m=90.0)
        .land(shapely.union(main, shape), height_m)
        .model()
    )


def nearest(feature: Feature, land: LandModel) -> tuple[float, float]:
    """Along and cross, NM, of a feature's waterline point nearest the leg."""
    line = track((0.0, -6.0 * NM), (0.0, 6.0 * NM)).line(0)
    along, cross = line.track_coordinates(feature.lat_deg, feature.lon_deg)
    number = int(np.argmin(np.abs(cross)))
    assert land.points.lat_deg[feature.point_index[number]] == feature.lat_deg[number]
    return float(along[number]) / NM, float(cross[number]) / NM


def test_sharp_point_is_a_tip() -> None:
    point = shapely.Polygon([(3.2 * NM, -0.4 * NM), (1.5 * NM, 0.0), (3.2 * NM, 0.4 * NM)])
    land = shore_with(point)
    (feature,) = found_on(land)
    assert feature.kind is ObjectKind.HEADLAND
    assert edge_kind(feature, DEFAULT_RULES) is Edge.TIP
    along, cross = nearest(feature, land)
    assert along == pytest.approx(6.0, abs=0.05)
    assert cross == pytest.approx(1.5, abs=0.05)


def test_round_bulge_is_a_tangent_of_its_own_radius() -> None:
    land = shore_with(disc(3.2 * NM, 0.0, 1500.0))
    (feature,) = found_on(land)
    assert edge_kind(feature, DEFAULT_RULES) is Edge.TANGENT
    assert feature.rounding_m == pytest.approx(1500.0, rel=0.25)


def test_straight_shore_has_no_point_to_hold_not_even_at_its_corner() -> None:
    found = found_on(shore_with(box(3.5 * NM, -1.0, 4.0 * NM, 1.0)))
    assert all(is_straight(feature) for feature in found)


def test_islets_are_not_headlands() -> None:
    land = (
        flat_sea(half_width_m=8.0 * NM, cell_m=90.0)
        .land(islet(2.0 * NM, 0.0, width_m=300.0), 30.0)
        .model()
    )
    assert found_on(land) == ()
    (small,) = islets(land, DEFAULT_RULES)
    assert small.kind is ObjectKind.ISLET
    assert small.extent_m == pytest.approx(300.0 * np.sqrt(2.0), rel=0.01)


def test_a_rock_is_smaller_than_a_hundred_metres_and_a_big_island_no_islet() -> None:
    land = (
        flat_sea(half_width_m=8.0 * NM, cell_m=60.0)
        .land(islet(2.0 * NM, 0.0, width_m=60.0), 8.0)
        .land(disc(-3.0 * NM, 0.0, NM), 90.0)
        .model()
    )
    (small,) = islets(land, DEFAULT_RULES)
    assert small.kind is ObjectKind.ROCK
    assert small.height_m == pytest.approx(8.0)


def test_headlands_on_both_sides_of_a_strait() -> None:
    def side(sign: float) -> shapely.Geometry:
        shore = box(
            min(3.0 * sign, 5.0 * sign) * NM, -8.0 * NM, max(3.0 * sign, 5.0 * sign) * NM, 8.0 * NM
        )
        point = shapely.Polygon(
            [(3.2 * sign * NM, -0.4 * NM), (1.5 * sign * NM, 0.0), (3.2 * sign * NM, 0.4 * NM)]
        )
        return shapely.union(shore, point)

    land = (
        flat_sea(half_width_m=11.0 * NM, cell_m=90.0)
        .land(side(1.0), 30.0)
        .land(side(-1.0), 30.0)
        .model()
    )
    crosses = sorted(nearest(f, land)[1] for f in found_on(land))
    assert crosses == pytest.approx([-1.5, 1.5], abs=0.05)


@given(st.lists(st.integers(0, 40), min_size=3, max_size=40), st.integers(1, 15))
def test_dips_stand_out_on_both_sides(values: list[int], prominence: int) -> None:
    row = np.array(values, dtype=np.float64)
    dips = nearest_dips(row, float(prominence))
    for dip in dips:
        before, after = row[:dip], row[dip + 1 :]
        assert before.size
        assert after.size
        assert before.max() - row[dip] >= prominence
        assert after.max() - row[dip] >= prominence
    # Between two dips the values rise by the prominence above both.
    for one, other in pairwise(dips):
        top = row[one:other].max()
        assert top - row[one] >= prominence
        assert top - row[other] >= prominence


def test_dip_of_a_plain_valley() -> None:
    assert nearest_dips(np.array([9.0, 5.0, 2.0, 6.0, 9.0]), 3.0) == [2]
    assert nearest_dips(np.array([9.0, 5.0, 2.0, 3.0]), 3.0) == []
    assert nearest_dips(np.array([2.0, 5.0, 9.0]), 3.0) == []
