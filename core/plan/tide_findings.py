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
    named = "; ".join(lost[:_MOST])
    if len(lost) > _MOST:
        named = tr("{lines}; and {more_count} more", lines=named, more_count=len(lost) - _MOST)
    return (
        Finding(
            severity=Severity.CHECK,
            code="line-lost-with-tide",
            what=tr("the tide takes index lines away: {lines}", lines=named),
            todo=tr("See the edges at low and high water; index on another object at that tide"),
        ),
    )


def _lost(leg: LegPlan) -> list[str]:
    return [
        text
        for edge in leg.tide_edges
        for is_low, at in ((True, edge.low), (False, edge.high))
        if _is_lost(at)
        for text in (_lost_at(leg, edge.object.id, at, is_low=is_low),)
    ]


def _lost_at(leg: LegPlan, object_id: str, at: EdgeAtTide, *, is_low: bool) -> str:
    parts = {"leg_number": leg.leg_index + 1, "object_id": object_id, "state": at.holds.shown}
    if is_low:
        return tr("leg {leg_number} {object_id} at low water ({state})", **parts)
    return tr("leg {leg_number} {object_id} at high water ({state})", **parts)


def _is_lost(at: EdgeAtTide) -> bool:
    return at.holds in _LOST
