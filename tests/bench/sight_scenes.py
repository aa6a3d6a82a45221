"""Places for the benchmark of sweeps: four real areas and two invented ones, on 30 m cells."""

from dataclasses import dataclass
from pathlib import Path

import numpy as np
from scipy.ndimage import distance_transform_edt

from core.base.arrays import Float32Array
from core.geodesy.position import Position
from core.land.lattice import Lattice
from tests.helpers.bare_land import metric_lattice, real_tile, resampled

NM = 1852.0
CELL_M = 30.0
REAL = {
    "scotland_lorn_kintyre": "EPSG:32630",
    "italy_naples_capri": "EPSG:32633",
    "chile_coquimbo": "EPSG:32719",
    "bc_howe_sound": "EPSG:32610",
}
INVENTED = ("hills and rocks", "skerries")


@dataclass(frozen=True, kw_only=True)
class Scene:
    """Heights on a square metric lattice whose middle cell holds the antenna."""

    name: str
    lattice: Lattice
    position: Position
    heights_m: Float32Array

    @property
    def half(self) -> int:
        return self.lattice.rows // 2


def observers(folder: Path, area: str, count: int, *, seed: int = 5) -> list[tuple[float, float]]:
    """Places at sea within 0.3 to 2 NM of land, spread by chance over the middle of an area."""
    lattice, heights = real_tile(folder, area)
    land = np.nan_to_num(heights) > 0.0
    off_nm = distance_transform_edt(~land) * 92.0 / NM
    rows, cols = np.indices(land.shape)
    middle = (np.abs(rows / lattice.rows - 0.5) < 0.38) & (np.abs(cols / lattice.cols - 0.5) < 0.38)
    chosen = np.argwhere((off_nm > 0.3) & (off_nm < 2.0) & middle)
    random = np.random.default_rng(seed)
    places = chosen[random.choice(len(chosen), count, replace=False)].astype(float)
    lat, lon = lattice.lat_lon(places[:, 0], places[:, 1])
    return [(float(a), float(b)) for a, b in zip(lat, lon, strict=True)]


def real_scene(folder: Path, area: str, lat_deg: float, lon_deg: float, radius_m: float) -> Scene:
    """An area's heights round a place, resampled; the antenna's own cells are made sea."""
    half = int(radius_m / CELL_M) + 8
    lattice, position = metric_lattice(REAL[area], lat_deg, lon_deg, half, CELL_M)
    heights = resampled(folder, area, lattice)
    heights[half - 1 : half + 2, half - 1 : half + 2] = 0.0
    return Scene(name=area, lattice=lattice, position=position, heights_m=heights)


def invented_scene(name: str, number: int, radius_m: float) -> Scene:
    """Hills over bays with rocks of one cell, or a sea full of skerries; another each number."""
    half = int(radius_m / CELL_M) + 8
    side = 2 * half + 1
    random = np.random.default_rng(100 * INVENTED.index(name) + number)
    lattice, position = metric_lattice("EPSG:32630", 56.0, -4.0, half, CELL_M)
    coarse = random.normal(0.0, 1.0, (side // 20 + 2, side // 20 + 2))
    at = np.arange(side) / 20.0
    i = at.astype(int)
    f = (at - i)[:, None]
    rows = coarse[i] * (1.0 - f) + coarse[i + 1] * f
    smooth = rows[:, i] * (1.0 - f.T) + rows[:, i + 1] * f.T
    x = (np.arange(side) - half) / half
    if name == "hills and rocks":
        heights = np.maximum(-20.0 + 260.0 * x[None, :] + 60.0 * smooth, 0.0)
    else:
        heights = np.maximum(12.0 * smooth - 18.0 + random.normal(0.0, 1.5, smooth.shape), 0.0)
    heights[half - 40 : half + 41, half - 40 : half + 41] = 0.0
    for row, col in random.integers(0, side, (300, 2)):
        if heights[row, col] == 0.0 and abs(row - half) + abs(col - half) > 60:
            heights[row, col] = random.uniform(2.0, 30.0)
    return Scene(
        name=name, lattice=lattice, position=position, heights_m=heights.astype(np.float32)
    )
