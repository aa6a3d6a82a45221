"""Danger limits the officer took from the chart: a table of distances off an object."""

from pathlib import Path

from core.base.errors import InputError
from core.base.findings import Finding
from core.base.language import tr
from core.base.units import m_from_nm
from core.files.csv_table import Columns, Row, table_rows
from core.files.marks_file import LONGEST_NAME
from core.files.reading import Blob, decode_text, source_blob
from core.plan.plan_result import DangerLimit

FARTHEST_NM = 50.0
_MOST_LEGS = 10_000
LONGEST_NOTE = 200

_COLUMNS = Columns(
    spellings={
        "object": ("name", "mark", "id"),
        "leg": ("leg_number", "leg_no"),
        "not_less_than_nm": ("not_less_than", "nlt", "nlt_nm"),
        "not_more_than_nm": ("not_more_than", "nmt", "nmt_nm"),
        "note": ("remark", "remarks", "notes", "reason"),
    },
    needed=("object",),
)


def read_limits(source: Path | Blob) -> tuple[tuple[DangerLimit, ...], tuple[Finding, ...], str]:
    """Read a table of danger limits.

    Returns
    -------
    tuple
        Limits in the file's order, findings, and the SHA-256 of the file.

    Raises
    ------
    InputError
        The file or a value cannot be used, in one sentence naming file and line.
    """
    blob = source_blob(source)
    text, findings = decode_text(blob)
    rows, header_findings = table_rows(blob.name, text, _COLUMNS)
    limits: dict[tuple[str, int | None], DangerLimit] = {}
    for row in rows:
        limit = _limit(row)
        key = (limit.object_id.casefold(), limit.leg_number)
        if key in limits:
            leg = (
                tr("every leg")
                if limit.leg_number is None
                else tr("leg {leg_number}", leg_number=limit.leg_number)
            )
            raise row.fail(
                tr(
                    "there is already a limit for «{object_id}» on {leg}",
                    object_id=limit.object_id,
                    leg=leg,
                ),
                tr("Put both values in one row"),
            )
        limits[key] = limit
    if not limits:
        raise InputError(
            tr("there are no limits under the header"),
            where=blob.name,
            todo=tr("Add rows or leave the file out"),
        )
    return tuple(limits.values()), findings + tuple(header_findings), blob.sha256


def _limit(row: Row) -> DangerLimit:
    object_id = row.text("object")
    if not object_id:
        raise row.fail(tr("object is empty"), tr("Give the name or letter of the object"))
    if len(object_id) > LONGEST_NAME:
        raise row.fail(
            tr(
                "the object «{object_id}...» is longer than {most_letters} "
                "letters, longer than any mark's name",
                object_id=object_id[:20],
                most_letters=LONGEST_NAME,
            ),
            tr("Give the name or letter of the object"),
        )
    leg_text = row.text("leg")
    leg_number: int | None = None
    if leg_text:
        if not (leg_text.isascii() and leg_text.isdigit() and len(leg_text) < 6):
            raise row.fail(
                tr("leg «{leg}» is not a number of a leg", leg=leg_text[:40]),
                tr("Write 1 for the first leg, or leave it empty for every leg"),
            )
        leg_number = int(leg_text)
        if not 1 <= leg_number <= _MOST_LEGS:
            raise row.fail(
                tr(
                    "leg {leg_number} is not between 1 and {most_legs}",
                    leg_number=leg_number,
                    most_legs=_MOST_LEGS,
                ),
                tr("Correct it"),
            )
    least_nm = row.number("not_less_than_nm", 0.0, FARTHEST_NM)
    most_nm = row.number("not_more_than_nm", 0.0, FARTHEST_NM)
    if least_nm is None and most_nm is None:
        raise row.fail(
            tr("there is no distance for «{object_id}»", object_id=object_id),
            tr("Give not_less_than_nm, not_more_than_nm or both"),
        )
    if least_nm is not None and most_nm is not None and least_nm >= most_nm:
        raise row.fail(
            tr(
                "not_less_than_nm {least_nm:g} is not below not_more_than_nm {most_nm:g}",
                least_nm=least_nm,
                most_nm=most_nm,
            ),
            tr("Exchange or correct them"),
        )
    return DangerLimit(
        object_id=object_id,
        leg_number=leg_number,
        least_m=None if least_nm is None else m_from_nm(least_nm),
        most_m=None if most_nm is None else m_from_nm(most_nm),
        note=row.text("note")[:LONGEST_NOTE],
    )
