"""Which overdue limits call the master: those of things that the plan leans on, each once.

Every first paint has its overdue limit in the list of first paints. A card that called for each of
them would call too often to be heeded (job.md 9.15), so it holds those of the objects that this
leg or the next uses, or a later one up to which they go on painting (lines, fallbacks, turns,
fixes, tune check), of the officer's fixed marks and of the coast of a landfall; and none again for
what called once and paints ever since.
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
    found: list[WatchEvent] = []
    called: dict[str, int] = {}
    for event in overdue_events(plan):
        paint, index = event.matter, event.leg_index
        if not isinstance(paint, FirstPaint):
            continue
        is_wanted = paint.object_id in marks or any(
            paint.object_id in leans_on[later]
            for later in _legs_ahead(plan, index, paint.object_id)
        )
        if index in landfall_legs:
            coast = plan.legs[index].coast_paints
            is_wanted = is_wanted or paint.object_id in arcs or paint in coast
        # Letters of stretches of coast are those of one leg: they are no object that goes on.
        is_coast = paint in plan.legs[index].coast_paints
        before = None if is_coast else called.get(paint.object_id)
        if is_wanted and (before is None or not _paints_since(plan, before, index, paint)):
            found.append(event)
            if not is_coast:
                called[paint.object_id] = index
    return tuple(found)


def _legs_ahead(plan: Plan, leg_index: int, object_id: str) -> Iterator[int]:
    """The leg, the next, and those after it on which the object paints from the start on."""
    yield leg_index
    for later in range(leg_index + 1, len(plan.legs)):
        own = _own(plan.legs[later], object_id)
        if later > leg_index + 1 and (own is None or not own.normally_by.is_from_start):
            return
        yield later


def _own(leg: LegPlan, object_id: str) -> FirstPaint | None:
    return next((paint for paint in leg.first_paints if paint.object_id == object_id), None)


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


def _paints_since(plan: Plan, called: int, leg_index: int, paint: FirstPaint) -> bool:
    """Whether it is expected to paint without a break since the leg on which it called."""
    if called == leg_index:
        return True
    if not paint.normally_by.is_from_start:
        return False
    for leg in plan.legs[called:leg_index]:
        own = _own(leg, paint.object_id)
        if own is None or not own.stretches or not own.stretches[-1].lasts:
            return False
        if leg.leg_index > called and not own.normally_by.is_from_start:
            return False
    return True
