"""What the sheet of a leg says, item by item in printed words, to compare plan with plan."""

from core.base.language import tr
from core.coverage.coverage_result import Moment
from core.coverage.first_paint_result import PaintLimit
from core.geodesy.position import Position
from core.passage.timetable import Timetable
from core.plan.emergence_result import Alarm
from core.plan.object_result import Grade
from core.plan.outcome import Outcome
from core.plan.plan_result import IndexLine, LegPlan, Role, WheelOver
from core.plan.revision import LegFacts
from core.words import quantities, times
from core.words.check_facts import check_facts
from core.words.contingency_words import abort_words, fact_name, last_words
from core.words.emergence_words import (
    emergence_line,
    emergence_time,
    head_name,
    hidden_mark_words,
)
from core.words.fix_words import leg_words
from core.words.kept_words import shown
from core.words.line_words import agreement_words, fallback_words
from core.words.messages import Say
from core.words.motion_words import given_words
from core.words.object_words import grain_words
from core.words.paint_words import Stand, sightings
from core.words.reasons import sentence
from core.words.setup_words import control_words
from core.words.turn_words import ring_words

_NONE = tr("none")


def leg_facts(outcome: Outcome, leg_index: int) -> LegFacts:
    """The items of one leg; what stands more than once is told in one item.

    Parameters
    ----------
    outcome : Outcome
        The finished plan.
    leg_index : int
        The leg, from 0.
    """
    plan, leg = outcome.plan, outcome.plan.legs[leg_index]
    first, last = plan.passage.waypoints[leg_index : leg_index + 2]
    items: dict[str, str] = {}
    for what, words in (
        (tr("from"), quantities.position(first.position)),
        (tr("to"), quantities.position(last.position)),
        *_course(outcome, leg),
        *_lines(leg, plan.timetable),
        *_wheel_over(leg, plan.timetable),
        *_contingencies(outcome, leg),
        *_scales(leg, plan.timetable),
        *(() if leg.fixing is None else ((tr("radar fixes"), leg_words(leg.fixing)),)),
        *check_facts(leg, plan.timetable),
        *_paints(leg, plan.timetable),
        *_setup(leg, plan.timetable),
        *_waters(leg, plan.timetable),
    ):
        items[what] = f"{items[what]}; {words}" if what in items else words
    return LegFacts(
        start_name=first.name,
        end_name=last.name,
        start=_kept(first.position),
        end=_kept(last.position),
        items=tuple(items.items()),
    )


def _kept(position: Position) -> Position:
    """As exact as the files keep it, about 1 cm."""
    return Position(lat_deg=round(position.lat_deg, 7), lon_deg=round(position.lon_deg, 7))


def _course(outcome: Outcome, leg: LegPlan) -> list[tuple[str, str]]:
    timetable, covered = outcome.plan.timetable, outcome.coverage.legs[leg.leg_index]
    port, starboard = (
        quantities.cables_number(m) for m in (leg.corridor_port_m, leg.corridor_starboard_m)
    )
    return [
        (tr("course"), quantities.track(leg.course_deg)),
        (tr("distance"), quantities.distance(leg.distance_m)),
        (tr("speed"), quantities.speed(leg.speed_mps)),
        *_motion(leg),
        (tr("time"), times.span(timetable, leg.leg_index, 0.0, leg.distance_m)),
        (tr("corridor port / starboard"), f"{port} / {starboard} c"),
        (
            tr("data"),
            Grade(leg.quality.grade).shown
            if covered.is_complete
            else tr("{grade}, INCOMPLETE", grade=Grade(leg.quality.grade).shown),
        ),
        (tr("data lack"), grain_words(leg) or _NONE),
    ]


def _motion(leg: LegPlan) -> list[tuple[str, str]]:
    if leg.motion is None:
        return []
    return [
        (tr("heading to steer"), quantities.course(leg.motion.heading_deg(leg.course_deg))),
        (tr("stream and leeway"), given_words(leg.motion)),
    ]


def _lines(leg: LegPlan, timetable: Timetable) -> list[tuple[str, str]]:
    index = leg.leg_index
    items = [
        (
            f"{line.role.shown} {line.object.id}",
            f"{_line(line)}, {times.span(timetable, index, line.from_along_m, line.to_along_m)}",
        )
        for line in leg.lines
        if line.role is not Role.WHEEL_OVER
    ]
    if leg.no_index_reason:
        items.append((tr("no index line"), leg.no_index_reason))
    items += [
        (
            tr(
                "hand-over {from_object} to {to_object}",
                from_object=over.from_object,
                to_object=over.to_object,
            ),
            f"{times.span(timetable, index, over.from_along_m, over.to_along_m)}, "
            f"{agreement_words(over)}",
        )
        for over in leg.hand_overs
    ]
    items += [
        (tr("index gap"), times.span(timetable, index, gap.from_along_m, gap.to_along_m))
        for gap in leg.index_gaps
    ]
    items += [
        (tr("if {object_id} is not seen", object_id=line.object.id), fallback_words(leg, line))
        for line in leg.lines
        if line.fallback is not None
    ]
    watch = leg.corridor_watch
    if watch is not None:
        least = Say.LEAST_CORRIDOR.format(least=quantities.cables_up(watch.least_corridor_m))
        items.append((tr("corridor"), least))
    return items


def _line(line: IndexLine) -> str:
    side = quantities.side(line.side)
    if line.limit is None:
        return f"{side} {quantities.index_range(line.cross_index_range_m, line.range_scale_m)}"
    return f"{side} {quantities.margin(line.cross_index_range_m, line.limit, line.range_scale_m)}"


