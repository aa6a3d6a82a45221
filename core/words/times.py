"""Times into printed words: four figures, the zone in every column head, minutes without a date."""

import math
from datetime import datetime, timedelta

from core.base.language import tr
from core.passage.timetable import Timetable
from core.words.quantities import DASH

ZONE = "UTC"
"""The only zone printed; never mixed with another on one page."""


def clock(utc: datetime) -> str:
    """Four figures, nearest minute: ``0642``."""
    return _nearest_minute(utc).strftime("%H%M")


def clock_early(utc: datetime) -> str:
    """Four figures, rounded down: for alerts and first moments, so that they warn early."""
    return utc.strftime("%H%M")


def day_clock(utc: datetime) -> str:
    """Day of the month and four figures: ``25 0642``."""
    return _nearest_minute(utc).strftime("%d %H%M")


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
    return f"{math.floor(minutes + 1e-6)} min"


def from_start(seconds: float) -> str:
    """Hours and minutes from the start of the passage, nearest minute: ``+1:05``."""
    whole = math.floor(seconds / 60.0 + 0.5)
    sign = "-" if whole < 0 else "+"
    return f"{sign}{abs(whole) // 60}:{abs(whole) % 60:02d}"


def when(timetable: Timetable, leg_index: int, along_m: float) -> str:
    """Time at a place of a leg: UTC in four figures, or the time from the start."""
    utc = timetable.utc_at(leg_index, along_m)
    if utc is None:
        return from_start(timetable.seconds_at(leg_index, along_m))
    return clock(utc)


def when_early(timetable: Timetable, leg_index: int, along_m: float) -> str:
    """The same rounded down to the minute, for moments that must not come as a surprise."""
    utc = timetable.utc_at(leg_index, along_m)
    if utc is None:
        return from_start(math.floor(timetable.seconds_at(leg_index, along_m) / 60.0) * 60.0)
    return clock_early(utc)


def when_late(timetable: Timetable, leg_index: int, along_m: float) -> str:
    """The same rounded up to the minute, for moments by which something is due."""
    utc = timetable.utc_at(leg_index, along_m)
    if utc is None:
        seconds = timetable.seconds_at(leg_index, along_m)
        return from_start(math.ceil(seconds / 60.0 - 1e-6) * 60.0)
    whole = utc.replace(second=0, microsecond=0)
    return clock(whole if whole == utc else whole + timedelta(minutes=1))


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


def _nearest_minute(utc: datetime) -> datetime:
    return (utc + timedelta(seconds=30)).replace(second=0, microsecond=0)
