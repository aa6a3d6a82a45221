"""On every drawn leg the recommended screen shows what it has to; all land is invented.

The screen is worked out here by itself: a circle of nine tenths of the scale about a point ahead
of own ship; craft on collision courses are followed by their own tracks.
"""

import math

import numpy as np
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from core.plan.plan_result import IndexObject, LegPlan, Plan, Role, ScaleStretch
from core.plan.rules import DEFAULT_RULES
from tests.helpers.islands import NM
from tests.props.test_plan_properties import Spot, plan_over, spots

few = settings(
    max_examples=20, deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True
)
_OTHER_MPS = 15.0 * NM / 3600.0


def on_screen(stretch: ScaleStretch, ahead_m: float, cross_m: float) -> bool:
    middle_m = stretch.scale_m * stretch.off_centre_ratio
    return math.hypot(ahead_m - middle_m, cross_m) <= 0.9 * stretch.scale_m + 1.0


def track_place(plan: Plan, leg: LegPlan, thing: IndexObject) -> tuple[float, float]:
    along, cross = plan.passage.line(leg.leg_index).track_coordinates(
        np.array([thing.position.lat_deg]), np.array([thing.position.lon_deg])
    )
    return float(along[0]), float(cross[0])


def main_at(leg: LegPlan, place_m: float) -> list[ScaleStretch]:
    """Scales in use at a place; both where one ends and the next begins."""
    return [
        s
        for s in leg.scales
        if s.radar == "main" and s.from_along_m - 1e-6 <= place_m <= s.to_along_m + 1e-6
    ]


@few
@given(spots, st.sampled_from([20.0, 50.0, 80.0, 110.0]))
def test_the_screen_shows_index_objects_and_wheel_over_marks(
    items: list[Spot], turn_deg: float
) -> None:
    plan = plan_over(items, turn_deg=turn_deg)
    for leg in plan.legs:
        for line in leg.lines:
            along_m, cross_m = track_place(plan, leg, line.object)
            for place_m in np.linspace(line.from_along_m, line.to_along_m, 20):
                shown = [on_screen(s, along_m - place_m, cross_m) for s in main_at(leg, place_m)]
                assert any(shown), (line.role, line.object.id, place_m / NM)
        turn = leg.wheel_over
        if turn is not None and turn.second_mark is not None:
            along_m, cross_m = track_place(plan, leg, turn.second_mark.object)
            assert on_screen(main_at(leg, turn.along_m)[-1], along_m - turn.along_m, cross_m)


@few
@given(spots)
def test_the_screen_shows_every_craft_that_is_met_within_the_decision_time(
    items: list[Spot],
) -> None:
    for leg in plan_over(items).legs:
        own_mps, time_s = leg.speed_mps, DEFAULT_RULES.decision_time_s
        for stretch in (s for s in leg.scales if s.radar == "main"):
            for course_deg in range(0, 360, 10):
                # It comes to own ship from where it was the decision time ago.
                angle = math.radians(course_deg)
                ahead_m = time_s * (own_mps - _OTHER_MPS * math.cos(angle))
                cross_m = -time_s * _OTHER_MPS * math.sin(angle)
                assert on_screen(stretch, ahead_m, cross_m)


@few
@given(spots)
def test_the_first_object_of_the_next_leg_shows_at_the_wheel_over_or_is_told(
    items: list[Spot],
) -> None:
    plan = plan_over(items)
    for leg, after in zip(plan.legs, plan.legs[1:], strict=False):
        turn = leg.wheel_over
        first = [x for x in after.lines if x.role is Role.PRIMARY and x.from_along_m <= 1.0]
        if turn is None or not first:
            continue
        along_m, cross_m = track_place(plan, leg, first[0].object)
        end = main_at(leg, turn.along_m)[-1]
        told = [dict(reason.values)["object"] for reason in end.off_screen]
        is_shown = on_screen(end, along_m - turn.along_m, cross_m)
        assert is_shown or first[0].object.id in told


@few
@given(spots)
def test_a_craft_between_two_scans_never_reaches_the_scale_in_use_unseen(
    items: list[Spot],
) -> None:
    # C18: gap x closing speed <= spare distance.
    for leg in plan_over(items).legs:
        for stretch in leg.scales:
            if stretch.scan is None:
                continue
            closing_mps = leg.speed_mps + max(leg.speed_mps, _OTHER_MPS)
            run_m = stretch.scan.every_minutes * 60.0 * closing_mps
            assert run_m <= 0.9 * (stretch.scan.scale_m - stretch.scale_m) + 1.0
