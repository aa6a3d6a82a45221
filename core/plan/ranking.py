"""How good an object is to index on along a leg, as a score with its reasons (job.md 2.3, 2.4)."""

import math
from dataclasses import dataclass

from core.plan import reason_codes
from core.plan.blind_sectors import blinded
from core.plan.feature import Feature
from core.plan.intervals import length_m
from core.plan.plan_result import Edge, ObjectKind, Reason
from core.plan.rules import PlanRules
from core.plan.usable_window import UsableWindow

_STRAIGHT_ROUNDING_M = 2_000.0
_WINDOW_SCORE = 30.0
_GOOD_SCORE = 70.0
"""What a lone charted mark scores that comes abeam a mile off; nothing is much better."""
_BEST_CROSS_M = 1_852.0
_FAR_CROSS_M = 11_112.0
_LONE_M = 926.0
_LOW_M = 5.0
_AWASH_M = 2.0
_MASKED_RATIO = 0.5
_NEAR_CORRIDORS = 3.0
_WALK_ANGLE_DEG = 30.0
"""Nearer abeam than this the near side is lit well enough to be read itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rank:
    """Score of an object on a leg."""

    score: float
    quality_ratio: float
    """The score without what the length of the window adds, as a share of a good object's."""
    is_weak: bool
    """Never first: it slides, moves with the tide, is partly masked or has no point to hold."""
    reason: Reason


@dataclass(frozen=True, slots=True, kw_only=True)
class LegTerms:
    """What ranking needs to know of a leg."""

    end_m: float
    corridor_m: float
    limit_m: float
    """Error limit on the scale in use, m."""
    echo_m: float
    """Nearer to each other than this two echoes are not told apart half-way out on the screen."""


def tangent_walk_m(feature: Feature, *, cross_m: float, reach_along_m: float) -> float:
    """How far the tangent of a rounded headland reads beyond its edge at the worst, m.

    Seen at an angle b off the track line, the tangent touches a waterline of radius q at a place
    q (1 - cos b) farther off the track than its nearest point (plain geometry). From more than
    30 deg off the track line the near side itself is lit and nothing walks (a judgement of ours).
    """
    nearest_b = math.degrees(math.atan2(abs(cross_m), max(reach_along_m, 1.0)))
    worst = _WALK_ANGLE_DEG if nearest_b < _WALK_ANGLE_DEG else 0.0
    return feature.rounding_m * (1.0 - math.cos(math.radians(worst)))


def rank(
    feature: Feature,
    window: UsableWindow,
    *,
    terms: LegTerms,
    leg_count: int,
    is_chosen: bool,
    rules: PlanRules,
) -> Rank:
    """Score an object.

    Parameters
    ----------
    feature : Feature
        The object.
    window : UsableWindow
        Where it can be used on this leg.
    terms : LegTerms
        The leg.
    leg_count : int
        On how many legs it can be used.
    is_chosen : bool
        Whether the officer chose it.
    rules : PlanRules
        Figures.
    """
    edge = window.edge
    cross = abs(edge.cross_m)
    usable = sum(stop - start for start, stop in window.windows)
    share = usable / terms.end_m if terms.end_m > 0.0 else 0.0
    score = _WINDOW_SCORE * min(share, 1.0)
    values: list[tuple[str, float | str]] = [
        ("kind", feature.kind.value),
        ("window_m", usable),
        ("window_ratio", min(share, 1.0)),
        ("cross_m", cross),
    ]
    if 0.0 <= edge.along_m <= terms.end_m:
        score += 10.0
        values.append(("abeam_m", edge.along_m))
    score += 15.0 * _nearness(cross)
    shape_score, shape_values, is_weak = _shape(feature, edge.edge, window, terms, rules)
    score += shape_score
    values += shape_values
    if feature.isolation_m is not None and feature.isolation_m < terms.echo_m:
        score -= 5.0
        values.append(("crowded_m", feature.isolation_m))
    elif feature.isolation_m is not None:
        score += 10.0 * min(feature.isolation_m / _LONE_M, 1.0)
        values.append(("isolated_m", feature.isolation_m))
    if leg_count > 1:
        score += 5.0
        values.append(("legs", float(leg_count)))
    if feature.mark is not None and feature.mark.is_on_chart:
        score += 10.0
        values.append(("on_chart", 1.0))
    masked = window.masked_m / window.geometric_m if window.geometric_m > 0.0 else 0.0
    if masked > _MASKED_RATIO:
        score -= 10.0
        is_weak = True
        values.append(("masked_ratio", masked))
    lost = length_m(blinded(window.blind))
    if lost > 0.0:
        score -= 5.0
        values.append(("blind_m", lost))
    if cross < min(rules.near_cross_m, _NEAR_CORRIDORS * terms.corridor_m):
        score -= 10.0
        is_weak = True
        values.append(("near_m", cross))
    if cross <= terms.corridor_m:
        score -= 15.0
        is_weak = True
        values.append(("in_corridor", 1.0))
    if is_chosen:
        values.append(("chosen", 1.0))
    return Rank(
        score=score,
        quality_ratio=(score - _WINDOW_SCORE * min(share, 1.0)) / _GOOD_SCORE,
        is_weak=is_weak,
        reason=Reason(code=reason_codes.INDEX_OBJECT, values=tuple(values)),
    )


