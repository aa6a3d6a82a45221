"""How well the distance off the track is known along a leg, from all that can be indexed there."""

import math
from collections.abc import Iterable, Sequence

from core.plan.candidates import Candidate
from core.plan.error_budget import ErrorBudget
from core.plan.fix_result import CrossStretch, Fix
from core.plan.ranking import tide_error_m
from core.plan.rules import PlanRules


def cross_error_at_m(
    along_m: float, candidates: Iterable[Candidate], budget: ErrorBudget, rules: PlanRules
) -> float | None:
    """The error at a place of the track, 95 %, m; None where nothing can be indexed."""
    errors = []
    for candidate in candidates:
        window = candidate.window
        if not any(a - 1.0 <= along_m <= b + 1.0 for a, b in window.windows):
            continue
        read_m = budget.error_m(cross_m=window.edge.cross_m, along_m=window.edge.along_m - along_m)
        errors.append(
            math.hypot(read_m, tide_error_m(candidate.track.feature, rules), window.spread_m)
        )
    return combined_error_m(errors)


def combined_error_m(errors_m: Iterable[float]) -> float | None:
    """Error of one distance off the track from several readings of it, m; None without any.

    Errors of different objects are taken as independent, so that their weights 1 / e^2 add
    (plain least squares, job.md C4).
    """
    weight = sum(1.0 / error**2 for error in errors_m)
    return None if weight == 0.0 else 1.0 / math.sqrt(weight)


def worst_cross(fixes: Sequence[Fix]) -> CrossStretch | None:
    """The longest stretch without anything to index, else the fixes round the greatest error."""
    if not fixes:
        return None
    runs: list[list[int]] = []
    for number, fix in enumerate(fixes):
        if fix.cross_error_m is not None:
            continue
        if runs and runs[-1][-1] == number - 1:
            runs[-1].append(number)
        else:
            runs.append([number])

    def ends(run: list[int]) -> tuple[float, float]:
        before, after = max(run[0] - 1, 0), min(run[-1] + 1, len(fixes) - 1)
        return (
            (fixes[before].along_m + fixes[run[0]].along_m) / 2.0,
            (fixes[after].along_m + fixes[run[-1]].along_m) / 2.0,
        )

    if runs:
        start, stop = max((ends(run) for run in runs), key=lambda pair: pair[1] - pair[0])
        return CrossStretch(from_along_m=start, to_along_m=stop, error_m=None)
    errors = [fix.cross_error_m or 0.0 for fix in fixes]
    start, stop = ends([errors.index(max(errors))])
    return CrossStretch(from_along_m=start, to_along_m=stop, error_m=max(errors))
