"""Numbers into words. Forms of bearings, cables and positions: common practice, no source."""

import pytest

from core.base.units import m_from_nm, mps_from_kn
from core.geodesy.position import Position
from core.passage.passage import Side
from core.plan.plan_result import Limit
from core.words import quantities


@pytest.mark.parametrize(
    ("course_deg", "words"),
    [(7.0, "007° T"), (47.4, "047° T"), (359.6, "000° T"), (0.0, "000° T"), (360.0, "000° T")],
)
def test_courses_have_three_figures_and_wrap(course_deg: float, words: str) -> None:
    assert quantities.course(course_deg) == words


def test_tracks_keep_a_decimal_only_where_there_is_one() -> None:
    assert quantities.track(47.5) == "047.5° T"
    assert quantities.track(47.04) == "047° T"
    assert quantities.track(359.96) == "000° T"


def test_a_printed_sector_holds_the_true_one() -> None:
    assert quantities.sector(212.4, 246.2) == "212° to 247° T clockwise"
    assert quantities.sector(350.0, 359.5) == "350° to 000° T clockwise"


def test_directions_of_a_line_are_opposite() -> None:
    assert quantities.line_directions(60.0) == "060/240"
    assert quantities.line_directions(359.7) == "000/180"


def test_sides_are_spelled_out() -> None:
    assert quantities.side(Side.PORT) == "PORT"
    assert quantities.side(Side.STARBOARD) == "STARBOARD"


@pytest.mark.parametrize(
    ("range_nm", "scale_nm", "number"),
    [
        # Steps 0.01 up to 3 NM, 0.02 at 6, 0.05 at 12 and above: house rule job 1.10.10.
        (1.204, 3.0, "1.20"),
        (1.206, 1.5, "1.21"),
        (1.211, 6.0, "1.22"),
        (1.209, 6.0, "1.20"),
        (1.22, 12.0, "1.20"),
        (1.226, 24.0, "1.25"),
    ],
)
def test_index_ranges_round_to_what_the_scale_resolves(
    range_nm: float, scale_nm: float, number: str
) -> None:
    assert quantities.index_number(m_from_nm(range_nm), m_from_nm(scale_nm)) == number


def test_margins_round_to_the_side_that_warns_early() -> None:
    scale_m = m_from_nm(6.0)
    assert quantities.margin_number(m_from_nm(0.901), Limit.NOT_LESS_THAN, scale_m) == "0.92"
    assert quantities.margin_number(m_from_nm(0.919), Limit.NOT_MORE_THAN, scale_m) == "0.90"
    assert quantities.margin(m_from_nm(0.9), Limit.NOT_LESS_THAN, scale_m) == (
        "not less than 0.90 NM"
    )


def test_the_wheel_over_is_never_printed_late() -> None:
    assert quantities.distance_before_waypoint(m_from_nm(0.561)) == "0.57 NM"
    assert quantities.distance_to_wheel_over(m_from_nm(0.569)) == "0.56 NM"


def test_a_corridor_is_never_printed_wider_than_it_is() -> None:
    assert quantities.cables_number(m_from_nm(0.2)) == "2.0"
    assert quantities.cables_number(m_from_nm(0.1999)) == "1.9"


def test_uncertainty_rounds_up() -> None:
    assert quantities.uncertainty(m_from_nm(0.0601)) == "± 0.07 NM"
    assert quantities.uncertainty(m_from_nm(0.06)) == "± 0.06 NM"


def test_a_cable_is_a_tenth_of_a_mile() -> None:
    assert quantities.cables(185.2) == "1.0 cable"
    assert quantities.cables(m_from_nm(0.35)) == "3.5 cables"
    assert quantities.short_distance(m_from_nm(0.35)) == "3.5 cables"
    assert quantities.short_distance(m_from_nm(1.5)) == "1.50 NM"


def test_minutes_of_a_position_carry_into_the_degree() -> None:
    place = Position(lat_deg=-29.99999, lon_deg=-0.5)
    assert quantities.position(place) == "30° 00.00′ S 000° 30.00′ W"


def test_speed_and_rate_of_turn() -> None:
    assert quantities.speed(mps_from_kn(12.0)) == "12.0 kn"
    assert quantities.rate_of_turn(14.32) == "14°/min"
    assert quantities.rate_of_turn(7.46) == "7.5°/min"


def test_no_distance_is_minus_zero() -> None:
    assert quantities.miles(-1.0) == "0.0"


def test_horizon_coefficient_at_four_thirds_is_between_the_published_ones() -> None:
    # The trade's rounded coefficient is 2.21 to 2.23 NM per root metre (handbook 1.3).
    assert quantities.horizon_coefficient(4.0 / 3.0) == "2.23"


def test_edges_moved_by_the_tide_are_told_as_finely_as_cells_are() -> None:
    assert quantities.edge_movement(61.0) == "about 70 m"
    assert quantities.edge_movement(100.0) == "about 100 m"
    assert quantities.edge_movement(101.0) == "about 150 m"
    assert quantities.least_edge_movement(278.0) == "more than 250 m"
    assert quantities.rough_reach(270.0) == "250 m"
