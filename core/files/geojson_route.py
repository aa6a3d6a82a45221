"""Reads routes from GeoJSON (RFC 7946): a line, or points in order."""

import json
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.files.route_parts import (
    LIMIT_WAYPOINTS,
    RoutePoint,
    check_degrees,
    clean_text,
    error_at,
    leg_kind_assumed,
    passage_from_points,
    waypoint_label,
)
from core.passage.passage import Passage

_TODO = tr("Export the route as a line or as points in order")
_NAMES = ("name", "title", "label", "waypoint", "wpt", "wp", "id")
_SAME_PLACE_DEG = 1e-6
_LIMIT_DEPTH = 12

_Place = tuple[float, float]
"""Latitude and longitude, deg, as the file gives them."""


@dataclass(slots=True)
class _Found:
    """Lines (each in parts) and points of a document, in order, with their names."""

    lines: list[tuple[str, list[list[_Place]]]] = field(default_factory=list)
    points: list[tuple[str, _Place]] = field(default_factory=list)


def looks_like_json(text: str) -> bool:
    """Whether text starts as a JSON object or list."""
    return text.lstrip()[:1] in {"{", "["} and text.lstrip()[:1] != ""


def read_geojson_route(text: str, *, file: str, name: str) -> tuple[Passage, tuple[Finding, ...]]:
    """Read the first line, else the points in order.

    Names come from the properties; vertices of a line take the names of points at the same
    place. A line cut in two at the date line is joined again. Coordinates are longitude first
    and may run on past 180 degrees.

    Raises
    ------
    InputError
        No JSON, no line or points, coordinates that are no degrees, another reference system.
    """
    document = _document(text, file)
    _refuse_other_system(document, file)
    found = _Found()
    for kind, geometry, properties in _geometries(document, file):
        _collect(found, kind, geometry, properties, file)
    findings: list[Finding] = []
    own_name = _name_in(document)
    if found.lines:
        line_name, parts = found.lines[0]
        own_name = line_name or own_name
        places = _joined(parts)
        if places is None or len(found.lines) > 1:
            findings.append(_first_taken(file, len(found.lines), places is None))
        places = places if places is not None else parts[0]
        points = _points(((_name_at(found, place), place) for place in places), file)
    elif found.points:
        points = _points(iter(found.points), file)
    else:
        raise error_at(tr("the file has neither a line nor points"), file=file, todo=_TODO)
    passage, built = passage_from_points(points, name=own_name or name, file=file)
    return passage, (*findings, *built, leg_kind_assumed(file))


def _document(text: str, file: str) -> object:
    try:
        return json.loads(text, parse_constant=_no_number)
    except json.JSONDecodeError as exc:
        cut = exc.pos >= len(text.rstrip()) or "Unterminated" in exc.msg
        what = (
            tr("the file is cut short")
            if cut
            else tr("the JSON is broken ({reason})", reason=exc.msg.lower())
        )
        raise error_at(
            what, file=file, line=exc.lineno, todo=tr("Export or copy it again")
        ) from exc
    except RecursionError as exc:
        raise error_at(tr("the JSON is nested too deep"), file=file, todo=_TODO) from exc
    except ValueError as exc:
        # «NaN» and «Infinity», or a number of thousands of digits.
        raise error_at(
            tr("the JSON holds a value that is no number"), file=file, todo=tr("Export it again")
        ) from exc


def _no_number(constant: str) -> float:
    raise ValueError(constant)


def _refuse_other_system(document: object, file: str) -> None:
    system = document.get("crs") if isinstance(document, dict) else None
    if not isinstance(system, dict):
        return
    properties = system.get("properties")
    stated = str(properties.get("name", "")) if isinstance(properties, dict) else ""
    if stated and not stated.upper().endswith(("CRS84", "4326")):
        raise error_at(
            tr(
                "the coordinates are in another reference system ({system})",
                system=clean_text(stated)[:60],
            ),
            file=file,
            todo=tr("Export the route in WGS-84 degrees"),
        )


def _geometries(
    node: object, file: str, depth: int = 0
) -> Iterator[tuple[str, dict[str, object], dict[str, object]]]:
    """Plain geometries of a document in order, each with the properties of its feature."""
    if depth > _LIMIT_DEPTH:
        raise error_at(tr("the JSON is nested too deep"), file=file, todo=_TODO)
    if not isinstance(node, dict):
        if depth == 0:
            raise error_at(tr("this JSON is no GeoJSON"), file=file, todo=_TODO)
        return
    kind = node.get("type")
    if kind == "FeatureCollection":
        for feature in _list(node.get("features")):
            yield from _geometries(feature, file, depth + 1)
    elif kind == "Feature":
        properties = node.get("properties")
        own = dict(properties) if isinstance(properties, dict) else {}
        if "id" in node:
            own.setdefault("id", node["id"])
        for plain, geometry, _none in _geometries(node.get("geometry"), file, depth + 1):
            yield plain, geometry, own
    elif kind == "GeometryCollection":
        for member in _list(node.get("geometries")):
            yield from _geometries(member, file, depth + 1)
    elif isinstance(kind, str):
        yield kind, node, {}
    elif depth == 0:
        raise error_at(tr("this JSON is no GeoJSON"), file=file, todo=_TODO)


