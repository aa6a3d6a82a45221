"""Tiles of horizons against a plain walk along each ray, sample by sample."""

import math

import numpy as np
import pytest

from core.base.arrays import BoolArray, FloatArray
from core.coverage.horizon_tiles import trace_tiles
from core.coverage.local_map import LocalMap, local_map
from core.coverage.terrain import Terrain
from core.coverage.tile_layout import TILE, Tiles
from tests.helpers.bare_land import metric_lattice, terrain_of

_RADIUS_M = 9000.0
_ANTENNA_M = 25.0
_BEND = 1.0 / (2.0 * 4.0 / 3.0 * 6_371_000.0)


def _terrain(*, has_voids: bool) -> tuple[Terrain, LocalMap]:
    """Sea with rough islands, 30 m cells, and voids of one cell and of many."""
    random = np.random.default_rng(11)
    lattice, place = metric_lattice("EPSG:32630", 56.0, -5.0, 320, 30.0)
    rows, cols = np.indices((641, 641))
    heights = np.zeros((641, 641), np.float32)
    for _ in range(40):
        row, col = random.integers(20, 620, 2)
        far = np.hypot(rows - row, cols - col)
        top, reach = random.uniform(5.0, 220.0), random.uniform(2.0, 40.0)
        heights = np.maximum(heights, top * np.maximum(1.0 - far / reach, 0.0)).astype(np.float32)
    heights += np.where(heights > 0.0, random.uniform(0.0, 8.0, heights.shape), 0.0)
    heights[np.hypot(rows - 320, cols - 320) < 6] = 0.0
    if has_voids:
        for _ in range(60):
            row, col = random.integers(20, 620, 2)
            side = int(random.integers(1, 12))
            heights[row : row + side, col : col + side] = np.nan
    terrain = terrain_of(lattice, heights.astype(np.float32))
    return terrain, local_map(terrain.lattice, place, _RADIUS_M)


def _tiles(terrain: Terrain, here: LocalMap) -> Tiles:
    return trace_tiles(
        terrain.ground,
        here,
        antenna_m=_ANTENNA_M,
        bend_per_m=_BEND,
        steps_cells=(1.0, 0.5, 0.5),
        least_rays=256,
    )


def _table(tiles: Tiles, level: int, ray: int) -> FloatArray:
    """Horizon after each sample of a ray of a level, as kernels read it."""
    rings = int(tiles.rings[level])
    found = []
    for ring in range(rings):
        slot = int(tiles.slot[tiles.first_tile[level] + ray // TILE * rings + ring])
        table = tiles.horizon[max(slot, -slot - 1), :, ray % TILE]
        found.append(np.full(TILE, table[TILE - 1]) if slot < 0 else table)
    return np.concatenate(found).astype(np.float64)


def _slopes(
    terrain: Terrain, here: LocalMap, range_m: FloatArray, turn: float
) -> tuple[FloatArray, BoolArray]:
    """Slopes of the land at ranges, minus infinity at sea, and where heights are unknown."""
    row, col = here.row_col(range_m, np.full(range_m.size, 360.0 * turn))
    i, j = row.astype(int), col.astype(int)
    fy, fx = row - i, col - j
    heights = terrain.heights_m.astype(np.float64)
    around = [heights[i, j], heights[i, j + 1], heights[i + 1, j], heights[i + 1, j + 1]]
    weights = [(1 - fy) * (1 - fx), (1 - fy) * fx, fy * (1 - fx), fy * fx]
    z = np.sum([w * np.nan_to_num(h) for w, h in zip(weights, around, strict=True)], axis=0)
    is_void = np.any([np.isnan(h) & (w > 1e-3) for w, h in zip(weights, around, strict=True)], 0)
    slope = (z - _ANTENNA_M) / range_m - range_m * _BEND
    slope[z <= 1e-9] = -math.inf
    return slope, is_void


@pytest.mark.parametrize("has_voids", [False, True])
def test_horizons_are_those_of_a_plain_walk_along_the_ray(has_voids: bool) -> None:
    terrain, here = _terrain(has_voids=has_voids)
    tiles = _tiles(terrain, here)
    levels = tiles.rays.size
    rises = met = 0
    # Rays of the innermost level run on through all others as they are.
    for ray in range(int(tiles.rays[0])):
        best, unknown_m = -math.inf, math.inf
        for level in range(levels):
            on = ray * int(tiles.rays[level] // tiles.rays[0])
            first = int(tiles.first_ring[level]) * TILE
            count = min(int(tiles.rings[level]) * TILE, int(tiles.samples[level]) + 1 - first)
            number = np.arange(first, first + count)[0 if first else 1 :]
            slope, is_void = _slopes(
                terrain, here, number * tiles.step_of[level], ray / float(tiles.rays[0])
            )
            walked = np.maximum.accumulate(np.r_[best, slope])[1:]
            found = _table(tiles, level, on)[number - first]
            # Samples stand on a straight line within a tile: millimetres of height.
            assert found == pytest.approx(walked, abs=1e-5)
            best = float(walked[-1])
            rises += int(np.unique(walked[np.isfinite(walked)]).size)
            if is_void.any() and unknown_m == math.inf:
                unknown_m = float(number[is_void][0] * tiles.step_of[level])
            own_m = float(tiles.unknown_m[tiles.first_ray[level] + on])
            # Told where it is met, unless land before it hides all that could stand there.
            assert own_m >= unknown_m - 1.0
            met += math.isfinite(own_m)
    assert levels > 2
    assert rises > 1000
    assert (met > 100) == has_voids


def test_bounds_of_tiles_hold_for_every_ray_of_them() -> None:
    terrain, here = _terrain(has_voids=False)
    tiles = _tiles(terrain, here)
    for level in range(tiles.rays.size):
        rings = int(tiles.rings[level])
        for tile in range(int(tiles.rays[level]) // TILE * rings):
            at = int(tiles.first_tile[level]) + tile
            slot = int(tiles.slot[at])
            if slot >= 0:
                assert tiles.horizon[slot].max() <= tiles.high[at] + 1e-6
                assert tiles.horizon[slot].min() >= tiles.low[at] - 1e-6
