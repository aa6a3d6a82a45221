"""Craft from behind heads on hand-made coasts with known answers, through the whole plan."""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from core.base.units import m_from_nm, mps_from_kn, nm_from_m
from core.land.land_model import LandModel
from core.passage.passage import Passage, Side
from core.plan.emergence_result import Alarm, Emergence, NoOffing
from core.plan.request import Environment
from core.plan.waters_result import LegWaters
from tests.helpers.islands import NM, box, flat_sea, headland_with_bay, track
from tests.helpers.plans import covered, planned

_NORTH = track((0.0, -4.0 * NM), (0.0, 4.0 * NM))
_TEN, _TWENTY, _THIRTY = range(3)


def _waters(
    land: LandModel, passage: Passage = _NORTH, environment: Environment | None = None
) -> LegWaters:
    coverage = covered(land, passage, radius_m=8.0 * NM)
    plan = planned(land, passage, coverage, environment=environment or Environment())
    waters = plan.legs[-1].waters
    assert waters is not None
    return waters


def _head(offing_nm: float, height_m: float = 60.0, *, cell_m: float = 20.0) -> LandModel:
    """A head to starboard whose sharp tip lies abeam of the middle of the leg."""
    shape = headland_with_bay(tip_east_m=offing_nm * NM, tip_north_m=0.0)
    return flat_sea(half_width_m=9.0 * NM, cell_m=cell_m).land(shape, height_m).model()


def _minutes(head: Emergence, number: int) -> float:
    warning_s = head.runs[number].warning_s
    assert warning_s is not None
    return warning_s / 60.0


def _passing(pass_off_nm: float) -> Environment:
    return Environment(pass_off_m=m_from_nm(pass_off_nm))


@pytest.mark.parametrize(
    ("offing_nm", "pass_off_nm", "minutes"),
    [
        (0.5, 0.5, (5.5, 4.0, 3.5)),
        (0.5, 0.0, (3.0, 1.5, 1.0)),
        (1.0, 0.5, (8.5, 5.5, 4.5)),
        (1.0, 0.0, (6.0, 3.0, 2.0)),
    ],
)
def test_head_of_the_worked_case_found_on_a_coast(
    offing_nm: float, pass_off_nm: float, minutes: tuple[float, float, float]
) -> None:
    # job.md T24 (computed by hand there): ship 000 at 12 kn, head to starboard; the tip is known
    # to a cell of 20 m, 2 s at 20 kn
    (head,) = _waters(_head(offing_nm), environment=_passing(pass_off_nm)).emergences
    assert head.side is Side.STARBOARD
    assert nm_from_m(head.offing_m) == pytest.approx(offing_nm, abs=0.03)
    assert nm_from_m(head.tip_along_m) == pytest.approx(4.0, abs=0.03)
    found = tuple(_minutes(head, number) for number in range(3))
    assert found == pytest.approx(minutes, abs=0.15)
    # atan(10 / 12), atan(30 / 12) by hand
    assert (head.relative_from_deg, head.relative_to_deg) == pytest.approx((39.8, 68.2), abs=0.1)


def test_where_own_ship_and_the_craft_are_when_she_comes_in_sight() -> None:
    # By hand for 0.5 NM off, p 0.5, 20 kn: 4.0 min before the meeting at 4.5 NM own ship is at
    # 4.5 - 0.8 = 3.7 NM along, the craft 20 x 4 / 60 = 1.333 NM east of the track
    (head,) = _waters(_head(0.5), environment=_passing(0.5)).emergences
    run = head.runs[_TWENTY]
    assert run.own_along_m is not None
    assert run.position is not None
    assert nm_from_m(run.own_along_m) == pytest.approx(3.7, abs=0.03)
    along, cross = _NORTH.line(0).track_coordinates(
        np.array([run.position.lat_deg]), np.array([run.position.lon_deg])
    )
    assert (along[0] / NM, cross[0] / NM) == pytest.approx((4.5, 1.333), abs=0.05)


