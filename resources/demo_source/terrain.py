"""The relief of the archipelago: where the shore runs and how high the land stands."""

from collections import deque
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from resources.demo_source import places
from resources.demo_source.erosion import erode
from resources.demo_source.frame import CELL_X_M, CELL_Y_M, Frame
from resources.demo_source.noise import Grid, layered_noise, ridged_noise

SEED = 20310514
VOID_HEIGHT = -32768

_NM_M = 1852.0
_CUT_NM = 0.5
"""How far the sea has cut back into the land along cliffs."""
_RISE_M = 30.0
"""How far the sea has risen since the rivers cut the land."""
_DROWNED_SLOPE = 0.3
"""Slope taken near the shore to turn a height into a distance, bare."""
_STEPS = 70
_SMALLEST_CELLS = 12
"""Stray scraps of land smaller than this are taken away; rocks are set on purpose."""


@dataclass(frozen=True)
class Terrain:
    """The finished relief on the cells of a frame.

    ``shore_m`` is about the distance to the shore, positive on land; ``heights_m`` whole metres,
    0 at sea, ``VOID_HEIGHT`` in the void.
    """

    shore_m: Grid
    heights_m: NDArray[np.int16]


def inside(frame_east: Grid, frame_north: Grid, chain: places.Chain) -> Grid:
    """How far places lie inside a chain of discs and the bands between them, NM."""
    deepest = np.full(frame_east.shape, -1e9)
    for (x0, y0, w0), (x1, y1, w1) in pairwise(chain):
        dx, dy = x1 - x0, y1 - y0
        length = dx * dx + dy * dy
        along = ((frame_east - x0) * dx + (frame_north - y0) * dy) / length
        along = np.minimum(np.maximum(along, 0.0), 1.0)
        off_x = frame_east - x0 - along * dx
        off_y = frame_north - y0 - along * dy
        distance = np.sqrt(off_x * off_x + off_y * off_y)
        deepest = np.maximum(deepest, w0 + along * (w1 - w0) - distance)
    return deepest


def weight(frame: Frame, patches: tuple[places.Patch, ...]) -> Grid:
    """1 within patches, falling smoothly to 0 at their edges."""
    most = np.zeros(frame.shape)
    for patch in patches:
        widest = max(width for _x, _y, width in patch.chain)
        share = inside(frame.east_nm, frame.north_nm, patch.chain) / (0.6 * widest)
        share = np.minimum(np.maximum(share, 0.0), 1.0)
        most = np.maximum(most, share * share * (3.0 - 2.0 * share))
    return most


def make_terrain(frame: Frame) -> Terrain:
    """Build the relief; the same bits on every run and machine."""
    plain = weight(frame, places.PLAINS)
    smooth = weight(frame, places.SMOOTH_COASTS)
    cliff = weight(frame, places.CLIFFS)
    wander = layered_noise(frame.east_nm / 2.3, frame.north_nm / 2.3, SEED, octaves=6, gain=0.58)
    x, y = _bent(frame, 1.0 - smooth)

    islands = np.stack(
        [
            inside(x, y, island.chain) + island.roughness_nm * wander * (1.0 - smooth)
            for island in places.ISLANDS
        ]
    )
    owner = np.argmax(islands, axis=0)
    shore = islands.max(axis=0)
    for number, chain in enumerate(places.BAYS):
        water = inside(x, y, chain) + 0.16 * layered_noise(
            x * 1.3, y * 1.3, SEED + 31 + number, octaves=4
        )
        shore = np.minimum(shore, -water)
    relief = _with_detail(frame, _relief(frame, shore + _CUT_NM * cliff, owner, plain), plain)
    # The sea has risen: valley mouths are drowned, but where rivers have built plains.
    relief = relief - _RISE_M * (1.0 - 0.7 * cliff)
    is_filled = (plain > 0.0) | (smooth > 0.0)
    shore = np.where(is_filled, shore, np.minimum(shore, relief / _DROWNED_SLOPE / _NM_M))

    shore, relief = _with_small_land(frame, shore, relief)
    shore = _without_scraps(_without_lakes(shore))
    shore, relief = _with_rocks(frame, shore, relief)
    shore_m = shore * _NM_M
    # Low shores rise gently from the water even where the rivers left nothing.
    relief = np.maximum(relief, 0.6 + np.minimum(0.02 * np.maximum(shore_m, 0.0), 4.0))
    heights = np.where(shore_m > 0.0, np.maximum(np.rint(relief), 1.0), 0.0)
    x, y = frame.east_nm, frame.north_nm
    ragged = 0.12 * layered_noise(x * 3.0, y * 3.0, SEED + 7, octaves=2)
    void = inside(x, y, places.VOID) + ragged > 0.0
    heights = np.where(void & (shore_m > 0.0), float(VOID_HEIGHT), heights)
    return Terrain(shore_m=shore_m, heights_m=heights.astype(np.int16))


