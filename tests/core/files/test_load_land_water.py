"""Land and sea, tide, lakes, islands and what is drawn as coast."""

import re
from pathlib import Path

import numpy as np
import pytest

from core.base.findings import Severity
from core.land.land_model import Cell
from tests.helpers.land_files import (
    box_ring,
    cell_at,
    copy_into,
    height_at,
    land_of,
    write_geojson,
    write_tif,
)

CELL = 0.01
BOX = (-29.9, 39.1, -29.1, 39.9)
DECLARED = (-30.0, 39.0, -29.0, 40.0)
ISLAND = box_ring(-29.7, 39.4, -29.3, 39.6)


def _elevation(path: Path, heights: np.ndarray, dtype: str = "int16") -> Path:
    return write_tif(path, heights, west=-30.0, north=40.0, cell=CELL, dtype=dtype)


def _island(height: float = 50.0) -> np.ndarray:
    heights = np.zeros((100, 100))
    heights[40:60, 30:70] = height
    return heights


def test_heights_are_above_the_water_now(tmp_path: Path) -> None:
    elevation = _elevation(tmp_path / "a.tif", _island())
    for level, height in ((0.0, 50.0), (3.5, 46.5), (-2.5, 52.5)):
        land = land_of(elevation, box=BOX, water_level_m=level)
        assert height_at(land, 39.505, -29.505) == pytest.approx(height)
        assert land.water_level_m == level


def test_high_water_drowns_low_land_without_a_coast_file_only(tmp_path: Path) -> None:
    elevation = _elevation(tmp_path / "a.tif", _island(2.0))
    assert cell_at(land_of(elevation, box=BOX), 39.505, -29.505) == Cell.LAND
    assert cell_at(land_of(elevation, box=BOX, water_level_m=2.0), 39.505, -29.505) == Cell.SEA
    coast = write_geojson(tmp_path / "c.geojson", polygons=[ISLAND], bbox=DECLARED)
    land = land_of(elevation, coast, box=BOX, water_level_m=3.0)
    assert cell_at(land, 39.505, -29.505) == Cell.LAND
    assert height_at(land, 39.505, -29.505) == 0.0


def test_low_water_does_not_turn_flat_sea_to_land(tmp_path: Path) -> None:
    elevation = _elevation(tmp_path / "a.tif", _island())
    land = land_of(elevation, box=BOX, water_level_m=-3.0)
    assert cell_at(land, 39.805, -29.805) == Cell.SEA
    assert height_at(land, 39.805, -29.805) == 0.0


def test_depths_are_sea(tmp_path: Path) -> None:
    heights = _island()
    heights[heights == 0.0] = -40.0
    land = land_of(_elevation(tmp_path / "a.tif", heights), box=BOX)
    assert land.heights_m.min() == 0.0
    assert cell_at(land, 39.805, -29.805) == Cell.SEA


def test_spurious_heights_at_sea_give_way_to_the_coast(tmp_path: Path) -> None:
    heights = _island()
    heights[20, 20] = 7.0
    elevation = _elevation(tmp_path / "a.tif", heights)
    coast = write_geojson(tmp_path / "c.geojson", polygons=[ISLAND], bbox=DECLARED)
    assert cell_at(land_of(elevation, box=BOX), 39.795, -29.795) == Cell.LAND
    land = land_of(elevation, coast, box=BOX)
    assert cell_at(land, 39.795, -29.795) == Cell.SEA
    assert height_at(land, 39.795, -29.795) == 0.0


def test_land_by_coast_at_or_below_zero_stays_land(tmp_path: Path) -> None:
    heights = _island()
    heights[50, 50] = -3.0
    coast = write_geojson(tmp_path / "c.geojson", polygons=[ISLAND], bbox=DECLARED)
    land = land_of(_elevation(tmp_path / "a.tif", heights), coast, box=BOX)
    assert cell_at(land, 39.495, -29.495) == Cell.LAND
    assert height_at(land, 39.495, -29.495) == 0.0


def test_lake_above_the_sea_is_no_coast_and_a_lagoon_is(tmp_path: Path) -> None:
    lake, lagoon = box_ring(-29.65, 39.45, -29.6, 39.55), box_ring(-29.45, 39.45, -29.35, 39.55)
    coast = write_geojson(tmp_path / "c.geojson", polygons=[[ISLAND, lake, lagoon]], bbox=DECLARED)
    heights = _island()
    heights[45:55, 35:40] = 30.0
    heights[45:55, 55:65] = 0.0
    land = land_of(_elevation(tmp_path / "a.tif", heights), coast, box=BOX)
    assert cell_at(land, 39.505, -29.625) == Cell.LAND
    assert height_at(land, 39.505, -29.625) == 30.0
    assert cell_at(land, 39.505, -29.405) == Cell.SEA
    assert len(land.coast.lines) == 2
    assert all(line.is_closed for line in land.coast.lines)


