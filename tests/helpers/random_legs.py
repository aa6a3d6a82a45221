"""Random plausible legs on the invented waters, with names as awkward as officers' own."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
from hypothesis import strategies as st

from core.base.units import m_from_nm
from core.coverage.coverage_result import FirstSight, Moment
from core.coverage.first_paint_result import (
    FirstPaint,
    MustNotPaint,
    PaintedStretch,
    PaintLimit,
    RadarPaint,
    WhatIf,
    WhatIfKind,
)
from core.geodesy.position import Position
from core.plan.outcome import Outcome
from core.plan.plan_result import (
    Edge,
    HandOver,
    IndexGap,
    IndexLine,
    IndexObject,
    LegPlan,
    Limit,
    Mark,
    ObjectKind,
    Role,
)
from core.radar.echo_budget import Conditions
from tests.helpers.sample_lines import index_line, key_in_of, scale_stretch, wheel_over_of
from tests.helpers.sample_outcome import sample_outcome

_WORDS = st.sampled_from(
    [
        *("Sound", "Rock", "Beacon", "Strand", "Breakwater", "East", "West", "Light", "Old"),
        *("Pier", "Hd.", "Sgeir", "nan", "Gobhar", "Skerryvore", "Northern", "Approach", "Y"),
    ]
)
_MARK_NAMES = st.lists(_WORDS, min_size=1, max_size=5).map(" ".join)
_LETTERS = st.sampled_from([*"ABCDEFGH", "AA", "AB", "BD", "P2", "P12"])
_NAMES = st.one_of(_LETTERS, _MARK_NAMES)


class CrowdedLeg:
    """An outcome one of whose legs is drawn at random."""

    def __init__(self, outcome: Outcome, leg_index: int) -> None:
        self.outcome = outcome
        self.leg_index = leg_index

    @property
    def plan(self) -> LegPlan:
        """The leg."""
        return self.outcome.plan.legs[self.leg_index]

    def __repr__(self) -> str:
        """Short, since failing examples are printed: an outcome holds whole arrays."""
        lines = [
            f"{line.role.value} {line.object.id} {line.side.value} "
            f"{line.cross_index_range_m:.0f} m, {line.from_along_m:.0f}-{line.to_along_m:.0f} m"
            for line in self.plan.lines
        ]
        return f"leg {self.leg_index + 1}: {lines}"


@st.composite
def crowded_legs(draw: st.DrawFn) -> CrowdedLeg:
    """The sample outcome with one leg's objects, lines, sights, gaps and scales drawn anew."""
    outcome = sample_outcome()
    leg_index = draw(st.integers(0, 2))
    passage = outcome.plan.passage
    leg = outcome.plan.legs[leg_index]
    names = draw(st.lists(_NAMES, min_size=1, max_size=14, unique=True))
    things = tuple(draw(_objects(outcome, leg, name)) for name in names)
    lines: list[IndexLine] = []
    for thing in things:
        lines.extend(draw(_lines(outcome, leg, thing)))
    order = (Role.PRIMARY, Role.CHECK, Role.MARGIN)
    lines.sort(key=lambda line: order.index(line.role))
    turn = None
    if leg_index + 1 < len(passage.legs):
        turn = wheel_over_of(passage, leg_index, *draw(_pair(things)))
        if turn.line is not None:
            lines.append(turn.line)
    waypoints = tuple(
        replace(w, name=draw(_MARK_NAMES)) if draw(st.booleans()) else w for w in passage.waypoints
    )
    length = leg.distance_m
    has_paint = draw(st.booleans())
    cuts = sorted(draw(st.lists(st.floats(0.1, 0.9), max_size=3, unique=True)))
    ends = [0.0, *cuts, 1.0]
    crowded = replace(
        leg,
        lines=tuple(lines),
        no_index_reason="" if lines else "nothing fixed is in sight within the planned screen",
        wheel_over=turn,
        key_in=key_in_of(tuple(line for line in lines if line.role is not Role.WHEEL_OVER)),
        first_sights=tuple(draw(_sights(leg, thing)) for thing in things),
        first_paints=tuple(draw(_paints(leg, thing)) for thing in things if has_paint),
        must_not_paint=tuple(
            MustNotPaint(
                object_id=thing.id,
                name=thing.name,
                position=thing.position,
                begins=_moment(0.2 * length),
                ends=_moment(0.9 * length),
                masked_by="land 84 m high, 2.1 NM off",
            )
            for thing in things[:5]
            if has_paint
        ),
        hand_overs=tuple(
            HandOver(
                from_object=one.id,
                to_object=other.id,
                from_along_m=0.4 * length,
                to_along_m=0.6 * length,
                minutes=8.0,
                fallback=None,
            )
            for one, other in pairwise(things[:4])
        ),
        index_gaps=tuple(
            IndexGap(
                from_along_m=low * length,
                to_along_m=high * length,
                minutes=3.0,
                substitute=f"ranges of {things[0].id}",
            )
            for low, high in draw(st.sampled_from([(), ((0.0, 0.3),), ((0.1, 0.2), (0.6, 1.0))]))
        ),
        scales=tuple(
            replace(
                scale_stretch(length, draw(st.sampled_from([1.5, 3.0, 6.0, 12.0])), "look-out"),
                from_along_m=low * length,
                to_along_m=high * length,
            )
            for low, high in pairwise(ends)
        ),
    )
    plan = outcome.plan
    legs = tuple(crowded if n == leg_index else one for n, one in enumerate(plan.legs))
    timetable = plan.timetable
    if draw(st.booleans()):
        timetable = replace(
            timetable,
            start_utc=None,
            leg_start_s=tuple(s + 36_000.0 for s in timetable.leg_start_s),
        )
    buoys = tuple(
        Mark(
            name=name,
            position=draw(_places(outcome, leg)),
            height_above_water_m=3.0,
            is_fixed=False,
        )
        for name in draw(st.lists(_MARK_NAMES, max_size=3, unique=True))
        if name not in names
    )
    drawn = replace(
        outcome,
        request=replace(outcome.request, marks=buoys),
        plan=replace(
            plan,
            passage=replace(passage, waypoints=waypoints),
            legs=legs,
            objects=things,
            timetable=timetable,
        ),
    )
    return CrowdedLeg(drawn, leg_index)