def is_straight(feature: Feature) -> bool:
    """Whether a coast is so straight that it has no point to hold."""
    return feature.rounding_m > _STRAIGHT_ROUNDING_M


def _nearness(cross_m: float) -> float:
    """1 at a mile off, falling to 0 at six miles and towards the track."""
    if cross_m <= _BEST_CROSS_M:
        return cross_m / _BEST_CROSS_M
    return max(0.0, 1.0 - (cross_m - _BEST_CROSS_M) / (_FAR_CROSS_M - _BEST_CROSS_M))


def _shape(
    feature: Feature, edge: Edge, window: UsableWindow, terms: LegTerms, rules: PlanRules
) -> tuple[float, list[tuple[str, float | str]], bool]:
    """Score, values and weakness from the form of the object and its shore."""
    score, is_weak = 0.0, False
    values: list[tuple[str, float | str]] = [("extent_m", feature.extent_m)]
    if edge is Edge.TANGENT:
        walk = tangent_walk_m(
            feature,
            cross_m=window.edge.cross_m,
            reach_along_m=max(
                (abs(window.edge.along_m - place) for part in window.windows for place in part),
                default=0.0,
            ),
        )
        if is_straight(feature):
            is_weak = True
            values.append(("straight", 1.0))
        elif walk > terms.limit_m:
            is_weak = True
            values.append(("slides_m", walk))
        else:
            score += 5.0
    else:
        small = feature.extent_m < rules.islet_extent_m and feature.kind is not ObjectKind.HEADLAND
        score += 20.0 if small else 12.0
        values.append(("sharp", 1.0))
    if window.edge.inside_m > 0.0:
        values.append(("paints_inside_m", window.edge.inside_m))
    if window.spread_m > terms.limit_m / 2.0:
        values.append(("paint_spread_m", window.spread_m))
    if window.spread_m > terms.limit_m:
        score -= 5.0
        is_weak = True
    shore_score, shore_values, moves = _shore(feature, terms, rules)
    score += shore_score
    values += shore_values
    is_weak = is_weak or moves
    if feature.mark is None and feature.height_m < _LOW_M:
        score -= 10.0
        is_weak = is_weak or is_awash(feature)
        values.append(("low_m", feature.height_m))
    return score, values, is_weak


def is_awash(feature: Feature) -> bool:
    """Whether a thing on land is so low that it may not show at all."""
    return feature.mark is None and feature.height_m < _AWASH_M


def is_doubtful(kind: ObjectKind, height_m: float, rules: PlanRules) -> bool:
    """Whether a small piece of land may lie under water, for all that heights and tide say."""
    return kind in (ObjectKind.ISLET, ObjectKind.ROCK) and height_m <= rules.doubtful_height_m


def is_mobile(feature: Feature, *, limit_m: float, rules: PlanRules) -> bool:
    """Whether the tide moves an object's edge too far for it to come first.

    Farther than the error limit, so that it takes half of it to either side, or than
    ``rules.tide_most_m``; or by more than the data can tell.
    """
    rise = feature.rise
    if rise is None:
        return False
    return rise.is_low or rise.movement_m(rules.tidal_range_m) > min(limit_m, rules.tide_most_m)


def tide_error_m(feature: Feature, rules: PlanRules) -> float:
    """What the tide adds to the error of a cross-index range, m: half the movement of the edge.

    The edge lies somewhere between its places at low and high water (handbook 10.1, ``d_tide``).
    0 where the slope of the shore is not known, and for marks.
    """
    return 0.0 if feature.rise is None else feature.rise.movement_m(rules.tidal_range_m) / 2.0


def _shore(
    feature: Feature, terms: LegTerms, rules: PlanRules
) -> tuple[float, list[tuple[str, float | str]], bool]:
    """Score, values and weakness from how the shore rises."""
    rise = feature.rise
    if rise is None:
        return 0.0, [] if feature.mark is not None else [("shore_unknown", 1.0)], False
    values: list[tuple[str, float | str]] = []
    if not rise.is_low:
        values.append(("slope", rise.slope_ratio))
    if rise.sure_slope_ratio >= rules.steep_ratio:
        return 10.0, [*values, ("steep_to", 1.0)], False
    moves = rise.movement_m(rules.tidal_range_m)
    if rise.is_low and rise.rise_m <= 0.0:
        return -5.0, [("shore_blank_m", moves)], True
    tide: list[tuple[str, float | str]] = [
        ("low_shore_m" if rise.is_low else "tide_moves_m", moves),
        ("tide_m", rules.tidal_range_m),
        ("tide_assumed", float(rules.is_tidal_range_assumed)),
    ]
    if is_mobile(feature, limit_m=terms.limit_m, rules=rules):
        return -5.0, [*values, *tide], True
    score = 10.0 * min(rise.slope_ratio / rules.steep_ratio, 1.0)
    return score, [*values, *(tide if moves > terms.limit_m / 2.0 else [])], False
