"""Ranking on an invented test coast: what must never come first, and why things do."""

import numpy as np
import pytest
import shapely

from core.coverage.coverage_result import Coverage
from core.geodesy.position import Position
from core.land.land_model import LandModel
from core.passage.passage import Passage
from core.plan import reason_codes
from core.plan.feature import Feature
from core.plan.plan_result import Edge, ObjectKind, Plan
from core.plan.ranking import LegTerms, rank, tangent_walk_m
from core.plan.rules import DEFAULT_RULES
from core.plan.shore_rise import ShoreRise
from core.plan.usable_window import EdgePoint, UsableWindow
from tests.helpers.islands import NM, box, disc, flat_sea, islet, track
from tests.helpers.plans import covered, mark, planned


def rise(rise_m: float, run_m: float, *, is_low: bool = False) -> ShoreRise:
    return ShoreRise(rise_m=rise_m, run_m=run_m, cell_m=30.0, height_error_m=5.0, is_low=is_low)


def feature(**changes: object) -> Feature:
    values: dict[str, object] = {
        "key": "line 0",
        "kind": ObjectKind.ISLET,
        "lat_deg": np.zeros(1),
        "lon_deg": np.zeros(1),
        "point_index": np.zeros(1, dtype=np.int64),
        "height_m": 30.0,
        "rise": rise(20.0, 30.0),
        "extent_m": 150.0,
        "rounding_m": 80.0,
        "isolation_m": 3000.0,
    }
    return Feature(**(values | changes))  # type: ignore[arg-type]  # values by name


def window(
    cross_nm: float = 1.0,
    *,
    edge: Edge = Edge.NEAR_SIDE,
    masked_nm: float = 0.0,
    inside_m: float = 0.0,
    spread_m: float = 0.0,
) -> UsableWindow:
    return UsableWindow(
        edge=EdgePoint(
            position=Position(lat_deg=0.0, lon_deg=0.0),
            edge=edge,
            along_m=5.0 * NM,
            cross_m=cross_nm * NM,
            inside_m=inside_m,
        ),
        spread_m=spread_m,
        windows=((2.0 * NM, 8.0 * NM),),
        geometric_m=(6.0 + masked_nm) * NM,
        masked_m=masked_nm * NM,
    )


TERMS = LegTerms(end_m=10.0 * NM, corridor_m=0.2 * NM, limit_m=0.1 * NM, echo_m=180.0)


def rank_of(
    thing: Feature, where: UsableWindow, leg_count: int = 1
) -> tuple[float, bool, dict[str, float | str]]:
    found = rank(
        thing, where, terms=TERMS, leg_count=leg_count, is_chosen=False, rules=DEFAULT_RULES
    )
    assert found.reason.code == reason_codes.INDEX_OBJECT
    return found.score, found.is_weak, dict(found.reason.values)


GOOD = rank_of(feature(), window())


def test_a_steep_lone_islet_a_mile_off_is_good_and_says_why() -> None:
    _score, is_weak, values = GOOD
    assert not is_weak
    assert values["kind"] == "islet"
    assert values["sharp"] == 1.0
    assert values["abeam_m"] == 5.0 * NM
    assert values["window_ratio"] == pytest.approx(0.6)


@pytest.mark.parametrize(
    ("thing", "where", "word"),
    [
        (feature(rise=rise(0.02 * 480.0, 480.0)), window(), "tide_moves_m"),
        (feature(rise=rise(2.0, 250.0, is_low=True)), window(), "low_shore_m"),
        (feature(rise=rise(0.0, 250.0, is_low=True)), window(), "shore_blank_m"),
        (feature(height_m=1.0), window(), "low_m"),
        (
            feature(kind=ObjectKind.HEADLAND, rounding_m=1800.0),
            window(edge=Edge.TANGENT),
            "slides_m",
        ),
        (
            feature(kind=ObjectKind.HEADLAND, rounding_m=9000.0),
            window(edge=Edge.TANGENT),
            "straight",
        ),
        (feature(), window(masked_nm=8.0), "masked_ratio"),
        (feature(), window(0.15), "in_corridor"),
        (feature(), window(0.25), "near_m"),
        (feature(), window(spread_m=186.0), "paint_spread_m"),
    ],
)
def test_what_must_never_come_first_is_weak_and_says_why(
    thing: Feature, where: UsableWindow, word: str
) -> None:
    score, is_weak, values = rank_of(thing, where)
    assert is_weak
    assert word in values
    assert score < GOOD[0]


@pytest.mark.parametrize(
    ("thing", "where", "leg_count"),
    [
        (feature(isolation_m=100.0), window(), 1),
        (feature(rise=rise(6.0, 50.0)), window(), 1),
        (feature(), window(5.0), 1),
        (feature(kind=ObjectKind.HEADLAND), window(edge=Edge.TIP), 1),
    ],
)
def test_less_of_what_makes_an_object_good_scores_less(
    thing: Feature, where: UsableWindow, leg_count: int
) -> None:
    assert rank_of(thing, where, leg_count)[0] < GOOD[0]


