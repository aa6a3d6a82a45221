"""Places on a leg where something begins, ends or is due, each in words: stops for own ship."""

from collections.abc import Iterator
from dataclasses import dataclass

from core.base.language import tr
from core.coverage.first_paint_result import FirstPaint
from core.plan.plan_result import IndexLine, LegPlan, Plan, Role
from core.plan.watch_events import WatchEvent, WatchKind, overdue_events, watch_events
from core.words import quantities, times
from core.words.watch_words import WatchWords, watch_words

_SAME_M = 1.0
"""Nearer than this two stops are one place."""
_USES = {
    Role.PRIMARY: tr("index"),
    Role.CHECK: tr("check"),
    Role.MARGIN: tr("margin"),
    Role.WHEEL_OVER: tr("wheel-over"),
}

_PAINTS = {
    WatchKind.PAINT_BY: tr("is expected to paint by here"),
    WatchKind.PAINT_FROM: tr("may normally paint from here"),
    WatchKind.OVERDUE: tr("OVERDUE from here if it has not painted"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class LegStop:
    """One place of a leg and all that happens there."""

    along_m: float
    words: str


def leg_stops(plan: Plan, leg_index: int) -> tuple[LegStop, ...]:
    """Every place of a leg worth stopping at, in order along it.

    Its ends, every event of the watch, overdue limits, the possible and normal limits of the
    objects that the leg uses, and where each line begins and ends. What falls on one place is
    told together.
    """
    leg = plan.legs[leg_index]
    found = sorted(
        (
            (min(max(along_m, 0.0), leg.distance_m), words)
            for along_m, words in _all(plan, leg)
            if along_m <= leg.distance_m + _SAME_M
        ),
        key=lambda one: one[0],
    )
    stops: list[LegStop] = []
    for along_m, words in found:
        if stops and along_m - stops[-1].along_m < _SAME_M:
            last = stops.pop()
            known = last.words.split("; ")
            words = last.words if words in known else f"{last.words}; {words}"
            along_m = last.along_m
        stops.append(LegStop(along_m=along_m, words=words))
    return tuple(stops)


def _all(plan: Plan, leg: LegPlan) -> Iterator[tuple[float, str]]:
    yield 0.0, tr("start of the leg, {name}", name=plan.passage.waypoints[leg.leg_index].name)
    for event in watch_events(plan, overdue_events(plan)):
        if event.leg_index == leg.leg_index:
            yield event.along_m, _event_words(plan, event)
    for paint in leg.first_paints:
        if paint.object_id in _used(leg):
            yield from _early_limits(plan, leg, paint)
    for line in leg.lines:
        if line.role is not Role.WHEEL_OVER:
            named = tr(
                "{use} line on {object_id} {side}",
                use=_USES[line.role],
                object_id=line.object.id,
                side=quantities.side(line.side),
            )
            yield line.from_along_m, tr("{line} begins, {range}", line=named, range=_range(line))
            yield line.to_along_m, tr("{line} ends", line=named)
    for pass_on in leg.hand_overs:
        yield (
            pass_on.to_along_m,
            tr(
                "hand-over {from_object} to {to_object} to be done by here",
                from_object=pass_on.from_object,
                to_object=pass_on.to_object,
            ),
        )
    yield (
        leg.distance_m,
        tr("end of the leg, {name}", name=plan.passage.waypoints[leg.leg_index + 1].name),
    )


def _range(line: IndexLine) -> str:
    if line.limit is not None:
        return quantities.margin(line.cross_index_range_m, line.limit, line.range_scale_m)
    return quantities.index_range(line.cross_index_range_m, line.range_scale_m)


def _used(leg: LegPlan) -> set[str]:
    used = {line.object.id for line in leg.lines}
    turn = leg.wheel_over
    if turn is not None and turn.second_mark is not None:
        used.add(turn.second_mark.object.id)
    return used


def _early_limits(plan: Plan, leg: LegPlan, paint: FirstPaint) -> Iterator[tuple[float, str]]:
    """Possible and normal «from», which the watch does not stop for."""
    told = paint.normally_by.moment
    for limit, words in (
        (paint.earliest_possible, tr("may paint from here at the earliest")),
        (paint.normally_from, tr("may normally paint from here")),
    ):
        if limit.moment is not None and (told is None or limit.moment != told):
            when = times.when_early(plan.timetable, leg.leg_index, limit.moment.along_m)
            where = quantities.radar_range(limit.moment.range_m)
            bearing = quantities.course(limit.moment.bearing_deg)
            yield limit.moment.along_m, f"{when} {paint.object_id} {words}: {where} {bearing}"


def _event_words(plan: Plan, event: WatchEvent) -> str:
    said: WatchWords = watch_words(event, plan.timetable)
    kind = said.kind if said.kind.isupper() else said.kind[:1].lower() + said.kind[1:]
    where = f"{said.range} NM {said.bearing}° T"
    if event.kind in _PAINTS:
        return f"{said.time} {said.lead} {_PAINTS[event.kind]}: {where}"
    parts = [said.time, kind, said.lead]
    if said.range:
        parts.append(where)
    if event.kind is WatchKind.PRE_ALERT and said.more:
        parts.append(f"({said.more})")
    return " ".join(part for part in parts if part)
