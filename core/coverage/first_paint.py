"""The four limits of every object's first paint, leg by leg, and from where it is lost again."""

from collections.abc import Hashable
from dataclasses import dataclass, replace
from functools import partial

import numpy as np

from core.base.arrays import BoolArray, FloatArray
from core.base.constants import STANDARD_REFRACTION_K
from core.base.language import tr
from core.base.memory import NOTHING_KEPT, Memory
from core.base.progress import Progress, Span
from core.base.units import m_from_nm
from core.coverage.first_paint_result import (
    FirstPaint,
    LegEchoes,
    LegPaints,
    MustNotPaint,
    PaintedStretch,
    PaintLimit,
    RadarPaint,
    WhatIf,
    WhatIfKind,
)
from core.coverage.leg_threads import Alive, leg_by_leg
from core.coverage.must_not_paint import masked_along, must_not_paint
from core.coverage.named_paints import nameless, renamed, renamed_masks
from core.coverage.own_blind import BlindArc
from core.coverage.paint_by import paint_by
from core.coverage.paint_gauge import Gauge, Look, PaintTarget
from core.coverage.paint_search import (
    LegView,
    first_limits,
    leg_view,
    margins_along,
    stretches_of,
)
from core.coverage.sight_limits import sight_limits
from core.coverage.sight_scene import Scene
from core.passage.passage import Passage

STRONG_REFRACTION_K = 2.0
WEAK_REFRACTION_K = 1.0
"""Refraction of *earliest possible* and of *overdue* (job.md 4.1.6)."""

_WORTH_TELLING_M = m_from_nm(0.25)
_LOBES_DB = 6.0
"""By how much lobes may favour an object in air or over a sea that is worse on the whole."""
_NEVER_OVERDUE = tr("under poor conditions it may not paint on this leg at all")


@dataclass(frozen=True, slots=True, kw_only=True)
class PaintLooks:
    """All looks that first paints are worked out for."""

    main_name: str
    main: Look
    """The main radar in the stated weather, standard refraction."""
    poorest: Look
    """The minimum standard on the main antenna: weak refraction, high water, low land, poorly
    echoing ground."""
    others: tuple[tuple[str, Look], ...] = ()
    """Further radars by name, otherwise as the main one."""
    what_if: tuple[tuple[WhatIfKind, Look], ...] = ()
    height_error_m: float = 5.0
    """How far the elevation may be wrong, m."""
    arcs: tuple[tuple[tuple[BlindArc, ...], ...], ...] = ()
    """In which own structure blinds each radar, the main one first, on each leg; empty for no
    arcs at all."""

    def arcs_of(self, radar: int, leg_index: int) -> tuple[BlindArc, ...]:
        """Those of one radar on one leg."""
        return self.arcs[radar][leg_index] if self.arcs else ()

    @property
    def every(self) -> tuple[Look, ...]:
        """All radars as they are, the main one first."""
        return (self.main, *(look for _name, look in self.others))


def first_paints(
    passage: Passage,
    scene: Scene,
    gauge: Gauge,
    looks: PaintLooks,
    progress: Progress,
    *,
    memory: Memory = NOTHING_KEPT,
    thread_count: int = 2,
) -> tuple[LegPaints, ...]:
    """Find the four limits of every object on every leg.

    Parameters
    ----------
    passage : Passage
        With both corridors of every leg filled in.
    scene : Scene
        The objects and the grids, which should reach as far as strong refraction does.
    gauge : Gauge
        Measures the objects of the scene.
    looks : PaintLooks
        Radars and conditions.
    progress : Progress
        Told the leg.
    memory : Memory
        Legs of earlier computations.
    thread_count : int
        Legs worked at at a time; the result is the same with any number.

    Raises
    ------
    Cancelled
        A stop was asked for.
    """
    legs = range(len(passage.legs))

    def painted(index: int, alive: Alive) -> LegPaints:
        return first_paints_on(passage, index, scene, gauge, looks, alive, memory)

    found = leg_by_leg(
        [partial(painted, index) for index in legs],
        Span(progress, 0.0, 0.9),
        tr("First paint"),
        thread_count=thread_count,
    )
    reach_m = _paints_to_m(found, gauge.count)

    named, numbers = gauge.targets, nameless(gauge.targets)

    def hidden(index: int, alive: Alive) -> tuple[MustNotPaint, ...]:
        def look() -> tuple[MustNotPaint, ...]:
            masks = must_not_paint(
                leg_view(passage, index, scene, gauge, alive),
                found[index].echoes.is_masked,
                looks.every,
                reach_m,
                height_error_m=looks.height_error_m,
            )
            return renamed_masks(masks, named, numbers)

        key = ("must not", _key_of(passage, index, scene, numbers, looks), reach_m.tobytes())
        return renamed_masks(memory.of(key, look), numbers, named)

    masks = leg_by_leg(
        [partial(hidden, index) for index in legs],
        Span(progress, 0.9, 1.0),
        tr("What land hides"),
        thread_count=thread_count,
    )
    progress.report(1.0, tr("First paint: done"))
    return tuple(
        replace(leg, must_not=must_not) for leg, must_not in zip(found, masks, strict=True)
    )


