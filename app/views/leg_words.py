"""What the leg list says of each leg, in deck words."""

from dataclasses import dataclass

from app.state.document import Document
from core.base.language import tr
from core.coverage.coverage_result import LegCoverage
from core.passage.passage import Passage
from core.plan.object_result import Grade
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan, Role
from core.words import quantities, times
from core.words.motion_words import motion_lines


@dataclass(frozen=True, slots=True, kw_only=True)
class LegRow:
    """One leg of the list: a head line, plain lines, and lines that must not be overlooked."""

    head: str
    lines: tuple[str, ...]
    alerts: tuple[str, ...]

    @property
    def spoken(self) -> str:
        """All of it in one line, for a screen reader or a tip."""
        return ". ".join((self.head, *self.lines, *self.alerts))


def _head(passage: Passage, leg_index: int) -> str:
    start, end = passage.waypoints[leg_index], passage.waypoints[leg_index + 1]
    return f"{leg_index + 1}  {start.name} → {end.name}"


def numbered_legs(passage: Passage | None) -> tuple[str, ...]:
    """Each leg with its number and the names of its ends; none without a passage."""
    if passage is None:
        return ()
    return tuple(tr("leg {head}", head=_head(passage, index)) for index in range(len(passage.legs)))


def index_state(leg: LegPlan) -> tuple[str, bool]:
    """How the leg can be indexed, and whether that must not be overlooked."""
    objects = list(dict.fromkeys(x.object.id for x in leg.lines if x.role is Role.PRIMARY))
    if not objects:
        return tr("NOTHING TO INDEX"), True
    minutes = sum(gap.minutes for gap in leg.index_gaps)
    named = ", ".join(objects)
    if leg.index_gaps:
        return tr(
            "Index {objects}; gaps {duration}", objects=named, duration=times.duration(minutes)
        ), True
    return tr("Index {objects}, no gap", objects=named), False


def hidden_words(leg: LegCoverage) -> str:
    """How near hidden water comes along a leg."""
    if not leg.shadows:
        return tr("No hidden water found") if leg.is_complete else tr("Hidden water not known")
    nearest = min(shadow.range_from_m for shadow in leg.shadows)
    return tr("Hidden water from {distance}", distance=quantities.distance(nearest))


def _planned_row(outcome: Outcome, leg_index: int) -> LegRow:
    plan, leg = outcome.plan, outcome.plan.legs[leg_index]
    coverage = outcome.coverage.legs[leg_index]
    state, is_alert = index_state(leg)
    span = times.span(plan.timetable, leg_index, 0.0, leg.distance_m)
    lines = [
        f"{quantities.track(leg.course_deg)}   {quantities.distance(leg.distance_m)}   "
        f"{quantities.speed(leg.speed_mps)}",
        *motion_lines(leg.motion, leg.course_deg),
        tr(
            "{span} {zone}   data {grade}",
            span=span,
            zone=times.zone_words(plan.timetable),
            grade=Grade(leg.quality.grade).shown,
        ),
    ]
    alerts: list[str] = []
    (alerts if is_alert else lines).append(state)
    lines.append(hidden_words(coverage))
    if coverage.crosses_land:
        alerts.insert(0, tr("THE LINE CROSSES LAND"))
    if outcome.revision.legs and outcome.revision.is_marked(leg_index):
        alerts.append(tr("Changed in revision {number}", number=outcome.revision.number))
    if not coverage.is_complete:
        alerts.append(tr("INCOMPLETE: data gap in reach"))
    return LegRow(head=_head(plan.passage, leg_index), lines=tuple(lines), alerts=tuple(alerts))


def _route_row(passage: Passage, leg_index: int, note: str) -> LegRow:
    line = passage.line(leg_index)
    return LegRow(
        head=_head(passage, leg_index),
        lines=(
            f"{quantities.track(line.course_deg)}   {quantities.distance(line.length_m)}",
            note,
        ),
        alerts=(),
    )


def _covered_row(passage: Passage, leg_index: int, leg: LegCoverage) -> LegRow:
    """A leg of which coast and hidden water are known, and no plan yet."""
    line = passage.line(leg_index)
    alerts = [tr("NOT PLANNED YET")]
    if leg.crosses_land:
        alerts.insert(0, tr("THE LINE CROSSES LAND"))
    if not leg.is_complete:
        alerts.append(tr("INCOMPLETE: data gap in reach"))
    return LegRow(
        head=_head(passage, leg_index),
        lines=(
            f"{quantities.track(line.course_deg)}   {quantities.distance(line.length_m)}",
            hidden_words(leg),
        ),
        alerts=tuple(alerts),
    )


def _edited_row(passage: Passage, leg_index: int, alert: str) -> LegRow:
    """A leg after waypoints or legs were edited: turns and times of kept legs change as well."""
    line = passage.line(leg_index)
    return LegRow(
        head=_head(passage, leg_index),
        lines=(f"{quantities.track(line.course_deg)}   {quantities.distance(line.length_m)}",),
        alerts=(alert,),
    )


def _old_words(document: Document, *, is_kept: bool = True) -> str:
    """That a leg is of other inputs, or that its line was edited, and what is to be done."""
    if document.job.is_plan:
        return (
            tr("OUT OF DATE: being computed now")
            if is_kept
            else tr("LINE EDITED: being computed now")
        )
    return tr("OUT OF DATE: compute again") if is_kept else tr("LINE EDITED: compute again")


def leg_rows(document: Document) -> tuple[LegRow, ...]:
    """Every leg of the document as the list shows it."""
    outcome, passage = document.outcome, document.passage
    if outcome is not None:
        rows = [_planned_row(outcome, index) for index in range(len(outcome.plan.legs))]
        if document.is_stale:
            rows = [
                LegRow(head=r.head, lines=r.lines, alerts=(_old_words(document), *r.alerts))
                for r in rows
            ]
        return tuple(rows)
    if passage is None:
        return ()
    done = document.first_legs
    revisions = document.project.revisions
    if document.outcome_before_edit is not None:
        kept = document.kept_legs
        return tuple(
            _covered_row(passage, index, leg)
            if (leg := done.leg(index)) is not None
            else _edited_row(passage, index, _old_words(document, is_kept=index in kept))
            for index in range(len(passage.legs))
        )
    waiting = tr("STALE: compute again") if document.standing.is_old else tr("Not computed yet")
    if revisions:
        waiting = tr("STALE since revision {number}", number=revisions[-1].number)
    return tuple(
        _route_row(passage, index, waiting)
        if (leg := done.leg(index)) is None
        else _covered_row(passage, index, leg)
        for index in range(len(passage.legs))
    )
