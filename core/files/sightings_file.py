"""First paints that were seen: a small table of object, leg and time or range."""

from datetime import UTC, datetime
from pathlib import Path

from core.base.errors import InputError
from core.base.findings import Finding
from core.base.language import tr
from core.base.units import m_from_nm
from core.files.csv_table import Columns, Row, table_rows
from core.files.marks_file import LONGEST_NAME
from core.files.reading import decode_text, read_blob
from core.plan.observed_result import Sighting

_FARTHEST_NM = 200.0

_COLUMNS = Columns(
    spellings={
        "object": ("name", "mark", "id"),
        "leg": ("leg_number", "leg_no"),
        "range_nm": ("range", "seen_nm", "actual_nm"),
        "time_utc": ("time", "utc", "seen_utc"),
        "radar": ("set", "antenna"),
    },
    needed=("object", "leg"),
)


def read_sightings(path: Path) -> tuple[tuple[Sighting, ...], tuple[Finding, ...]]:
    """Read what was seen.

    Returns
    -------
    tuple
        Sightings in the file's order, and findings.

    Raises
    ------
    InputError
        The file or a value cannot be used, in one sentence naming file and line.
    """
    blob = read_blob(path)
    text, findings = decode_text(blob)
    rows, header_findings = table_rows(blob.name, text, _COLUMNS)
    seen: dict[tuple[str, int, str], Sighting] = {}
    for row in rows:
        sighting = _sighting(row)
        key = (sighting.object_id.casefold(), sighting.leg_number, sighting.radar.casefold())
        if key in seen:
            raise row.fail(
                tr(
                    "«{object_id}» was already seen first on leg {leg_number}",
                    object_id=sighting.object_id,
                    leg_number=sighting.leg_number,
                ),
                tr("Keep the row of its first paint"),
            )
        seen[key] = sighting
    if not seen:
        raise InputError(
            tr("there is nothing seen under the header"), where=blob.name, todo=tr("Add rows")
        )
    return tuple(seen.values()), findings + tuple(header_findings)


def _sighting(row: Row) -> Sighting:
    object_id = row.text("object")
    if not object_id or len(object_id) > LONGEST_NAME:
        raise row.fail(
            tr("object is empty or too long"),
            tr("Give the letter or name that the plan has for it"),
        )
    leg_number = row.leg_number()
    range_nm = row.number("range_nm", 0.0, _FARTHEST_NM)
    seen_utc = _time(row)
    if range_nm is None and seen_utc is None:
        raise row.fail(
            tr("there is neither range_nm nor time_utc for «{object_id}»", object_id=object_id),
            tr("Give one of them"),
        )
    radar = row.text("radar")
    if len(radar) > LONGEST_NAME:
        raise row.fail(
            tr("the name of the radar is too long"), tr("Give the name of the ship file")
        )
    return Sighting(
        object_id=object_id,
        leg_number=leg_number,
        range_m=None if range_nm is None else m_from_nm(range_nm),
        seen_utc=seen_utc,
        radar=radar,
    )


def _time(row: Row) -> datetime | None:
    text = row.text("time_utc")
    if not text:
        return None
    try:
        moment = datetime.fromisoformat(text)
        return moment.replace(tzinfo=UTC) if moment.tzinfo is None else moment.astimezone(UTC)
    except (ValueError, OverflowError) as exc:
        raise row.fail(
            tr("time_utc «{text}» is not a time such as 2026-03-14T05:00Z", text=text[:40]),
            tr("Write day and time in UTC"),
        ) from exc
