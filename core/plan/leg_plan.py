"""The plan of one leg, put together from what it offers and what the officer decided."""

from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.geodesy.position import Position
from core.plan import reason_codes
from core.plan.blind_conflicts import blind_conflicts_of, blind_findings
from core.plan.candidates import LegField
from core.plan.choices import LegChoices, override_findings
from core.plan.corridor_watch import corridor_findings, corridor_watch
from core.plan.data_grain import data_grain_m
from core.plan.hand_overs import gaps_of, index_gaps
from core.plan.intervals import union
from core.plan.leg_blanks import gap_substitute, leg_gaps, why_no_index
from core.plan.leg_checks import with_checks
from core.plan.leg_choice import (
    chosen_stretches,
    echo_of,
    least_check_m,
    least_window_m,
    leg_candidates,
    role_lines,
)
from core.plan.leg_context import LegContext
from core.plan.leg_fixes import with_fixes
from core.plan.leg_hand_overs import leg_hand_overs, with_fallbacks
from core.plan.leg_lines import key_in_rows
from core.plan.leg_margins import leg_margins
from core.plan.leg_scales import scale_input, spans_and_wheel_over
from core.plan.leg_setup import with_setup
from core.plan.leg_survey import LegSurvey
from core.plan.line_budget import within_budget
from core.plan.object_looks import object_looks
from core.plan.plan_result import Edge, IndexLine, IndexObject, LegPlan, Quality, Reason, Role
from core.plan.quality import quality_of
from core.plan.scale_stretches import scale_stretches
from core.plan.tide_edges import tide_edges
from core.plan.turn_findings import turn_findings
from core.plan.usable_window import EdgePoint
from core.plan.weak_lines import doubtful_turn_findings, weak_line_findings


def plan_leg(
    field: LegField, survey: LegSurvey, choices: LegChoices, context: LegContext
) -> tuple[LegPlan, tuple[Finding, ...]]:
    """Plan one leg.

    Parameters
    ----------
    field : LegField
        What lies in reach and how it is seen.
    survey : LegSurvey
        Windows on every scale.
    choices : LegChoices
        The officer's decisions.
    context : LegContext
        Everything else.

    Returns
    -------
    plan, findings : LegPlan, tuple of Finding
    """
    rules = context.rules
    number = field.leg_index + 1
    spans, wheel_over = spans_and_wheel_over(field, survey, choices, context)
    candidates = leg_candidates(field, survey, choices, context, spans)
    primaries, checks = chosen_stretches(field, candidates, choices, context, spans)
    lines = role_lines(field, candidates, primaries, Role.PRIMARY, choices, context, spans)
    lines += role_lines(field, candidates, checks, Role.CHECK, choices, context, spans)
    margins, findings = leg_margins(field, candidates, choices, context, spans, lines)
    lines += margins
    if wheel_over is not None and wheel_over.line is not None:
        lines += (wheel_over.line,)
    lines, left_out = within_budget(
        lines,
        most=rules.most_lines,
        least_m=least_window_m(field, rules),
        least_check_m=least_check_m(field, rules),
    )
    lines = with_fallbacks(lines, candidates, context)
    # A check that finds no room is no news, unless the officer asked for it.
    findings += tuple(
        _left_out(line, number)
        for line in left_out
        if line.role is not Role.CHECK or line.override is not None
    )
    laid = tuple(line for line in lines if line.role is Role.PRIMARY)
    by_line = union(tuple((p.from_along_m, p.to_along_m) for p in laid), join_m=1.0)
    open_parts = gaps_of(by_line, field.end_m, _worth_telling_m(field))
    conflicts = blind_conflicts_of(field, candidates, lines, context.ids, context.ship)
    findings += blind_findings(conflicts or (), number)
    substitutes = tuple(
        gap_substitute(field, context, part, lines, conflicts or ()) for part in open_parts
    )
    gaps, gap_notes = leg_gaps(field, context, spans)
    findings += gap_notes
    findings += override_findings(
        choices,
        lines,
        context.ids,
        {t.feature.key: t.feature.mark for t in field.tracks if t.feature.mark is not None},
        number,
    )
    watch = corridor_watch(field, candidates, spans, laid, context.ship, rules)
    findings += corridor_findings(field, watch, laid)
    looks = object_looks(field, candidates, context, echo_m=echo_of(field, spans, rules))
    findings += weak_line_findings(laid, looks, number)
    findings += doubtful_turn_findings(wheel_over, number, rules)
    findings += turn_findings(
        field.turn_plan,
        leg_number=number,
        waypoint=context.to_waypoint,
        leg_m=field.line.length_m,
        tangent_before_m=context.tangent_before_m,
        inner_corridor_m=_inner_corridor_m(field, context),
        rules=rules,
    )
    plan = LegPlan(
        leg_index=field.leg_index,
        course_deg=field.line.course_deg,
        distance_m=field.line.length_m,
        speed_mps=field.speed_mps,
        motion=field.motion if field.motion.given.is_given else None,
        corridor_port_m=field.corridor_port_m,
        corridor_starboard_m=field.corridor_starboard_m,
        quality=_quality(context),
        gaps=gaps,
        first_sights=context.first_sights,
        lines=lines,
        no_index_reason="" if laid else why_no_index(field, context),
        hand_overs=leg_hand_overs(field, laid, candidates, context, spans),
        index_gaps=index_gaps(open_parts, substitutes, speed_mps=field.speed_mps),
        scales=scale_stretches(scale_input(field, context, spans, lines, wheel_over)),
        wheel_over=wheel_over,
        wheel_over_reason=field.turn_plan.no_turn_reason,
        key_in=key_in_rows(lines, field.line, wheel_over),
        candidates=(
            *((context.make_object(c.track, c.window.edge), c.rank.reason) for c in candidates),
            *_floating(field, context),
        ),
        blind_conflicts=conflicts,
        looks=looks,
        corridor_watch=watch,
        data_grain_m=data_grain_m(context.land, field.frame.near, cell_m=context.cell_m),
        first_paints=() if context.paints is None else context.paints.paints,
        coast_paints=context.coast_paints,
        waters=context.waters,
        tide_edges=tide_edges(field, candidates, lines, spans, context),
        must_not_paint=() if context.paints is None else context.paints.must_not,
    )
    plan = with_checks(plan, field, context, spans)
    return with_fixes(with_setup(plan, field, context), field, context, candidates), findings


