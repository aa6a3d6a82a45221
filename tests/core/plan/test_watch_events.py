"""Every moment of a plan that asks for something comes up once, in order of time."""

from collections import Counter
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from core.base.units import m_from_nm
from core.coverage.first_paint_result import FirstPaint
from core.plan.emergence_result import Alarm
from core.plan.outcome import Outcome
from core.plan.plan_result import Plan
from core.plan.watch_events import LATE_KINDS, WatchKind, overdue_events, watch_events
from tests.helpers.sample_lines import scale_stretch
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.sample_paints import with_paints


def _outcome() -> Outcome:
    return with_paints(sample_outcome())


def _counted(plan: Plan) -> Counter[WatchKind]:
    """How many events of each kind there must be, counted from the plan itself."""
    found: Counter[WatchKind] = Counter()
    for leg in plan.legs:
        for paint in (*leg.first_paints, *leg.coast_paints):
            by, clear = paint.normally_by.moment, paint.normally_from.moment
            found[WatchKind.PAINT_BY] += by is not None
            found[WatchKind.PAINT_FROM] += by is None and clear is not None
        if not leg.first_paints:
            found[WatchKind.SIGHT] += sum(s.in_sight_from is not None for s in leg.first_sights)
        if leg.wheel_over is not None:
            found[WatchKind.WHEEL_OVER] += 1
            found[WatchKind.PRE_ALERT] += len(leg.wheel_over.pre_alert_minutes)
        found[WatchKind.HAND_OVER] += len(leg.hand_overs)
        found[WatchKind.GAP] += len(leg.index_gaps)
        found[WatchKind.TUNE_CHECK] += leg.tune_check is not None
        heads = leg.waters.emergences if leg.waters is not None else ()
        found[WatchKind.EMERGENCE] += sum(head.alarm is not Alarm.NONE for head in heads)
    return +found


def test_every_event_of_the_plan_comes_up_once() -> None:
    plan = _outcome().plan
    events = watch_events(plan)
    counted = Counter(event.kind for event in events if event.kind is not WatchKind.SCALE)
    assert counted == _counted(plan)
    assert set(counted) >= {
        WatchKind.PAINT_BY,
        WatchKind.WHEEL_OVER,
        WatchKind.PRE_ALERT,
        WatchKind.HAND_OVER,
        WatchKind.GAP,
    }
    keys = [(e.kind, e.leg_index, e.along_m, id(e.matter)) for e in events]
    assert len(set(keys)) == len(keys)


def test_events_stand_in_order_of_the_minute_they_are_told_for() -> None:
    plan = _outcome().plan
    events = watch_events(plan, overdue_events(plan))
    assert {event.kind for event in events} >= {WatchKind.OVERDUE, WatchKind.PAINT_BY}
    minutes = [event.minute for event in events]
    assert minutes == sorted(minutes)
    for event in events:
        exact = plan.timetable.seconds_at(event.leg_index, event.along_m) / 60.0
        if event.kind in LATE_KINDS:
            assert exact <= event.minute + 1e-6 < exact + 1.0 + 1e-6
        else:
            assert exact - 1.0 < event.minute <= exact + 1e-6


def test_minutes_are_those_of_the_clock_where_the_start_is_not_on_a_whole_one() -> None:
    plan = _outcome().plan
    start = datetime(2026, 3, 14, 5, 0, 40, tzinfo=UTC)
    moved = replace(plan, timetable=replace(plan.timetable, start_utc=start))
    for event in watch_events(moved):
        utc = moved.timetable.utc_at(event.leg_index, event.along_m)
        assert utc is not None
        told = (utc - start.replace(second=0)).total_seconds() / 60.0 - event.minute
        is_late = event.kind in LATE_KINDS
        assert -1.0 < told <= 1e-6 if is_late else -1e-6 <= told < 1.0


def test_overdue_events_are_the_overdue_limits_of_the_legs() -> None:
    # Capability C3: «identical to A3 limits», that is to the first paints of the legs.
    plan = _outcome().plan
    wanted = sorted(
        (
            plan.timetable.seconds_at(leg.leg_index, paint.overdue.moment.along_m),
            leg.leg_index,
            paint.object_id,
        )
        for leg in plan.legs
        for paint in (*leg.first_paints, *leg.coast_paints)
        if paint.overdue.moment is not None
    )
    found = []
    for event in overdue_events(plan):
        assert isinstance(event.matter, FirstPaint)
        seconds = plan.timetable.seconds_at(event.leg_index, event.along_m)
        found.append((seconds, event.leg_index, event.matter.object_id))
    assert found == wanted
    assert len(found) == 2


@pytest.mark.parametrize(("second_nm", "changes"), [(3.0, 0), (6.0, 1)])
def test_a_scale_is_told_when_it_is_set_and_when_it_changes(second_nm: float, changes: int) -> None:
    plan = _outcome().plan
    length = plan.legs[0].distance_m
    first = scale_stretch(length, 3.0, "forced-by-object")
    halves = (
        replace(first, to_along_m=length / 2.0),
        replace(first, from_along_m=length / 2.0, scale_m=m_from_nm(second_nm)),
    )
    legs = tuple(replace(leg, scales=halves if leg.leg_index == 0 else ()) for leg in plan.legs)
    events = [e for e in watch_events(replace(plan, legs=legs)) if e.kind is WatchKind.SCALE]
    assert len(events) == 1 + changes
    assert events[0].along_m == 0.0
