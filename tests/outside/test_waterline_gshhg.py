"""Waterline of the elevation against independent coastlines.

Sources: GSHHG 2.3.7, full resolution (Wessel and Smith 1996; shorelines of the World Vector
Shoreline), and OpenStreetMap coastlines generalised to vertices 650-780 m apart, both cut to
whole degrees, as described in the README.md of the test data. Elevation: SRTM, 3 arc-seconds.

GSHHG itself lies up to about 100 m off in places (its positions are good to some 50 to 500 m by
its makers, value from memory), so the bound on its median is 150 m; OSM is closer.
"""

from pathlib import Path

import numpy as np
import pytest

from core.base.progress import Quiet
from core.files.load_land import load_land, open_heights
from core.geodesy.position import Bounds
from core.land.coast_check import coast_mismatch, distances_m
from core.land.land_model import Cell, LandModel
from core.land.waterline import waterline

AREAS = {
    "scotland_lorn_kintyre": (-6.0, 55.0, -5.0, 57.0),
    "italy_naples_capri": (13.0, 40.0, 15.0, 41.0),
    "bc_howe_sound": (-124.0, 49.0, -123.0, 50.0),
    "north_wales_orme": (-4.0, 53.0, -3.0, 54.0),
    "scotland_forth_stabbs": (-3.0, 55.0, -2.0, 56.0),
    "chile_coquimbo": (-72.0, -29.0, -71.0, -28.0),
}


def _bounds(area: str) -> Bounds:
    west, south, east, north = AREAS[area]
    return Bounds(south_deg=south, west_deg=west, north_deg=north, east_deg=east)


def _land(*paths: Path, area: str) -> LandModel:
    return load_land(
        paths, bounds=_bounds(area), water_level_m=0.0, height_error_m=5.0, coast_height_m=None,
        progress=Quiet(),
    )  # fmt: skip


@pytest.mark.parametrize("area", AREAS)
def test_half_of_gshhg_lies_within_150_m_of_the_waterline(real_data: Path, area: str) -> None:
    folder = real_data / area
    land = _land(folder / "dem_srtm3.tif", folder / "coast_gshhg_f_lines.geojson", area=area)
    window = open_heights([folder / "dem_srtm3.tif"]).window(_bounds(area))
    found = coast_mismatch(land.points, window.heights_m, window.lattice)
    assert found is not None
    assert found.median_m < 150.0


@pytest.mark.parametrize("area", ["scotland_lorn_kintyre", "bc_howe_sound", "italy_naples_capri"])
def test_waterline_is_not_displaced_against_osm(real_data: Path, area: str) -> None:
    # A waterline half a cell off (46 m here) would fit OSM better after a shift by as much.
    folder = real_data / area
    osm = _land(folder / "dem_srtm3.tif", folder / "coast_osm_generalised_land.geojson", area=area)
    window = open_heights([folder / "dem_srtm3.tif"]).window(_bounds(area))
    known = ~np.isnan(window.heights_m)
    with np.errstate(invalid="ignore"):
        lines = waterline(window.heights_m > 0.0, known, window.lattice)
    lat, lon = osm.points.lat_deg[::5], osm.points.lon_deg[::5]
    east_deg = 1.0 / (111_320.0 * np.cos(np.radians(lat.mean())))

    def median_m(north_m: float, east_m: float) -> float:
        moved = distances_m(lat + north_m / 111_320.0, lon + east_m * east_deg, lines)
        return float(np.median(moved))

    here = median_m(0.0, 0.0)
    assert here < 65.0
    for north_m, east_m in ((60.0, 0.0), (-60.0, 0.0), (0.0, 60.0), (0.0, -60.0)):
        assert median_m(north_m, east_m) > here


@pytest.mark.parametrize("area", AREAS)
def test_area_loads_from_its_folder_with_its_gaps_only(real_data: Path, area: str) -> None:
    # README.md of the test data: 1.8 % voids in Howe Sound, hardly any elsewhere.
    land = _land(real_data / area, area=area)
    inside = land.cell != Cell.BEYOND
    voids = float((land.cell == Cell.VOID).sum() / inside.sum())
    assert voids == pytest.approx(0.018 if area == "bc_howe_sound" else 0.0, abs=0.0005)
    assert not (land.cell == Cell.MISSING).any()
    assert np.array_equal(np.isnan(land.heights_m), land.cell > Cell.LAND)
    assert land.heights_m[land.cell == Cell.SEA].max() == 0.0
    assert not land.coast.from_elevation


@pytest.mark.parametrize("area", AREAS)
def test_shores_of_polygons_are_the_true_shorelines(real_data: Path, area: str) -> None:
    # The box edges of the polygons are no coast: without them the two files tell one coast.
    folder = real_data / area
    polygons = _land(folder / "dem_srtm3.tif", folder / "coast_gshhg_f_land.geojson", area=area)
    lines = _land(folder / "dem_srtm3.tif", folder / "coast_gshhg_f_lines.geojson", area=area)
    expected = lines.points.length_m.sum()
    assert polygons.points.length_m.sum() == pytest.approx(expected, rel=0.001)


@pytest.mark.parametrize("area", AREAS)
def test_land_by_shorelines_alone_is_land_by_polygons(real_data: Path, area: str) -> None:
    folder = real_data / area
    polygons = _land(folder / "dem_srtm3.tif", folder / "coast_gshhg_f_land.geojson", area=area)
    lines = _land(folder / "dem_srtm3.tif", folder / "coast_gshhg_f_lines.geojson", area=area)
    assert (polygons.cell != lines.cell).mean() < 0.001
