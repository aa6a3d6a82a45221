"""Fills in what the route file leaves open: speeds, corridors and times, with findings."""

from dataclasses import replace
from datetime import datetime

import numpy as np

from core.base.findings import Finding, Severity, Where
from core.base.language import tr, tr_n
from core.base.units import kn_from_mps, mps_from_kn, nm_from_m
from core.passage.motion import LegMotion, leg_motion
from core.passage.passage import Leg, Passage, Waypoint
from core.passage.stream import NO_STREAMS, PassageStreams
from core.passage.timetable import Timetable

_SLOWEST_MPS = mps_from_kn(0.5)
_FASTEST_MPS = mps_from_kn(60.0)
_SCHEDULE_SLACK_S = 60.0
"""RTZ schedules are rounded; a departure this much before the arrival is no contradiction."""


def resolve_passage(
    passage: Passage,
    *,
    speed_mps: float | None,
    corridor_m: float | None,
    default_speed_mps: float,
    default_corridor_m: float,
    start_utc: datetime | None,
    streams: PassageStreams = NO_STREAMS,
) -> tuple[Passage, Timetable, tuple[Finding, ...]]:
    """Fill in every leg's speed and corridor and work out when the ship is where.

    Speed of a leg: the officer's speed; else the schedule of the file where it is in use and
    has times at both ends; else the leg's own; else the schedule; else the assumed speed, with
    a finding. The schedule's times are in use where the officer gave no start time and the
    first waypoint has a time of departure.

    Parameters
    ----------
    passage : Passage
        As the reader made it.
    speed_mps, corridor_m : float or None
        Given by the officer: the speed overrides the file, the corridor (each side, m) stands
        in where the file is silent.
    default_speed_mps, default_corridor_m : float
        Assumed, with a finding, where nobody says anything.
    start_utc : datetime or None
        Start time given by the officer.
    streams : PassageStreams
        Where a stream is given, speeds count through the water and times run on what is made
        good over the ground.

    Returns
    -------
    passage, timetable, findings
        Every leg of the passage has a speed and both corridors. ``timetable.start_utc`` is None
        where neither officer nor schedule gives a time.

    Raises
    ------
    InputError
        A stream cannot be stemmed, in one sentence.
    """
    lengths_m = [passage.line(i).length_m for i in range(len(passage.legs))]
    first_departure = passage.waypoints[0].etd_utc
    is_scheduled = start_utc is None and first_departure is not None
    findings: list[Finding] = []

    scheduled_mps, implausible = scheduled_speeds(passage)
    findings += implausible
    speeds, assumed = _speeds(
        passage.legs, speed_mps, scheduled_mps, is_scheduled=is_scheduled, default=default_speed_mps
    )
    if assumed:
        findings.append(_speed_assumed(assumed, len(speeds), default_speed_mps))
    if speed_mps is not None and any(
        leg.speed_mps is not None and abs(leg.speed_mps - speed_mps) > 0.05 for leg in passage.legs
    ):
        findings.append(_speed_overridden(speed_mps))

    motions = _motions(passage, speeds, lengths_m, streams)
    grounds = [motion.ground_speed_mps for motion in motions]
    if any(motion.given.stream is not None for motion in motions):
        findings.append(_through_water(is_scheduled=is_scheduled and speed_mps is None))

    legs, corridor_assumed = _with_corridors(passage.legs, speeds, corridor_m, default_corridor_m)
    if corridor_assumed:
        findings.append(_corridor_assumed(corridor_assumed, len(legs), default_corridor_m))

    start = first_departure if is_scheduled else start_utc
    follows_schedule = is_scheduled and speed_mps is None
    starts_s = _leg_starts(
        passage.waypoints, lengths_m, grounds, start if follows_schedule else None, findings
    )
    if start is None:
        findings.append(
            Finding(
                severity=Severity.NOTE,
                code="no-start-time",
                what=tr("no start time is given, so the plan counts minutes from the start"),
                todo=tr("Give the time of departure to have times in UTC"),
            )
        )
    timetable = Timetable(
        start_utc=start,
        leg_start_s=starts_s,
        leg_speed_mps=tuple(grounds),
        leg_motion=motions if any(motion.given.is_given for motion in motions) else (),
    )
    return replace(passage, legs=legs), timetable, tuple(findings)


