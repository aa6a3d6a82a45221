"""Shadows gathered from hidden stretches made by hand; areas computed by hand."""

import numpy as np
import pytest

from core.base.units import m_from_nm
from core.coverage.coverage_result import HiddenWater
from core.coverage.shadows import land_shadows

_RAYS = 720


def hidden_water(stretches: dict[int, list[tuple[float, float]]]) -> HiddenWater:
    """Hidden water from stretches in NM by ray number."""
    counts = [len(stretches.get(ray, [])) for ray in range(_RAYS)]
    flat = [pair for ray in range(_RAYS) for pair in stretches.get(ray, [])]
    return HiddenWater(
        offsets=np.concatenate([[0], np.cumsum(counts)]).astype(np.int64),
        from_m=np.array([m_from_nm(a) for a, _b in flat], dtype=np.float32),
        to_m=np.array([m_from_nm(b) for _a, b in flat], dtype=np.float32),
    )


def test_no_hidden_water_no_shadow() -> None:
    assert land_shadows(hidden_water({})) == ()


def test_neighbouring_rays_make_one_sector() -> None:
    (shadow,) = land_shadows(hidden_water({ray: [(3.0, 5.0)] for ray in range(100, 121)}))
    # rays 100 to 120 are 50 to 60 deg, and half a ray more each side
    assert shadow.bearing_from_deg == pytest.approx(49.75)
    assert shadow.bearing_to_deg == pytest.approx(60.25)
    assert shadow.range_from_m == pytest.approx(m_from_nm(3.0))
    assert shadow.range_to_m == pytest.approx(m_from_nm(5.0))


def test_sector_across_north_stays_one() -> None:
    (shadow,) = land_shadows(hidden_water({ray % _RAYS: [(2.0, 6.0)] for ray in range(710, 731)}))
    assert shadow.bearing_from_deg == pytest.approx(354.75)
    assert shadow.bearing_to_deg == pytest.approx(5.25)


def test_shadow_all_round_is_one_sector() -> None:
    (shadow,) = land_shadows(hidden_water({ray: [(1.0, 6.0)] for ray in range(_RAYS)}))
    assert (shadow.bearing_from_deg, shadow.bearing_to_deg) == (0.0, 359.5)


def test_stretches_that_do_not_overlap_stay_apart() -> None:
    rays = {ray: [(2.0, 3.0), (5.0, 7.0)] for ray in range(100, 121)}
    near, far = land_shadows(hidden_water(rays))
    assert near.range_to_m == pytest.approx(m_from_nm(3.0))
    assert far.range_from_m == pytest.approx(m_from_nm(5.0))


def test_jump_of_the_near_edge_begins_other_land() -> None:
    rays = {ray: [(2.0, 9.0)] for ray in range(100, 121)}
    rays |= {ray: [(6.0, 9.0)] for ray in range(121, 141)}
    left, right = land_shadows(hidden_water(rays))
    assert left.bearing_to_deg == right.bearing_from_deg == pytest.approx(60.25)
    assert right.range_from_m == pytest.approx(m_from_nm(6.0))


def test_sloping_coast_stays_one_shadow() -> None:
    rays = {100 + i: [(2.0 + 0.2 * i, 12.0)] for i in range(40)}
    assert len(land_shadows(hidden_water(rays))) == 1


def test_slivers_are_dropped() -> None:
    # 3 rays (1.5 deg) from 2.0 to 2.5 NM: (6.25 - 4) * pi * 3 / 720 = 0.029 square NM
    assert land_shadows(hidden_water({ray: [(2.0, 2.5)] for ray in range(100, 103)})) == ()
    # the same rays out to 5 NM: (25 - 4) * pi * 3 / 720 = 0.27 square NM
    assert len(land_shadows(hidden_water({ray: [(2.0, 5.0)] for ray in range(100, 103)}))) == 1
    # one ray alone, however long
    assert land_shadows(hidden_water({100: [(2.0, 20.0)]})) == ()
