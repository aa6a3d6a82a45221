"""Islets that may lie under water are wheel-over marks only where nothing else is; all invented."""

from core.plan.plan_result import ObjectKind, Plan
from core.plan.ranking import is_doubtful
from core.plan.rules import DEFAULT_RULES
from tests.helpers.islands import NM, flat_sea, islet, track
from tests.helpers.plans import covered, planned, with_turn_radius


def _plan(*islets: tuple[float, float, float]) -> Plan:
    """North 8 NM, then 060, past islets given by east and north, NM, and height, m."""
    sea = flat_sea(half_width_m=16.0 * NM, cell_m=60.0)
    for east_nm, north_nm, height_m in islets:
        sea = sea.land(islet(east_nm * NM, north_nm * NM, width_m=120.0), height_m)
    land = sea.model()
    passage = with_turn_radius(
        track((0.0, -4.0 * NM), (0.0, 4.0 * NM), (5.2 * NM, 7.0 * NM)), 0.8 * NM
    )
    return planned(land, passage, covered(land, passage))


def _told(plan: Plan) -> list[str]:
    return [f.what for f in plan.findings if f.code == "wheel-over-on-doubtful-islet"]


def test_height_error_and_high_water_together_make_an_islet_doubtful() -> None:
    # 5 m of height error and half the assumed range of 4 m.
    assert is_doubtful(ObjectKind.ISLET, 7.0, DEFAULT_RULES)
    assert not is_doubtful(ObjectKind.ISLET, 7.1, DEFAULT_RULES)
    assert not is_doubtful(ObjectKind.HEADLAND, 3.0, DEFAULT_RULES)


def test_a_farther_islet_that_stands_for_sure_goes_before_a_low_one() -> None:
    low, high, higher = (0.9, 3.2, 3.0), (-0.9, 1.8, 30.0), (1.4, 2.6, 38.0)
    plan = _plan(low, high, higher)
    turn = plan.legs[0].wheel_over
    assert turn is not None
    assert turn.line is not None
    assert turn.second_mark is not None
    used = {turn.line.object.height_above_water_m, turn.second_mark.object.height_above_water_m}
    assert used == {30.0, 38.0}
    assert _told(plan) == []


def test_where_nothing_else_is_a_low_islet_serves_with_a_finding() -> None:
    plan = _plan((0.9, 3.2, 3.0))
    turn = plan.legs[0].wheel_over
    assert turn is not None
    assert turn.line is not None
    assert turn.line.object.height_above_water_m == 3.0
    (what,) = _told(plan)
    assert what.startswith(f"the wheel-over is read off {turn.line.object.id}, no higher than")