@st.composite
def _places(draw: st.DrawFn, outcome: Outcome, leg: LegPlan) -> Position:
    line = outcome.plan.passage.line(leg.leg_index)
    along = draw(st.floats(-0.1, 1.1)) * line.length_m
    cross = draw(st.floats(0.1, 4.0)) * draw(st.sampled_from([-1.0, 1.0]))
    lat, lon = line.offset(np.array([along]), np.array([m_from_nm(cross)]))
    return Position(lat_deg=float(lat[0]), lon_deg=float(lon[0]))


@st.composite
def _objects(draw: st.DrawFn, outcome: Outcome, leg: LegPlan, name: str) -> IndexObject:
    is_letter = len(name) <= 3
    return IndexObject(
        id=name,
        name=f"steep shore 546 m high, 2.9 NM SW of {draw(_MARK_NAMES)}" if is_letter else name,
        position=draw(_places(outcome, leg)),
        edge=Edge.POSITION,
        kind=ObjectKind.STEEP_SHORE if is_letter else ObjectKind.STRUCTURE,
        height_above_water_m=546.0,
        is_fixed=True,
        confirm_on_chart=is_letter,
    )


@st.composite
def _lines(draw: st.DrawFn, outcome: Outcome, leg: LegPlan, thing: IndexObject) -> list[IndexLine]:
    length_nm = leg.distance_m / m_from_nm(1.0)
    low, high = sorted(draw(st.tuples(st.floats(0.0, 0.9), st.floats(0.1, 1.0))))
    if high - low < 0.05:
        return []
    from_nm, to_nm = low * length_nm, high * length_nm
    found = []
    role = draw(st.sampled_from([Role.PRIMARY, Role.CHECK, None]))
    passage = outcome.plan.passage
    if role is not None:
        found.append(index_line(passage, leg.leg_index, role, thing, from_nm=from_nm, to_nm=to_nm))
    for limit in draw(st.lists(st.sampled_from(list(Limit)), max_size=2, unique=True)):
        found.append(
            index_line(
                passage,
                leg.leg_index,
                Role.MARGIN,
                thing,
                limit=limit,
                limit_nm=draw(st.floats(0.2, 2.0)),
                from_nm=from_nm,
                to_nm=to_nm,
            )
        )
    return found


