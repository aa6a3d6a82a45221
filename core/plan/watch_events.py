"""What comes up on watch: every moment of a plan that asks for something, in order of time.

Every first paint, every wheel-over with its pre-alerts, hand-over, index gap, change of range
scale, tune check and flagged emergence stands in it exactly once, and the overdue limits asked for.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from enum import IntEnum

from core.coverage.coverage_result import FirstSight
from core.coverage.first_paint_result import FirstPaint
from core.passage.timetable import Timetable
from core.plan.emergence_result import Alarm, Emergence
from core.plan.plan_result import HandOver, IndexGap, LegPlan, Plan, ScaleStretch, WheelOver
from core.plan.tune_result import TuneCheck

Matter = (
    FirstPaint | FirstSight | Emergence | HandOver | IndexGap | ScaleStretch | TuneCheck | WheelOver
)


class WatchKind(IntEnum):
    """What comes up; in the order in which events of one minute are told."""

    PRE_ALERT = 0
    WHEEL_OVER = 1
    OVERDUE = 2
    EMERGENCE = 3
    GAP = 4
    HAND_OVER = 5
    SCALE = 6
    TUNE_CHECK = 7
    PAINT_BY = 8
    SIGHT = 9
    PAINT_FROM = 10


LATE_KINDS = (WatchKind.OVERDUE, WatchKind.PAINT_BY)
"""Their times are rounded up: told early they would call for something that is not due."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WatchEvent:
    """One moment of the passage."""

    kind: WatchKind
    leg_index: int
    along_m: float
    minute: int
    """Whole minute of the passage in which it is told: down, or up for ``LATE_KINDS``."""
    matter: Matter
    alert_minutes: float = 0.0
    """Of a pre-alert: minutes before the wheel-over."""


def minute_of(
    timetable: Timetable, leg_index: int, along_m: float, *, is_late: bool = False
) -> int:
    """Whole minutes since the minute in which the passage begins, down, or up if late."""
    seconds = timetable.seconds_at(leg_index, along_m)
    start = timetable.start_utc
    if start is not None:
        # Whole minutes of the clock, not of the passage.
        seconds += start.second + start.microsecond / 1e6
    minutes = seconds / 60.0
    return math.ceil(minutes - 1e-6) if is_late else math.floor(minutes + 1e-6)


def watch_events(plan: Plan, overdue: Iterable[WatchEvent] = ()) -> tuple[WatchEvent, ...]:
    """Every event of a plan, by the minute, then by leg and kind.

    Parameters
    ----------
    plan : Plan
        Its legs.
    overdue : iterable of WatchEvent
        Those overdue limits that call the master.
    """
    found: list[WatchEvent] = list(overdue)
    scales: dict[str, ScaleStretch] = {}
    for leg in plan.legs:
        make = _Maker(leg.leg_index, plan.timetable)
        found += _turns(leg, make)
        found += [make(WatchKind.HAND_OVER, h.from_along_m, h) for h in leg.hand_overs]
        found += [make(WatchKind.GAP, g.from_along_m, g) for g in leg.index_gaps]
        found += _scale_changes(leg, make, scales)
        if leg.tune_check is not None:
            found.append(make(WatchKind.TUNE_CHECK, leg.tune_check.along_m, leg.tune_check))
        found += _paints(leg, make)
        found += _emergences(leg, make)
    return _in_order(found)


def overdue_events(plan: Plan) -> tuple[WatchEvent, ...]:
    """Every overdue limit of the first paints, in order of time."""
    return _in_order(
        _Maker(leg.leg_index, plan.timetable)(WatchKind.OVERDUE, moment.along_m, paint)
        for leg in plan.legs
        for paint in (*leg.first_paints, *leg.coast_paints)
        if (moment := paint.overdue.moment) is not None
    )


def _in_order(events: Iterable[WatchEvent]) -> tuple[WatchEvent, ...]:
    return tuple(sorted(events, key=lambda e: (e.minute, e.leg_index, e.kind, e.along_m)))


@dataclass(frozen=True, slots=True)
class _Maker:
    """Makes the events of one leg."""

    leg_index: int
    timetable: Timetable

    def __call__(
        self, kind: WatchKind, along_m: float, matter: Matter, alert_minutes: float = 0.0
    ) -> WatchEvent:
        return WatchEvent(
            kind=kind,
            leg_index=self.leg_index,
            along_m=along_m,
            minute=minute_of(self.timetable, self.leg_index, along_m, is_late=kind in LATE_KINDS),
            matter=matter,
            alert_minutes=alert_minutes,
        )


def _turns(leg: LegPlan, make: _Maker) -> list[WatchEvent]:
    turn = leg.wheel_over
    if turn is None:
        return []
    alerts = zip(turn.pre_alert_along_m, turn.pre_alert_minutes, strict=True)
    return [
        *(make(WatchKind.PRE_ALERT, along, turn, minutes) for along, minutes in alerts),
        make(WatchKind.WHEEL_OVER, turn.along_m, turn),
    ]


def _emergences(leg: LegPlan, make: _Maker) -> list[WatchEvent]:
    """Craft that may come out with too short a warning, at the earliest on the leg itself."""
    heads = leg.waters.emergences if leg.waters is not None else ()
    return [
        make(WatchKind.EMERGENCE, max(head.deciding.own_along_m or 0.0, 0.0), head)
        for head in heads
        if head.alarm is not Alarm.NONE
    ]


def _scale_changes(leg: LegPlan, make: _Maker, before: dict[str, ScaleStretch]) -> list[WatchEvent]:
    """Stretches that set a radar otherwise than it was; the first of the passage sets it."""
    found = []
    for stretch in sorted(leg.scales, key=lambda one: one.from_along_m):
        old = before.get(stretch.radar)
        if old is None or _set_to(old) != _set_to(stretch):
            found.append(make(WatchKind.SCALE, stretch.from_along_m, stretch))
        before[stretch.radar] = stretch
    return found


def _set_to(stretch: ScaleStretch) -> tuple[float, float, str | None, str]:
    return (
        stretch.scale_m,
        stretch.off_centre_ratio,
        stretch.off_centre_direction if stretch.off_centre_ratio else None,
        stretch.pulse,
    )


def _paints(leg: LegPlan, make: _Maker) -> list[WatchEvent]:
    """«By» of each first paint; «from» stands beside it, or alone where there is no «by»."""
    found = []
    for paint in (*leg.first_paints, *leg.coast_paints):
        by, start = paint.normally_by.moment, paint.normally_from.moment
        if by is not None:
            found.append(make(WatchKind.PAINT_BY, by.along_m, paint))
        elif start is not None:
            found.append(make(WatchKind.PAINT_FROM, start.along_m, paint))
    if not leg.first_paints:
        found += [
            make(WatchKind.SIGHT, sight.in_sight_from.along_m, sight)
            for sight in leg.first_sights
            if sight.in_sight_from is not None
        ]
    return found
