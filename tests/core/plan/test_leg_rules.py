"""More time in hand in the open sea (job.md 3.13; common practice, no source)."""

from dataclasses import replace

import pytest

from core.base.units import m_from_nm
from core.coverage.coverage_result import LegCoverage
from core.plan.leg_rules import rules_of_leg
from core.plan.request import Environment
from core.plan.rules import DEFAULT_RULES
from tests.helpers.sample_outcome import sample_outcome


def _leg(nearest_nm: float | None, *, is_complete: bool = True) -> LegCoverage:
    leg = sample_outcome().coverage.legs[0]
    nearest_m = None if nearest_nm is None else m_from_nm(nearest_nm)
    views = tuple(replace(view, nearest_land_range_m=nearest_m) for view in leg.viewpoints)
    return replace(leg, viewpoints=views, is_complete=is_complete)


@pytest.mark.parametrize(
    ("leg", "minutes"),
    [
        (_leg(2.0), 6.0),
        (_leg(12.0), 15.0),
        (_leg(None), 15.0),
        (_leg(None, is_complete=False), 6.0),
    ],
)
def test_far_from_all_land_more_time_is_kept_in_hand(leg: LegCoverage, minutes: float) -> None:
    rules = rules_of_leg(Environment(), DEFAULT_RULES, leg)
    assert rules.decision_time_s == minutes * 60.0


def test_what_the_officer_gives_holds_everywhere() -> None:
    given = Environment(decision_time_s=600.0)
    assert rules_of_leg(given, DEFAULT_RULES, _leg(None)) is DEFAULT_RULES
