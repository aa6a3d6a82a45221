"""Wheel-over geometry against worked examples.

Numbers T... are worked examples of the project's job note (computed by hand there and run once in
a script apart from this code); 9... are rows of its table of check values. Sources stand beside
each check.
"""

import math

import pytest

from core.base.units import m_from_nm, mps_from_kn, nm_from_m
from core.passage.turn import Turn
from core.plan.turn_ring import ring_radius_m, ring_readings


def turn_nm(old: float, new: float, radius_nm: float, response_nm: float = 0.0) -> Turn:
    return Turn(
        old_course_deg=old,
        new_course_deg=new,
        radius_m=m_from_nm(radius_nm),
        response_distance_m=m_from_nm(response_nm),
    )


T9 = turn_nm(0.0, 60.0, 0.8, 0.10)


def test_t9_tangent_wheel_over_arc_time_and_rate() -> None:
    # T9, computed by hand.
    assert nm_from_m(T9.tangent_m) == pytest.approx(0.462, abs=5e-4)
    assert nm_from_m(T9.wheel_over_before_waypoint_m) == pytest.approx(0.562, abs=5e-4)
    assert nm_from_m(T9.arc_m) == pytest.approx(0.838, abs=5e-4)
    assert T9.arc_minutes(mps_from_kn(12.0)) == pytest.approx(4.19, abs=5e-3)
    assert T9.rate_of_turn_deg_per_min(mps_from_kn(12.0)) == pytest.approx(14.3, abs=0.05)


def test_t9_wheel_over_line_reads_less_inside_and_more_outside() -> None:
    # T9, computed by hand: offset 0.487; 1.50 inside gives 1.013, 1.50 outside 1.987 NM.
    assert nm_from_m(T9.wheel_over_offset_m) == pytest.approx(0.487, abs=5e-4)
    inside = T9.signed_wheel_over_cross_m(m_from_nm(1.50))
    outside = T9.signed_wheel_over_cross_m(m_from_nm(-1.50))
    assert nm_from_m(inside) == pytest.approx(1.013, abs=5e-4)
    assert nm_from_m(outside) == pytest.approx(-1.987, abs=5e-4)


def test_side_flips_when_the_new_leg_range_is_less_than_the_offset() -> None:
    # Job note 2.7.3 (published geometry): a mark inside the turn nearer to the new track than
    # the wheel-over position lies on the other side of the wheel-over line.
    assert T9.signed_wheel_over_cross_m(m_from_nm(0.40)) < 0.0


def test_t9b_a_ship_off_track_meets_the_line_later_and_still_lands_on_the_new_track() -> None:
    # T9b, computed by hand: 0.10 NM to starboard, line met 0.058 NM later, 0.504 before WP.
    later = nm_from_m(T9.moved_by_track_m(m_from_nm(0.10)))
    assert later == pytest.approx(0.058, abs=5e-4)
    before_waypoint_nm = nm_from_m(T9.wheel_over_before_waypoint_m) - later
    assert before_waypoint_nm == pytest.approx(0.504, abs=5e-4)
    # Same perpendicular distance from the new track as the planned wheel-over.
    off_new_track = before_waypoint_nm * math.sin(math.radians(60.0)) + 0.10 * math.cos(
        math.radians(60.0)
    )
    assert off_new_track == pytest.approx(nm_from_m(T9.wheel_over_offset_m), abs=5e-4)


def test_t9c_a_small_alteration_makes_the_moment_vague() -> None:
    # T9c, computed by hand: 10 deg, 0.10 NM off track moves the line's moment 0.567 NM, a reading
    # error of 0.10 NM moves it 0.576 NM.
    small = turn_nm(0.0, 10.0, 0.8, 0.10)
    assert nm_from_m(small.moved_by_track_m(m_from_nm(0.10))) == pytest.approx(0.567, abs=5e-4)
    assert nm_from_m(small.moved_by_reading_m(m_from_nm(0.10))) == pytest.approx(0.576, abs=5e-4)
    to_port = turn_nm(10.0, 0.0, 0.8, 0.10)
    assert to_port.moved_by_track_m(1.0) == pytest.approx(small.moved_by_track_m(1.0))


def test_t9e_a_stream_sets_her_during_the_turn() -> None:
    # T9e, computed by hand: 2 kn during the 4.19 min of T9 at 12 kn is 0.14 NM.
    drift_m = T9.drift_m(drift_mps=mps_from_kn(2.0), water_speed_mps=mps_from_kn(12.0))
    assert nm_from_m(drift_m) == pytest.approx(0.14, abs=5e-3)


def test_t9d_tangent_of_a_large_turn() -> None:
    # T9d, computed by hand.
    assert nm_from_m(turn_nm(0.0, 120.0, 0.5).tangent_m) == pytest.approx(0.866, abs=5e-4)


