"""Which overdue limits call the master (job.md 4.1.6, 9.15, C3)."""

from dataclasses import replace

from core.coverage.first_paint_result import FirstPaint, PaintLimit
from core.plan.master_calls import master_calls
from core.plan.outcome import Outcome
from core.plan.plan_result import Plan
from core.plan.watch_events import WatchEvent, overdue_events
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.sample_paints import START, at, with_paints

_NEVER = PaintLimit(moment=None, reason="never")


def _outcome() -> Outcome:
    return with_paints(sample_outcome())


def _with_paint_on(plan: Plan, leg_index: int, paint: FirstPaint) -> Plan:
    legs = list(plan.legs)
    legs[leg_index] = replace(legs[leg_index], first_paints=(*legs[leg_index].first_paints, paint))
    return replace(plan, legs=tuple(legs))


def _paint(plan: Plan, object_id: str) -> FirstPaint:
    return next(p for leg in plan.legs for p in leg.first_paints if p.object_id == object_id)


def _called(calls: tuple[WatchEvent, ...]) -> list[tuple[int, str]]:
    return [
        (call.leg_index, call.matter.object_id)
        for call in calls
        if isinstance(call.matter, FirstPaint)
    ]


def test_an_object_that_no_leg_uses_calls_nobody_but_stays_in_the_list() -> None:
    plan = _outcome().plan
    stray = replace(
        _paint(plan, "A"), object_id="Q", name="Q", overdue=at(5.0), normally_by=at(2.0)
    )
    plan = _with_paint_on(plan, 0, stray)
    assert (0, "Q") in _called(overdue_events(plan))
    assert (0, "Q") not in _called(master_calls(plan, (), ()))
    assert (0, "Q") in _called(master_calls(plan, (), ("Q",))), "the officer's own mark"


def test_an_object_of_the_leg_or_of_the_next_calls() -> None:
    plan = _outcome().plan
    used = {line.object.id for line in plan.legs[1].lines} - {
        line.object.id for line in plan.legs[0].lines
    }
    thing = sorted(used)[0]
    paint = replace(
        _paint(plan, "A"), object_id=thing, name=thing, overdue=at(5.0), normally_by=at(2.0)
    )
    legs = tuple(
        replace(leg, first_paints=tuple(p for p in leg.first_paints if p.object_id != thing))
        for leg in plan.legs
    )
    plan = _with_paint_on(replace(plan, legs=legs), 0, paint)
    assert (0, thing) in _called(master_calls(plan, (), ()))


def test_what_was_overdue_once_and_paints_ever_since_calls_no_second_time() -> None:
    plan = _outcome().plan
    first = _paint(plan, "A")
    lasting = replace(first.stretches[0], lasts=True) if first.stretches else None
    assert lasting is not None
    legs = tuple(replace(leg, first_paints=()) for leg in plan.legs)
    plan = replace(plan, legs=legs)
    before = replace(first, overdue=at(5.0), normally_by=at(2.0), stretches=(lasting,))
    again = replace(first, overdue=at(1.0), normally_by=START, stretches=(lasting,))
    marks = ("A",)
    both = _with_paint_on(_with_paint_on(plan, 0, before), 1, again)
    assert _called(master_calls(both, (), marks)) == [(0, "A")]
    lost = replace(before, stretches=(replace(lasting, lasts=False, lost_to="land"),))
    both = _with_paint_on(_with_paint_on(plan, 0, lost), 1, again)
    assert _called(master_calls(both, (), marks)) == [(0, "A"), (1, "A")]
    never_due = replace(before, overdue=_NEVER)
    both = _with_paint_on(_with_paint_on(plan, 0, never_due), 1, again)
    assert _called(master_calls(both, (), marks)) == [(1, "A")]


def test_what_a_later_leg_uses_calls_where_it_is_first_overdue_if_it_paints_ever_since() -> None:
    plan = _outcome().plan
    thing = "Q"
    line = plan.legs[0].lines[0]
    own = replace(line, object=replace(line.object, id=thing, name=thing))
    first = _paint(plan, "A")
    lasting = replace(first.stretches[0], lasts=True)
    legs = [replace(leg, first_paints=()) for leg in plan.legs]
    legs[2] = replace(legs[2], lines=(own,))
    plan = replace(plan, legs=tuple(legs))
    named = replace(first, object_id=thing, name=thing, stretches=(lasting,))
    due = replace(named, overdue=at(5.0), normally_by=at(2.0))
    goes_on = replace(named, overdue=START, normally_by=START)
    on_all = _with_paint_on(_with_paint_on(_with_paint_on(plan, 0, due), 1, goes_on), 2, goes_on)
    assert _called(master_calls(on_all, (), ())) == [(0, thing)]
    # Lost before the leg that uses it: nothing to call for on the first leg.
    off = replace(goes_on, normally_by=at(1.0))
    broken = _with_paint_on(_with_paint_on(_with_paint_on(plan, 0, due), 1, goes_on), 2, off)
    assert _called(master_calls(broken, (), ())) == []
