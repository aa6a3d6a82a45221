"""A passage run the other way; worked by hand."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given

from core.geodesy.leg_line import LegKind
from core.geodesy.position import Position
from core.passage.passage import Leg, Passage, Waypoint
from core.passage.reverse import reversed_number, reversed_passage
from tests.helpers.passages import passages

_START = datetime(2031, 5, 4, 6, 0, tzinfo=UTC)


def _passage() -> Passage:
    return Passage(
        name="Invented",
        waypoints=(
            Waypoint(name="A", position=Position(lat_deg=0.0, lon_deg=-30.0), etd_utc=_START),
            Waypoint(name="B", position=Position(lat_deg=0.0, lon_deg=-29.9), turn_radius_m=900.0),
            Waypoint(name="C", position=Position(lat_deg=0.1, lon_deg=-29.9)),
        ),
        legs=(
            Leg(corridor_port_m=100.0, corridor_starboard_m=300.0, speed_mps=5.0, note="slow"),
            Leg(kind=LegKind.GEODESIC, corridor_port_m=200.0),
        ),
    )


def test_legs_keep_their_kind_speed_and_note_and_change_sides() -> None:
    turned = reversed_passage(_passage())
    assert [waypoint.name for waypoint in turned.waypoints] == ["C", "B", "A"]
    assert turned.waypoints[1].turn_radius_m == 900.0
    first, second = turned.legs
    assert (first.kind, first.corridor_port_m, first.corridor_starboard_m) == (
        LegKind.GEODESIC,
        None,
        200.0,
    )
    assert second == Leg(
        corridor_port_m=300.0, corridor_starboard_m=100.0, speed_mps=5.0, note="slow"
    )
    assert turned.name == "Invented, reversed"


def test_times_of_the_other_way_are_left_out_but_not_the_speeds_they_mean() -> None:
    # 0.1 deg of the equator is 11 131.949 m (WGS-84 a x 0.1 deg): in 30 min 6.1844 m/s.
    passage = _passage()
    there = replace(passage.waypoints[1], eta_utc=_START + timedelta(minutes=30))
    silent = tuple(replace(leg, speed_mps=None) for leg in passage.legs)
    passage = replace(
        passage, waypoints=(passage.waypoints[0], there, passage.waypoints[2]), legs=silent
    )
    turned = reversed_passage(passage)
    assert all(w.eta_utc is None and w.etd_utc is None for w in turned.waypoints)
    assert turned.legs[0].speed_mps is None
    assert turned.legs[1].speed_mps == pytest.approx(6.1844, abs=1e-4)


@given(passages())
def test_reversed_twice_it_is_the_passage_without_times(passage: Passage) -> None:
    timeless = replace(
        passage,
        waypoints=tuple(replace(w, eta_utc=None, etd_utc=None) for w in passage.waypoints),
    )
    assert reversed_passage(reversed_passage(timeless)) == timeless


def test_a_leg_keeps_its_place_under_its_new_number() -> None:
    assert [reversed_number(number, 4) for number in (1, 2, 3, 4)] == [4, 3, 2, 1]
    # Leg 9 of four is none; it is told under the number that was given.
    assert reversed_number(9, 4) == 9
    assert reversed_number(0, 4) == 0
