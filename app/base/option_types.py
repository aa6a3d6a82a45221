"""What the command line takes as a number, a place or a time, and in which unit."""

import math
from collections.abc import Callable
from datetime import UTC, datetime

from core.base.language import tr
from core.base.units import m_from_nm, mps_from_kn
from core.files.angle_text import position_in_text
from core.geodesy.position import Position
from core.jobs.offing_shifts import shifts_in_text


def number(text: str) -> float:
    """A finite number; a decimal comma will do."""
    value = float(text.replace(",", "."))
    if not math.isfinite(value):
        raise ValueError(text)
    return value


def _with_unit(scale: Callable[[float], float]) -> Callable[[str], float]:
    def convert(text: str) -> float:
        return scale(number(text))

    convert.__name__ = tr("number")
    return convert


def time(text: str) -> datetime:
    """A time, UTC unless it says otherwise."""
    moment = datetime.fromisoformat(text)
    return moment.replace(tzinfo=UTC) if moment.tzinfo is None else moment.astimezone(UTC)


time.__name__ = tr("ISO time")


def place(text: str) -> Position:
    """A position in any of the usual spellings."""
    written = position_in_text(text)
    return Position(lat_deg=written.lat_deg, lon_deg=written.lon_deg)


place.__name__ = tr("position")


def draughts(text: str) -> tuple[float, float]:
    """Draughts forward and aft, m: ``8.2,8.6``, or ``8,2/8,6`` where the comma is decimal."""
    forward, aft = text.split("/") if "/" in text else text.split(",")
    return number(forward), number(aft)


draughts.__name__ = tr("pair of draughts")


def shifts(text: str) -> tuple[float, ...]:
    """Distances in NM parted by commas, m: ``0.5,1.0``, or ``0,5/1,0``."""
    return shifts_in_text(text)


shifts.__name__ = tr("list of distances")

METRES = number
MILES = _with_unit(m_from_nm)
KNOTS = _with_unit(mps_from_kn)
MINUTES = _with_unit(lambda minutes: minutes * 60.0)
