"""Contingency legs: a small table of where to leave the passage, and for where.

# invented
leg,from_nm_to_go,course_deg,distance_nm,lat,lon,name,note
3,1.8,300,4.5,,,,sea room north-west
4,,,,47 12.0 N,031 33.0 W,waiting anchorage,

Each row says where its line leaves the track of the leg: ``from_nm_to_go`` before the leg's last
waypoint, or ``from_nm_along`` after its first, or ``turn_before_nm_to_go``, a line square to the
track which the turn must not cross. It says where to: ``course_deg`` and ``distance_nm``, or
``lat`` and ``lon``.
"""

from pathlib import Path

from core.base.errors import InputError
from core.base.findings import Finding
from core.base.language import tr
from core.base.units import m_from_nm
from core.files.angle_text import AngleError, Axis, angle_deg
from core.files.csv_table import Columns, Row, table_rows
from core.files.reading import decode_text, read_blob
from core.geodesy.position import Position
from core.passage.contingency import LONGEST_M, Contingency

MOST = 60
"""Contingency legs of one passage: each is planned like a leg."""
_MOST_NM = 2_000.0
_LONGEST_NAME = 40
_LONGEST_NOTE = 200
_WHERE_FROM = {
    "from_nm_to_go": "to_go_m",
    "from_nm_along": "along_m",
    "turn_before_nm_to_go": "turn_before_m",
}

_COLUMNS = Columns(
    spellings={
        "leg": ("leg_number", "leg_no"),
        "from_nm_to_go": ("from", "to_go", "to_go_nm", "abort_nm_to_go"),
        "from_nm_along": ("along", "along_nm"),
        "turn_before_nm_to_go": ("turn_before", "turn_before_nm"),
        "course_deg": ("course", "course_t"),
        "distance_nm": ("distance", "dist", "dist_nm"),
        "lat": ("latitude", "lat_deg"),
        "lon": ("longitude", "lon_deg", "long"),
        "name": ("to", "place"),
        "note": ("remark", "remarks", "notes", "reason"),
    },
    needed=("leg",),
)


def read_contingencies(
    path: Path,
) -> tuple[tuple[Contingency, ...], tuple[Finding, ...], str]:
    """Read a table of contingency legs.

    Returns
    -------
    tuple
        Contingency legs in the file's order, findings, and the SHA-256 of the file.

    Raises
    ------
    InputError
        The file or a value cannot be used, in one sentence naming file and line.
    """
    blob = read_blob(path)
    text, findings = decode_text(blob)
    rows, header_findings = table_rows(blob.name, text, _COLUMNS)
    found: list[Contingency] = []
    for row in rows:
        if len(found) == MOST:
            raise row.fail(
                tr("there are more than {most} contingency legs", most=MOST),
                tr("Plan fewer at a time"),
            )
        found.append(_contingency(row))
    if not found:
        raise InputError(
            tr("there are no contingency legs under the header"),
            where=blob.name,
            todo=tr("Add rows or leave the file out"),
        )
    return tuple(found), findings + tuple(header_findings), blob.sha256


def _contingency(row: Row) -> Contingency:
    stated = {
        field: row.number_from_zero(column, most=_MOST_NM, unit=" NM")
        for column, field in _WHERE_FROM.items()
    }
    if sum(value is not None for value in stated.values()) != 1:
        raise row.fail(
            tr("it is not clear where the line leaves the track"),
            tr("Fill one of {columns}", columns=", ".join(_WHERE_FROM)),
        )
    course_deg = row.number_from_zero("course_deg", most=360.0, unit="°")
    distance_nm = row.number_from_zero("distance_nm", most=LONGEST_M / m_from_nm(1.0), unit=" NM")
    position = _position(row)
    if (position is None) == (course_deg is None) or (course_deg is None) != (distance_nm is None):
        raise row.fail(
            tr("it is not clear where the contingency leg leads"),
            tr("Fill course_deg and distance_nm, or lat and lon"),
        )
    name = row.text("name")
    if len(name) > _LONGEST_NAME or not name.isprintable():
        raise row.fail(
            tr(
                "the name is longer than {most_letters} letters or cannot be printed",
                most_letters=_LONGEST_NAME,
            ),
            tr("Shorten it"),
        )
    return Contingency(
        leg_number=row.leg_number(),
        **{field: None if nm is None else m_from_nm(nm) for field, nm in stated.items()},
        course_deg=None if course_deg is None else course_deg % 360.0,
        distance_m=None if distance_nm is None else m_from_nm(distance_nm),
        position=position,
        name=name,
        note="".join(c for c in row.text("note") if c.isprintable())[:_LONGEST_NOTE],
        where=f"{row.file}, {row.place}",
    )


def _position(row: Row) -> Position | None:
    lat, lon = row.text("lat"), row.text("lon")
    if not lat and not lon:
        return None
    if not lat or not lon:
        raise row.fail(tr("only one of lat and lon is given"), tr("Give both, or neither"))
    try:
        return Position(lat_deg=angle_deg(lat, Axis.LAT), lon_deg=angle_deg(lon, Axis.LON))
    except AngleError as exc:
        raise row.fail(str(exc), tr("Write it like 47 07.40 N and 031 34.07 W")) from exc
