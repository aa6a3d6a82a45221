"""Ratios of first-paint ranges seen over expected, their trend, near against far (job.md C7, B18).

A weaker radar sees everything late, near objects most, since those beyond its horizon are bounded
by the bulge of the Earth; weak refraction takes away far ones most (job.md 4.2.3). By the detection
model with an antenna of 25 m: 6 dB less gives ratios of 0.86 to 0.90 near and 0.96 far, k 1.0 gives
0.93 to 0.95 near and 0.88 far. Which it is can be told only where both near and far are seen.
"""

import math
import statistics
from collections.abc import Sequence
from itertools import combinations

import numpy as np

from core.base.language import tr
from core.geodesy import geodesic
from core.plan.observed_result import (
    Comparison,
    Expected,
    ExpectedLeg,
    ExpectedPlan,
    Hint,
    ObservedReport,
    RadarRecord,
    Sighting,
    Trend,
)

LATE_RATIO = 0.93
"""Below this a middle ratio counts as late: places are tried every half mile and an edge is not
caught at once, which makes some hundredths (judgement of ours)."""
EARLY_RATIO = 1.07
LEAST_EACH = 2
"""Near and far sightings that are wanted before anything is said of either."""
LEAST_FOR_TREND = 5
_CHANCE = 1.96
"""Of a normal deviate: one in twenty by chance."""


def observed_report(plan: ExpectedPlan, sightings: Sequence[Sighting]) -> ObservedReport:
    """Compare what was seen with what a plan expected.

    Parameters
    ----------
    plan : ExpectedPlan
        First paints of an earlier plan.
    sightings : sequence of Sighting
        In any order.
    """
    legs = {leg.number: leg for leg in plan.legs}
    ordered = sorted(
        (_compared(plan, legs.get(sighting.leg_number), sighting) for sighting in sightings),
        key=lambda item: (item.sighting.leg_number, _along_m(legs, item)),
    )
    radars = list(dict.fromkeys((*plan.radars, *(item.radar for item in ordered))))
    records = [
        _record(radar, own, plan.horizon_m)
        for radar in radars
        if (own := [item for item in ordered if item.radar == radar and item.ratio is not None])
    ]
    return ObservedReport(plan=plan, comparisons=tuple(ordered), records=tuple(records))


def _compared(plan: ExpectedPlan, leg: ExpectedLeg | None, sighting: Sighting) -> Comparison:
    main = plan.radars[0] if plan.radars else ""
    radar = next(
        (name for name in plan.radars if name.casefold() == sighting.radar.casefold()),
        sighting.radar or main,
    )
    thing = None if leg is None else _expected(leg, sighting.object_id)
    expected_m = None if thing is None else dict(thing.range_by_radar_m).get(radar)
    seen_m, why = sighting.range_m, ""
    if leg is None:
        why = tr("the plan has no leg {leg_number}", leg_number=sighting.leg_number)
    elif thing is None:
        why = tr(
            "the plan expects no first paint of it on leg {leg_number}",
            leg_number=sighting.leg_number,
        )
    elif radar not in plan.radars:
        why = tr("the plan knows no radar «{radar}»", radar=radar)
    elif expected_m is None:
        is_main = radar == main
        why = thing.reason if is_main and thing.reason else tr("no first paint of it on this radar")
    elif seen_m is None:
        seen_m, why = _range_at(leg, thing, sighting)
    return Comparison(
        sighting=sighting,
        name="" if thing is None else thing.name,
        radar=radar,
        expected_m=expected_m,
        seen_m=seen_m,
        is_by_time=sighting.range_m is None,
        why=why,
    )


def _expected(leg: ExpectedLeg, object_id: str) -> Expected | None:
    wanted = object_id.casefold()
    return next((thing for thing in leg.paints if thing.object_id.casefold() == wanted), None)


