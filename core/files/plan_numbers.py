"""Numbers and times as the plan file writes them: fixed digits, nulls with reasons."""

from datetime import datetime
from typing import Any

from core.base.units import kn_from_mps, nm_from_m
from core.geodesy.position import Position
from core.passage.timetable import Timetable

NO_START_TIME = "no start time was given"
NOT_BUILT = "this version works out lines of sight, not detection"


def nm(distance_m: float) -> float:
    """Nautical miles to five decimals (about 2 cm)."""
    return round(nm_from_m(distance_m), 5) + 0.0


def kn(speed_mps: float) -> float:
    """Knots to four decimals."""
    return round(kn_from_mps(speed_mps), 4)


def deg(angle_deg: float) -> float:
    """True direction in [0, 360) to four decimals."""
    rounded = round(angle_deg % 360.0, 4)
    return 0.0 if rounded >= 360.0 else rounded


def metres(height_m: float) -> float:
    """Metres to one decimal."""
    return round(height_m, 1) + 0.0


def place(position: Position) -> dict[str, float]:
    """Latitude and longitude to seven decimals (about 1 cm)."""
    return {"lat_deg": round(position.lat_deg, 7), "lon_deg": round(position.lon_deg, 7)}


def utc_text(moment: datetime) -> str:
    """ISO 8601 to the second, with Z."""
    return moment.replace(microsecond=0, tzinfo=None).isoformat() + "Z"


def nullable(name: str, value: Any, reason: str) -> dict[str, Any]:  # noqa: ANN401 - JSON value
    """A field that may be null, and beside it why it is; the reason is empty for a value."""
    return {name: value, f"{name}_reason": "" if value is not None else reason}


def moment_of(
    timetable: Timetable, leg_index: int, along_m: float, prefix: str = ""
) -> dict[str, Any]:
    """Time of a place on a leg: UTC or null with a reason, and minutes from the start."""
    utc = timetable.utc_at(leg_index, along_m)
    text = None if utc is None else utc_text(utc)
    lead = f"{prefix}_" if prefix else ""
    return {
        **nullable(f"{lead}utc", text, NO_START_TIME),
        f"{lead}minutes_from_start": round(timetable.seconds_at(leg_index, along_m) / 60.0, 2),
    }