def _collect(
    found: _Found,
    kind: str,
    geometry: dict[str, object],
    properties: dict[str, object],
    file: str,
) -> None:
    coordinates = geometry.get("coordinates")
    name = _name_in({"properties": properties})
    if kind == "Point":
        found.points.append((name, _place(coordinates, file, name)))
    elif kind == "MultiPoint":
        found.points += [("", _place(item, file, name)) for item in _list(coordinates)]
    elif kind == "LineString":
        found.lines.append((name, [[_place(item, file, name) for item in _list(coordinates)]]))
    elif kind == "MultiLineString":
        parts = [[_place(item, file, name) for item in _list(part)] for part in _list(coordinates)]
        parts = [part for part in parts if part]
        if parts:
            found.lines.append((name, parts))


def _list(node: object) -> list[object]:
    return node if isinstance(node, list) else []


def _place(node: object, file: str, name: str) -> _Place:
    numbers = _list(node)[:2]
    if len(numbers) < 2 or not all(
        isinstance(number, int | float) and not isinstance(number, bool) for number in numbers
    ):
        raise error_at(
            tr("a coordinate is not a pair of numbers"),
            file=file,
            waypoint=name,
            todo=tr("Correct it, longitude first"),
        )
    try:
        lon_deg, lat_deg = (float(number) for number in numbers if isinstance(number, int | float))
    except OverflowError:
        lon_deg = lat_deg = math.inf
    return lat_deg, lon_deg


def _name_in(node: object) -> str:
    """A name from the properties of a node, or from the node itself."""
    if not isinstance(node, dict):
        return ""
    properties = node.get("properties")
    for holder in (properties, node):
        if not isinstance(holder, dict):
            continue
        by_key = {str(key).lower(): value for key, value in holder.items()}
        for key in _NAMES:
            value = by_key.get(key)
            if isinstance(value, str) and clean_text(value):
                return clean_text(value)
            if isinstance(value, int) and not isinstance(value, bool) and abs(value) < 10**6:
                return f"WP {value}"
    return ""


def _joined(parts: Sequence[list[_Place]]) -> list[_Place] | None:
    """The parts of a line as one, if each begins where the one before ends; else None."""
    joined = list(parts[0])
    for part in parts[1:]:
        end, start = joined[-1], part[0]
        apart = abs((start[1] - end[1] + 180.0) % 360.0 - 180.0)
        if abs(start[0] - end[0]) > _SAME_PLACE_DEG or apart > _SAME_PLACE_DEG:
            return None
        if abs(abs(end[1]) - 180.0) <= _SAME_PLACE_DEG:
            # Cut at the date line as RFC 7946 3.1.9 asks: the cut is no waypoint.
            joined.pop()
        joined += part[1:]
    return joined


def _name_at(found: _Found, place: _Place) -> str:
    for name, other in found.points[:LIMIT_WAYPOINTS]:
        if (
            abs(place[0] - other[0]) <= _SAME_PLACE_DEG
            and abs(place[1] - other[1]) <= _SAME_PLACE_DEG
        ):
            return name
    return ""


def _points(named: Iterator[tuple[str, _Place]], file: str) -> list[RoutePoint]:
    points: list[RoutePoint] = []
    for index, (name, (lat_deg, lon_deg)) in enumerate(named):
        label = waypoint_label(index, name)
        check_degrees(
            lat_deg=lat_deg,
            lon_deg=lon_deg,
            file=file,
            line=None,
            waypoint=label,
            beyond_date_line=True,
        )
        points.append(RoutePoint(name=label, lat_deg=lat_deg, lon_deg=lon_deg))
        if index >= LIMIT_WAYPOINTS:
            break
    return points


def _first_taken(file: str, count: int, is_broken: bool) -> Finding:
    if is_broken:
        what = tr("the line has parts that do not meet; the first part was taken")
    else:
        what = tr("the file has {count} lines; the first was taken", count=count)
    return Finding(
        severity=Severity.CHECK,
        code="several-lines",
        what=what,
        where=Where(file=file),
        todo=tr("Export the route you want as one line"),
    )