def test_port_side_is_the_mirror() -> None:
    shape = box(-3.5 * NM, -1000.0, -0.5 * NM, 0.0)
    main = box(-5.0 * NM, -4.0 * NM, -3.5 * NM, 4.0 * NM)
    land = flat_sea(half_width_m=9.0 * NM, cell_m=20.0).land(shapely.union(shape, main), 60.0)
    (head,) = _waters(land.model(), environment=_passing(0.5)).emergences
    assert head.side is Side.PORT
    assert _minutes(head, _TWENTY) == pytest.approx(4.0, abs=0.15)
    assert (head.relative_from_deg, head.relative_to_deg) == pytest.approx((291.8, 320.2), abs=0.1)


def test_offing_that_would_give_six_minutes_turns_the_formula_round() -> None:
    # C2 by hand: corridor 0.1 NM; at its edge 0.4 NM off with p 0 20 kn gives 1.2 min; 4.8 min
    # more are 1.6 NM; a bend by 1.6 abeam, 4.0 NM from both ends: 2 hypot(4, 1.6) - 8 = 0.616 NM
    (head,) = _waters(_head(0.5), environment=_passing(0.0)).emergences
    assert head.alarm is Alarm.SHORTER_THAN_TURN
    assert head.needed_offing_m is not None
    assert head.extra_offing_m is not None
    assert head.extra_distance_m is not None
    assert nm_from_m(head.extra_offing_m) == pytest.approx(1.6, abs=0.04)
    assert nm_from_m(head.needed_offing_m) == pytest.approx(2.1, abs=0.02)
    assert nm_from_m(head.extra_distance_m) == pytest.approx(0.616, abs=0.03)
    assert head.no_offing is None


def test_other_shore_leaves_no_room_for_the_offing() -> None:
    shape = headland_with_bay(tip_east_m=0.5 * NM, tip_north_m=0.0)
    west = box(-3.0 * NM, -6.0 * NM, -1.0 * NM, 6.0 * NM)
    sea = flat_sea(half_width_m=9.0 * NM, cell_m=30.0).land(shape, 60.0).land(west, 60.0)
    (head,) = _waters(sea.model()).emergences
    assert head.no_offing is NoOffing.OTHER_SHORE
    assert head.extra_offing_m is None
    assert head.needed_offing_m is not None


def test_straight_coast_and_open_sea_have_no_emergence() -> None:
    coast = box(0.5 * NM, -8.0 * NM, 2.0 * NM, 8.0 * NM)
    assert _waters(flat_sea(cell_m=60.0).land(coast, 60.0).model()).emergences == ()
    assert _waters(flat_sea(cell_m=60.0).model()).emergences == ()


def test_low_head_is_looked_over() -> None:
    # an antenna 25 m high looks over 2 m at the craft of 5 m behind it
    assert _waters(_head(0.5, height_m=2.0)).emergences == ()


def test_a_small_rock_hides_nobody_long_enough() -> None:
    # 100 m long: 16 s at 12 kn, 0.09 NM of a 20 kn craft's run (by hand)
    rock = box(0.5 * NM, -50.0, 0.5 * NM + 100.0, 50.0)
    assert _waters(flat_sea(cell_m=20.0).land(rock, 40.0).model()).emergences == ()


def test_a_large_islet_hides_a_craft_behind_its_far_end() -> None:
    # an islet half a mile long; its north end at 0
    islet = box(0.5 * NM, -0.5 * NM, 0.8 * NM, 0.0)
    (head,) = _waters(
        flat_sea(cell_m=20.0).land(islet, 60.0).model(), environment=_passing(0.0)
    ).emergences
    assert nm_from_m(head.tip_along_m) == pytest.approx(4.0, abs=0.03)
    # By hand: its last corner on the bearing atan(20 / 12) is the near one for every speed
    assert _minutes(head, _TWENTY) == pytest.approx(1.5, abs=0.15)


def test_decision_time_is_an_input() -> None:
    land = _head(1.0)
    strict = _waters(land, environment=Environment(decision_time_s=600.0)).emergences[0]
    lenient = _waters(land, environment=Environment(decision_time_s=150.0)).emergences[0]
    assert strict.alarm is not Alarm.NONE
    assert lenient.alarm is Alarm.NONE
    assert lenient.no_offing is NoOffing.ENOUGH
    assert lenient.needed_offing_m is None


