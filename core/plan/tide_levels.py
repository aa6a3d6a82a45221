"""Low and high water, and what they make of heights and edges."""

from core.plan.rules import PlanRules


def low_and_high_m(rules: PlanRules) -> tuple[float, float]:
    """Low and high water above mean sea level, m: given, or half the tidal range to each side."""
    half_m = rules.tidal_range_m / 2.0
    low_m, high_m = rules.low_water_m, rules.high_water_m
    return (-half_m if low_m is None else low_m, half_m if high_m is None else high_m)


def height_at_water_m(height_m: float, *, water_now_m: float, water_m: float) -> float:
    """Height above other water of what stands ``height_m`` above the water now (job.md T17)."""
    return height_m + water_now_m - water_m


def steady_span_m(slope_ratio: float, rules: PlanRules) -> float:
    """How far the tide may rise or fall until an edge has moved by a tenth of a cable, m (T13)."""
    return rules.steady_edge_m * slope_ratio
