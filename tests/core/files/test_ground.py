"""A raster of ground and its table: read onto the land's cells, and one sentence for bad ones."""

from pathlib import Path

import numpy as np
import pytest
from pyproj import Transformer

from core.base.errors import InputError
from core.base.progress import Quiet
from core.files.ground_table import read_ground_table
from core.files.load_land import load_land, open_heights
from core.geodesy.position import Bounds
from core.land.land_model import LandModel
from core.land.sources import GroundCodes
from core.radar.land_reflectivity import CLASS_NUMBERS, LandClass
from tests.helpers.land_files import write_tif

_BOX = Bounds(south_deg=39.45, west_deg=-29.55, north_deg=39.55, east_deg=-29.45)
_CELL = 0.002
_TOWN, _MUD = CLASS_NUMBERS[LandClass.METROPOLITAN], CLASS_NUMBERS[LandClass.WET_SAND]


def _elevation(folder: Path) -> Path:
    return write_tif(
        folder / "heights.tif", np.full((50, 50), 20), west=-29.55, north=39.55, cell=_CELL
    )


def _table(raster: Path, text: str = "code,class\n50,metropolitan\n90,wet sand or mud\n") -> Path:
    raster.with_suffix(".csv").write_text(text, encoding="utf-8")
    return raster


def _land(folder: Path, raster: Path) -> tuple[LandModel, list[str]]:
    ground, _findings, _path, _sha256 = read_ground_table(raster)
    land = load_land(
        [_elevation(folder / "land")],
        bounds=_BOX,
        water_level_m=0.0,
        height_error_m=5.0,
        coast_height_m=None,
        progress=Quiet(),
        ground=ground,
    )
    return land, [str(f) for f in land.findings if f.code == "ground-by-slope"]


def _kind_at(land: LandModel, lat_deg: float, lon_deg: float) -> int:
    assert land.ground is not None
    row, col = land.lattice.row_col(np.array([lat_deg]), np.array([lon_deg]))
    return int(land.ground[round(float(row[0])), round(float(col[0]))])


