"""Where the heading marker is checked; figures computed by hand."""

import pytest

from core.base.units import nm_from_m
from core.plan.heading_spot import heading_spot, shift_m
from tests.helpers.islands import NM
from tests.helpers.place_reader import Thing, reader_of

PLACES = [n * 0.5 * NM for n in range(9)]


def test_one_degree_is_0_07_miles_at_4_and_nothing_abeam() -> None:
    # job.md 2.9.4, T23, computed by hand.
    assert nm_from_m(shift_m(along_m=4.0 * NM, error_deg=1.0)) == pytest.approx(0.07, abs=5e-4)
    assert shift_m(along_m=0.0, error_deg=1.0) == 0.0


def test_a_mark_on_the_bow_near_the_edge_is_taken() -> None:
    spot = heading_spot(
        reader_of(
            Thing(name="islet", along_nm=5.0, cross_nm=0.3),
            Thing(name="beacon", along_nm=5.0, cross_nm=-0.5, is_mark=True),
            Thing(name="near", along_nm=2.0, cross_nm=0.1, is_mark=True),
        ),
        PLACES,
    )
    assert spot is not None
    assert spot.object_id == "beacon"
    assert nm_from_m(spot.range_m) >= 0.6 * 5.4
    assert 300.0 < spot.relative_deg < 360.0
    assert spot.per_degree_m == pytest.approx(shift_m(along_m=spot.range_m, error_deg=1.0))


def test_nothing_broad_and_nothing_near_the_middle() -> None:
    assert (
        heading_spot(
            reader_of(Thing(name="head", along_nm=5.0, cross_nm=0.3, is_point=False)), PLACES
        )
        is None
    )
    assert heading_spot(reader_of(Thing(name="rock", along_nm=2.0, cross_nm=0.3)), [0.0]) is None


def test_a_heading_off_the_course_turns_the_relative_bearing_not_the_true_one() -> None:
    read = reader_of(Thing(name="beacon", along_nm=5.0, cross_nm=0.0, is_mark=True))
    straight, crabbed = heading_spot(read, [0.0]), heading_spot(read, [0.0], heading_off_deg=6.0)
    assert straight is not None
    assert crabbed is not None
    assert (straight.relative_deg, crabbed.relative_deg) == pytest.approx((0.0, 354.0))
    assert straight.bearing_deg == crabbed.bearing_deg
