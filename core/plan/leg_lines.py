"""Index lines of one leg from its chosen windows."""

import math
from collections.abc import Mapping

import numpy as np

from core.base.angles import wrap_360_deg
from core.geodesy.leg_line import LegLine
from core.passage.passage import Side
from core.plan.blind_sectors import blinded
from core.plan.candidates import Candidate
from core.plan.intervals import Interval, Intervals, difference, intersection, length_m
from core.plan.key_in import key_in_row
from core.plan.plan_result import IndexLine, KeyIn, Override, Role, WheelOver
from core.plan.ranking import tide_error_m
from core.plan.rules import PlanRules
from core.plan.selection import Stretch
from core.plan.usable_window import ScaleSpan, UsableWindow, greatest_error_m
from core.plan.wheel_over import ObjectMaker
from core.plan.wheel_over_site import line_through


def stretches_of(
    candidates: tuple[Candidate, ...],
    *,
    forced: Mapping[str, Intervals],
    least_m: float,
    most_m: float,
    bridge_m: float,
) -> tuple[Stretch, ...]:
    """Windows of the candidates as stretches to choose from; short ones are left out.

    Windows parted by no more than ``bridge_m`` in a blind sector are one stretch with a break.
    Of those that the officer chose, ``forced`` by key with the parts of the leg they are chosen
    for, what lies longest in each part is kept however short it is.
    """
    found: list[Stretch] = []
    for candidate in candidates:
        edge = candidate.window.edge
        joined = _bridged(candidate.window, bridge_m)
        kept = _longest_in(joined, forced.get(candidate.key, ()))
        others = [span for span in joined if span not in kept and span[1] - span[0] >= least_m]
        for start, stop in sorted((*kept, *others)):
            found.append(
                Stretch(
                    key=candidate.key,
                    from_m=start,
                    to_m=min(stop, most_m),
                    score=candidate.rank.score,
                    quality_ratio=candidate.rank.quality_ratio,
                    is_weak=candidate.rank.is_weak,
                    is_forced=(start, stop) in kept,
                    is_starboard=edge.cross_m > 0.0,
                    echo=candidate.track.feature.echo,
                    edge_along_m=edge.along_m,
                    edge_cross_m=edge.cross_m,
                    breaks=difference(((start, stop),), candidate.window.windows),
                )
            )
    return tuple(found)


def _longest_in(windows: Intervals, parts: Intervals) -> Intervals:
    """For each part of a leg the window that lies longest in it, cut to it."""
    found: list[Interval] = []
    for part in parts:
        within = intersection(windows, (part,))
        if within:
            found.append(max(within, key=lambda span: span[1] - span[0]))
    return tuple(dict.fromkeys(found))


def _bridged(window: UsableWindow, bridge_m: float) -> Intervals:
    """Windows joined over short blind stretches between them."""
    blind = blinded(window.blind)
    joined: list[Interval] = []
    for start, stop in window.windows:
        if joined:
            lost = (joined[-1][1], start)
            is_short = lost[1] - lost[0] <= bridge_m
            if is_short and length_m(difference((lost,), blind)) < 1.0:
                joined[-1] = (joined[-1][0], stop)
                continue
        joined.append((start, stop))
    return tuple(joined)


def course_at(line: LegLine, along_m: float) -> float:
    """Course of a leg at a distance along it, deg."""
    _lats, _lons, courses = line.at(np.array([along_m]))
    return wrap_360_deg(float(courses[0]))


def longest_scale_m(spans: tuple[ScaleSpan, ...], window: Interval) -> float:
    """The longest scale in use over a window, m."""
    return max(
        (
            span.setting.screen.scale_m
            for span in spans
            if span.from_along_m <= window[1] and span.to_along_m >= window[0]
        ),
        default=spans[-1].setting.screen.scale_m,
    )


def line_error_m(
    candidate: Candidate, windows: Intervals, spans: tuple[ScaleSpan, ...], rules: PlanRules
) -> float:
    """Greatest error of a candidate's cross-index range over windows, 95 %, m.

    What the radar reads, half of how far the tide moves the edge, and how far it wanders.
    """
    edge = candidate.window.edge
    read_m = greatest_error_m(
        along_m=edge.along_m,
        cross_m=edge.cross_m,
        windows=windows,
        spans=spans,
        is_edge=edge.is_edge,
    )
    tide_m = tide_error_m(candidate.track.feature, rules)
    return math.hypot(read_m, tide_m, candidate.window.spread_m)


def index_lines(
    stretch: Stretch,
    candidate: Candidate,
    *,
    role: Role,
    line: LegLine,
    spans: tuple[ScaleSpan, ...],
    make_object: ObjectMaker,
    override: Override | None,
    rules: PlanRules,
) -> tuple[IndexLine, ...]:
    """The line of one chosen stretch: one, or one each side of every break."""
    edge = candidate.window.edge
    thing = make_object(candidate.track, edge)
    lines = []
    for window in difference(((stretch.from_m, stretch.to_m),), stretch.breaks):
        course = course_at(line, (window[0] + window[1]) / 2.0)
        lines.append(
            IndexLine(
                role=role,
                object=thing,
                side=Side.STARBOARD if edge.cross_m > 0.0 else Side.PORT,
                cross_index_range_m=abs(edge.cross_m),
                limit=None,
                line_bearing_deg=course,
                echo_travel_deg=wrap_360_deg(course + 180.0),
                from_along_m=window[0],
                to_along_m=window[1],
                range_scale_m=longest_scale_m(spans, window),
                uncertainty_m=line_error_m(candidate, (window,), spans, rules),
                reason=candidate.rank.reason,
                override=override,
            )
        )
    return tuple(lines)


def key_in_rows(
    lines: tuple[IndexLine, ...], line: LegLine, wheel_over: WheelOver | None
) -> tuple[KeyIn, ...]:
    """One row for every line, in the same order."""
    rows = []
    for item in lines:
        lat = np.array([item.object.position.lat_deg])
        lon = np.array([item.object.position.lon_deg])
        if item.role is Role.WHEEL_OVER and wheel_over is not None:
            through = line_through(wheel_over.position, wheel_over.new_course_deg)
            along, _cross = through.track_coordinates(lat, lon)
            ends = [line.position_at(s) for s in (item.from_along_m, item.to_along_m)]
            own, _own_cross = through.track_coordinates(
                np.array([p.lat_deg for p in ends]), np.array([p.lon_deg for p in ends])
            )
            ahead = float(along[0] - own[0]), float(along[0] - own[1])
        else:
            along, _cross = line.track_coordinates(lat, lon)
            ahead = float(along[0]) - item.from_along_m, float(along[0]) - item.to_along_m
        rows.append(key_in_row(item, ahead_at_start_m=ahead[0], ahead_at_end_m=ahead[1]))
    return tuple(rows)
