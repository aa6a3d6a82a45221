"""Edges of index objects at low and high water (job.md B4, C13, T13, T17, T17b)."""

import math
from dataclasses import replace

import numpy as np
import pytest

from core.base.arrays import FloatArray
from core.base.units import m_from_nm, mps_from_kn, nm_from_m
from core.coverage.profiles import horizon_distance_m
from core.plan.feature import Feature
from core.plan.leg_rules import rules_for
from core.plan.paint_looks import high_water_rise_m
from core.plan.plan_result import ObjectKind, Plan, Role
from core.plan.request import Environment
from core.plan.rules import DEFAULT_RULES
from core.plan.shore_rise import ShoreRise, edge_movement_m
from core.plan.tide_edge_result import Holds, TideEdge
from core.plan.tide_edges import edge_nearer_m
from core.plan.tide_levels import height_at_water_m, low_and_high_m, steady_span_m
from core.words.tide_words import moves_words, steady_words, waters_words
from tests.helpers.islands import NM, Slope, flat_sea, islet, track
from tests.helpers.plans import covered, mark, planned

_CABLE = 185.2


def _rise(slope_ratio: float, *, is_low: bool = False) -> ShoreRise:
    return ShoreRise(
        rise_m=40.0, run_m=40.0 / slope_ratio, cell_m=30.0, height_error_m=5.0, is_low=is_low
    )


def _feature(rise: ShoreRise | None) -> Feature:
    return Feature(
        key="line 1",
        kind=ObjectKind.ISLET,
        lat_deg=np.zeros(1),
        lon_deg=np.zeros(1),
        point_index=np.zeros(1, np.int64),
        height_m=20.0,
        rise=rise,
        extent_m=200.0,
        rounding_m=50.0,
        isolation_m=None,
    )


def test_t13_the_beach_moves_by_more_than_a_cable_and_holds_for_decimetres() -> None:
    # T13, computed by hand: 1:50 and 5 m of tide is 250 m = 1.35 c; steeper than 0.27 (15 deg) the
    # move stays under 0.1 c. On 1:50 0.1 c is 18.52 m / 50 = 0.37 m of tide.
    nearer = edge_nearer_m(_feature(_rise(1.0 / 50.0)), falls_m=5.0)
    assert nearer == pytest.approx(250.0)
    assert (nearer or 0.0) / _CABLE == pytest.approx(1.35, abs=0.005)
    assert steady_span_m(1.0 / 50.0, DEFAULT_RULES) == pytest.approx(0.370, abs=0.001)
    rules = rules_for(Environment(tidal_range_m=5.0), DEFAULT_RULES)
    assert rules.steep_ratio == pytest.approx(0.27, abs=0.0005)
    assert math.degrees(math.atan(rules.steep_ratio)) == pytest.approx(15.1, abs=0.1)
    assert steady_span_m(rules.steep_ratio, rules) == pytest.approx(5.0)


def test_an_edge_comes_nearer_as_the_water_falls_and_goes_off_as_it_rises() -> None:
    feature = _feature(_rise(0.1))
    assert edge_nearer_m(feature, falls_m=2.0) == pytest.approx(20.0)
    assert edge_nearer_m(feature, falls_m=-3.0) == pytest.approx(-30.0)
    assert edge_movement_m(rise_m=5.0, slope_ratio=0.1) == pytest.approx(50.0)
    assert edge_nearer_m(_feature(_rise(0.01, is_low=True)), falls_m=2.0) is None
    assert edge_nearer_m(_feature(None), falls_m=2.0) is None


def test_t17_heights_above_other_waters() -> None:
    # T17, computed by hand: elevation 20 m; tide 5.2 m and mean sea level 3.0 m above chart datum:
    # 17.8 m above water. Mean high water springs 5.4 m: charted height 17.6 m.
    environment = Environment(tide_m=5.2, mean_sea_level_m=3.0, low_water_m=0.6, high_water_m=5.4)
    now_m = environment.water_level_m
    above_now_m = height_at_water_m(20.0, water_now_m=0.0, water_m=now_m)
    assert above_now_m == pytest.approx(17.8)
    _low_m, high_m = low_and_high_m(rules_for(environment, DEFAULT_RULES))
    assert height_at_water_m(above_now_m, water_now_m=now_m, water_m=high_m) == pytest.approx(17.6)


def test_t17b_a_cliff_is_seen_from_farther_at_low_water() -> None:
    # T17b, computed by hand with coefficient 2.21, which is k 1.3147: cliff 20 m above high water,
    # antenna 25 m: 20.93 NM; 5 m lower water 22.10 NM, 1.17 NM and 5.0 min earlier at 14 kn.
    high_m, low_m = (
        float(
            horizon_distance_m(
                25.0, height_at_water_m(20.0, water_now_m=2.5, water_m=water_m), 1.3147
            )
        )
        for water_m in (2.5, -2.5)
    )
    assert nm_from_m(high_m) == pytest.approx(20.93, abs=0.01)
    assert nm_from_m(low_m) == pytest.approx(22.10, abs=0.01)
    assert nm_from_m(low_m - high_m) == pytest.approx(1.17, abs=0.01)
    assert (low_m - high_m) / mps_from_kn(14.0) / 60.0 == pytest.approx(5.0, abs=0.05)


