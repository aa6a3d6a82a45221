"""The officer's own marks, from a table or GeoJSON: names are ids, floating marks stay floating."""

import json
import math
from pathlib import Path
from typing import Any

from core.base.errors import InputError
from core.base.findings import Finding, Severity
from core.base.language import tr
from core.files.angle_text import AngleError, Axis, angle_deg
from core.files.csv_table import Columns, Row, plain_heading, table_rows
from core.files.reading import Blob, decode_text, source_blob
from core.geodesy.position import Position
from core.plan.plan_result import Mark
from core.words.kept_words import shown

ASSUMED_HEIGHT_M = 3.0
"""Height of a mark whose file states none: low, so that it is not taken as in sight too early."""

TALLEST_M = 1000.0
LONGEST_NAME = 60
_FLOATING_WORDS = ("buoy", "float", "light vessel", "lightship", "light-vessel")

_COLUMNS = Columns(
    spellings={
        "name": ("id", "mark"),
        "lat": ("latitude", "lat_deg"),
        "lon": ("longitude", "long", "lng", "lon_deg"),
        "kind": ("type", "category"),
        "fixed": ("is_fixed", "fixed_or_floating"),
        "height_m": ("height", "height_above_water_m", "height_above_water"),
        "on_chart": ("chart", "chart_note", "seen_on_chart", "charted"),
    },
    needed=("name", "lat", "lon"),
)


PLACE_KINDS = (
    "harbour mouth", "harbour entrance", "river mouth", "ferry slip", "ferry landing", "slipway",
    "marina", "anchorage", "fairway", "traffic lane", "pilot station", "place",
)  # fmt: skip
"""Kinds that are places in the water and nothing to see: asked about in hidden water only."""


def read_marks(source: Path | Blob) -> tuple[tuple[Mark, ...], tuple[Finding, ...], str]:
    """Read marks from a table (CSV) or from GeoJSON points.

    Returns
    -------
    tuple
        Marks in the file's order, findings, and the SHA-256 of the file.

    Raises
    ------
    InputError
        The file or a value cannot be used, in one sentence naming file and line or feature.
    """
    blob = source_blob(source)
    text, reading_findings = decode_text(blob)
    if text.lstrip()[:1] in ("{", "["):
        rows, findings = _geojson_rows(blob, text)
    else:
        rows, findings = table_rows(blob.name, text, _COLUMNS)
    marks: dict[str, Mark] = {}
    for row in rows:
        mark = _mark(row, findings)
        key = mark.name.casefold()
        if key in marks:
            raise row.fail(
                tr("there is already a mark called «{name}»", name=marks[key].name),
                tr("Give each its own name"),
            )
        marks[key] = mark
    if not marks:
        raise InputError(
            tr("there are no marks in this file"),
            where=blob.name,
            todo=tr("Add them or leave it out"),
        )
    return tuple(marks.values()), reading_findings + tuple(findings), blob.sha256


def _mark(row: Row, findings: list[Finding]) -> Mark:
    name = row.text("name")
    if not name:
        raise row.fail(tr("the mark has no name"), tr("Give it one, its lines are named after it"))
    if len(name) > LONGEST_NAME or not name.isprintable():
        raise row.fail(
            tr(
                "the name «{name}...» is longer than {most_letters} letters or cannot be printed",
                name="".join(c for c in name if c.isprintable())[:20],
                most_letters=LONGEST_NAME,
            ),
            tr("Shorten it"),
        )
    kind = row.text("kind") or "mark"
    if is_place(kind):
        return Mark(
            name=name,
            position=_position(row),
            height_above_water_m=0.0,
            is_fixed=True,
            kind=kind,
            is_on_chart=row.flag("on_chart") or False,
        )
    height_m = row.number("height_m", 0.0, TALLEST_M)
    if height_m is None:
        height_m = ASSUMED_HEIGHT_M
        findings.append(
            row.finding(
                Severity.CHECK,
                "mark-height-assumed",
                tr(
                    "«{name}» has no height, {height_m:g} m above the water is used",
                    name=name,
                    height_m=height_m,
                ),
                tr("Take it from the chart or the list of lights"),
            )
        )
    return Mark(
        name=name,
        position=_position(row),
        height_above_water_m=height_m,
        is_fixed=_is_fixed(row, name, kind, findings),
        kind=kind,
        is_on_chart=row.flag("on_chart") or False,
    )


def is_place(kind: str) -> bool:
    """Whether a kind of mark is a place in the water, such as a harbour mouth."""
    return kind.strip().casefold() in PLACE_KINDS


def is_floating_kind(kind: str) -> bool:
    """Whether a kind of mark floats by its name, such as a buoy: it never counts as fixed."""
    return any(word in kind.casefold() for word in _FLOATING_WORDS)


