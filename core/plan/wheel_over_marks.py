"""Which objects carry the wheel-over line and give the range and bearing beside it."""

import math
from dataclasses import dataclass

import numpy as np

from core.geodesy import geodesic
from core.geodesy.leg_line import LegLine
from core.geodesy.position import Position
from core.plan.blind_sectors import is_blind
from core.plan.intervals import Interval
from core.plan.plan_result import Edge
from core.plan.ranking import is_awash, is_doubtful, is_mobile, tide_error_m
from core.plan.usable_window import EdgePoint, FeatureTrack, echo_reach_m, edge_kind
from core.plan.wheel_over_site import WheelOverSite, line_through

_ROUNDED_PENALTY_M = 1_852.0
_NARROW_PENALTY_M = 1_852.0
"""For a line nearer to own ship than ``rules.least_turn_cross_m``."""
_UNSTEADY_PENALTY_M = 1_852.0
"""For an edge that the tide moves too far, and for what may be awash."""
_DOUBTFUL_PENALTY_M = 50_000.0
"""For an islet that may lie under water: all else on the screen goes before it."""
_SAME_OBJECT_PENALTY_M = 100_000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class LineChoice:
    """An object for the wheel-over line."""

    track: FeatureTrack
    edge: EdgePoint
    """Along and cross about the line through the wheel-over position."""
    range_m: float
    error_m: float
    window: Interval


@dataclass(frozen=True, slots=True, kw_only=True)
class SecondChoice:
    """An object for range and bearing at the wheel-over."""

    track: FeatureTrack
    edge: EdgePoint
    range_m: float
    bearing_deg: float


def choose_second(
    site: WheelOverSite, tracks: tuple[FeatureTrack, ...], taken: FeatureTrack | None
) -> SecondChoice | None:
    """The nearest other object in sight at the wheel-over; the same one if there is no other."""
    best: tuple[float, str, SecondChoice] | None = None
    for track in tracks:
        choice = _second_choice(site, track)
        if choice is None:
            continue
        cost = choice.range_m
        if choice.edge.edge is Edge.TANGENT:
            cost += _ROUNDED_PENALTY_M
        cost += _unsteady_penalty_m(site, track)
        if taken is not None and track.feature.echo == taken.feature.echo:
            cost += _SAME_OBJECT_PENALTY_M
        if best is None or (cost, track.feature.key) < best[:2]:
            best = (cost, track.feature.key, choice)
    return None if best is None else best[2]


def _second_choice(site: WheelOverSite, track: FeatureTrack) -> SecondChoice | None:
    feature = track.feature
    seen = site.seen_here(track.sight.seen)
    if not feature.is_fixed or not seen.any():
        return None
    here = site.position
    lat, lon, inside_m = site.painted_here(track)
    distance, bearing, _final = geodesic.inverse(
        from_lat_deg=here.lat_deg,
        from_lon_deg=here.lon_deg,
        to_lat_deg=lat,
        to_lon_deg=lon,
    )
    number = int(np.argmin(np.where(seen, distance, np.inf)))
    edge = EdgePoint(
        position=Position(lat_deg=float(lat[number]), lon_deg=float(lon[number])),
        edge=edge_kind(feature, site.rules),
        along_m=float(track.along_m[number]),
        cross_m=float(track.cross_m[number]),
        inside_m=float(inside_m[number]),
    )
    if not _is_readable(site, track, along_m=edge.along_m, cross_m=edge.cross_m):
        return None
    return SecondChoice(
        track=track,
        edge=edge,
        range_m=float(distance[number]),
        bearing_deg=float(bearing[number]),
    )


def choose_line(site: WheelOverSite, tracks: tuple[FeatureTrack, ...]) -> LineChoice | None:
    """The nearest object at the wheel-over that a line parallel to the new course suits.

    None as well where the alteration is too small for such a line.
    """
    if abs(site.turn.alteration_deg) < site.rules.small_alteration_deg:
        return None
    through = line_through(site.position, site.turn.new_course_deg)
    best: tuple[float, str, LineChoice] | None = None
    for track in tracks:
        choice = _line_choice(site, track, through)
        if choice is None:
            continue
        cost = choice.range_m + _unsteady_penalty_m(site, track)
        if choice.edge.edge is Edge.TANGENT:
            cost += _ROUNDED_PENALTY_M
        if abs(choice.edge.cross_m) < site.rules.least_turn_cross_m:
            cost += _NARROW_PENALTY_M
        if best is None or (cost, track.feature.key) < best[:2]:
            best = (cost, track.feature.key, choice)
    return None if best is None else best[2]