def _wheel_over(leg: LegPlan, timetable: Timetable) -> list[tuple[str, str]]:
    turn: WheelOver | None = leg.wheel_over
    if turn is None:
        return [(tr("wheel-over"), leg.wheel_over_reason or _NONE)]
    before = quantities.distance_before_waypoint(turn.distance_before_waypoint_m)
    items = [
        (
            tr("wheel-over"),
            tr(
                "{time}, {distance} before, to {track}",
                time=times.when_early(timetable, leg.leg_index, turn.along_m),
                distance=before,
                track=quantities.track(turn.new_course_deg),
            ),
        ),
        (
            tr("wheel-over line"),
            _NONE if turn.line is None else f"{turn.line.object.id} {_line(turn.line)}",
        ),
    ]
    ring = None if leg.turn_card is None else leg.turn_card.ring
    if leg.turn_card is not None and ring is not None:
        items.append((tr("ring"), f"{ring.object.id} {ring_words(leg.turn_card, ring)}"))
    mark = turn.second_mark
    if mark is not None:
        reading = f"{quantities.radar_range(mark.range_m)} {quantities.course(mark.bearing_deg)}"
        items.append((tr("wheel-over check"), f"{mark.object.id} {reading}"))
    return items


def _contingencies(outcome: Outcome, leg: LegPlan) -> list[tuple[str, str]]:
    """Abort points of the leg; of a contingency leg what its own sheet says."""
    items = []
    for one in outcome.contingencies:
        if one.parent_index != leg.leg_index:
            continue
        number, timetable = one.at.number, one.outcome.plan.timetable
        items.append(
            (
                fact_name(number),
                f"{one.name}, {last_words(one)}, {abort_words(one, leg.distance_m)}",
            )
        )
        items += [
            (fact_name(number, what), words)
            for what, words in (
                (tr("distance"), quantities.distance(one.leg.distance_m)),
                *_lines(one.leg, timetable),
                *_wheel_over(one.outcome.plan.legs[0], timetable),
                *_scales(one.leg, timetable),
            )
        ]
    return items


def _scales(leg: LegPlan, timetable: Timetable) -> list[tuple[str, str]]:
    items = []
    for part in leg.scales:
        words = quantities.scale(part.scale_m)
        if part.off_centre_direction:
            words += f" {quantities.percent(part.off_centre_ratio)} "
            words += shown(part.off_centre_direction)
        if part.from_along_m > 0.0 or part.to_along_m < leg.distance_m - 1.0:
            span = times.span(timetable, leg.leg_index, part.from_along_m, part.to_along_m)
            words += f", {span}"
        items.append((tr("scale of {radar}", radar=part.radar), words))
    return items


def _paints(leg: LegPlan, timetable: Timetable) -> list[tuple[str, str]]:
    """Where things paint by, and when they are overdue; what must not paint."""
    index = leg.leg_index
    items = []
    for sight in sightings(leg):
        if not sight.is_listed:
            continue
        by = None if sight.moment is None else _moment(timetable, index, sight.moment)
        if sight.stand is Stand.FROM_START:
            by = str(Say.AT_START)
        overdue = _late(timetable, index, None if sight.paint is None else sight.paint.overdue)
        items.append(
            (
                tr("first paint {object}", object=sight.object_id or sight.name),
                overdue
                if by is None
                else tr("by {normally_by}, {overdue}", normally_by=by, overdue=overdue),
            )
        )
    items += [
        (
            tr("must not paint {object_id}", object_id=item.object_id),
            times.span(timetable, index, item.begins.along_m, item.ends.along_m),
        )
        for item in leg.must_not_paint
    ]
    return items


def _moment(timetable: Timetable, leg_index: int, moment: Moment) -> str:
    late = times.when_late(timetable, leg_index, moment.along_m)
    return f"{late} {quantities.radar_range(moment.range_m)}"


def _late(timetable: Timetable, leg_index: int, limit: PaintLimit | None) -> str:
    if limit is None or limit.moment is None:
        return tr("no overdue")
    return tr("overdue {time}", time=times.when_late(timetable, leg_index, limit.moment.along_m))


def _waters(leg: LegPlan, timetable: Timetable) -> list[tuple[str, str]]:
    """Flagged heads, and when named places open."""
    waters, index = leg.waters, leg.leg_index
    if waters is None:
        return []
    return [
        *(
            (
                tr(
                    "emergence {head_name} {side}",
                    head_name=head_name(head),
                    side=quantities.side(head.side),
                ),
                f"{emergence_time(head, index, timetable)}, {emergence_line(head)}",
            )
            for head in waters.emergences
            if head.alarm is not Alarm.NONE
        ),
        *(
            (tr("hidden water {name}", name=mark.name), hidden_mark_words(mark, index, timetable))
            for mark in waters.hidden_marks
            if mark.is_place
        ),
    ]


def _setup(leg: LegPlan, timetable: Timetable) -> list[tuple[str, str]]:
    rows = () if leg.setup is None else leg.setup.rows
    items = [
        (tr("set-up {control}", control=control_words(row)), sentence(row.setting))
        for row in rows
        if not row.number
    ]
    if leg.tune_check is not None:
        at = times.when_early(timetable, leg.leg_index, leg.tune_check.along_m)
        items.append((tr("tune check"), f"{at}, {quantities.scale(leg.tune_check.scale_m)}"))
    return items
