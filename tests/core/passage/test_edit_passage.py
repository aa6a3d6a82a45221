"""Edits by hand, worked by hand; and what holds for any passage."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.geodesy.position import Position
from core.passage.edit_passage import (
    with_added,
    with_deleted,
    with_inserted,
    with_leg,
    with_waypoint,
)
from core.passage.passage import Leg, Passage, Waypoint
from tests.helpers.passages import passages

_START = datetime(2031, 5, 4, 6, 0, tzinfo=UTC)
_HERE = Position(lat_deg=0.05, lon_deg=-29.95)


def _passage() -> Passage:
    # 0.1 deg of the equator is 11 131.949 m (WGS-84 a x 0.1 deg): in 30 min 6.1844 m/s.
    return Passage(
        name="Invented",
        waypoints=(
            Waypoint(name="A", position=Position(lat_deg=0.0, lon_deg=-30.0), etd_utc=_START),
            Waypoint(
                name="B",
                position=Position(lat_deg=0.0, lon_deg=-29.9),
                turn_radius_m=900.0,
                eta_utc=_START + timedelta(minutes=30),
            ),
            Waypoint(name="C", position=Position(lat_deg=0.1, lon_deg=-29.9)),
        ),
        legs=(
            Leg(corridor_port_m=100.0, corridor_starboard_m=300.0, note="slow"),
            Leg(corridor_port_m=200.0, speed_mps=5.0),
        ),
    )


def test_a_moved_waypoint_keeps_all_but_the_times_of_another_line() -> None:
    passage = _passage()
    moved = with_waypoint(passage, 1, replace(passage.waypoints[1], position=_HERE))
    assert moved.sources == ((0,), (1,))
    after = moved.passage.waypoints
    assert after[1].position == _HERE
    assert after[1].turn_radius_m == 900.0
    assert after[1].eta_utc is None
    assert after[0].etd_utc == _START
    assert moved.passage.legs[0].speed_mps == pytest.approx(6.1844, abs=1e-4)
    assert moved.passage.legs[1].speed_mps == 5.0


def test_another_name_or_radius_leaves_the_times_alone() -> None:
    passage = _passage()
    turned = with_waypoint(passage, 1, replace(passage.waypoints[1], turn_radius_m=1200.0))
    assert turned.passage.waypoints[1].eta_utc == _START + timedelta(minutes=30)
    assert turned.passage.waypoints[1].turn_radius_m == 1200.0


def test_a_waypoint_put_into_a_leg_makes_two_like_it() -> None:
    edit = with_inserted(_passage(), 0, _HERE)
    assert [w.name for w in edit.passage.waypoints] == ["A", "AA", "B", "C"]
    assert edit.sources == ((0,), (0,), (1,))
    first, second = edit.passage.legs[:2]
    assert (first.corridor_port_m, first.corridor_starboard_m) == (100.0, 300.0)
    assert (second.corridor_port_m, second.corridor_starboard_m) == (100.0, 300.0)
    assert first.note == "slow"
    assert second.note == ""


def test_a_waypoint_taken_out_leaves_the_narrower_corridor() -> None:
    edit = with_deleted(_passage(), 1)
    assert [w.name for w in edit.passage.waypoints] == ["A", "C"]
    assert edit.sources == ((0, 1),)
    assert edit.passage.legs[0].corridor_port_m == 100.0
    assert edit.passage.legs[0].corridor_starboard_m == 300.0
    assert with_deleted(_passage(), 0).sources == ((1,),)
    assert with_deleted(_passage(), 2).sources == ((0,),)
    with pytest.raises(ValueError, match="two waypoints"):
        with_deleted(edit.passage, 0)


def test_waypoints_before_the_first_and_after_the_last() -> None:
    before = with_added(_passage(), _HERE, at_start=True)
    assert before.passage.waypoints[0].position == _HERE
    assert before.sources == ((), (0,), (1,))
    after = with_added(_passage(), _HERE)
    assert after.passage.waypoints[-1].position == _HERE
    assert after.sources == ((0,), (1,), ())
    assert after.passage.legs[-1].speed_mps == 5.0


def test_a_leg_with_another_corridor_keeps_the_times_with_another_speed_not() -> None:
    passage = _passage()
    wide = with_leg(passage, 0, replace(passage.legs[0], corridor_port_m=500.0))
    assert wide.passage.waypoints[1].eta_utc is not None
    fast = with_leg(passage, 0, replace(passage.legs[0], speed_mps=8.0))
    assert fast.passage.waypoints[1].eta_utc is None
    assert fast.passage.legs[0].speed_mps == 8.0


@given(passages(), st.data())
def test_names_stay_unlike_and_sources_fit(passage: Passage, data: st.DataObject) -> None:
    leg = data.draw(st.integers(0, len(passage.legs) - 1))
    edit = with_inserted(passage, leg, _HERE)
    assert len(edit.sources) == len(edit.passage.legs) == len(passage.legs) + 1
    assert edit.passage.waypoints[leg + 1].name not in {w.name for w in passage.waypoints}
    back = with_deleted(edit.passage, leg + 1).passage
    assert [w.position for w in back.waypoints] == [w.position for w in passage.waypoints]
