"""What index readings that differ from the plan have in common (job.md 2.10.2, 2.9.4, T23)."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from core.passage.passage import Side
from core.plan.leg_check_result import Cause


@dataclass(frozen=True, slots=True, kw_only=True)
class IndexReading:
    """A cross-index range as read, beside what the plan says."""

    side: Side
    cross_index_range_m: float
    """By the plan."""
    ahead_m: float
    """Along the track from own ship to the object when it was read, astern negative."""
    read_m: float

    @property
    def off_m(self) -> float:
        """How much it reads long."""
        return self.read_m - self.cross_index_range_m


@dataclass(frozen=True, slots=True, kw_only=True)
class Diagnosis:
    """A single cause that fits the readings."""

    cause: Cause
    size_m: float
    """Range index error (+ reads long) or ship off her track (+ to starboard); else 0."""
    size_deg: float
    """Error of the heading line (+ bearings read high); else 0."""
    left_m: float
    """The most that any reading still differs."""


def effect(cause: Cause, *, side: Side, cross_m: float, ahead_m: float) -> float:
    """How much longer a cross-index range reads for one unit of a cause (m, m, or deg).

    Parameters
    ----------
    cause : Cause
        The error.
    side : Side
        Of the object.
    cross_m, ahead_m : float
        Distance off the track, and along it from own ship (astern negative), m.

    Notes
    -----
    A range index error lengthens the range, so the cross-index range by the sine of the angle off
    the track; a ship off her track brings one side nearer and the other farther; an error of the
    heading line turns all echoes, so it moves them aside by what they are ahead.
    """
    starboard = 1.0 if side is Side.STARBOARD else -1.0
    if cause is Cause.OFF_TRACK:
        return -starboard
    if cause is Cause.HEADING_LINE:
        return starboard * ahead_m * math.radians(1.0)
    range_m = math.hypot(cross_m, ahead_m)
    return abs(cross_m) / range_m if range_m > 0.0 else 1.0


def diagnose(readings: Sequence[IndexReading], *, tolerance_m: float) -> tuple[Diagnosis, ...]:
    """The single causes that fit some readings, best first.

    Parameters
    ----------
    readings : sequence of IndexReading
        At least two tell something; of one object at several places, or of several.
    tolerance_m : float
        Error of a reading: what differs less than this agrees.

    Returns
    -------
    tuple of Diagnosis
        Empty where all readings agree with the plan (see ``all_agree``) or no single cause fits.
    """
    if all_agree(readings, tolerance_m=tolerance_m):
        return ()
    found = []
    for cause in Cause:
        per_unit = [
            effect(cause, side=r.side, cross_m=r.cross_index_range_m, ahead_m=r.ahead_m)
            for r in readings
        ]
        square = sum(k * k for k in per_unit)
        if square < 1e-9:
            continue
        size = sum(k * r.off_m for k, r in zip(per_unit, readings, strict=True)) / square
        left_m = max(abs(r.off_m - k * size) for k, r in zip(per_unit, readings, strict=True))
        if left_m <= tolerance_m:
            is_angle = cause is Cause.HEADING_LINE
            found.append(
                Diagnosis(
                    cause=cause,
                    size_m=0.0 if is_angle else size,
                    size_deg=size if is_angle else 0.0,
                    left_m=left_m,
                )
            )
    return tuple(sorted(found, key=lambda one: one.left_m))


def all_agree(readings: Sequence[IndexReading], *, tolerance_m: float) -> bool:
    """Whether every reading is as planned within the tolerance."""
    return all(abs(reading.off_m) <= tolerance_m for reading in readings)
