"""Routes as text: RTZ 1.2, GPX and two tables, each marked invented in its first lines."""

from dataclasses import dataclass

NOTICE = "INVENTED, NOT FOR NAVIGATION"


@dataclass(frozen=True)
class Point:
    """A waypoint in degrees with what is planned for the leg that arrives at it."""

    name: str
    lat_deg: float
    lon_deg: float
    radius_nm: float | None = None
    corridor_nm: float | None = None
    speed_kn: float | None = None


def rtz_text(name: str, points: list[Point], etd: str | None) -> str:
    """RTZ 1.2 of rhumb lines."""
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f"<!-- {NOTICE}: an invented passage in the open ocean, where there is no land. -->",
        '<route xmlns="http://www.cirm.org/RTZ/1/2" version="1.2">',
        f'  <routeInfo routeName="{name}" routeAuthor="invented" routeStatus="{NOTICE}"/>',
        "  <waypoints>",
    ]
    for number, point in enumerate(points, start=1):
        radius = "" if point.radius_nm is None else f' radius="{point.radius_nm:.2f}"'
        lines.append(f'    <waypoint id="{number}" revision="0" name="{point.name}"{radius}>')
        lines.append(f'      <position lat="{point.lat_deg:.6f}" lon="{point.lon_deg:.6f}"/>')
        if number > 1:
            leg = '      <leg geometryType="Loxodrome"'
            if point.corridor_nm is not None:
                leg += (
                    f' starboardXTD="{point.corridor_nm:.2f}" portsideXTD="{point.corridor_nm:.2f}"'
                )
            if point.speed_kn is not None:
                leg += f' speedMax="{point.speed_kn:.1f}"'
            lines.append(leg + "/>")
        lines.append("    </waypoint>")
    lines.append("  </waypoints>")
    if etd is not None:
        lines += [
            "  <schedules>",
            '    <schedule id="1" name="invented times">',
            "      <manual>",
            f'        <scheduleElement waypointId="1" etd="{etd}"/>',
            "      </manual>",
            "    </schedule>",
            "  </schedules>",
        ]
    return "\n".join([*lines, "</route>", ""])


def gpx_text(name: str, points: list[Point]) -> str:
    """GPX 1.1 with one route."""
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f"<!-- {NOTICE} -->",
        '<gpx xmlns="http://www.topografix.com/GPX/1/1" version="1.1" creator="invented">',
        f"  <metadata><desc>{NOTICE}</desc></metadata>",
        f"  <rte><name>{name}</name><desc>{NOTICE}</desc>",
    ]
    lines += [
        f'    <rtept lat="{point.lat_deg:.6f}" lon="{point.lon_deg:.6f}">'
        f"<name>{point.name}</name></rtept>"
        for point in points
    ]
    return "\n".join([*lines, "  </rte>", "</gpx>", ""])


def minutes_text(value_deg: float, letters: str) -> str:
    """Degrees and minutes with hemisphere, such as ``47 07.400 N``."""
    thousandths = round(abs(value_deg) * 60_000)
    degrees, rest = divmod(thousandths, 60_000)
    digits = 2 if letters == "NS" else 3
    letter = letters[1] if value_deg < 0.0 else letters[0]
    return f"{degrees:0{digits}d} {rest / 1000:06.3f} {letter}"


def minutes_table(points: list[Point]) -> str:
    """A table with commas, degrees and minutes."""
    lines = [f"# {NOTICE}", "name,lat,lon,radius_nm,port_xtd_nm,starboard_xtd_nm,speed_kn"]
    for point in points:
        values = (point.radius_nm, point.corridor_nm, point.corridor_nm, point.speed_kn)
        lines.append(
            f"{point.name},{minutes_text(point.lat_deg, 'NS')},{minutes_text(point.lon_deg, 'EW')},"
            + ",".join("" if value is None else f"{value:g}" for value in values)
        )
    return "\n".join([*lines, ""])


def comma_table(points: list[Point]) -> str:
    """A table with semicolons and decimal commas."""
    lines = [f"# {NOTICE}", "name;latitude;longitude"]
    for point in points:
        numbers = f"{point.lat_deg:.6f};{point.lon_deg:.6f}".replace(".", ",")
        lines.append(f"{point.name};{numbers}")
    return "\n".join([*lines, ""])
