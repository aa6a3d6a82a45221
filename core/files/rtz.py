"""Reads routes of the open exchange standard RTZ, versions 1.0, 1.1 and 1.2 (IEC 61174)."""

from dataclasses import dataclass
from datetime import datetime

from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.files.reading import Blob
from core.files.route_parts import (
    LIMIT_NOTE,
    RoutePoint,
    check_degrees,
    clean_text,
    error_at,
    leg_kind_assumed,
    passage_from_points,
    waypoint_label,
)
from core.files.route_values import RouteValues, number_in
from core.files.xml_reading import Element
from core.geodesy.leg_line import LegKind
from core.passage.passage import Leg, Passage

NAMESPACES = {
    "http://www.cirm.org/RTZ/1/0": "1.0",
    "http://www.cirm.org/RTZ/1/1": "1.1",
    "http://www.cirm.org/RTZ/1/2": "1.2",
}
_SCHEDULE_ELEMENTS = ("scheduleElement", "sheduleElement")
"""The schema of version 1.0 misspells the name; both are in use."""
_NOTES = ("legReport", "legInfo", "legNote1", "legNote2")


def version_of(route: Element) -> str:
    """Version by namespace, else by attribute, empty if neither says."""
    return NAMESPACES.get(route.namespace) or clean_text(route.attributes.get("version", ""))


def read_rtz(route: Element, blob: Blob, *, name: str) -> tuple[Passage, tuple[Finding, ...]]:
    """Read the passage from the root element of an RTZ document.

    The ``leg`` of a waypoint is the leg that arrives at it; that of the first waypoint has no
    effect. Values of ``defaultWaypoint`` hold where a waypoint is silent. The planned speed of a
    leg is that of the schedule, else ``speedMax`` («highest allowed speed» in the schema, used
    as planned speed by common practice). Radius and cross-track limits are in nautical miles,
    speeds in knots. Elements are known by their local names in any order, extensions are
    passed over.

    Parameters
    ----------
    route : Element
    blob : Blob
        The file, for the places of findings.
    name : str
        Name of the passage when the file gives none.

    Raises
    ------
    InputError
        A waypoint without a sound position, or not two different waypoints.
    """
    values = RouteValues(file=blob.name)
    holder = route.child("waypoints")
    if holder is None:
        raise error_at(
            tr("the route has no list of waypoints"),
            file=blob.name,
            line=route.line,
            todo=tr("Export it again"),
        )
    schedule, schedule_findings = _schedule(route, values, blob)
    default = holder.child("defaultWaypoint")
    points = []
    silent_on_kind = False
    for index, element in enumerate(holder.all("waypoint")):
        point, kind_stated = _point(index, element, default, schedule, values, blob)
        silent_on_kind = silent_on_kind or (index > 0 and not kind_stated)
        points.append(point)
    info = route.child("routeInfo")
    own_name = info.attributes.get("routeName", "") if info is not None else ""
    passage, findings = passage_from_points(points, name=own_name or name, file=blob.name)
    return passage, (
        *_version_findings(route, blob),
        *values.findings(),
        *schedule_findings,
        *findings,
        *((leg_kind_assumed(blob.name),) if silent_on_kind else ()),
    )


