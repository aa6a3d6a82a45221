"""The turn at a waypoint. Values computed by hand unless a source stands beside them."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.passage.turn import GREATEST_ALTERATION_DEG, Turn


def turn(old_deg: float, new_deg: float, radius_m: float = 1000.0, response_m: float = 0.0) -> Turn:
    return Turn(
        old_course_deg=old_deg,
        new_course_deg=new_deg,
        radius_m=radius_m,
        response_distance_m=response_m,
    )


def test_alteration_is_starboard_positive_and_the_short_way_round() -> None:
    assert turn(350.0, 20.0).alteration_deg == pytest.approx(30.0)
    assert turn(20.0, 350.0).alteration_deg == pytest.approx(-30.0)


def test_right_angle_has_a_tangent_of_one_radius() -> None:
    corner = turn(0.0, 90.0, 1000.0, 150.0)
    assert corner.tangent_m == pytest.approx(1000.0)
    assert corner.wheel_over_before_waypoint_m == pytest.approx(1150.0)
    assert corner.arc_m == pytest.approx(500.0 * math.pi)
    assert corner.corner_cut_m == pytest.approx(1000.0 * (math.sqrt(2.0) - 1.0))
    assert corner.advance_m == pytest.approx(1150.0)
    assert corner.transfer_m == pytest.approx(1000.0)


def test_rate_of_turn_times_arc_minutes_is_the_alteration() -> None:
    corner = turn(10.0, 75.0)
    minutes = corner.arc_minutes(6.0)
    assert corner.rate_of_turn_deg_per_min(6.0) * minutes == pytest.approx(65.0)


def test_a_turn_back_on_itself_has_no_tangents() -> None:
    assert not turn(0.0, 179.0).has_tangents
    assert math.isfinite(turn(0.0, 180.0).tangent_m)
    assert turn(0.0, GREATEST_ALTERATION_DEG).has_tangents


@pytest.mark.parametrize(("radius_m", "response_m"), [(0.0, 1.0), (math.nan, 1.0), (1.0, -1.0)])
def test_impossible_turns_are_refused(radius_m: float, response_m: float) -> None:
    with pytest.raises(ValueError, match=r"radius_m|response_distance_m"):
        turn(0.0, 30.0, radius_m, response_m)


courses = st.floats(min_value=0.0, max_value=359.0)
alterations = st.floats(min_value=1.0, max_value=150.0)


@given(courses, alterations, st.floats(min_value=-9000.0, max_value=9000.0))
def test_turns_to_port_mirror_turns_to_starboard(
    course_deg: float, alteration_deg: float, cross_m: float
) -> None:
    starboard = turn(course_deg, course_deg + alteration_deg, 800.0, 90.0)
    port = turn(course_deg, course_deg - alteration_deg, 800.0, 90.0)
    assert starboard.tangent_m == pytest.approx(port.tangent_m, rel=1e-6)
    assert starboard.signed_wheel_over_cross_m(cross_m) == pytest.approx(
        -port.signed_wheel_over_cross_m(-cross_m), abs=1e-3
    )


@given(alterations)
def test_wheel_over_position_lies_on_the_outside_of_the_new_track(alteration_deg: float) -> None:
    corner = turn(0.0, alteration_deg, 800.0, 90.0)
    # The waypoint is the origin, north is up; the ship comes from the south.
    south_m = -corner.wheel_over_before_waypoint_m
    new = math.radians(alteration_deg)
    signed_off_new_track_m = 0.0 * math.cos(new) - south_m * math.sin(new)
    assert signed_off_new_track_m == pytest.approx(corner.wheel_over_offset_m, rel=1e-9)
    assert corner.signed_wheel_over_cross_m(0.0) == pytest.approx(-signed_off_new_track_m)
