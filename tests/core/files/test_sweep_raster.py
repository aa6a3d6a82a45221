"""The sweep raster as a file."""

from pathlib import Path

import numpy as np
import pytest
import rasterio

from core.base.errors import OutputError
from core.coverage.cell_sweep import NO_DATA, CellSweep
from core.files.sweep_raster import write_sweep_raster
from core.land.lattice import Lattice


def _sweep(crs: str = "EPSG:32630", cell: float = 30.0) -> CellSweep:
    lattice = Lattice(
        crs=crs, left_x=420_015.0, top_y=6_230_045.0, cell_x=cell, cell_y=cell, rows=3, cols=4
    )
    tags = np.array([[0, 1, 2, 3], [255, 1, 1, 255], [3, 2, 1, 0]], dtype=np.uint8)
    return CellSweep(lattice=lattice, tags=tags)


def test_file_has_the_tags_the_grid_and_the_system_of_the_elevation(tmp_path: Path) -> None:
    sweep = _sweep()
    write_sweep_raster(tmp_path / "sweep.tif", sweep)
    with rasterio.open(tmp_path / "sweep.tif") as raster:
        assert raster.driver == "GTiff"
        assert raster.count == 1
        assert raster.dtypes == ("uint8",)
        assert raster.nodata == NO_DATA
        assert raster.crs == rasterio.crs.CRS.from_epsg(32630)
        assert (raster.transform.c, raster.transform.f) == (420_015.0, 6_230_045.0)
        assert (raster.transform.a, raster.transform.e) == (30.0, -30.0)
        assert np.array_equal(raster.read(1), sweep.tags)


def test_same_sweep_gives_the_same_bytes(tmp_path: Path) -> None:
    for name in ("one.tif", "two.tif"):
        write_sweep_raster(tmp_path / name, _sweep())
    assert (tmp_path / "one.tif").read_bytes() == (tmp_path / "two.tif").read_bytes()


def test_target_without_its_folder_is_refused_and_nothing_is_left(tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="does not exist"):
        write_sweep_raster(tmp_path / "none" / "sweep.tif", _sweep())
    assert list(tmp_path.iterdir()) == []
