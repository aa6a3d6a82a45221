"""The wheel-over at the end of a leg, with its line, second mark and pre-alerts."""

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from core.base.angles import wrap_360_deg
from core.base.arrays import BoolArray
from core.geodesy import geodesic, rhumb
from core.geodesy.leg_line import LegKind, LegLine
from core.geodesy.position import Position
from core.passage.passage import Passage, Side
from core.passage.turn import Turn
from core.plan import reasons
from core.plan.intervals import Interval
from core.plan.leg_sight import LegSight
from core.plan.result import (
    Edge,
    IndexLine,
    IndexObject,
    Reason,
    Role,
    SecondMark,
    WheelOver,
)
from core.plan.rules import PlanRules
from core.plan.usable_window import EdgePoint, FeatureTrack, Setting, edge_kind
from core.ship.ship import Ship

_LINE_LENGTH_M = 18_520.0
_ROUNDED_PENALTY_M = 1_852.0
_SAME_OBJECT_PENALTY_M = 100_000.0

ObjectMaker = Callable[[FeatureTrack, EdgePoint], IndexObject]
"""Makes the printed object of a feature and its edge point, with its letter."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnPlan:
    """The turn at the end of a leg and where it begins."""

    turn: Turn | None
    end_m: float
    """Where indexing on the leg ends: the wheel-over, or the end of the leg without a turn, m."""
    is_cut: bool
    """True where the leg is shorter than tangent and response."""
    is_assumed_radius: bool
    no_turn_reason: str
    """Why no wheel-over is planned, empty when one is."""
    is_turn_back: bool = False
    """True where the course turns back so far that no arc joins the legs."""


def turn_plan(passage: Passage, leg_index: int, ship: Ship, rules: PlanRules) -> TurnPlan:
    """The turn from one leg to the next, with the radius of the waypoint or else the ship's."""
    line = passage.line(leg_index)
    length = line.length_m

    def none(reason: str, *, is_turn_back: bool = False) -> TurnPlan:
        return TurnPlan(
            is_turn_back=is_turn_back,
            turn=None,
            end_m=length,
            is_cut=False,
            is_assumed_radius=False,
            no_turn_reason=reason,
        )

    if leg_index + 1 >= len(passage.legs):
        return none("Last leg: the passage ends here")
    waypoint = passage.waypoints[leg_index + 1]
    turn = Turn(
        old_course_deg=final_course_deg(line),
        new_course_deg=passage.line(leg_index + 1).course_deg,
        radius_m=waypoint.turn_radius_m or ship.turn_radius_m,
        response_distance_m=ship.response_distance_m,
    )
    if abs(turn.alteration_deg) < rules.least_alteration_deg:
        return none("The course alters by less than 1°: no turn to plan")
    if not turn.has_tangents:
        return none(
            f"The course alters by {abs(turn.alteration_deg):.0f}°: no single arc joins the legs",
            is_turn_back=True,
        )
    along = length - turn.wheel_over_before_waypoint_m
    return TurnPlan(
        turn=turn,
        end_m=max(along, 0.0),
        is_cut=along < 0.0,
        is_assumed_radius=waypoint.turn_radius_m is None,
        no_turn_reason="",
    )


def final_course_deg(line: LegLine) -> float:
    """Course at the end of a leg; a geodesic's differs from the one at its start."""
    _lats, _lons, courses = line.at(np.array([line.length_m]))
    return wrap_360_deg(float(courses[0]))


