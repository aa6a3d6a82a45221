from pathlib import Path

import numpy as np
import pytest
import shapely
from pyproj import Transformer

from core.files.coast_files import read_coast
from core.files.coast_header import NoCoastError, read_coast_header
from core.geodesy.position import Bounds
from core.land.coast_data import CoastData
from tests.helpers.land_files import box_ring, write_geojson, write_layer

BOX = Bounds(south_deg=39.0, west_deg=-30.0, north_deg=40.0, east_deg=-29.0)
ISLAND = box_ring(-29.7, 39.4, -29.3, 39.6)


def _coast(path: Path, box: Bounds = BOX) -> CoastData:
    return read_coast(read_coast_header(path), box)[0]


def test_bbox_of_the_file_is_its_declared_area(tmp_path: Path) -> None:
    path = write_geojson(tmp_path / "c.geojson", polygons=[ISLAND], bbox=(-30, 39, -29, 40))
    header = read_coast_header(path)
    assert header.declared == (BOX,)
    assert header.declares_itself


def test_bbox_with_heights_and_bbox_after_the_shapes_are_read(tmp_path: Path) -> None:
    path = write_geojson(
        tmp_path / "c.geojson", polygons=[ISLAND], bbox=(-30, 39, -5, -29, 40, 900)
    )
    assert read_coast_header(path).declared == (BOX,)
    text = write_geojson(tmp_path / "d.geojson", polygons=[ISLAND]).read_text()
    (tmp_path / "d.geojson").write_text(text[:-1] + ', "bbox": [-30, 39, -29, 40]}')
    assert read_coast_header(tmp_path / "d.geojson").declared == (BOX,)


def test_bbox_of_a_shape_is_not_that_of_the_file(tmp_path: Path) -> None:
    path = write_geojson(tmp_path / "c.geojson", polygons=[ISLAND])
    text = path.read_text().replace(
        '{"type": "Feature",', '{"bbox": [0, 0, 1, 1], "type": "Feature",'
    )
    path.write_text(text)
    (declared,) = read_coast_header(path).declared
    assert (declared.west_deg, declared.east_deg) == (-29.7, -29.3)


def test_envelope_is_declared_where_the_file_is_silent(tmp_path: Path) -> None:
    header = read_coast_header(write_geojson(tmp_path / "c.geojson", polygons=[ISLAND]))
    (declared,) = header.declared
    assert declared == Bounds(south_deg=39.4, west_deg=-29.7, north_deg=39.6, east_deg=-29.3)
    assert not header.declares_itself


def test_bbox_over_the_antimeridian_runs_east(tmp_path: Path) -> None:
    # RFC 7946, 5.2: the western edge is then the greater number.
    path = write_geojson(
        tmp_path / "c.geojson", polygons=[box_ring(179.5, 0, 179.9, 1)], bbox=(179, -1, -179, 2)
    )
    (declared,) = read_coast_header(path).declared
    assert (declared.west_deg, declared.east_deg) == (179.0, 181.0)


def test_declared_area_without_any_land_is_all_sea(tmp_path: Path) -> None:
    path = write_geojson(tmp_path / "c.geojson", bbox=(-30, 39, -29, 40))
    coast = _coast(path)
    assert coast.rules
    assert coast.polygons == ()


@pytest.mark.parametrize(("driver", "suffix"), [("ESRI Shapefile", ".shp"), ("GPKG", ".gpkg")])
def test_shapefile_and_geopackage_read_like_geojson(
    tmp_path: Path, driver: str, suffix: str
) -> None:
    island = shapely.Polygon(ISLAND)
    path = write_layer(tmp_path / f"c{suffix}", [island], kind="Polygon", driver=driver)
    coast = _coast(path)
    assert coast.rules
    assert coast.polygons[0].equals(island)


@pytest.mark.parametrize(("driver", "suffix"), [("ESRI Shapefile", ".shp"), ("GPKG", ".gpkg")])
def test_projected_coast_is_brought_to_degrees(tmp_path: Path, driver: str, suffix: str) -> None:
    island = shapely.Polygon(ISLAND)
    there = Transformer.from_crs("EPSG:4326", "EPSG:32625", always_xy=True)
    metric = shapely.transform(
        island, lambda xy: np.stack(there.transform(xy[:, 0], xy[:, 1]), axis=1)
    )
    path = write_layer(
        tmp_path / f"c{suffix}", [metric], kind="Polygon", driver=driver, crs="EPSG:32625"
    )
    coast = _coast(path)
    assert shapely.hausdorff_distance(coast.polygons[0], island) < 1e-6


