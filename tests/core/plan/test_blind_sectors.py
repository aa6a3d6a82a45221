"""Blind sectors against index objects. Answers by hand; ships and places are invented."""

import math

import pytest

from core.base.units import mps_from_kn
from core.passage.motion import still_water
from core.plan.blind_sectors import (
    CourseSector,
    blind_spans,
    blinded,
    is_blind,
    sectors_about_course,
)
from core.ship.ship import BlindSector
from tests.helpers.islands import NM

ALL = ((-50.0 * NM, 50.0 * NM),)


STILL = still_water(mps_from_kn(12.0))


def sector(from_deg: float, to_deg: float, *, is_shadow: bool = False) -> CourseSector:
    """A sector of a ship that heads along her course."""
    own = BlindSector(from_relative_deg=from_deg, to_relative_deg=to_deg, is_shadow=is_shadow)
    return sectors_about_course((own,), STILL)[0]


def spans_nm(cross_nm: float, *sectors: CourseSector) -> list[tuple[float, float]]:
    """Stretches in miles after the object comes abeam."""
    found = blind_spans(along_m=0.0, cross_m=cross_nm * NM, sectors=sectors, within=ALL)
    return [(s.from_along_m / NM, s.to_along_m / NM) for s in found]


def test_t14_an_object_two_miles_to_port_and_a_sector_abaft_the_beam() -> None:
    # T14, by hand: tan 82 and 75 deg give 0.28 and 0.54 NM after abeam; 0.25 NM is 1.3 min.
    ((start, stop),) = spans_nm(-2.0, sector(255.0, 262.0))
    assert start == pytest.approx(0.28, abs=5e-3)
    assert stop == pytest.approx(0.54, abs=5e-3)
    assert (stop - start) / 12.0 * 60.0 == pytest.approx(1.3, abs=0.05)


def test_the_sector_of_one_side_does_not_hide_the_other() -> None:
    assert spans_nm(2.0, sector(255.0, 262.0)) == []
    ((start, stop),) = spans_nm(2.0, sector(98.0, 105.0))
    assert (start, stop) == pytest.approx((2.0 / math.tan(math.radians(82.0)), 0.536), abs=1e-3)


def test_a_sector_over_the_bow_hides_both_sides_far_ahead() -> None:
    # 3 deg off the bow at 1 NM off: from 1 / tan 3 = 19.08 NM ahead outwards.
    for cross in (1.0, -1.0):
        ((start, stop),) = spans_nm(cross, sector(357.0, 3.0))
        assert start == pytest.approx(-50.0)
        assert stop == pytest.approx(-19.08, abs=0.01)


def test_a_sector_astern_hides_what_has_been_passed() -> None:
    ((start, stop),) = spans_nm(1.0, sector(172.0, 188.0))
    assert start == pytest.approx(1.0 / math.tan(math.radians(8.0)))
    assert stop == pytest.approx(50.0)


def test_the_spans_agree_with_the_relative_bearing_place_by_place() -> None:
    sectors = (sector(255.0, 262.0), sector(357.0, 3.0), sector(172.0, 177.0))
    for cross in (-2.0, -0.4, 0.4, 2.0):
        hidden = spans_nm(cross, *sectors)
        for step in range(-400, 401):
            along = step / 13.0
            inside = any(a <= along <= b for a, b in hidden)
            assert inside == is_blind(ahead_m=-along, cross_m=cross, sectors=sectors)


def test_a_shadow_sector_is_told_but_does_not_blind() -> None:
    one = sector(255.0, 262.0, is_shadow=True)
    found = blind_spans(along_m=0.0, cross_m=-NM, sectors=(one,), within=ALL)
    assert len(found) == 1
    assert blinded(found) == ()
    assert not is_blind(ahead_m=-0.2 * NM, cross_m=-NM, sectors=(one,))
