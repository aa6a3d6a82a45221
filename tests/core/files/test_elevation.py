import hashlib
import zipfile
from pathlib import Path

import numpy as np
import pytest
import rasterio
from pyproj import Transformer
from rasterio.transform import Affine

from core.base.errors import DataGapError, InputError
from core.files import elevation, raster_file
from core.files.load_land import open_heights
from core.geodesy.position import Bounds
from core.land.sources import HeightWindow
from tests.helpers.land_files import VOID, copy_into, write_hgt, write_tif

CELL = 0.01


def _box(west: float, south: float, east: float, north: float) -> Bounds:
    return Bounds(south_deg=south, west_deg=west, north_deg=north, east_deg=east)


def _at(window: HeightWindow, lat_deg: float, lon_deg: float) -> float:
    row, col = window.lattice.row_col(np.array([lat_deg]), np.array([lon_deg]))
    return float(window.heights_m[round(float(row[0])), round(float(col[0]))])


def test_window_has_the_file_s_own_cells(tmp_path: Path) -> None:
    heights = np.arange(400).reshape(20, 20)
    path = write_tif(tmp_path / "a.tif", heights, west=-30.0, north=40.0, cell=CELL)
    window = open_heights([path]).window(_box(-29.95, 39.85, -29.9, 39.9))
    lattice = window.lattice
    assert (lattice.left_x + 30.0) / CELL == pytest.approx(round((lattice.left_x + 30.0) / CELL))
    # The cell in row 12, column 7 of the file, computed by hand: 12 x 20 + 7.
    assert _at(window, 40.0 - 12.5 * CELL, -30.0 + 7.5 * CELL) == 247.0
    assert not window.is_missing.any()


def test_window_reaches_past_the_file_as_missing(tmp_path: Path) -> None:
    path = write_tif(tmp_path / "a.tif", np.ones((20, 20)), west=-30.0, north=40.0, cell=CELL)
    window = open_heights([path]).window(_box(-30.1, 39.9, -29.9, 40.1))
    assert np.array_equal(window.is_missing, np.isnan(window.heights_m))
    assert _at(window, 39.95, -29.95) == 1.0
    assert np.isnan(_at(window, 40.05, -29.95))


def test_neighbouring_tiles_that_share_a_post_make_one_surface(tmp_path: Path) -> None:
    # One surface cut into two SRTM-like tiles, posts on whole degrees, half a cell overhanging.
    whole = np.add.outer(np.arange(101), np.arange(201))
    west, north = -30.0 - CELL / 2.0, 40.0 + CELL / 2.0
    write_tif(tmp_path / "t1.tif", whole[:, :101], west=west, north=north, cell=CELL)
    write_tif(tmp_path / "t2.tif", whole[:, 100:], west=west + 1.0, north=north, cell=CELL)
    write_tif(tmp_path / "whole" / "w.tif", whole, west=west, north=north, cell=CELL)
    box = _box(-29.5, 39.2, -28.5, 39.8)
    one = open_heights([tmp_path / "whole"]).window(box)
    two = open_heights([tmp_path / "t1.tif", tmp_path / "t2.tif"]).window(box)
    assert np.array_equal(one.heights_m, two.heights_m)
    assert not np.isnan(two.heights_m).any()
    assert [s.name for s in two.sources] == ["t1.tif", "t2.tif"]


def test_coarser_tiles_without_overlap_leave_no_void_at_their_join(tmp_path: Path) -> None:
    coarse = np.full((10, 10), 5)
    write_tif(tmp_path / "c1.tif", coarse, west=-30.0, north=40.0, cell=0.1)
    write_tif(tmp_path / "c2.tif", coarse, west=-29.0, north=40.0, cell=0.1)
    fine = write_tif(tmp_path / "f.tif", np.full((4, 4), 9), west=-29.7, north=39.7, cell=CELL)
    window = open_heights([tmp_path]).window(_box(-29.8, 39.2, -28.2, 39.8))
    assert window.lattice.cell_x == pytest.approx(CELL)
    assert not np.isnan(window.heights_m).any()
    assert set(np.unique(window.heights_m)) == {5.0, 9.0}
    assert fine.name in {s.name for s in window.sources}


