"""The plan of a leg as rows of words for the tables beside the strip."""

from app.views.table_model import Row
from core.base.language import tr
from core.coverage.coverage_result import Cause, Effect
from core.passage.passage import Side
from core.plan.outcome import Outcome
from core.plan.plan_result import IndexLine, LegPlan, Limit, Role
from core.words import quantities, times
from core.words.kept_words import shown
from core.words.line_words import corridor_words
from core.words.messages import Say
from core.words.reasons import sentence
from core.words.scale_words import full_words
from core.words.turn_words import radius_words

TURN_HEADS = (tr("Steering and turn"), "")
SCALE_HEADS = (tr("Radar"), tr("NM to go"), tr("Scale"), tr("Centre"), tr("Why"))
COVER_HEADS = (
    tr("NM to go"),
    tr("Time"),
    tr("Nearest land"),
    tr("Coast in sight"),
    tr("Paints"),
    tr("Hidden water"),
)
GAP_HEADS = (
    tr("NM to go"),
    tr("Bearings"),
    tr("From range"),
    tr("Why unknown"),
    tr("What it can hide"),
)

_ROLES = {
    Role.PRIMARY: tr("primary"),
    Role.CHECK: tr("check"),
    Role.MARGIN: tr("margin"),
    Role.WHEEL_OVER: tr("wheel-over"),
}
_LIMITS = {Limit.NOT_LESS_THAN: tr("NLT"), Limit.NOT_MORE_THAN: tr("NMT")}
_CAUSES = {
    Cause.VOID: Say.CAUSE_VOID,
    Cause.MISSING: Say.CAUSE_MISSING,
    Cause.BEYOND_DATA: Say.CAUSE_BEYOND_DATA,
}
_EFFECTS = {
    Effect.OBJECT: Say.EFFECT_OBJECT,
    Effect.FIRST_SIGHT: Say.EFFECT_FIRST_SIGHT,
    Effect.NONE: Say.EFFECT_NONE,
}


def causes(cause: Cause) -> str:
    """Why heights are unknown, in words."""
    return str(_CAUSES[cause])


def effects(effect: Effect) -> str:
    """What a gap can hide, in words."""
    return str(_EFFECTS[effect])


def use_words(role: Role) -> str:
    """What an index line is for, in a word."""
    return _ROLES[role]


def to_go(leg: LegPlan, from_m: float, to_m: float) -> str:
    """A stretch as distances to go to the next waypoint, as on the ruler of the strip."""
    start, stop = (quantities.miles(leg.distance_m - along_m) for along_m in (from_m, to_m))
    return f"{start}–{stop}"


def range_words(line: IndexLine) -> str:
    """The cross-index range of a line as a number, with the sense of a margin before it."""
    if line.limit is not None:
        number = quantities.margin_number(line.cross_index_range_m, line.limit, line.range_scale_m)
        return f"{_LIMITS[line.limit]} {number}"
    return quantities.index_number(line.cross_index_range_m, line.range_scale_m)


def turn_rows(outcome: Outcome, leg: LegPlan) -> tuple[Row, ...]:
    """The wheel-over, a fact a row."""
    turn = leg.wheel_over
    if turn is None:
        return (Row(cells=(tr("No wheel-over"), leg.wheel_over_reason)),)
    timetable, index = outcome.plan.timetable, leg.leg_index
    side = (Side.STARBOARD if turn.alteration_deg >= 0.0 else Side.PORT).shown
    facts = [
        (
            tr("Wheel over"),
            tr(
                "{distance} before the waypoint, {time} {zone}",
                distance=quantities.distance_before_waypoint(turn.distance_before_waypoint_m),
                time=times.when_early(timetable, index, turn.along_m),
                zone=times.zone_words(timetable),
            ),
        ),
        (tr("Position"), quantities.position(turn.position)),
        (
            tr("New course"),
            tr(
                "{track}, {angle_deg:.0f}° to {side}",
                track=quantities.track(turn.new_course_deg),
                angle_deg=abs(turn.alteration_deg),
                side=side,
            ),
        ),
        (
            tr("Turn"),
            tr(
                "{radius}; {rate_of_turn}",
                radius=radius_words(turn),
                rate_of_turn=quantities.rate_of_turn(turn.rate_of_turn_deg_per_min),
            ),
        ),
        (tr("Inside the corner"), quantities.cables(turn.corner_cut_m)),
        (tr("How found"), sentence(turn.method)),
    ]
    if turn.line is not None:
        facts.append(
            (
                tr("Wheel-over line"),
                tr(
                    "{object_id} {side} {range} NM along {line_directions}",
                    object_id=turn.line.object.id,
                    side=quantities.side(turn.line.side),
                    range=range_words(turn.line),
                    line_directions=quantities.line_directions(turn.line.line_bearing_deg),
                ),
            )
        )
    else:
        facts.append(
            (tr("Wheel-over line"), tr("none: {line_reason}", line_reason=turn.line_reason))
        )
    if turn.second_mark is not None:
        mark = turn.second_mark
        facts.append(
            (
                tr("Second mark"),
                f"{mark.object.id} {quantities.radar_range(mark.range_m)}, "
                f"{quantities.course(mark.bearing_deg)}",
            )
        )
    else:
        facts.append(
            (
                tr("Second mark"),
                tr("none: {second_mark_reason}", second_mark_reason=turn.second_mark_reason),
            )
        )
    alerts = ", ".join(
        tr(
            "{minutes} before at {time}",
            minutes=times.minutes_early(minutes),
            time=times.when_early(timetable, index, along_m),
        )
        for along_m, minutes in zip(turn.pre_alert_along_m, turn.pre_alert_minutes, strict=True)
    )
    facts.append((tr("Stand by"), alerts or quantities.DASH))
    return tuple(Row(cells=fact) for fact in facts)


