"""The sweep raster as a GeoTIFF on the grid of the elevation it came from."""

from pathlib import Path

from rasterio.crs import CRS
from rasterio.io import MemoryFile
from rasterio.transform import Affine

from core.coverage.cell_sweep import NO_DATA, CellSweep
from core.files.writing import write_atomic

_MEANING = (
    "bit 0: the target is in radar line of sight; bit 1: uncertain within the error of the "
    "heights; 255: outside the radius or unknown. Planning aid, geometry only."
)


def write_sweep_raster(path: Path, sweep: CellSweep) -> None:
    """Write a one-band uint8 GeoTIFF, nodata 255, cell corners as in the elevation file.

    Parameters
    ----------
    path : Path
        What stands there is replaced when the new file is whole.
    sweep : CellSweep
        Tags and their lattice.

    Raises
    ------
    OutputError
        It cannot be written there.
    """
    # Made in memory: a raster library notes a full disk when it closes a file, and tells nobody.
    write_atomic(path, _bytes(sweep))


def _bytes(sweep: CellSweep) -> bytes:
    lattice = sweep.lattice
    with MemoryFile() as memory:
        with memory.open(
            driver="GTiff",
            width=lattice.cols,
            height=lattice.rows,
            count=1,
            dtype="uint8",
            nodata=NO_DATA,
            crs=CRS.from_user_input(lattice.crs),
            transform=Affine(
                lattice.cell_x, 0.0, lattice.left_x, 0.0, -lattice.cell_y, lattice.top_y
            ),
            compress="deflate",
            tiled=True,
        ) as raster:
            raster.write(sweep.tags, 1)
            raster.set_band_description(1, "in radar line of sight")
            raster.update_tags(1, MEANING=_MEANING)
        return bytes(memory.getbuffer())