def _departure(waypoint: Waypoint) -> datetime | None:
    return waypoint.etd_utc or waypoint.eta_utc


def _arrival(waypoint: Waypoint) -> datetime | None:
    return waypoint.eta_utc or waypoint.etd_utc


def scheduled_speeds(passage: Passage) -> tuple[tuple[float | None, ...], tuple[Finding, ...]]:
    """Speeds, m/s, that follow from the times at the two ends of each leg, where they make sense.

    The findings tell of those that do not.
    """
    findings: list[Finding] = []
    speeds: list[float | None] = []
    for index in range(len(passage.legs)):
        length_m = passage.line(index).length_m
        leaves = _departure(passage.waypoints[index])
        reaches = _arrival(passage.waypoints[index + 1])
        if leaves is None or reaches is None or length_m == 0.0:
            speeds.append(None)
            continue
        duration_s = (reaches - leaves).total_seconds()
        speed = length_m / duration_s if duration_s > 0.0 else 0.0
        if _SLOWEST_MPS <= speed <= _FASTEST_MPS:
            speeds.append(speed)
            continue
        told = (
            f"{kn_from_mps(speed):.0f} kn" if duration_s > 0.0 else tr("arrival before departure")
        )
        findings.append(
            Finding(
                severity=Severity.CHECK,
                code="schedule-implausible",
                what=tr(
                    "the schedule of the route file would mean {told}, so it is not used here",
                    told=told,
                ),
                where=Where(leg_number=index + 1),
                todo=tr("Check the times in the route file"),
            )
        )
        speeds.append(None)
    return tuple(speeds), tuple(findings)


def _speeds(
    legs: tuple[Leg, ...],
    given_mps: float | None,
    scheduled_mps: tuple[float | None, ...],
    *,
    is_scheduled: bool,
    default: float,
) -> tuple[list[float], list[int]]:
    """Speed of each leg, and the numbers of the legs whose speed had to be assumed."""
    if given_mps is not None:
        return [given_mps] * len(legs), []
    speeds: list[float] = []
    assumed: list[int] = []
    for index, leg in enumerate(legs):
        sources = [scheduled_mps[index], leg.speed_mps]
        known = next((s for s in (sources if is_scheduled else sources[::-1]) if s), None)
        if known is None:
            assumed.append(index + 1)
        speeds.append(known or default)
    return speeds, assumed


def _motions(
    passage: Passage, speeds: list[float], lengths_m: list[float], streams: PassageStreams
) -> tuple[LegMotion, ...]:
    """Heading and speed over the ground of each leg, by its course half-way."""
    motions = []
    for index, (speed, length_m) in enumerate(zip(speeds, lengths_m, strict=True)):
        _lats, _lons, courses = passage.line(index).at(np.array([length_m / 2.0]))
        motions.append(
            leg_motion(
                streams.on(index + 1),
                course_deg=float(courses[0]),
                speed_mps=speed,
                leg_number=index + 1,
            )
        )
    return tuple(motions)


def _with_corridors(
    legs: tuple[Leg, ...], speeds: list[float], corridor_m: float | None, default_m: float
) -> tuple[tuple[Leg, ...], list[int]]:
    """Legs with everything filled in, and the numbers of those with an assumed corridor."""
    stand_in = corridor_m if corridor_m is not None else default_m
    filled = tuple(
        replace(
            leg,
            speed_mps=speed,
            corridor_port_m=leg.corridor_port_m or stand_in,
            corridor_starboard_m=leg.corridor_starboard_m or stand_in,
        )
        for leg, speed in zip(legs, speeds, strict=True)
    )
    silent = [
        i + 1 for i, g in enumerate(legs) if not (g.corridor_port_m and g.corridor_starboard_m)
    ]
    return filled, silent if corridor_m is None else []