def _halves(rows: int, cols: int) -> np.ndarray:
    """Town in the north, mud in the south, a column of nothing along the west."""
    codes = np.full((rows, cols), 50)
    codes[rows // 2 :] = 90
    codes[:, 0] = 255
    return codes


@pytest.mark.parametrize("dtype", ["uint8", "int16", "int32"])
def test_each_cell_takes_the_class_at_its_centre(tmp_path: Path, dtype: str) -> None:
    # Twice as fine as the elevation and a little beside it; the border lies at 39.5 N.
    raster = _table(
        write_tif(
            tmp_path / "ground.tif", _halves(110, 120), west=-29.56, north=39.555,
            cell=0.001, nodata=255, dtype=dtype,
        )
    )  # fmt: skip
    land, findings = _land(tmp_path, raster)
    assert findings == []
    assert land.ground is not None
    assert land.ground.shape == land.heights_m.shape
    assert _kind_at(land, 39.507, -29.50) == _TOWN
    assert _kind_at(land, 39.493, -29.50) == _MUD
    assert {s.role for s in land.sources} == {"elevation", "classes"}
    (source,) = (s for s in land.sources if s.role == "classes")
    assert source.name == "ground.tif"
    assert len(source.sha256) == 64
    assert "arc-second" in source.resolution


def test_a_raster_in_metres_lies_where_it_should(tmp_path: Path) -> None:
    there = Transformer.from_crs("EPSG:4326", "EPSG:32625", always_xy=True)
    x, y = there.transform(-29.50, 39.50)
    raster = _table(
        write_tif(
            tmp_path / "ground.tif", _halves(400, 400), west=x - 8000.0, north=y + 8000.0,
            cell=40.0, crs="EPSG:32625", nodata=255, dtype="uint8",
        )
    )  # fmt: skip
    land, findings = _land(tmp_path, raster)
    assert findings == []
    assert _kind_at(land, 39.505, -29.50) == _TOWN
    assert _kind_at(land, 39.495, -29.50) == _MUD


def test_a_raster_on_another_datum_is_turned_to_ours(tmp_path: Path) -> None:
    raster = _table(
        write_tif(
            tmp_path / "ground.tif", _halves(110, 120), west=-29.56, north=39.555,
            cell=0.001, crs="EPSG:4258", nodata=255, dtype="uint8",
        )
    )  # fmt: skip
    land, _findings = _land(tmp_path, raster)
    assert _kind_at(land, 39.507, -29.50) == _TOWN
    assert _kind_at(land, 39.493, -29.50) == _MUD


def test_what_the_table_does_not_name_is_left_to_the_slope_and_said(tmp_path: Path) -> None:
    raster = _table(
        write_tif(
            tmp_path / "ground.tif", _halves(110, 120), west=-29.56, north=39.555,
            cell=0.001, nodata=255, dtype="uint8",
        ),
        "code,class\n50,metropolitan\n",
    )  # fmt: skip
    land, findings = _land(tmp_path, raster)
    assert _kind_at(land, 39.507, -29.50) == _TOWN
    assert _kind_at(land, 39.493, -29.50) == 0
    assert findings == [
        "ground.tif: code 90 is not named in its table; there the slope tells how strongly "
        "ground echoes."
    ]


def test_a_raster_of_other_waters_is_said(tmp_path: Path) -> None:
    raster = _table(
        write_tif(
            tmp_path / "ground.tif", _halves(10, 10), west=10.0, north=50.0, cell=0.01,
            nodata=255, dtype="uint8",
        )
    )  # fmt: skip
    land, findings = _land(tmp_path, raster)
    assert land.ground is not None
    assert not land.ground.any()
    assert findings == [
        "ground.tif: reaches no land of this passage; there the slope tells how strongly ground "
        "echoes. Give the classes of these waters."
    ]


def test_a_raster_of_ground_in_the_land_folder_is_no_elevation(tmp_path: Path) -> None:
    _elevation(tmp_path)
    raster = _table(
        write_tif(
            tmp_path / "ground.tif", _halves(110, 120), west=-29.56, north=39.555,
            cell=0.001, nodata=255, dtype="int16",
        )
    )  # fmt: skip
    ground, _findings, _path, _sha256 = read_ground_table(raster)
    land = load_land(
        [tmp_path],
        bounds=_BOX,
        water_level_m=0.0,
        height_error_m=5.0,
        coast_height_m=None,
        progress=Quiet(),
        ground=ground,
    )
    assert float(np.nanmax(land.heights_m)) == 20.0
    found = open_heights([tmp_path], ground).files_meeting(_BOX)
    assert [file.name for file in found] == ["heights.tif"]


def test_a_table_in_toml_says_the_same(tmp_path: Path) -> None:
    raster = write_tif(tmp_path / "ground.tif", [[50]], west=0.0, north=1.0, cell=1.0)
    text = '[classes]\n50 = "Metropolitan"\n90 = "wet_sand"\n-3 = "dry sand, dunes"\n'
    raster.with_suffix(".toml").write_text(text, encoding="utf-8")
    ground, findings, path, sha256 = read_ground_table(raster)
    assert ground == GroundCodes(
        path=raster,
        numbers=((-3, CLASS_NUMBERS[LandClass.DRY_SAND]), (50, _TOWN), (90, _MUD)),
    )
    assert findings == ()
    assert path.name == "ground.toml"
    assert len(sha256) == 64


@pytest.mark.parametrize(
    ("name", "text", "sentence"),
    [
        ("ground.csv", "code,class\n50,city\n", "ground.csv, line 2: «city» is no kind of ground"),
        (
            "ground.csv",
            "code,class\n50,metropolitain\n",
            "«metropolitain» is no kind of ground. Write «metropolitan» if that was meant.",
        ),
        ("ground.csv", "code,class\n5.5,woods\n", "line 2: code «5.5» is not a whole number"),
        ("ground.csv", "code,class\n5,woods\n5,shingle\n", "code 5 stands for two classes"),
        ("ground.csv", "code,class\n9999999999,woods\n", "code 9999999999 is too large"),
        ("ground.csv", "code,class\n", "there are no classes in this table"),
        ("ground.csv", "code\n5\n", "there is no column class"),
        ("ground.toml", "[kinds]\n", "ground.toml: has no table [classes]"),
        ("ground.toml", "[classes\n", "ground.toml: is no TOML file"),
        ("ground.toml", "[classes]\n5 = 7\n", "classes, 5: «» is no kind of ground"),
        ("other.csv", "code,class\n5,woods\n", "ground.tif: has no table beside it"),
    ],
)
def test_a_bad_table_is_one_sentence(tmp_path: Path, name: str, text: str, sentence: str) -> None:
    raster = write_tif(tmp_path / "ground.tif", [[50]], west=0.0, north=1.0, cell=1.0)
    (tmp_path / name).write_text(text, encoding="utf-8")
    with pytest.raises(InputError) as found:
        read_ground_table(raster)
    assert sentence in str(found.value)
    assert "\n" not in str(found.value)


def test_a_raster_that_is_none_is_one_sentence(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="there is no such file"):
        read_ground_table(tmp_path / "none.tif")

    def refused(path: Path, sentence: str) -> None:
        with pytest.raises(InputError) as found:
            _land(tmp_path, _table(path))
        assert sentence in str(found.value)

    name = tmp_path / "ground.tif"

    def written(values: np.ndarray, dtype: str, crs: str | None = "EPSG:4326") -> Path:
        return write_tif(name, values, west=-29.56, north=39.555, cell=0.002, dtype=dtype, crs=crs)

    refused(written(_halves(60, 60), "float32"), "holds numbers that are no classes")
    refused(written(_halves(60, 60), "int16", None), "has no coordinate reference system")
    name.write_text("no raster", encoding="utf-8")
    refused(name, "cannot be read as a GeoTIFF of classes")
    whole = written(np.arange(3600).reshape(60, 60), "int32").read_bytes()
    name.write_bytes(whole[: len(whole) // 2])
    with pytest.raises(InputError):
        _land(tmp_path, _table(name))
