"""Which objects a leg's primary and check lines are laid on, and the lines themselves."""

import math
from dataclasses import replace

from core.plan.candidates import Candidate, LegField, ranked, windows_on
from core.plan.check_selection import CheckRules, check_chain
from core.plan.choices import LegChoices
from core.plan.leg_context import LegContext
from core.plan.leg_lines import index_lines, stretches_of
from core.plan.leg_survey import LegSurvey
from core.plan.plan_result import IndexLine, Role
from core.plan.rules import PlanRules
from core.plan.selection import (
    HandOverRules,
    Stretch,
    joined_with_itself,
    primary_chain,
    without_thirds,
)
from core.plan.usable_window import ScaleSpan


def least_window_m(field: LegField, rules: PlanRules) -> float:
    """Windows shorter than this are not worth a line; on a short leg a fifth of it is."""
    return min(rules.least_window_m, 0.2 * field.end_m)


def leg_candidates(
    field: LegField,
    survey: LegSurvey,
    choices: LegChoices,
    context: LegContext,
    spans: tuple[ScaleSpan, ...],
) -> tuple[Candidate, ...]:
    """Objects that can be used on the leg as its scales are planned, best first."""
    if field.end_m <= 0.0:
        return ()
    wanted = set(survey.candidate_keys) | {key for _limit, key in choices.limits}
    wanted |= {choice.key for choice in choices.choices}
    windows = {
        key: window
        for key, window in windows_on(field, spans, context.rules).items()
        if key in wanted and key in context.ids
    }
    return ranked(
        field,
        windows,
        limit_m=min(span.setting.budget.limit_m for span in spans),
        echo_m=echo_of(field, spans, context.rules),
        leg_counts=context.leg_counts,
        chosen=frozenset(choice.key for choice in choices.choices),
        rules=context.rules,
    )


def chosen_stretches(
    field: LegField,
    candidates: tuple[Candidate, ...],
    choices: LegChoices,
    context: LegContext,
    spans: tuple[ScaleSpan, ...],
) -> tuple[tuple[Stretch, ...], tuple[Stretch, ...]]:
    """Stretches of the primary lines and of the check lines."""
    rules, speed = context.rules, field.speed_mps
    least_m = least_window_m(field, rules)
    offered = stretches_of(
        candidates,
        forced=choices.parts(Role.PRIMARY),
        least_m=least_m,
        most_m=field.end_m,
        bridge_m=rules.blind_bridge_s * speed,
    )
    # What the officer wants as a check carries the primary line only where nothing else can.
    spared = choices.keys(Role.CHECK) - choices.keys(Role.PRIMARY)
    chain = primary_chain(
        tuple(replace(s, is_weak=s.is_weak or s.key in spared) for s in offered),
        end_m=field.end_m,
        start_m=context.tangent_before_m,
        rules=HandOverRules(
            overlap_m=rules.overlap_s * speed,
            gap_m=rules.overlap_s * speed,
            settled_from_m=math.inf
            if field.turn_plan.turn is None
            else field.end_m - rules.settled_s * speed,
        ),
    )
    primaries = without_thirds(joined_with_itself(chain), least_m)
    for_check = stretches_of(
        candidates,
        forced=choices.parts(Role.CHECK),
        least_m=least_m,
        most_m=field.end_m,
        bridge_m=rules.blind_bridge_s * speed,
    )
    checks = check_chain(
        for_check, primaries, end_m=field.end_m, rules=_check_rules(field, context, spans)
    )
    return primaries, checks


def _check_rules(field: LegField, context: LegContext, spans: tuple[ScaleSpan, ...]) -> CheckRules:
    """What is asked of check lines on a leg."""
    rules = context.rules
    return CheckRules(
        least_m=least_check_m(field, rules),
        apart_m=max(rules.check_apart_m, echo_of(field, spans, rules)),
    )


def echo_of(field: LegField, spans: tuple[ScaleSpan, ...], rules: PlanRules) -> float:
    """How far apart two echoes are told apart on the shortest scale in use, m."""
    return field.echo_m(min(span.setting.screen.scale_m for span in spans), rules)


def least_check_m(field: LegField, rules: PlanRules) -> float:
    """Check lines shorter than this are not worth setting; on a short leg a fifth of it is."""
    return min(max(rules.least_window_m, rules.least_check_s * field.speed_mps), 0.2 * field.end_m)


def role_lines(
    field: LegField,
    candidates: tuple[Candidate, ...],
    stretches: tuple[Stretch, ...],
    role: Role,
    choices: LegChoices,
    context: LegContext,
    spans: tuple[ScaleSpan, ...],
) -> tuple[IndexLine, ...]:
    """Index lines of the chosen stretches in one role."""
    by_key = {candidate.key: candidate for candidate in candidates}
    return tuple(
        line
        for stretch in stretches
        for line in index_lines(
            stretch,
            by_key[stretch.key],
            role=role,
            line=field.line,
            spans=spans,
            make_object=context.make_object,
            override=choices.override(stretch.key, role, stretch.from_m, stretch.to_m),
            rules=context.rules,
        )
    )
