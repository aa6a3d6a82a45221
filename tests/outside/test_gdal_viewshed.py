"""The sweep beside GDAL's viewshed program on a real tile.

GDAL (Debian package gdal-bin) sends no ray to each cell but carries the horizon from cell to cell,
so shadows in it grow wider with range and the two agree well, not fully. Measured here with GDAL
3.6.2: intersection over union 0.945 to 0.986 on land, 0.911 to 0.999 on sea. Its curvature
coefficient is 1 - refraction = 6378137 / (k 6371000).
"""

import shutil
import subprocess
from pathlib import Path

import numpy as np
import pytest
import rasterio

from core.coverage.cell_sweep import IN_SIGHT, NO_DATA, sweep_cells
from tests.helpers.bare_land import corner_of, metric_lattice, overlap, resampled, terrain_of

NM = 1852.0
K = 4.0 / 3.0
CELL_M = 30.0
RADIUS_M = 8.0 * NM
HALF = int(RADIUS_M / CELL_M) + 30
ANTENNA_M = 25.0


@pytest.mark.parametrize(
    ("area", "crs", "lat_deg", "lon_deg"),
    [
        ("scotland_lorn_kintyre", "EPSG:32630", 56.22, -5.72),
        ("chile_coquimbo", "EPSG:32719", -28.47, -71.29),
    ],
)
def test_visible_cells_agree_with_gdal_on_a_real_tile(
    area: str, crs: str, lat_deg: float, lon_deg: float, real_data: Path, tmp_path: Path
) -> None:
    program = shutil.which("gdal_viewshed")
    if program is None:
        pytest.skip("gdal_viewshed is not there (Debian package gdal-bin)")
    lattice, position = metric_lattice(crs, lat_deg, lon_deg, HALF, CELL_M)
    heights = resampled(real_data, area, lattice)
    with rasterio.open(
        tmp_path / "heights.tif",
        "w",
        driver="GTiff",
        width=lattice.cols,
        height=lattice.rows,
        count=1,
        dtype="float32",
        crs=crs,
        transform=corner_of(lattice),
    ) as raster:
        raster.write(heights, 1)
    x = lattice.left_x + (HALF + 0.5) * CELL_M
    y = lattice.top_y - (HALF + 0.5) * CELL_M
    terrain = terrain_of(lattice, heights)
    for target_m in (0.0, 5.0):
        out = tmp_path / f"gdal{target_m:g}.tif"
        options = {
            "-ox": x,
            "-oy": y,
            "-oz": ANTENNA_M,
            "-tz": target_m,
            "-md": RADIUS_M,
            "-cc": 6_378_137.0 / (K * 6_371_000.0),
            "-vv": 1,
            "-iv": 0,
            "-ov": NO_DATA,
        }
        words = [str(word) for pair in options.items() for word in pair]
        subprocess.run(
            [program, *words, str(tmp_path / "heights.tif"), str(out)],
            check=True,
            capture_output=True,
        )
        with rasterio.open(out) as raster:
            gdal, corner = raster.read(1), raster.transform
        sweep = sweep_cells(
            terrain,
            position,
            antenna_height_m=ANTENNA_M,
            refraction_k=K,
            radius_m=RADIUS_M,
            target_height_m=target_m,
            height_error_m=0.0,
            is_exact=True,
        )
        theirs = _on(lattice.rows, gdal, corner.f, corner.c, lattice.top_y, lattice.left_x)
        own = sweep.lattice
        tags = _on(lattice.rows, sweep.tags, own.top_y, own.left_x, lattice.top_y, lattice.left_x)
        both = (theirs != NO_DATA) & (tags != NO_DATA)
        assert np.count_nonzero(both) > 0.99 * np.pi * (RADIUS_M / CELL_M) ** 2 * 0.5
        seen, gdal_seen = (tags & IN_SIGHT) == 1, theirs == 1
        land, sea = both & (heights > 0.0), both & (heights == 0.0)
        assert np.count_nonzero(gdal_seen & land) > 1000
        assert overlap(seen & land, gdal_seen & land) >= 0.93
        assert overlap(seen & sea, gdal_seen & sea) >= 0.90
        # GDAL's shadows are the wider ones: next to nothing it sees is hidden here.
        assert np.mean(~seen[sea & gdal_seen]) < 0.002


def _on(
    side: int, values: np.ndarray, top_y: float, left_x: float, all_top: float, all_left: float
) -> np.ndarray:
    """Values on the whole square lattice, NO_DATA where they do not reach."""
    row, col = round((all_top - top_y) / CELL_M), round((left_x - all_left) / CELL_M)
    whole = np.full((side, side), NO_DATA, np.uint8)
    whole[row : row + values.shape[0], col : col + values.shape[1]] = values
    return whole
