"""What a coast file (GeoJSON, Shapefile, GeoPackage) holds and which area it declares."""

import math
import re
import warnings
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
import pyogrio
import pyogrio.raw
import shapely
from pyogrio.errors import (
    CRSError,
    DataLayerError,
    DataSourceError,
    FeatureError,
    FieldError,
    GeometryError,
)
from pyproj import CRS, Transformer
from pyproj.exceptions import CRSError as ProjCRSError
from pyproj.exceptions import ProjError

from core.base.errors import InputError
from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.files.data_notes import DataNote, note_for
from core.geodesy.position import Bounds, wrap_lon_deg
from core.land.coast_shapes import Box

GDAL_ERRORS = (
    CRSError,
    DataLayerError,
    DataSourceError,
    FeatureError,
    FieldError,
    GeometryError,
    OSError,
    ValueError,
)
_MAGIC = {".shp": (b"\x00\x00\x27\x0a",), ".gpkg": (b"SQLite format 3\x00",)}
_END_BYTES = 65_536
_LOOKED_AT = 1000
_STATED = {"source", "licence", "license", "attribution", "copyright"}
_OUR_KINDS = {
    "corridor", "viewpoint", "coast_in_sight", "coast_painted", "hidden_water", "index_line",
    "wheel_over", "object",
}  # fmt: skip
_NUMBERS = rb"\[([-+0-9.eE,\s]+)\]"
_BBOX = re.compile(rb'"bbox"\s*:\s*' + _NUMBERS)
_LAST_BBOX = re.compile(rb'"bbox"\s*:\s*' + _NUMBERS + rb"\s*\}\s*$")
_TEXT_MEMBER = re.compile(
    rb'"(licen[cs]e|attribution|copyright|released|date|timestamp)"\s*:\s*"([^"\\]{1,300})"'
)
_NO_NUMBER = re.compile(rb"[\[,]\s*-?(?:NaN|nan|Infinity|inf)\s*[,\]]")


class NoCoastError(InputError):
    """A sound file that is not about coast: points, or what this program has written."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CoastLayer:
    """Header of one layer of a coast file; ``box`` is its envelope in its own system."""

    name: str
    crs: str | None
    box: Box | None
    feature_count: int
    fields: tuple[str, ...]

    def has(self, name: str) -> bool:
        """Whether its shapes have an attribute of this name in any case."""
        return name in {field.casefold() for field in self.fields}


@dataclass(frozen=True, slots=True, kw_only=True)
class CoastFile:
    """Header of a coast file."""

    path: Path
    driver: str
    layers: tuple[CoastLayer, ...]
    declared: tuple[Bounds, ...]
    declares_itself: bool
    """Whether the declared area is the file's own ``bbox``, not only its envelope."""
    holds_polygons: bool
    """Whether it holds land polygons anywhere, or no shape at all in a declared area."""
    note: DataNote
    findings: tuple[Finding, ...]


def unusable_coast(
    path: Path, what: str, todo: str = tr("Give the file again from its source")
) -> InputError:
    """The error for a coast file that cannot be used."""
    return InputError(what, where=path.name, todo=todo)


def quietly(action: Any, *args: Any, **options: Any) -> Any:  # noqa: ANN401 - pyogrio has no types
    """Call pyogrio without the warnings that GDAL gives about single shapes."""
    with warnings.catch_warnings():
        # What matters is checked on the shapes themselves.
        warnings.simplefilter("ignore", RuntimeWarning)
        warnings.simplefilter("ignore", UserWarning)
        return action(*args, **options)


def _check_head(path: Path) -> None:
    """Refuse a file whose content is not what its name says, before GDAL guesses."""
    try:
        with path.open("rb") as stream:
            head = stream.read(64)
    except OSError as exc:
        raise unusable_coast(
            path, tr("cannot be read ({reason})", reason=exc.strerror or exc)
        ) from exc
    if not head:
        raise unusable_coast(path, tr("is empty"))
    magic = _MAGIC.get(path.suffix.casefold())
    good = head.startswith(magic) if magic else head.lstrip(b"\xef\xbb\xbf \t\r\n").startswith(b"{")
    if not good:
        raise unusable_coast(path, tr("is no {kind}", kind=kind_words(path)))


