"""Land shadows: hidden stretches of neighbouring rays gathered into sectors."""

import numpy as np

from core.base.arrays import FloatArray, IntArray
from core.base.compiled import kernel
from core.base.units import m_from_nm
from core.coverage.coverage_result import HiddenWater, LandShadow

_LEAST_AREA_M2 = m_from_nm(1.0) ** 2 / 10.0
_NEAR_M = m_from_nm(3.0)
_LEAST_RAYS = 2
_NEAR_EDGE_STEP_M = m_from_nm(0.25)
_NEAR_EDGE_RATIO = 1.25


def land_shadows(hidden: HiddenWater) -> tuple[LandShadow, ...]:
    """Gather hidden water into land shadows.

    Stretches of neighbouring rays belong together where they overlap in range and their near
    edges lie within 0.25 NM or a quarter of the range of each other: a farther jump of the near
    edge means other land. Slivers are dropped (they stay in ``hidden``): shadows on a single
    ray, and those of less than 0.1 square nautical miles; where the near edge lies beyond 3 NM
    this grows with the square of its range, up to 1.6 square nautical miles at 12 NM.

    Parameters
    ----------
    hidden : HiddenWater
        Hidden stretches ray by ray.

    Returns
    -------
    tuple of LandShadow
        In order of bearing, then range; a shadow all round is given as 0 to 359.5 deg (720 rays).
    """
    count = hidden.from_m.size
    if count == 0:
        return ()
    rays = hidden.offsets.size - 1
    from_m, to_m = hidden.from_m.astype(np.float64), hidden.to_m.astype(np.float64)
    group = np.arange(count, dtype=np.int64)
    _join(hidden.offsets, from_m, to_m, group)
    ray_of = np.repeat(np.arange(rays), np.diff(hidden.offsets))
    area_m2 = (to_m**2 - from_m**2) * np.pi / rays
    shadows = []
    by_group = np.argsort(group, kind="stable")
    starts = np.flatnonzero(np.r_[True, np.diff(group[by_group]) != 0])
    for members in np.split(by_group, starts[1:]):
        held = np.unique(ray_of[members])
        near_m = float(from_m[members].min())
        least_m2 = _LEAST_AREA_M2 * max(near_m / _NEAR_M, 1.0) ** 2
        if held.size < _LEAST_RAYS or float(area_m2[members].sum()) < least_m2:
            continue
        from_deg, to_deg = _sector(held, rays)
        shadows.append(
            LandShadow(
                bearing_from_deg=from_deg,
                bearing_to_deg=to_deg,
                range_from_m=near_m,
                range_to_m=float(to_m[members].max()),
            )
        )
    return tuple(sorted(shadows, key=lambda s: (s.bearing_from_deg, s.range_from_m)))


def _sector(held: IntArray, rays: int) -> tuple[float, float]:
    """Sector of a run of rays that may pass north; a ray stands for half a step each side."""
    step_deg = 360.0 / rays
    if held.size >= rays - 1:
        return 0.0, 360.0 - step_deg
    gaps = np.diff(np.r_[held, held[0] + rays])
    widest = int(np.argmax(gaps))
    first, last = float(held[(widest + 1) % held.size]), float(held[widest])
    return ((first - 0.5) * step_deg) % 360.0, ((last + 0.5) * step_deg) % 360.0


@kernel
def _join(offsets: IntArray, from_m: FloatArray, to_m: FloatArray, group: IntArray) -> None:
    """Give overlapping stretches of neighbouring rays the same number, union by union."""
    rays = offsets.size - 1
    for ray in range(rays):
        after = (ray + 1) % rays
        for i in range(offsets[ray], offsets[ray + 1]):
            for j in range(offsets[after], offsets[after + 1]):
                if from_m[i] > to_m[j] or from_m[j] > to_m[i]:
                    continue
                near, far = min(from_m[i], from_m[j]), max(from_m[i], from_m[j])
                if far - near > _NEAR_EDGE_STEP_M and far > near * _NEAR_EDGE_RATIO:
                    continue
                a, b = i, j
                while group[a] != a:
                    group[a] = group[group[a]]
                    a = group[a]
                while group[b] != b:
                    group[b] = group[group[b]]
                    b = group[b]
                if a < b:
                    group[b] = a
                else:
                    group[a] = b
    for i in range(group.size):
        root = i
        while group[root] != root:
            root = group[root]
        group[i] = root
