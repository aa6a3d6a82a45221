"""What forces a scale, what it hides, and how often to look beyond it."""

import pytest

from core.base.units import mps_from_kn, nm_from_m
from core.plan import reason_codes
from core.plan.scale_demands import (
    Demand,
    HeldObject,
    look_out_demand,
    screens_of,
    shortest_holding,
    without_each,
)
from core.plan.scale_result import ScanRhythm
from core.plan.scale_stretches import bottleneck
from core.plan.scan_rhythm import reach_of, scan_rhythm
from core.plan.screen import Screen
from core.ship.ship import STANDARD_RANGE_SCALES_M
from tests.helpers.islands import NM

CENTRED = screens_of(STANDARD_RANGE_SCALES_M, off_centre_ratio=0.0, margin_ratio=0.0)
BOTH = screens_of(STANDARD_RANGE_SCALES_M, off_centre_ratio=0.5, margin_ratio=0.0)
T19 = look_out_demand(
    own_speed_mps=mps_from_kn(16.0), least_other_speed_mps=0.0, decision_time_s=900.0
)


def thing(name: str, ahead_nm: float, cross_nm: float) -> Demand:
    return Demand(
        code=reason_codes.SCALE_FORCED_BY_OBJECT,
        object_id=name,
        places_m=((ahead_nm * NM, cross_nm * NM),),
    )


def test_t19_the_look_out_distance_needs_the_centred_12_mile_scale() -> None:
    # T19, computed by hand: 32 kn for 15 min is 8.0 NM.
    assert nm_from_m(T19.range_m) == pytest.approx(8.0)
    screen = shortest_holding([T19], CENTRED)
    assert screen is not None
    assert nm_from_m(screen.scale_m) == pytest.approx(12.0)


@pytest.mark.parametrize("off_centre", [0.5, 0.75])
def test_t19_a_craft_as_fast_as_own_ship_needs_no_room_abeam_or_astern(off_centre: float) -> None:
    # T19, computed by hand: off-centred the 6 NM scale shows 9.0 or 10.5 NM ahead, 5.2 or 4.0
    # abeam, 3.0 or 1.5 astern. At the same speed on both sides nothing closes from abaft.
    screen = Screen(scale_m=6.0 * NM, off_centre_ratio=off_centre, margin_ratio=0.0)
    assert T19.is_held(screen)
    # 8.0 NM all round, as if closing speed were the same from everywhere, is not held.
    around = [thing("", 8.0, 0.0), thing("", 0.0, 8.0), thing("", -8.0, 0.0)]
    assert [one.is_held(screen) for one in around] == [True, False, False]


def test_b21_what_a_scale_hides() -> None:
    # T19, computed by hand: a centred 6 NM scale shows 11.25 min at 32 kn.
    screen = Screen(scale_m=6.0 * NM, margin_ratio=0.1)
    reach = reach_of(screen, closing_mps=mps_from_kn(32.0))
    assert nm_from_m(reach.ahead_m) == pytest.approx(6.0)
    assert reach.minutes == pytest.approx(11.25)


@pytest.mark.parametrize(
    ("off_centre", "ahead", "abeam", "astern"), [(0.5, 9.0, 5.2, 3.0), (0.75, 10.5, 4.0, 1.5)]
)
def test_b21_what_an_off_centred_scale_hides(
    off_centre: float, ahead: float, abeam: float, astern: float
) -> None:
    # T19, computed by hand.
    screen = Screen(scale_m=6.0 * NM, off_centre_ratio=off_centre)
    reach = reach_of(screen, closing_mps=mps_from_kn(32.0))
    found = [nm_from_m(m) for m in (reach.ahead_m, reach.abeam_m, reach.astern_m)]
    assert found == pytest.approx([ahead, abeam, astern], abs=0.05)


def test_off_centring_lets_a_shorter_scale_hold_what_lies_ahead() -> None:
    screen = shortest_holding([thing("A", 4.0, 1.0)], BOTH)
    assert screen is not None
    assert (round(nm_from_m(screen.scale_m), 6), screen.off_centre_ratio) == (3.0, 0.5)
    abeam = shortest_holding([thing("A", 0.0, 4.0)], BOTH)
    assert abeam is not None
    assert (round(nm_from_m(abeam.scale_m), 6), abeam.off_centre_ratio) == (6.0, 0.0)


