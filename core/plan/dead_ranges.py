"""Objects nearly ahead or astern, whose range counts down the leg (job.md 2.10.6)."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from core.plan.leg_check_result import CountdownRange, DeadRange
from core.plan.place_readings import PlaceReading, Reader

MOST_OFF_DEG = 10.0
"""Beyond it the range no longer changes as the distance run does (job.md 2.10.6)."""
_STEP_M = 463.0
"""A quarter of a mile."""
_LEAST_STEPS = 3
_MOST = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sample:
    along_m: float
    reading: PlaceReading


def off_track_deg(reading: PlaceReading) -> float:
    """Angle between the bearing and the course line, ahead or astern, deg."""
    return math.degrees(math.atan2(abs(reading.cross_m), abs(reading.ahead_m)))


def rate_mps(reading: PlaceReading, speed_mps: float) -> float:
    """How fast the range changes: speed times cosine of the angle off the track."""
    return speed_mps * math.cos(math.radians(off_track_deg(reading)))


def dead_ranges(
    read: Reader, *, end_m: float, speed_mps: float, before_s: Sequence[float]
) -> tuple[DeadRange, ...]:
    """The objects that serve best as dead ranges: at the end of the leg, then the longest.

    Parameters
    ----------
    read : Reader
        What can be ranged from a place.
    end_m : float
        Wheel-over or end of the leg, m along.
    speed_mps : float
        Over the ground.
    before_s : sequence of float
        Times before the end to give a range for, besides the end itself.

    Returns
    -------
    tuple of DeadRange
        In order along the leg; two at most.
    """
    if end_m <= 0.0:
        return ()
    counted = sorted({max(end_m - s * speed_mps, 0.0) for s in (*before_s, 0.0)})
    steps = max(math.ceil(end_m / _STEP_M), 1)
    places = sorted({*np.linspace(0.0, end_m, steps + 1).tolist(), *counted})
    runs: dict[tuple[str, bool], list[list[_Sample]]] = {}
    for number, along_m in enumerate(places):
        for reading in read(along_m):
            if off_track_deg(reading) > MOST_OFF_DEG:
                continue
            own = runs.setdefault((reading.object_id, reading.ahead_m > 0.0), [])
            if not own or number == 0 or own[-1][-1].along_m != places[number - 1]:
                own.append([])
            own[-1].append(_Sample(along_m=along_m, reading=reading))
    found = [
        _dead_range(run, is_ahead=is_ahead, end_m=end_m, speed_mps=speed_mps, counted=counted)
        for (_object, is_ahead), stretches in runs.items()
        for run in stretches
        if len(run) >= _LEAST_STEPS
    ]
    ranked = sorted(
        found,
        key=lambda d: (
            -len(d.countdown),
            d.from_along_m - d.to_along_m,
            d.greatest_angle_deg,
            d.object_id,
        ),
    )
    chosen: list[DeadRange] = []
    for one in ranked:
        is_new = all(
            one.object_id != other.object_id
            and (
                one.to_along_m <= other.from_along_m + _STEP_M
                or one.from_along_m >= other.to_along_m - _STEP_M
                or one.is_ahead != other.is_ahead
            )
            for other in chosen
        )
        if is_new and len(chosen) < _MOST:
            chosen.append(one)
    return tuple(sorted(chosen, key=lambda d: (d.from_along_m, d.object_id)))


def _dead_range(
    run: list[_Sample], *, is_ahead: bool, end_m: float, speed_mps: float, counted: list[float]
) -> DeadRange:
    first, last = run[0], run[-1]
    rates = [rate_mps(sample.reading, speed_mps) for sample in run]
    return DeadRange(
        object_id=last.reading.object_id,
        name=last.reading.name,
        is_ahead=is_ahead,
        from_along_m=first.along_m,
        to_along_m=last.along_m,
        from_range_m=first.reading.range_m,
        to_range_m=last.reading.range_m,
        greatest_angle_deg=max(off_track_deg(sample.reading) for sample in run),
        least_rate_mps=min(rates),
        greatest_rate_mps=max(rates),
        countdown=tuple(
            CountdownRange(
                before_minutes=(end_m - sample.along_m) / speed_mps / 60.0,
                along_m=sample.along_m,
                range_m=sample.reading.range_m,
            )
            for sample in run
            if sample.along_m in counted
        )
        if last.along_m == end_m
        else (),
    )
