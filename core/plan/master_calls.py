"""Which overdue limits call the master: those of things that the plan leans on, each once.

Every first paint has its overdue limit in the list of first paints. A card that called for each of
them would call too often to be heeded (job.md 9.15), so it holds those of the objects that this
leg or the next uses (lines, fallbacks, turns, fixes, tune check), of the officer's fixed marks and
of the coast of a landfall; and none again for what was overdue once and paints ever since.
"""

from collections.abc import Collection, Iterator

from core.coverage.first_paint_result import FirstPaint
from core.plan.landfall_result import Landfall
from core.plan.plan_result import LegPlan, Plan
from core.plan.tune_result import Rung
from core.plan.watch_events import WatchEvent, overdue_events


def master_calls(
    plan: Plan, landfalls: Collection[Landfall], marks: Collection[str]
) -> tuple[WatchEvent, ...]:
    """Overdue limits that call the master, in order of time.

    Parameters
    ----------
    plan : Plan
        Legs with first paints.
    landfalls : collection of Landfall
        Of this plan; on their legs the coast calls too.
    marks : collection of str
        Names of the officer's fixed marks.
    """
    leans_on = [set(_leans_on(leg)) for leg in plan.legs]
    landfall_legs = {
        index for one in landfalls for index in range(one.first_leg_index, one.leg_index + 1)
    }
    arcs = {arc.object_id for one in landfalls for arc in one.arcs}
    found = []
    for event in overdue_events(plan):
        paint = event.matter
        if not isinstance(paint, FirstPaint):
            continue
        index = event.leg_index
        ahead = leans_on[index] | (leans_on[index + 1] if index + 1 < len(leans_on) else set())
        is_landfall = index in landfall_legs
        is_wanted = paint.object_id in ahead or paint.object_id in marks
        if is_landfall:
            is_wanted = (
                is_wanted or paint.object_id in arcs or paint in plan.legs[index].coast_paints
            )
        if is_wanted and not _is_known(plan, index, paint):
            found.append(event)
    return tuple(found)


def _leans_on(leg: LegPlan) -> Iterator[str]:
    """Ids of the objects that a leg uses; some more than once."""
    for line in leg.lines:
        yield line.object.id
        if line.fallback is not None:
            yield line.fallback.object_id
    turn = leg.wheel_over
    if turn is not None and turn.line is not None:
        yield turn.line.object.id
    if turn is not None and turn.second_mark is not None:
        yield turn.second_mark.object.id
    if leg.turn_card is not None and leg.turn_card.ring is not None:
        yield leg.turn_card.ring.object.id
    for fix in leg.fixing.fixes if leg.fixing is not None else ():
        yield from (thing.object_id for thing in fix.objects)
    if leg.tune_check is not None:
        echoes = ((rung, leg.tune_check.echo(rung)) for rung in Rung)
        yield from (
            echo.object_id
            for rung, echo in echoes
            if echo is not None and rung in (Rung.STRONG, Rung.MEDIUM)
        )


def _is_known(plan: Plan, leg_index: int, paint: FirstPaint) -> bool:
    """Whether it was overdue on an earlier leg and is expected to paint ever since."""
    if not paint.normally_by.is_from_start:
        return False
    for leg in reversed(plan.legs[:leg_index]):
        own = next((p for p in leg.first_paints if p.object_id == paint.object_id), None)
        if own is None or not own.stretches or not own.stretches[-1].lasts:
            return False
        if own.overdue.moment is not None or own.overdue.is_from_start:
            return True
        if not own.normally_by.is_from_start:
            return False
    return False