def kind_words(path: Path) -> str:
    """What a coast file is by its name, in words."""
    return {".shp": "Shapefile", ".gpkg": "GeoPackage"}.get(
        path.suffix.casefold(), tr("GeoJSON file")
    )


def _geojson_members(path: Path) -> tuple[Box | None, dict[str, str]]:
    """The file's own ``bbox`` (of the collection, not of a feature) and its texts."""
    if path.suffix.casefold() in _MAGIC:
        return None, {}
    with path.open("rb") as stream:
        head = stream.read(_END_BYTES)
        stream.seek(0, 2)
        stream.seek(max(0, stream.tell() - _END_BYTES))
        tail = stream.read()
    members = head.split(b'"features"', 1)[0]
    texts = {
        m.group(1).decode("ascii"): m.group(2).decode("utf-8", "replace")
        for m in _TEXT_MEMBER.finditer(members)
    }
    match = _BBOX.search(members) or _LAST_BBOX.search(tail)
    if match is None:
        return None, texts
    try:
        values = [float(v) for v in match.group(1).split(b",")]
    except ValueError as exc:
        raise unusable_coast(path, tr("states a bbox that is not of numbers")) from exc
    if len(values) not in (4, 6):
        raise unusable_coast(path, tr("states a bbox that has neither 4 nor 6 numbers"))
    half = len(values) // 2
    return (values[0], values[1], values[half], values[half + 1]), texts


def _bounds(path: Path, box: Box) -> Bounds:
    west, south, east, north = box
    inside = all(math.isfinite(v) for v in box) and -90.001 <= south <= north <= 90.001
    if not inside or max(abs(west), abs(east)) > 540.0:
        raise unusable_coast(
            path, tr("states an area that is on no map (latitude or longitude too large)")
        )
    width = east - west if east >= west else east - west + 360.0
    start = west if -180.0 <= west < 180.0 else wrap_lon_deg(west)
    return Bounds(
        south_deg=max(south, -90.0),
        west_deg=start,
        north_deg=min(north, 90.0),
        east_deg=start + min(width, 360.0),
    )


def _layer(path: Path, name: str) -> CoastLayer:
    info = quietly(
        pyogrio.read_info, path, layer=name, force_feature_count=True, force_total_bounds=True
    )
    box = info["total_bounds"]
    return CoastLayer(
        name=name,
        crs=info["crs"],
        box=None if box is None else (float(box[0]), float(box[1]), float(box[2]), float(box[3])),
        feature_count=int(info["features"]),
        fields=tuple(str(f) for f in info["fields"]),
    )


def read_coast_header(path: Path) -> CoastFile:
    """What a coast file holds and covers.

    Raises
    ------
    InputError
        The file is broken, empty, or holds neither polygons nor lines.
    """
    _check_head(path)
    own_box, texts = _geojson_members(path)
    try:
        listed = quietly(pyogrio.list_layers, path)
        kinds = {str(n): str(k) for n, k in listed if k is not None}
        usable = [n for n, k in kinds.items() if "Point" not in k]
        layers = tuple(_layer(path, name) for name in usable)
        driver = str(quietly(pyogrio.read_info, path, layer=usable[0])["driver"]) if usable else ""
    except GDAL_ERRORS as exc:
        raise unusable_coast(path, tr("cannot be read as a {kind}", kind=kind_words(path))) from exc
    if not layers or any(layer.has("kind") and _is_our_export(path, layer) for layer in layers):
        raise NoCoastError(
            tr("holds neither land polygons nor shorelines"),
            where=path.name,
            todo=tr("Give a coast file"),
        )
    declared = [_bounds(path, own_box)] if own_box else []
    findings = []
    holds_polygons = all(layer.feature_count == 0 for layer in layers)
    for layer in layers:
        holds_polygons = holds_polygons or _holds_polygons(path, layer, kinds[layer.name])
        if layer.crs is None:
            findings.append(_no_crs(path, layer))
        if not own_box and layer.box is not None:
            declared.append(_bounds(path, _degrees(path, layer, layer.box)))
    if not declared:
        raise unusable_coast(
            path, tr("holds no shape"), tr("Give a coast file with land or lines in it")
        )
    texts = {**_stated_in_shapes(path, layers[0]), **texts}
    return CoastFile(
        path=path,
        driver=driver,
        layers=layers,
        declared=tuple(declared),
        declares_itself=own_box is not None,
        holds_polygons=holds_polygons,
        note=note_for(path, texts),
        findings=tuple(findings),
    )


