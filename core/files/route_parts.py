"""What every route reader ends in: points read from a file become a checked passage."""

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime

import numpy as np

from core.base.errors import InputError
from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.geodesy import geodesic
from core.geodesy.position import Position
from core.passage.passage import Leg, Passage, Waypoint

LIMIT_WAYPOINTS = 2_000
"""More than any planned route holds; recorded tracks hold more."""

LIMIT_NAME = 120
LIMIT_NOTE = 500
_SHORTEST_LEG_M = 1.0
_POLE_CAP_DEG = 89.9
"""Nearer the poles a rhumb line has no useful course."""

_UNPRINTABLE = re.compile("[\x00-\x1f\x7f-\x9f\ud800-\udfff\u2028\u2029\ufeff\ufffe\uffff]+")
# Marks that turn the direction of writing could make a name read as another.
_TURNS = re.compile("[\u200e\u200f\u202a-\u202e\u2066-\u2069]")


@dataclass(frozen=True, slots=True, kw_only=True)
class RoutePoint:
    """A waypoint as a file gives it, with what the file says of the leg that arrives at it."""

    name: str = ""
    lat_deg: float
    lon_deg: float
    line: int | None = None
    turn_radius_m: float | None = None
    eta_utc: datetime | None = None
    etd_utc: datetime | None = None
    leg: Leg = field(default_factory=Leg)


def clean_text(text: str, *, most: int = LIMIT_NAME) -> str:
    """A name fit to print: one line, no control characters, of bounded length."""
    text = _TURNS.sub("", _UNPRINTABLE.sub(" ", text))
    text = " ".join(text.split())
    return text if len(text) <= most else text[: most - 1].rstrip() + "…"


def waypoint_label(index: int, name: str) -> str:
    """The waypoint's own name, else its number in the route, counted from 1."""
    return clean_text(name) or f"WP {index + 1}"


def error_at(
    what: str, *, file: str, todo: str, line: int | None = None, waypoint: str = ""
) -> InputError:
    """An input error whose place is a line or a waypoint of a file."""
    return InputError(what, where=str(Where(file=file, line=line, waypoint=waypoint)), todo=todo)


def check_degrees(
    *,
    lat_deg: float,
    lon_deg: float,
    file: str,
    line: int | None,
    waypoint: str,
    beyond_date_line: bool = False,
) -> None:
    """Refuse a position that is not on the chart.

    Raises
    ------
    InputError
        Latitude outside -90..90 or longitude outside -180..180 (-360..360 when the format lets
        lines run on past the date line), or either is no number.
    """
    most_lon = 360 if beyond_date_line else 180
    for axis, value, most in (
        (tr("latitude"), lat_deg, 90),
        (tr("longitude"), lon_deg, most_lon),
    ):
        if not (math.isfinite(value) and -most <= value <= most):
            raise error_at(
                tr(
                    "{axis} {value:g} is not within -{most} and {most} degrees",
                    axis=axis,
                    value=value,
                    most=most,
                ),
                file=file,
                line=line,
                waypoint=waypoint,
                todo=tr("Correct the position"),
            )


def passage_from_points(
    points: Sequence[RoutePoint], *, name: str, file: str
) -> tuple[Passage, tuple[Finding, ...]]:
    """Build a passage from points with positions already checked.

    Raises
    ------
    InputError
        Fewer than two waypoints, too many, two in a row at one place, or one at a pole.
    """
    if len(points) < 2:
        raise error_at(
            tr("the route has one waypoint, and a passage needs two")
            if points
            else tr("the route has no waypoint, and a passage needs two"),
            file=file,
            todo=tr("Add the missing waypoints"),
        )
    if len(points) > LIMIT_WAYPOINTS:
        raise error_at(
            tr(
                "the route has more than {most_waypoints} waypoints", most_waypoints=LIMIT_WAYPOINTS
            ),
            file=file,
            todo=tr("Split it, or choose the planned route and not a recorded track"),
        )
    labels = [waypoint_label(index, point.name) for index, point in enumerate(points)]
    waypoints = []
    for label, point in zip(labels, points, strict=True):
        if abs(point.lat_deg) > _POLE_CAP_DEG:
            raise error_at(
                tr("latitude {lat_deg:g} is too near the pole for a course", lat_deg=point.lat_deg),
                file=file,
                line=point.line,
                waypoint=label,
                todo=tr("Correct the position"),
            )
        waypoints.append(
            Waypoint(
                name=label,
                position=Position(lat_deg=point.lat_deg, lon_deg=point.lon_deg),
                turn_radius_m=point.turn_radius_m,
                eta_utc=point.eta_utc,
                etd_utc=point.etd_utc,
            )
        )
    _refuse_repeated(waypoints, points, file)
    passage = Passage(
        name=clean_text(name) or clean_text(file),
        waypoints=tuple(waypoints),
        legs=tuple(point.leg for point in points[1:]),
    )
    return passage, _times_in_order(passage, file)


def _refuse_repeated(
    waypoints: Sequence[Waypoint], points: Sequence[RoutePoint], file: str
) -> None:
    lats = np.array([waypoint.position.lat_deg for waypoint in waypoints])
    lons = np.array([waypoint.position.lon_deg for waypoint in waypoints])
    lengths, _start, _end = geodesic.inverse(
        from_lat_deg=lats[:-1], from_lon_deg=lons[:-1], to_lat_deg=lats[1:], to_lon_deg=lons[1:]
    )
    for index, length in enumerate(lengths):
        if length < _SHORTEST_LEG_M:
            raise error_at(
                tr(
                    "leg {leg_number} has no length, because waypoints "
                    "{first_name} and {second_name} are at one place",
                    leg_number=index + 1,
                    first_name=waypoints[index].name,
                    second_name=waypoints[index + 1].name,
                ),
                file=file,
                line=points[index + 1].line,
                todo=tr("Remove one of them"),
            )


def _times_in_order(passage: Passage, file: str) -> tuple[Finding, ...]:
    """A finding when a time of the schedule is before an earlier one."""
    latest: datetime | None = None
    for waypoint in passage.waypoints:
        for time in (waypoint.eta_utc, waypoint.etd_utc):
            if time is None:
                continue
            if latest is not None and time < latest:
                return (
                    Finding(
                        severity=Severity.CHECK,
                        code="schedule-backwards",
                        what=tr("a time of the schedule is before the time at an earlier waypoint"),
                        where=Where(file=file, waypoint=waypoint.name),
                        todo=tr(
                            "Correct the schedule, or give the time of departure and the speed"
                        ),
                    ),
                )
            latest = time
    return ()


def leg_kind_assumed(file: str) -> Finding:
    """The finding that a file is silent on how legs are steered."""
    return Finding(
        severity=Severity.NOTE,
        code="leg-kind-assumed",
        what=tr("legs whose kind is not stated are taken as rhumb lines"),
        where=Where(file=file),
    )
