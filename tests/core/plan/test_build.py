"""Whole plans over hand-made land; every place and height is invented, answers by hand."""

import math
from dataclasses import replace

import numpy as np
import pytest

from core.base.progress import Quiet
from core.coverage.coverage_result import Cause, Coverage, Effect
from core.land.land_model import Cell, LandModel
from core.passage.passage import Passage, Side
from core.passage.timetable import Timetable
from core.plan import reason_codes
from core.plan.build_plan import build_plan
from core.plan.plan_result import (
    DangerLimit,
    Edge,
    LegPlan,
    Limit,
    ObjectKind,
    Override,
    Plan,
    Role,
)
from core.plan.request import Request
from tests.helpers.islands import NM, box, flat_sea, islet, track
from tests.helpers.plans import (
    SHIP,
    candidate_ids,
    covered,
    findings_of,
    mark,
    planned,
    with_turn_radius,
)


def lines_of(leg: LegPlan, role: Role) -> list[tuple[str, Side, float, float, float]]:
    """Object, side, range, from and to (NM) of the lines of a role."""
    return [
        (
            line.object.id,
            line.side,
            line.cross_index_range_m / NM,
            line.from_along_m / NM,
            line.to_along_m / NM,
        )
        for line in leg.lines
        if line.role is role
    ]


Scene = tuple[LandModel, Passage, Coverage]


@pytest.fixture(scope="module")
def two_islets() -> Scene:
    """North 8 NM, then 060; a steep islet each side, on the demo of the job note's leg 14."""
    sea = flat_sea(half_width_m=16.0 * NM, cell_m=60.0)
    for east_nm, north_nm, height_m in ((1.2, -1.5, 38.0), (-0.9, 1.5, 30.0)):
        sea = sea.land(islet(east_nm * NM, north_nm * NM, width_m=120.0), height_m)
    land = sea.model()
    passage = with_turn_radius(
        track((0.0, -4.0 * NM), (0.0, 4.0 * NM), (5.2 * NM, 7.0 * NM)), 0.8 * NM
    )
    return land, passage, covered(land, passage)


@pytest.fixture(scope="module")
def plan_of_two_islets(two_islets: Scene) -> Plan:
    return planned(*two_islets)


def test_two_islets_carry_the_leg_one_after_the_other(plan_of_two_islets: Plan) -> None:
    leg = plan_of_two_islets.legs[0]
    first, second = lines_of(leg, Role.PRIMARY)
    # Near sides are half a width nearer than the middles: 1.2 - 0.032 and 0.9 - 0.032 NM.
    assert first[:2] == ("A", Side.STARBOARD)
    assert first[2] == pytest.approx(1.2 - 60.0 / NM, abs=0.01)
    assert second[:2] == ("B", Side.PORT)
    assert second[2] == pytest.approx(0.9 - 60.0 / NM, abs=0.01)
    # By the error limit on the 3 NM scale, 92.6 m: range 55.6 m across, bearing 0.7 deg and half a
    # beam of 1.9 deg along, 32.5 m fixed leave +/- 2.17 NM of A and 2.21 of B; the screen 2.5.
    assert first[3] == pytest.approx(2.5 - 2.166, abs=0.05)
    assert first[4] == pytest.approx(2.5 + 2.166, abs=0.05)
    assert second[3] == pytest.approx(5.5 - 2.210, abs=0.05)
    assert second[4] == pytest.approx(7.438, abs=0.005)


def test_hand_over_is_where_both_are_usable(plan_of_two_islets: Plan) -> None:
    leg = plan_of_two_islets.legs[0]
    (hand_over,) = leg.hand_overs
    assert (hand_over.from_object, hand_over.to_object) == ("A", "B")
    lines = [line for line in leg.lines if line.role is Role.PRIMARY]
    assert hand_over.from_along_m == lines[1].from_along_m
    assert hand_over.to_along_m == lines[0].to_along_m
    length = hand_over.to_along_m - hand_over.from_along_m
    assert hand_over.minutes == pytest.approx(length / NM / 12.0 * 60.0)


def test_line_direction_and_echo_travel(plan_of_two_islets: Plan) -> None:
    for line in plan_of_two_islets.legs[0].lines:
        if line.role is Role.PRIMARY:
            assert line.line_bearing_deg == pytest.approx(0.0, abs=1e-6)
            assert line.echo_travel_deg == pytest.approx(180.0, abs=1e-6)