def test_low_and_high_water_are_given_or_half_the_range_each_way() -> None:
    assert low_and_high_m(DEFAULT_RULES) == (-2.0, 2.0)
    assert low_and_high_m(rules_for(Environment(tidal_range_m=5.0), DEFAULT_RULES)) == (-2.5, 2.5)
    given = Environment(tide_m=2.0, mean_sea_level_m=3.0, low_water_m=0.5, high_water_m=6.0)
    rules = rules_for(given, DEFAULT_RULES)
    assert low_and_high_m(rules) == (-2.5, 3.0)
    assert (rules.tidal_range_m, rules.is_tidal_range_assumed) == (5.5, False)
    # What is overdue is worked out for that high water, 4 m over the tide of 2 m.
    assert high_water_rise_m(given, rules) == pytest.approx(4.0)
    assert "ASSUMED" in waters_words(Environment(), DEFAULT_RULES)
    assert (
        waters_words(given, rules)
        == "Low water 0.5 m above CD, high water 6.0 m above CD: as given"
    )


# Northbound along the meridian. An islet with sides of 1:4 to starboard, a low pile to port.
def _cone(east_m: float, north_m: float, top_m: float, slope: float, base_m: float) -> Slope:
    def height(east: FloatArray, north: FloatArray) -> FloatArray:
        off = np.maximum(np.abs(east - east_m), np.abs(north - north_m))
        return np.asarray(np.minimum(top_m, np.maximum((base_m - off) * slope, 0.0)))

    return height


_SLOPING = (1.4 * NM, 4.0 * NM)
_LAND = (
    flat_sea(half_width_m=8.0 * NM, cell_m=30.0)
    .land(islet(*_SLOPING, width_m=800.0), _cone(*_SLOPING, 60.0, 0.25, 400.0))
    .model()
)
_PASSAGE = track((0.0, 0.0), (0.0, 8.0 * NM))
_COVERED = covered(_LAND, _PASSAGE, radius_m=8.0 * NM)


@pytest.fixture(scope="module")
def plan() -> Plan:
    return planned(_LAND, _PASSAGE, _COVERED)


@pytest.fixture(scope="module")
def piled() -> Plan:
    pile = mark("Pile", -0.6 * NM, 5.0 * NM, height_m=1.5)
    return planned(_LAND, _PASSAGE, _COVERED, marks=(pile,))


def _edges(plan: Plan) -> dict[str, TideEdge]:
    return {edge.object.id: edge for leg in plan.legs for edge in leg.tide_edges}


def test_every_object_of_a_line_is_told_once(plan: Plan) -> None:
    lines = plan.legs[0].lines
    laid = {line.object.id for line in lines if line.role is not Role.WHEEL_OVER}
    assert laid
    assert [edge.object.id for edge in plan.legs[0].tide_edges] == list(
        dict.fromkeys(line.object.id for line in lines if line.role is not Role.WHEEL_OVER)
    )
    assert set(_edges(plan)) == laid


def test_a_sloping_shore_moves_by_the_tide_over_its_slope(plan: Plan) -> None:
    # 4 m of assumed tide on 1:4 is 16 m: 8 m nearer at low water, 8 m off at high water.
    sloping = [e for e in _edges(plan).values() if e.side.value == "starboard"]
    assert sloping
    edge = sloping[0]
    assert edge.moves_m == pytest.approx(16.0, abs=2.0)
    low, high = edge.low, edge.high
    assert low.nearer_m == pytest.approx((edge.moves_m or 0.0) / 2.0)
    assert high.nearer_m == pytest.approx(-(edge.moves_m or 0.0) / 2.0)
    assert (low.cross_index_range_m or 0.0) < edge.cross_index_range_m
    assert (high.cross_index_range_m or 0.0) > edge.cross_index_range_m
    assert low.height_m - high.height_m == pytest.approx(4.0)
    assert low.horizon_m > high.horizon_m
    assert low.holds is Holds.YES
    assert "line-lost-with-tide" not in [f.code for f in plan.findings]


def test_a_mark_stays_but_is_covered_by_a_tide_higher_than_it(piled: Plan) -> None:
    pile = _edges(piled)["Pile"]
    assert pile.moves_m == 0.0
    assert pile.low.cross_index_range_m == pytest.approx(pile.cross_index_range_m)
    assert pile.low.height_m == pytest.approx(3.5)
    assert pile.high.height_m == pytest.approx(-0.5)
    assert pile.high.holds is Holds.COVERED
    assert moves_words(pile) == "not at all"
    (finding,) = [f for f in piled.findings if f.code == "line-lost-with-tide"]
    assert "leg 1 Pile at high water (covered or awash)" in finding.what


def test_words_round_outwards_and_inwards(plan: Plan) -> None:
    edge = replace(
        next(iter(_edges(plan).values())),
        moves_m=m_from_nm(0.135),
        is_at_least=False,
        steady_from_m=-0.37,
        steady_to_m=0.37,
    )
    assert moves_words(edge) == "1.4 c"
    assert moves_words(replace(edge, is_at_least=True)) == "more than 1.3 c"
    assert moves_words(replace(edge, moves_m=None)) == "shore not known"
    assert steady_words(edge, Environment()) == "-0.3 to +0.3 m MSL"
    given = Environment(tide_m=3.0, mean_sea_level_m=3.0)
    assert steady_words(edge, given) == "+2.7 to +3.3 m CD"
    steady = replace(edge, steady_from_m=None, steady_to_m=None)
    assert steady.is_steady
    assert steady_words(steady, given) == "at any tide"
    assert not replace(steady, moves_m=None).is_steady
