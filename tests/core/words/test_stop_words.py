"""Stops of own ship along a leg: each event told once, in order, where it is."""

import itertools
from dataclasses import replace

import pytest

from core.plan.plan_result import Role
from core.words.stop_words import LegStop, leg_stops
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.sample_paints import with_paints


def _at(stops: tuple[LegStop, ...], along_m: float) -> str:
    return next((s.words for s in stops if abs(s.along_m - along_m) < 1.0), "")


@pytest.mark.parametrize("leg_index", [0, 1, 2])
def test_stops_lie_on_the_leg_in_order_and_no_two_on_one_place(leg_index: int) -> None:
    plan = sample_outcome().plan
    stops = leg_stops(plan, leg_index)
    places = [stop.along_m for stop in stops]
    assert places == sorted(places)
    assert all(b - a >= 1.0 for a, b in itertools.pairwise(places))
    assert places[0] == 0.0
    assert places[-1] == pytest.approx(plan.legs[leg_index].distance_m)


def test_windows_hand_overs_wheel_over_and_scales_are_stops() -> None:
    plan = sample_outcome().plan
    leg, stops = plan.legs[0], leg_stops(plan, 0)
    for line in leg.lines:
        if line.role is not Role.WHEEL_OVER:
            assert f"{line.object.id} " in _at(stops, line.from_along_m)
            assert "ends" in _at(stops, line.to_along_m)
    hand_over = leg.hand_overs[0]
    assert "hand over A to B" in _at(stops, hand_over.from_along_m)
    assert "to be done by here" in _at(stops, hand_over.to_along_m)
    assert leg.wheel_over is not None
    assert "WHEEL TO STARBOARD 060° T" in _at(stops, leg.wheel_over.along_m)
    for alert_m in leg.wheel_over.pre_alert_along_m:
        assert "pre-alert" in _at(stops, alert_m)
    assert "scale 3 NM" in _at(stops, 0.0)


def test_all_four_limits_of_a_first_paint_are_stops() -> None:
    plan = with_paints(sample_outcome()).plan
    used = {line.object.id for leg in plan.legs for line in leg.lines}
    told = 0
    for leg in plan.legs:
        stops = leg_stops(plan, leg.leg_index)
        for paint in leg.first_paints:
            if paint.object_id not in used:
                continue
            for limit, words in (
                (paint.normally_by, "is expected to paint by here"),
                (paint.overdue, "OVERDUE from here if it has not painted"),
                (paint.normally_from, "may normally paint"),
                (paint.earliest_possible, "at the earliest"),
            ):
                if limit.moment is not None and limit.moment.along_m >= 0.0:
                    here = _at(stops, limit.moment.along_m)
                    assert paint.object_id in here
                    told += words in here
    assert told >= 4


def test_the_same_words_are_told_once_on_a_place() -> None:
    outcome = sample_outcome()
    leg = outcome.plan.legs[0]
    doubled = replace(leg, lines=(*leg.lines, leg.lines[0]))
    plan = replace(outcome.plan, legs=(doubled, *outcome.plan.legs[1:]))
    words = _at(leg_stops(plan, 0), leg.lines[0].to_along_m)
    assert words.count("index line on A STARBOARD ends") == 1