def first_paints_on(
    passage: Passage,
    leg_index: int,
    scene: Scene,
    gauge: Gauge,
    looks: PaintLooks,
    alive: Alive,
    memory: Memory = NOTHING_KEPT,
) -> LegPaints:
    """The same for one leg alone; what must not paint is left out.

    ``alive`` is asked again and again, and raises when a stop was asked for.
    """
    named, numbers = gauge.targets, nameless(gauge.targets)

    def look() -> LegPaints:
        leg = _leg_paints(leg_view(passage, leg_index, scene, gauge, alive), looks)
        return renamed(leg, named, numbers)

    key = ("paints", _key_of(passage, leg_index, scene, numbers, looks))
    return renamed(memory.of(key, look), numbers, named)


def _key_of(
    passage: Passage,
    leg_index: int,
    scene: Scene,
    targets: tuple[PaintTarget, ...],
    looks: PaintLooks,
) -> Hashable:
    """All that the paints of a leg depend on; of the other legs only that some come before."""
    leg = passage.legs[leg_index]
    arcs = tuple(of_radar[leg_index] for of_radar in looks.arcs)
    return (
        passage.line(leg_index),
        (leg.corridor_port_m, leg.corridor_starboard_m, leg_index == 0),
        (scene.fine, scene.coarse, scene.settings),
        targets,
        replace(looks, arcs=()),
        arcs,
    )


def _paints_to_m(legs: list[LegPaints], count: int) -> FloatArray:
    """Greatest range from which each object paints anywhere, m."""
    reach_m = np.zeros(count)
    for leg in legs:
        seen = np.where(leg.echoes.margin_db >= 0.0, leg.echoes.range_m, 0.0)
        if seen.size:
            reach_m = np.maximum(reach_m, seen.max(axis=0))
    return reach_m


