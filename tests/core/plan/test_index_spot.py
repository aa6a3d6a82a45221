"""Where ranges add up to a known distance; figures computed by hand unless said."""

import math

import pytest

from core.base.units import nm_from_m
from core.plan.index_spot import early_late_m, index_spot, range_index_error_m
from tests.helpers.islands import NM
from tests.helpers.place_reader import Thing, reader_of

PLACES = [n * 0.5 * NM for n in range(21)]


def test_t21_half_of_what_the_sum_is_over() -> None:
    # T21, computed by hand: marks 1.60 NM apart, ranges 0.85 and 0.83: +0.04 NM, reads long.
    error = range_index_error_m(0.85 * NM, 0.83 * NM, apart_m=1.60 * NM)
    assert nm_from_m(error) == pytest.approx(0.04)
    assert range_index_error_m(0.78 * NM, 0.80 * NM, apart_m=1.60 * NM) < 0.0


def test_the_spot_is_where_the_track_crosses_the_joining_line() -> None:
    # From 2 NM along, 0.8 to port, to 4 NM along, 0.8 to starboard: crossed half-way, at 3 NM.
    read = reader_of(
        Thing(name="P", along_nm=2.0, cross_nm=-0.8), Thing(name="S", along_nm=4.0, cross_nm=0.8)
    )
    spot = index_spot(read, PLACES, from_m=0.0, to_m=10.0 * NM, known_error_m=0.0)
    assert spot is not None
    assert (spot.port_id, spot.starboard_id) == ("P", "S")
    assert nm_from_m(spot.along_m) == pytest.approx(3.0, abs=1e-3)
    assert nm_from_m(spot.apart_m) == pytest.approx(math.hypot(2.0, 1.6))
    found = range_index_error_m(spot.port_range_m, spot.starboard_range_m, apart_m=spot.apart_m)
    assert found == pytest.approx(0.0, abs=1.0)
    assert (spot.starboard_bearing_deg - spot.port_bearing_deg) % 360.0 == pytest.approx(
        180.0, abs=0.2
    )
    # 28 m each, independent, and half of their sum.
    assert spot.uncertainty_m == pytest.approx(28.0 * math.sqrt(2.0) / 2.0)


def test_a_ship_off_her_track_reads_the_same_sum() -> None:
    # The point of the method: on the joining line the sum is the distance wherever she crosses.
    for off_nm in (-0.3, 0.0, 0.4):
        found = range_index_error_m((0.8 + off_nm) * NM, (1.1 - off_nm) * NM, apart_m=1.9 * NM)
        assert found == pytest.approx(0.0, abs=1e-6)


def test_read_early_or_late_the_sum_is_over_by_no_more_than_said() -> None:
    late_m = early_late_m(0.8 * NM, 1.1 * NM, cut_deg=60.0, wrong_by_m=18.52)
    ahead_m, off_m = late_m * math.cos(math.radians(60.0)), late_m * math.sin(math.radians(60.0))
    total = math.hypot(0.8 * NM - ahead_m, off_m) + math.hypot(1.1 * NM + ahead_m, off_m)
    error = range_index_error_m(total / 2.0, total / 2.0, apart_m=1.9 * NM)
    assert error == pytest.approx(18.52, rel=0.15)


def test_steady_objects_go_before_those_the_tide_moves() -> None:
    read = reader_of(
        Thing(name="P", along_nm=2.0, cross_nm=-0.8),
        Thing(name="beach", along_nm=2.0, cross_nm=0.9, fixed_error_m=120.0),
        Thing(name="S", along_nm=5.0, cross_nm=2.0),
    )
    spot = index_spot(read, PLACES, from_m=0.0, to_m=10.0 * NM, known_error_m=0.0)
    assert spot is not None
    assert spot.starboard_id == "S"


@pytest.mark.parametrize(
    "things",
    [
        # Both on one side; crossed too finely; crossed before the ship is steady.
        (Thing(name="A", along_nm=4.0, cross_nm=1.0), Thing(name="B", along_nm=6.0, cross_nm=2.0)),
        (Thing(name="A", along_nm=3.0, cross_nm=-0.5), Thing(name="B", along_nm=7.0, cross_nm=0.5)),
        (Thing(name="A", along_nm=0.5, cross_nm=-1.0), Thing(name="B", along_nm=0.5, cross_nm=1.0)),
    ],
)
def test_no_spot_without_a_line_to_cross(things: tuple[Thing, ...]) -> None:
    spot = index_spot(
        reader_of(*things), PLACES, from_m=1.0 * NM, to_m=10.0 * NM, known_error_m=0.0
    )
    assert spot is None


def test_no_spot_where_one_of_the_two_does_not_paint() -> None:
    read = reader_of(
        Thing(name="P", along_nm=4.0, cross_nm=-0.8, hidden_nm=(3.5, 4.5)),
        Thing(name="S", along_nm=4.0, cross_nm=0.8),
    )
    assert index_spot(read, PLACES, from_m=0.0, to_m=10.0 * NM, known_error_m=0.0) is None