def _relief(frame: Frame, shore: Grid, owner: NDArray[np.int64], plain: Grid) -> Grid:
    """Heights after erosion, each island scaled to its own top."""
    x, y = _halved(frame.east_nm), _halved(frame.north_nm)
    coarse_shore, coarse_plain = _halved(shore), _halved(plain)
    is_land = coarse_shore > 0.0
    is_land[[0, -1], :] = False
    is_land[:, [0, -1]] = False
    ridges = ridged_noise(x / 3.1, y / 3.1, SEED + 3, octaves=3)
    swell = layered_noise(x / 1.3, y / 1.3, SEED + 4, octaves=3)
    uplift = (0.25 + 1.1 * ridges * ridges + 0.35 * swell) * (1.0 - 0.975 * coarse_plain)
    # Land lifts least at its edge, so that high ground lies inland.
    edge = np.minimum(np.maximum(coarse_shore / 0.7, 0.12), 1.0)
    start = 2.0 * coarse_shore + layered_noise(x / 0.5, y / 0.5, SEED + 5, octaves=4)
    raw = erode(
        start,
        is_land,
        np.maximum(uplift, 0.02) * edge,
        cell_x_m=2.0 * CELL_X_M,
        cell_y_m=2.0 * CELL_Y_M,
        steps=_STEPS,
    )
    for _turn in range(2):
        raw = np.where(is_land, _crept(raw), 0.0)
    fine = np.maximum(_doubled(raw), 0.0)
    scaled = np.zeros_like(fine)
    for number, island in enumerate(places.ISLANDS):
        mine = owner == number
        scaled = np.where(mine, fine * (island.top_m / fine[mine].max()), scaled)
    return scaled


def _bent(frame: Frame, amount: Grid) -> tuple[Grid, Grid]:
    """Places moved by noise, so that chains lose their straight edges."""
    x, y = frame.east_nm, frame.north_nm
    bend = 0.55 * amount
    return (
        x + bend * layered_noise(x / 2.9, y / 2.9, SEED + 15, octaves=3),
        y + bend * layered_noise(x / 2.9, y / 2.9, SEED + 16, octaves=3),
    )


def _crept(heights: Grid) -> Grid:
    """Soil creep: every height drawn a little towards the mean of its neighbours."""
    around = np.zeros_like(heights)
    around[1:-1, 1:-1] = (
        heights[:-2, 1:-1] + heights[2:, 1:-1] + heights[1:-1, :-2] + heights[1:-1, 2:]
    ) / 4.0
    return heights + 0.45 * (around - heights)


def _halved(grid: Grid) -> Grid:
    return (grid[::2, ::2] + grid[1::2, ::2] + grid[::2, 1::2] + grid[1::2, 1::2]) / 4.0


def _doubled(grid: Grid) -> Grid:
    """Cells of half the size by the cubic of Catmull and Rom at a quarter of the way."""
    for axis in (0, 1):
        turned = np.swapaxes(grid, 0, axis)
        padded = np.concatenate([turned[:1], turned[:1], turned, turned[-1:], turned[-1:]])
        size = turned.shape[0]
        before2, before, here = padded[0:size], padded[1 : size + 1], padded[2 : size + 2]
        after, after2 = padded[3 : size + 3], padded[4 : size + 4]
        out = np.empty((2 * size, *turned.shape[1:]))
        out[0::2] = -0.0234375 * before2 + 0.2265625 * before + 0.8671875 * here - 0.0703125 * after
        out[1::2] = -0.0703125 * before + 0.8671875 * here + 0.2265625 * after - 0.0234375 * after2
        grid = np.swapaxes(out, 0, axis)
    return grid


def _with_detail(frame: Frame, relief: Grid, plain: Grid) -> Grid:
    """Gullies and crags, more of them on high ground."""
    x, y = frame.east_nm, frame.north_nm
    crags = layered_noise(x / 0.22, y / 0.22, SEED + 9, octaves=3)
    amount = np.minimum(0.09 * relief, 26.0) * (1.0 - plain)
    return np.maximum(relief + crags * amount, 0.0)


