"""Opens a route whatever its format: the content decides, not the name."""

from dataclasses import dataclass
from pathlib import Path, PurePath

from core.base.errors import InputError
from core.base.findings import Finding
from core.base.language import tr
from core.files.containers import looks_like_zip, route_in_container
from core.files.csv_columns import find_table
from core.files.csv_route import read_csv_route
from core.files.geojson_route import looks_like_json, read_geojson_route
from core.files.gpx import gpx_version_of, read_gpx
from core.files.reading import Blob, blob_of, decode_text, kind_by_signature, read_blob
from core.files.route_parts import clean_text
from core.files.rtz import read_rtz, version_of
from core.files.text_route import read_text_route
from core.files.xml_reading import looks_like_xml, parse_xml
from core.passage.passage import Passage

_TODO = tr("Choose an RTZ, GPX, CSV or GeoJSON route, or a text with one position a line")


@dataclass(frozen=True, slots=True, kw_only=True)
class RouteFile:
    """A passage as read, what the reader found, and which file it came from."""

    passage: Passage
    findings: tuple[Finding, ...]
    name: str
    """Name of the file without its folder."""
    sha256: str
    """Of the file as it stands, the container included."""
    kind: str
    """Format and version in words, such as «RTZ 1.2»."""


def read_passage(path: Path) -> RouteFile:
    """Read a route file: RTZ, RTZ in a zip, GPX, CSV, GeoJSON or plain text.

    Raises
    ------
    InputError
        One sentence that says where, what and what to do.
    """
    return passage_from_blob(read_blob(path))


def passage_from_text(text: str, name: str) -> RouteFile:
    """Read a route typed or pasted, of any of the text formats.

    Parameters
    ----------
    text : str
        The text.
    name : str
        What findings and errors call it, and the passage's name when the text gives none.

    Raises
    ------
    InputError
        One sentence that says where, what and what to do.
    """
    if not text.strip():
        raise InputError(tr("the text is empty"), where=name, todo=tr("Write one position a line"))
    data = text.encode("utf-8", errors="replace")
    return passage_from_blob(blob_of(name, data))


def passage_from_blob(blob: Blob) -> RouteFile:
    """Read a route from bytes.

    Raises
    ------
    InputError
        One sentence that says where, what and what to do.
    """
    inner = route_in_container(blob) if looks_like_zip(blob.data) else blob
    passage, findings, kind = _read(inner, PurePath(blob.name).stem)
    return RouteFile(
        passage=passage,
        findings=findings,
        name=blob.name,
        sha256=blob.sha256,
        kind=kind if inner is blob else tr("{kind} in a zip file", kind=kind),
    )


def _read(blob: Blob, name: str) -> tuple[Passage, tuple[Finding, ...], str]:
    signature = kind_by_signature(blob.data)
    if signature is not None:
        raise InputError(
            tr("this is {signature}, not a route", signature=signature), where=blob.name, todo=_TODO
        )
    if looks_like_xml(blob.data):
        return _read_xml(blob, name)
    text, decoding = decode_text(blob)
    if not text.strip():
        raise InputError(
            tr("this file is empty"), where=blob.name, todo=tr("Export or copy it again")
        )
    if looks_like_json(text):
        passage, findings = read_geojson_route(text, file=blob.name, name=name)
        kind = "GeoJSON"
    else:
        table = find_table(text)
        if table is not None:
            passage, findings = read_csv_route(text, table, file=blob.name, name=name)
            kind = "CSV"
        else:
            passage, findings = read_text_route(text, file=blob.name, name=name)
            kind = "text"
    return passage, (*decoding, *findings), kind


def _read_xml(blob: Blob, name: str) -> tuple[Passage, tuple[Finding, ...], str]:
    root, decoding = parse_xml(blob)
    if root.name == "route":
        passage, findings = read_rtz(root, blob, name=name)
        kind = f"RTZ {version_of(root)}".strip()
    elif root.name == "gpx":
        passage, findings = read_gpx(root, blob, name=name)
        kind = f"GPX {gpx_version_of(root)}".strip()
    else:
        what = tr(
            "this is XML of another kind (<{root_name}>), not a route",
            root_name=clean_text(root.name)[:40],
        )
        raise InputError(what, where=blob.name, todo=_TODO)
    return passage, (*decoding, *findings), kind
