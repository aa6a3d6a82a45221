"""One finding for all heads of a passage behind which craft stay hidden too long."""

import math

from core.base.findings import Finding, Severity
from core.base.language import tr, tr_n
from core.plan.emergence_result import Alarm
from core.plan.waters_result import LegWaters


def emergence_findings(waters: tuple[LegWaters, ...]) -> tuple[Finding, ...]:
    """Which legs pass heads from behind which a craft comes out with less than a decision takes."""
    flagged = [
        (number, head)
        for number, one in enumerate(waters, 1)
        for head in one.emergences
        if head.alarm is not Alarm.NONE
    ]
    if not flagged:
        return ()
    legs = list(dict.fromkeys(number for number, _head in flagged))
    least_s = min(head.deciding.at_edge_s or 0.0 for _number, head in flagged)
    decision_s = flagged[0][1].decision_s
    return (
        Finding(
            severity=Severity.CHECK,
            code="emergence-short",
            what=tr_n(
                "on leg {legs} a craft may come out from behind a head less than "
                "{decision_min:g} min before she is met, down to {minutes:.1f} min",
                "on legs {legs} a craft may come out from behind a head less than "
                "{decision_min:g} min before she is met, down to {minutes:.1f} min",
                len(legs),
                legs=", ".join(map(str, legs)),
                decision_min=decision_s / 60.0,
                minutes=math.floor(least_s / 6.0) / 10.0,
            ),
            todo=tr("Plan look-out, second scan, speed or a wider offing there"),
        ),
    )
