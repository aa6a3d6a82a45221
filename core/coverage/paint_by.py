"""From where an object is normally expected to paint, or why it is not."""

import numpy as np

from core.base.arrays import FloatArray
from core.base.language import tr
from core.base.units import nm_from_m
from core.coverage.first_paint_result import PaintedStretch, PaintLimit
from core.coverage.paint_gauge import Look
from core.coverage.paint_search import LegView, blind_reason, out_of_blind

_UNKNOWN_GROUND = tr(
    "not known to paint on this leg: heights of its ground, or before it, are unknown"
)
_TRACK = (0.0,)


def paint_by(
    view: LegView,
    look: Look,
    stretches: tuple[PaintedStretch, ...],
    margin_db: FloatArray,
    clear: PaintLimit,
    target: int,
) -> PaintLimit:
    """From where one object paints on the track, outside blind sectors of own structure.

    Parameters
    ----------
    view : LegView
        The leg, with the arcs in which the radar is blind.
    look : Look
        Radar and conditions.
    stretches : tuple of PaintedStretch
        In which it paints, whatever own structure hides.
    margin_db : (p,) array
        Its margins at the places of the leg.
    clear : PaintLimit
        From where it is in sight.
    target : int
        Number of the object.
    """
    if stretches:
        return _out_of_arcs(view, stretches, target)
    if clear.moment is None and not clear.is_from_start:
        return PaintLimit(moment=None, reason=clear.reason)
    best = int(np.argmax(margin_db))
    range_nm = nm_from_m(float(view.range_m[best, target]))
    if not np.isfinite(margin_db[best]):
        nearest_m = float(view.along_m[np.argmin(view.range_m[:, target])])
        one = np.array([target])
        if not view.gauge.hidden_from(look, view.place(nearest_m), one)[0]:
            return PaintLimit(moment=None, reason=_UNKNOWN_GROUND)
        return PaintLimit(
            moment=None, reason=tr("too little of it is in sight to paint on this leg")
        )
    return PaintLimit(
        moment=None,
        reason=(
            tr(
                "in sight, but its echo is {margin_db:.0f} dB too weak at best, "
                "{range_nm:.1f} NM off",
                margin_db=-margin_db[best],
                range_nm=range_nm,
            )
        ),
    )


def _out_of_arcs(view: LegView, stretches: tuple[PaintedStretch, ...], target: int) -> PaintLimit:
    """The first place of its stretches from which it stands clear of own sectors."""
    one, words = np.array([target]), ""
    for stretch in stretches:
        start_m, stop_m = stretch.begins.along_m, stretch.ends.along_m
        blind_m = start_m
        within = view.along_m[(view.along_m > start_m) & (view.along_m < stop_m)]
        for place in (start_m, *within, stop_m):
            if view.blind_from(float(place), one, _TRACK)[0]:
                blind_m, words = float(place), view.blind_words(float(place), target, _TRACK)
                continue
            if place > start_m:
                return out_of_blind(view, target, _TRACK, blind_m=blind_m, clear_m=float(place))
            if start_m <= 0.0:
                return PaintLimit(
                    moment=None,
                    reason=tr("paints {from_start}", from_start=view.from_start),
                    is_from_start=True,
                )
            return PaintLimit(moment=stretch.begins)
    return PaintLimit(moment=None, reason=blind_reason(words))