def scale_rows(outcome: Outcome, leg: LegPlan) -> tuple[Row, ...]:
    """Range scales of each radar in order along the leg."""
    rows = []
    for stretch in leg.scales:
        centre = tr("middle")
        if stretch.off_centre_ratio > 0.0:
            centre = tr("off {percent}", percent=quantities.percent(stretch.off_centre_ratio))
            if stretch.off_centre_direction:
                centre += f" {shown(stretch.off_centre_direction)}"
        rows.append(
            Row(
                cells=(
                    stretch.radar,
                    to_go(leg, stretch.from_along_m, stretch.to_along_m),
                    quantities.scale(stretch.scale_m),
                    centre,
                    "; ".join(
                        part
                        for part in (*full_words(stretch), corridor_words(leg, stretch))
                        if part
                    ),
                ),
                tip=tr(
                    "{radar}: {pulse} pulse, {span}",
                    radar=stretch.radar,
                    pulse=shown(stretch.pulse),
                    span=times.span(
                        outcome.plan.timetable,
                        leg.leg_index,
                        stretch.from_along_m,
                        stretch.to_along_m,
                    ),
                ),
            )
        )
    return tuple(rows)


def cover_rows(outcome: Outcome, leg: LegPlan) -> tuple[Row, ...]:
    """What is in sight and paints from each viewpoint on the track."""
    rows = []
    for view in outcome.coverage.legs[leg.leg_index].on_track():
        along_m = view.viewpoint.along_m
        nearest = quantities.DASH
        if view.nearest_land_range_m is not None and view.nearest_land_bearing_deg is not None:
            nearest = (
                f"{quantities.radar_range(view.nearest_land_range_m)} "
                f"{quantities.course(view.nearest_land_bearing_deg)}"
            )
        share = view.coast_in_sight_fraction
        paints = None if view.paint is None else view.paint.painted_fraction
        hidden = quantities.DASH
        if view.shadows:
            nearest_m = min(shadow.range_from_m for shadow in view.shadows)
            hidden = tr(
                "{count} sectors, from {range}",
                count=len(view.shadows),
                range=quantities.radar_range(nearest_m),
            )
        rows.append(
            Row(
                cells=(
                    quantities.miles(leg.distance_m - along_m, 2),
                    times.when(outcome.plan.timetable, leg.leg_index, along_m),
                    nearest,
                    tr("no coast in reach") if share is None else quantities.percent(share),
                    quantities.DASH if paints is None else quantities.percent(paints),
                    hidden,
                ),
                subject=along_m,
            )
        )
    return tuple(rows)


def gap_rows(leg: LegPlan) -> tuple[Row, ...]:
    """Data gaps in reach of the leg and what they can hide."""
    return tuple(
        Row(
            cells=(
                to_go(leg, gap.from_along_m, gap.to_along_m),
                quantities.sector(gap.bearing_from_deg, gap.bearing_to_deg),
                quantities.radar_range(gap.range_from_m),
                causes(gap.cause),
                effects(gap.effect),
            ),
            is_alert=gap.effect is not Effect.NONE,
            subject=gap.from_along_m,
        )
        for gap in leg.gaps
    )