def test_edges_of_the_clip_box_are_no_coast(tmp_path: Path) -> None:
    mainland = box_ring(-29.5, 39.0, -29.0, 40.0)
    coast = write_geojson(tmp_path / "c.geojson", polygons=[mainland], bbox=DECLARED)
    heights = np.zeros((100, 100))
    heights[:, 50:] = 80.0
    land = land_of(_elevation(tmp_path / "a.tif", heights), coast, box=DECLARED)
    (shore,) = land.coast.lines
    assert shore.lon_deg == pytest.approx(-29.5)
    assert not shore.is_closed
    # The meridian from 39 to 40 N is 111.0 km long on WGS-84, computed with pyproj.
    assert land.points.length_m.sum() == pytest.approx(111_026.0, abs=30.0)


def test_posts_on_the_edge_of_the_clip_box_are_land(tmp_path: Path) -> None:
    # Posts of SRTM stand on whole degrees, right where coast files are cut.
    mainland = box_ring(-29.5, 39.0, -29.0, 40.0)
    coast = write_geojson(tmp_path / "c.geojson", polygons=[mainland], bbox=DECLARED)
    path = write_tif(
        tmp_path / "a.tif", np.full((101, 101), 80.0), west=-30.005, north=40.005, cell=CELL
    )
    land = land_of(path, coast, box=DECLARED)
    for lat, lon in ((39.5, -29.0), (40.0, -29.25), (39.0, -29.25), (40.0, -29.0)):
        assert cell_at(land, lat, lon) == Cell.LAND


def test_shorelines_are_drawn_and_polygons_rule_where_both_are_given(tmp_path: Path) -> None:
    # The polygon is cut at the middle meridian; the lines know that this is no shore.
    half = box_ring(-29.7, 39.4, -29.5, 39.6)
    polygons = write_geojson(
        tmp_path / "p.geojson", polygons=[half, box_ring(-29.499, 39.4, -29.3, 39.6)],
        bbox=DECLARED,
    )  # fmt: skip
    lines = write_geojson(tmp_path / "l.geojson", lines=[(*ISLAND, ISLAND[0])], bbox=DECLARED)
    land = land_of(_elevation(tmp_path / "a.tif", _island()), polygons, lines, box=BOX)
    (shore,) = land.coast.lines
    assert shore.is_closed
    assert {s.name for s in land.sources} == {"a.tif", "p.geojson", "l.geojson"}


def test_finer_polygons_rule_and_the_coarser_file_is_said_to_be_unused(tmp_path: Path) -> None:
    ring = [(-29.7 + 0.4 * t, 39.4) for t in np.linspace(0.0, 1.0, 80)]
    fine = write_geojson(
        tmp_path / "fine.geojson",
        polygons=[(*ring, (-29.3, 39.6), (-29.7, 39.6))], bbox=DECLARED,
    )  # fmt: skip
    coarse = write_geojson(
        tmp_path / "coarse.geojson", polygons=[box_ring(-29.8, 39.3, -29.2, 39.7)], bbox=DECLARED
    )
    land = land_of(_elevation(tmp_path / "a.tif", _island()), coarse, fine, box=BOX)
    assert cell_at(land, 39.35, -29.505) == Cell.SEA
    unused = [f for f in land.findings if f.code == "coast-not-used"]
    assert [f.where.file for f in unused] == ["coarse.geojson"]


def test_shoreline_of_the_heights_without_a_coast_file(tmp_path: Path) -> None:
    land = land_of(_elevation(tmp_path / "a.tif", _island()), box=BOX)
    (shore,) = land.coast.lines
    assert shore.is_closed
    assert land.coast.from_elevation
    assert [f.code for f in land.findings] == ["coast-from-elevation"]
    assert shore.lon_deg.min() == pytest.approx(-29.7, abs=1e-6)
    assert shore.lat_deg.max() == pytest.approx(39.6, abs=1e-6)


