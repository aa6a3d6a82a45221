"""Said once for a passage: lines that low or high water takes away."""

from collections.abc import Iterable

from core.base.findings import Finding, Severity
from core.base.language import tr
from core.plan.plan_result import LegPlan
from core.plan.tide_edge_result import EdgeAtTide, Holds

_LOST = (Holds.COVERED, Holds.TOO_NEAR, Holds.OUT_OF_USE)
_MOST = 4


def tide_findings(legs: Iterable[LegPlan]) -> tuple[Finding, ...]:
    """One finding that names the objects, or none."""
    lost = [words for leg in legs for words in _lost(leg)]
    if not lost:
        return ()
    more = f"; and {len(lost) - _MOST} more" if len(lost) > _MOST else ""
    return (
        Finding(
            severity=Severity.CHECK,
            code="line-lost-with-tide",
            what=tr(
                "the tide takes index lines away: {lost}{more}",
                lost="; ".join(lost[:_MOST]),
                more=more,
            ),
            todo=tr("See the edges at low and high water; index on another object at that tide"),
        ),
    )


def _lost(leg: LegPlan) -> list[str]:
    return [
        f"leg {leg.leg_index + 1} {edge.object.id} at {water} water ({at.holds.value})"
        for edge in leg.tide_edges
        for water, at in (("low", edge.low), ("high", edge.high))
        if _is_lost(at)
    ]


def _is_lost(at: EdgeAtTide) -> bool:
    return at.holds in _LOST
