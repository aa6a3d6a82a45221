"""Reads GPX 1.0 and 1.1: routes, and tracks where a file has no route."""

from core.base.findings import Finding, Severity, Where
from core.base.language import tr, tr_n
from core.files.reading import Blob
from core.files.route_parts import (
    RoutePoint,
    clean_text,
    error_at,
    leg_kind_assumed,
    passage_from_points,
    waypoint_label,
)
from core.files.rtz import position_in
from core.files.xml_reading import Element
from core.passage.passage import Passage

_VERSIONS = {
    "http://www.topografix.com/GPX/1/0": "1.0",
    "http://www.topografix.com/GPX/1/1": "1.1",
}


def gpx_version_of(root: Element) -> str:
    """Version by namespace, else by attribute, empty if neither says."""
    return _VERSIONS.get(root.namespace) or clean_text(root.attributes.get("version", ""))


def read_gpx(root: Element, blob: Blob, *, name: str) -> tuple[Passage, tuple[Finding, ...]]:
    """Read the first route, else the first track with a finding.

    GPX holds names and positions; radius, limits, speed and kind of leg stay unset. Extensions
    and times (of recording, not of a plan) are passed over.

    Raises
    ------
    InputError
        Neither route nor track, a point without a sound position, or not two waypoints.
    """
    findings: list[Finding] = []
    version = gpx_version_of(root)
    if version not in _VERSIONS.values():
        stated = f"“{version}”" if version else tr("not stated")
        findings.append(
            _finding(
                blob,
                Severity.NOTE,
                "gpx-version-unknown",
                tr(
                    "the GPX version is {version}; read as far as versions 1.0 and 1.1 go",
                    version=stated,
                ),
            )
        )
    routes = [route for route in root.all("rte") if route.all("rtept")]
    tracks = [track for track in root.all("trk") if _track_points(track)]
    if routes:
        holder = routes[0]
        passage, built = passage_from_points(
            _points(holder.all("rtept"), blob), name=_name(holder, root, name), file=blob.name
        )
        findings += _choice(
            blob,
            len(routes),
            "several-routes",
            tr(
                "the file has {count} routes; the first was taken, “{name}”",
                count=len(routes),
                name=passage.name,
            ),
        )
    elif tracks:
        holder = tracks[0]
        points, repeats = _without_repeats(_points(_track_points(holder), blob))
        passage, built = passage_from_points(points, name=_name(holder, root, name), file=blob.name)
        findings.append(
            _finding(
                blob,
                Severity.CHECK,
                "track-taken-as-route",
                _track_words(len(points), repeats),
                tr("Check that it is the planned track"),
            )
        )
        findings += _choice(
            blob,
            len(tracks),
            "several-tracks",
            tr(
                "the file has {count} tracks; the first was taken, “{name}”",
                count=len(tracks),
                name=passage.name,
            ),
        )
    else:
        singles = len(root.all("wpt"))
        what = tr("the file has no route")
        if singles:
            what = tr_n(
                "the file has no route, only {count} waypoint without order",
                "the file has no route, only {count} waypoints without order",
                singles,
            )
        raise error_at(what, file=blob.name, todo=tr("Export the route itself"))
    return passage, (*findings, *built, leg_kind_assumed(blob.name))


def _track_points(track: Element) -> list[Element]:
    return [point for part in track.all("trkseg") for point in part.all("trkpt")]


def _points(elements: list[Element], blob: Blob) -> list[RoutePoint]:
    points = []
    for index, element in enumerate(elements):
        label = waypoint_label(index, element.child_text("name"))
        lat_deg, lon_deg = position_in(element, element, label, blob)
        points.append(
            RoutePoint(
                name=element.child_text("name"),
                lat_deg=lat_deg,
                lon_deg=lon_deg,
                line=element.line,
            )
        )
    return points


def _without_repeats(points: list[RoutePoint]) -> tuple[list[RoutePoint], int]:
    """A recorder at rest writes one place many times; a plan would not."""
    kept: list[RoutePoint] = []
    for point in points:
        last = kept[-1] if kept else None
        if last is None or (point.lat_deg, point.lon_deg) != (last.lat_deg, last.lon_deg):
            kept.append(point)
    return kept, len(points) - len(kept)


def _name(holder: Element, root: Element, name: str) -> str:
    metadata = root.child("metadata")
    of_file = metadata.child_text("name") if metadata is not None else root.child_text("name")
    return holder.child_text("name") or of_file or name


def _track_words(points: int, repeats: int) -> str:
    if not repeats:
        return tr(
            "the file has no route; its track of {points} points was taken as one", points=points
        )
    return tr(
        "the file has no route; its track of {points} points was taken as one, "
        "without {repeats} repeated points",
        points=points,
        repeats=repeats,
    )


def _choice(blob: Blob, count: int, code: str, what: str) -> list[Finding]:
    if count == 1:
        return []
    return [
        _finding(
            blob,
            Severity.CHECK,
            code,
            what,
            tr("Export the one you want by itself if it is another"),
        )
    ]


def _finding(blob: Blob, severity: Severity, code: str, what: str, todo: str = "") -> Finding:
    return Finding(severity=severity, code=code, what=what, where=Where(file=blob.name), todo=todo)