def test_island_across_the_antimeridian_is_one_ring(tmp_path: Path) -> None:
    west = np.zeros((100, 100))
    west[40:60, 90:] = 30.0
    east = np.zeros((100, 100))
    east[40:60, :10] = 30.0
    write_tif(tmp_path / "w.tif", west, west=179.0, north=1.0, cell=CELL)
    write_tif(tmp_path / "e.tif", east, west=-180.0, north=1.0, cell=CELL)
    write_geojson(
        tmp_path / "c.geojson",
        polygons=[box_ring(179.9, 0.4, 180.0, 0.6), box_ring(-180.0, 0.4, -179.9, 0.6)],
        bbox=(179.0, 0.0, -179.0, 1.0),
    )
    land = land_of(tmp_path, box=(179.5, 0.1, 180.5, 0.9))
    (shore,) = land.coast.lines
    assert shore.is_closed
    assert cell_at(land, 0.505, -179.955) == Cell.LAND
    assert cell_at(land, 0.505, 179.955) == Cell.LAND
    assert set(np.unique(land.cell)) == {Cell.SEA, Cell.LAND}
    assert land.points.lon_deg.min() < -179.0
    assert land.points.lon_deg.max() > 179.0


def test_metric_elevation_under_a_geographic_coast(tmp_path: Path) -> None:
    path = write_tif(
        tmp_path / "utm.tif", np.full((200, 200), 60.0), west=490_000.0, north=4_440_000.0,
        cell=100.0, crs="EPSG:32626",
    )  # fmt: skip
    coast = write_geojson(
        tmp_path / "c.geojson", polygons=[box_ring(-27.05, 39.98, -26.95, 40.06)],
        bbox=(-28.0, 39.0, -26.0, 41.0),
    )  # fmt: skip
    land = land_of(path, coast, box=(-27.08, 39.96, -26.92, 40.08))
    assert not land.lattice.is_geographic
    assert cell_at(land, 40.02, -27.0) == Cell.LAND
    assert cell_at(land, 39.965, -27.0) == Cell.SEA
    (shore,) = land.coast.lines
    assert shore.is_closed


def test_coast_far_from_the_waterline_of_the_heights_is_a_finding(tmp_path: Path) -> None:
    elevation = write_tif(
        tmp_path / "a.tif", np.kron(_island(), np.ones((10, 10))), west=-30.0, north=40.0,
        cell=CELL / 10.0,
    )  # fmt: skip
    near = write_geojson(tmp_path / "near.geojson", polygons=[ISLAND], bbox=DECLARED)
    moved = write_geojson(
        tmp_path / "moved.geojson", polygons=[box_ring(-29.7, 39.404, -29.3, 39.604)],
        bbox=DECLARED,
    )  # fmt: skip
    assert land_of(elevation, near, box=BOX).findings == ()
    (finding,) = land_of(elevation, moved, box=BOX).findings
    assert finding.code == "coast-elevation-apart"
    assert finding.severity is Severity.CHECK
    # Both long shores, 2 x 34.3 km of 2 x 56.5 km, are 0.004 deg or 444 m off: computed by hand.
    assert "along 61 % of the coast" in finding.what
    assert re.search(r"95 % within 44[345] m", finding.what)


def test_water_polygons_in_place_of_land_are_told(tmp_path: Path) -> None:
    water = write_geojson(
        tmp_path / "water.geojson", polygons=[[box_ring(*DECLARED), ISLAND]], bbox=DECLARED
    )
    heights = _island()
    heights[40:60, 30:70] = 1.0
    heights[heights == 0.0] = -1.0
    heights[45:55, 35:65] = 60.0
    land = land_of(_elevation(tmp_path / "a.tif", heights), water, box=BOX)
    assert any(f.severity is Severity.MUST_FIX for f in land.findings)


def test_a_folder_is_the_same_as_its_files(tmp_path: Path) -> None:
    elevation = _elevation(tmp_path / "a.tif", _island())
    coast = write_geojson(tmp_path / "c.geojson", polygons=[ISLAND], bbox=DECLARED)
    folder = copy_into(tmp_path / "folder" / "deeper", elevation, coast)
    (folder / "notes.txt").write_text("not land")
    write_geojson(folder / "route.geojson", lines=[((-29.9, 39.1), (-29.1, 39.9))])
    named, found = land_of(elevation, coast, box=BOX), land_of(folder.parent, box=BOX)
    assert np.array_equal(named.cell, found.cell)
    assert np.array_equal(named.heights_m, found.heights_m)
    extra = [f for f in found.findings if f not in named.findings]
    assert [(f.code, f.where.file) for f in extra] == [("coast-too-coarse", "route.geojson")]
