"""Contingency legs: where the officer may leave the passage, and what she then steers.

The contingency line leaves the track of a leg at a point; together with the part of the leg
before it, it is a passage of two legs, planned as any other.
"""

import math
from dataclasses import dataclass, replace

import numpy as np

from core.base.errors import InputError
from core.base.language import tr
from core.base.units import nm_from_m
from core.geodesy import rhumb
from core.geodesy.leg_line import LegKind, LegLine
from core.geodesy.position import Position, wrap_lon_deg
from core.passage.passage import Leg, Passage, Waypoint
from core.passage.turn import Turn

_ROUNDS = 60
_SETTLED_M = 0.01
LONGEST_M = 60.0 * 1852.0
"""A contingency leg leads to the next water with room, not to another port."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Contingency:
    """What the officer states of one contingency leg.

    One of ``to_go_m``, ``along_m`` and ``turn_before_m``; either ``course_deg`` and
    ``distance_m``, or ``position``.
    """

    leg_number: int
    """The leg it leaves, from 1."""
    to_go_m: float | None = None
    """Where its line leaves the track, before the leg's last waypoint."""
    along_m: float | None = None
    """The same from the leg's first waypoint."""
    turn_before_m: float | None = None
    """Before the leg's last waypoint: a line square to the track that the turn must not cross;
    where the line then leaves the track follows from the turn."""
    course_deg: float | None = None
    distance_m: float | None = None
    position: Position | None = None
    """Where it leads."""
    name: str = ""
    """Of the place it leads to."""
    note: str = ""
    where: str = ""
    """File and line, for the sentence of an error."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AbortRoute:
    """The two legs of a contingency: the leg it leaves as far as it goes, then its own."""

    passage: Passage
    parent_index: int
    """Of the leg it leaves, from 0."""
    corner_m: float
    """Along that leg: where the contingency line leaves the track."""


def abort_route(
    passage: Passage, given: Contingency, *, radius_m: float, response_m: float
) -> AbortRoute:
    """The passage of two legs that a contingency is.

    Parameters
    ----------
    passage : Passage
        With every default filled in.
    given : Contingency
        What the officer states.
    radius_m, response_m : float
        Of the turn onto the contingency leg, m.

    Raises
    ------
    InputError
        No such leg, or no room for the turn on it; one sentence.

    Notes
    -----
    Plain geometry: an arc of radius R after a response F reaches F + R sin(alteration) along the
    old course, F + R from 90 degrees on, and begins F + R tan(alteration / 2) before the corner.
    """
    index = given.leg_number - 1
    if not 0 <= index < len(passage.legs):
        raise InputError(
            tr(
                "a contingency leg leaves leg {leg_number}, the passage has {count} legs",
                leg_number=given.leg_number,
                count=len(passage.legs),
            ),
            where=given.where,
            todo=tr("Correct the number of the leg"),
        )
    line = passage.line(index)
    corner_m = _corner_m(line, given, radius_m=radius_m, response_m=response_m)
    corner = line.position_at(corner_m)
    end = _end(corner, given)
    leg, start = passage.legs[index], passage.waypoints[index]
    own = LegLine(kind=LegKind.RHUMB, start=corner, end=end)
    if not 185.2 <= own.length_m <= LONGEST_M:
        raise _refused(
            given,
            tr(
                "the contingency leg would be {length_nm:.2f} NM long",
                length_nm=nm_from_m(own.length_m),
            ),
            tr(
                "Give a place 0.1 to {most_nm:g} NM from where it leaves the track",
                most_nm=nm_from_m(LONGEST_M),
            ),
        )
    route = AbortRoute(
        passage=Passage(
            name=passage.name,
            waypoints=(
                replace(start, eta_utc=None, etd_utc=None),
                Waypoint(
                    name=tr("abort point of leg {leg_number}", leg_number=given.leg_number),
                    position=corner,
                    turn_radius_m=radius_m,
                ),
                Waypoint(
                    name=given.name
                    or tr("contingency of leg {leg_number}", leg_number=given.leg_number),
                    position=end,
                ),
            ),
            legs=(
                leg,
                Leg(
                    corridor_port_m=leg.corridor_port_m,
                    corridor_starboard_m=leg.corridor_starboard_m,
                    speed_mps=leg.speed_mps,
                ),
            ),
        ),
        parent_index=index,
        corner_m=corner_m,
    )
    _check_room(route, line, given, radius_m=radius_m, response_m=response_m)
    return route


def _corner_m(line: LegLine, given: Contingency, *, radius_m: float, response_m: float) -> float:
    """Where the line leaves the track, along the leg."""
    if given.to_go_m is not None:
        return line.length_m - given.to_go_m
    if given.along_m is not None:
        return given.along_m
    if given.turn_before_m is None:
        raise ValueError("nothing says where the contingency line leaves the track")
    limit_m = line.length_m - given.turn_before_m
    corner_m = limit_m
    for _ in range(_ROUNDS):
        turn = _turn(line, corner_m, given, radius_m=radius_m, response_m=response_m)
        if not turn.has_tangents:
            break
        wheel_over_m = limit_m - furthest_m(turn)
        settled = wheel_over_m + turn.wheel_over_before_waypoint_m
        if abs(settled - corner_m) < _SETTLED_M:
            return settled
        # Half steps: the course to a fixed place changes with the corner.
        corner_m = settled if given.position is None else (corner_m + settled) / 2.0
    raise _refused(
        given,
        tr("no turn onto the contingency leg can be found that ends before the line stated"),
        tr("State where the line leaves the track (from_nm_to_go)"),
    )


def furthest_m(turn: Turn) -> float:
    """How far along the old course a turn reaches from its wheel-over, m."""
    bent_deg = min(abs(turn.alteration_deg), 90.0)
    return turn.response_distance_m + turn.radius_m * math.sin(math.radians(bent_deg))


def _turn(
    line: LegLine, corner_m: float, given: Contingency, *, radius_m: float, response_m: float
) -> Turn:
    corner = line.position_at(corner_m)
    _lats, _lons, courses = line.at(np.array([corner_m]))
    new = LegLine(kind=LegKind.RHUMB, start=corner, end=_end(corner, given))
    return Turn(
        old_course_deg=float(courses[0]) % 360.0,
        new_course_deg=new.course_deg,
        radius_m=radius_m,
        response_distance_m=response_m,
    )


def _end(corner: Position, given: Contingency) -> Position:
    if given.position is not None:
        return given.position
    if given.course_deg is None or given.distance_m is None:
        raise ValueError("nothing says where the contingency leg leads")
    lat, lon = rhumb.direct(
        lat_deg=corner.lat_deg,
        lon_deg=corner.lon_deg,
        course_deg=given.course_deg,
        distance_m=given.distance_m,
    )
    return Position(lat_deg=lat, lon_deg=wrap_lon_deg(lon))


def _check_room(
    route: AbortRoute, line: LegLine, given: Contingency, *, radius_m: float, response_m: float
) -> None:
    """Refuse a turn that would begin before the leg does or after it has ended."""
    turn = _turn(line, route.corner_m, given, radius_m=radius_m, response_m=response_m)
    before_m = turn.wheel_over_before_waypoint_m if turn.has_tangents else 0.0
    wheel_over_m = route.corner_m - before_m
    if wheel_over_m < 0.0:
        raise _refused(
            given,
            tr(
                "the wheel would go over {early_nm:.2f} NM before leg {leg_number} begins",
                early_nm=nm_from_m(-wheel_over_m),
                leg_number=given.leg_number,
            ),
            tr("Let the contingency leg leave the track later, or leave the leg before"),
        )
    if wheel_over_m > line.length_m or (
        given.turn_before_m is None and route.corner_m > line.length_m + 0.5
    ):
        raise _refused(
            given,
            tr(
                "the contingency line leaves the track beyond the end of leg "
                "{leg_number}, which is {length_nm:.2f} NM long",
                leg_number=given.leg_number,
                length_nm=nm_from_m(line.length_m),
            ),
            tr("Correct the distance"),
        )


def _refused(given: Contingency, what: str, todo: str) -> InputError:
    return InputError(what, where=given.where, todo=todo)