def test_scale_is_the_shortest_for_the_look_out_and_the_second_radar_longer(
    plan_of_two_islets: Plan,
) -> None:
    main, second = plan_of_two_islets.legs[0].scales
    assert main.scale_m == pytest.approx(3.0 * NM)
    assert main.reason.code == reason_codes.SCALE_FORCED_BY_LOOK_OUT
    assert dict(main.reason.values)["distance_m"] == pytest.approx(2.7 * NM)
    assert second.radar == "second"
    assert second.scale_m == pytest.approx(6.0 * NM)


def test_objects_from_land_are_to_be_confirmed_on_the_chart(plan_of_two_islets: Plan) -> None:
    thing = plan_of_two_islets.objects[0]
    assert thing.confirm_on_chart
    assert thing.kind is ObjectKind.ISLET
    assert thing.edge is Edge.NEAR_SIDE
    assert thing.height_above_water_m == pytest.approx(38.0)
    assert thing.name == "islet 38 m high, 2.8 NM NE of WP1"


def test_wheel_over_geometry_of_the_plan(plan_of_two_islets: Plan) -> None:
    # T9 of the job note: turn of 60 deg, radius 0.8, response 0.1: 0.562 before the waypoint.
    wheel_over = plan_of_two_islets.legs[0].wheel_over
    assert wheel_over is not None
    assert wheel_over.distance_before_waypoint_m / NM == pytest.approx(0.562, abs=2e-3)
    assert wheel_over.along_m + wheel_over.distance_before_waypoint_m == pytest.approx(
        8.0 * NM, rel=1e-3
    )
    assert wheel_over.rate_of_turn_deg_per_min == pytest.approx(14.3, abs=0.05)
    assert wheel_over.pre_alert_minutes == (3.0, 1.0)
    assert wheel_over.along_m - wheel_over.pre_alert_along_m[0] == pytest.approx(0.6 * NM)
    assert wheel_over.method.code == reason_codes.TURN_BY_LINE
    assert wheel_over.line is not None
    assert wheel_over.line.line_bearing_deg == pytest.approx(60.0, abs=0.1)
    assert wheel_over.line.echo_travel_deg == pytest.approx(180.0, abs=0.1)
    assert wheel_over.line.to_along_m == wheel_over.along_m


def test_last_leg_has_no_wheel_over_and_says_why(plan_of_two_islets: Plan) -> None:
    leg = plan_of_two_islets.legs[1]
    assert leg.wheel_over is None
    assert leg.wheel_over_reason == "Last leg: the passage ends here"


def test_leg_with_nothing_to_index_says_so_and_why(two_islets: Scene) -> None:
    _land, passage, _coverage = two_islets
    empty = (
        flat_sea(half_width_m=16.0 * NM, cell_m=300.0)
        .land(islet(15.0 * NM, -15.0 * NM), 10.0)
        .model()
    )
    leg = planned(empty, passage, covered(empty, passage)).legs[0]
    assert leg.no_index_reason == "No land in sight within 12 NM"
    assert [line for line in leg.lines if line.role is Role.PRIMARY] == []
    (gap,) = leg.index_gaps
    assert gap.from_along_m == 0.0
    assert gap.substitute == "Fix by other means than radar"
    assert gap.minutes == pytest.approx(gap.to_along_m / NM * 5.0)


def test_floating_marks_alone_are_named_as_the_reason(two_islets: Scene) -> None:
    _land, passage, _coverage = two_islets
    empty = (
        flat_sea(half_width_m=16.0 * NM, cell_m=300.0)
        .land(islet(15.0 * NM, -15.0 * NM), 10.0)
        .model()
    )
    buoy = mark("Fairway Buoy", 1.0 * NM, 0.0, is_fixed=False, kind="buoy")
    leg = planned(empty, passage, covered(empty, passage), marks=(buoy,)).legs[0]
    assert leg.no_index_reason == "Only floating marks are in sight"
    ((thing, reason),) = leg.candidates
    assert (thing.id, thing.is_fixed, reason.code) == ("Fairway Buoy", False, reason_codes.FLOATING)
    assert "Fairway Buoy" in leg.index_gaps[0].substitute


