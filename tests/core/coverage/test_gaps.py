"""Gaps gathered from unknown heights made by hand."""

import numpy as np
import pytest

from core.base.arrays import Float32Array
from core.coverage.coverage_result import Cause, Effect
from core.coverage.gaps import gap_patches, gaps_along, is_complete
from tests.helpers.islands import NM

_COLUMN = {Cause.VOID: 0, Cause.MISSING: 1, Cause.BEYOND_DATA: 2}


def _unknown(*sectors: tuple[Cause, int, int, float]) -> Float32Array:
    """First unknown ranges from sectors: cause, first ray, last ray, range in NM."""
    table = np.full((720, 3), np.inf, dtype=np.float32)
    for cause, first, last, range_nm in sectors:
        for ray in range(first, last + 1):
            table[ray % 720, _COLUMN[cause]] = range_nm * NM
    return table


def test_nothing_unknown_is_no_gap() -> None:
    assert gap_patches(_unknown()) == ()
    assert is_complete(())


def test_sector_has_its_nearest_range_and_half_a_ray_each_side() -> None:
    (gap,) = gap_patches(_unknown((Cause.VOID, 100, 120, 5.0), (Cause.VOID, 110, 110, 4.0)))
    assert gap.cause is Cause.VOID
    assert gap.patch.bearing_from_deg == pytest.approx(49.75)
    assert gap.patch.bearing_to_deg == pytest.approx(60.25)
    assert gap.patch.range_from_m == pytest.approx(4.0 * NM)


def test_near_sectors_are_told_as_one_and_far_ones_apart() -> None:
    # rays 100-110 and 118-130 are 4 deg apart, 150-160 is 10 deg farther
    table = _unknown(
        (Cause.VOID, 100, 110, 5.0), (Cause.VOID, 118, 130, 6.0), (Cause.VOID, 150, 160, 7.0)
    )
    first, second = sorted(gap_patches(table), key=lambda g: g.patch.bearing_from_deg)
    assert (first.patch.bearing_from_deg, first.patch.bearing_to_deg) == (49.75, 65.25)
    assert (second.patch.bearing_from_deg, second.patch.bearing_to_deg) == (74.75, 80.25)


def test_sector_across_north_and_all_round() -> None:
    (gap,) = gap_patches(_unknown((Cause.MISSING, 710, 730, 5.0)))
    assert (gap.patch.bearing_from_deg, gap.patch.bearing_to_deg) == (354.75, 5.25)
    (gap,) = gap_patches(_unknown((Cause.MISSING, 0, 719, 5.0)))
    assert (gap.patch.bearing_from_deg, gap.patch.bearing_to_deg) == (0.0, 359.9)


@pytest.mark.parametrize(
    ("cause", "range_nm", "complete"),
    [
        # definitions.md "status"
        (Cause.VOID, 23.0, False),
        (Cause.MISSING, 23.0, False),
        (Cause.BEYOND_DATA, 11.9, False),
        (Cause.BEYOND_DATA, 12.1, True),
    ],
)
def test_only_far_gaps_outside_all_data_leave_a_leg_complete(
    cause: Cause, range_nm: float, complete: bool
) -> None:
    assert is_complete(gap_patches(_unknown((cause, 10, 20, range_nm)))) is complete


def test_gaps_follow_along_the_leg() -> None:
    along_m = (0.0, 400.0, 400.0, 800.0, 1200.0)
    seen = (
        (),
        gap_patches(_unknown((Cause.VOID, 100, 120, 5.0))),
        gap_patches(_unknown((Cause.VOID, 118, 130, 4.0))),  # a corridor edge abreast
        gap_patches(_unknown((Cause.VOID, 110, 140, 4.5))),
        gap_patches(_unknown((Cause.BEYOND_DATA, 110, 140, 20.0))),
    )
    void, beyond = gaps_along(along_m, seen, 1200.0)
    assert void.cause is Cause.VOID
    assert (void.from_along_m, void.to_along_m) == (200.0, 1000.0)
    assert (void.bearing_from_deg, void.bearing_to_deg) == (49.75, 70.25)
    assert void.range_from_m == pytest.approx(4.0 * NM)
    assert beyond.cause is Cause.BEYOND_DATA
    assert (beyond.from_along_m, beyond.to_along_m) == (1000.0, 1200.0)
    assert {void.effect, beyond.effect} == {Effect.NONE}