def test_t10_ring_about_the_turn_centre_is_the_same_all_the_way() -> None:
    # T10 (method: published practice paper on concentric indexing; arithmetic by hand): waypoint
    # as origin, the arc of T9 begins at (0, -0.462), the object lies at (1.50, 1.00).
    ahead_m = m_from_nm(1.00) + T9.tangent_m
    thing = {"ahead_m": ahead_m, "starboard_m": m_from_nm(1.50)}
    assert nm_from_m(ring_radius_m(T9, **thing)) == pytest.approx(1.621, abs=1e-3)
    readings = ring_readings(T9, **thing)
    assert len(readings) == 5
    for number, range_nm, relative_deg in ((0, 2.095, 45.7), (2, 1.751, 22.7), (4, 1.342, 355.0)):
        assert nm_from_m(readings[number].range_m) == pytest.approx(range_nm, abs=1e-3)
        assert readings[number].relative_deg == pytest.approx(relative_deg, abs=0.05)
    # On the display the object stays on one ring about the point one radius on the beam.
    for reading in readings:
        angle = math.radians(reading.relative_deg)
        ahead, aside = reading.range_m * math.cos(angle), reading.range_m * math.sin(angle)
        assert math.hypot(ahead, aside - T9.radius_m) == pytest.approx(ring_radius_m(T9, **thing))


def test_t10_mirrored_to_port() -> None:
    # The same turn the other way: every bearing on the other bow.
    port = turn_nm(0.0, 300.0, 0.8, 0.10)
    ahead_m = m_from_nm(1.00) + port.tangent_m
    readings = ring_readings(port, ahead_m=ahead_m, starboard_m=m_from_nm(-1.50))
    # 355.0 relative to starboard is 005.0 to port.
    assert [round(360.0 - r.relative_deg, 1) for r in readings[::2]] == [45.7, 22.7, 355.0]


def test_t11_constant_radius_turn() -> None:
    # T11: published training page on constant-radius turns, exact values by hand.
    corner = turn_nm(0.0, 90.0, 1.0)
    assert corner.rate_of_turn_deg_per_min(mps_from_kn(15.0)) == pytest.approx(14.3, abs=0.05)
    assert corner.arc_minutes(mps_from_kn(15.0)) == pytest.approx(6.28, abs=5e-3)
    assert nm_from_m(corner.arc_m) == pytest.approx(1.571, abs=5e-4)
    assert nm_from_m(corner.tangent_m) == pytest.approx(1.00, abs=5e-4)
    # Way lost to 12 kn: 11.5 deg/min holds the radius.
    assert corner.rate_of_turn_deg_per_min(mps_from_kn(12.0)) == pytest.approx(11.5, abs=0.05)


def test_9_12_radius_from_speed_and_rate() -> None:
    # 9.12, computed apart from this code: 12 kn at 10 deg/min is a radius of 1.14592 NM.
    rate = turn_nm(0.0, 60.0, 1.14592).rate_of_turn_deg_per_min(mps_from_kn(12.0))
    assert rate == pytest.approx(10.0, abs=1e-4)


def test_9_13_published_examination_rule_of_radius() -> None:
    # 9.13, published examination method R = 0.96 V / ROT on three training pages: 15 kn and
    # 15 deg/min give 0.96 NM, within 0.01 of the exact 0.95493.
    rate = turn_nm(0.0, 60.0, 0.96).rate_of_turn_deg_per_min(mps_from_kn(15.0))
    assert rate == pytest.approx(15.0, rel=0.01)


def test_9_14_and_9_15_wheel_over_advance_transfer_corner_cut() -> None:
    # 9.14, 9.15 and handbook 9.4, computed apart from this code: R 1.0, 60 deg, F 0.1 NM.
    corner = turn_nm(0.0, 60.0, 1.0, 0.1)
    assert nm_from_m(corner.wheel_over_before_waypoint_m) == pytest.approx(0.6774, abs=1e-4)
    assert nm_from_m(corner.advance_m) == pytest.approx(0.9660, abs=1e-4)
    assert nm_from_m(corner.transfer_m) == pytest.approx(0.5000, abs=1e-4)
    assert nm_from_m(corner.corner_cut_m) == pytest.approx(0.1547, abs=1e-4)
    square = turn_nm(0.0, 90.0, 0.5, 0.1)
    assert nm_from_m(square.wheel_over_before_waypoint_m) == pytest.approx(0.6, abs=1e-4)


def test_worked_leg_wheel_over() -> None:
    # Job note 14.6 (invented leg, computed by hand): 8.0 NM leg, turn as T9, wheel-over at 7.44.
    assert 8.0 - nm_from_m(T9.wheel_over_before_waypoint_m) == pytest.approx(7.44, abs=5e-3)
