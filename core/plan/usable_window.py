"""Where along a leg an object can be indexed (job.md 2.9.3).

Error limit AND screen AND in sight AND near enough for its height AND outside blind sectors.
"""

import math
from dataclasses import dataclass

import numpy as np

from core.base.arrays import BoolArray, FloatArray, HoldsArrays
from core.base.units import m_from_nm
from core.geodesy.position import Position
from core.plan.blind_sectors import BlindSpan, CourseSector, blind_spans, blinded
from core.plan.error_budget import ErrorBudget
from core.plan.feature import Feature
from core.plan.intervals import Interval, Intervals, difference, intersection, length_m, union
from core.plan.leg_sight import FeatureSight, LegSight
from core.plan.painted_waterline import PaintedWaterline, painted_places, painted_waterline
from core.plan.plan_result import Edge
from core.plan.rules import PlanRules
from core.plan.screen import Screen

_MOST_EDGE_STEPS = 5
_JOIN_M = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """One range scale as it would be used on a leg."""

    screen: Screen
    budget: ErrorBudget


@dataclass(frozen=True, slots=True, kw_only=True)
class ScaleSpan:
    """A stretch of a leg on one setting."""

    from_along_m: float
    to_along_m: float
    setting: Setting


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FeatureTrack(HoldsArrays):
    """A feature about one line: its waterline in track coordinates, and how it is seen."""

    feature: Feature
    along_m: FloatArray
    cross_m: FloatArray
    sight: FeatureSight


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgePoint:
    """The part of an object that a cross-index range is measured to."""

    position: Position
    edge: Edge
    along_m: float
    cross_m: float
    inside_m: float = 0.0
    """How far inside the charted coast it paints, m; 0 where that cannot be told from 0."""

    @property
    def is_edge(self) -> bool:
        """Whether an edge is read, that swells by half a beam, not the middle of a small echo."""
        return self.edge is not Edge.POSITION


@dataclass(frozen=True, slots=True, kw_only=True)
class UsableWindow:
    """Where one object can be used."""

    edge: EdgePoint
    windows: Intervals
    spread_m: float
    """How much farther off the track than the edge it paints at the worst within the window, m."""
    geometric_m: float
    """Length of the window by error and screen alone."""
    masked_m: float
    """How much of that is lost because the object is not in sight."""
    blind: tuple[BlindSpan, ...] = ()
    """Where it would be usable but for a blind sector, and where it stands in a shadow sector."""


def geometric_window(
    *, along_m: float, cross_m: float, setting: Setting, end_m: float, is_edge: bool = False
) -> Interval | None:
    """Where along a leg the error limit holds and the screen shows the object.

    Parameters
    ----------
    along_m, cross_m : float
        Track coordinates of the object, m.
    setting : Setting
        Screen and errors.
    end_m : float
        End of the leg as far as indexing goes, its wheel-over, m.
    is_edge : bool
        Whether the edge of a broad object is read, not the middle of a small one.
    """
    reach = setting.budget.reach_m(cross_m, is_edge=is_edge)
    span = setting.screen.span_ahead_m(cross_m)
    if reach is None or span is None:
        return None
    astern, ahead = max(span[0], -reach), min(span[1], reach)
    start, stop = max(along_m - ahead, 0.0), min(along_m - astern, end_m)
    return (start, stop) if stop > start else None


def geometric_windows(
    *, along_m: float, cross_m: float, spans: tuple[ScaleSpan, ...], is_edge: bool = False
) -> Intervals:
    """The same over stretches with different settings."""
    parts: list[Interval] = []
    for span in spans:
        window = geometric_window(
            along_m=along_m,
            cross_m=cross_m,
            setting=span.setting,
            end_m=span.to_along_m,
            is_edge=is_edge,
        )
        if window is not None and window[1] > span.from_along_m:
            parts.append((max(window[0], span.from_along_m), window[1]))
    return union(tuple(parts), join_m=_JOIN_M)


def greatest_error_m(
    *,
    along_m: float,
    cross_m: float,
    windows: Intervals,
    spans: tuple[ScaleSpan, ...],
    is_edge: bool = False,
) -> float:
    """Greatest error of the cross-index range over windows, 95 %, m."""
    greatest = 0.0
    for span in spans:
        for start, stop in intersection(windows, ((span.from_along_m, span.to_along_m),)):
            for place in np.linspace(start, stop, 33):
                error = span.setting.budget.error_m(
                    cross_m=cross_m, along_m=along_m - float(place), is_edge=is_edge
                )
                greatest = max(greatest, error)
    return greatest


