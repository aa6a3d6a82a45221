"""The upright of one object beside its bar: the limits of its first paint along the leg.

Dotted from where it is possible, broken from where it is normally in sight, full from where it
is expected to paint to where it is lost, with a heavy tick where it is overdue. Where no radar
was worked out, full from where it comes in sight.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from core.plan.intervals import Intervals
from core.plan.plan_result import LegPlan
from core.sheets.page import Dash, Item, Stroke, Tone
from core.sheets.strip_frame import StripFrame
from core.words.paint_words import Sighting

TICK_MM = 1.6
_FAINT_MM, _FULL_MM = 0.22, 0.32
OVERDUE_MM = 0.95
"""Thickness of the tick of overdue, seen on a photocopy too."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Upright:
    """Places along a leg, m; None for what does not come on it."""

    object_id: str
    possible_m: float | None
    from_m: float | None
    full: Intervals
    """Where it paints, or is in sight."""
    is_lost: bool
    """Whether the last of these ends before the leg."""
    overdue_m: float | None

    @property
    def span(self) -> tuple[float, float]:
        """From first to last."""
        lows = (self.possible_m, self.from_m, self.overdue_m)
        places = [place for place in lows if place is not None]
        places += [place for part in self.full for place in part]
        return min(places), max(places)


def upright_of(one: Sighting, plan: LegPlan) -> Upright | None:
    """The upright of an object; None where nothing of it comes on the leg."""
    if one.paint is None:
        if one.moment is None:
            return None
        ends_m = plan.distance_m if one.lost is None else one.lost.along_m
        return Upright(
            object_id=one.object_id,
            possible_m=None,
            from_m=None,
            full=((one.moment.along_m, ends_m),),
            is_lost=one.lost is not None,
            overdue_m=None,
        )
    if not one.is_listed:
        return None
    paint = one.paint
    possible, clear, overdue = paint.earliest_possible, paint.normally_from, paint.overdue
    return Upright(
        object_id=one.object_id,
        possible_m=None if possible.moment is None else possible.moment.along_m,
        from_m=None if clear.moment is None else clear.moment.along_m,
        full=tuple((s.begins.along_m, s.ends.along_m) for s in paint.stretches),
        is_lost=bool(paint.stretches) and not paint.stretches[-1].lasts,
        overdue_m=None if overdue.moment is None else overdue.moment.along_m,
    )


def upright_items(frame: StripFrame, x_mm: float, upright: Upright) -> Iterator[Item]:
    """The upright at a place across."""
    reference = f"sight:{upright.object_id}"

    def line(low_m: float, high_m: float, width_mm: float, dash: Dash) -> Stroke:
        low, high = (frame.y_mm(frame.clamp_along(along_m)) for along_m in (low_m, high_m))
        return Stroke(
            points=((x_mm, low), (x_mm, high)),
            width_mm=width_mm,
            tone=Tone.COAST_IN_SIGHT,
            dash=dash,
            reference=reference,
        )

    def tick(along_m: float, width_mm: float, length_mm: float = TICK_MM) -> Stroke:
        y = frame.y_mm(frame.clamp_along(along_m))
        return Stroke(
            points=((x_mm - length_mm / 2.0, y), (x_mm + length_mm / 2.0, y)),
            width_mm=width_mm,
            tone=Tone.COAST_IN_SIGHT,
            reference=reference,
        )

    begins = upright.full[0][0] if upright.full else None
    stops = [m for m in (upright.possible_m, upright.from_m, begins) if m is not None]
    if upright.possible_m is not None and len(stops) > 1 and stops[1] > stops[0]:
        yield line(stops[0], stops[1], _FAINT_MM, Dash.DOTTED)
    if upright.from_m is not None and begins is not None and begins > upright.from_m:
        yield line(upright.from_m, begins, _FAINT_MM, Dash.FINE)
    for low_m, high_m in upright.full:
        yield line(low_m, high_m, _FULL_MM, Dash.SOLID)
        yield tick(low_m, 0.5)
    if upright.is_lost:
        yield tick(upright.full[-1][1], 0.5)
    for _low, high_m in upright.full[:-1]:
        yield tick(high_m, 0.5)
    if upright.overdue_m is not None:
        yield tick(upright.overdue_m, OVERDUE_MM)
