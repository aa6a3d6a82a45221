"""Gaps: unknown heights that nearer land does not hide, and what they do to a leg."""

from dataclasses import dataclass

import numpy as np

from core.base.arrays import Float32Array
from core.base.units import m_from_nm
from core.coverage.chains import Patch, follow, sector_of, stretch
from core.coverage.coverage_result import Cause, Effect, Gap

NEAR_M = m_from_nm(12.0)
"""Unknown heights outside the declared area make a leg incomplete up to this range."""
_CAUSES = (Cause.VOID, Cause.MISSING, Cause.BEYOND_DATA)
_BRIDGED_DEG = 5.0
"""Gaps on both sides of a smaller arc than this are told as one."""

_DRIFT_DEG = 3.0
"""A narrow gap bears this much differently from the next viewpoint and is still the same."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GapPatch:
    """Unknown heights seen from one viewpoint: a sector, and the nearest of them."""

    cause: Cause
    patch: Patch


def gap_patches(unknown_from_m: Float32Array) -> tuple[GapPatch, ...]:
    """Gather unknown heights of one viewpoint into sectors.

    Parameters
    ----------
    unknown_from_m : (720, 3) array
        ``PolarSweep.unknown_from_m``.
    """
    rays = unknown_from_m.shape[0]
    step_deg = 360.0 / rays
    found = []
    for column, cause in enumerate(_CAUSES):
        range_m = unknown_from_m[:, column]
        held = np.flatnonzero(np.isfinite(range_m))
        if held.size == 0:
            continue
        gaps = np.diff(np.r_[held, held[0] + rays]) * step_deg
        breaks = np.flatnonzero(gaps > _BRIDGED_DEG + step_deg)
        if breaks.size == 0:
            runs = [held]
            sectors = [(0.0, 359.9)]
        else:
            turned = np.roll(held, -(int(breaks[0]) + 1))
            runs = np.split(turned, (breaks[1:] - breaks[0]))
            sectors = [
                (
                    float((run[0] - 0.5) * step_deg % 360.0),
                    float((run[-1] + 0.5) * step_deg % 360.0),
                )
                for run in runs
            ]
        for run, (from_deg, to_deg) in zip(runs, sectors, strict=True):
            found.append(
                GapPatch(
                    cause=cause,
                    patch=Patch(
                        bearing_from_deg=from_deg,
                        bearing_to_deg=to_deg,
                        range_from_m=float(range_m[run].min()),
                        range_to_m=np.inf,
                    ),
                )
            )
    return tuple(found)


def is_complete(patches: tuple[GapPatch, ...]) -> bool:
    """Whether a viewpoint's gaps leave its leg complete: only far ones outside all data."""
    return all(p.cause is Cause.BEYOND_DATA and p.patch.range_from_m > NEAR_M for p in patches)


def gaps_along(
    along_m: tuple[float, ...], seen: tuple[tuple[GapPatch, ...], ...], length_m: float
) -> tuple[Gap, ...]:
    """Follow the gaps of viewpoints along a leg.

    Parameters
    ----------
    along_m : tuple of float
        Places of the viewpoints along the leg, rising; several may share a place.
    seen : tuple of tuples of GapPatch
        What each viewpoint has.
    length_m : float
        Length of the leg, m.

    Returns
    -------
    tuple of Gap
        Each from the first to the last place that has it, half a spacing more either way; the
        sector and the nearest range over that stretch. The effect is set by the plan.
    """
    places = sorted(set(along_m))
    gaps = []
    for cause in _CAUSES:
        steps = tuple(
            _together(
                [
                    g.patch
                    for at_m, patches in zip(along_m, seen, strict=True)
                    if at_m == place
                    for g in patches
                    if g.cause is cause
                ]
            )
            for place in places
        )
        for chain in follow(steps, slack_deg=_DRIFT_DEG):
            from_deg, to_deg = sector_of(chain.patches)
            from_m, to_m = stretch(places, chain.first, chain.last, length_m)
            gaps.append(
                Gap(
                    cause=cause,
                    bearing_from_deg=from_deg,
                    bearing_to_deg=to_deg,
                    range_from_m=min(p.range_from_m for p in chain.patches),
                    from_along_m=from_m,
                    to_along_m=to_m,
                    effect=Effect.NONE,
                )
            )
    return tuple(sorted(gaps, key=lambda g: (g.from_along_m, g.bearing_from_deg)))


def _together(patches: list[Patch]) -> tuple[Patch, ...]:
    """Sectors of the viewpoints abreast of one another, overlapping ones made one."""
    left = sorted(patches, key=lambda p: (p.bearing_from_deg, p.range_from_m))
    merged: list[Patch] = []
    while left:
        one = left.pop(0)
        again = True
        while again:
            again = False
            for other in left:
                if (other.bearing_from_deg - one.bearing_from_deg) % 360.0 <= one.width_deg or (
                    one.bearing_from_deg - other.bearing_from_deg
                ) % 360.0 <= other.width_deg:
                    left.remove(other)
                    from_deg, to_deg = sector_of((one, other))
                    one = Patch(
                        bearing_from_deg=from_deg,
                        bearing_to_deg=to_deg,
                        range_from_m=min(one.range_from_m, other.range_from_m),
                        range_to_m=np.inf,
                    )
                    again = True
                    break
        merged.append(one)
    return tuple(merged)
