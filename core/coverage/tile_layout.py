"""How the tiles of horizons round a place are laid out: levels, rays, steps, and their room."""

import math
from typing import NamedTuple

import numpy as np

from core.base.arrays import Float32Array, FloatArray, IntArray
from core.coverage.local_map import LocalMap
from core.coverage.terrain import around_m

TILE_BITS = 4
TILE = 1 << TILE_BITS
"""Rays and samples along the sides of a tile."""
_NEAR_CELLS, _CLOSE_CELLS = 760.0, 190.0
"""Levels that reach no farther than this may be sampled more often: the edge of what is near hides
much far off."""
_WIDEST_M = 65.0
"""Two cells together: less than half of a pulse of a microsecond, which is 150 m long in range, and
of a beam of one degree, which is 390 m wide at 12 NM."""
_NEAREST_CELLS = 64.0
"""The innermost level reaches as far as this at most."""


class Tiles(NamedTuple):
    """Horizons all round a place, as kernels take them.

    ring_m : float
        Range over which the level is the same, m.
    level_of : (n,) int64
        Level of each such range.
    step_of : (levels,) array
        Samples of a level lie at k ``step_of`` m; each is ``ring_m`` / 16 or a half, a quarter of
        it, so that rings of 16 samples end with it.
    samples, rays, first_ring, rings, first_tile, first_ray : (levels,) int64
        Of each level the last sample within the radius, the rays, the first ring of 16 samples
        counted from the place, how many rings it has, and where its tiles and rays begin in the
        arrays; tiles are numbered group by group of 16 rays, ring after ring.
    slot : (tiles,) int64
        Where in ``horizon`` a tile has its table, or minus one less than that of the table whose
        last column stands for all of it.
    low, high : (tiles,) float32
        Least land horizon at the start of the tile, greatest at its end.
    highest : (tiles,) float32
        Nothing known under the tile is higher, m; infinite where something is unknown.
    unknown_m : (rays of all levels,) float64
        First range at which a ray meets an unknown cell, infinite without.
    unknown_low_m : (groups of all levels,) float64
        The least of these in each group.
    ring_of : (slots,) int64
        The ring of the tile that a table belongs to; one less than the first of its level if it
        only holds the horizons with which its rays begin.
    horizon : (slots, 16, 16) float32
        Land horizon after each sample, minus infinity before any land: the 16 rays of the first
        sample, of the second, and so on, since rays beside one another are asked about together.
    """

    ring_m: float
    level_of: IntArray
    step_of: FloatArray
    samples: IntArray
    rays: IntArray
    first_ring: IntArray
    rings: IntArray
    first_tile: IntArray
    first_ray: IntArray
    slot: IntArray
    low: Float32Array
    high: Float32Array
    highest: Float32Array
    unknown_m: FloatArray
    unknown_low_m: FloatArray
    ring_of: IntArray
    horizon: Float32Array


def fine_within_m(here: LocalMap) -> float:
    """Range within which the rays lie a cell apart at most, m.

    Farther off they lie up to two cells apart, where that is less than half a beam and half a
    pulse.
    """
    is_small = 2.0 * here.least_cell_m <= _WIDEST_M
    return around_m(here.radius_m) if is_small else here.radius_m


def empty_tiles(
    here: LocalMap, *, steps_cells: tuple[float, float, float], least_rays: int
) -> Tiles:
    """Lay out the tiles round a place.

    Rays are one cell apart at most out to ``fine_within_m``, but no fewer than ``least_rays``.

    Parameters
    ----------
    here : LocalMap
        The map round the place.
    steps_cells : tuple of float
        How many cells apart samples lie along a ray: far off, near the place, close to it; each
        the same as the one before or half of it.
    least_rays : int
        Rays near the place.

    Returns
    -------
    Tiles
        With room for most lands, to be filled by ``trace_tiles``.
    """
    cell_m = here.least_cell_m
    radius_cells = here.radius_m / cell_m
    around_cells = fine_within_m(here) / cell_m
    wanted = 2.0 * math.pi * around_cells
    levels = max(math.ceil(math.log2(radius_cells / _NEAREST_CELLS)), 0) + 1
    outward = np.arange(levels) - (levels - 1)
    reaches = radius_cells * 2.0**outward
    most = min(max(math.floor(math.log2(wanted / least_rays)), 0), levels - 1)
    apart = np.log2(around_cells / np.minimum(reaches, around_cells))
    halvings = np.minimum(np.floor(apart + 1e-9).astype(np.int64), most)
    fewest = TILE * math.ceil(max(wanted / 2.0**most, least_rays) / TILE)
    rays = fewest * 2 ** (most - halvings)
    finer = (reaches <= _NEAR_CELLS).astype(np.int64) + (reaches <= _CLOSE_CELLS)
    step_of = cell_m * np.array(steps_cells)[finer]
    ring_m = TILE * float(step_of[-1])
    ratio = np.rint(step_of[-1] / step_of).astype(np.int64)
    last = int(here.radius_m / ring_m + 1e-6) + 1
    ends = np.minimum((reaches * cell_m / ring_m).astype(np.int64), last)
    ends[-1] = last
    starts = np.concatenate([np.zeros(1, np.int64), ends[:-1]])
    rings = (ends - starts) * ratio
    groups = rays // TILE
    first_tile = np.concatenate([np.zeros(1, np.int64), np.cumsum(rings * groups)])
    first_ray = np.concatenate([np.zeros(1, np.int64), np.cumsum(rays)])
    tiles, all_rays = int(first_tile[-1]), int(first_ray[-1])
    return Tiles(
        ring_m=ring_m,
        level_of=np.repeat(np.arange(rays.size), ends - starts),
        step_of=step_of,
        samples=(here.radius_m / step_of + 1e-6).astype(np.int64),
        rays=rays,
        first_ring=starts * ratio,
        rings=rings,
        first_tile=first_tile[:-1],
        first_ray=first_ray[:-1],
        slot=np.empty(tiles, np.int64),
        low=np.empty(tiles, np.float32),
        high=np.empty(tiles, np.float32),
        highest=np.empty(tiles, np.float32),
        unknown_m=np.empty(all_rays),
        unknown_low_m=np.empty(all_rays // TILE),
        # Few tiles need a table; more room is made when they do.
        ring_of=np.empty(tiles // 8 + 1024, np.int64),
        horizon=np.empty((tiles // 8 + 1024, TILE, TILE), np.float32),
    )
