"""Contingency legs beside a finished plan: each a passage of two legs on the same land."""

from collections.abc import Sequence
from dataclasses import replace

from core.base.errors import InputError
from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.base.memory import NOTHING_KEPT, Memory
from core.base.progress import Progress, Span
from core.base.units import m_from_nm
from core.coverage.covered_part import covered_part
from core.coverage.run import cover_passage
from core.passage.contingency import AbortRoute, Contingency, abort_route
from core.passage.defaults import resolve_passage
from core.passage.passage import Passage
from core.passage.stream import Leeway, LegStream, PassageStreams
from core.passage.timetable import Timetable
from core.plan.build_plan import build_plan
from core.plan.outcome import AbortPoint, ContingencyPlan, Outcome
from core.plan.request import Request

_BEFORE_M = m_from_nm(3.0)
"""So much of the leg before the abort point is looked at for the turn."""
_OF_THE_TURN = frozenset(
    {"leg-too-short-for-turns", "turn-back", "corner-cut-over-corridor", "large-alteration"}
)


def abort_routes(
    request: Request, passage: Passage, timetable: Timetable
) -> tuple[AbortRoute, ...]:
    """Where the contingency legs of a request run, in their order.

    Raises
    ------
    InputError
        One leaves no leg of the passage, or has no room for its turn.
    """
    ship = request.ship
    routes = []
    for given in request.contingencies:
        index = min(max(given.leg_number - 1, 0), len(passage.legs) - 1)
        routes.append(
            abort_route(
                passage,
                given,
                radius_m=ship.turn_radius_at_m(timetable.motion_of(index).water_speed_mps),
                response_m=ship.response_distance_m,
            )
        )
    return tuple(routes)


def with_contingencies(
    outcome: Outcome,
    routes: Sequence[AbortRoute],
    progress: Progress,
    memory: Memory = NOTHING_KEPT,
) -> Outcome:
    """The same plan with its contingency legs planned.

    Coast and heights are those of the passage; the leg that is left keeps its coverage, and only
    the contingency leg is swept. First paints, look-alikes and the tune check are not worked out
    for it. New objects get letters that no other object has.

    Raises
    ------
    InputError
        A stream cannot be stemmed on a contingency leg.
    Cancelled
        A stop was asked for.
    """
    made: list[ContingencyPlan] = []
    plan = outcome.plan
    known = plan.known_objects
    pairs = zip(outcome.request.contingencies, routes, strict=True)
    for number, (given, route) in enumerate(pairs):
        span = Span(progress, number / len(routes), (number + 1) / len(routes))
        own_request = replace(outcome.request, known_objects=known)
        own = _planned(outcome, given, route, own_request, span, memory)
        known = own.outcome.plan.known_objects
        made.append(own)
    made.sort(key=lambda one: (one.parent_index, one.last_m))
    numbered = tuple(_numbered(one, number) for number, one in enumerate(made, start=1))
    return replace(
        outcome,
        plan=replace(plan, known_objects=known),
        contingencies=numbered,
        findings=(*outcome.findings, *(f for one in numbered for f in _told(one))),
    )


def _numbered(one: ContingencyPlan, number: int) -> ContingencyPlan:
    at = replace(one.at, number=number)
    return ContingencyPlan(at=at, outcome=replace(one.outcome, leaves=at))


def _planned(
    outcome: Outcome,
    given: Contingency,
    route: AbortRoute,
    request: Request,
    progress: Progress,
    memory: Memory,
) -> ContingencyPlan:
    index = route.parent_index
    passage, timetable = _timed(outcome, given, route)
    own = replace(
        request,
        passage=passage,
        overrides=(),
        # What an officer limits on one leg of the passage says nothing of another line.
        limits=tuple(limit for limit in request.limits if limit.leg_number is None),
        contingencies=(),
        anchorage=None,
        since=None,
    )
    before = covered_part(
        outcome.coverage.legs[index],
        outcome.land,
        from_m=max(0.0, route.corner_m - _BEFORE_M),
        to_m=min(route.corner_m, outcome.plan.legs[index].distance_m),
    )
    coverage = cover_passage(
        passage,
        outcome.land,
        outcome.coverage.settings,
        Span(progress, 0.0, 0.6),
        budget=outcome.coverage.budget,
        known={0: before},
        memory=memory,
    )
    plan = build_plan(
        own,
        passage,
        timetable,
        outcome.land,
        coverage,
        None,
        Span(progress, 0.6, 1.0),
        beside=outcome.plan,
        memory=memory,
    )
    findings = (
        *(f for f in (*coverage.findings, *plan.findings) if f.where.leg_number == 2),
        *(
            replace(f, where=replace(f.where, leg_number=2))
            for f in plan.findings
            if f.where.leg_number == 1 and f.code in _OF_THE_TURN
        ),
    )
    at = AbortPoint(
        number=1,
        leg_number=given.leg_number,
        along_m=route.corner_m,
        to_go_m=outcome.plan.legs[index].distance_m - route.corner_m,
        turn_before_m=given.turn_before_m,
        note=given.note,
    )
    return ContingencyPlan(
        at=at,
        outcome=replace(
            outcome, request=own, coverage=coverage, plan=plan, findings=findings, leaves=at
        ),
    )


def _timed(outcome: Outcome, given: Contingency, route: AbortRoute) -> tuple[Passage, Timetable]:
    """The two legs with times that go on from those of the passage."""
    index = route.parent_index
    main = outcome.plan.timetable
    stream = outcome.request.streams.on(given.leg_number)
    try:
        passage, timetable, _findings = resolve_passage(
            route.passage,
            speed_mps=None,
            corridor_m=None,
            default_speed_mps=main.leg_speed_mps[index],
            default_corridor_m=outcome.plan.legs[index].corridor_port_m,
            start_utc=None,
            streams=PassageStreams(by_leg=((1, stream), (2, _on_another_course(stream)))),
        )
    except InputError as exc:
        raise InputError(
            tr("the stream of the leg it leaves cannot be stemmed on the contingency leg"),
            where=given.where,
            todo=tr("Take another course or speed, or correct the stream"),
        ) from exc
    starts = tuple(main.leg_start_s[index] + s for s in timetable.leg_start_s)
    return passage, replace(timetable, start_utc=main.start_utc, leg_start_s=starts)


def _on_another_course(given: LegStream) -> LegStream:
    """The water moves as it does; the wind may come from the other side of the ship."""
    if given.leeway is None:
        return given
    most_deg = max(given.leeway.to_port_deg, given.leeway.to_starboard_deg)
    return replace(given, leeway=Leeway(to_port_deg=most_deg, to_starboard_deg=most_deg))


def _told(one: ContingencyPlan) -> tuple[Finding, ...]:
    """What must be fixed of a contingency leg, said of the passage too."""
    number = one.at.leg_number
    return tuple(
        replace(
            finding,
            what=tr("contingency to {name}: {sentence}", name=one.name, sentence=finding.what),
            where=Where(leg_number=number),
        )
        for finding in one.outcome.findings
        if finding.severity is Severity.MUST_FIX
    )