def _range_at(leg: ExpectedLeg, thing: Expected, sighting: Sighting) -> tuple[float | None, str]:
    """Range of an object from the planned track at a time, m, or why there is none."""
    start, end, seen = leg.start_utc, leg.end_utc, sighting.seen_utc
    if seen is None:
        return None, tr("neither a range nor a time was written down")
    if start is None or end is None or end <= start:
        return None, tr("the plan has no times: write the range down")
    share = (seen - start).total_seconds() / (end - start).total_seconds()
    if not -1e-9 <= share <= 1.0 + 1e-9:
        return None, tr(
            "the ship was not on leg {leg_number} then by the plan: write the range down",
            leg_number=leg.number,
        )
    place = leg.line.position_at(share * leg.line.length_m)
    distance, _first, _last = geodesic.inverse(
        from_lat_deg=place.lat_deg,
        from_lon_deg=place.lon_deg,
        to_lat_deg=thing.position.lat_deg,
        to_lon_deg=thing.position.lon_deg,
    )
    return float(distance), ""


def _along_m(legs: dict[int, ExpectedLeg], item: Comparison) -> float:
    """About how far along its leg an object was seen: ahead of its abeam by the range."""
    leg = legs.get(item.sighting.leg_number)
    thing = None if leg is None else _expected(leg, item.sighting.object_id)
    if leg is None or thing is None or item.seen_m is None:
        return 0.0
    along, cross = leg.line.track_coordinates(
        np.array([thing.position.lat_deg]), np.array([thing.position.lon_deg])
    )
    ahead_m = math.sqrt(max(item.seen_m**2 - float(cross[0]) ** 2, 0.0))
    return float(along[0]) - ahead_m


def _record(radar: str, own: list[Comparison], horizon_m: float) -> RadarRecord:
    """What the sightings of one radar come to; all have a ratio."""
    pairs = [(item.expected_m or 0.0, item.ratio or 0.0) for item in own]
    near = [ratio for expected_m, ratio in pairs if expected_m <= horizon_m]
    far = [ratio for expected_m, ratio in pairs if expected_m > horizon_m]
    ratios = [ratio for _expected_m, ratio in pairs]
    trend = trend_of(ratios)
    half = len(ratios) // 2
    has_trend = trend in (Trend.FALLING, Trend.RISING)
    return RadarRecord(
        radar=radar,
        count=len(ratios),
        middle_ratio=_middle(ratios),
        near_count=len(near),
        near_ratio=_middle(near),
        far_count=len(far),
        far_ratio=_middle(far),
        trend=trend,
        first_ratio=_middle(ratios[:half]) if has_trend else None,
        last_ratio=_middle(ratios[-half:]) if has_trend else None,
        hint=hint_of(near, far),
    )


def _middle(ratios: Sequence[float]) -> float | None:
    return statistics.median(ratios) if ratios else None


def hint_of(near: Sequence[float], far: Sequence[float]) -> Hint:
    """What ratios of near and of far objects speak for."""
    if len(near) + len(far) < LEAST_EACH:
        return Hint.TOO_FEW
    whole = statistics.median((*near, *far))
    if len(near) < LEAST_EACH or len(far) < LEAST_EACH:
        if whole < LATE_RATIO:
            return Hint.ONE_SIDED
        return Hint.EARLY if whole > EARLY_RATIO else Hint.AS_EXPECTED
    near_ratio, far_ratio = statistics.median(near), statistics.median(far)
    if min(near_ratio, far_ratio) < LATE_RATIO:
        return Hint.RADAR if near_ratio <= far_ratio else Hint.AIR
    return Hint.EARLY if whole > EARLY_RATIO else Hint.AS_EXPECTED


def trend_of(ratios: Sequence[float]) -> Trend:
    """Whether ratios in the order of the voyage fall or rise more than chance makes them.

    Kendall's test of rank correlation with time: the sum of the signs of all later minus earlier
    pairs over its deviation sqrt(n (n - 1) (2 n + 5) / 18) (Kendall 1938; from memory).
    """
    count = len(ratios)
    if count < LEAST_FOR_TREND:
        return Trend.UNKNOWN
    signs = sum((later > earlier) - (later < earlier) for earlier, later in combinations(ratios, 2))
    deviation = math.sqrt(count * (count - 1) * (2 * count + 5) / 18.0)
    if abs(signs) <= _CHANCE * deviation:
        return Trend.NONE
    return Trend.FALLING if signs < 0 else Trend.RISING