@st.composite
def _pair(
    draw: st.DrawFn, things: tuple[IndexObject, ...]
) -> tuple[IndexObject | None, IndexObject | None]:
    choice = st.one_of(st.none(), st.sampled_from(things))
    return draw(choice), draw(choice)


def _moment(along_m: float) -> Moment:
    return Moment(along_m=along_m, range_m=m_from_nm(13.7), bearing_deg=359.6)


@st.composite
def _limits(draw: st.DrawFn, leg: LegPlan) -> PaintLimit:
    kind = draw(st.integers(0, 3))
    if kind == 0:
        return PaintLimit(
            moment=None, reason="paints from the start of the leg on", is_from_start=True
        )
    if kind == 1:
        reason = "in sight, but its echo is 12 dB too weak at best, 14.2 NM off"
        return PaintLimit(moment=None, reason=reason)
    return PaintLimit(moment=_moment(draw(st.floats(0.0, 1.0)) * leg.distance_m))


@st.composite
def _paints(draw: st.DrawFn, leg: LegPlan, thing: IndexObject) -> FirstPaint:
    by = draw(_limits(leg))
    stretches: tuple[PaintedStretch, ...] = ()
    if by.moment is not None or by.is_from_start:
        begins = by.moment or _moment(0.0)
        is_lost = draw(st.booleans())
        stretches = (
            PaintedStretch(
                begins=begins,
                ends=_moment(
                    (begins.along_m + leg.distance_m) / 2.0 if is_lost else leg.distance_m
                ),
                lasts=not is_lost,
                lost_to="land 84 m high, 2.1 NM off" if is_lost else "",
            ),
        )
    return FirstPaint(
        object_id=thing.id,
        name=thing.name,
        position=thing.position,
        height_above_water_m=thing.height_above_water_m,
        earliest_possible=draw(_limits(leg)),
        normally_from=draw(_limits(leg)),
        normally_by=by,
        corridor_by=draw(st.sampled_from([by, draw(_limits(leg))])),
        overdue=draw(_limits(leg)),
        stretches=stretches,
        what_if=tuple(
            WhatIf(kind=kind, conditions=Conditions(), limit=draw(_limits(leg)))
            for kind in WhatIfKind
        ),
        by_radar=(
            RadarPaint(radar="Main radar", band="X", limit=by, stretches=()),
            RadarPaint(radar="Second radar", band="S", limit=draw(_limits(leg)), stretches=()),
        ),
    )


@st.composite
def _sights(draw: st.DrawFn, leg: LegPlan, thing: IndexObject) -> FirstSight:
    reason = draw(
        st.sampled_from(
            [
                "",
                "in sight from the start of this leg",
                "never in sight on this leg: hidden by land 84 m high, 2.1 NM off",
                "not known to come in sight on this leg: heights 3.0 NM off are unknown",
            ]
        )
    )
    along = draw(st.floats(0.0, 0.8)) * leg.distance_m

    def moment(along_m: float) -> Moment:
        return Moment(along_m=along_m, range_m=m_from_nm(13.7), bearing_deg=359.6)

    is_lost = not reason and draw(st.booleans())
    return FirstSight(
        object_id=thing.id,
        name=thing.name,
        position=thing.position,
        height_above_water_m=thing.height_above_water_m,
        in_sight_from=None if reason else moment(along),
        in_sight_from_reason=reason,
        lost=moment(along + 0.1 * leg.distance_m) if is_lost else None,
        passes_unknown=draw(st.booleans()),
    )
