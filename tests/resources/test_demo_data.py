"""The demo passage as a place: invented, marked so, clear of land, with everything it must show."""

import json
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
import rasterio
import shapely
from lxml import etree
from pyproj import Geod

from core.base.angles import difference_deg
from core.base.units import nm_from_m
from core.files.marks_file import read_marks
from core.files.readers import read_passage
from core.jobs.demo import demo_paths
from core.passage.passage import Passage

_ROOT = Path(__file__).resolve().parents[2]
_DEMO = _ROOT / "resources" / "demo"
_SAMPLES = _ROOT / "sample_routes"
_VOID = -32768
_MIDDLE_LAT_DEG = 47.1667
_NM_PER_LON_DEG = 60.0 * float(np.cos(np.radians(_MIDDLE_LAT_DEG)))


def _flat(lat_deg: float, lon_deg: float) -> tuple[float, float]:
    """NM east and north of the middle; within 0.5 % over the archipelago."""
    return (lon_deg + 31.5) * _NM_PER_LON_DEG, (lat_deg - _MIDDLE_LAT_DEG) * 60.0


def _lon_lat(
    transform: rasterio.Affine, rows: np.ndarray, cols: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """Places of cell centres."""
    lon = transform.c + transform.a * (cols + 0.5)
    return lon, transform.f + transform.e * (rows + 0.5)


def _data_files() -> list[Path]:
    return [
        path for folder in (_DEMO, _SAMPLES) for path in sorted(folder.rglob("*")) if path.is_file()
    ]


@pytest.fixture(scope="module")
def heights() -> tuple[np.ndarray, rasterio.Affine]:
    with rasterio.open(_DEMO / "land" / "elevation.tif") as raster:
        return raster.read(1), raster.transform


@pytest.fixture(scope="module")
def coast() -> list[shapely.Polygon]:
    document = json.loads((_DEMO / "land" / "coast.geojson").read_text(encoding="utf-8"))
    return [shapely.geometry.shape(feature["geometry"]) for feature in document["features"]]


@pytest.fixture(scope="module")
def land_nm(coast: list[shapely.Polygon]) -> shapely.Geometry:
    flat = [shapely.Polygon([_flat(y, x) for x, y in ring.exterior.coords]) for ring in coast]
    return shapely.union_all(flat)


@pytest.fixture(scope="module")
def passage() -> Passage:
    return read_passage(demo_paths().route).passage


def _legs_nm(passage: Passage) -> list[shapely.LineString]:
    places = [_flat(w.position.lat_deg, w.position.lon_deg) for w in passage.waypoints]
    return [shapely.LineString(pair) for pair in pairwise(places)]


def test_demo_and_samples_are_under_three_megabytes() -> None:
    assert sum(path.stat().st_size for path in _data_files()) < 3_000_000


@pytest.mark.parametrize("path", _data_files(), ids=lambda path: path.name)
def test_every_file_is_marked_invented_at_its_beginning(path: Path) -> None:
    if path.suffix == ".tif":
        with rasterio.open(path) as raster:
            head = raster.tags()["TIFFTAG_IMAGEDESCRIPTION"]
    else:
        head = "\n".join(path.read_text(encoding="utf-8").splitlines()[:3])
    assert "INVENTED" in head


def test_the_nearest_real_land_is_far_away(coast: list[shapely.Polygon]) -> None:
    # Positions from memory, to a tenth of a degree: Corvo in the Azores, Cape Race in
    # Newfoundland, Mizen Head in Ireland; open ocean lies between them.
    geod = Geod(ellps="WGS84")
    for lat, lon in ((39.7, -31.1), (46.7, -53.1), (51.4, -9.8)):
        for polygon in coast:
            place = polygon.representative_point()
            _ahead, _back, length_m = geod.inv(place.x, place.y, lon, lat)
            assert nm_from_m(length_m) > 400.0


def test_coast_polygons_are_sound_and_inside_the_declared_area(
    coast: list[shapely.Polygon],
) -> None:
    document = json.loads((_DEMO / "land" / "coast.geojson").read_text(encoding="utf-8"))
    declared = shapely.box(*document["bbox"])
    assert len(coast) >= 12
    for polygon in coast:
        assert polygon.is_valid
        assert polygon.exterior.is_ccw
        assert declared.contains_properly(polygon)
    assert len(shapely.get_parts(shapely.union_all(coast))) == len(coast)


def test_coast_and_heights_agree_on_every_cell(
    heights: tuple[np.ndarray, rasterio.Affine],
    coast: list[shapely.Polygon],
) -> None:
    values, transform = heights
    rows, cols = np.nonzero(np.ones_like(values))
    lon, lat = _lon_lat(transform, rows, cols)
    union = shapely.union_all(coast)
    shapely.prepare(union)
    is_land = shapely.contains_xy(union, lon, lat).reshape(values.shape)
    differs = is_land != (values != 0)
    # Thinning moves the line by at most 0.08 of a cell, about 5 m.
    assert differs.sum() < 0.002 * is_land.sum()
    assert 600.0 < values.max() < 900.0


def test_all_sea_beyond_the_elevation_file_is_declared_by_the_coast(
    heights: tuple[np.ndarray, rasterio.Affine],
    passage: Passage,
) -> None:
    values, transform = heights
    west, north = transform.c, transform.f
    document = json.loads((_DEMO / "land" / "coast.geojson").read_text(encoding="utf-8"))
    declared_west, _south, _east, declared_north = document["bbox"]
    assert declared_west < west - 1.0
    assert declared_north > north + 0.9
    assert passage.waypoints[0].position.lon_deg < west
    for edge in (values[0], values[-1], values[:, 0], values[:, -1]):
        assert not edge.any()


def test_the_corridor_is_clear_of_land(passage: Passage, land_nm: shapely.Geometry) -> None:
    for line, leg in zip(_legs_nm(passage), passage.legs, strict=True):
        assert leg.corridor_port_m is not None
        assert line.distance(land_nm) > nm_from_m(leg.corridor_port_m) + 0.1


def test_offings_near_land_let_index_lines_be_laid(
    passage: Passage, land_nm: shapely.Geometry
) -> None:
    offings = [line.distance(land_nm) for line in _legs_nm(passage)]
    assert offings[0] > 24.0
    assert all(0.4 < offing < 1.6 for offing in offings[2:])


def test_one_alteration_is_slight_and_some_are_large(passage: Passage) -> None:
    lines = [passage.line(index) for index in range(len(passage.legs))]
    turns = [
        abs(difference_deg(after.course_deg, before.course_deg))
        for before, after in pairwise(lines)
    ]
    assert 3.0 < min(turns) < 15.0
    assert sum(80.0 <= turn <= 100.0 for turn in turns) >= 1
    assert max(turns) <= 100.0
    # Two tangents and the response distance fit into each leg (tangent = R tan(a/2), job.md 2.7.1).
    tangents = [
        (waypoint.turn_radius_m or 0.0) * float(np.tan(np.radians(turn / 2.0)))
        for waypoint, turn in zip(passage.waypoints[1:-1], turns, strict=True)
    ]
    for line, before, after in zip(lines, [0.0, *tangents], [*tangents, 0.0], strict=True):
        assert before + after + 400.0 < line.length_m


def test_rocks_of_one_cell_stand_alone(
    heights: tuple[np.ndarray, rasterio.Affine],
) -> None:
    values, _transform = heights
    land = np.pad(values != 0, 1)
    around = sum(
        land[1 + dr : land.shape[0] - 1 + dr, 1 + dc : land.shape[1] - 1 + dc].astype(int)
        for dr in (-1, 0, 1)
        for dc in (-1, 0, 1)
    )
    lone = (values != 0) & (around == 1)
    assert sorted(values[lone].tolist()) == [8, 9, 12]


@pytest.mark.parametrize(
    ("name", "box", "low", "high"),
    [
        ("cliffs of the north coast", (1.0, 6.0, 6.8, 8.0), 80.0, 400.0),
        ("cliffs of Ostrin", (-10.8, -2.9, -9.0, -1.0), 20.0, 200.0),
        ("flat beach", (-3.5, 0.5, 0.5, 1.6), 1.0, 2.0),
        ("low spit", (-1.8, -3.6, 0.8, -2.4), 1.0, 3.0),
    ],
)
def test_shores_are_as_high_as_their_names_say(
    heights: tuple[np.ndarray, rasterio.Affine],
    name: str,
    box: tuple[float, float, float, float],
    low: float,
    high: float,
) -> None:
    values, transform = heights
    land = np.pad(values != 0, 1)
    inner = land[:-2, 1:-1] & land[2:, 1:-1] & land[1:-1, :-2] & land[1:-1, 2:]
    rows, cols = np.nonzero((values > 0) & ~inner)
    lon, lat = _lon_lat(transform, rows, cols)
    east, north = (lon + 31.5) * _NM_PER_LON_DEG, (lat - _MIDDLE_LAT_DEG) * 60.0
    west, south, eastern, northern = box
    chosen = (east > west) & (east < eastern) & (north > south) & (north < northern)
    assert chosen.sum() > 50, name
    assert low <= np.median(values[rows[chosen], cols[chosen]]) <= high


def test_high_ground_stands_behind_the_flat_beach(
    heights: tuple[np.ndarray, rasterio.Affine],
) -> None:
    values, transform = heights
    col = int((-1.0 / _NM_PER_LON_DEG - 31.5 - transform.c) / transform.a)
    # From the water south of the beach, clear of the spit farther south.
    start = int((_MIDDLE_LAT_DEG - transform.f) / transform.e)
    northward = values[start::-1, col]
    first = int(np.nonzero(northward > 0)[0][0])
    cells_per_nm = 30
    assert northward[first : first + cells_per_nm // 2].max() < 12
    assert northward[first : first + 3 * cells_per_nm].max() > 400


def test_the_void_is_on_land_near_the_track(
    heights: tuple[np.ndarray, rasterio.Affine],
    coast: list[shapely.Polygon],
    passage: Passage,
) -> None:
    values, transform = heights
    rows, cols = np.nonzero(values == _VOID)
    assert 200 < rows.size < 1500
    lon, lat = _lon_lat(transform, rows, cols)
    assert shapely.contains_xy(shapely.union_all(coast), lon, lat).mean() > 0.98
    middle = shapely.Point(_flat(float(lat.mean()), float(lon.mean())))
    near = [
        number
        for number, line in enumerate(_legs_nm(passage), start=1)
        if line.distance(middle) < 3.5
    ]
    assert near == [9, 10]


def test_fixed_marks_stand_at_land_and_buoys_in_water(land_nm: shapely.Geometry) -> None:
    marks, _findings, _sha256 = read_marks(demo_paths().marks)
    for mark in marks:
        place = shapely.Point(_flat(mark.position.lat_deg, mark.position.lon_deg))
        off_nm = place.distance(land_nm)
        assert off_nm < 0.3 if mark.is_fixed else off_nm > 0.3, mark.name


@pytest.mark.parametrize("path", sorted(_SAMPLES.iterdir()), ids=lambda path: path.name)
def test_every_sample_route_is_read(path: Path) -> None:
    route = read_passage(path)
    assert len(route.passage.legs) >= 3
    assert {finding.code for finding in route.findings} <= {"leg-kind-assumed"}


def test_the_demo_route_is_the_same_in_all_formats(passage: Passage) -> None:
    for path in sorted(_SAMPLES.glob("demo_passage*")):
        other = read_passage(path).passage
        assert [w.name for w in other.waypoints] == [w.name for w in passage.waypoints]
        for mine, its in zip(passage.waypoints, other.waypoints, strict=True):
            # The table in minutes has three decimals: half of the last is 0.00001 degree.
            assert mine.position.lat_deg == pytest.approx(its.position.lat_deg, abs=1e-5)
            assert mine.position.lon_deg == pytest.approx(its.position.lon_deg, abs=1e-5)


def test_samples_cross_the_date_line_and_lie_in_the_south() -> None:
    date_line = read_passage(_SAMPLES / "across_the_date_line.rtz").passage
    lons = [waypoint.position.lon_deg for waypoint in date_line.waypoints]
    assert lons[0] > 178.0
    assert lons[-1] < -178.0
    south = read_passage(_SAMPLES / "southern_hemisphere.rtz").passage
    assert all(waypoint.position.lat_deg < -45.0 for waypoint in south.waypoints)


def test_rtz_files_are_valid_against_the_schema(real_data: Path) -> None:
    # Schema of RTZ 1.2 (IEC 61174), as kept with the real data.
    schema = etree.XMLSchema(etree.parse(real_data / "rtz_xsd" / "RTZ_Schema_version_1_2.xsd"))
    files = [*_SAMPLES.glob("*.rtz"), demo_paths().route]
    assert len(files) == 4
    for path in files:
        schema.assertValid(etree.parse(path))
