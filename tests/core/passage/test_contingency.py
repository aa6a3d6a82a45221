"""Contingency routes: where their line leaves the track, and what is refused."""

import math

import numpy as np
import pytest

from core.base.errors import InputError
from core.base.units import m_from_nm, nm_from_m
from core.geodesy.leg_line import LegKind, LegLine
from core.geodesy.position import Position
from core.passage.contingency import AbortRoute, Contingency, abort_route
from core.passage.passage import Leg, Passage, Waypoint
from core.words import quantities

_START = Position(lat_deg=0.0, lon_deg=0.0)
_RADIUS_M, _RESPONSE_M = m_from_nm(0.8), m_from_nm(0.1)


def _passage() -> Passage:
    """One leg, 000 T, 8.0 NM, as in job.md 14.1."""
    north = LegLine(kind=LegKind.RHUMB, start=_START, end=Position(lat_deg=1.0, lon_deg=0.0))
    return Passage(
        name="invented",
        waypoints=(
            Waypoint(name="WP3", position=_START),
            Waypoint(name="WP4", position=north.position_at(m_from_nm(8.0))),
        ),
        legs=(Leg(corridor_port_m=370.0, corridor_starboard_m=370.0, speed_mps=6.0),),
    )


def _route(**given: object) -> AbortRoute:
    values: dict[str, object] = {
        "leg_number": 1,
        "course_deg": 300.0,
        "distance_m": m_from_nm(4.0),
        "where": "file.csv, line 2",
    }
    values.update(given)
    return abort_route(
        _passage(),
        Contingency(**values),  # type: ignore[arg-type]
        radius_m=_RADIUS_M,
        response_m=_RESPONSE_M,
    )


def test_the_worked_leg_has_object_b_to_port_at_1_06() -> None:
    """job.md 14.16, computed by hand: at 6.2 NM to port to 300, B then to PORT, CIR 1.06.

    B is 0.90 NM to port of the old course and abeam at 5.5 NM (14.3).
    """
    route = _route(to_go_m=m_from_nm(1.8))
    assert nm_from_m(route.corner_m) == pytest.approx(6.2, abs=0.001)
    old, new = route.passage.line(0), route.passage.line(1)
    lat, lon = old.offset(np.array([m_from_nm(5.5)]), np.array([m_from_nm(-0.90)]))
    _along, cross = new.track_coordinates(lat, lon)
    assert cross[0] < 0.0
    assert quantities.index_number(abs(float(cross[0])), m_from_nm(3.0)) == "1.06"
    by_hand = 0.7 * math.sin(math.radians(60.0)) + 0.9 * math.cos(math.radians(60.0))
    assert nm_from_m(abs(float(cross[0]))) == pytest.approx(by_hand, abs=0.003)


def test_the_line_may_be_stated_along_the_leg_or_lead_to_a_position() -> None:
    along = _route(along_m=m_from_nm(6.2))
    place = along.passage.waypoints[2].position
    there = _route(to_go_m=m_from_nm(1.8), course_deg=None, distance_m=None, position=place)
    assert there.corner_m == pytest.approx(along.corner_m, abs=1.0)
    assert there.passage.line(1).course_deg == pytest.approx(300.0, abs=0.01)


@pytest.mark.parametrize("course_deg", [300.0, 45.0, 270.0, 220.0])
def test_a_turn_before_a_line_reaches_the_line_and_not_beyond(course_deg: float) -> None:
    """By stepping round the arc: plane geometry, computed by hand."""
    route = _route(turn_before_m=m_from_nm(1.0), course_deg=course_deg)
    alteration = abs((course_deg + 180.0) % 360.0 - 180.0)
    tangent_m = _RADIUS_M * math.tan(math.radians(alteration) / 2.0)
    begins_m = route.corner_m - tangent_m
    reached = max(
        begins_m + _RADIUS_M * math.sin(math.radians(turned))
        for turned in np.linspace(0.0, alteration, 721)
    )
    assert reached == pytest.approx(m_from_nm(7.0), abs=0.5)


def test_a_turn_before_a_line_is_found_for_a_position_too() -> None:
    place = _route(turn_before_m=m_from_nm(1.0)).passage.waypoints[2].position
    route = _route(turn_before_m=m_from_nm(1.0), course_deg=None, distance_m=None, position=place)
    assert route.passage.line(1).course_deg == pytest.approx(300.0, abs=0.05)


@pytest.mark.parametrize(
    ("given", "sentence"),
    [
        ({"to_go_m": 0.0, "leg_number": 2}, "the passage has 1 legs"),
        ({"along_m": m_from_nm(8.2)}, "beyond the end of leg 1, which is 8.00 NM long"),
        ({"along_m": m_from_nm(0.3)}, "0.26 NM before leg 1 begins"),
        ({"to_go_m": 0.0, "distance_m": 50.0}, "would be 0.03 NM long"),
        (
            {
                "to_go_m": 0.0,
                "course_deg": None,
                "distance_m": None,
                "position": Position(lat_deg=3.0, lon_deg=0.0),
            },
            "would be 17",
        ),
        ({"turn_before_m": 1.0, "course_deg": 181.0}, "no turn onto the contingency leg"),
    ],
)
def test_what_leads_nowhere_is_refused_in_one_sentence(
    given: dict[str, object], sentence: str
) -> None:
    with pytest.raises(InputError) as caught:
        _route(**given)
    assert sentence in str(caught.value)
    assert "file.csv, line 2" in str(caught.value)
    assert "\n" not in str(caught.value)
