"""Stream and leeway leg by leg: a small table.

# invented
leg,set,drift,leeway
2,045,1.5,
3,050,0.8,+4

``set`` is the true direction the water moves towards, ``drift`` its speed in knots. ``leeway`` in
degrees, as on the command line: 4 either way, +4 to starboard, -4 to port. What is left empty is
as for the whole passage.
"""

from pathlib import Path

from core.base.errors import InputError
from core.base.findings import Finding
from core.base.language import tr
from core.base.units import mps_from_kn
from core.files.csv_table import Columns, Row, number_from_text, table_rows
from core.files.reading import decode_text, read_blob
from core.passage.stream import Leeway, LegStream, Stream

MOST_DRIFT_KN = 20.0
MOST_LEEWAY_DEG = 45.0

_COLUMNS = Columns(
    spellings={
        "leg": ("leg_number", "leg_no"),
        "set": ("set_deg", "set_t", "direction"),
        "drift": ("drift_kn", "rate", "rate_kn"),
        "leeway": ("leeway_deg",),
    },
    needed=("leg",),
)


def leeway_of(text: str) -> Leeway | None:
    """Leeway as officers write it; None for what is none.

    ``4`` is up to 4 degrees either way, ``+4`` to starboard alone, ``-4`` to port alone.
    """
    value = number_from_text(text)
    if value is None or not abs(value) <= MOST_LEEWAY_DEG:
        return None
    if text.startswith("+"):
        return Leeway(to_starboard_deg=value)
    if text.startswith("-"):
        return Leeway(to_port_deg=-value)
    return Leeway(to_port_deg=value, to_starboard_deg=value)


def read_streams(
    path: Path,
) -> tuple[tuple[tuple[int, LegStream], ...], tuple[Finding, ...], str]:
    """Read a table of streams.

    Returns
    -------
    tuple
        Number of the leg and what is given for it, in the file's order; findings; the SHA-256.

    Raises
    ------
    InputError
        The file or a value cannot be used, in one sentence naming file and line.
    """
    blob = read_blob(path)
    text, findings = decode_text(blob)
    rows, header_findings = table_rows(blob.name, text, _COLUMNS)
    found: dict[int, LegStream] = {}
    for row in rows:
        number, given = row.leg_number(), _leg_stream(row)
        if number in found:
            raise row.fail(
                tr("leg {leg_number} has a row already", leg_number=number),
                tr("Leave one of them out"),
            )
        found[number] = given
    if not found:
        raise InputError(
            tr("there are no streams under the header"),
            where=blob.name,
            todo=tr("Add rows or leave the file out"),
        )
    return tuple(found.items()), findings + tuple(header_findings), blob.sha256


def _leg_stream(row: Row) -> LegStream:
    set_deg = row.number_from_zero("set", most=360.0, unit="°")
    drift_kn = row.number_from_zero("drift", most=MOST_DRIFT_KN, unit=" kn")
    leeway_text = row.text("leeway")
    leeway = leeway_of(leeway_text) if leeway_text else None
    if leeway_text and leeway is None:
        raise row.fail(
            tr(
                "leeway «{leeway_text}» is not an angle up to {most_leeway_deg:g}°",
                leeway_text=leeway_text[:40],
                most_leeway_deg=MOST_LEEWAY_DEG,
            ),
            tr("Write 4 for either way, +4 to starboard, -4 to port"),
        )
    if (set_deg is None) != (drift_kn is None):
        given, missing = ("set", "drift") if drift_kn is None else ("drift", "set")
        raise row.fail(
            tr("{given} is given without {missing}", given=given, missing=missing),
            tr("Give both, or neither"),
        )
    stream = None
    if set_deg is not None and drift_kn is not None:
        stream = Stream(set_deg=set_deg % 360.0, drift_mps=mps_from_kn(drift_kn))
    if stream is None and leeway is None:
        raise row.fail(tr("neither stream nor leeway is given"), tr("Fill the row or leave it out"))
    return LegStream(stream=stream, leeway=leeway)
