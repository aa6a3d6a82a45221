"""Bad land data: one sentence that says where, what and what to do; never another error."""

import json
import zipfile
from pathlib import Path

import numpy as np
import pytest
import rasterio
import shapely

from core.base.errors import InputError
from tests.helpers.land_files import box_ring, land_of, write_geojson, write_layer, write_tif

BOX = (-29.9, 39.1, -29.1, 39.9)
ISLAND = box_ring(-29.7, 39.4, -29.3, 39.6)
POLYGON = '{"type":"FeatureCollection","features":[{"type":"Feature","properties":{},"geometry":'


def _tif(path: Path) -> Path:
    random = np.random.default_rng(1)
    return write_tif(path, random.integers(0, 900, (100, 100)), west=-30.0, north=40.0, cell=0.01)


def _refused(path: Path) -> str:
    with pytest.raises(InputError) as caught:
        land_of(path, box=BOX, coast_height_m=20.0)
    sentence = str(caught.value)
    assert caught.value.what
    assert caught.value.todo
    assert path.name in sentence
    assert "\n" not in sentence
    assert str(path.parent) not in sentence
    return sentence


def test_raster_without_a_reference_system(tmp_path: Path) -> None:
    path = write_tif(
        tmp_path / "a.tif", np.ones((9, 9)), west=-30.0, north=40.0, cell=0.1, crs=None
    )
    assert "no coordinate reference system" in _refused(path)


@pytest.mark.parametrize("keep", [0, 4, 100, 700, 9000])
def test_geotiff_cut_short(tmp_path: Path, keep: int) -> None:
    path = _tif(tmp_path / "a.tif")
    path.write_bytes(path.read_bytes()[:keep])
    _refused(path)


@pytest.mark.parametrize("size", [0, 7, 2_884_801, 2_884_804])
def test_hgt_of_a_wrong_size(tmp_path: Path, size: int) -> None:
    path = tmp_path / "N39W030.hgt"
    path.write_bytes(b"\0" * size)
    assert "size or name is wrong" in _refused(path)


def test_hgt_with_a_name_that_is_no_place(tmp_path: Path) -> None:
    path = tmp_path / "height.hgt"
    path.write_bytes(b"\0" * 2_884_802)
    assert "size or name is wrong" in _refused(path)


def test_picture_in_place_of_heights(tmp_path: Path) -> None:
    path = write_tif(
        tmp_path / "a.tif", np.ones((9, 9)), west=-30.0, north=40.0, cell=0.1, dtype="uint8",
        nodata=255,
    )  # fmt: skip
    assert "8-bit" in _refused(path)


def test_text_in_place_of_a_raster(tmp_path: Path) -> None:
    path = tmp_path / "a.tif"
    path.write_text("this is no raster")
    _refused(path)


def test_broken_zip(tmp_path: Path) -> None:
    path = tmp_path / "N39W030.hgt.zip"
    path.write_bytes(b"PK\x03\x04 and then nothing")
    assert "zip file is broken" in _refused(path)


def test_zip_with_a_damaged_member(tmp_path: Path) -> None:
    path = tmp_path / "N39W030.hgt.zip"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("N39W030.hgt", np.arange(1_442_401, dtype=">i2").tobytes())
    data = bytearray(path.read_bytes())
    data[2000:2100] = b"\xff" * 100
    path.write_bytes(bytes(data))
    _refused(path)


def test_zip_whose_parts_contradict_each_other_does_not_crash(tmp_path: Path) -> None:
    # Symptom on 25 November 2026: GDAL's own zip reader ended the process (signal 11) when the
    # sizes before a member differ from those in the list at the end.
    path = tmp_path / "N39W030.hgt.zip"
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("N39W030.hgt", np.ones(1_442_401, dtype=">i2").tobytes())
    data = bytearray(path.read_bytes())
    data[20] = 255
    path.write_bytes(bytes(data))
    assert (land_of(path, box=BOX).heights_m == 1.0).all()


def test_raster_of_cells_of_no_size(tmp_path: Path) -> None:
    path = _tif(tmp_path / "a.tif")
    with rasterio.open(path, "r+") as target:
        target.transform = rasterio.Affine(1e-300, 0.0, -30.0, 0.0, -0.01, 40.0)
    assert "no sensible size" in _refused(path)


def test_zip_without_elevation(tmp_path: Path) -> None:
    path = tmp_path / "a.zip"
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("readme.txt", "nothing")
    assert "holds no elevation" in _refused(path)


def test_mosaic_that_points_at_a_server_is_never_opened(tmp_path: Path) -> None:
    path = tmp_path / "a.vrt"
    path.write_text(
        '<VRTDataset rasterXSize="9" rasterYSize="9"><SRS>EPSG:4326</SRS><VRTRasterBand '
        'dataType="Int16" band="1"><SimpleSource><SourceFilename>'
        "/vsicurl/http://127.0.0.1:9/a.tif</SourceFilename></SimpleSource></VRTRasterBand>"
        "</VRTDataset>"
    )
    assert "files on a server" in _refused(path)