def _worth_telling_m(field: LegField) -> float:
    """Gaps up to half a minute's run are below what a plan can say."""
    return 30.0 * field.speed_mps


def _left_out(line: IndexLine, leg_number: int) -> Finding:
    return Finding(
        severity=Severity.CHECK,
        code="more-lines-than-offered",
        what=tr(
            "no room for the {role} line on {object_id}: four lines are set",
            role=line.role.shown,
            object_id=line.object.id,
        ),
        where=Where(leg_number=leg_number),
        todo=tr("Set it by hand in place of another"),
    )


def _inner_corridor_m(field: LegField, context: LegContext) -> float:
    """Narrower corridor on the inside of the turn, on this leg and the next."""
    turn, new = field.turn_plan.turn, context.new_field
    if turn is None or new is None:
        return 0.0
    is_starboard = turn.alteration_deg > 0.0
    return min(
        field.corridor_towards_m(is_starboard=is_starboard),
        new.corridor_towards_m(is_starboard=is_starboard),
    )


def _quality(context: LegContext) -> Quality:
    ranges = [
        v.nearest_land_range_m
        for v in context.coverage.viewpoints
        if v.nearest_land_range_m is not None
    ]
    return quality_of(
        context.coverage,
        context.land,
        cell_m=context.cell_m,
        nearest_land_m=min(ranges, default=None),
        mismatch=any(f.code.startswith("coast-elevation") for f in context.land.findings),
    )


def _floating(field: LegField, context: LegContext) -> tuple[tuple[IndexObject, Reason], ...]:
    """Floating marks in sight, with the reason why they are never indexed."""
    found = []
    for track in field.tracks:
        if track.feature.is_fixed or not track.sight.seen.any():
            continue
        cross, along = float(track.cross_m[0]), float(track.along_m[0])
        edge = EdgePoint(
            position=Position(
                lat_deg=float(track.feature.lat_deg[0]), lon_deg=float(track.feature.lon_deg[0])
            ),
            edge=Edge.POSITION,
            along_m=along,
            cross_m=cross,
        )
        reason = Reason(code=reason_codes.FLOATING, values=(("cross_m", abs(cross)),))
        found.append((context.make_object(track, edge), reason))
    return tuple(found)