def _is_fixed(row: Row, name: str, kind: str, findings: list[Finding]) -> bool:
    """Whether a mark stands firm; what floats by its kind never counts as fixed."""
    floats = is_floating_kind(kind)
    word = row.text("fixed").casefold()
    stated = {"fixed": True, "floating": False}.get(word) if word else None
    if stated is None:
        stated = row.flag("fixed")
    if floats and stated:
        findings.append(
            row.finding(
                Severity.CHECK,
                "floating-mark-as-fixed",
                tr(
                    "«{name}» is a {kind} but is stated to be fixed; it is used as floating",
                    name=name,
                    kind=shown(kind),
                ),
                tr("Correct its kind if it stands firm"),
            )
        )
    elif stated is None and not floats:
        findings.append(
            row.finding(
                Severity.CHECK,
                "mark-fixed-assumed",
                tr(
                    "«{name}» is not stated to be fixed or floating, and is taken as fixed",
                    name=name,
                ),
                tr("Write yes or no under fixed"),
            )
        )
    return False if floats else stated is not False


def _position(row: Row) -> Position:
    return Position(
        lat_deg=_angle_deg(row, "lat", Axis.LAT), lon_deg=_angle_deg(row, "lon", Axis.LON)
    )


def _angle_deg(row: Row, column: str, axis: Axis) -> float:
    text = row.text(column)
    if not text:
        raise row.fail(tr("the {axis} is empty", axis=axis.shown), tr("Give the position"))
    try:
        return angle_deg(text, axis)
    except AngleError as exc:
        example = "47.1234 or 47 07.40 N" if axis is Axis.LAT else "-31.5678 or 031 34.07 W"
        raise row.fail(str(exc), tr("Write it like {example}", example=example)) from exc


def _geojson_rows(blob: Blob, text: str) -> tuple[tuple[Row, ...], list[Finding]]:
    try:
        document = json.loads(text, parse_constant=_no_constant)
    except (ValueError, RecursionError) as exc:
        raise InputError(
            tr("this is not valid GeoJSON, or it is cut short"),
            where=blob.name,
            todo=tr("Export it again"),
        ) from exc
    features = document.get("features") if isinstance(document, dict) else None
    if not isinstance(features, list):
        raise InputError(
            tr("this JSON file is not a GeoJSON FeatureCollection"),
            where=blob.name,
            todo=tr("Export the marks as GeoJSON points"),
        )
    rows: list[Row] = []
    findings: list[Finding] = []
    for number, feature in enumerate(features, start=1):
        row = _geojson_row(blob.name, tr("feature {number}", number=number), feature, findings)
        if row is not None:
            rows.append(row)
    return tuple(rows), findings


def _no_constant(name: str) -> float:
    raise ValueError(f"{name} is no number in JSON")


def _geojson_row(file: str, place: str, feature: Any, findings: list[Finding]) -> Row | None:  # noqa: ANN401 - parsed JSON
    empty = Row(file=file, place=place, line=None, cells={})
    if not isinstance(feature, dict) or not isinstance(feature.get("geometry"), dict):
        raise empty.fail(tr("the feature has no geometry"), tr("Give it a point"))
    geometry = feature["geometry"]
    if geometry.get("type") != "Point":
        findings.append(
            empty.finding(
                Severity.CHECK, "mark-not-a-point", tr("the feature is no point and was left out")
            )
        )
        return None
    coordinates = geometry.get("coordinates")
    if (
        not isinstance(coordinates, list)
        or len(coordinates) < 2
        or not all(_is_number(value) for value in coordinates[:2])
    ):
        raise empty.fail(
            tr("the point has no longitude and latitude"), tr("Correct its coordinates")
        )
    cells = {"lon": f"{coordinates[0]:.12f}", "lat": f"{coordinates[1]:.12f}"}
    properties = feature.get("properties") or {}
    if not isinstance(properties, dict):
        raise empty.fail(tr("the properties are not a table"), tr("Export the marks again"))
    for key, value in properties.items():
        name = _COLUMNS.proper(key)
        # A position stands in the geometry; what stands beside it again is not read.
        if name is not None and name not in ("lat", "lon") and name not in cells:
            cells[name] = _cell(value)
        elif name is None and plain_heading(key):
            findings.append(
                empty.finding(
                    Severity.NOTE,
                    "unknown-property",
                    tr("«{key}» is not known and was left out", key=key[:60]),
                )
            )
    return Row(file=file, place=place, line=None, cells=cells)


def _is_number(value: object) -> bool:
    if isinstance(value, bool) or not isinstance(value, int | float):
        return False
    try:
        return math.isfinite(float(value))
    except OverflowError:
        return False


def _cell(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    if value is None:
        return ""
    if isinstance(value, str | int | float):
        return str(value)[:1000]
    return ""
