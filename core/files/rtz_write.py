"""Writes routes as RTZ 1.2, valid against its schema, the same bytes for the same passage."""

import math
from datetime import UTC, datetime
from decimal import Decimal
from xml.sax.saxutils import quoteattr

from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.base.units import kn_from_mps, m_from_nm, mps_from_kn, nm_from_m
from core.files.route_parts import LIMIT_NOTE, clean_text, waypoint_label
from core.geodesy.leg_line import LegKind
from core.passage.passage import Leg, Passage, Waypoint

_MOST_RADIUS_NM = 5.0
_BELOW_CORRIDOR_NM = 10.0
_GEOMETRIES = {LegKind.RHUMB: "Loxodrome", LegKind.GEODESIC: "Orthodrome"}


def write_rtz(passage: Passage) -> bytes:
    """Write a passage as RTZ 1.2.

    Speeds go to a manual schedule, because ``speedMax`` there is the highest *allowed* speed.
    Values the schema has no room for are left out; ``rtz_findings`` names them.
    """
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        '<route xmlns="http://www.cirm.org/RTZ/1/2" version="1.2">',
        f"  <routeInfo{_attribute('routeName', clean_text(passage.name))}/>",
        "  <waypoints>",
    ]
    for index, waypoint in enumerate(passage.waypoints):
        lines += _waypoint_lines(index, waypoint, passage.legs[index - 1] if index else None)
    lines.append("  </waypoints>")
    lines += _schedule_lines(passage)
    lines.append("</route>")
    return ("\n".join(lines) + "\n").encode("utf-8")


def rtz_findings(passage: Passage, *, file: str) -> tuple[Finding, ...]:
    """What ``write_rtz`` leaves out because the schema has no room for it."""
    findings = []
    for index, waypoint in enumerate(passage.waypoints):
        leg = passage.legs[index - 1] if index else Leg()
        left_out = []
        if waypoint.turn_radius_m is not None and _radius_nm(waypoint.turn_radius_m) is None:
            left_out.append(tr("turn radius"))
        for corridor_m in (leg.corridor_port_m, leg.corridor_starboard_m):
            if corridor_m is not None and _corridor_nm(corridor_m) is None:
                left_out.append(tr("cross-track limit"))
        if left_out:
            findings.append(
                Finding(
                    severity=Severity.CHECK,
                    code="rtz-limit",
                    what=tr(
                        "the {left_out} is outside what RTZ 1.2 can hold and was left out",
                        left_out=left_out[0],
                    ),
                    where=Where(file=file, waypoint=waypoint.name),
                    todo=tr("Set it in the receiving system"),
                )
            )
    return tuple(findings)


def decimal_text(number: float) -> str:
    """The shortest decimal that reads back to the same number, never with an exponent.

    What is below 1e-9 (a tenth of a millimetre, in degrees) is rounded to 15 decimals.
    """
    if abs(number) < 1e-9:
        number = round(number, 15)
    return format(Decimal(repr(number)), "f")


def _waypoint_lines(index: int, waypoint: Waypoint, leg: Leg | None) -> list[str]:
    head = f'    <waypoint id="{index + 1}" revision="0"'
    head += _attribute("name", waypoint_label(index, waypoint.name))
    if waypoint.turn_radius_m is not None:
        head += _attribute("radius", _radius_nm(waypoint.turn_radius_m))
    lat, lon = waypoint.position.lat_deg, waypoint.position.lon_deg
    lines = [
        head + ">",
        f'      <position lat="{decimal_text(lat)}" lon="{decimal_text(lon)}"/>',
    ]
    if leg is not None:
        text = _attribute("starboardXTD", _corridor_nm(leg.corridor_starboard_m))
        text += _attribute("portsideXTD", _corridor_nm(leg.corridor_port_m))
        text += _attribute("geometryType", _GEOMETRIES[leg.kind])
        text += _attribute("legInfo", clean_text(leg.note, most=LIMIT_NOTE) or None)
        lines.append(f"      <leg{text}/>")
    lines.append("    </waypoint>")
    return lines


def _schedule_lines(passage: Passage) -> list[str]:
    rows = []
    for index, waypoint in enumerate(passage.waypoints):
        leg = passage.legs[index - 1] if index else Leg()
        text = _attribute("etd", _time(waypoint.etd_utc))
        text += _attribute("eta", _time(waypoint.eta_utc))
        text += _attribute("speed", _speed_kn(leg.speed_mps))
        if text:
            rows.append(f'        <scheduleElement waypointId="{index + 1}"{text}/>')
    if not rows:
        return []
    return [
        "  <schedules>",
        '    <schedule id="1">',
        "      <manual>",
        *rows,
        "      </manual>",
        "    </schedule>",
        "  </schedules>",
    ]


def _attribute(key: str, text: str | None) -> str:
    return "" if text is None else f" {key}={quoteattr(text)}"


def _time(time_utc: datetime | None) -> str | None:
    if time_utc is None:
        return None
    if time_utc.tzinfo is None:
        time_utc = time_utc.replace(tzinfo=UTC)
    return time_utc.astimezone(UTC).isoformat().replace("+00:00", "Z")


def _radius_nm(radius_m: float) -> str | None:
    text = _shortest_nm(radius_m)
    return text if 0.0 < float(text) <= _MOST_RADIUS_NM else None


def _corridor_nm(corridor_m: float | None) -> str | None:
    if corridor_m is None:
        return None
    text = _shortest_nm(corridor_m)
    return text if 0.0 < float(text) < _BELOW_CORRIDOR_NM else None


def _speed_kn(speed_mps: float | None) -> str | None:
    if speed_mps is None or not (math.isfinite(speed_mps) and speed_mps > 0.0):
        return None
    speed_kn = kn_from_mps(speed_mps)
    for digits in range(1, 18):
        text = f"{speed_kn:.{digits}g}"
        if mps_from_kn(float(text)) == speed_mps:
            return decimal_text(float(text))
    return decimal_text(speed_kn)


def _shortest_nm(distance_m: float) -> str:
    """Nautical miles with no more digits than it takes to come back to the same metres."""
    distance_nm = nm_from_m(distance_m)
    if not math.isfinite(distance_nm):
        return "0"
    for digits in range(1, 18):
        text = f"{distance_nm:.{digits}g}"
        if m_from_nm(float(text)) == distance_m:
            return decimal_text(float(text))
    return decimal_text(distance_nm)