def test_warning_below_the_time_of_a_turn_is_told_apart() -> None:
    # the ship of the tests: 0.1 NM response and 60 deg of a circle of 0.8 NM at 12 kn:
    # (0.1 + 0.838) / 12 h = 4.69 min (by hand)
    near, far = (
        _waters(_head(offing_nm), environment=Environment(decision_time_s=600.0)).emergences[0]
        for offing_nm in (1.2, 1.8)
    )
    # at the edge of the corridor 1.1 and 1.7 NM off: 0.25 + 3.3 and 0.25 + 5.1 min at 20 kn
    assert near.alarm is Alarm.SHORTER_THAN_TURN
    assert far.alarm is Alarm.SHORT


def test_two_heads_worst_first_and_tips_of_one_head_once() -> None:
    near = box(0.4 * NM, -2.5 * NM, 4.0 * NM, -2.0 * NM)
    far = box(1.5 * NM, 1.0 * NM, 4.0 * NM, 1.5 * NM)
    main = box(4.0 * NM, -6.0 * NM, 5.0 * NM, 6.0 * NM)
    shape = shapely.union_all([near, far, main])
    found = _waters(flat_sea(half_width_m=9.0 * NM, cell_m=30.0).land(shape, 60.0).model())
    assert [nm_from_m(head.tip_along_m) for head in found.emergences] == pytest.approx(
        [2.0, 5.5], abs=0.05
    )
    assert [head.number for head in found.emergences] == [1, 2]


def test_head_behind_which_all_water_is_land() -> None:
    # the same head with the bay filled to 0.1 NM behind its face: no run of 0.2 NM
    head = headland_with_bay(tip_east_m=0.5 * NM, tip_north_m=0.0)
    fill = box(0.62 * NM, -10.0, 3.6 * NM, 4.0 * NM)
    sea = flat_sea(half_width_m=9.0 * NM, cell_m=20.0).land(shapely.union(head, fill), 60.0)
    assert _waters(sea.model(), environment=_passing(0.0)).emergences == ()


@settings(max_examples=8, deadline=None)
@given(
    offing_nm=st.floats(0.4, 1.4), pass_off_nm=st.floats(0.0, 0.4), height_m=st.floats(30.0, 150.0)
)
def test_warning_grows_with_offing_and_passing_distance_and_shrinks_with_speed(
    offing_nm: float, pass_off_nm: float, height_m: float
) -> None:
    def look(offing: float, pass_off: float) -> tuple[float, ...]:
        heads = _waters(_head(offing, height_m, cell_m=40.0), environment=_passing(pass_off))
        (head,) = heads.emergences
        return tuple(_minutes(head, number) for number in range(3))

    here = look(offing_nm, pass_off_nm)
    wider = look(offing_nm + 0.2, pass_off_nm)
    farther = look(offing_nm, pass_off_nm + 0.2)
    assert here[_TEN] > here[_TWENTY] > here[_THIRTY]
    assert all(more > less for more, less in zip(wider, here, strict=True))
    assert all(more > less for more, less in zip(farther, here, strict=True))


def test_head_just_past_a_waypoint_is_found_from_the_leg_before() -> None:
    # the tip lies 0.1 NM into the second leg, which alters little: a craft of 20 kn comes out
    # when own ship is still on the first one
    passage = track((0.0, -4.0 * NM), (0.0, -0.1 * NM), (100.0, 4.0 * NM))
    (head,) = _waters(_head(0.5), passage, _passing(0.0)).emergences
    run = head.runs[_TWENTY]
    assert run.own_along_m is not None
    assert run.own_along_m < 0.0
    assert _minutes(head, _TWENTY) == pytest.approx(1.5, abs=0.15)


def test_speed_of_craft_that_cannot_come_out_unseen_is_left_open() -> None:
    # every run of a found head states its bearing, with a time or without
    (head,) = _waters(_head(0.5)).emergences
    assert [run.craft_speed_mps for run in head.runs] == pytest.approx(
        [mps_from_kn(kn) for kn in (10.0, 20.0, 30.0)]
    )
    slow = replace(head.runs[_TWENTY], warning_s=None)
    assert replace(head, runs=(head.runs[0], slow, head.runs[2])).deciding is head.runs[_THIRTY]
