"""Edges of index objects at low and high water, in words."""

import math

from core.base.language import Texts, tr
from core.base.units import nm_from_m
from core.plan.request import Environment
from core.plan.rules import PlanRules
from core.plan.tide_edge_result import EdgeAtTide, Holds, TideEdge
from core.plan.tide_levels import low_and_high_m
from core.words import quantities


class Tidal(Texts):
    """Titles, heads and short phrases."""

    PART = "Edges at two tides"
    TITLE = "Edges of index objects at low and high water"
    COLUMN_PLANNED = "as planned"
    COLUMN_LOW = "low water"
    COLUMN_HIGH = "high water"
    COLUMN_MOVES = "moves"
    COLUMN_STEADY = "within 0.1 cable"
    UNKNOWN = "shore not known"
    ANY_TIDE = "at any tide"
    MEANS = "Below the water of the plan the slope above it is taken to go on: see the chart"
    NO_MOVE = "not at all"


_HOLDS = {
    Holds.YES: tr("line holds"),
    Holds.IN_PART: tr("line holds in part"),
    Holds.COVERED: tr("COVERED OR AWASH"),
    Holds.TOO_NEAR: tr("TOO NEAR to index"),
    Holds.OUT_OF_USE: tr("LINE DOES NOT HOLD"),
    Holds.UNKNOWN: tr("edge not known"),
}


def waters_words(environment: Environment, rules: PlanRules) -> str:
    """Which low and high water are meant, and where they come from."""
    low_m, high_m = low_and_high_m(rules)
    if environment.low_m is not None:
        source = tr("as given")
    elif rules.is_tidal_range_assumed:
        source = tr(
            "half of an ASSUMED {tidal_range_m:g} m each way", tidal_range_m=rules.tidal_range_m
        )
    else:
        source = tr("half of {tidal_range_m:g} m each way", tidal_range_m=rules.tidal_range_m)
    low, high = water_words(low_m, environment), water_words(high_m, environment)
    return tr("Low water {low}, high water {high}: {source}", low=low, high=high, source=source)


def water_words(water_m: float, environment: Environment) -> str:
    """A height of the water: above chart datum (CD) where mean sea level (MSL) is given."""
    mean_m = environment.mean_sea_level_m
    if mean_m is not None:
        return tr("{height_m:.1f} m above CD", height_m=water_m + mean_m)
    if water_m < 0.0:
        return tr("{height_m:.1f} m below MSL", height_m=-water_m)
    return tr("{height_m:.1f} m above MSL", height_m=abs(water_m))


def at_tide_words(edge: TideEdge, at: EdgeAtTide) -> tuple[str, str]:
    """The range to the edge, and height with what becomes of the line."""
    if at.cross_index_range_m is None:
        reading = quantities.DASH
    else:
        reading = quantities.index_range(at.cross_index_range_m, edge.range_scale_m)
    height = tr("below the water") if at.height_m <= 0.0 else quantities.height(at.height_m)
    return reading, f"{height}, {_HOLDS[at.holds]}"


def moves_words(edge: TideEdge) -> str:
    """How far the edge moves from low to high water, in cables; up, down where only a least."""
    if edge.moves_m is None:
        return str(Tidal.UNKNOWN)
    if edge.moves_m == 0.0:
        return str(Tidal.NO_MOVE)
    tenths = nm_from_m(edge.moves_m) * 100.0
    if edge.is_at_least:
        return tr("more than {cables:.1f} c", cables=math.floor(tenths + 1e-06) / 10.0)
    return f"{math.ceil(tenths - 1e-6) / 10.0:.1f} c"


def steady_words(edge: TideEdge, environment: Environment) -> str:
    """Between which heights of tide the edge keeps within a tenth of a cable of the planned one.

    Rounded inwards, to the tenth of a metre.
    """
    if edge.is_steady:
        return str(Tidal.ANY_TIDE)
    if edge.steady_from_m is None or edge.steady_to_m is None:
        return quantities.DASH
    mean_m = environment.mean_sea_level_m or 0.0
    low = math.ceil((edge.steady_from_m + mean_m) * 10.0 - 1e-6) / 10.0 + 0.0
    high = math.floor((edge.steady_to_m + mean_m) * 10.0 + 1e-6) / 10.0 + 0.0
    datum = tr("MSL") if environment.mean_sea_level_m is None else tr("CD")
    if low > high:
        return tr(
            "only at the planned tide, {datum} {height_m:.1f} m",
            datum=datum,
            height_m=mean_m + _middle_m(edge),
        )
    return tr("{low:+.1f} to {high:+.1f} m {datum}", low=low, high=high, datum=datum)


def _middle_m(edge: TideEdge) -> float:
    return ((edge.steady_from_m or 0.0) + (edge.steady_to_m or 0.0)) / 2.0
