"""Landfalls of a passage: where land first paints within use after none did.

Land is of use within 24 NM (job.md 1.6.3: one administration caps radar fixing there). A stretch
without it counts from the start of the passage, or when it is at least 10 NM long (common
practice, no source). The fix is the first place at which two of three ranges cut at 30 degrees or
more (job.md A22), else the one with the best cut of the next 24 NM.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from core.base.angles import difference_deg
from core.base.units import m_from_nm
from core.coverage.coverage_result import Coverage
from core.coverage.first_paint_result import FirstPaint, PaintLimit
from core.geodesy import geodesic
from core.plan.landfall_result import Landfall, LandfallLimit, LandfallPaint, RangeArc
from core.plan.plan_result import LegPlan, ObjectKind, Plan

USE_M = m_from_nm(24.0)
BARE_M = m_from_nm(10.0)
_SEARCH_M = m_from_nm(24.0)
_GOOD_CUT_DEG = 30.0
_HELD_M = m_from_nm(1.0)
"""So far an object has painted before a range of it is counted on (common practice, no source)."""
_MOST_TRIED = 24
"""Of objects in use at one place, the nearest so many."""


@dataclass(frozen=True, slots=True)
class _Echo:
    """An object that paints at a place."""

    object_id: str
    name: str
    range_m: float
    bearing_deg: float
    kind: ObjectKind | None
    is_fixed: bool
    is_held: bool
    """Whether it has painted for long enough to be measured."""


@dataclass(frozen=True, slots=True)
class _Stand:
    """A place on the track and what paints there within use."""

    leg_index: int
    along_m: float
    run_m: float
    """From the start of the passage."""
    echoes: tuple[_Echo, ...]
    has_coast: bool

    @property
    def has_land(self) -> bool:
        return self.has_coast or any(echo.is_fixed for echo in self.echoes)


def landfalls_of(plan: Plan, coverage: Coverage) -> tuple[Landfall, ...]:
    """Every landfall of a plan in its order; none where no radar was worked out.

    Parameters
    ----------
    plan : Plan
        First paints of its legs.
    coverage : Coverage
        Its places on the track are those that are looked at.
    """
    stands = tuple(_stands(plan, coverage))
    found = []
    start: int | None = None
    for number, stand in enumerate(stands):
        if not stand.has_land:
            start = number if start is None else start
            continue
        if start is not None:
            bare_m = stand.run_m - stands[start].run_m
            if start == 0 or bare_m >= BARE_M:
                found.append(_landfall(plan, stands, start, number))
        start = None
    return tuple(found)


def _stands(plan: Plan, coverage: Coverage) -> Iterator[_Stand]:
    """Places on the track in order; none for legs without first paints."""
    kinds = {thing.id: thing for thing in plan.objects}
    run_m = 0.0
    for leg in plan.legs:
        covered = next(one for one in coverage.legs if one.leg_index == leg.leg_index)
        line = plan.passage.line(leg.leg_index)
        paints = leg.first_paints
        for view in covered.on_track() if paints else ():
            along_m = view.viewpoint.along_m
            own = line.position_at(along_m)
            here = [paint for paint in paints if _paints_at(paint, along_m)]
            ranges, bearings, _back = geodesic.inverse(
                from_lat_deg=own.lat_deg,
                from_lon_deg=own.lon_deg,
                to_lat_deg=np.array([paint.position.lat_deg for paint in here]),
                to_lon_deg=np.array([paint.position.lon_deg for paint in here]),
            )
            echoes = tuple(
                _Echo(
                    paint.object_id,
                    paint.name,
                    float(range_m),
                    float(bearing_deg) % 360.0,
                    thing.kind if (thing := kinds.get(paint.object_id)) is not None else None,
                    thing is not None and thing.is_fixed,
                    _is_held(paint, along_m),
                )
                for paint, range_m, bearing_deg in zip(here, ranges, bearings, strict=True)
                if range_m <= USE_M
            )
            shares = (view.paint.painted_fraction, view.paint.behind_fraction) if view.paint else ()
            has_coast = any(share is not None and share > 0.0 for share in shares)
            yield _Stand(leg.leg_index, along_m, run_m + along_m, echoes, has_coast)
        run_m += leg.distance_m


def _paints_at(paint: FirstPaint, along_m: float) -> bool:
    return any(
        stretch.begins.along_m - 1.0 <= along_m <= stretch.ends.along_m + 1.0
        for stretch in paint.stretches
    )


def _is_held(paint: FirstPaint, along_m: float) -> bool:
    """Painted all the last mile, or from the start of the leg on."""
    return any(
        stretch.begins.along_m <= max(along_m - _HELD_M, 1.0)
        and along_m <= stretch.ends.along_m + 1.0
        for stretch in paint.stretches
    )


def _landfall(plan: Plan, stands: tuple[_Stand, ...], bare: int, first: int) -> Landfall:
    begins, found = stands[bare], stands[first]
    chosen = found
    arcs: tuple[_Echo, ...] = ()
    best = (0, 0.0)
    for stand in stands[first:]:
        if stand.run_m - found.run_m > _SEARCH_M:
            break
        tried, cut = _best_arcs(stand)
        if (len(tried), cut) > best:
            best = (len(tried), cut)
            chosen, arcs = stand, tried
        if len(tried) == 3 and cut >= _GOOD_CUT_DEG:
            break
    legs = plan.legs[begins.leg_index : chosen.leg_index + 1]
    leg = plan.legs[chosen.leg_index]
    return Landfall(
        bare_leg_index=begins.leg_index,
        bare_along_m=begins.along_m,
        leg_index=chosen.leg_index,
        along_m=chosen.along_m,
        arcs=tuple(sorted((_arc(echo) for echo in arcs), key=lambda arc: arc.bearing_deg)),
        first_leg_index=found.leg_index,
        first_along_m=found.along_m,
        best_cut_deg=best[1],
        paints=_paints(plan, legs, begins, chosen),
        must_not=tuple(
            (leg.leg_index, item)
            for item in leg.must_not_paint
            if item.begins.along_m <= chosen.along_m <= item.ends.along_m
        ),
        look_alikes=tuple((part.leg_index, one) for part in legs for one in part.look_alikes),
    )


def _arc(echo: _Echo) -> RangeArc:
    return RangeArc(
        object_id=echo.object_id,
        name=echo.name,
        range_m=echo.range_m,
        bearing_deg=echo.bearing_deg,
        is_summit=echo.kind is ObjectKind.PEAK,
    )


def cut_deg(one_deg: float, other_deg: float) -> float:
    """Angle at which two ranges cross, from the bearings of their objects, 0 to 90."""
    between = abs(difference_deg(one_deg, other_deg))
    return min(between, 180.0 - between)


def _best_arcs(stand: _Stand) -> tuple[tuple[_Echo, ...], float]:
    """The two objects that cut best and a third between them that cuts both best; that angle.

    Summits only where less than three others paint.
    """
    fixed = sorted((e for e in stand.echoes if e.is_fixed and e.is_held), key=lambda e: e.range_m)
    sharp = [echo for echo in fixed if echo.kind is not ObjectKind.PEAK]
    usable = (sharp if len(sharp) >= 3 else fixed)[:_MOST_TRIED]
    best: tuple[_Echo, ...] = ()
    best_deg = 0.0
    for pair in combinations(usable, 2):
        cut = cut_deg(pair[0].bearing_deg, pair[1].bearing_deg)
        if cut > best_deg + 1e-9:
            best, best_deg = pair, cut
    if not best:
        return (), 0.0

    def cuts_both(echo: _Echo) -> float:
        return min(cut_deg(echo.bearing_deg, one.bearing_deg) for one in best)

    others = [echo for echo in usable if echo not in best and cuts_both(echo) > 0.0]
    third = max(others, key=cuts_both, default=None)
    return (best if third is None else (*best, third)), best_deg


def fix_scale_m(landfall: Landfall, scales_m: Sequence[float]) -> float:
    """The shortest range scale that holds the objects of the fix, the longest within use else."""
    reach_m = max((arc.range_m for arc in landfall.arcs), default=USE_M)
    held = sorted(scale for scale in scales_m if scale >= 1.02 * reach_m)
    return held[0] if held else max(scales_m)


def _paints(
    plan: Plan, legs: tuple[LegPlan, ...], begins: _Stand, fix: _Stand
) -> tuple[LandfallPaint, ...]:
    """Objects expected to paint by the place of the fix, in the order in which they come."""
    by_id: dict[str, list[tuple[LegPlan, FirstPaint]]] = {}
    for leg in legs:
        for paint in leg.first_paints:
            by_id.setdefault(paint.object_id, []).append((leg, paint))
    found = []
    for own in by_id.values():
        limits = [
            _limit(plan, begins, [(leg, getattr(paint, name), paint) for leg, paint in own])
            for name in ("earliest_possible", "normally_from", "normally_by", "overdue")
        ]
        possible, clear, by, overdue = limits
        if by is None or (by.leg_index, by.along_m) > (fix.leg_index, fix.along_m):
            continue
        found.append(
            LandfallPaint(
                object_id=own[-1][1].object_id,
                name=own[-1][1].name,
                height_above_water_m=own[-1][1].height_above_water_m,
                earliest_possible=possible,
                normally_from=clear,
                normally_by=by,
                overdue=overdue,
            )
        )
    return tuple(
        sorted(found, key=lambda p: (p.normally_by.leg_index, p.normally_by.along_m, p.object_id))
    )


def _limit(
    plan: Plan, begins: _Stand, limits: list[tuple[LegPlan, PaintLimit, FirstPaint]]
) -> LandfallLimit | None:
    """The first place at which a limit holds from where the bare stretch begins."""
    for leg, limit, paint in limits:
        is_first = leg.leg_index == begins.leg_index
        least_m = begins.along_m if is_first else 0.0
        moment = limit.moment
        if moment is not None and moment.along_m > least_m:
            return LandfallLimit(
                leg_index=leg.leg_index,
                along_m=moment.along_m,
                range_m=moment.range_m,
                bearing_deg=moment.bearing_deg,
                holds_already=False,
            )
        if moment is not None or limit.is_from_start:
            own = plan.passage.line(leg.leg_index).position_at(least_m)
            range_m, bearing_deg, _back = geodesic.inverse(
                from_lat_deg=own.lat_deg,
                from_lon_deg=own.lon_deg,
                to_lat_deg=paint.position.lat_deg,
                to_lon_deg=paint.position.lon_deg,
            )
            return LandfallLimit(
                leg_index=leg.leg_index,
                along_m=least_m,
                range_m=float(range_m),
                bearing_deg=float(bearing_deg) % 360.0,
                holds_already=is_first,
            )
    return None