def _leg_starts(
    waypoints: tuple[Waypoint, ...],
    lengths_m: list[float],
    speeds: list[float],
    schedule_start: datetime | None,
    findings: list[Finding],
) -> tuple[float, ...]:
    """Seconds from the start at which each leg begins; stays at waypoints come from a schedule."""
    starts = [0.0]
    for index in range(1, len(speeds)):
        arrival_s = starts[-1] + lengths_m[index - 1] / speeds[index - 1]
        leaves = _departure(waypoints[index]) if schedule_start is not None else None
        if leaves is None or schedule_start is None:
            starts.append(arrival_s)
            continue
        departure_s = (leaves - schedule_start).total_seconds()
        if departure_s < arrival_s - _SCHEDULE_SLACK_S:
            findings.append(
                Finding(
                    severity=Severity.CHECK,
                    code="schedule-too-early",
                    what=(
                        tr(
                            "the schedule leaves here {minutes:.0f} min before the ship can "
                            "have arrived, so the time from the speeds is used",
                            minutes=(arrival_s - departure_s) / 60.0,
                        )
                    ),
                    where=Where(waypoint=waypoints[index].name),
                    todo=tr("Check the times in the route file"),
                )
            )
        starts.append(departure_s if departure_s >= arrival_s - _SCHEDULE_SLACK_S else arrival_s)
    return tuple(starts)


def _speed_assumed(legs: list[int], leg_count: int, speed_mps: float) -> Finding:
    return Finding(
        severity=Severity.CHECK,
        code="speed-assumed",
        what=tr(
            "no speed is given for {legs}; {speed_kn:.1f} kn is assumed",
            legs=_legs(legs, leg_count),
            speed_kn=kn_from_mps(speed_mps),
        ),
        where=_where(legs),
        todo=tr("Give the planned speed"),
    )


def _speed_overridden(speed_mps: float) -> Finding:
    return Finding(
        severity=Severity.NOTE,
        code="speed-overridden",
        what=tr(
            "the speed given, {speed_kn:.1f} kn, replaces the route file's on every leg",
            speed_kn=kn_from_mps(speed_mps),
        ),
    )


def _through_water(*, is_scheduled: bool) -> Finding:
    """How speeds are read where a stream is given."""
    if is_scheduled:
        return Finding(
            severity=Severity.CHECK,
            code="schedule-through-water",
            what=tr(
                "a stream is given, so the speeds of the schedule count through "
                "the water and the times differ from it"
            ),
            todo=tr("Give the speed through the water yourself to be sure of the times"),
        )
    return Finding(
        severity=Severity.NOTE,
        code="speed-through-water",
        what=tr(
            "a stream is given, so speeds count through the water; times run "
            "on the speed over the ground"
        ),
    )


def _corridor_assumed(legs: list[int], leg_count: int, corridor_m: float) -> Finding:
    return Finding(
        severity=Severity.CHECK,
        code="corridor-assumed",
        what=tr(
            "the route file states no corridor for {legs}; {distance_nm:.2f} NM "
            "to each side is assumed",
            legs=_legs(legs, leg_count),
            distance_nm=nm_from_m(corridor_m),
        ),
        where=_where(legs),
        todo=tr("Give the corridor of the passage plan"),
    )


def _where(legs: list[int]) -> Where:
    return Where(leg_number=legs[0]) if len(legs) == 1 else Where()


def _legs(numbers: list[int], leg_count: int) -> str:
    """The legs in words: ``any leg``, ``leg 4``, ``legs 1-3, 7``."""
    if len(numbers) == leg_count:
        return tr("any leg")
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][1] + 1:
            runs[-1][1] = number
        else:
            runs.append([number, number])
    words = ", ".join(str(a) if a == b else f"{a}-{b}" for a, b in runs)
    return tr_n("leg {numbers}", "legs {numbers}", len(numbers), numbers=words)
