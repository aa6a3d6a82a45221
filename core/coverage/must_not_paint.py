"""Objects that land hides, so that seeing them on the screen puts the position in doubt.

An object counts only where it would paint without that land: its top stands over the horizon in
ordinary air, and from such a range it does paint from somewhere else on the passage. Land must
hide its top from all over the corridor, from the highest of the ship's antennas, even through
strongly refracting air and with the object as much higher, and all land before it as much lower,
as the elevation may be wrong; and nothing else of it may be in sight, over unknown heights either,
from the track or, every half mile, from the edges of the corridor. What the horizon hides never
counts, for ducts show it (job.md C8).
"""

import math
from dataclasses import replace

import numpy as np

from core.base.arrays import BoolArray, FloatArray
from core.base.units import m_from_nm
from core.coverage.first_paint_result import MustNotPaint
from core.coverage.paint_gauge import Look
from core.coverage.paint_search import LegView, land_words
from core.coverage.profiles import PairState

_STRONG_REFRACTION_K = 2.0
_STANDARD_REFRACTION_K = 4.0 / 3.0
_MOST_RANGE_M = m_from_nm(24.0)
_LEAST_STRETCH_M = m_from_nm(0.4)
_FINER = 4
"""A stretch is looked through at so many places for every one of the search, an eighth of a mile
apart: what shows through a gap in between is no must-not."""
_ACROSS_M = m_from_nm(0.25)
"""Greatest distance between the places abreast from which tops are looked at."""


def masked_along(
    view: LegView,
    looks: tuple[Look, ...],
    margins_db: tuple[FloatArray, ...],
    *,
    height_error_m: float,
) -> BoolArray:
    """Which objects land hides from the track, and their tops from the corridor's edges, (p, t).

    Marks are left out: their heights are not the elevation's.

    Parameters
    ----------
    view : LegView
        The leg.
    looks : tuple of Look
        All radars of the ship, the main one first.
    margins_db : tuple of (p, t) arrays
        Margins from the track with each of them.
    height_error_m : float
        How far the elevation may be wrong, m.
    """
    clear = view.scene.through(
        antenna_height_m=looks[0].budget.antenna_height_m,
        refraction_k=_STANDARD_REFRACTION_K,
        raised_m=-height_error_m,
    )
    best = _best_look(looks, height_error_m)
    masked = _tops_masked(
        view,
        view.places_deg,
        view.range_m <= np.minimum(clear.reach_m, _MOST_RANGE_M)[None, :],
        antenna_height_m=best.budget.antenna_height_m,
        refraction_k=_STRONG_REFRACTION_K,
        raised_m=2.0 * height_error_m,
    )
    masked &= view.gauge.is_land[None, :]
    for margin_db in margins_db:
        masked &= np.isneginf(margin_db)
    for p, along_m in enumerate(view.along_m):
        masked[p] = _all_of_it_hidden(view, best, float(along_m), masked[p], (0.0,))
    return masked


def _best_look(looks: tuple[Look, ...], height_error_m: float) -> Look:
    """What sees most: the highest antenna, strong refraction, all land lower by its error.

    Land lower by a height is the antenna, and what is looked at, higher by it.
    """
    budget = looks[0].budget
    highest_m = max(look.budget.antenna_height_m for look in looks)
    return Look(
        budget=replace(
            budget,
            antenna_height_m=highest_m + height_error_m,
            conditions=replace(budget.conditions, refraction_k=_STRONG_REFRACTION_K),
        )
    )


def _tops_masked(
    view: LegView,
    places_deg: FloatArray,
    wanted: BoolArray,
    *,
    antenna_height_m: float,
    refraction_k: float,
    raised_m: float,
) -> BoolArray:
    """Which of the wanted tops, (p, t), land hides from every place abreast, (crosses, 2, p).

    They are taken as higher by a height. False for all that lies below the horizon as well.
    """
    scene = view.scene.through(
        antenna_height_m=antenna_height_m, refraction_k=refraction_k, raised_m=raised_m
    )
    masked = np.zeros(wanted.shape, dtype=np.bool_)
    steps, targets = np.nonzero(wanted)
    for lat, lon in places_deg:
        hidden = scene.look(lat[steps], lon[steps], targets).state == PairState.HIDDEN_BY_LAND
        steps, targets = steps[hidden], targets[hidden]
    masked[steps, targets] = True
    return masked


