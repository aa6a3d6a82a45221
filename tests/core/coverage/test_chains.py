"""Sectors followed from viewpoint to viewpoint; all sectors made by hand."""

import pytest

from core.coverage.chains import Patch, follow, sector_of, stretch


def _patch(from_deg: float, to_deg: float, near_m: float = 1000.0, far_m: float = 5000.0) -> Patch:
    return Patch(
        bearing_from_deg=from_deg, bearing_to_deg=to_deg, range_from_m=near_m, range_to_m=far_m
    )


def test_overlapping_patches_are_one_chain() -> None:
    steps = ((_patch(40, 60),), (_patch(50, 70),), (_patch(65, 80),))
    (chain,) = follow(steps)
    assert (chain.first, chain.last) == (0, 2)
    assert sector_of(chain.patches) == (40, 80)


def test_chain_ends_where_nothing_overlaps_and_another_begins() -> None:
    steps = ((_patch(40, 60),), (_patch(50, 70),), (_patch(100, 120),))
    first, second = follow(steps)
    assert (first.first, first.last) == (0, 1)
    assert (second.first, second.last) == (2, 2)


def test_same_bearing_at_other_ranges_is_other_land() -> None:
    steps = ((_patch(40, 60, 1000, 2000),), (_patch(40, 60, 3000, 5000),))
    assert len(follow(steps)) == 2


def test_the_greater_overlap_wins_and_each_patch_is_used_once() -> None:
    steps = ((_patch(40, 60), _patch(55, 90)), (_patch(50, 88),))
    first, second = follow(steps)
    assert first.last == 0
    assert second.last == 1
    assert second.patches[0].bearing_from_deg == 55


def test_patches_across_north_overlap() -> None:
    (chain,) = follow(((_patch(350, 5),), (_patch(2, 20),), (_patch(355, 10),)))
    assert len(chain.patches) == 3
    assert sector_of(chain.patches) == (350, 20)


def test_patch_all_round_overlaps_everything() -> None:
    (chain,) = follow(((_patch(0, 359.9),), (_patch(200, 220),)))
    assert chain.last == 1
    assert sector_of(chain.patches) == (0.0, 359.9)


def test_slack_bridges_a_narrow_sector_that_turns() -> None:
    steps = ((_patch(1.75, 2.75),), (_patch(0.25, 1.25),), (_patch(358.75, 359.75),))
    assert len(follow(steps)) == 3
    (chain,) = follow(steps, slack_deg=3.0)
    assert sector_of(chain.patches) == (358.75, 2.75)


def test_sector_that_goes_round_is_capped() -> None:
    patches = tuple(_patch(a % 360, (a + 60) % 360) for a in range(0, 400, 40))
    assert sector_of(patches) == (0.0, 359.9)


@pytest.mark.parametrize(
    ("first", "last", "expected"),
    [(0, 2, (0.0, 1000.0)), (0, 0, (0.0, 200.0)), (1, 1, (200.0, 700.0)), (2, 2, (700.0, 1000.0))],
)
def test_stretch_reaches_half_way_to_the_neighbours(
    first: int, last: int, expected: tuple[float, float]
) -> None:
    assert stretch([0.0, 400.0, 1000.0], first, last, 1000.0) == expected