def _version_findings(route: Element, blob: Blob) -> tuple[Finding, ...]:
    version = version_of(route)
    if version in NAMESPACES.values():
        return ()
    stated = f"“{version}”" if version else tr("not stated")
    return (
        Finding(
            severity=Severity.CHECK,
            code="rtz-version-unknown",
            what=tr(
                "the RTZ version is {stated}; read as far as versions 1.0 to 1.2 go", stated=stated
            ),
            where=Where(file=blob.name, line=route.line),
            todo=tr("Check the waypoints and limits against the source"),
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Call:
    """What a schedule says about a waypoint and the leg that arrives at it."""

    eta_utc: datetime | None = None
    etd_utc: datetime | None = None
    speed_mps: float | None = None


def _schedule(
    route: Element, values: RouteValues, blob: Blob
) -> tuple[dict[str, _Call], tuple[Finding, ...]]:
    """Calls by waypoint id of the first schedule; each value manual, else calculated."""
    holder = route.child("schedules")
    schedules = holder.all("schedule") if holder is not None else []
    filled = [schedule for schedule in schedules if _schedule_rows(schedule)]
    if not filled:
        return {}, ()
    rows: dict[str, dict[str, str]] = {}
    for row in _schedule_rows(filled[0]):
        key = row.attributes.get("waypointId", "").strip()
        merged = rows.setdefault(key, {})
        for attribute in ("eta", "etd", "speed"):
            given = row.attributes.get(attribute, "").strip()
            if given and attribute not in merged:
                merged[attribute] = given
    calls = {
        key: _Call(
            eta_utc=values.time_utc(
                row.get("eta"), waypoint=tr("id {waypoint_id}", waypoint_id=clean_text(key))
            ),
            etd_utc=values.time_utc(
                row.get("etd"), waypoint=tr("id {waypoint_id}", waypoint_id=clean_text(key))
            ),
            speed_mps=values.speed_mps(
                row.get("speed"), waypoint=tr("id {waypoint_id}", waypoint_id=clean_text(key))
            ),
        )
        for key, row in rows.items()
    }
    if len(filled) == 1:
        return calls, ()
    title = clean_text(filled[0].attributes.get("name", ""))
    return calls, (
        Finding(
            severity=Severity.NOTE,
            code="several-schedules",
            what=tr("the route has {count} schedules; the first was taken", count=len(filled))
            + (f", “{title}”" if title else ""),
            where=Where(file=blob.name, line=filled[0].line),
        ),
    )


def _schedule_rows(schedule: Element) -> list[Element]:
    """Rows of the manual part, then of the calculated part."""
    return [
        row
        for part in ("manual", "calculated")
        for holder in schedule.all(part)
        for row in holder.children
        if row.name in _SCHEDULE_ELEMENTS
    ]


def _point(
    index: int,
    element: Element,
    default: Element | None,
    schedule: dict[str, _Call],
    values: RouteValues,
    blob: Blob,
) -> tuple[RoutePoint, bool]:
    """One waypoint, and whether the kind of the leg to it is stated."""
    label = waypoint_label(index, element.attributes.get("name", ""))
    lat_deg, lon_deg = position_in(element.child("position"), element, label, blob)
    call = schedule.get(element.attributes.get("id", "").strip(), _Call())
    attributes = _leg_attributes(element, default) if index > 0 else {}
    kind = values.kind(attributes.get("geometryType"), waypoint=label)
    speed_mps = call.speed_mps
    if speed_mps is None:
        speed_mps = values.speed_mps(attributes.get("speedMax"), waypoint=label)
    notes = [clean_text(attributes.get(key, ""), most=LIMIT_NOTE) for key in _NOTES]
    leg = Leg(
        kind=kind or LegKind.RHUMB,
        corridor_port_m=values.corridor_m(attributes.get("portsideXTD"), waypoint=label),
        corridor_starboard_m=values.corridor_m(attributes.get("starboardXTD"), waypoint=label),
        speed_mps=speed_mps,
        note=clean_text("; ".join(note for note in notes if note), most=LIMIT_NOTE),
    )
    point = RoutePoint(
        name=label,
        lat_deg=lat_deg,
        lon_deg=lon_deg,
        line=element.line,
        turn_radius_m=values.radius_m(_own_or_default("radius", element, default), waypoint=label),
        eta_utc=call.eta_utc,
        etd_utc=call.etd_utc,
        leg=leg,
    )
    return point, kind is not None


def _own_or_default(key: str, element: Element, default: Element | None) -> str | None:
    own = element.attributes.get(key)
    if own is not None or default is None:
        return own
    return default.attributes.get(key)


def _leg_attributes(element: Element, default: Element | None) -> dict[str, str]:
    attributes: dict[str, str] = {}
    for holder in (default, element):
        leg = holder.child("leg") if holder is not None else None
        if leg is not None:
            attributes.update(leg.attributes)
    return attributes


def position_in(
    holder: Element | None, element: Element, label: str, blob: Blob
) -> tuple[float, float]:
    """Latitude and longitude, deg, from attributes ``lat`` and ``lon``.

    Raises
    ------
    InputError
        Missing, no number, or out of range.
    """
    degrees = []
    for key, axis in (("lat", tr("latitude")), ("lon", tr("longitude"))):
        text = holder.attributes.get(key) if holder is not None else None
        if text is None or not text.strip():
            raise error_at(
                tr("the {axis} is missing", axis=axis),
                file=blob.name,
                line=element.line,
                waypoint=label,
                todo=tr("Add it, or export the route again"),
            )
        number = number_in(text)
        if number is None:
            raise error_at(
                tr(
                    "{axis} “{text}” is not a number of degrees",
                    axis=axis,
                    text=clean_text(text)[:30],
                ),
                file=blob.name,
                line=element.line,
                waypoint=label,
                todo=tr("Correct the position"),
            )
        degrees.append(number)
    check_degrees(
        lat_deg=degrees[0],
        lon_deg=degrees[1],
        file=blob.name,
        line=element.line,
        waypoint=label,
    )
    return degrees[0], degrees[1]
