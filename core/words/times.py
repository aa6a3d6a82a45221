"""Times into printed words: four figures, the zone in every column head, minutes without a date.

Every moment is rounded down to the minute, so that one event has one time wherever it stands and
none comes as a surprise; only limits by which something is due are rounded up (``when_late``).
"""

import math
from datetime import datetime, timedelta

from core.base.language import tr
from core.passage.timetable import Timetable
from core.words.quantities import DASH

_SLACK_MIN = 1e-6
_SLACK = timedelta(minutes=_SLACK_MIN)
"""A whole minute that was worked out is no less for its last bits."""

ZONE = "UTC"
"""The only zone printed; never mixed with another on one page."""


def clock(utc: datetime) -> str:
    """Four figures: ``0642``."""
    return (utc + _SLACK).strftime("%H%M")


def day_clock(utc: datetime) -> str:
    """Day of the month and four figures: ``25 0642``."""
    return (utc + _SLACK).strftime("%d %H%M")


def date(utc: datetime) -> str:
    """A date: ``14 Mar 2026``."""
    months = [
        tr("Jan"),
        tr("Feb"),
        tr("Mar"),
        tr("Apr"),
        tr("May"),
        tr("Jun"),
        tr("Jul"),
        tr("Aug"),
        tr("Sep"),
        tr("Oct"),
        tr("Nov"),
        tr("Dec"),
    ]
    return f"{utc.day:02d} {months[utc.month - 1]} {utc.year}"


def duration(minutes: float) -> str:
    """A duration, nearest minute: ``13 min``, ``1 h 05 min``; below ten with a decimal."""
    if minutes < 9.95:
        return f"{minutes:.1f} min"
    whole = math.floor(minutes + 0.5)
    if whole < 60:
        return f"{whole} min"
    return f"{whole // 60} h {whole % 60:02d} min"


def minutes_early(minutes: float) -> str:
    """Minutes still to run before an alert or turn, rounded down, so early: ``3 min``."""
    return f"{math.floor(minutes + _SLACK_MIN)} min"


def from_start(seconds: float) -> str:
    """Hours and minutes from the start of the passage: ``+1:05``."""
    whole = math.floor(seconds / 60.0 + _SLACK_MIN)
    sign = "-" if whole < 0 else "+"
    return f"{sign}{abs(whole) // 60}:{abs(whole) % 60:02d}"


def when(timetable: Timetable, leg_index: int, along_m: float) -> str:
    """Time at a place of a leg: UTC in four figures, or the time from the start."""
    utc = timetable.utc_at(leg_index, along_m)
    if utc is None:
        return from_start(timetable.seconds_at(leg_index, along_m))
    return clock(utc)


def when_early(timetable: Timetable, leg_index: int, along_m: float) -> str:
    """The same, where it matters that it is early: wheel-over, alerts, first moments."""
    return when(timetable, leg_index, along_m)


def when_late(timetable: Timetable, leg_index: int, along_m: float) -> str:
    """The same rounded up to the minute, for moments by which something is due."""
    utc = timetable.utc_at(leg_index, along_m)
    if utc is None:
        seconds = timetable.seconds_at(leg_index, along_m)
        return from_start(math.ceil(seconds / 60.0 - _SLACK_MIN) * 60.0)
    whole = (utc - _SLACK).replace(second=0, microsecond=0) + timedelta(minutes=1)
    return clock(whole)


def span(timetable: Timetable, leg_index: int, from_along_m: float, to_along_m: float) -> str:
    """From and to as times: ``0500–0526``."""
    start = when(timetable, leg_index, from_along_m)
    return f"{start}{DASH}{when(timetable, leg_index, to_along_m)}"


def zone_words(timetable: Timetable) -> str:
    """What stands in the head of a column of times."""
    return ZONE if timetable.start_utc is not None else tr("from start")


def zone_short(timetable: Timetable) -> str:
    """The same where there is little room: ``UTC`` or ``+h:mm``."""
    return ZONE if timetable.start_utc is not None else "+h:mm"