def track_window(
    track: FeatureTrack,
    legs: LegSight,
    *,
    spans: tuple[ScaleSpan, ...],
    near_m: float,
    rules: PlanRules,
    sectors: tuple[CourseSector, ...] = (),
) -> UsableWindow | None:
    """The edge point and the windows of a feature on a leg, or None if it is nowhere usable.

    The edge point is the point of the waterline of least cross-track distance that is in sight
    from a viewpoint on the track within the window, where the radar was worked out that of the
    painted waterline. The window depends on the edge and the edge on the window, so both are
    worked out in turn until they agree. ``sectors`` are the blind sectors of the radar in use.
    """
    seen_from = legs.on_track_within(spans[0].from_along_m, spans[-1].to_along_m)
    edge: EdgePoint | None = None
    number = 0
    shown: Intervals = ()
    for _ in range(_MOST_EDGE_STEPS):
        found = _edge_point(track, legs, seen_from, rules)
        if found is None:
            return None
        point, number = found
        if point == edge:
            break
        edge = point
        shown = intersection(
            geometric_windows(
                along_m=edge.along_m, cross_m=edge.cross_m, spans=spans, is_edge=edge.is_edge
            ),
            _echo_expected(edge, track.feature.height_m, rules),
        )
        if not shown:
            return None
        seen_from = legs.on_track_within(*shown[0])
        for part in shown[1:]:
            seen_from |= legs.on_track_within(*part)
    if edge is None:
        return None
    in_sight = intersection(shown, legs.stretches(edge_seen(track, edge, number, near_m)))
    blind = blind_spans(
        along_m=edge.along_m, cross_m=edge.cross_m, sectors=sectors, within=in_sight
    )
    windows = difference(in_sight, blinded(blind))
    return UsableWindow(
        edge=edge,
        windows=windows,
        spread_m=_spread_m(track, legs, edge, windows),
        geometric_m=length_m(shown),
        masked_m=length_m(shown) - length_m(in_sight),
        blind=blind,
    )


def echo_reach_m(height_m: float, rules: PlanRules) -> float:
    """Range within which an object of a height may be counted on for an echo, m.

    R^2 / 12 for a shore of that height above the water, R in NM (job.md 4.1.5, a fit to the
    minimum ranges of IMO MSC.192(79)).
    """
    return m_from_nm(math.sqrt(rules.shore_range_ratio * max(height_m, 0.0)))


def _echo_expected(edge: EdgePoint, height_m: float, rules: PlanRules) -> Intervals:
    """Where along the leg an object is near enough for its height."""
    square = echo_reach_m(height_m, rules) ** 2 - edge.cross_m**2
    if square <= 0.0:
        return ()
    return ((edge.along_m - math.sqrt(square), edge.along_m + math.sqrt(square)),)


def edge_kind(feature: Feature, rules: PlanRules) -> Edge:
    """Which part of a feature its edge point is."""
    if feature.mark is not None or feature.extent_m < rules.narrow_m:
        return Edge.POSITION
    if feature.key.startswith("line "):
        return Edge.NEAR_SIDE
    sharpest = rules.sharp_reach_m / math.radians(rules.sharp_turn_deg)
    return Edge.TIP if feature.rounding_m <= sharpest else Edge.TANGENT


def _edge_point(
    track: FeatureTrack, legs: LegSight, views: BoolArray, rules: PlanRules
) -> tuple[EdgePoint, int] | None:
    """The edge point as any of the viewpoints sees it, and the number of its waterline point."""
    feature = track.feature
    painted = _painted(track, legs, views)
    if not painted.views.size:
        return None
    is_inside = painted.is_inside
    cross = np.where(is_inside, painted.cross_m, track.cross_m)
    off = np.where(np.isnan(painted.cross_m), np.inf, np.abs(cross))
    number = int(np.argmin(off.min(axis=0)))
    row = int(np.argmin(off[:, number]))
    kind = edge_kind(feature, rules)
    if kind is Edge.POSITION:
        lon0 = float(feature.lon_deg[0])
        lon = lon0 + np.mod(feature.lon_deg - lon0 + 180.0, 360.0) - 180.0
        point = EdgePoint(
            position=Position(lat_deg=float(np.mean(feature.lat_deg)), lon_deg=float(np.mean(lon))),
            edge=kind,
            along_m=float(np.mean(track.along_m)),
            cross_m=float(np.mean(track.cross_m)),
        )
        return point, number
    if not is_inside[row, number]:
        point = EdgePoint(
            position=Position(
                lat_deg=float(feature.lat_deg[number]), lon_deg=float(feature.lon_deg[number])
            ),
            edge=kind,
            along_m=float(track.along_m[number]),
            cross_m=float(track.cross_m[number]),
        )
        return point, number
    lat, lon, inside_m = painted_places(feature, track.sight, legs, int(painted.views[row]))
    point = EdgePoint(
        position=Position(lat_deg=float(lat[number]), lon_deg=float(lon[number])),
        edge=kind,
        along_m=float(painted.along_m[row, number]),
        cross_m=float(painted.cross_m[row, number]),
        inside_m=float(inside_m[number]),
    )
    return point, number


def _painted(track: FeatureTrack, legs: LegSight, views: BoolArray) -> PaintedWaterline:
    return painted_waterline(
        track.sight, legs, along_m=track.along_m, cross_m=track.cross_m, views=views
    )


def _spread_m(track: FeatureTrack, legs: LegSight, edge: EdgePoint, windows: Intervals) -> float:
    """How much farther off than the edge point the object paints over its windows, m."""
    if edge.edge is Edge.POSITION:
        return 0.0
    views = np.zeros(legs.is_on_track.shape, dtype=np.bool_)
    for part in windows:
        views |= legs.on_track_within(*part)
    reach_m = _painted(track, legs, views).reach_m()
    return max(float(np.max(reach_m, initial=0.0)) - abs(edge.cross_m), 0.0)


def edge_seen(track: FeatureTrack, edge: EdgePoint, number: int, near_m: float) -> BoolArray:
    """For each viewpoint, whether the waterline within a distance of the edge is in sight.

    ``number`` is that of the edge's waterline point.
    """
    distance = np.hypot(
        track.along_m - track.along_m[number], track.cross_m - track.cross_m[number]
    )
    near = distance <= near_m
    if edge.edge is Edge.POSITION:
        near = np.ones(distance.shape, dtype=np.bool_)
    return np.asarray(track.sight.seen[:, near].any(axis=1))
