"""Make the demo passage and the sample routes anew: ``python -m resources.demo_source.make_demo``.

Everything is invented. The same bytes come out on every run.
"""

import json
import sys
from itertools import pairwise
from pathlib import Path

from resources.demo_source import passage
from resources.demo_source.coast_trace import Ring, thinned, trace
from resources.demo_source.frame import (
    CELLS_PER_DEGREE,
    DECLARED_DEG,
    EAST_SCALE,
    NORTH_DEG,
    WEST_DEG,
    lat_lon,
    make_frame,
)
from resources.demo_source.geotiff import geotiff_bytes
from resources.demo_source.route_files import (
    NOTICE,
    Point,
    comma_table,
    gpx_text,
    minutes_table,
    minutes_text,
    rtz_text,
)
from resources.demo_source.terrain import VOID_HEIGHT, Terrain, make_terrain

_RIGHTS = "Invented data, Apache-2.0"
_THINNING_ROWS = 0.08


def elevation_bytes(terrain: Terrain) -> bytes:
    """The heights as a GeoTIFF."""
    return geotiff_bytes(
        terrain.heights_m,
        west_deg=WEST_DEG,
        north_deg=NORTH_DEG,
        cell_deg=1.0 / CELLS_PER_DEGREE,
        nodata=VOID_HEIGHT,
        description=f"{NOTICE}: heights of an archipelago that does not exist",
        rights=_RIGHTS,
    )


def coast_text(terrain: Terrain) -> str:
    """The shore as GeoJSON polygons, one a line, with the area they are complete in."""
    features = []
    for ring in trace(terrain.shore_m):
        points = thinned(ring, _THINNING_ROWS, EAST_SCALE)
        features.append((-_area(points), [_degrees(point) for point in points]))
    features.sort(key=lambda feature: (feature[0], feature[1]))
    lines = [
        json.dumps(
            {
                "type": "Feature",
                "properties": {"number": number, "invented": True},
                "geometry": {"type": "Polygon", "coordinates": [points]},
            },
            separators=(",", ":"),
        )
        for number, (_area_, points) in enumerate(features, start=1)
    ]
    head = (
        '{"type":"FeatureCollection",\n'
        f'"name":"{NOTICE}",\n'
        f'"licence":"{_RIGHTS}",\n"released":"2031-01-01",\n'
        f'"bbox":{json.dumps(list(DECLARED_DEG))},\n"features":[\n'
    )
    return head + ",\n".join(lines) + "\n]}\n"


def _degrees(point: tuple[float, float]) -> list[float]:
    row, col = point
    return [
        round(WEST_DEG + (col + 0.5) / CELLS_PER_DEGREE, 6),
        round(NORTH_DEG - (row + 0.5) / CELLS_PER_DEGREE, 6),
    ]


def _area(ring: Ring) -> float:
    """Size of a ring in cells, for sorting."""
    total = 0.0
    for (row0, col0), (row1, col1) in pairwise(ring):
        total += row0 * col1 - row1 * col0
    return round(abs(total) / 2.0, 3)


def demo_points() -> list[Point]:
    """Waypoints of the demo passage in degrees."""
    points: list[Point] = []
    for place in passage.WAYPOINTS:
        lat_deg, lon_deg = lat_lon(place.east_nm, place.north_nm)
        points.append(
            Point(
                name=place.name,
                lat_deg=round(lat_deg, 6),
                lon_deg=round(lon_deg, 6),
                radius_nm=place.radius_nm,
                corridor_nm=place.corridor_nm if points else None,
                speed_kn=place.speed_kn if points else None,
            )
        )
    return points


def marks_text() -> str:
    """The marks as a table."""
    lines = [f"# {NOTICE}", "name,lat,lon,kind,fixed,height_m,on_chart"]
    for mark in passage.MARKS:
        lat_deg, lon_deg = lat_lon(mark.east_nm, mark.north_nm)
        place = f"{minutes_text(lat_deg, 'NS')},{minutes_text(lon_deg, 'EW')}"
        fixed, chart = ("yes" if flag else "no" for flag in (mark.is_fixed, mark.is_on_chart))
        lines.append(f"{mark.name},{place},{mark.kind},{fixed},{mark.height_m:g},{chart}")
    return "\n".join([*lines, ""])


def limits_text() -> str:
    """The danger limits as a table."""
    lines = [f"# {NOTICE}", "object,leg,not_less_than_nm,not_more_than_nm,note"]
    for limit in passage.LIMITS:
        least, most = (
            "" if value is None else f"{value:g}"
            for value in (limit.not_less_nm, limit.not_more_nm)
        )
        lines.append(f'{limit.mark},{limit.leg},{least},{most},"{limit.note}"')
    return "\n".join([*lines, ""])


def contingencies_text() -> str:
    """The contingency legs as a table."""
    lines = [f"# {NOTICE}", "leg,turn_before_nm_to_go,course_deg,distance_nm,name,note"]
    for way in passage.CONTINGENCIES:
        figures = f"{way.leg},{way.turn_before_nm:g},{way.course_deg:g},{way.distance_nm:g}"
        lines.append(f'{figures},{way.name},"{way.note}"')
    return "\n".join([*lines, ""])


def sample_texts() -> dict[str, str]:
    """Sample routes by file name."""
    demo = demo_points()
    others = {
        "across_the_date_line.rtz": ("INVENTED date line route", passage.DATE_LINE),
        "southern_hemisphere.rtz": ("INVENTED southern route", passage.FAR_SOUTH),
    }
    texts = {
        "demo_passage.rtz": rtz_text(passage.ROUTE_NAME, demo, passage.ETD),
        "demo_passage.gpx": gpx_text(passage.ROUTE_NAME, demo),
        "demo_passage.csv": minutes_table(demo),
        "demo_passage_decimal_comma.csv": comma_table(demo),
    }
    for file, (name, places) in others.items():
        points = [
            Point(p.name, p.lat_deg, p.lon_deg, 1.0, 0.5 if i else None, 14.0 if i else None)
            for i, p in enumerate(places)
        ]
        texts[file] = rtz_text(name, points, None)
    return texts


def demo_files() -> dict[str, bytes]:
    """All made files by their path from the root of the project."""
    terrain = make_terrain(make_frame())
    files = {
        "resources/demo/land/elevation.tif": elevation_bytes(terrain),
        "resources/demo/land/coast.geojson": coast_text(terrain).encode(),
        "resources/demo/marks.csv": marks_text().encode(),
        "resources/demo/limits.csv": limits_text().encode(),
        "resources/demo/contingencies.csv": contingencies_text().encode(),
    }
    samples = sample_texts()
    files["resources/demo/route.rtz"] = samples["demo_passage.rtz"].encode()
    files |= {f"sample_routes/{name}": text.encode() for name, text in samples.items()}
    return files


def main(root: Path) -> None:
    """Write every made file below a folder."""
    for name, data in demo_files().items():
        path = root / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data)


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).resolve().parents[2])
