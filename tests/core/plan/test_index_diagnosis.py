"""What readings off the plan have in common; T23 is computed by hand (job.md section 11)."""

import math

import pytest

from core.base.units import m_from_nm, nm_from_m
from core.passage.passage import Side
from core.plan.heading_spot import shift_m
from core.plan.index_diagnosis import IndexReading, all_agree, diagnose, effect
from core.plan.leg_check_result import Cause
from tests.helpers.islands import NM

TOLERANCE_M = 0.01 * NM


def reading(side: Side, cross_nm: float, ahead_nm: float, off_nm: float) -> IndexReading:
    return IndexReading(
        side=side,
        cross_index_range_m=cross_nm * NM,
        ahead_m=ahead_nm * NM,
        read_m=(cross_nm + off_nm) * NM,
    )


def test_t23_both_sides_long_is_a_range_index_error() -> None:
    (found,) = diagnose(
        [reading(Side.PORT, 0.9, 0.0, 0.05), reading(Side.STARBOARD, 1.2, 0.0, 0.05)],
        tolerance_m=TOLERANCE_M,
    )
    assert found.cause is Cause.RANGE_INDEX
    assert nm_from_m(found.size_m) == pytest.approx(0.05)


def test_t23_port_long_and_starboard_short_is_a_ship_to_starboard() -> None:
    (found,) = diagnose(
        [reading(Side.PORT, 0.9, 0.0, 0.05), reading(Side.STARBOARD, 1.2, 0.0, -0.05)],
        tolerance_m=TOLERANCE_M,
    )
    assert found.cause is Cause.OFF_TRACK
    assert nm_from_m(found.size_m) == pytest.approx(0.05)


def test_t23_an_offset_that_grows_ahead_and_vanishes_abeam_is_the_heading_line() -> None:
    # 1 deg = 0.07 NM at 4 NM.
    offs = [
        (ahead, nm_from_m(shift_m(along_m=ahead * NM, error_deg=1.0))) for ahead in (4.0, 2.0, 0.0)
    ]
    assert offs[0][1] == pytest.approx(0.07, abs=5e-4)
    (found,) = diagnose(
        [reading(Side.STARBOARD, 1.2, ahead, off) for ahead, off in offs], tolerance_m=TOLERANCE_M
    )
    assert found.cause is Cause.HEADING_LINE
    assert found.size_deg == pytest.approx(1.0, abs=0.01)


def test_t23_agreement_and_no_single_cause() -> None:
    alike = [reading(Side.PORT, 0.9, 0.0, 0.005), reading(Side.STARBOARD, 1.2, 0.0, -0.005)]
    assert all_agree(alike, tolerance_m=TOLERANCE_M)
    assert diagnose(alike, tolerance_m=TOLERANCE_M) == ()
    mixed = [
        reading(Side.PORT, 0.9, 0.0, 0.10),
        reading(Side.STARBOARD, 1.2, 0.0, 0.02),
        reading(Side.STARBOARD, 0.5, 2.0, -0.12),
    ]
    assert not all_agree(mixed, tolerance_m=TOLERANCE_M)
    assert diagnose(mixed, tolerance_m=TOLERANCE_M) == ()


def test_abeam_on_one_side_range_error_and_off_track_look_alike() -> None:
    found = diagnose(
        [reading(Side.PORT, 0.9, 0.0, 0.05), reading(Side.PORT, 1.5, 0.0, 0.05)],
        tolerance_m=TOLERANCE_M,
    )
    assert {one.cause for one in found} == {Cause.RANGE_INDEX, Cause.OFF_TRACK}


@pytest.mark.parametrize(
    ("side", "ahead_nm"),
    [(side, ahead) for side in (Side.PORT, Side.STARBOARD) for ahead in (3.0, 0.0, -2.0)],
)
def test_effects_are_those_of_plain_geometry(side: Side, ahead_nm: float) -> None:
    # Worked out anew: move the ship, lengthen the range, turn the bearing; then read the distance.
    cross_m, ahead_m = 1.2 * NM, ahead_nm * NM
    sign = 1.0 if side is Side.STARBOARD else -1.0
    range_m, angle = math.hypot(ahead_m, cross_m), math.atan2(sign * cross_m, ahead_m)
    small_m, small_deg = m_from_nm(0.01), 0.1
    off = {
        Cause.OFF_TRACK: sign * (sign * cross_m - small_m) - cross_m,
        Cause.RANGE_INDEX: sign * (range_m + small_m) * math.sin(angle) - cross_m,
        Cause.HEADING_LINE: sign * range_m * math.sin(angle + math.radians(small_deg)) - cross_m,
    }
    units = {Cause.OFF_TRACK: small_m, Cause.RANGE_INDEX: small_m, Cause.HEADING_LINE: small_deg}
    for cause, expected in off.items():
        found = effect(cause, side=side, cross_m=cross_m, ahead_m=ahead_m) * units[cause]
        assert found == pytest.approx(expected, abs=0.01), cause