def _holds_polygons(path: Path, layer: CoastLayer, kind: str) -> bool:
    if "Polygon" in kind or "Line" in kind:
        return "Polygon" in kind
    try:
        _, _, raw, _ = quietly(
            pyogrio.raw.read, path, layer=layer.name, columns=[], max_features=_LOOKED_AT
        )
    except GDAL_ERRORS as exc:
        raise unusable_coast(path, tr("cannot be read as a {kind}", kind=kind_words(path))) from exc
    with np.errstate(all="ignore"):
        shapes = shapely.from_wkb(np.asarray(raw, dtype=object), on_invalid="ignore")
    polygon_types = (3, 6)
    return bool(np.isin(shapely.get_type_id(shapes), polygon_types).any())


def _stated_in_shapes(path: Path, layer: CoastLayer) -> dict[str, str]:
    """Source and licence as the attributes of the first shape state them."""
    columns = [name for name in layer.fields if name.casefold() in _STATED]
    if not columns:
        return {}
    meta, values = _attributes(path, layer, columns, most=1)
    return {
        str(name): str(value[0])
        for name, value in zip(meta["fields"], values, strict=True)
        if len(value) and value[0] is not None
    }


def _is_our_export(path: Path, layer: CoastLayer) -> bool:
    """Whether the first shapes are of the kinds this program writes to GeoJSON."""
    meta, values = _attributes(
        path, layer, [f for f in layer.fields if f.casefold() == "kind"], most=_LOOKED_AT
    )
    return len(meta["fields"]) == 1 and any(value in _OUR_KINDS for value in values[0])


def _attributes(path: Path, layer: CoastLayer, columns: list[str], *, most: int) -> Any:  # noqa: ANN401 - pyogrio has no types
    try:
        meta, _, _, values = quietly(
            pyogrio.raw.read,
            path,
            layer=layer.name,
            columns=columns,
            max_features=most,
            read_geometry=False,
        )
    except GDAL_ERRORS as exc:
        raise unusable_coast(path, tr("cannot be read as a {kind}", kind=kind_words(path))) from exc
    return meta, values


def _no_crs(path: Path, layer: CoastLayer) -> Finding:
    west, south, east, north = layer.box or (0.0, 0.0, 0.0, 0.0)
    if not (-180.5 <= west <= east <= 360.5 and -90.5 <= south <= north <= 90.5):
        raise unusable_coast(
            path, tr("has no coordinate reference system"), tr("Assign one and give it again")
        )
    return Finding(
        severity=Severity.CHECK,
        code="coast-datum-assumed",
        what=tr("has no coordinate reference system and is taken as WGS-84 degrees"),
        where=Where(file=path.name),
        todo=tr("Make sure that it is"),
    )


def transformer(path: Path, layer: CoastLayer) -> Transformer | None:
    """How to get from the layer's system to WGS-84 degrees; None where it is in them."""
    if layer.crs is None:
        return None
    try:
        crs = CRS.from_user_input(layer.crs)
        if crs.equals(CRS.from_epsg(4326), ignore_axis_order=True):
            return None
        return Transformer.from_crs(crs, "EPSG:4326", always_xy=True)
    except (ProjCRSError, ProjError) as exc:
        raise unusable_coast(path, tr("has an unknown coordinate reference system")) from exc


def _degrees(path: Path, layer: CoastLayer, box: Box) -> Box:
    there = transformer(path, layer)
    if there is None:
        return box
    try:
        west, south, east, north = there.transform_bounds(*box)
    except ProjError as exc:
        raise unusable_coast(path, tr("lies outside the reach of its coordinate system")) from exc
    return west, south, east, north


def refuse_no_numbers(path: Path) -> None:
    """Refuse a GeoJSON file with NaN or Infinity among its coordinates.

    GDAL's filter by area would drop such a shape without a word.
    """
    if path.suffix.casefold() in _MAGIC:
        return
    rest = b""
    with path.open("rb") as stream:
        while piece := stream.read(1 << 22):
            if _NO_NUMBER.search(rest + piece):
                raise unusable_coast(path, tr("has a coordinate that is not a number"))
            rest = piece[-64:]