def test_floating_marks_never_index_even_when_chosen(two_islets: Scene) -> None:
    buoy = mark("Buoy", 0.8 * NM, 0.0, is_fixed=False, kind="buoy")
    plan = planned(
        *two_islets,
        marks=(buoy,),
        overrides=(Override(leg_number=1, role="primary", object_id="Buoy"),),
    )
    assert all(line.object.id != "Buoy" for leg in plan.legs for line in leg.lines)
    assert findings_of(plan, "choice-not-usable") == [1]


def test_fixed_marks_are_objects_of_the_first_rank(two_islets: Scene) -> None:
    beacon = mark("Invented Beacon", 1.0 * NM, 0.0)
    leg = planned(*two_islets, marks=(beacon,)).legs[0]
    assert candidate_ids(leg)[0] == "Invented Beacon"
    line = next(line for line in leg.lines if line.object.id == "Invented Beacon")
    assert line.cross_index_range_m == pytest.approx(1.0 * NM, abs=1.0)
    assert line.object.edge is Edge.POSITION
    assert not line.object.confirm_on_chart


def test_choice_of_the_officer_is_kept_and_printed(two_islets: Scene) -> None:
    beacons = (mark("First", 1.0 * NM, -1.0 * NM), mark("Second", 1.0 * NM, 1.5 * NM))
    override = Override(leg_number=1, role="check", object_id="b", remark="seen last time")
    leg = planned(*two_islets, marks=beacons, overrides=(override,)).legs[0]
    chosen = [line for line in leg.lines if line.override is not None]
    assert [(line.object.id, line.role) for line in chosen] == [("B", Role.CHECK)]
    assert chosen[0].override == override


def test_check_choice_that_alone_can_carry_the_line_stays_primary_with_a_finding(
    two_islets: Scene,
) -> None:
    override = Override(leg_number=1, role="check", object_id="B")
    plan = planned(*two_islets, overrides=(override,))
    assert "B" in [line[0] for line in lines_of(plan.legs[0], Role.PRIMARY)]
    assert findings_of(plan, "choice-not-usable") == [1]


def test_chosen_primary_stands_with_its_real_window(two_islets: Scene) -> None:
    beacon = mark("Invented Beacon", 1.0 * NM, 0.0)
    plain = planned(*two_islets, marks=(beacon,)).legs[0]
    override = Override(leg_number=1, role="primary", object_id="A")
    leg = planned(*two_islets, marks=(beacon,), overrides=(override,)).legs[0]
    line = next(line for line in leg.lines if line.object.id == "A" and line.role is Role.PRIMARY)
    assert line.override == override
    window = {o.id: dict(r.values)["window_m"] for o, r in plain.candidates}["A"]
    assert line.to_along_m - line.from_along_m == pytest.approx(float(window), abs=1.0)


def test_choices_do_not_change_letters(two_islets: Scene, plan_of_two_islets: Plan) -> None:
    override = Override(leg_number=1, role="primary", object_id="B")
    other = planned(*two_islets, overrides=(override,))
    assert other.objects == plan_of_two_islets.objects


def test_unknown_choice_is_a_finding(two_islets: Scene) -> None:
    overrides = (
        Override(leg_number=1, role="primary", object_id="ZZ"),
        Override(leg_number=9, role="primary", object_id="A"),
        Override(leg_number=1, role="spare", object_id="A"),
    )
    assert findings_of(planned(*two_islets, overrides=overrides), "choice-unknown") == [1, 9, 1]


def limit(object_id: str, least_nm: float | None, most_nm: float | None = None) -> DangerLimit:
    return DangerLimit(
        object_id=object_id,
        leg_number=1,
        least_m=None if least_nm is None else least_nm * NM,
        most_m=None if most_nm is None else most_nm * NM,
    )


def test_margin_lines_come_from_danger_limits_alone(
    two_islets: Scene, plan_of_two_islets: Plan
) -> None:
    assert all(
        line.role is not Role.MARGIN for leg in plan_of_two_islets.legs for line in leg.lines
    )
    leg = planned(*two_islets, limits=(limit("A", 0.9, 1.5),)).legs[0]
    margins = [line for line in leg.lines if line.role is Role.MARGIN]
    assert [m.limit for m in margins] == [Limit.NOT_LESS_THAN, Limit.NOT_MORE_THAN]
    assert [m.cross_index_range_m / NM for m in margins] == pytest.approx([0.9, 1.5])
    assert {m.side for m in margins} == {Side.STARBOARD}


