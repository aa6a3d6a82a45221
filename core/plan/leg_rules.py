"""The rules of planning with what the officer gives, and as a leg asks for them."""

from dataclasses import replace

from core.coverage.coverage_result import LegCoverage
from core.plan.request import Environment
from core.plan.rules import PlanRules
from core.plan.tide_levels import low_and_high_m


def rules_for(environment: Environment, rules: PlanRules) -> PlanRules:
    """The rules with what the officer gives: traffic, times, tidal range of the waters."""
    rules = replace(
        rules,
        other_speed_mps=environment.traffic_speed_mps or rules.other_speed_mps,
        decision_time_s=environment.decision_time_s or rules.decision_time_s,
        fix_interval_s=environment.fix_interval_s or rules.fix_interval_s,
        overlap_s=environment.overlap_s or rules.overlap_s,
    )
    if environment.pass_off_m is not None:
        rules = replace(rules, pass_off_m=environment.pass_off_m)
    low_m, high_m, range_m = environment.low_m, environment.high_m, environment.tidal_range_m
    rules = replace(rules, low_water_m=low_m, high_water_m=high_m)
    if range_m is None and low_m is not None and high_m is not None:
        range_m = high_m - low_m
    if range_m is not None:
        rules = replace(rules, tidal_range_m=range_m, is_tidal_range_assumed=False)
    rise_m = max(low_and_high_m(rules)[1] - environment.water_level_m, 0.0)
    return replace(rules, doubtful_height_m=environment.height_error_m + rise_m)


def rules_of_leg(environment: Environment, rules: PlanRules, leg: LegCoverage) -> PlanRules:
    """The rules for one leg: in the open sea more time is kept in hand, unless it is given.

    Open sea is where no land is known within ``open_sea_m`` of the track, and none may be.
    """
    if environment.decision_time_s is not None or not leg.is_complete:
        return rules
    ranges_m = [view.nearest_land_range_m for view in leg.on_track()]
    if any(range_m is not None and range_m <= rules.open_sea_m for range_m in ranges_m):
        return rules
    return replace(rules, decision_time_s=rules.open_sea_decision_time_s)