def test_an_edge_may_move_as_far_as_the_error_limit() -> None:
    # By hand: the limit of 0.1 NM is 185.2 m, which 4 m of tide do on a slope of 0.0216.
    for slope, weak in ((0.0217, False), (0.0215, True)):
        _score, is_weak, values = rank_of(feature(rise=rise(slope * 400.0, 400.0)), window())
        assert is_weak is weak
        assert values["tide_moves_m"] == pytest.approx(4.0 / slope)
        assert (values["tide_m"], values["tide_assumed"]) == (4.0, 1.0)


def test_where_the_edge_paints_is_said_and_how_far_it_wanders_when_that_matters() -> None:
    # Half of the limit of 185.2 m is 92.6 m.
    _score, is_weak, values = rank_of(feature(), window(inside_m=80.0, spread_m=92.0))
    assert not is_weak
    assert values["paints_inside_m"] == 80.0
    assert "paint_spread_m" not in values
    _score, is_weak, values = rank_of(feature(), window(spread_m=93.0))
    assert not is_weak
    assert values["paint_spread_m"] == 93.0
    assert "paints_inside_m" not in values


def test_a_shore_that_cells_cannot_show_is_neither_praised_nor_condemned() -> None:
    score, is_weak, values = rank_of(feature(rise=None), window())
    assert not is_weak
    assert score < GOOD[0]
    assert "shore_unknown" in values
    assert not {"slope", "steep_to", "tide_moves_m"} & values.keys()


def test_other_land_close_by_is_said_and_counts_against_it() -> None:
    score, is_weak, values = rank_of(feature(isolation_m=100.0), window())
    assert not is_weak
    assert values["crowded_m"] == 100.0
    assert "isolated_m" not in values
    assert score < rank_of(feature(isolation_m=200.0), window())[0]


def test_an_object_of_two_legs_scores_more() -> None:
    score, _weak, values = rank_of(feature(), window(), 2)
    assert score > GOOD[0]
    assert values["legs"] == 2.0


def test_tangent_walks_by_its_rounding_when_seen_ahead() -> None:
    # Computed by hand: q (1 - cos 30 deg) for a circle of 1000 m.
    round_point = feature(rounding_m=1000.0)
    far = tangent_walk_m(round_point, cross_m=NM, reach_along_m=4.0 * NM)
    assert far == pytest.approx(134.0, abs=0.1)
    assert tangent_walk_m(round_point, cross_m=NM, reach_along_m=NM) == 0.0


Scene = tuple[LandModel, Passage, Coverage]


@pytest.fixture(scope="module")
def test_coast() -> Scene:
    """A round head, a flat beach spit, a masked islet and a steep one in the open."""

    def spit(east: np.ndarray, north: np.ndarray) -> np.ndarray:
        del north
        return np.maximum((east - 1.2 * NM) * 0.01, 0.2)

    sea = flat_sea(half_width_m=14.0 * NM, cell_m=90.0)
    sea = sea.land(disc(4.0 * NM, 3.0 * NM, 2.4 * NM), 60.0)
    sea = sea.land(
        shapely.Polygon([(1.2 * NM, -2.0 * NM), (3.5 * NM, -2.6 * NM), (3.5 * NM, -1.4 * NM)]), spit
    )
    sea = sea.land(islet(-1.0 * NM, 0.5 * NM, width_m=150.0), 40.0)
    sea = sea.land(islet(-2.4 * NM, -2.0 * NM, width_m=150.0), 15.0)
    sea = sea.land(box(-1.9 * NM, -5.0 * NM, -1.75 * NM, -2.1 * NM), 80.0)
    land = sea.model()
    passage = track((0.0, -5.0 * NM), (0.0, 5.0 * NM))
    return land, passage, covered(land, passage)


@pytest.fixture(scope="module")
def plan_of_coast(test_coast: Scene) -> Plan:
    buoy = mark("Spit Buoy", 1.0 * NM, -2.0 * NM, is_fixed=False, kind="buoy")
    return planned(*test_coast, marks=(buoy,))


def test_on_the_test_coast_the_open_islet_comes_first(plan_of_coast: Plan) -> None:
    leg = plan_of_coast.legs[0]
    first, _reason = leg.candidates[0]
    assert first.kind is ObjectKind.ISLET
    assert first.height_above_water_m == pytest.approx(40.0)


def test_on_the_test_coast_bad_objects_say_what_is_wrong_and_come_last(
    plan_of_coast: Plan,
) -> None:
    words = {"low_shore_m", "slides_m", "straight", "masked_ratio", "near_m", "in_corridor"}
    is_bad = [
        reason.code == reason_codes.FLOATING or bool(words & dict(reason.values).keys())
        for _thing, reason in plan_of_coast.legs[0].candidates
    ]
    assert True in is_bad
    assert is_bad == sorted(is_bad)
    assert plan_of_coast.legs[0].candidates[-1][0].id == "Spit Buoy"


def test_the_round_head_slides(plan_of_coast: Plan) -> None:
    sliding = [
        dict(reason.values)
        for thing, reason in plan_of_coast.legs[0].candidates
        if thing.edge is Edge.TANGENT and thing.height_above_water_m == pytest.approx(60.0)
    ]
    assert sliding
    assert all("slides_m" in values or "straight" in values for values in sliding)


def test_that_the_tidal_range_is_assumed_is_said_once(plan_of_coast: Plan) -> None:
    assert [f.code for f in plan_of_coast.findings].count("tidal-range-assumed") == 1