def test_track_that_breaks_a_danger_limit_must_be_mended(two_islets: Scene) -> None:
    broken = planned(*two_islets, limits=(limit("A", 1.3),))
    assert findings_of(broken, "track-breaks-danger-limit") == [1]
    reached = planned(*two_islets, limits=(limit("A", 1.1),))
    assert findings_of(reached, "corridor-breaks-danger-limit") == [1]
    kept = planned(*two_islets, limits=(limit("A", 0.8),))
    assert not {"track-breaks-danger-limit", "corridor-breaks-danger-limit"} & {
        f.code for f in kept.findings
    }


def test_limit_off_an_unknown_object_must_be_mended(two_islets: Scene) -> None:
    plan = planned(*two_islets, limits=(limit("nowhere", 0.5),))
    assert findings_of(plan, "danger-limit-unknown") == [1]
    assert all(line.role is not Role.MARGIN for leg in plan.legs for line in leg.lines)


def test_same_input_gives_the_same_plan(two_islets: Scene, plan_of_two_islets: Plan) -> None:
    again = planned(*two_islets)
    assert again.legs == plan_of_two_islets.legs
    assert again.findings == plan_of_two_islets.findings


def test_no_more_than_four_lines_at_a_time(two_islets: Scene) -> None:
    marks = tuple(mark(f"Beacon {i}", (1.0 + 0.2 * i) * NM, i * NM / 2.0) for i in range(4))
    limits = tuple(
        DangerLimit(object_id=m.name, leg_number=1, least_m=0.5 * NM, most_m=2.5 * NM)
        for m in marks
    )
    plan = planned(*two_islets, marks=marks, limits=limits)
    for leg in plan.legs:
        for place_m in np.linspace(0.0, leg.distance_m, 400):
            busy = sum(1 for x in leg.lines if x.from_along_m < place_m < x.to_along_m)
            assert busy <= 4
    assert findings_of(plan, "more-lines-than-offered")


def test_key_in_rows_reach_over_the_object(plan_of_two_islets: Plan) -> None:
    leg = plan_of_two_islets.legs[0]
    assert [row.line for row in leg.key_in] == list(leg.lines)
    row = next(r for r in leg.key_in if r.line.object.id == "A" and r.line.role is Role.PRIMARY)
    # A is abeam at 2.5 NM: ahead by 2.5 minus the start, astern by the end minus 2.5.
    near_side_m = 2.5 * NM
    assert row.truncate_ahead_m == pytest.approx(near_side_m - row.line.from_along_m, abs=70.0)
    assert row.truncate_astern_m == pytest.approx(row.line.to_along_m - near_side_m, abs=70.0)
    assert row.beam_range_m == row.line.cross_index_range_m


def test_wheel_over_line_flips_side_for_a_mark_close_inside(two_islets: Scene) -> None:
    # The new track runs 060 from (0, 4) NM; a mark 0.3 NM to starboard of it, on the inside of
    # the turn, lies 0.487 - 0.3 = 0.187 NM to port of the wheel-over line (T9 offset).
    away, off = 0.4 * NM, 0.3 * NM
    sine, cosine = math.sin(math.radians(60.0)), math.cos(math.radians(60.0))
    beacon = mark(
        "Corner Beacon", away * sine + off * cosine, 4.0 * NM + away * cosine - off * sine
    )
    wheel_over = planned(*two_islets, marks=(beacon,)).legs[0].wheel_over
    assert wheel_over is not None
    assert wheel_over.line is not None
    assert wheel_over.line.object.id == "Corner Beacon"
    assert wheel_over.line.side is Side.PORT
    assert wheel_over.line.cross_index_range_m / NM == pytest.approx(0.187, abs=0.01)
    values = dict(wheel_over.line.reason.values)
    assert values["other_side"] == 1.0
    assert values["inside"] == 1.0
    assert values["new_leg_cross_m"] == pytest.approx(0.3 * NM, abs=0.01 * NM)
    assert wheel_over.second_mark is not None
    assert wheel_over.second_mark.object.id != "Corner Beacon"