def _with_small_land(frame: Frame, shore: Grid, relief: Grid) -> tuple[Grid, Grid]:
    """Add headland, spit and islets to the shore and the heights."""
    x, y = frame.east_nm, frame.north_nm
    rough = layered_noise(x / 0.3, y / 0.3, SEED + 12, octaves=4)
    for chain in places.HOOKS:
        hook = inside(x, y, chain) + 0.13 * rough
        spine = np.maximum(hook, 0.0) / 0.3
        height = places.HOOK_TOP_M * np.minimum(spine, 1.0) * (0.8 + 0.5 * rough)
        relief = np.maximum(relief, np.where(hook > 0.0, height, 0.0))
        shore = np.maximum(shore, hook)
    spit = inside(x, y, places.SPIT) + 0.02 * rough
    shore = np.maximum(shore, spit)
    is_bar = (spit > 0.0) & (relief < 1.0)
    relief = np.where(is_bar, np.minimum(1.0 + 25.0 * np.maximum(spit, 0.0), 3.0), relief)
    craggy = layered_noise(x / 0.11, y / 0.11, SEED + 21, octaves=2)
    for islet in places.ISLETS:
        if islet.half_width_nm == 0.0:
            continue
        off_x, off_y = x - islet.east_nm, y - islet.north_nm
        along = (off_x * islet.lie[0] + off_y * islet.lie[1]) / islet.stretch
        across = off_y * islet.lie[0] - off_x * islet.lie[1]
        share = np.sqrt(along * along + across * across) / islet.half_width_nm
        mine = islet.half_width_nm * (1.0 - share + 0.45 * rough + 0.5 * craggy)
        dome = 1.0 - np.minimum(share * share, 1.0)
        height = islet.top_m * np.minimum(dome * (1.0 + 0.35 * rough + 0.4 * craggy), 1.0)
        relief = np.where(mine > 0.0, np.maximum(height, 0.2 * islet.top_m), relief)
        shore = np.maximum(shore, mine)
    return shore, relief


def _with_rocks(frame: Frame, shore: Grid, relief: Grid) -> tuple[Grid, Grid]:
    """Set the rocks of a single cell, with water on every side."""
    shore, relief = shore.copy(), relief.copy()
    for islet in places.ISLETS:
        if islet.half_width_nm:
            continue
        off = np.abs(frame.east_nm - islet.east_nm) + np.abs(frame.north_nm - islet.north_nm)
        row, col = (int(i) for i in np.unravel_index(int(np.argmin(off)), off.shape))
        box = (slice(row - 1, row + 2), slice(col - 1, col + 2))
        shore[box] = np.maximum(shore[box], -20.0 / _NM_M)
        shore[row, col] = 18.0 / _NM_M
        relief[row, col] = islet.top_m
    return shore, relief


def _flooded(is_open: NDArray[np.bool_], seeds: list[tuple[int, int]]) -> NDArray[np.bool_]:
    """Cells that can be reached from the seeds through open cells, by their four sides."""
    rows, cols = is_open.shape
    reached = np.zeros_like(is_open)
    queue = deque(seed for seed in seeds if is_open[seed])
    for seed in queue:
        reached[seed] = True
    while queue:
        row, col = queue.popleft()
        for r, c in ((row - 1, col), (row + 1, col), (row, col - 1), (row, col + 1)):
            if 0 <= r < rows and 0 <= c < cols and is_open[r, c] and not reached[r, c]:
                reached[r, c] = True
                queue.append((r, c))
    return reached


def _without_lakes(shore: Grid) -> Grid:
    """Water that does not reach the edge of the grid becomes low land."""
    sea = _flooded(shore <= 0.0, [(0, 0)])
    return np.where((shore <= 0.0) & ~sea, 8.0 / _NM_M, shore)


def _without_scraps(shore: Grid) -> Grid:
    """Land of a few cells that noise left in the sea is taken away."""
    is_land = shore > 0.0
    seen = np.zeros_like(is_land)
    shore = shore.copy()
    for row, col in zip(*np.nonzero(is_land), strict=True):
        if seen[row, col]:
            continue
        part = _flooded(is_land, [(int(row), int(col))]) if not seen[row, col] else seen
        seen |= part
        if int(part.sum()) < _SMALLEST_CELLS:
            shore[part] = -5.0 / _NM_M
    return shore
