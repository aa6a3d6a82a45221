"""Hand-overs of one leg with what both lines must agree within, and a fallback for every line."""

from dataclasses import replace

from core.plan.candidates import Candidate, LegField
from core.plan.hand_overs import Usable, fallback_of, hand_overs_of
from core.plan.intervals import Interval
from core.plan.leg_context import LegContext
from core.plan.leg_lines import line_error_m
from core.plan.plan_result import HandOver, IndexLine, Role
from core.plan.usable_window import ScaleSpan


def usables_of(candidates: tuple[Candidate, ...], context: LegContext) -> tuple[Usable, ...]:
    """Candidates by their letters, best first."""
    return tuple(
        Usable(
            object_id=context.ids[candidate.key],
            windows=candidate.window.windows,
            score=candidate.rank.score,
            is_weak=candidate.rank.is_weak,
            echo=candidate.track.feature.echo,
        )
        for candidate in candidates
    )


def with_fallbacks(
    lines: tuple[IndexLine, ...], candidates: tuple[Candidate, ...], context: LegContext
) -> tuple[IndexLine, ...]:
    """The lines, primary and check lines each with what to use where its object is not seen."""
    usables = usables_of(candidates, context)
    return tuple(
        replace(
            line,
            fallback=fallback_of(line.object.id, (line.from_along_m, line.to_along_m), usables),
        )
        if line.role in (Role.PRIMARY, Role.CHECK)
        else line
        for line in lines
    )


def leg_hand_overs(
    field: LegField,
    primaries: tuple[IndexLine, ...],
    candidates: tuple[Candidate, ...],
    context: LegContext,
    spans: tuple[ScaleSpan, ...],
) -> tuple[HandOver, ...]:
    """Where primary lines that follow one another run together."""
    by_id = {context.ids[candidate.key]: candidate for candidate in candidates}

    def error_m(object_id: str, stretch: Interval) -> float:
        return line_error_m(by_id[object_id], (stretch,), spans, context.rules)

    return hand_overs_of(
        tuple((line.object.id, line.from_along_m, line.to_along_m) for line in primaries),
        usables_of(candidates, context),
        speed_mps=field.speed_mps,
        error_m=error_m,
    )