def test_small_alteration_is_turned_by_range_and_bearing(two_islets: Scene) -> None:
    # Job note 2.7.5: below about 15 deg the line crosses the old track too finely.
    land = two_islets[0]
    passage = with_turn_radius(
        track((0.0, -4.0 * NM), (0.0, 2.0 * NM), (0.35 * NM, 4.0 * NM)), 0.8 * NM
    )
    wheel_over = planned(land, passage, covered(land, passage)).legs[0].wheel_over
    assert wheel_over is not None
    assert wheel_over.alteration_deg == pytest.approx(9.9, abs=0.1)
    assert wheel_over.method.code == reason_codes.TURN_BY_RANGE_BEARING
    assert wheel_over.line is None
    # T9c: 0.10 NM off the track moves the moment by 0.10 / tan 9.9 deg.
    assert "by 0.57 NM" in wheel_over.line_reason
    assert wheel_over.second_mark is not None


def test_legs_too_short_for_their_turns_are_found(two_islets: Scene) -> None:
    land = two_islets[0]
    passage = with_turn_radius(
        track((0.0, -4.0 * NM), (0.0, 0.0), (0.8 * NM, 0.4 * NM), (0.8 * NM, 4.0 * NM)), 0.8 * NM
    )
    plan = planned(land, passage, covered(land, passage))
    assert findings_of(plan, "leg-too-short-for-turns") == [2]


def test_corner_cut_over_the_corridor_is_found(two_islets: Scene) -> None:
    # T9 turn with 0.8 NM radius cuts 0.8 (sec 30 - 1) = 0.124 NM; the corridor is 0.1 NM.
    plan = planned(*two_islets)
    assert plan.legs[0].wheel_over is not None
    assert plan.legs[0].wheel_over.corner_cut_m / NM == pytest.approx(0.124, abs=1e-3)
    assert findings_of(plan, "corner-cut-over-corridor") == [1]


def test_radius_that_the_route_does_not_state_is_the_ships(two_islets: Scene) -> None:
    land, passage, coverage = two_islets
    silent = replace(
        passage, waypoints=tuple(replace(w, turn_radius_m=None) for w in passage.waypoints)
    )
    plan = planned(land, silent, coverage)
    assert plan.legs[0].wheel_over is not None
    assert plan.legs[0].wheel_over.turn_radius_m == SHIP.turn_radius_m
    assert [f.code for f in plan.findings].count("turn-radius-assumed") == 1


def test_void_over_an_islet_must_be_mended_and_a_far_one_is_a_note() -> None:
    sea = flat_sea(half_width_m=12.0 * NM, cell_m=120.0)
    sea = sea.land(islet(1.2 * NM, 0.0, width_m=400.0), 40.0)
    sea = sea.land(islet(-1.5 * NM, -3.0 * NM, width_m=400.0), 40.0)
    hidden = sea.without_heights(box(0.9 * NM, -0.4 * NM, 1.6 * NM, 0.4 * NM)).model()
    passage = track((0.0, -4.0 * NM), (0.0, 4.0 * NM))
    plan = planned(hidden, passage, covered(hidden, passage))
    assert Effect.OBJECT in {gap.effect for gap in plan.legs[0].gaps}
    assert findings_of(plan, "gap-hides-object") == [1]
    apart = sea.without_heights(box(-9.0 * NM, 7.0 * NM, -8.0 * NM, 8.0 * NM)).model()
    calm = planned(apart, passage, covered(apart, passage))
    assert {gap.effect for gap in calm.legs[0].gaps} == {Effect.NONE}
    assert Cause.VOID in {gap.cause for gap in calm.legs[0].gaps}
    assert findings_of(calm, "gap-hides-object") == []
    assert Cell.VOID in np.unique(apart.cell)


def test_stop_is_heard() -> None:
    class Stop(Quiet):
        def report(self, fraction: float, text: str = "") -> None:
            raise KeyboardInterrupt(text)

    land = flat_sea(half_width_m=6.0 * NM, cell_m=300.0).land(islet(NM, 0.0), 10.0).model()
    passage = track((0.0, -NM), (0.0, NM))
    coverage = covered(land, passage)
    with pytest.raises(KeyboardInterrupt):
        build_plan(
            Request(passage=passage, ship=SHIP, land_paths=()),
            passage,
            Timetable(start_utc=None, leg_start_s=(0.0,), leg_speed_mps=(6.0,)),
            land,
            coverage,
            None,
            Stop(),
        )
