"""One leg planned at several offings on land that is read once."""

from dataclasses import replace

from core.base.errors import InputError
from core.base.language import tr
from core.base.progress import Progress, Span
from core.base.units import m_from_nm
from core.jobs.offing_shifts import check_shifts
from core.jobs.plan_passage import land_round, plan_on_land, resolved
from core.passage.offset import leg_alone, length_beside_m, shifted_leg
from core.passage.passage import Passage
from core.plan.offing_facts import offing_of
from core.plan.offing_result import OFFING_RADIUS_M, Offing, OffingTable
from core.plan.plan_result import DangerLimit, KnownObject
from core.plan.request import Request

NEXT_M = m_from_nm(1.0)
"""Of the next leg, so that the wheel-over and its marks are there."""


def compare_offings(
    request: Request, leg_number: int, shifts_m: tuple[float, ...], progress: Progress
) -> OffingTable:
    """Plan one leg where it is and at other offings.

    Parameters
    ----------
    request : Request
        As for the whole passage.
    leg_number : int
        The leg, from 1.
    shifts_m : tuple of float
        Distances to shift it, m, starboard positive.
    progress : Progress
        Told offing by offing.

    Raises
    ------
    InputError, DataGapError
        No such leg, shifts that make no sense, land that cannot be used.
    Cancelled
        A stop was asked for.

    Notes
    -----
    Each leg is planned by itself, the planned one too, so that they compare: nothing is known of
    the turn into it, and times count from its start. Sweeps reach no farther than an index line
    may be read; first paints are looked for from wherever they come. Letters are those of the
    earlier plans of the request; what none knew gets one here that holds for all offings.
    """
    shifts_m = check_shifts(shifts_m)
    radius_m = min(request.environment.radius_m, OFFING_RADIUS_M)
    request = replace(request, environment=replace(request.environment, radius_m=radius_m))
    passage, _timetable, _findings = resolved(request)
    count = len(passage.legs)
    if not 1 <= leg_number <= count:
        raise InputError(
            tr("the passage has no leg {leg_number}", leg_number=leg_number),
            where=passage.name,
            todo=tr("Name a leg from 1 to {count}", count=count),
        )
    index = leg_number - 1
    alone = leg_alone(passage, index, NEXT_M)
    widest_m = max(abs(shift_m) for shift_m in shifts_m)
    land = land_round(request, (alone,), Span(progress, 0.0, 0.1), beyond_m=widest_m)
    known = request.known_objects
    names: dict[str, str] = {}
    planned_m = length_beside_m(passage, index)
    offings: list[Offing] = []
    whole = (0.0, *shifts_m)
    for number, shift_m in enumerate(whole):
        moved = shifted_leg(passage, index, shift_m) if shift_m else passage
        part = Span(
            progress, 0.1 + 0.9 * number / len(whole), 0.1 + 0.9 * (number + 1) / len(whole)
        )
        outcome = plan_on_land(
            _alone(request, leg_alone(moved, index, NEXT_M), leg_number, known),
            land,
            part,
            is_brief=True,
        )
        known = outcome.plan.known_objects
        for thing in outcome.plan.objects:
            names.setdefault(thing.id, thing.name)
        offings.append(
            offing_of(
                outcome,
                shift_m=shift_m,
                distance_change_m=length_beside_m(moved, index) - planned_m,
                beside=moved,
                leg_index=index,
                names=names,
            )
        )
    return OffingTable(
        leg_number=leg_number,
        from_name=passage.waypoints[index].name,
        to_name=passage.waypoints[index + 1].name,
        offings=tuple(offings),
        common_ids=_common_ids(offings),
    )


def _alone(
    request: Request, alone: Passage, leg_number: int, known: tuple[KnownObject, ...]
) -> Request:
    """The request for one leg alone, legs of choices and limits counted from it."""
    return replace(
        request,
        passage=alone,
        start_utc=None,
        anchorage=None,
        contingencies=(),
        streams=replace(
            request.streams,
            by_leg=tuple(
                (number - leg_number + 1, given)
                for number, given in request.streams.by_leg
                if number in (leg_number, leg_number + 1)
            ),
        ),
        overrides=tuple(
            replace(item, leg_number=1)
            for item in request.overrides
            if item.leg_number == leg_number
        ),
        limits=_limits(request.limits, leg_number),
        known_objects=known,
        since=None,
        findings=(),
    )


def _limits(limits: tuple[DangerLimit, ...], leg_number: int) -> tuple[DangerLimit, ...]:
    """Danger limits of every leg, of this one as leg 1 and of the next as leg 2."""
    return tuple(
        limit
        if limit.leg_number is None
        else replace(limit, leg_number=limit.leg_number - leg_number + 1)
        for limit in limits
        if limit.leg_number in (None, leg_number, leg_number + 1)
    )


def _common_ids(offings: list[Offing]) -> tuple[str, ...]:
    """Objects told at every offing that begin to paint on one of them, in the planned order."""
    shared = set.intersection(*({p.object_id for p in o.paints} for o in offings))
    begins = {p.object_id for o in offings for p in o.paints if p.range_m is not None}
    return tuple(p.object_id for p in offings[0].paints if p.object_id in shared & begins)
