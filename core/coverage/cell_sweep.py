"""The sweep raster: every cell round a place tested at its own centre.

The horizon is smooth from ray to ray, the heights of cells are not. So the land horizon is traced
on rays all round (``horizon_tiles``), and each cell is tested at its own range and height against
the horizon half a cell short of it, interpolated between the two rays beside it. Where that test
is close, or the two rays disagree, the cell gets a ray of its own. Blocks of cells that are all
hidden, or all water in sight, are tagged whole (``cell_blocks``), by bounds that hold for each
cell. In the planning setting only sea and the shore get rays of their own; in the exact setting
so, within 12 NM, does all land, and by the sea the heights that decide the uncertain bit; rays are
sampled more often close to the place. Beyond 12 NM rays may lie two small cells apart.
"""

from dataclasses import dataclass

import numpy as np

from core.base.arrays import ByteArray, HoldsArrays
from core.base.constants import EARTH_RADIUS_M
from core.base.language import tr
from core.base.progress import Progress, Quiet
from core.coverage.cell_blocks import (
    IN_SIGHT,
    NO_DATA,
    UNCERTAIN,
    coarse_side,
    sort_blocks,
)
from core.coverage.cell_room import cell_room
from core.coverage.cell_test import test_cells
from core.coverage.circle_window import cell_sizes, circle_window
from core.coverage.horizon_tiles import trace_tiles
from core.coverage.local_map import local_map
from core.coverage.terrain import BLOCK, Terrain
from core.coverage.tile_layout import fine_within_m
from core.geodesy.position import Position
from core.land.lattice import Lattice

__all__ = ["IN_SIGHT", "NO_DATA", "UNCERTAIN", "CellSweep", "sweep_cells"]

_PLANNING_STEPS_CELLS = (1.0, 0.5, 0.5)
_EXACT_STEPS_CELLS = (1.0, 0.5, 0.25)
"""Between samples along the rays: far off, near, and close."""
_PLANNING_RAYS = 2048
_EXACT_RAYS = 4096
"""Rays near the place; farther off they stand a cell apart at most, beyond 12 NM two small ones."""
_BLOCKS_A_REPORT = 32
"""Rows of blocks, a multiple of what ``coarse_side`` tells."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CellSweep(HoldsArrays):
    """A sweep raster.

    ``tags`` (rows, cols) uint8 of ``lattice``: bit 0 in sight, bit 1 uncertain, 255 outside the
    radius or unknown.
    """

    lattice: Lattice
    tags: ByteArray


def sweep_cells(
    terrain: Terrain,
    position: Position,
    *,
    antenna_height_m: float,
    refraction_k: float,
    radius_m: float,
    target_height_m: float,
    height_error_m: float,
    is_exact: bool,
    progress: Progress | None = None,
) -> CellSweep:
    """Test every cell whose centre lies within a radius.

    Parameters
    ----------
    terrain : Terrain
        Land made ready.
    position : Position
        The antenna, not snapped to a cell; the cell it stands on is in sight.
    antenna_height_m : float
        Above the water now, m, > 0.
    refraction_k : float
        Effective Earth radius factor, bare.
    radius_m : float
        Geodesic radius, m.
    target_height_m : float
        Height of the target above the surface of the cell, m.
    height_error_m : float
        Error of the heights, m: a cell is uncertain when targets this much higher and lower
        get different answers.
    is_exact : bool
        The exact setting instead of the planning setting.
    progress : Progress, optional
        Told of the work; may stop it.

    Returns
    -------
    CellSweep
        On the bounding box of the cells, continued past the data. Cells of unknown height, and
        cells behind one that known land does not hide, are 255.
    """
    here = local_map(terrain.lattice, position, radius_m)
    bend = 1.0 / (2.0 * refraction_k * EARTH_RADIUS_M)
    tiles = trace_tiles(
        terrain.ground,
        here,
        antenna_m=antenna_height_m,
        bend_per_m=bend,
        steps_cells=_EXACT_STEPS_CELLS if is_exact else _PLANNING_STEPS_CELLS,
        least_rays=_EXACT_RAYS if is_exact else _PLANNING_RAYS,
    )
    top, left, rows, cols = circle_window(here)
    high_m, wide_m = cell_sizes(here.grid)
    tags = np.full((rows, cols), NO_DATA, dtype=np.uint8)
    teller = progress or Quiet()
    coarse = coarse_side(max(high_m, wide_m))
    first = max(top // BLOCK // coarse * coarse, 0)
    stop = min((top + rows - 1) // BLOCK + 1, terrain.block_codes.shape[0])
    room = _BLOCKS_A_REPORT * (cols // BLOCK + 2 * coarse)
    blocks, lie = np.empty((room, 2), dtype=np.int64), np.empty((room, 6))
    room_of_square = cell_room(here.grid.row_of.shape[0])
    in_one_row = (tiles.horizon.ravel(), terrain.heights_m.ravel())
    knows_all = bool(np.isinf(tiles.unknown_m).all())
    place = (top, left)
    fine_to_m = fine_within_m(here)
    heights = (antenna_height_m, bend, target_height_m, height_error_m)
    teller.report(0.5, tr("sweeping"))
    for start in range(first, stop, _BLOCKS_A_REPORT):
        teller.report(0.5 + 0.5 * (start - first) / (stop - first), tr("sweeping"))
        end = min(start + _BLOCKS_A_REPORT, stop)
        count = sort_blocks(
            terrain.ground,
            here.grid,
            tiles,
            high_m,
            wide_m,
            coarse,
            radius_m,
            *heights,
            *place,
            start,
            end,
            tags,
            blocks,
            lie,
        )
        test_cells(
            terrain.ground,
            here.grid,
            tiles,
            *in_one_row,
            knows_all,
            room_of_square,
            radius_m,
            *heights,
            is_exact,
            fine_to_m,
            *place,
            blocks[:count],
            lie[:count],
            tags,
        )
    return CellSweep(
        lattice=terrain.lattice.part(row=top, col=left, rows=rows, cols=cols),
        tags=tags,
    )
