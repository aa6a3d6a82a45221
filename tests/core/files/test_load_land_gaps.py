"""Gaps with controls in both directions: loud where they matter, silent for all-sea tiles."""

from pathlib import Path

import numpy as np
import pytest

from core.base.errors import DataGapError, InputError
from core.land.land_model import Cell
from tests.helpers.land_files import (
    VOID,
    box_ring,
    cell_at,
    height_at,
    land_of,
    write_geojson,
    write_tif,
)

CELL = 0.01
BOX = (-29.9, 39.1, -29.1, 39.9)
DECLARED = (-30.0, 39.0, -29.0, 40.0)
ISLAND = box_ring(-29.7, 39.4, -29.3, 39.6)
ON_LAND, AT_SEA = (39.5051, -29.5049), (39.8051, -29.8049)


def _heights() -> np.ndarray:
    """An invented island 50 m high, sea round it, on 100 x 100 cells of a degree."""
    heights = np.zeros((100, 100))
    heights[40:60, 30:70] = 50
    return heights


def _elevation(path: Path, heights: np.ndarray) -> Path:
    return write_tif(path, heights, west=-30.0, north=40.0, cell=CELL)


def _with_void(lat_deg: float, lon_deg: float) -> np.ndarray:
    heights = _heights()
    heights[int((40.0 - lat_deg) / CELL), int((lon_deg + 30.0) / CELL)] = VOID
    return heights


@pytest.fixture
def coast(tmp_path: Path) -> Path:
    return write_geojson(tmp_path / "coast.geojson", polygons=[ISLAND], bbox=DECLARED)


def test_unharmed_area_is_complete(tmp_path: Path, coast: Path) -> None:
    land = land_of(_elevation(tmp_path / "a.tif", _heights()), coast, box=BOX)
    assert set(np.unique(land.cell)) == {Cell.SEA, Cell.LAND}
    assert not np.isnan(land.heights_m).any()
    assert height_at(land, *ON_LAND) == 50.0
    assert height_at(land, *AT_SEA) == 0.0


def test_void_on_land_is_a_void(tmp_path: Path, coast: Path) -> None:
    land = land_of(_elevation(tmp_path / "a.tif", _with_void(*ON_LAND)), coast, box=BOX)
    assert cell_at(land, *ON_LAND) == Cell.VOID
    assert np.isnan(height_at(land, *ON_LAND))
    assert (land.cell == Cell.VOID).sum() == 1


def test_void_at_sea_by_coast_is_sea(tmp_path: Path, coast: Path) -> None:
    land = land_of(_elevation(tmp_path / "a.tif", _with_void(*AT_SEA)), coast, box=BOX)
    assert cell_at(land, *AT_SEA) == Cell.SEA
    assert height_at(land, *AT_SEA) == 0.0


def test_void_at_sea_without_coast_is_a_void(tmp_path: Path) -> None:
    land = land_of(_elevation(tmp_path / "a.tif", _with_void(*AT_SEA)), box=BOX)
    assert cell_at(land, *AT_SEA) == Cell.VOID


def test_missing_tile_that_is_all_sea_by_coast_is_sea(tmp_path: Path, coast: Path) -> None:
    east = _heights()[:, 25:]
    path = write_tif(tmp_path / "east.tif", east, west=-29.75, north=40.0, cell=CELL)
    land = land_of(path, coast, box=BOX)
    assert cell_at(land, *AT_SEA) == Cell.SEA
    assert set(np.unique(land.cell)) == {Cell.SEA, Cell.LAND}


def test_missing_tile_with_land_is_missing(tmp_path: Path, coast: Path) -> None:
    west = _heights()[:, :50]
    path = write_tif(tmp_path / "west.tif", west, west=-30.0, north=40.0, cell=CELL)
    land = land_of(path, coast, box=BOX)
    assert cell_at(land, 39.5051, -29.4049) == Cell.MISSING
    assert cell_at(land, 39.5051, -29.6049) == Cell.LAND
    assert cell_at(land, 39.8051, -29.2049) == Cell.SEA
    assert not (land.cell == Cell.VOID).any()