def test_finest_file_rules_and_its_voids_are_filled_by_a_coarser_one(tmp_path: Path) -> None:
    fine = np.full((50, 50), 100)
    fine[10, 10] = VOID
    write_tif(tmp_path / "fine.tif", fine, west=-29.5, north=39.5, cell=CELL)
    write_tif(tmp_path / "coarse.tif", np.full((20, 20), 40), west=-30.0, north=40.0, cell=0.1)
    window = open_heights([tmp_path]).window(_box(-29.8, 39.1, -29.1, 39.7))
    assert _at(window, 39.5 - 10.5 * CELL, -29.5 + 10.5 * CELL) == 40.0
    assert _at(window, 39.5 - 11.5 * CELL, -29.5 + 10.5 * CELL) == 100.0
    assert _at(window, 39.6, -29.7) == 40.0


def test_void_stays_a_void_and_is_not_missing(tmp_path: Path) -> None:
    heights = np.full((20, 20), 3)
    heights[5, 5] = VOID
    path = write_tif(tmp_path / "a.tif", heights, west=-30.0, north=40.0, cell=CELL)
    window = open_heights([path]).window(_box(-29.98, 39.82, -29.82, 39.98))
    assert np.isnan(window.heights_m).sum() == 1
    assert not window.is_missing.any()


def test_undeclared_void_values_are_voids(tmp_path: Path) -> None:
    heights = np.full((20, 20), 3)
    heights[5, 5] = VOID
    path = write_tif(tmp_path / "a.tif", heights, west=-30.0, north=40.0, cell=CELL, nodata=None)
    window = open_heights([path]).window(_box(-29.98, 39.82, -29.82, 39.98))
    assert np.isnan(window.heights_m).sum() == 1


def test_metric_raster_gives_a_metric_lattice(tmp_path: Path) -> None:
    heights = np.arange(10_000).reshape(100, 100) % 3000
    path = write_tif(
        tmp_path / "utm.tif", heights, west=500_000.0, north=4_427_000.0, cell=90.0,
        crs="EPSG:32626",
    )  # fmt: skip
    lon, lat = Transformer.from_crs("EPSG:32626", "EPSG:4326", always_xy=True).transform(
        500_000.0 + 40.5 * 90.0, 4_427_000.0 - 30.5 * 90.0
    )
    window = open_heights([path]).window(_box(lon - 0.01, lat - 0.01, lon + 0.01, lat + 0.01))
    assert window.lattice.crs == "EPSG:32626"
    assert _at(window, lat, lon) == 3040 % 3000
    assert not window.is_missing.any()


def test_box_over_the_antimeridian_reads_both_sides(tmp_path: Path) -> None:
    write_tif(tmp_path / "w.tif", np.full((100, 100), 11), west=179.0, north=1.0, cell=CELL)
    write_tif(tmp_path / "e.tif", np.full((100, 100), 22), west=-180.0, north=1.0, cell=CELL)
    window = open_heights([tmp_path]).window(_box(179.7, 0.2, 180.3, 0.8))
    assert _at(window, 0.5, 179.9) == 11.0
    assert _at(window, 0.5, -179.9) == 22.0
    assert not np.isnan(window.heights_m).any()


def test_world_raster_meets_a_box_over_the_antimeridian_twice(tmp_path: Path) -> None:
    heights = np.zeros((18, 360))
    heights[:, 0], heights[:, -1] = 22, 11
    path = write_tif(tmp_path / "world.tif", heights, west=-180.0, north=9.0, cell=1.0)
    window = open_heights([path]).window(_box(178.0, -2.0, 182.0, 2.0))
    assert _at(window, 0.5, 179.5) == 11.0
    assert _at(window, 0.5, -179.5) == 22.0
    assert not np.isnan(window.heights_m).any()


def test_coarse_cells_keep_the_greatest_height(tmp_path: Path) -> None:
    heights = np.zeros((100, 100))
    heights[37, 61] = 900
    path = write_tif(tmp_path / "a.tif", heights, west=-30.0, north=40.0, cell=CELL)
    window = open_heights([path]).window(_box(-29.9, 39.1, -29.1, 39.9), cell_m=5000.0)
    assert window.lattice.cell_y > 3.0 * CELL
    assert _at(window, 40.0 - 37.5 * CELL, -30.0 + 61.5 * CELL) == 900.0