def test_mosaic_of_missing_files(tmp_path: Path) -> None:
    path = tmp_path / "a.vrt"
    path.write_text(
        '<VRTDataset rasterXSize="90" rasterYSize="90"><SRS>EPSG:4326</SRS>'
        "<GeoTransform>-30.0, 0.01, 0, 40.0, 0, -0.01</GeoTransform><VRTRasterBand "
        'dataType="Int16" band="1"><SimpleSource><SourceFilename relativeToVRT="1">gone.tif'
        "</SourceFilename><SourceBand>1</SourceBand></SimpleSource></VRTRasterBand></VRTDataset>"
    )
    _refused(path)


def test_raster_that_lies_nowhere(tmp_path: Path) -> None:
    path = write_tif(tmp_path / "a.tif", np.ones((9, 9)), west=-30.0, north=4000.0, cell=1.0)
    _refused(path)


def test_raster_whose_grid_is_not_of_numbers(tmp_path: Path) -> None:
    path = _tif(tmp_path / "a.tif")
    with rasterio.open(path, "r+") as target:
        target.transform = rasterio.Affine(float("nan"), 0.0, -30.0, 0.0, -0.01, 40.0)
    _refused(path)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "{",
        "[1, 2]",
        "not json",
        '{"type":"FeatureCollection","features":[]}',
        '{"type":"FeatureCollection","bbox":[1,2],"features":[]}',
        '{"type":"FeatureCollection","bbox":[-30,99,-29,40],"features":[]}',
        '{"type":"FeatureCollection","bbox":[-30,40,-29,39],"features":[]}',
        POLYGON + '{"type":"Polygon","coordinates":[[[-29.7,39.4],[-29.3,39.4],[-29.3',
        POLYGON + '{"type":"Polygon","coordinates":[[[-29.7,39.4],[NaN,39.4],[-29.3,39.6],'
        "[-29.7,39.4]]]}}]}",
        POLYGON + '{"type":"Polygon","coordinates":[[[-29.7,39.4],[1e300,39.4],[-29.3,39.6],'
        "[-29.7,39.4]]]}}]}",
        POLYGON + '{"type":"Polygon","coordinates":[[[-29.7,39.4],[-29.3,139.4],[-29.3,39.6],'
        "[-29.7,39.4]]]}}]}",
    ],
)
def test_bad_geojson(tmp_path: Path, text: str) -> None:
    path = tmp_path / "c.geojson"
    path.write_text(text)
    _refused(path)


def test_geojson_that_is_text_in_another_encoding(tmp_path: Path) -> None:
    path = tmp_path / "c.geojson"
    path.write_bytes(json.dumps({"type": "FeatureCollection", "features": []}).encode("utf-16"))
    _refused(path)


def test_shapefile_without_its_companions(tmp_path: Path) -> None:
    path = write_layer(
        tmp_path / "c.shp", [shapely.Polygon(ISLAND)], kind="Polygon", driver="ESRI Shapefile"
    )
    path.write_bytes(path.read_bytes()[:60])
    _refused(path)


def test_geopackage_that_is_none(tmp_path: Path) -> None:
    path = tmp_path / "c.gpkg"
    path.write_bytes(b"SQLite format 3\x00" + b"\0" * 2000)
    _refused(path)


def test_folder_without_data(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    (tmp_path / "empty" / "readme.txt").write_text("nothing here")
    assert "holds no land data" in _refused(tmp_path / "empty")


def test_folder_of_nothing_but_broken_files(tmp_path: Path) -> None:
    folder = tmp_path / "broken"
    folder.mkdir()
    (folder / "a.tif").write_bytes(b"II*\0")
    with pytest.raises(InputError, match=r"a\.tif"):
        land_of(folder, box=BOX)


def test_missing_file_and_file_of_another_kind(tmp_path: Path) -> None:
    assert "no such file" in _refused(tmp_path / "gone.tif")
    (tmp_path / "a.txt").write_text("text")
    assert "is neither elevation" in _refused(tmp_path / "a.txt")


def test_broken_coast_in_a_folder_is_a_finding(tmp_path: Path) -> None:
    folder = tmp_path / "folder"
    _tif(folder / "a.tif")
    (folder / "c.geojson").write_text("{")
    write_geojson(folder / "d.geojson", polygons=[ISLAND], bbox=(-30, 39, -29, 40))
    land = land_of(folder, box=BOX)
    assert [f.where.file for f in land.findings if f.code == "land-file-unusable"] == ["c.geojson"]