def test_c16_removing_the_named_item_lowers_the_scale() -> None:
    near, far = thing("near", 1.0, 1.0), thing("far", 0.0, 2.8)
    ((item, without),) = without_each([near, far], CENTRED)
    assert item is far
    assert nm_from_m(without.scale_m) == pytest.approx(1.5)
    assert shortest_holding([near], CENTRED) == without


def test_c16_two_items_that_each_need_the_scale_are_both_named() -> None:
    # As on the worked leg (job.md 14.7): an object at 2.77 NM and a look-out distance of 2.7.
    look_out = look_out_demand(
        own_speed_mps=mps_from_kn(12.0),
        least_other_speed_mps=mps_from_kn(15.0),
        decision_time_s=360.0,
    )
    demands = (look_out, thing("A", 2.5, 1.2))
    assert without_each(demands, CENTRED) == ()
    used = Screen(scale_m=3.0 * NM, margin_ratio=0.0)
    reason = bottleneck(demands, CENTRED, used)
    assert reason is not None
    assert reason.code == reason_codes.SCALE_NEEDED_BY_BOTH
    assert dict(reason.values) == {"item": "the look-out distance", "other": "A"}


def test_c16_a_scale_that_nothing_needs_is_said_to_be_carried_on() -> None:
    used = Screen(scale_m=12.0 * NM, margin_ratio=0.0)
    reason = bottleneck((thing("A", 2.5, 1.2),), CENTRED, used)
    assert reason is not None
    assert reason.code == reason_codes.SCALE_CARRIED_ON
    assert dict(reason.values)["needed_scale_m"] == pytest.approx(3.0 * NM)


def test_a_passing_object_is_held_from_its_first_to_its_last_place() -> None:
    held = HeldObject(
        code=reason_codes.SCALE_FORCED_BY_OBJECT,
        object_id="A",
        along_m=5.0 * NM,
        cross_m=1.0 * NM,
        window=(3.0 * NM, 8.0 * NM),
    )
    whole = held.demand((0.0, 10.0 * NM))
    assert whole is not None
    assert whole.range_m == pytest.approx((3.0**2 + 1.0) ** 0.5 * NM)
    assert held.demand((8.5 * NM, 10.0 * NM)) is None


def rhythm(scale_nm: float, closing_kn: float, *, decision_min: float = 6.0) -> ScanRhythm | None:
    return scan_rhythm(
        Screen(scale_m=scale_nm * NM, margin_ratio=0.0),
        [m for m in STANDARD_RANGE_SCALES_M if m > scale_nm * NM + 1.0],
        closing_mps=mps_from_kn(closing_kn),
        most_minutes=decision_min,
        least_minutes=2.0,
        for_minutes=1.0,
    )


def test_c18_twelve_miles_for_a_minute_every_six_from_the_six_mile_scale() -> None:
    # job.md 3.8 and 14.7 (common practice, no source): 6 NM, scan 12 each 6 min at 27 kn. By
    # hand: 6 min at 27 kn is 2.7 NM, to spare are 12 - 6 = 6 NM.
    scan = rhythm(6.0, 27.0)
    assert scan is not None
    assert nm_from_m(scan.scale_m) == pytest.approx(12.0)
    assert (scan.every_minutes, scan.for_minutes) == (6.0, 1.0)
    assert nm_from_m(scan.run_m) == pytest.approx(2.7)
    assert nm_from_m(scan.spare_m) == pytest.approx(6.0)


@pytest.mark.parametrize("scale_nm", [0.75, 1.5, 3.0, 6.0, 12.0])
@pytest.mark.parametrize("closing_kn", [10.0, 27.0, 60.0])
def test_c18_a_craft_never_runs_more_than_there_is_to_spare(
    scale_nm: float, closing_kn: float
) -> None:
    scan = rhythm(scale_nm, closing_kn, decision_min=15.0)
    assert scan is not None
    assert scan.run_m <= scan.spare_m + 1e-6
    assert scan.every_minutes * mps_from_kn(closing_kn) * 60.0 == pytest.approx(scan.run_m)


def test_c18_no_rhythm_beyond_the_longest_scale() -> None:
    assert rhythm(24.0, 27.0) is None