def test_shapes_far_away_are_not_read(tmp_path: Path) -> None:
    far = box_ring(10, 10, 11, 11)
    path = write_geojson(tmp_path / "c.geojson", polygons=[ISLAND, far], bbox=(-180, -80, 180, 80))
    assert len(_coast(path).polygons) == 1


def test_coast_written_past_180_deg_meets_a_box_written_below(tmp_path: Path) -> None:
    path = write_geojson(tmp_path / "c.geojson", polygons=[box_ring(330.3, 39.4, 330.7, 39.6)])
    assert len(_coast(path).polygons) == 1
    assert _coast(path).polygons[0].bounds == pytest.approx((-29.7, 39.4, -29.3, 39.6))


def test_polygon_that_crosses_itself_is_mended_with_a_finding(tmp_path: Path) -> None:
    bow = ((-29.7, 39.4), (-29.3, 39.6), (-29.3, 39.4), (-29.7, 39.6))
    path = write_geojson(tmp_path / "c.geojson", polygons=[bow])
    coast, findings = read_coast(read_coast_header(path), BOX)
    assert [f.code for f in findings] == ["coast-repaired"]
    assert all(p.is_valid for p in coast.polygons)
    # Two triangles, each 0.2 x 0.2 / 2 in degrees.
    assert sum(p.area for p in coast.polygons) == pytest.approx(0.04)


def test_polygon_without_any_area_is_a_finding(tmp_path: Path) -> None:
    flat = ((-29.7, 39.4), (-29.3, 39.4))
    path = write_geojson(tmp_path / "c.geojson", polygons=[flat, ISLAND])
    coast, findings = read_coast(read_coast_header(path), BOX)
    assert [f.code for f in findings] == ["coast-repaired"]
    assert len(coast.polygons) == 1


def test_lakes_of_gshhg_are_left_out_by_their_level(tmp_path: Path) -> None:
    # GSHHG: level 1 land, 2 lake, 3 island in lake, 4 pond, 5 and 6 Antarctica (its README).
    path = write_geojson(tmp_path / "c.geojson", polygons=[ISLAND], properties={"level": 2})
    assert _coast(path).polygons == ()
    path = write_geojson(tmp_path / "d.geojson", polygons=[ISLAND], properties={"level": 1})
    assert len(_coast(path).polygons) == 1


def test_own_exports_and_points_are_no_coast(tmp_path: Path) -> None:
    path = write_geojson(
        tmp_path / "c.geojson", polygons=[ISLAND], properties={"kind": "hidden_water"}
    )
    with pytest.raises(NoCoastError):
        read_coast_header(path)
    points = tmp_path / "p.geojson"
    points.write_text(
        '{"type": "FeatureCollection", "features": [{"type": "Feature", "properties": {}, '
        '"geometry": {"type": "Point", "coordinates": [-29.5, 39.5]}}]}'
    )
    with pytest.raises(NoCoastError):
        read_coast_header(points)


def test_spacing_is_the_median_distance_between_vertices(tmp_path: Path) -> None:
    # 0.001 deg of latitude at 39.5 N is 111.0 m on WGS-84.
    line = [(-29.5, 39.4 + 0.001 * n) for n in range(100)]
    path = write_geojson(tmp_path / "c.geojson", lines=[line])
    assert _coast(path).spacing_m == pytest.approx(111.0, abs=0.1)


def test_source_and_licence_come_from_the_shapes_or_a_note_beside(tmp_path: Path) -> None:
    path = write_geojson(
        tmp_path / "c.geojson", polygons=[ISLAND], properties={"source": "Invented 1"}
    )
    assert _coast(path).source.licence == "source: Invented 1"
    plain = write_geojson(tmp_path / "d.geojson", polygons=[ISLAND])
    (tmp_path / "d.source.toml").write_text(
        'licence = "free"\nattribution = "us"\nreleased = "2021"'
    )
    source = _coast(plain).source
    assert (source.licence, source.released) == ("free; us", "2021")


def test_shapefile_without_a_reference_system_is_taken_as_degrees_with_a_finding(
    tmp_path: Path,
) -> None:
    path = write_layer(
        tmp_path / "c.shp", [shapely.Polygon(ISLAND)], kind="Polygon", driver="ESRI Shapefile"
    )
    path.with_suffix(".prj").unlink()
    assert [f.code for f in read_coast_header(path).findings] == ["coast-datum-assumed"]
