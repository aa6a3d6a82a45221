"""Line of sight against the exact reference, and against a geodesic ray to every cell.

The reference (los_exact.py beside the test data) sends a ray of its own to every cell of a plane
metric grid, over the bilinear surface in quarter-cell steps, float64. It is written apart from
this program. Grids are real 3 arc-second heights resampled to 30 m in UTM, with the antenna on
the centre of a cell; what remains between plane and ellipsoid is the scale of the projection
(0.04 %). Accuracy is intersection over union of the visible cells, land and sea apart. The
project asks for 0.90 and 0.95 on land (targets 0 and 5 m high) and 0.994 on sea; both settings
do better, and the limits here hold them to it.
"""

from pathlib import Path

import numpy as np
import pytest

from core.coverage.cell_sweep import IN_SIGHT, NO_DATA, sweep_cells
from core.coverage.coverage_result import CoastState, SweepSettings
from core.coverage.sight import sight_of_points
from core.geodesy.position import Position
from core.land.lattice import Lattice
from tests.helpers.bare_land import metric_lattice, overlap, real_tile, resampled, terrain_of
from tests.helpers.exact_sight import (
    ANTENNA_M,
    R_M,
    K,
    Reference,
    centred,
    geodesic_truth,
    load_reference,
)

NM = 1852.0
CELL_M = 30.0
RADIUS_M = 10.0 * NM
HALF = int(RADIUS_M / CELL_M) + 4


@pytest.fixture(scope="module")
def exact_los(reference_folder: Path) -> Reference:
    return load_reference(reference_folder)