def test_missing_tile_is_sea_by_shorelines_alone(tmp_path: Path) -> None:
    shore = write_geojson(tmp_path / "shore.geojson", lines=[(*ISLAND, ISLAND[0])], bbox=DECLARED)
    east = _heights()[:, 25:]
    path = write_tif(tmp_path / "east.tif", east, west=-29.75, north=40.0, cell=CELL)
    land = land_of(path, shore, box=BOX)
    assert cell_at(land, *AT_SEA) == Cell.SEA
    assert cell_at(land, *ON_LAND) == Cell.LAND
    assert set(np.unique(land.cell)) == {Cell.SEA, Cell.LAND}


def test_open_shoreline_does_not_turn_a_missing_tile_to_sea(tmp_path: Path) -> None:
    # The line does not divide the area, so it cannot tell on which side the sea is.
    shore = write_geojson(tmp_path / "s.geojson", lines=[ISLAND[:3]], bbox=DECLARED)
    heights = _heights()[:, 25:]
    heights[:70] = 50
    path = write_tif(tmp_path / "east.tif", heights, west=-29.75, north=40.0, cell=CELL)
    land = land_of(path, shore, box=BOX)
    assert cell_at(land, *AT_SEA) == Cell.MISSING


def test_outside_all_declared_areas_is_beyond(tmp_path: Path) -> None:
    coast = write_geojson(
        tmp_path / "c.geojson", polygons=[ISLAND], bbox=(-29.75, 39.0, -29.0, 40.0)
    )
    east = _heights()[:, 25:]
    path = write_tif(tmp_path / "east.tif", east, west=-29.75, north=40.0, cell=CELL)
    land = land_of(path, coast, box=BOX)
    assert cell_at(land, *AT_SEA) == Cell.BEYOND
    assert np.isnan(height_at(land, *AT_SEA))
    assert cell_at(land, 39.8051, -29.6049) == Cell.SEA


def test_without_coast_a_hole_between_tiles_is_missing_and_the_outside_beyond(
    tmp_path: Path,
) -> None:
    corner = np.zeros((20, 20))
    for name, west, north in (("a", -29.8, 39.8), ("b", -29.6, 39.6)):
        write_tif(tmp_path / f"{name}.tif", corner, west=west, north=north, cell=CELL)
    land = land_of(tmp_path, box=BOX)
    assert cell_at(land, 39.7051, -29.5049) == Cell.MISSING
    assert cell_at(land, 39.8551, -29.8549) == Cell.BEYOND
    assert cell_at(land, 39.7051, -29.7049) == Cell.SEA


def test_elevation_known_outside_the_coast_s_area_rules_there(tmp_path: Path) -> None:
    heights = _heights()
    heights[13:16, 13:16] = 20
    coast = write_geojson(
        tmp_path / "c.geojson", polygons=[ISLAND], bbox=(-29.75, 39.0, -29.0, 40.0)
    )
    land = land_of(_elevation(tmp_path / "a.tif", heights), coast, box=BOX)
    assert cell_at(land, 39.8551, -29.8549) == Cell.LAND
    assert any(line.is_closed and line.lon_deg.max() < -29.8 for line in land.coast.lines), (
        "the islet outside the coast's area has a waterline"
    )


def test_only_coast_needs_a_stated_height(coast: Path) -> None:
    with pytest.raises(InputError, match="only a coast is given, no elevation"):
        land_of(coast, box=BOX)
    land = land_of(coast, box=BOX, coast_height_m=25.0)
    assert land.heights_assumed
    assert height_at(land, *ON_LAND) == 25.0
    assert height_at(land, *AT_SEA) == 0.0
    assert [f.code for f in land.findings] == ["heights-assumed"]


def test_only_coast_knows_nothing_beyond_its_area(coast: Path) -> None:
    land = land_of(coast, box=(-30.2, 39.1, -29.1, 39.9), coast_height_m=25.0)
    assert cell_at(land, 39.5, -30.1) == Cell.BEYOND


def test_shorelines_alone_cannot_tell_land_from_sea(tmp_path: Path) -> None:
    shore = write_geojson(tmp_path / "s.geojson", lines=[(*ISLAND, ISLAND[0])])
    with pytest.raises(InputError, match="do not tell land from sea"):
        land_of(shore, box=(-29.69, 39.41, -29.31, 39.59), coast_height_m=25.0)


def test_land_data_of_other_waters_is_a_data_gap(tmp_path: Path, coast: Path) -> None:
    elevation = _elevation(tmp_path / "a.tif", _heights())
    with pytest.raises(DataGapError, match="none of the land files reaches"):
        land_of(elevation, coast, box=(10.0, 10.0, 10.5, 10.5))
