"""The sweep job from elevation files to a raster on their grid."""

from pathlib import Path

import numpy as np
import pytest
import rasterio
from rasterio.transform import Affine

from core.base.errors import DataGapError, InputError, OutputError
from core.base.progress import Quiet
from core.coverage.cell_sweep import CellSweep
from core.geodesy.position import Position
from core.jobs.sweep_area import sweep_area

NM = 1852.0
HERE = Position(lat_deg=50.5001, lon_deg=-20.4997)


@pytest.fixture
def land(tmp_path: Path) -> Path:
    """An invented island 40 m high in 1 x 1 deg of sea, 6 arc-second cells, a void in it."""
    heights = np.zeros((600, 600), dtype=np.int16)
    heights[280:320, 340:360] = 40
    heights[250:254, 250:258] = -32768
    path = tmp_path / "invented.tif"
    with rasterio.open(
        path,
        "w",
        driver="GTiff",
        width=600,
        height=600,
        count=1,
        dtype="int16",
        crs="EPSG:4326",
        nodata=-32768,
        transform=Affine(1 / 600, 0.0, -21.0, 0.0, -1 / 600, 51.0),
    ) as raster:
        raster.write(heights, 1)
    return path


def _job(
    land: Path,
    target: Path,
    *,
    position: Position = HERE,
    antenna_height_m: float = 25.0,
    radius_m: float = 6.0 * NM,
    target_height_m: float = 5.0,
    refraction_k: float = 4.0 / 3.0,
    water_level_m: float = 0.0,
    height_error_m: float = 5.0,
) -> CellSweep:
    return sweep_area(
        [land],
        position,
        antenna_height_m,
        radius_m,
        target_height_m,
        refraction_k,
        water_level_m,
        height_error_m,
        is_exact=True,
        target=target,
        progress=Quiet(),
    )


def test_raster_lies_on_the_cells_of_the_elevation(land: Path, tmp_path: Path) -> None:
    target = tmp_path / "sweep.tif"
    sweep = _job(land, target)
    with rasterio.open(land) as source, rasterio.open(target) as raster:
        assert raster.crs == source.crs
        assert raster.transform.a == pytest.approx(source.transform.a, rel=1e-12)
        for corner in ("c", "f"):
            off = (getattr(raster.transform, corner) - getattr(source.transform, corner)) * 600
            assert off == pytest.approx(round(off), abs=1e-6)
        tags = raster.read(1)
    assert np.array_equal(tags, sweep.tags)
    assert {0, 1, 255} <= set(np.unique(tags).tolist())


def test_behind_the_island_a_low_craft_is_hidden(land: Path, tmp_path: Path) -> None:
    sweep = _job(land, tmp_path / "sweep.tif", height_error_m=0.0)
    row, col = sweep.lattice.row_col(np.array([50.5]), np.array([-20.385]))
    behind = sweep.tags[round(float(row[0])), round(float(col[0]))]
    row, col = sweep.lattice.row_col(np.array([50.5]), np.array([-20.615]))
    open_sea = sweep.tags[round(float(row[0])), round(float(col[0]))]
    assert (behind, open_sea) == (0, 1)


def test_higher_water_lowers_the_land(land: Path, tmp_path: Path) -> None:
    # 40 m of land under 38 m of water leaves 2 m, over which a 25 m antenna sees the craft.
    sweep = _job(land, tmp_path / "sweep.tif", water_level_m=38.0, height_error_m=0.0)
    row, col = sweep.lattice.row_col(np.array([50.5]), np.array([-20.385]))
    assert sweep.tags[round(float(row[0])), round(float(col[0]))] == 1


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"antenna_height_m": 0.0}, "antenna height"),
        ({"antenna_height_m": float("nan")}, "antenna height"),
        ({"radius_m": -1.0}, "radius"),
        ({"radius_m": 1e9}, "radius"),
        ({"refraction_k": 0.0}, "refraction factor"),
        ({"target_height_m": -1.0}, "target height"),
        ({"target_height_m": float("inf")}, "target height"),
        ({"height_error_m": float("nan")}, "height error"),
    ],
)
def test_values_without_sense_are_refused_in_one_sentence(
    changed: dict[str, float], words: str, land: Path, tmp_path: Path
) -> None:
    target = tmp_path / "sweep.tif"
    with pytest.raises(InputError, match=words) as caught:
        _job(land, target, **changed)  # type: ignore[arg-type]  # only floats are changed
    assert "\n" not in str(caught.value)
    assert not target.exists()


def test_unwritable_target_is_found_before_the_work(land: Path, tmp_path: Path) -> None:
    with pytest.raises(OutputError):
        _job(tmp_path / "absent.tif", tmp_path / "none" / "sweep.tif")


def test_far_from_all_data_nothing_is_written(land: Path, tmp_path: Path) -> None:
    target = tmp_path / "sweep.tif"
    with pytest.raises((DataGapError, InputError)):
        _job(land, target, position=Position(lat_deg=-40.0, lon_deg=100.0))
    assert not target.exists()
