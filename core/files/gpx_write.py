"""Writes routes as GPX 1.1: names and positions, which is all it holds of a passage."""

from xml.sax.saxutils import escape

from core.base.findings import Finding, Severity, Where
from core.base.language import tr
from core.files.route_parts import clean_text, waypoint_label
from core.files.rtz_write import decimal_text
from core.geodesy.leg_line import LegKind
from core.passage.passage import Passage


def write_gpx(passage: Passage) -> bytes:
    """Write a passage as one GPX 1.1 route; the same bytes for the same passage."""
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        '<gpx xmlns="http://www.topografix.com/GPX/1/1" version="1.1" creator="Legsheet">',
        "  <rte>",
        f"    <name>{escape(clean_text(passage.name))}</name>",
    ]
    for index, waypoint in enumerate(passage.waypoints):
        lat, lon = waypoint.position.lat_deg, waypoint.position.lon_deg
        lines += [
            f'    <rtept lat="{decimal_text(lat)}" lon="{decimal_text(lon)}">',
            f"      <name>{escape(waypoint_label(index, waypoint.name))}</name>",
            "    </rtept>",
        ]
    lines += ["  </rte>", "</gpx>"]
    return ("\n".join(lines) + "\n").encode("utf-8")


def gpx_findings(passage: Passage, *, file: str) -> tuple[Finding, ...]:
    """What GPX has no room for, if the passage has any of it."""
    lost = []
    if any(leg.kind is LegKind.GEODESIC for leg in passage.legs):
        lost.append("great-circle legs")
    if any(waypoint.turn_radius_m is not None for waypoint in passage.waypoints):
        lost.append("turn radii")
    if any(
        limit_m is not None
        for leg in passage.legs
        for limit_m in (leg.corridor_port_m, leg.corridor_starboard_m)
    ):
        lost.append("cross-track limits")
    if any(leg.speed_mps is not None for leg in passage.legs):
        lost.append("speeds")
    if any(waypoint.eta_utc or waypoint.etd_utc for waypoint in passage.waypoints):
        lost.append("times")
    if any(leg.note for leg in passage.legs):
        lost.append("notes")
    if not lost:
        return ()
    return (
        Finding(
            severity=Severity.CHECK,
            code="gpx-holds-less",
            what=tr("GPX holds no {lost}; they were left out", lost=", ".join(lost)),
            where=Where(file=file),
            todo=tr("Write RTZ to keep them"),
        ),
    )
