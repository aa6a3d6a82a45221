"""A revision as the project and the plan file keep it."""

import itertools
import json
from pathlib import Path
from typing import Any

from core.base.errors import InputError
from core.base.language import tr
from core.files.reading import decode_text, read_blob
from core.geodesy.position import Position
from core.plan.revision import Change, LegFacts, LegRevision, Revision

_MOST_NUMBER = 9999


def revision_row(revision: Revision) -> dict[str, Any]:
    """One revision as a JSON table."""
    return {
        "number": revision.number,
        "issued_utc": revision.issued_utc,
        "digest": revision.digest,
        "note": revision.note,
        "by": revision.by,
        "legs": [leg_row(leg) for leg in revision.legs],
    }


def leg_row(leg: LegRevision) -> dict[str, Any]:
    """One leg of a revision as a JSON table."""
    return {
        "revision": leg.revision,
        "is_new": leg.is_new,
        "from": _end(leg.facts.start_name, leg.facts.start),
        "to": _end(leg.facts.end_name, leg.facts.end),
        "says": [[what, words] for what, words in leg.facts.items],
        "changes": [[change.what, change.before, change.now] for change in leg.changes],
    }


def _end(name: str, position: Position) -> dict[str, Any]:
    return {
        "name": name,
        "lat_deg": round(position.lat_deg, 7),
        "lon_deg": round(position.lon_deg, 7),
    }


def revisions_of(rows: object) -> tuple[Revision, ...]:
    """Revisions from a JSON list, the last one last.

    Raises
    ------
    ValueError
        It is no such list; the message is the sentence for the officer.
    """
    if not isinstance(rows, list):
        raise ValueError("revisions is not a list")  # noqa: TRY004 - the caller names the file
    found = tuple(revision_of(row) for row in rows)
    if any(a.number >= b.number for a, b in itertools.pairwise(found)):
        raise ValueError("the revisions are not in order")
    return found


def revision_of(row: object) -> Revision:
    """One revision from a JSON table.

    Raises
    ------
    ValueError
        It is none.
    """
    wrong = ValueError("a revision does not hold number, time, digest and legs")
    try:
        if not isinstance(row, dict) or isinstance(row["number"], bool):
            raise wrong
        number, legs = row["number"], row["legs"]
        if not isinstance(number, int) or not 1 <= number <= _MOST_NUMBER:
            raise wrong
        if not isinstance(legs, list):
            raise wrong
        return Revision(
            number=number,
            issued_utc=_text(row.get("issued_utc", "")),
            digest=_text(row["digest"]),
            note=_text(row["note"]),
            legs=tuple(_leg(leg, number) for leg in legs),
            by=_text(row.get("by", "")),
        )
    except (KeyError, TypeError, ValueError) as exc:
        raise wrong from exc


def _leg(row: dict[str, Any], most: int) -> LegRevision:
    if not isinstance(row["revision"], int) or not 1 <= row["revision"] <= most:
        raise ValueError(row["revision"])
    if not isinstance(row["is_new"], bool):
        raise TypeError(row["is_new"])
    items = tuple((_text(what), _text(words)) for what, words in row["says"])
    return LegRevision(
        facts=LegFacts(
            start_name=_text(row["from"]["name"]),
            end_name=_text(row["to"]["name"]),
            start=_position(row["from"]),
            end=_position(row["to"]),
            items=tuple(dict(items).items()),
        ),
        revision=row["revision"],
        is_new=row["is_new"],
        changes=tuple(
            Change(what=_text(what), before=_text(before), now=_text(now))
            for what, before, now in row["changes"]
        ),
    )


def _text(value: object) -> str:
    if not isinstance(value, str):
        raise TypeError(value)
    return value


def _position(row: dict[str, Any]) -> Position:
    lat, lon = row["lat_deg"], row["lon_deg"]
    if not all(isinstance(v, int | float) and not isinstance(v, bool) for v in (lat, lon)):
        raise TypeError(row)
    return Position(lat_deg=float(lat), lon_deg=float(lon))


def read_revision(path: Path) -> Revision:
    """The revision that an earlier plan file holds, or the last one of a project.

    Raises
    ------
    InputError
        The file cannot be read or holds none.
    """
    blob = read_blob(path)
    text, _findings = decode_text(blob)
    todo = tr("Name a plan file (JSON) or a project of this program")
    try:
        document = json.loads(text)
    except (ValueError, RecursionError) as exc:
        raise InputError(tr("this is no plan file"), where=blob.name, todo=todo) from exc
    try:
        if isinstance(document, dict) and isinstance(document.get("revision"), dict):
            return revision_of(document["revision"])
        if isinstance(document, dict) and document.get("revisions"):
            return revisions_of(document["revisions"])[-1]
    except ValueError as exc:
        raise InputError(str(exc), where=blob.name, todo=todo) from exc
    raise InputError(tr("this holds no revision to compare with"), where=blob.name, todo=todo)
