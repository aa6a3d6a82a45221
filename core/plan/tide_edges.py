"""What low and high water make of the edges that index lines are laid on (job.md B4, C13)."""

import math
from dataclasses import replace

from core.coverage.profiles import horizon_distance_m
from core.plan.candidates import Candidate, LegField
from core.plan.feature import Feature
from core.plan.intervals import Intervals, intersection, length_m, union
from core.plan.leg_context import LegContext
from core.plan.plan_result import IndexLine, Role
from core.plan.rules import PlanRules
from core.plan.shore_rise import ShoreRise, edge_movement_m
from core.plan.tide_edge_result import EdgeAtTide, Holds, TideEdge
from core.plan.tide_levels import height_at_water_m, low_and_high_m, steady_span_m
from core.plan.usable_window import ScaleSpan, track_window

_ROLES = (Role.PRIMARY, Role.CHECK, Role.MARGIN)
_WHOLE_RATIO = 0.98
"""A stretch that keeps this share of itself is whole: viewpoints stand no closer."""


def tide_edges(
    field: LegField,
    candidates: tuple[Candidate, ...],
    lines: tuple[IndexLine, ...],
    spans: tuple[ScaleSpan, ...],
    context: LegContext,
) -> tuple[TideEdge, ...]:
    """Every object of a primary, check or margin line at low and at high water.

    Parameters
    ----------
    field : LegField
        The leg.
    candidates : tuple of Candidate
        Objects that can be used on it.
    lines : tuple of IndexLine
        Lines that are laid.
    spans : tuple of ScaleSpan
        Scales along the leg.
    context : LegContext
        Land, letters, tide.

    Returns
    -------
    tuple of TideEdge
        In the order of the lines, each object once.

    Notes
    -----
    The edge moves straight towards the track as the water falls, by what it falls over the slope
    of the shore. What lies below the water of the plan is not in the data: there the slope above
    it is taken to go on. Sight is that of the plan; the ship floats with the water.
    """
    by_id = {context.ids[candidate.key]: candidate for candidate in candidates}
    laid: dict[str, list[IndexLine]] = {}
    for line in lines:
        if line.role in _ROLES and line.object.id in by_id:
            laid.setdefault(line.object.id, []).append(line)
    return tuple(
        _tide_edge(field, by_id[object_id], own, spans, context) for object_id, own in laid.items()
    )


def _tide_edge(
    field: LegField,
    candidate: Candidate,
    own: list[IndexLine],
    spans: tuple[ScaleSpan, ...],
    context: LegContext,
) -> TideEdge:
    feature, edge, rules = candidate.track.feature, candidate.window.edge, context.rules
    now_m = context.land.water_level_m
    low_m, high_m = low_and_high_m(rules)
    planned = union(tuple((line.from_along_m, line.to_along_m) for line in own), join_m=1.0)
    rise = feature.rise
    moves_m = None if rise is None else rise.movement_m(high_m - low_m)
    if feature.mark is not None:
        moves_m = 0.0
    steady: tuple[float | None, float | None] = (None, None)
    if rise is not None and not rise.is_low:
        span_m = steady_span_m(rise.slope_ratio, rules)
        if max(high_m - now_m, now_m - low_m) > span_m:
            steady = now_m - span_m, now_m + span_m

    def at(water_m: float) -> EdgeAtTide:
        return _at_tide(field, candidate, planned, spans, context, water_m)

    return TideEdge(
        object=context.make_object(candidate.track, edge),
        side=own[0].side,
        range_scale_m=max(line.range_scale_m for line in own),
        cross_index_range_m=abs(edge.cross_m),
        low=at(low_m),
        high=at(high_m),
        moves_m=moves_m,
        is_at_least=rise is not None and rise.is_low,
        steady_from_m=steady[0],
        steady_to_m=steady[1],
    )


def _at_tide(
    field: LegField,
    candidate: Candidate,
    planned: Intervals,
    spans: tuple[ScaleSpan, ...],
    context: LegContext,
    water_m: float,
) -> EdgeAtTide:
    feature, edge = candidate.track.feature, candidate.window.edge
    now_m = context.land.water_level_m
    height_m = height_at_water_m(feature.height_m, water_now_m=now_m, water_m=water_m)
    nearer_m = edge_nearer_m(feature, falls_m=now_m - water_m)
    cross_m = None if nearer_m is None else max(abs(edge.cross_m) - nearer_m, 0.0)
    return EdgeAtTide(
        water_m=water_m,
        height_m=height_m,
        nearer_m=nearer_m,
        cross_index_range_m=cross_m,
        horizon_m=float(
            horizon_distance_m(
                context.settings.antenna_height_m, height_m, context.settings.refraction_k
            )
        ),
        holds=_holds(field, candidate, planned, spans, context.rules, height_m, nearer_m),
    )


def edge_nearer_m(feature: Feature, *, falls_m: float) -> float | None:
    """How much nearer to the track an edge comes as the water falls, m; None if not known.

    Negative where the water rises. A mark has no shore and stays.
    """
    if feature.mark is not None or falls_m == 0.0:
        return 0.0
    rise: ShoreRise | None = feature.rise
    if rise is None or rise.is_low:
        return None
    return math.copysign(
        edge_movement_m(rise_m=abs(falls_m), slope_ratio=rise.slope_ratio), falls_m
    )


def _holds(
    field: LegField,
    candidate: Candidate,
    planned: Intervals,
    spans: tuple[ScaleSpan, ...],
    rules: PlanRules,
    height_m: float,
    nearer_m: float | None,
) -> Holds:
    """Whether the object, moved and higher or lower, can be used where it is planned to be."""
    feature, edge = candidate.track.feature, candidate.window.edge
    if height_m < (rules.least_height_m if feature.mark is None else 0.0):
        return Holds.COVERED
    if nearer_m is None:
        return Holds.UNKNOWN
    if abs(edge.cross_m) - nearer_m < rules.least_cross_m:
        return Holds.TOO_NEAR
    towards = math.copysign(1.0, edge.cross_m)
    track = replace(
        candidate.track,
        cross_m=candidate.track.cross_m - towards * nearer_m,
        feature=replace(feature, height_m=height_m),
    )
    window = track_window(
        track,
        field.sight,
        spans=spans,
        near_m=field.near_m,
        rules=rules,
        sectors=field.sectors,
    )
    if window is None:
        return Holds.OUT_OF_USE
    kept_m, whole_m = length_m(intersection(window.windows, planned)), length_m(planned)
    if kept_m <= 0.0:
        return Holds.OUT_OF_USE
    return Holds.YES if kept_m >= _WHOLE_RATIO * whole_m else Holds.IN_PART