def _leg_paints(view: LegView, looks: PaintLooks) -> LegPaints:
    """Everything about one leg but what must not paint, which wants the other legs."""
    targets = range(view.gauge.count)
    main = looks.main
    view = replace(_as_radar(view, looks, 0), gauge=view.gauge.anew(main.eye))
    antenna_m = main.budget.antenna_height_m
    margin_db = margins_along(view, main)
    stretches = [stretches_of(view, main, margin_db[:, t], t) for t in targets]
    possible = sight_limits(
        view,
        antenna_height_m=antenna_m,
        refraction_k=STRONG_REFRACTION_K,
        is_earliest=True,
    )
    clear = sight_limits(view, antenna_height_m=antenna_m, refraction_k=STANDARD_REFRACTION_K)
    by = [paint_by(view, main, stretches[t], margin_db[:, t], clear[t], t) for t in targets]
    corridor = first_limits(
        view,
        main,
        view.crosses_m,
        lambda t: _not_everywhere(by[t]),
        candidates=margin_db >= 0.0,
    )
    # Whatever is worse than now in every way paints only where it does now.
    could = margin_db >= -_LOBES_DB
    overdue = first_limits(
        view,
        looks.poorest,
        view.crosses_m,
        lambda _t: _NEVER_OVERDUE,
        in_a_row=2,
        candidates=could,
    )
    what_if = [
        (
            kind,
            look.budget.conditions,
            first_limits(
                view,
                look,
                (0.0,),
                lambda _t: tr("does not paint on this leg"),
                candidates=could if _is_worse(look, main) else _up_to(by, view),
            ),
        )
        for kind, look in looks.what_if
    ]
    others_db = [margins_along(view, look) for _name, look in looks.others]
    radars = [
        (looks.main_name, main, by, stretches),
        *(
            (name, look, *_other_radar(_as_radar(view, looks, n + 1), look, other_db))
            for n, ((name, look), other_db) in enumerate(zip(looks.others, others_db, strict=True))
        ),
    ]
    paints = []
    for t in targets:
        target = view.gauge.target(t)
        clear_or_painted = _earlier(clear[t], by[t])
        wide = _later(by[t], corridor[t])
        paints.append(
            FirstPaint(
                object_id=target.object_id,
                name=target.name,
                position=target.position,
                height_above_water_m=target.height_above_water_m,
                earliest_possible=_earlier(possible[t], clear_or_painted),
                normally_from=clear_or_painted,
                normally_by=by[t],
                corridor_by=wide if _is_worth_telling(by[t], wide) else by[t],
                overdue=_later(overdue[t], wide),
                stretches=stretches[t],
                what_if=tuple(
                    WhatIf(kind=kind, conditions=conditions, limit=limits[t])
                    for kind, conditions, limits in what_if
                ),
                by_radar=tuple(
                    RadarPaint(
                        radar=name,
                        band=look.budget.radar.band.value,
                        limit=limits[t],
                        stretches=tuple(
                            (s.begins.along_m, s.ends.along_m) for s in its_stretches[t]
                        ),
                    )
                    for name, look, limits, its_stretches in radars
                ),
            )
        )
    return LegPaints(
        paints=tuple(paints),
        must_not=(),
        echoes=LegEchoes(
            object_ids=tuple(view.gauge.target(t).object_id for t in targets),
            along_m=view.along_m,
            range_m=view.range_m,
            bearing_deg=view.bearing_deg,
            margin_db=margin_db,
            is_masked=masked_along(
                view,
                looks.every,
                (margin_db, *others_db),
                height_error_m=looks.height_error_m,
            ),
        ),
    )


def _as_radar(view: LegView, looks: PaintLooks, radar: int) -> LegView:
    """The leg as one of the radars looks at it."""
    return replace(view, arcs=looks.arcs_of(radar, view.index))


def _is_worse(look: Look, main: Look) -> bool:
    """Whether a look's weather is no better than another's in any way."""
    this, that = look.budget.conditions, main.budget.conditions
    return (
        this.refraction_k <= that.refraction_k
        and this.rain_mm_h >= that.rain_mm_h
        and this.sea_state >= that.sea_state
    )


def _up_to(by: list[PaintLimit], view: LegView) -> BoolArray:
    """The places up to that from which each object paints: better air shows it no later."""
    last_m = np.array([max(_order(limit), 0.0) for limit in by]) + view.along_m[-1] / (
        max(view.along_m.size - 1, 1)
    )
    return np.asarray(view.along_m[:, None] <= last_m[None, :])


def _other_radar(
    view: LegView, look: Look, margin_db: FloatArray
) -> tuple[list[PaintLimit], list[tuple[PaintedStretch, ...]]]:
    """From where objects paint on another radar, and over which stretches."""
    budget = look.budget
    clear = sight_limits(
        view,
        antenna_height_m=budget.antenna_height_m,
        refraction_k=budget.conditions.refraction_k,
    )
    targets = range(view.gauge.count)
    stretches = [stretches_of(view, look, margin_db[:, t], t) for t in targets]
    by = [paint_by(view, look, stretches[t], margin_db[:, t], clear[t], t) for t in targets]
    return by, stretches


def _not_everywhere(by: PaintLimit) -> str:
    if by.moment is None and not by.is_from_start:
        return by.reason
    return tr("not from everywhere in the corridor at once")


def _earlier(one: PaintLimit, other: PaintLimit) -> PaintLimit:
    """The one that comes first; one that never comes is last."""
    return min((one, other), key=_order)


def _later(one: PaintLimit, other: PaintLimit) -> PaintLimit:
    return max((one, other), key=_order)


def _order(limit: PaintLimit) -> float:
    if limit.is_from_start:
        return -np.inf
    return np.inf if limit.moment is None else limit.moment.along_m


def _is_worth_telling(by: PaintLimit, wide: PaintLimit) -> bool:
    return _order(wide) > max(_order(by), 0.0) + _WORTH_TELLING_M
