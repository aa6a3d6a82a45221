"""Scales and radar fixes in words."""

from core.base.units import m_from_nm, mps_from_kn
from core.plan.scale_result import ScaleReach, ScanRhythm
from core.words.fix_words import leg_words, measure_words, quality_words
from core.words.scale_words import hides_words, scan_sum_words, scan_words
from tests.helpers.sample_fixes import fixes_over

FIXING = fixes_over(10_000.0, 370.4)
NONE, _SECOND, BEARING, THREE, TWO = FIXING.fixes


def test_what_to_measure_names_ranges_and_bearings_to_know_them_by() -> None:
    assert measure_words(TWO) == "ranges A 1.23 (040°), B 2.50 (130°)"
    assert measure_words(THREE) == "ranges A 1.23 (040°), B 2.50 (130°), C 11.0 (200°)"
    assert measure_words(BEARING) == "range and bearing A 1.23 NM 040° T, on the 6 NM scale"
    assert measure_words(NONE) == "no radar fix"


def test_errors_are_rounded_up_and_wide_ones_said_loudly() -> None:
    assert quality_words(TWO, FIXING.corridor_m) == "cut 90°, ± 0.12 NM"
    assert "WIDER THAN THE CORRIDOR" in quality_words(THREE, FIXING.corridor_m)
    assert quality_words(BEARING, FIXING.corridor_m).endswith("A alone can be ranged here")
    assert leg_words(FIXING) == "Radar fix at 3 of 5, ± 0.40 NM, WIDE"


def test_what_a_scale_hides_is_rounded_down() -> None:
    # T19 by hand: 6 NM at 32 kn is 11.25 min.
    reach = ScaleReach(
        ahead_m=m_from_nm(6.0),
        abeam_m=m_from_nm(6.0),
        astern_m=m_from_nm(6.0),
        closing_mps=mps_from_kn(32.0),
    )
    assert hides_words(reach) == "hides all beyond 6.0 NM = 11.2 min at 32.0 kn"


def test_the_scan_shows_its_arithmetic() -> None:
    scan = ScanRhythm(
        scale_m=m_from_nm(12.0),
        every_minutes=6.0,
        for_minutes=1.0,
        spare_m=m_from_nm(5.4),
        closing_mps=mps_from_kn(27.0),
    )
    assert scan_words(scan) == "12 NM for 1 min every 6 min"
    assert scan_sum_words(scan) == "6 min x 27.0 kn closing = 2.7 NM, to spare 5.4 NM"