def test_hgt_and_zipped_hgt_read_alike(tmp_path: Path) -> None:
    heights = np.add.outer(np.arange(1201), np.arange(1201)) % 2000
    hgt = write_hgt(tmp_path, "N39W030.hgt", heights)
    zipped = tmp_path / "z" / "N39W030.hgt.zip"
    zipped.parent.mkdir()
    with zipfile.ZipFile(zipped, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.write(hgt, "N39W030.hgt")
    box = _box(-29.6, 39.4, -29.4, 39.6)
    plain, packed = open_heights([hgt]).window(box), open_heights([zipped]).window(box)
    assert np.array_equal(plain.heights_m, packed.heights_m)
    # Post (600, 600) stands on N 39.5, W 29.5: 1200 by the sum above.
    assert _at(plain, 39.5, -29.5) == 1200.0


def test_feet_and_scaled_heights_become_metres(tmp_path: Path) -> None:
    path = write_tif(tmp_path / "a.tif", np.full((20, 20), 100), west=-30.0, north=40.0, cell=CELL)
    with rasterio.open(path, "r+") as target:
        target.units = ("ft",)
    window = open_heights([path]).window(_box(-29.95, 39.85, -29.85, 39.95))
    assert window.heights_m == pytest.approx(30.48)
    with rasterio.open(path, "r+") as target:
        target.units, target.scales, target.offsets = ("m",), (0.1,), (5.0,)
    window = open_heights([path]).window(_box(-29.95, 39.85, -29.85, 39.95))
    assert window.heights_m == pytest.approx(15.0)


def test_raster_upside_down_is_turned_north_up(tmp_path: Path) -> None:
    heights = np.repeat(np.arange(20), 20).reshape(20, 20).astype("int16")
    path = tmp_path / "south_up.tif"
    with rasterio.open(
        path, "w", driver="GTiff", height=20, width=20, count=1, dtype="int16",
        crs="EPSG:4326", transform=Affine(CELL, 0.0, -30.0, 0.0, CELL, 39.8),
    ) as target:  # fmt: skip
        target.write(heights, 1)
    window = open_heights([path]).window(_box(-29.95, 39.85, -29.85, 39.95))
    assert _at(window, 39.8 + 12.5 * CELL, -29.9) == pytest.approx(12.0, abs=0.01)


def test_vrt_mosaic_names_the_files_it_is_made_of(tmp_path: Path) -> None:
    part = write_tif(tmp_path / "part.tif", np.full((20, 20), 8), west=-30.0, north=40.0, cell=CELL)
    vrt = tmp_path / "mosaic.vrt"
    vrt.write_text(
        '<VRTDataset rasterXSize="20" rasterYSize="20"><SRS>EPSG:4326</SRS>'
        "<GeoTransform>-30.0, 0.01, 0, 40.0, 0, -0.01</GeoTransform>"
        '<VRTRasterBand dataType="Int16" band="1"><SimpleSource>'
        '<SourceFilename relativeToVRT="1">part.tif</SourceFilename><SourceBand>1</SourceBand>'
        "</SimpleSource></VRTRasterBand></VRTDataset>"
    )
    window = open_heights([vrt]).window(_box(-29.95, 39.85, -29.85, 39.95))
    assert (window.heights_m == 8.0).all()
    assert {s.name for s in window.sources} == {"mosaic.vrt", part.name}


def test_sources_carry_digest_resolution_and_licence(tmp_path: Path) -> None:
    path = write_tif(
        tmp_path / "a.tif", np.ones((20, 20)), west=-30.0, north=40.0, cell=CELL,
        tags={"licence": "invented, free"},
    )  # fmt: skip
    (tmp_path / "source.toml").write_text('released = "2020"\nlicence = "other"\n')
    (source,) = open_heights([path]).window(_box(-29.95, 39.85, -29.85, 39.95)).sources
    assert source.sha256 == hashlib.sha256(path.read_bytes()).hexdigest()
    assert source.licence == "invented, free"
    assert source.released == "2020"
    # 0.01 deg is 36 arc-seconds; 1113 m north-south, times cos 39.9 = 854 m across.
    assert source.resolution == "36 arc-seconds (about 1113 x 854 m)"


def test_files_elsewhere_are_neither_opened_nor_hashed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_hgt(tmp_path, "N39W030.hgt", np.ones((1201, 1201)))
    (tmp_path / "N10E010.hgt").write_bytes(b"never read")
    write_tif(tmp_path / "far.tif", np.ones((4, 4)), west=100.0, north=10.0, cell=CELL)
    opened: list[str] = []
    real = raster_file.read_heights

    def noted(file: raster_file.RasterFile, *, row: int, col: int, rows: int, cols: int) -> object:
        opened.append(file.name)
        return real(file, row=row, col=col, rows=rows, cols=cols)

    monkeypatch.setattr("core.files.elevation.read_heights", noted)
    heights = open_heights([tmp_path])
    window = heights.window(_box(-29.6, 39.4, -29.4, 39.6))
    assert opened == ["N39W030.hgt"]
    assert [s.name for s in window.sources] == ["N39W030.hgt"]
    assert heights.findings == ()


def test_nothing_in_reach_is_a_data_gap(tmp_path: Path) -> None:
    path = write_tif(tmp_path / "a.tif", np.ones((20, 20)), west=-30.0, north=40.0, cell=CELL)
    with pytest.raises(DataGapError, match="no elevation file reaches"):
        open_heights([path]).window(_box(10.0, 10.0, 11.0, 11.0))


def test_broken_file_in_a_folder_is_a_finding_and_a_void(tmp_path: Path) -> None:
    good = write_tif(tmp_path / "a" / "good.tif", np.ones((20, 20)), west=-30.0, north=40.0,
                     cell=CELL)  # fmt: skip
    bad = write_tif(tmp_path / "b" / "cut.tif", np.ones((200, 200)), west=-29.8, north=40.0,
                    cell=CELL)  # fmt: skip
    folder = copy_into(tmp_path / "folder", good, bad)
    data = bad.read_bytes()
    (folder / "cut.tif").write_bytes(data[:400] + data[400 : len(data) // 2])
    heights = open_heights([folder])
    window = heights.window(_box(-29.95, 39.85, -29.7, 39.95))
    assert [f.where.file for f in heights.findings] == ["cut.tif"]
    assert _at(window, 39.9, -29.9) == 1.0
    assert np.isnan(_at(window, 39.9, -29.75))
    with pytest.raises(InputError, match=r"^cut\.tif: "):
        open_heights([folder / "cut.tif"]).window(_box(-29.95, 39.85, -29.7, 39.95))


def test_heights_above_the_ellipsoid_are_a_finding(tmp_path: Path) -> None:
    path = write_tif(
        tmp_path / "a.tif", np.ones((20, 20)), west=-30.0, north=40.0, cell=CELL, crs="EPSG:4979"
    )
    heights = open_heights([path])
    heights.window(_box(-29.95, 39.85, -29.85, 39.95))
    assert [f.code for f in heights.findings] == ["heights-above-ellipsoid"]


def test_a_box_too_large_for_its_cells_keeps_every_summit_in_coarser_ones_and_says_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    heights = np.zeros((200, 200))
    peaks = ((37, 61), (120, 5), (199, 199), (0, 130))
    for number, (row, col) in enumerate(peaks):
        heights[row, col] = 100 * (number + 1)
    path = write_tif(tmp_path / "a.tif", heights, west=-30.0, north=40.0, cell=CELL)
    box = _box(-30.0, 40.0 - 200 * CELL, -30.0 + 200 * CELL, 40.0)
    monkeypatch.setattr(elevation, "_MOST_CELLS", 10_000)
    source = open_heights([path])
    window = source.window(box)
    assert window.heights_m.size <= 10_000
    assert window.heights_m.size > 5_000
    assert [f.code for f in source.findings] == ["heights-coarsened"]
    for number, (row, col) in enumerate(peaks):
        found = _at(window, 40.0 - (row + 0.5) * CELL, -30.0 + (col + 0.5) * CELL)
        assert found == 100.0 * (number + 1)
