"""Half beam and swept width. Answers by hand from plane geometry; ships are invented."""

import math
from dataclasses import replace

import pytest

from core.ship.hull_reach import ReferenceKind, hull_reach, reference_of
from core.ship.ship import ShipPoint
from core.words.reference_words import reference_words
from tests.helpers.plans import SHIP

AFT = replace(SHIP, reference=ShipPoint(from_stern_m=20.0))
"""120 m long, 20 m wide; the bow 100 m ahead of the point, the stern 20 m abaft."""


def test_without_drift_it_is_half_the_beam() -> None:
    reach = hull_reach(AFT, least_off_deg=0.0, most_off_deg=0.0)
    assert (reach.port_m, reach.starboard_m) == (10.0, 10.0)


def test_a_drift_angle_carries_the_bow_out() -> None:
    # Heading 10 deg to port: port bow 100 sin 10 + 10 cos 10 = 27.21 m to port; starboard quarter
    # 20 sin 10 + 10 cos 10 = 13.32 m to starboard.
    reach = hull_reach(AFT, least_off_deg=-10.0, most_off_deg=-10.0)
    sine, cosine = math.sin(math.radians(10.0)), math.cos(math.radians(10.0))
    assert (
        reach.port_m
        == pytest.approx(100.0 * sine + 10.0 * cosine)
        == pytest.approx(27.21, abs=5e-3)
    )
    assert reach.starboard_m == pytest.approx(20.0 * sine + 10.0 * cosine)
    assert reach.towards_m(is_starboard=False) == reach.port_m


def test_of_two_headings_the_worst_counts_on_each_side() -> None:
    both = hull_reach(AFT, least_off_deg=-10.0, most_off_deg=4.0)
    assert both.port_m == hull_reach(AFT, least_off_deg=-10.0, most_off_deg=-10.0).port_m
    assert both.starboard_m == hull_reach(AFT, least_off_deg=4.0, most_off_deg=4.0).starboard_m


def test_no_heading_between_is_worse() -> None:
    widest = hull_reach(AFT, least_off_deg=-12.0, most_off_deg=9.0)
    for tenths in range(-120, 91):
        one = hull_reach(AFT, least_off_deg=tenths / 10.0, most_off_deg=tenths / 10.0)
        assert one.port_m <= widest.port_m + 1e-9
        assert one.starboard_m <= widest.starboard_m + 1e-9


def test_a_point_off_the_centre_line_shifts_both_sides() -> None:
    ship = replace(SHIP, reference=ShipPoint(from_stern_m=20.0, to_starboard_m=3.0))
    reach = hull_reach(ship, least_off_deg=0.0, most_off_deg=0.0)
    assert (reach.port_m, reach.starboard_m) == (13.0, 7.0)


def test_the_antenna_stands_in_for_a_reference_point_and_the_sheet_says_so() -> None:
    radar = replace(SHIP.radars[0], antenna_from_stern_m=30.0)
    mast = replace(SHIP, radars=(radar,))
    assert reference_of(mast).kind is ReferenceKind.ANTENNA
    assert reference_words(mast) == "Ranges from the main antenna, 90 m abaft the bow"
    assert reference_words(AFT) == "Ranges from the radar's reference point, 100 m abaft the bow"
    assert reference_words(SHIP) == (
        "Ranges from amidships, as no reference point is stated, 60 m abaft the bow"
    )
