"""Objects that land hides, so that seeing them on the screen puts the position in doubt.

An object counts only where it would paint without that land: its top stands over the horizon in
ordinary air, and from such a range it does paint from somewhere else on the passage. Land must
hide its top from everywhere in the corridor, even through strongly refracting air and with the
object as much higher, and the land before it as much lower, as the elevation may be wrong; and
nothing else of it may be in sight from the track. What the horizon hides never counts, for ducts
show it (job.md C8).
"""

from dataclasses import replace

import numpy as np

from core.base.arrays import BoolArray, FloatArray
from core.base.units import m_from_nm
from core.coverage.first_paint_result import MustNotPaint
from core.coverage.paint_gauge import Look
from core.coverage.paint_search import LegView, land_words, tops_masked

_STRONG_REFRACTION_K = 2.0
_STANDARD_REFRACTION_K = 4.0 / 3.0
_MOST_RANGE_M = m_from_nm(24.0)
_LEAST_STRETCH_M = m_from_nm(0.4)


def masked_along(
    view: LegView, look: Look, margin_db: FloatArray, *, height_error_m: float
) -> BoolArray:
    """Which objects land hides from all across the corridor, (p, t).

    ``margin_db`` (p, t) are the margins from the track with this look.

    Marks are left out: their heights are not the elevation's.
    """
    height_m = look.budget.antenna_height_m
    clear = view.scene.through(
        antenna_height_m=height_m, refraction_k=_STANDARD_REFRACTION_K, raised_m=-height_error_m
    )
    masked = tops_masked(
        view,
        antenna_height_m=height_m,
        refraction_k=_STRONG_REFRACTION_K,
        raised_m=2.0 * height_error_m,
    )
    masked &= view.range_m <= np.minimum(clear.reach_m, _MOST_RANGE_M)[None, :]
    masked &= view.gauge.is_land[None, :] & np.isneginf(margin_db)
    strong = replace(
        look,
        budget=replace(
            look.budget,
            conditions=replace(look.budget.conditions, refraction_k=_STRONG_REFRACTION_K),
        ),
    )
    for p, along_m in enumerate(view.along_m):
        behind = np.flatnonzero(masked[p])
        if behind.size:
            seen_db = view.least_margin_db(strong, float(along_m), behind, (0.0,))
            masked[p, behind] = np.isneginf(seen_db)
    return masked


def must_not_paint(
    view: LegView, masked: BoolArray, look: Look, paints_to_m: FloatArray
) -> tuple[MustNotPaint, ...]:
    """The stretches of a leg on which objects must not paint.

    Parameters
    ----------
    view : LegView
        The leg.
    masked : (p, t) bool array
        From ``masked_along``.
    look : Look
        The main radar.
    paints_to_m : (t,) array
        Greatest range from which each object paints anywhere on the passage, m; 0 if it never
        does.
    """
    found = []
    counts = masked & (view.range_m <= paints_to_m[None, :])
    for target in np.flatnonzero(counts.any(axis=0)):
        hidden = counts[:, target]
        starts = np.flatnonzero(hidden & ~np.concatenate(([False], hidden[:-1])))
        ends = np.flatnonzero(hidden & ~np.concatenate((hidden[1:], [False])))
        for first, last in zip(starts, ends, strict=True):
            from_m, to_m = float(view.along_m[first]), float(view.along_m[last])
            if to_m - from_m < _LEAST_STRETCH_M:
                continue
            found.append(
                MustNotPaint(
                    object_id=view.gauge.target(int(target)).object_id,
                    name=view.gauge.target(int(target)).name,
                    begins=view.moment(from_m, int(target)),
                    ends=view.moment(to_m, int(target)),
                    masked_by=_masked_by(view, look, int((first + last) // 2), int(target)),
                )
            )
    return tuple(sorted(found, key=lambda item: (item.begins.along_m, item.begins.range_m)))


def _masked_by(view: LegView, look: Look, place: int, target: int) -> str:
    scene = view.scene.through(
        antenna_height_m=look.budget.antenna_height_m, refraction_k=_STRONG_REFRACTION_K
    )
    sight = view.look_at(scene, float(view.along_m[place]), target, find_worst=True)
    return land_words(float(sight.blocker_height_m[0]), float(sight.blocker_range_m[0]))