def _all_of_it_hidden(
    view: LegView,
    look: Look,
    along_m: float,
    wanted: BoolArray,
    crosses_m: tuple[float, ...],
) -> BoolArray:
    """Which of the wanted objects, (t,), have no part in sight from places abreast."""
    view.alive()
    hidden = wanted.copy()
    for cross_m in crosses_m:
        objects = np.flatnonzero(hidden)
        if objects.size:
            hidden[objects] = view.gauge.hidden_from(look, view.place(along_m, cross_m), objects)
    return hidden


def must_not_paint(
    view: LegView,
    masked: BoolArray,
    looks: tuple[Look, ...],
    paints_to_m: FloatArray,
    *,
    height_error_m: float,
) -> tuple[MustNotPaint, ...]:
    """The stretches of a leg on which objects must not paint.

    Parameters
    ----------
    view : LegView
        The leg.
    masked : (p, t) bool array
        From ``masked_along``.
    looks, height_error_m
        As there.
    paints_to_m : (t,) array
        Greatest range from which each object paints anywhere on the passage, m; 0 if it never
        does.
    """
    found = []
    counts = masked & (view.range_m <= paints_to_m[None, :])
    if not counts.any():
        return ()
    along_m, hidden_at = _looked_through(view, counts, looks, height_error_m)
    for target in np.flatnonzero(hidden_at.any(axis=0)):
        hidden = hidden_at[:, target]
        starts = np.flatnonzero(hidden & ~np.concatenate(([False], hidden[:-1])))
        ends = np.flatnonzero(hidden & ~np.concatenate((hidden[1:], [False])))
        for first, last in zip(starts, ends, strict=True):
            from_m, to_m = float(along_m[first]), float(along_m[last])
            if to_m - from_m < _LEAST_STRETCH_M:
                continue
            middle_m = float(along_m[(first + last) // 2])
            found.append(
                MustNotPaint(
                    object_id=view.gauge.target(int(target)).object_id,
                    name=view.gauge.target(int(target)).name,
                    position=view.gauge.target(int(target)).position,
                    begins=view.moment(from_m, int(target)),
                    ends=view.moment(to_m, int(target)),
                    masked_by=_masked_by(view, looks[0], middle_m, int(target)),
                )
            )
    return tuple(sorted(found, key=lambda item: (item.begins.along_m, item.begins.range_m)))


def _looked_through(
    view: LegView,
    counts: BoolArray,
    looks: tuple[Look, ...],
    height_error_m: float,
) -> tuple[FloatArray, BoolArray]:
    """Places between those of the search, (f,), and what is hidden from all of them, (f, t)."""
    steps = np.arange((view.along_m.size - 1) * _FINER + 1) / _FINER
    along_m = np.interp(steps, np.arange(view.along_m.size), view.along_m)
    before, after = np.floor(steps).astype(np.int64), np.ceil(steps).astype(np.int64)
    wanted = counts[before] & counts[after]
    best = _best_look(looks, height_error_m)
    hidden = _tops_masked(
        view,
        _abreast(view, along_m),
        wanted,
        antenna_height_m=best.budget.antenna_height_m,
        refraction_k=_STRONG_REFRACTION_K,
        raised_m=2.0 * height_error_m,
    )
    for f in np.flatnonzero(hidden.any(axis=1)):
        # From the track that is known already at the places of the search.
        crosses_m = (0.0,) if steps[f] % 1.0 else view.crosses_m[1:]
        hidden[f] = _all_of_it_hidden(view, best, float(along_m[f]), hidden[f], crosses_m)
    return along_m, hidden


def _abreast(view: LegView, along_m: FloatArray) -> FloatArray:
    """Latitudes and longitudes of places all over the corridor, (crosses, 2, f)."""
    edges = (min(view.crosses_m), max(view.crosses_m))
    count = math.ceil((edges[1] - edges[0]) / _ACROSS_M) + 1
    crosses_m = sorted({0.0, *np.linspace(*edges, count).tolist()})
    return np.array([view.line.offset(along_m, np.full(along_m.shape, c)) for c in crosses_m])


def _masked_by(view: LegView, look: Look, along_m: float, target: int) -> str:
    scene = view.scene.through(
        antenna_height_m=look.budget.antenna_height_m, refraction_k=_STRONG_REFRACTION_K
    )
    sight = view.look_at(scene, along_m, target, find_worst=True)
    return land_words(float(sight.blocker_height_m[0]), float(sight.blocker_range_m[0]))
