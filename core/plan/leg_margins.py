"""Margin lines of one leg."""

from core.base.findings import Finding
from core.base.language import tr
from core.plan.candidates import Candidate, LegField
from core.plan.choices import LegChoices
from core.plan.intervals import longer_than
from core.plan.leg_context import LegContext
from core.plan.leg_lines import course_at, line_error_m, longest_scale_m
from core.plan.margins import Allowances, limit_findings, margin_lines, unused_limit
from core.plan.plan_result import IndexLine
from core.plan.usable_window import ScaleSpan
from core.ship.hull_reach import hull_reach


def leg_margins(
    field: LegField,
    candidates: tuple[Candidate, ...],
    choices: LegChoices,
    context: LegContext,
    spans: tuple[ScaleSpan, ...],
    lines: tuple[IndexLine, ...],
) -> tuple[tuple[IndexLine, ...], tuple[Finding, ...]]:
    """Margin lines of the officer's limits on this leg, and what is wrong with them."""
    number = field.leg_index + 1
    by_key = {candidate.key: candidate for candidate in candidates}
    hull = hull_reach(
        context.ship,
        least_off_deg=field.motion.least_heading_off_deg,
        most_off_deg=field.motion.most_heading_off_deg,
    )
    used = {line.object.id for line in lines}
    laid: list[IndexLine] = []
    findings: list[Finding] = []
    for limit, key in choices.limits:
        candidate = by_key.get(key)
        if limit.leg_number is None and context.ids[key] not in used:
            continue
        if candidate is None:
            why = tr(
                "nowhere on the leg is it in sight, near enough and readable within the error limit"
            )
            findings.append(unused_limit(limit, why, number))
            continue
        edge = candidate.window.edge
        windows = candidate.window.windows
        thing = context.make_object(candidate.track, edge)
        error_m = line_error_m(candidate, windows, spans, context.rules)
        allowances = Allowances(
            hull_m=hull.towards_m(is_starboard=edge.cross_m > 0.0),
            response_m=context.ship.response_distance_m,
        )
        longest_m = max(stop - start for start, stop in windows)
        for window in longer_than(windows, min(longest_m, context.rules.least_window_m)):
            laid += margin_lines(
                limit,
                thing,
                edge,
                window=window,
                course_deg=course_at(field.line, (window[0] + window[1]) / 2.0),
                range_scale_m=longest_scale_m(spans, window),
                error_m=error_m,
                allowances=allowances,
            )
        findings += limit_findings(
            limit,
            thing,
            edge,
            leg_number=number,
            corridor_m=field.corridor_towards_m(is_starboard=edge.cross_m > 0.0),
            error_m=error_m,
            hull_m=allowances.hull_m,
        )
    return tuple(laid), tuple(findings)
