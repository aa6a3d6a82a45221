"""Small parts of a plan: letters, line budget, hand-overs, gaps, key-in rows, data quality."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.base.findings import Severity, Where
from core.base.units import mps_from_kn
from core.coverage.coverage_result import Cause, Effect, FirstSight, Gap, Moment
from core.geodesy.position import Position
from core.passage.passage import Side
from core.plan.gap_effects import Watched, gap_findings, gap_with_effect, idle_gap_finding
from core.plan.hand_overs import InSight, Usable, hand_overs_of, no_index_reason, substitute
from core.plan.key_in import key_in_row
from core.plan.lettering import letter, letters_for
from core.plan.line_budget import within_budget
from core.plan.plan_result import Edge, IndexLine, IndexObject, ObjectKind, Reason, Role
from core.plan.rules import DEFAULT_RULES
from core.plan.turn_findings import turn_findings
from core.plan.turn_plan import turn_plan
from core.ship.ship import TurnAtSpeed
from tests.helpers.islands import NM, place, track
from tests.helpers.plans import KNOTS_12, SHIP


@pytest.mark.parametrize(
    ("number", "text"),
    [(0, "A"), (25, "Z"), (26, "AA"), (51, "AZ"), (52, "BA"), (701, "ZZ"), (702, "AAA")],
)
def test_letters_run_like_columns_of_a_table(number: int, text: str) -> None:
    assert letter(number) == text


@given(st.sets(st.integers(0, 2000), min_size=2, max_size=50))
def test_letters_are_unique(numbers: set[int]) -> None:
    assert len({letter(n) for n in numbers}) == len(numbers)


def test_letters_follow_leg_then_place_and_pass_over_names_of_marks() -> None:
    places = {
        "x": (1, 100.0, 0.0, 0.0),
        "y": (0, 900.0, 0.0, 0.0),
        "z": (0, 200.0, 0.0, 0.0),
    }
    assert letters_for(places, frozenset({"B"})) == {"z": "A", "y": "C", "x": "D"}


def test_an_object_added_later_leaves_the_letters_before_it_alone() -> None:
    before = letters_for({"a": (0, 1.0, 0.0, 0.0), "b": (2, 1.0, 0.0, 0.0)}, frozenset())
    after = letters_for(
        {"a": (0, 1.0, 0.0, 0.0), "b": (2, 1.0, 0.0, 0.0), "c": (2, 5.0, 0.0, 0.0)}, frozenset()
    )
    assert before.items() <= after.items()


def line(role: Role, start: float, stop: float, name: str = "A") -> IndexLine:
    return IndexLine(
        role=role,
        object=IndexObject(
            id=name,
            name=name,
            position=Position(lat_deg=0.0, lon_deg=0.0),
            edge=Edge.POSITION,
            kind=ObjectKind.MARK,
            height_above_water_m=5.0,
            is_fixed=True,
            confirm_on_chart=True,
        ),
        side=Side.PORT,
        cross_index_range_m=NM,
        limit=None,
        line_bearing_deg=0.0,
        echo_travel_deg=180.0,
        from_along_m=start * NM,
        to_along_m=stop * NM,
        range_scale_m=3.0 * NM,
        uncertainty_m=60.0,
        reason=Reason(code="test"),
    )


def test_check_lines_give_way_when_four_lines_are_set() -> None:
    lines = (
        line(Role.PRIMARY, 0, 6),
        line(Role.PRIMARY, 4, 10),
        line(Role.CHECK, 0, 10),
        line(Role.MARGIN, 3, 8),
        line(Role.WHEEL_OVER, 9, 10),
        line(Role.MARGIN, 0, 10),
    )
    kept, left_out = within_budget(lines, most=4, least_m=0.5 * NM, least_check_m=1.0 * NM)
    assert left_out == ()
    check = next(item for item in kept if item.role is Role.CHECK)
    assert (check.from_along_m / NM, check.to_along_m / NM) == (0.0, 4.0) or (
        check.to_along_m - check.from_along_m
    ) / NM == pytest.approx(4.0)
    assert [item.role for item in kept] == [item.role for item in lines]


roles = st.sampled_from(list(Role))
spans = st.tuples(roles, st.integers(0, 19), st.integers(1, 20)).map(
    lambda t: line(t[0], float(t[1]), float(min(t[1] + t[2], 20)))
)


@given(st.lists(spans, max_size=9), st.integers(1, 4))
def test_never_more_lines_than_the_radar_offers(lines: list[IndexLine], most: int) -> None:
    kept, left_out = within_budget(
        tuple(lines), most=most, least_m=0.5 * NM, least_check_m=1.0 * NM
    )
    for half_mile in range(40):
        middle = (half_mile + 0.5) / 2.0 * NM
        assert sum(1 for x in kept if x.from_along_m < middle < x.to_along_m) <= most
    assert len(kept) + len(left_out) == len(lines)


def test_fallback_is_the_best_other_object_usable_all_through() -> None:
    (hand_over,) = hand_overs_of(
        (("A", 0.0, 6.0 * NM), ("B", 4.0 * NM, 10.0 * NM)),
        (
            Usable(object_id="A", windows=((0.0, 6.0 * NM),), score=90.0),
            Usable(object_id="C", windows=((5.0 * NM, 9.0 * NM),), score=80.0),
            Usable(object_id="D", windows=((3.0 * NM, 7.0 * NM),), score=70.0),
        ),
        speed_mps=KNOTS_12,
    )
    assert hand_over.fallback == "D"
    assert hand_over.minutes == pytest.approx(10.0)


@pytest.mark.parametrize(
    ("sight", "why", "instead"),
    [
        (
            InSight(fixed=("A", "B"), floating=(), has_coast=True, has_unknown=False),
            "Nothing in sight can be read closely enough on the planned screen",
            "Fix by radar ranges of A and B",
        ),
        (
            InSight(fixed=("A",), floating=(), has_coast=True, has_unknown=False),
            "Nothing in sight can be read closely enough on the planned screen",
            "Fix by radar range and bearing of A",
        ),
        (
            InSight(fixed=(), floating=(), has_coast=True, has_unknown=False),
            "The coast in sight has no point to hold",
            "Fix by radar ranges of the nearest coast, checked by another aid",
        ),
        (
            InSight(fixed=(), floating=(), has_coast=False, has_unknown=True),
            "No land known to be in sight within 12 NM; heights are missing there",
            "Fix by other means than radar",
        ),
    ],
)
def test_gaps_say_why_and_what_to_do_instead(sight: InSight, why: str, instead: str) -> None:
    assert no_index_reason(sight, reach_nm=12.0) == why
    assert substitute(sight) == instead


def test_key_in_row_is_cut_where_the_object_is() -> None:
    item = line(Role.PRIMARY, 2, 8)
    row = key_in_row(item, ahead_at_start_m=3.0 * NM, ahead_at_end_m=-3.0 * NM)
    assert (row.truncate_ahead_m, row.truncate_astern_m) == (3.0 * NM, 3.0 * NM)
    ahead = key_in_row(item, ahead_at_start_m=5.0 * NM, ahead_at_end_m=1.0 * NM)
    assert (ahead.truncate_ahead_m, ahead.truncate_astern_m) == (5.0 * NM, 0.0)


LINE = track((0.0, -4.0 * NM), (0.0, 4.0 * NM)).line(0)


def gap(sector: tuple[float, float], range_nm: float, effect: Effect = Effect.NONE) -> Gap:
    return Gap(
        cause=Cause.VOID,
        bearing_from_deg=sector[0],
        bearing_to_deg=sector[1],
        range_from_m=range_nm * NM,
        from_along_m=0.0,
        to_along_m=8.0 * NM,
        effect=effect,
    )


def effect(some_gap: Gap) -> Effect:
    # An object 2 NM east of the middle of the leg, wanted from 3 to 5 NM along: it bears 063 to
    # 117 at 2.0 to 2.2 NM. A first sight due north of the end of the leg, from 1 NM along.
    watched = Watched(name="A", position=place(2.0 * NM, 0.0), window=(3.0 * NM, 5.0 * NM))
    sight = FirstSight(
        object_id="P1",
        name="peak",
        position=place(0.0, 20.0 * NM),
        height_above_water_m=400.0,
        in_sight_from=Moment(along_m=1.0 * NM, range_m=23.0 * NM, bearing_deg=0.0),
        in_sight_from_reason="",
        lost=None,
    )
    return gap_with_effect(some_gap, LINE, (watched,), (sight,), cell_m=60.0)[0].effect


def test_a_gap_in_front_of_an_object_matters_and_one_behind_or_beside_does_not() -> None:
    assert effect(gap((80.0, 100.0), 1.0)) is Effect.OBJECT
    assert effect(gap((80.0, 100.0), 3.0)) is Effect.NONE
    assert effect(gap((200.0, 220.0), 1.0)) is Effect.NONE


def test_a_gap_on_the_bearing_of_a_first_sight_matters_through_north() -> None:
    assert effect(gap((350.0, 10.0), 5.0)) is Effect.FIRST_SIGHT
    assert effect(gap((350.0, 10.0), 30.0)) is Effect.NONE


def test_one_finding_a_leg_for_all_that_gaps_can_hide() -> None:
    hidden = [
        (gap((10.0, 20.0), 1.0, Effect.OBJECT), "A"),
        (gap((30.0, 50.0), 1.0, Effect.OBJECT), "a headland 2.3 NM to port"),
        (gap((60.0, 65.0), 1.0, Effect.OBJECT), "B"),
        (gap((70.0, 75.0), 1.0, Effect.FIRST_SIGHT), "peak"),
        (gap((80.0, 85.0), 1.0), ""),
    ]
    assert [str(f) for f in gap_findings(tuple(hidden), 3)] == [
        "leg 3: heights are unknown between 030° and 050°, between 010° and 020° and between 060° "
        "and 065° (a void in the elevation), where A, a headland 2.3 NM to port and 1 more could "
        "be indexed. Get the missing elevation, or do not count on that land.",
        "leg 3: heights are unknown between 070° and 075° (a void in the elevation), on the "
        "bearing on which peak first comes in sight. Expect that land earlier or later than "
        "planned.",
    ]


def test_sectors_that_meet_are_one_and_two_names_come_in_sight() -> None:
    hidden = [
        (gap((274.0, 4.0), 1.0, Effect.FIRST_SIGHT), "A"),
        (gap((0.0, 4.0), 1.0, Effect.FIRST_SIGHT), "B"),
        (gap((4.0, 9.0), 1.0, Effect.FIRST_SIGHT), "B"),
    ]
    (found,) = gap_findings(tuple(hidden), 1)
    assert found.what == (
        "heights are unknown between 274° and 009° (a void in the elevation), on the bearings on "
        "which A and B first come in sight"
    )
    hidden.append((gap((9.0, 274.0), 1.0, Effect.FIRST_SIGHT), "B"))
    (found,) = gap_findings(tuple(hidden), 1)
    assert found.what.startswith("heights are unknown all round (a void in the elevation), on")


def test_gaps_that_hide_nothing_make_one_note_for_the_passage() -> None:
    idle, harmful = gap((10.0, 20.0), 1.0), gap((30.0, 50.0), 1.0, Effect.OBJECT)
    ends = replace(idle, cause=Cause.BEYOND_DATA)
    (found,) = idle_gap_finding(
        ((1, (idle,)), (2, (idle, harmful)), (3, ()), (4, (idle, ends)), (5, (ends,)))
    )
    assert str(found) == (
        "no index line and no first sight depends on the heights missing on legs 1 and 4."
    )
    assert idle_gap_finding(((1, (harmful,)), (2, (ends,)))) == ()


def test_a_turn_back_is_found() -> None:
    passage = track((0.0, 0.0), (0.0, 4.0 * NM), (0.01 * NM, 0.0))
    plan = turn_plan(passage, 0, SHIP, speed_mps=KNOTS_12, rules=DEFAULT_RULES)
    assert plan.turn is None
    (found,) = turn_findings(
        plan,
        leg_number=1,
        waypoint="WP2",
        leg_m=4.0 * NM,
        tangent_before_m=0.0,
        inner_corridor_m=200.0,
        rules=DEFAULT_RULES,
    )
    assert found.code == "turn-back"


def test_radius_and_rate_of_turn_go_with_the_speed_of_the_leg() -> None:
    # By hand: 12 kn lies half-way from 10 kn (0.6 NM) to 14 kn (1.0 NM), so 0.8 NM and
    # 0.9549 x 12 / 0.8 = 14.3 deg/min (handbook 9.4).
    passage = track((0.0, 0.0), (0.0, 6.0 * NM), (4.0 * NM, 8.0 * NM))
    ship = replace(
        SHIP,
        turn_radius_m=2.0 * NM,
        turns=(
            TurnAtSpeed(speed_mps=mps_from_kn(10.0), radius_m=0.6 * NM),
            TurnAtSpeed(speed_mps=mps_from_kn(14.0), radius_m=1.0 * NM),
        ),
    )
    plan = turn_plan(passage, 0, ship, speed_mps=KNOTS_12, rules=DEFAULT_RULES)
    assert plan.is_assumed_radius
    assert plan.turn is not None
    assert plan.turn.radius_m / NM == pytest.approx(0.8)
    assert plan.turn.rate_of_turn_deg_per_min(KNOTS_12) == pytest.approx(14.3, abs=0.05)


@pytest.mark.parametrize(("route_nm", "is_told"), [(0.30, True), (0.48, False), (None, False)])
def test_a_turn_tighter_than_the_ship_makes_it_is_found(
    route_nm: float | None, is_told: bool
) -> None:
    # By hand: 900 m at 12 kn is 0.486 NM; a hundredth below it is rounding in the route.
    passage = track((0.0, 0.0), (0.0, 6.0 * NM), (4.0 * NM, 8.0 * NM))
    radius_m = None if route_nm is None else route_nm * NM
    corner = replace(passage.waypoints[1], turn_radius_m=radius_m)
    passage = replace(passage, waypoints=(passage.waypoints[0], corner, passage.waypoints[2]))
    ship = replace(SHIP, turns=(TurnAtSpeed(speed_mps=KNOTS_12, radius_m=900.0),))
    found = turn_findings(
        turn_plan(passage, 0, ship, speed_mps=KNOTS_12, rules=DEFAULT_RULES),
        leg_number=1,
        waypoint="WP2",
        leg_m=6.0 * NM,
        tangent_before_m=0.0,
        inner_corridor_m=2000.0,
        rules=DEFAULT_RULES,
    )
    told = [one for one in found if one.code == "turn-tighter-than-ship"]
    assert bool(told) is is_told
    for one in told:
        assert one.severity is Severity.CHECK
        assert one.where == Where(leg_number=1, waypoint="WP2")
        assert all(figure in one.what for figure in ("0.30 NM", "12.0 kn", "0.49 NM"))
        assert "slow down" in one.todo


def test_a_straight_on_waypoint_needs_no_wheel_over() -> None:
    passage = track((0.0, 0.0), (0.0, 4.0 * NM), (0.0, 8.0 * NM))
    plan = turn_plan(passage, 0, SHIP, speed_mps=KNOTS_12, rules=DEFAULT_RULES)
    assert plan.turn is None
    assert plan.end_m == pytest.approx(4.0 * NM, rel=1e-4)
    assert "less than 1°" in plan.no_turn_reason
