"""Objects of earlier plans, as the project and the plan file keep them."""

import json
import math
from pathlib import Path
from typing import Any

from core.base.errors import InputError
from core.base.language import tr
from core.files.reading import decode_text, read_blob
from core.geodesy.position import Position
from core.plan.plan_result import KnownObject, ObjectKind

_LONGEST_ID = 100


def known_object_row(thing: KnownObject) -> dict[str, Any]:
    """One object as a JSON table."""
    return {
        "id": thing.id,
        "kind": thing.kind.value,
        "lat_deg": round(thing.position.lat_deg, 7),
        "lon_deg": round(thing.position.lon_deg, 7),
    }


def known_objects_of(rows: object) -> tuple[KnownObject, ...]:
    """Objects from a JSON list.

    Raises
    ------
    ValueError
        It is no such list; the message is the sentence for the officer.
    """
    if not isinstance(rows, list):
        raise ValueError("known_objects is not a list")  # noqa: TRY004 - the caller names the file
    things = tuple(_object(row) for row in rows)
    if len({thing.id.casefold() for thing in things}) < len(things):
        raise ValueError("an object stands twice in known_objects")
    return things


def _object(row: object) -> KnownObject:
    wrong = ValueError("an entry of known_objects is not an object with id, kind and position")
    if not isinstance(row, dict):
        raise wrong
    letter, kind = row.get("id"), row.get("kind")
    lat, lon = row.get("lat_deg"), row.get("lon_deg")
    if not isinstance(letter, str) or not 0 < len(letter) <= _LONGEST_ID:
        raise wrong
    lat_deg, lon_deg = _number(lat, 90.0), _number(lon, 180.0)
    if lat_deg is None or lon_deg is None:
        raise wrong
    try:
        place = Position(lat_deg=lat_deg, lon_deg=lon_deg)
        return KnownObject(id=letter, kind=ObjectKind(kind), position=place)
    except ValueError as exc:
        raise wrong from exc


def _number(value: object, most: float) -> float | None:
    if not isinstance(value, int | float) or isinstance(value, bool):
        return None
    return float(value) if math.isfinite(value) and abs(value) <= most else None


def read_known_objects(path: Path) -> tuple[KnownObject, ...]:
    """Objects of an earlier plan file or project.

    Raises
    ------
    InputError
        The file cannot be read or holds no objects.
    """
    blob = read_blob(path)
    text, _findings = decode_text(blob)
    todo = tr("Name a plan file (JSON) or a project of this program")
    try:
        document = json.loads(text)
    except (ValueError, RecursionError) as exc:
        raise InputError(tr("this is no plan file"), where=blob.name, todo=todo) from exc
    rows = document.get("known_objects") if isinstance(document, dict) else None
    if rows is None:
        raise InputError(tr("this holds no objects of an earlier plan"), where=blob.name, todo=todo)
    try:
        return known_objects_of(rows)
    except ValueError as exc:
        raise InputError(str(exc), where=blob.name, todo=todo) from exc
