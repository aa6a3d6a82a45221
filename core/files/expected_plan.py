"""First paints taken back out of a plan file, to be compared with what was seen."""

import json
import math
from datetime import datetime
from pathlib import Path
from typing import Any

from core.base.errors import InputError
from core.base.language import tr
from core.base.units import m_from_nm
from core.coverage.profiles import horizon_distance_m
from core.files.reading import decode_text, read_blob
from core.geodesy.leg_line import LegKind, LegLine
from core.geodesy.position import Position
from core.plan.observed_result import Expected, ExpectedLeg, ExpectedPlan

_TODO = tr("Name a plan file (JSON) that this program wrote")
_Row = dict[str, Any]


def read_expected(path: Path) -> ExpectedPlan:
    """Read the first paints of a plan file.

    Raises
    ------
    InputError
        No plan file, broken, or without first paints; one sentence.
    """
    blob = read_blob(path)
    text, _findings = decode_text(blob)
    try:
        document = json.loads(text)
    except (ValueError, RecursionError) as exc:
        raise InputError(tr("this is no plan file"), where=blob.name, todo=_TODO) from exc
    if not isinstance(document, dict) or document.get("format") != "legsheet-plan":
        raise InputError(tr("this is no plan file"), where=blob.name, todo=_TODO)
    try:
        return expected_of(document)
    except (KeyError, TypeError, ValueError, AttributeError, OverflowError) as exc:
        raise InputError(
            tr("this plan file is damaged or of another version"), where=blob.name, todo=_TODO
        ) from exc


def expected_of(document: _Row) -> ExpectedPlan:
    """First paints of a plan file's content; a sound one raises nothing."""
    ship, environment = document["ship"], document["environment"]
    radars = tuple(str(radar["name"]) for radar in ship["radars"])
    if not radars:
        raise ValueError("no radar")
    return ExpectedPlan(
        name=str(document["passage"]["name"]),
        digest=str(document["receipt"]["digest"]),
        radars=radars,
        horizon_m=float(
            horizon_distance_m(
                _number(ship["antenna_height_above_water_m"], 0.1, 500.0),
                0.0,
                _number(environment["refraction_k"], 0.1, 100.0),
            )
        ),
        legs=tuple(_leg(row, radars[0]) for row in document["legs"]),
    )


def _leg(row: _Row, main: str) -> ExpectedLeg:
    return ExpectedLeg(
        number=int(_number(row["number"], 1.0, 1e5)),
        line=LegLine(
            kind=LegKind(row["kind"]), start=_position(row["from"]), end=_position(row["to"])
        ),
        start_utc=_time(row["start_utc"]),
        end_utc=_time(row["end_utc"]),
        paints=tuple(_expected(thing, main) for thing in row["first_paints"]),
    )


def _expected(row: _Row, main: str) -> Expected:
    ranges = {main: row["normally_by"]}
    ranges |= {str(item["radar"]): item["normally_by"] for item in row["by_radar"]}
    return Expected(
        object_id=str(row["object_id"]),
        name=str(row["name"]),
        position=_position(row),
        range_by_radar_m=tuple(
            (radar, m_from_nm(_number(limit["range_nm"], 1e-4, 1e4)))
            for radar, limit in ranges.items()
            if limit is not None
        ),
        reason=str(row["normally_by_reason"]),
    )


def _position(row: _Row) -> Position:
    return Position(
        lat_deg=_number(row["lat_deg"], -90.0, 90.0), lon_deg=_number(row["lon_deg"], -180.0, 180.0)
    )


def _time(value: object) -> datetime | None:
    if value is None:
        return None
    moment = datetime.fromisoformat(str(value))
    if moment.tzinfo is None:
        raise ValueError("a time without a zone")
    return moment


def _number(value: object, low: float, high: float) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise TypeError("not a number")
    if not (math.isfinite(value) and low <= value <= high):
        raise ValueError("out of its limits")
    return float(value)
