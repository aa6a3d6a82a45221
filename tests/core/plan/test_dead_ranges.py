"""Ranges of objects nearly ahead or astern; figures computed by hand."""

import math

import pytest

from core.base.units import kn_from_mps, nm_from_m
from core.plan.dead_ranges import dead_ranges, rate_mps
from core.plan.leg_check_result import DeadRange
from tests.helpers.islands import NM
from tests.helpers.place_reader import Thing, reader_of
from tests.helpers.plans import KNOTS_12


def found(*things: Thing, end_nm: float = 8.0) -> tuple[DeadRange, ...]:
    read = reader_of(*things)
    return dead_ranges(read, end_m=end_nm * NM, speed_mps=KNOTS_12, before_s=(180.0, 60.0))


def test_an_object_ahead_counts_down_to_the_wheel_over() -> None:
    # On the extended track 2 NM beyond the wheel-over; at 12 kn 0.2 NM a minute.
    (dead,) = found(Thing(name="A", along_nm=10.0, cross_nm=0.0))
    assert dead.is_ahead
    assert [
        (round(one.before_minutes, 6), round(nm_from_m(one.range_m), 6)) for one in dead.countdown
    ] == [(3.0, 2.6), (1.0, 2.2), (0.0, 2.0)]
    assert kn_from_mps(dead.least_rate_mps) == pytest.approx(12.0)
    # On the screen from 5.4 NM off: 4.6 NM along; looked for every quarter of a mile.
    assert nm_from_m(dead.from_along_m) == pytest.approx(4.75)
    assert nm_from_m(dead.to_along_m) == pytest.approx(8.0)


def test_the_rate_is_speed_times_cosine() -> None:
    # job.md 2.10.6: V cos b; at 10 deg 12 kn make 11.82.
    cross_nm = 4.0 * math.tan(math.radians(10.0))
    (reading,) = reader_of(Thing(name="A", along_nm=4.0, cross_nm=cross_nm))(0.0)
    assert kn_from_mps(rate_mps(reading, KNOTS_12)) == pytest.approx(11.818, abs=1e-3)


def test_beyond_ten_degrees_an_object_is_no_dead_range() -> None:
    # 0.5 NM off the track: within 10 deg as long as it is 2.84 NM ahead, so lost 1.16 NM along.
    (dead,) = found(Thing(name="A", along_nm=4.0, cross_nm=0.5), end_nm=3.0)
    assert nm_from_m(dead.to_along_m) == pytest.approx(1.0)
    assert dead.greatest_angle_deg <= 10.0
    assert dead.countdown == ()


def test_an_object_astern_counts_up() -> None:
    (dead,) = found(Thing(name="A", along_nm=0.5, cross_nm=0.02), end_nm=5.0)
    assert not dead.is_ahead
    ranges = [one.range_m for one in dead.countdown]
    assert ranges == sorted(ranges)


def test_a_stretch_ends_where_the_object_is_hidden() -> None:
    dead = found(Thing(name="A", along_nm=10.0, cross_nm=0.0, hidden_nm=(6.1, 6.9)))
    assert all(not (one.from_along_m < 6.5 * NM < one.to_along_m) for one in dead)
    assert dead[-1].countdown


def test_one_that_counts_down_to_the_end_goes_before_a_longer_one() -> None:
    dead = found(
        Thing(name="long", along_nm=7.0, cross_nm=0.1, hidden_nm=(5.0, 9.0)),
        Thing(name="end", along_nm=12.0, cross_nm=0.0),
    )
    assert [one.object_id for one in dead if one.countdown] == ["end"]