def _line_choice(site: WheelOverSite, track: FeatureTrack, through: LegLine) -> LineChoice | None:
    feature, rules = track.feature, site.rules
    seen = site.seen_here(track.sight.seen)
    if not feature.is_fixed or not seen.any():
        return None
    kind = edge_kind(feature, rules)
    if kind is Edge.POSITION:
        along, cross = through.track_coordinates(feature.lat_deg, feature.lon_deg)
        edge = _middle(track, along_m=float(np.mean(along)), cross_m=float(np.mean(cross)))
    else:
        lat, lon, inside_m = site.painted_here(track)
        along, cross = through.track_coordinates(lat, lon)
        number = int(np.argmin(np.where(seen, np.abs(cross), np.inf)))
        edge = EdgePoint(
            position=Position(lat_deg=float(lat[number]), lon_deg=float(lon[number])),
            edge=kind,
            along_m=float(along[number]),
            cross_m=float(cross[number]),
            inside_m=float(inside_m[number]),
        )
    if abs(edge.cross_m) < rules.least_cross_m:
        return None
    own_along, own_cross = site.line.track_coordinates(
        np.array([edge.position.lat_deg]), np.array([edge.position.lon_deg])
    )
    if not _is_readable(site, track, along_m=float(own_along[0]), cross_m=float(own_cross[0])):
        return None
    return LineChoice(
        track=track,
        edge=edge,
        range_m=math.hypot(edge.along_m, edge.cross_m),
        error_m=math.hypot(
            site.setting.budget.error_m(
                cross_m=edge.cross_m, along_m=edge.along_m, is_edge=edge.is_edge
            ),
            tide_error_m(feature, rules),
        ),
        window=_window(site, track),
    )


def _is_readable(
    site: WheelOverSite, track: FeatureTrack, *, along_m: float, cross_m: float
) -> bool:
    """Whether a place in track coordinates of the leg shows at the wheel-over.

    On the screen, course still the old one, near enough for its height and outside blind sectors.
    """
    ahead_m = along_m - site.turn_plan.end_m
    return (
        site.setting.screen.shows(ahead_m=ahead_m, cross_m=cross_m)
        and math.hypot(ahead_m, cross_m) <= echo_reach_m(track.feature.height_m, site.rules)
        and not is_blind(ahead_m=ahead_m, cross_m=cross_m, sectors=site.sectors)
    )


def _unsteady_penalty_m(site: WheelOverSite, track: FeatureTrack) -> float:
    """For edges that ranking would never put first (job.md 2.4.2), and for doubtful islets."""
    limit_m = site.setting.budget.limit_m
    feature = track.feature
    if is_doubtful(feature.kind, feature.height_m, site.rules):
        return _DOUBTFUL_PENALTY_M
    is_poor = is_mobile(feature, limit_m=limit_m, rules=site.rules) or is_awash(feature)
    return _UNSTEADY_PENALTY_M if is_poor else 0.0


def _window(site: WheelOverSite, track: FeatureTrack) -> Interval:
    """From the first pre-alert to the wheel-over, as far back as the object is in sight."""
    end = site.turn_plan.end_m
    start = max(end - max(site.rules.pre_alert_s) * site.speed_mps, 0.0)
    for from_m, to_m in site.sight.stretches(np.asarray(track.sight.seen.any(axis=1))):
        if from_m <= end <= to_m + 1.0:
            return max(start, from_m), end
    return end, end


def _middle(track: FeatureTrack, *, along_m: float, cross_m: float) -> EdgePoint:
    feature = track.feature
    lon0 = float(feature.lon_deg[0])
    lon = lon0 + np.mod(feature.lon_deg - lon0 + 180.0, 360.0) - 180.0
    return EdgePoint(
        position=Position(lat_deg=float(np.mean(feature.lat_deg)), lon_deg=float(np.mean(lon))),
        edge=Edge.POSITION,
        along_m=along_m,
        cross_m=cross_m,
    )


def choose_marks(
    site: WheelOverSite, tracks: tuple[FeatureTrack, ...]
) -> tuple[tuple[str, EdgePoint], ...]:
    """Keys and edge points of the objects that line and second mark would take."""
    line = choose_line(site, tracks)
    second = choose_second(site, tracks, taken=None if line is None else line.track)
    return tuple(
        (choice.track.feature.key, choice.edge) for choice in (line, second) if choice is not None
    )
