"""What can be ranged from a place on a leg, on the scale in use there, and how well.

Only what the coverage says is in sight and expected to paint: from the places swept either side,
on the track and on both edges of the corridor. Nothing that floats, no tangent.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from core.base.angles import wrap_360_deg
from core.base.arrays import BoolArray
from core.geodesy.position import Position
from core.plan.blind_sectors import is_blind
from core.plan.candidates import LegField
from core.plan.leg_context import LegContext
from core.plan.painted_waterline import PaintedWaterline, painted_waterline
from core.plan.plan_result import Edge
from core.plan.ranking import tide_error_m
from core.plan.usable_window import (
    EdgePoint,
    FeatureTrack,
    ScaleSpan,
    echo_reach_m,
    edge_kind,
)

_SAME_PLACE_M = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceReading:
    """One object as it is read from one place: the nearest of it that paints."""

    object_id: str
    name: str
    position: Position
    """Of the part that is read."""
    edge: Edge
    is_mark: bool
    ahead_m: float
    """Along the course from own ship, astern negative."""
    cross_m: float
    """Off the track, starboard positive."""
    range_m: float
    bearing_deg: float
    scale_m: float
    """In use there."""
    radius_m: float
    """That the screen counts with round its middle."""
    range_error_m: float
    """Of the range as a line of position, 95 %: radar, echo's edge, data, tide."""
    fixed_error_m: float
    """The same without the radar's own range error."""
    bearing_error_deg: float
    """95 %."""

    @property
    def relative_deg(self) -> float:
        """Off the course line, starboard positive, -180 to 180."""
        return math.degrees(math.atan2(self.cross_m, self.ahead_m))

    @property
    def is_point(self) -> bool:
        """Whether it is so small that any part of it is all of it."""
        return self.edge is Edge.POSITION


Reader = Callable[[float], tuple[PlaceReading, ...]]
"""Readings from a place, m along, in the order of the leg's objects."""


def place_reader(field: LegField, context: LegContext, spans: tuple[ScaleSpan, ...]) -> Reader:
    """What is read from any place of one leg.

    Parameters
    ----------
    field : LegField
        Objects of the leg and how they are seen.
    context : LegContext
        Their letters.
    spans : tuple of ScaleSpan
        Scales of the main radar along the leg.
    """
    tracks = [
        (track, edge, field.sight.nodes_where_all(track.sight.seen.any(axis=1)))
        for track in field.tracks
        if track.feature.is_fixed and track.feature.key in context.ids
        for edge in (edge_kind(track.feature, context.rules),)
        if edge is not Edge.TANGENT
    ]
    painted: dict[tuple[str, int], PaintedWaterline] = {}

    def line_from(track: FeatureTrack, view: int) -> PaintedWaterline:
        key = (track.feature.key, view)
        if key not in painted:
            views = np.zeros(field.sight.is_on_track.shape, dtype=np.bool_)
            views[view] = True
            painted[key] = painted_waterline(
                track.sight, field.sight, along_m=track.along_m, cross_m=track.cross_m, views=views
            )
        return painted[key]

    def read(along_m: float) -> tuple[PlaceReading, ...]:
        nodes = _nodes_beside(field, along_m)
        view = _view_near(field, along_m)
        if nodes is None or view is None:
            return ()
        span = _span_at(spans, along_m)
        _lat, _lon, course = field.line.at(np.array([along_m]))
        found = []
        for track, edge, is_good in tracks:
            if not (is_good[nodes[0]] and is_good[nodes[1]]) or _is_far(track, along_m, span):
                continue
            reading = _reading(
                field, context, track, edge, line_from(track, view), along_m, span, float(course[0])
            )
            if reading is not None:
                found.append(reading)
        return tuple(found)

    return read


def _nodes_beside(field: LegField, along_m: float) -> tuple[int, int] | None:
    """The swept places next before and after; the same twice where one is at the place."""
    nodes = field.sight.node_along_m
    same = np.flatnonzero(np.abs(nodes - along_m) <= _SAME_PLACE_M)
    if same.size:
        return int(same[0]), int(same[0])
    after = int(np.searchsorted(nodes, along_m))
    return None if after in (0, nodes.size) else (after - 1, after)


def _view_near(field: LegField, along_m: float) -> int | None:
    """The nearest swept place on the track itself."""
    on_track = np.flatnonzero(field.sight.is_on_track)
    if not on_track.size:
        return None
    return int(on_track[np.argmin(np.abs(field.sight.view_along_m[on_track] - along_m))])


def _span_at(spans: tuple[ScaleSpan, ...], along_m: float) -> ScaleSpan:
    """The scale in use; where one ends and the next begins, the next."""
    return next(
        (span for span in reversed(spans) if span.from_along_m <= along_m + _SAME_PLACE_M),
        spans[0],
    )


def _is_far(track: FeatureTrack, along_m: float, span: ScaleSpan) -> bool:
    """Whether no part of it can be on the screen, cheaply."""
    most = span.setting.screen.radius_m + abs(span.setting.screen.middle_ahead_m)
    off: BoolArray = np.asarray(
        (np.abs(track.along_m - along_m) > most) | (np.abs(track.cross_m) > most)
    )
    return bool(off.all())


def _reading(
    field: LegField,
    context: LegContext,
    track: FeatureTrack,
    edge: Edge,
    painted: PaintedWaterline,
    along_m: float,
    span: ScaleSpan,
    course_deg: float,
) -> PlaceReading | None:
    if not painted.views.size:
        return None
    ahead = painted.along_m[0] - along_m
    cross = painted.cross_m[0]
    off = np.where(np.isnan(cross), np.inf, np.hypot(ahead, cross))
    number = int(np.argmin(off))
    ahead_m, cross_m, range_m = float(ahead[number]), float(cross[number]), float(off[number])
    setting = span.setting
    if (
        not setting.screen.shows(ahead_m=ahead_m, cross_m=cross_m)
        or range_m > echo_reach_m(track.feature.height_m, context.rules)
        or is_blind(ahead_m=ahead_m, cross_m=cross_m, sectors=field.sectors)
    ):
        return None
    lat, lon = field.line.offset(np.array([along_m + ahead_m]), np.array([cross_m]))
    place = EdgePoint(
        position=Position(lat_deg=float(lat[0]), lon_deg=float((lon[0] + 180.0) % 360.0 - 180.0)),
        edge=edge,
        along_m=along_m + ahead_m,
        cross_m=cross_m,
    )
    thing = context.make_object(track, place)
    fixed_m = math.hypot(setting.budget.fixed_error_m, tide_error_m(track.feature, context.rules))
    return PlaceReading(
        object_id=thing.id,
        name=thing.name,
        position=thing.position,
        edge=edge,
        is_mark=track.feature.mark is not None,
        ahead_m=ahead_m,
        cross_m=cross_m,
        range_m=range_m,
        bearing_deg=wrap_360_deg(course_deg + math.degrees(math.atan2(cross_m, ahead_m))),
        scale_m=setting.screen.scale_m,
        radius_m=setting.screen.radius_m,
        range_error_m=math.hypot(setting.budget.range_error_m, fixed_m),
        fixed_error_m=fixed_m,
        bearing_error_deg=setting.budget.bearing_error_deg,
    )
