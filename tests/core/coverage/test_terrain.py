"""The map of blocks never promises more than the cells hold."""

import numpy as np
import pytest

from core.coverage.terrain import BLOCK, UNKNOWN_BITS, prepare_terrain
from core.land.land_model import Cell
from core.land.lattice import Lattice
from tests.helpers.bare_land import terrain_of
from tests.helpers.islands import flat_sea


def _lattice(rows: int, cols: int) -> Lattice:
    return Lattice(
        crs="EPSG:4326",
        left_x=10.0,
        top_y=50.0,
        cell_x=1 / 1200,
        cell_y=1 / 1200,
        rows=rows,
        cols=cols,
    )


@pytest.mark.parametrize(("rows", "cols"), [(1, 1), (7, 8), (15, 16), (50, 37)])
def test_frame_of_unknown_cells_lies_all_round(rows: int, cols: int) -> None:
    heights = np.full((rows, cols), 3.0, dtype=np.float32)
    terrain = terrain_of(_lattice(rows, cols), heights)
    inside = np.zeros(terrain.heights_m.shape, dtype=bool)
    inside[1 : rows + 1, 1 : cols + 1] = True
    assert np.all(terrain.heights_m[inside] == 3.0)
    assert np.all(np.isnan(terrain.heights_m[~inside]))
    assert np.all(terrain.cell[~inside] == Cell.BEYOND)
    assert not inside[-2:].any()
    assert not inside[:, -2:].any()


def test_cells_keep_their_corners() -> None:
    lattice = _lattice(20, 30)
    terrain = terrain_of(lattice, np.zeros((20, 30), dtype=np.float32))
    lat, lon = lattice.lat_lon(np.array([4.0]), np.array([7.0]))
    row, col = terrain.lattice.row_col(lat, lon)
    assert row[0] == pytest.approx(5.0, abs=1e-6)
    assert col[0] == pytest.approx(8.0, abs=1e-6)


def test_blocks_bound_every_height_between_their_cells() -> None:
    random = np.random.default_rng(3)
    heights = np.where(random.random((90, 75)) < 0.05, random.random((90, 75)) * 400.0, 0.0)
    heights[40:43, 30:50] = np.nan
    terrain = terrain_of(_lattice(90, 75), heights.astype(np.float32))
    for bi, bj in np.ndindex(terrain.block_codes.shape):
        part = (
            slice(bi * BLOCK, (bi + 1) * BLOCK + 1),
            slice(bj * BLOCK, (bj + 1) * BLOCK + 1),
        )
        values = terrain.heights_m[part]
        known = values[~np.isnan(values)]
        assert terrain.block_highest_m[bi, bj] == (known.max() if known.size else 0.0)
        codes = set(np.unique(terrain.cell[part]).tolist())
        assert terrain.block_codes[bi, bj] == sum(1 << code for code in codes)
        assert bool(terrain.block_codes[bi, bj] & UNKNOWN_BITS) == bool(np.isnan(values).any())


def test_free_distance_is_the_chessboard_distance_to_land_or_unknown() -> None:
    random = np.random.default_rng(4)
    heights = np.zeros((200, 260), dtype=np.float32)
    for i, j in random.integers(0, 200, (5, 2)):
        heights[i, j] = 20.0
    terrain = terrain_of(_lattice(200, 260), heights)
    other = np.argwhere(terrain.block_codes != 1 << Cell.SEA)
    for bi, bj in np.ndindex(terrain.block_free.shape):
        nearest = np.abs(other - [bi, bj]).max(axis=1).min()
        assert terrain.block_free[bi, bj] == nearest


def test_a_land_model_is_made_ready_once() -> None:
    land = flat_sea(half_width_m=3_000.0, cell_m=60.0).model()
    assert prepare_terrain(land) is prepare_terrain(land)