def _synthetic() -> np.ndarray:
    """An invented coast: sea in the west, hills rising eastwards, bays, single-cell rocks."""
    random = np.random.default_rng(21)
    side = 2 * HALF + 1
    coarse = random.normal(0.0, 1.0, (side // 20 + 2, side // 20 + 2))
    at = np.arange(side) / 20.0
    i = at.astype(int)
    f = (at - i)[:, None]
    rows = coarse[i] * (1.0 - f) + coarse[i + 1] * f
    smooth = rows[:, i] * (1.0 - f.T) + rows[:, i + 1] * f.T
    x = (np.arange(side) - HALF) / HALF
    heights = np.maximum(-20.0 + 260.0 * x[None, :] + 60.0 * smooth, 0.0)
    heights[HALF - 40 : HALF + 41, HALF - 40 : HALF + 41] = 0.0
    for row, col in random.integers(0, side, (300, 2)):
        if heights[row, col] == 0.0 and abs(row - HALF) + abs(col - HALF) > 60:
            heights[row, col] = random.uniform(2.0, 30.0)
    return np.asarray(heights, dtype=np.float32)


def _area(name: str, real_data: Path) -> tuple[Lattice, Position, np.ndarray]:
    if name == "synthetic":
        lattice, position = metric_lattice("EPSG:32630", 56.0, -4.0, HALF, CELL_M)
        return lattice, position, _synthetic()
    crs, lat, lon = {
        "scotland_lorn_kintyre": ("EPSG:32630", 56.22, -5.72),
        "italy_naples_capri": ("EPSG:32633", 40.62, 14.33),
    }[name]
    lattice, position = metric_lattice(crs, lat, lon, HALF, CELL_M)
    return lattice, position, resampled(real_data, name, lattice)


@pytest.mark.slow
@pytest.mark.parametrize("name", ["scotland_lorn_kintyre", "italy_naples_capri", "synthetic"])
def test_visible_cells_are_those_of_the_exact_reference(
    name: str, real_data: Path, exact_los: Reference
) -> None:
    lattice, position, heights = _area(name, real_data)
    terrain = terrain_of(lattice, heights)
    assert heights[HALF, HALF] == 0.0
    for target_m in (0.0, 5.0):
        truth = exact_los(heights, CELL_M, HALF, HALF, ANTENNA_M, target_m, RADIUS_M, K * R_M)
        reach = truth.shape[0] // 2
        part = heights[HALF - reach : HALF + reach + 1, HALF - reach : HALF + reach + 1]
        for is_exact in (False, True):
            sweep = sweep_cells(
                terrain,
                position,
                antenna_height_m=ANTENNA_M,
                refraction_k=K,
                radius_m=RADIUS_M,
                target_height_m=target_m,
                height_error_m=5.0,
                is_exact=is_exact,
            )
            tags = centred(sweep.lattice, sweep.tags, lattice, reach)
            both = (tags != NO_DATA) & (truth != NO_DATA)
            # The scale of the projection moves the edge of the circle by a cell or so.
            assert np.count_nonzero(both) > 0.997 * np.count_nonzero(truth != NO_DATA)
            mine, theirs = (tags & IN_SIGHT) == 1, truth == 1
            land, sea = both & (part > 0.0), both & (part == 0.0)
            assert np.count_nonzero(theirs & land) > 1000
            if is_exact:
                assert overlap(mine & land, theirs & land) >= 0.996
                assert overlap(mine & sea, theirs & sea) >= 0.997
            else:
                assert overlap(mine & land, theirs & land) >= (0.97 if target_m == 0.0 else 0.985)
                assert overlap(mine & sea, theirs & sea) >= 0.994


@pytest.mark.slow
def test_islet_of_one_cell_is_never_lost_when_the_reference_sees_it(
    real_data: Path, exact_los: Reference
) -> None:
    # 10 m high, within 12 NM, among real islands. "With 0.2 m to spare" is asked by a target
    # 0.2 m lower, "masked" by one 0.2 m higher. Each setting, as a cell and as a coast point.
    radius_m = 12.0 * NM
    half = int(radius_m / CELL_M) + 4
    lattice, position = metric_lattice("EPSG:32630", 56.22, -5.72, half, CELL_M)
    heights = resampled(real_data, "scotland_lorn_kintyre", lattice)
    random = np.random.default_rng(77)
    sea = np.argwhere(heights == 0.0)
    sea = sea[np.hypot(*(sea - half).T) < radius_m / CELL_M - 5]
    sea = sea[np.hypot(*(sea - half).T) > 3]
    sea = sea[np.hypot(*(sea - half).T) * CELL_M / NM < 11.9]
    islets = sea[random.choice(len(sea), 600, replace=False)]
    heights[tuple(islets.T)] = 10.0
    terrain = terrain_of(lattice, heights)
    answer = [
        exact_los(heights, CELL_M, half, half, ANTENNA_M, spare_m, radius_m, K * R_M)
        for spare_m in (-0.2, 0.2)
    ]
    reach = answer[0].shape[0] // 2
    where = tuple((islets + reach - half).T)
    clearly_seen, clearly_masked = answer[0][where] == 1, answer[1][where] == 0
    assert np.count_nonzero(clearly_seen) >= 100
    assert np.count_nonzero(clearly_masked) >= 100
    lat, lon = lattice.lat_lon(islets[:, 0].astype(float), islets[:, 1].astype(float))
    for is_exact in (False, True):
        sweep = sweep_cells(
            terrain,
            position,
            antenna_height_m=ANTENNA_M,
            refraction_k=K,
            radius_m=radius_m,
            target_height_m=0.0,
            height_error_m=5.0,
            is_exact=is_exact,
        )
        tags = centred(sweep.lattice, sweep.tags, lattice, reach)[where] & IN_SIGHT
        assert np.all(tags[clearly_seen] == 1)
        assert np.all(tags[clearly_masked] == 0)
        settings = SweepSettings(
            antenna_height_m=ANTENNA_M, refraction_k=K, radius_m=radius_m, is_exact=is_exact
        )
        coast = sight_of_points(terrain, position, lat, lon, settings=settings, inland_limit_m=0.0)
        assert np.all(coast.state[clearly_seen] == CoastState.IN_SIGHT)
        assert np.all(coast.state[clearly_masked] == CoastState.HIDDEN)


@pytest.mark.slow
@pytest.mark.parametrize(
    ("area", "lat_deg", "lon_deg"),
    [("scotland_lorn_kintyre", 56.2213, -5.7217), ("chile_coquimbo", -28.4719, -71.2611)],
)
def test_native_degrees_agree_with_a_geodesic_to_every_cell(
    real_data: Path, area: str, lat_deg: float, lon_deg: float
) -> None:
    # The antenna stands off every cell centre; heights are the file's own.
    lattice, heights = real_tile(real_data, area)
    heights = np.nan_to_num(heights)
    position = Position(lat_deg=lat_deg, lon_deg=lon_deg)
    radius_m = 5.0 * NM
    terrain = terrain_of(lattice, heights)
    for target_m in (0.0, 5.0):
        sweep = sweep_cells(
            terrain,
            position,
            antenna_height_m=ANTENNA_M,
            refraction_k=K,
            radius_m=radius_m,
            target_height_m=target_m,
            height_error_m=5.0,
            is_exact=True,
        )
        row, col = np.nonzero(sweep.tags != NO_DATA)
        off = sweep.lattice
        cells = np.stack(
            [
                row + round((lattice.top_y - off.top_y) / lattice.cell_y),
                col + round((off.left_x - lattice.left_x) / lattice.cell_x),
            ],
            axis=1,
        )
        is_land = heights[cells[:, 0], cells[:, 1]] > 0.0
        kept = np.flatnonzero(is_land)[::3], np.flatnonzero(~is_land)[::9]
        assert min(k.size for k in kept) > 500
        for chosen, least in zip(kept, (0.99, 0.998), strict=True):
            truth = geodesic_truth(lattice, heights, position, cells[chosen], target_m)
            mine = (sweep.tags[row[chosen], col[chosen]] & IN_SIGHT) == 1
            assert overlap(mine, truth) >= least