def line_through(position: Position, course_deg: float) -> LegLine:
    """The rhumb line through a place in a direction."""
    lat, lon = rhumb.direct(
        lat_deg=position.lat_deg,
        lon_deg=position.lon_deg,
        course_deg=course_deg,
        distance_m=_LINE_LENGTH_M,
    )
    return LegLine(
        kind=LegKind.RHUMB,
        start=position,
        end=Position(lat_deg=lat, lon_deg=(lon + 180.0) % 360.0 - 180.0),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class WheelOverSite:
    """Everything about the place where the wheel goes over."""

    line: LegLine
    """The leg."""
    new_line: LegLine | None
    """The next leg; only needed for the reason of the line."""
    turn_plan: TurnPlan
    speed_mps: float
    setting: Setting
    """In use at the wheel-over."""
    sight: LegSight
    rules: PlanRules

    @property
    def position(self) -> Position:
        """The wheel-over position."""
        return self.line.position_at(self.turn_plan.end_m)

    @property
    def turn(self) -> Turn:
        """The turn planned here."""
        if self.turn_plan.turn is None:
            raise ValueError("no turn is planned here")
        return self.turn_plan.turn

    def seen_here(self, seen: BoolArray) -> BoolArray:
        """Places of a waterline in sight from all viewpoints either side of the wheel-over."""
        nodes = self.sight.node_along_m
        after = int(np.searchsorted(nodes, self.turn_plan.end_m - 1.0))
        beside = {min(after, nodes.size - 1), max(after - 1, 0)}
        chosen = np.isin(self.sight.node_of, list(beside))
        return np.asarray(seen[chosen].all(axis=0))


@dataclass(frozen=True, slots=True, kw_only=True)
class _LineChoice:
    track: FeatureTrack
    edge: EdgePoint
    """Along and cross about the line through the wheel-over position."""
    range_m: float
    error_m: float
    window: Interval


def plan_wheel_over(
    site: WheelOverSite, tracks: tuple[FeatureTrack, ...], make_object: ObjectMaker
) -> WheelOver:
    """Plan the wheel-over of a leg that has a turn.

    Parameters
    ----------
    site : WheelOverSite
        The place.
    tracks : tuple of FeatureTrack
        Fixed objects in reach, in track coordinates of the leg.
    make_object : ObjectMaker
        Letters an object.
    """
    turn, rules = site.turn, site.rules
    alteration = abs(turn.alteration_deg)
    choice = _choose_line(site, tracks)
    line_reason = ""
    if alteration < rules.small_alteration_deg:
        line_reason = (
            f"The course alters by {alteration:.0f}° only: a line parallel to the new course "
            "crosses the old track too finely"
        )
    elif choice is None:
        line_reason = "No object near the wheel-over is in sight on the planned screen"
    second = _choose_second(site, tracks, taken=None if choice is None else choice.track)
    alerts = tuple(s for s in rules.pre_alert_s if site.turn_plan.end_m - s * site.speed_mps >= 0.0)
    length = site.line.length_m
    return WheelOver(
        along_m=site.turn_plan.end_m,
        distance_before_waypoint_m=length - site.turn_plan.end_m,
        position=site.position,
        new_course_deg=turn.new_course_deg,
        alteration_deg=turn.alteration_deg,
        turn_radius_m=turn.radius_m,
        rate_of_turn_deg_per_min=turn.rate_of_turn_deg_per_min(site.speed_mps),
        corner_cut_m=turn.corner_cut_m,
        pre_alert_along_m=tuple(site.turn_plan.end_m - s * site.speed_mps for s in alerts),
        pre_alert_minutes=tuple(s / 60.0 for s in alerts),
        method=_method(turn, rules),
        line=None if choice is None else _line(site, choice, make_object),
        line_reason=line_reason,
        second_mark=None if second is None else _second_mark(second, make_object),
        second_mark_reason=""
        if second is not None
        else "No object with a range and bearing is in sight at the wheel-over",
    )


def choose_marks(
    site: WheelOverSite, tracks: tuple[FeatureTrack, ...]
) -> tuple[tuple[str, EdgePoint], ...]:
    """Keys and edge points of the objects that line and second mark would take."""
    line = _choose_line(site, tracks)
    second = _choose_second(site, tracks, taken=None if line is None else line.track)
    return tuple(
        (choice.track.feature.key, choice.edge) for choice in (line, second) if choice is not None
    )


def _method(turn: Turn, rules: PlanRules) -> Reason:
    alteration = abs(turn.alteration_deg)
    values: tuple[tuple[str, float | str], ...] = (
        ("tangent_m", turn.tangent_m),
        ("response_m", turn.response_distance_m),
    )
    if alteration < rules.small_alteration_deg:
        return Reason(
            code=reasons.TURN_BY_RANGE_BEARING, values=(*values, ("alteration_deg", alteration))
        )
    if alteration > rules.large_alteration_deg:
        return Reason(code=reasons.TURN_IN_STEPS, values=(*values, ("alteration_deg", alteration)))
    return Reason(code=reasons.TURN_BY_LINE, values=values)


def _choose_line(site: WheelOverSite, tracks: tuple[FeatureTrack, ...]) -> _LineChoice | None:
    """The nearest object at the wheel-over that a line parallel to the new course suits.

    None as well where the alteration is too small for such a line.
    """
    if abs(site.turn.alteration_deg) < site.rules.small_alteration_deg:
        return None
    through = line_through(site.position, site.turn.new_course_deg)
    best: tuple[float, str, _LineChoice] | None = None
    for track in tracks:
        choice = _line_choice(site, track, through)
        if choice is None:
            continue
        is_rounded = choice.edge.edge is Edge.TANGENT
        cost = choice.range_m + (_ROUNDED_PENALTY_M if is_rounded else 0.0)
        if best is None or (cost, track.feature.key) < best[:2]:
            best = (cost, track.feature.key, choice)
    return None if best is None else best[2]


def _line_choice(site: WheelOverSite, track: FeatureTrack, through: LegLine) -> _LineChoice | None:
    feature, rules = track.feature, site.rules
    seen = site.seen_here(track.sight.seen)
    if not feature.is_fixed or not seen.any():
        return None
    kind = edge_kind(feature, rules)
    along, cross = through.track_coordinates(feature.lat_deg, feature.lon_deg)
    if kind is Edge.POSITION:
        edge = _middle(track, along_m=float(np.mean(along)), cross_m=float(np.mean(cross)))
    else:
        number = int(np.argmin(np.where(seen, np.abs(cross), np.inf)))
        edge = EdgePoint(
            position=Position(
                lat_deg=float(feature.lat_deg[number]), lon_deg=float(feature.lon_deg[number])
            ),
            edge=kind,
            along_m=float(along[number]),
            cross_m=float(cross[number]),
        )
    if abs(edge.cross_m) < rules.least_cross_m:
        return None
    if not _is_on_screen(site, edge.position):
        return None
    return _LineChoice(
        track=track,
        edge=edge,
        range_m=math.hypot(edge.along_m, edge.cross_m),
        error_m=site.setting.budget.error_m(cross_m=edge.cross_m, along_m=edge.along_m),
        window=_window(site, track),
    )


def _is_on_screen(site: WheelOverSite, position: Position) -> bool:
    """Whether a place is on the screen at the wheel-over, course still the old one."""
    along, cross = site.line.track_coordinates(
        np.array([position.lat_deg]), np.array([position.lon_deg])
    )
    return site.setting.screen.shows(
        ahead_m=float(along[0]) - site.turn_plan.end_m, cross_m=float(cross[0])
    )


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


def _line(site: WheelOverSite, choice: _LineChoice, make_object: ObjectMaker) -> IndexLine:
    turn = site.turn
    cross = choice.edge.cross_m
    new_leg_cross = cross + math.copysign(turn.wheel_over_offset_m, turn.alteration_deg)
    if site.new_line is not None:
        _along, new_cross = site.new_line.track_coordinates(
            np.array([choice.edge.position.lat_deg]), np.array([choice.edge.position.lon_deg])
        )
        new_leg_cross = float(new_cross[0])
    return IndexLine(
        role=Role.WHEEL_OVER,
        object=make_object(choice.track, choice.edge),
        side=Side.STARBOARD if cross > 0.0 else Side.PORT,
        cross_index_range_m=abs(cross),
        limit=None,
        line_bearing_deg=turn.new_course_deg,
        echo_travel_deg=wrap_360_deg(turn.old_course_deg + 180.0),
        from_along_m=choice.window[0],
        to_along_m=choice.window[1],
        range_scale_m=site.setting.screen.scale_m,
        uncertainty_m=choice.error_m,
        reason=Reason(
            code=reasons.WHEEL_OVER_LINE,
            values=(
                ("range_m", choice.range_m),
                ("inside", float(math.copysign(1.0, turn.alteration_deg) * new_leg_cross > 0.0)),
                ("new_leg_cross_m", abs(new_leg_cross)),
                ("other_side", float(new_leg_cross * cross < 0.0)),
            ),
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _SecondChoice:
    track: FeatureTrack
    edge: EdgePoint
    range_m: float
    bearing_deg: float


def _choose_second(
    site: WheelOverSite, tracks: tuple[FeatureTrack, ...], taken: FeatureTrack | None
) -> _SecondChoice | None:
    """The nearest other object in sight at the wheel-over; the same one if there is no other."""
    best: tuple[float, str, _SecondChoice] | None = None
    for track in tracks:
        choice = _second_choice(site, track)
        if choice is None:
            continue
        cost = choice.range_m
        if choice.edge.edge is Edge.TANGENT:
            cost += _ROUNDED_PENALTY_M
        if taken is not None and track.feature.key == taken.feature.key:
            cost += _SAME_OBJECT_PENALTY_M
        if best is None or (cost, track.feature.key) < best[:2]:
            best = (cost, track.feature.key, choice)
    return None if best is None else best[2]


def _second_choice(site: WheelOverSite, track: FeatureTrack) -> _SecondChoice | None:
    feature = track.feature
    seen = site.seen_here(track.sight.seen)
    if not feature.is_fixed or not seen.any():
        return None
    here = site.position
    distance, bearing, _final = geodesic.inverse(
        from_lat_deg=here.lat_deg,
        from_lon_deg=here.lon_deg,
        to_lat_deg=feature.lat_deg,
        to_lon_deg=feature.lon_deg,
    )
    number = int(np.argmin(np.where(seen, distance, np.inf)))
    edge = EdgePoint(
        position=Position(
            lat_deg=float(feature.lat_deg[number]), lon_deg=float(feature.lon_deg[number])
        ),
        edge=edge_kind(feature, site.rules),
        along_m=float(track.along_m[number]),
        cross_m=float(track.cross_m[number]),
    )
    if not site.setting.screen.shows(
        ahead_m=edge.along_m - site.turn_plan.end_m, cross_m=edge.cross_m
    ):
        return None
    return _SecondChoice(
        track=track,
        edge=edge,
        range_m=float(distance[number]),
        bearing_deg=float(bearing[number]),
    )


def _second_mark(choice: _SecondChoice, make_object: ObjectMaker) -> SecondMark:
    return SecondMark(
        object=make_object(choice.track, choice.edge),
        range_m=choice.range_m,
        bearing_deg=choice.bearing_deg,
    )
