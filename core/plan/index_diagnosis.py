"""What is wrong when index lines do not read as planned (job.md 2.9.4, 2.10, T23)."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from core.passage.passage import Side


@dataclass(frozen=True, slots=True, kw_only=True)
class IndexReading:
    """One index object as read on the screen."""

    side: Side
    cross_index_range_m: float
    """As planned, > 0."""
    ahead_m: float
    """Distance along the track to its abeam; negative once it is past."""
    excess_m: float
    """Range off the line as read, less as planned; positive reads long."""


class IndexCause(Enum):
    """The one thing that explains all readings."""

    NONE = "as planned"
    RANGE = "range index error"
    OFF_TRACK = "ship off her track"
    HEADING = "heading marker or gyro error"
    SEVERAL = "no single cause"


@dataclass(frozen=True, slots=True, kw_only=True)
class IndexDiagnosis:
    """What explains the readings, and how much of it."""

    cause: IndexCause
    range_error_m: float = 0.0
    """Of the set; positive reads long."""
    off_track_m: float = 0.0
    """Of the ship, to starboard."""
    bearing_error_deg: float = 0.0
    """Of bearings; positive reads high."""


def heading_shift_m(*, ahead_m: float, error_deg: float) -> float:
    """How far an echo shifts across the track when bearings are off, m.

    0.07 NM for 1 deg at 4 NM ahead, nothing abeam (job.md 2.9.4).
    """
    return ahead_m * math.radians(error_deg)


def diagnose(readings: Sequence[IndexReading], *, tolerance_m: float) -> IndexDiagnosis:
    """Find the single cause that explains all readings.

    Parameters
    ----------
    readings : sequence of IndexReading
        Two or more, taken at about the same time.
    tolerance_m : float
        What a reading may be off by chance, about 95 %, m.

    Returns
    -------
    IndexDiagnosis
        ``NONE`` where all read as planned; ``SEVERAL`` where no single cause explains them or
        more than one does.

    Notes
    -----
    A range error e adds e sin b to a reading, b the angle off the track line; a ship y to
    starboard of her track reads y short to starboard and y long to port; bearings d high turn an
    object a ahead by a d to starboard: long there, short to port (plain geometry). Each cause is
    fitted by least squares and kept if no reading is off by more than the tolerance.
    """
    if not readings:
        raise ValueError("no readings")
    excess = [r.excess_m for r in readings]
    if all(abs(x) <= tolerance_m for x in excess):
        return IndexDiagnosis(cause=IndexCause.NONE)
    signs = [1.0 if r.side is Side.STARBOARD else -1.0 for r in readings]
    effects = {
        IndexCause.RANGE: [_sine(r) for r in readings],
        IndexCause.OFF_TRACK: [-sign for sign in signs],
        IndexCause.HEADING: [
            sign * heading_shift_m(ahead_m=r.ahead_m, error_deg=1.0)
            for sign, r in zip(signs, readings, strict=True)
        ],
    }
    fitting = {}
    for cause, effect in effects.items():
        square = sum(x * x for x in effect)
        if square == 0.0:
            continue
        size = sum(x * y for x, y in zip(effect, excess, strict=True)) / square
        left = [abs(y - size * x) for x, y in zip(effect, excess, strict=True)]
        if max(left) <= tolerance_m:
            fitting[cause] = size
    if len(fitting) != 1:
        return IndexDiagnosis(cause=IndexCause.SEVERAL)
    ((cause, size),) = fitting.items()
    return IndexDiagnosis(
        cause=cause,
        range_error_m=size if cause is IndexCause.RANGE else 0.0,
        off_track_m=size if cause is IndexCause.OFF_TRACK else 0.0,
        bearing_error_deg=size if cause is IndexCause.HEADING else 0.0,
    )


def _sine(reading: IndexReading) -> float:
    return reading.cross_index_range_m / math.hypot(reading.cross_index_range_m, reading.ahead_m)
