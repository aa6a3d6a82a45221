"""Unknown heights so narrow that rays of a sweep may pass them by: each is asked by its own ray.

Beyond 12 NM the rays of a sweep spread (``polar.FAR_STRIDE``). Where unknown cells fill a square
as wide as the space between two rays, one of them meets it; what is narrower is listed once for a
land model, and asked about from each place.
"""

import math
from dataclasses import dataclass

import numpy as np

from core.base.arrays import ByteArray, Float32Array, FloatArray, HoldsArrays, IntArray
from core.base.compiled import kernel
from core.base.constants import UNKNOWN_HEIGHT_ASSUMED_M
from core.coverage.coverage_result import SweepSettings
from core.coverage.local_map import Grid, local_map
from core.coverage.polar import FAR_STRIDE, bend_of
from core.coverage.ray_course import aim, samples_before
from core.coverage.rays import UNKNOWN_CODES, slope_at, trace, water_slope
from core.coverage.terrain import BLOCK, CLOSE_M, UNKNOWN_BITS, Ground, Terrain, is_unknown_alone
from core.geodesy.position import Position
from core.land.land_model import Cell

_FIRST = int(Cell.VOID)
_STEP_CELLS = 0.5


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class NarrowGaps(HoldsArrays):
    """Unknown cells of a terrain that rays may pass by.

    row, col : (n,) float64
        Their places in the terrain's lattice.
    column : (n,) int64
        Their kind, as the columns of ``PolarSweep.unknown_from_m``.
    """

    row: FloatArray
    col: FloatArray
    column: IntArray


@kernel
def _is_wide(cell: ByteArray, i: int, j: int, side: int) -> bool:
    """Whether some square of unknown cells holds this one; outside nothing is known either."""
    rows, cols = cell.shape
    for top in range(i - side + 1, i + 1):
        for left in range(j - side + 1, j + 1):
            is_filled = True
            for y in range(max(top, 0), min(top + side, rows)):
                for x in range(max(left, 0), min(left + side, cols)):
                    if cell[y, x] < _FIRST:
                        is_filled = False
                        break
                if not is_filled:
                    break
            if is_filled:
                return True
    return False


@kernel
def _listed(ground: Ground, side: int, row: FloatArray, col: FloatArray, column: IntArray) -> int:
    """Write narrow cells, as many as there is room for; return how many there are."""
    cell, codes = ground.cell, ground.codes
    count = 0
    for bi in range(codes.shape[0]):
        for bj in range(codes.shape[1]):
            bits = codes[bi, bj]
            if not bits & UNKNOWN_BITS or is_unknown_alone(bits):
                continue
            for i in range(bi * BLOCK, (bi + 1) * BLOCK):
                for j in range(bj * BLOCK, (bj + 1) * BLOCK):
                    if cell[i, j] < _FIRST or _is_wide(cell, i, j, side):
                        continue
                    if count < row.size:
                        row[count] = i
                        col[count] = j
                        column[count] = cell[i, j] - _FIRST
                    count += 1
    return count


@kernel
def _ask(
    ground: Ground,
    grid: Grid,
    range_m: FloatArray,
    bearing_rad: FloatArray,
    column: IntArray,
    radius_m: float,
    antenna_m: float,
    bend: float,
    unknown_from: Float32Array,
) -> None:
    """Put in the ranges of those that known land does not hide; the nearest come first."""
    row = np.empty(grid.row_of.shape[0])
    col = np.empty(grid.row_of.shape[0])
    none = np.empty(0)
    unknown_m = np.empty(UNKNOWN_CODES)
    bearings = unknown_from.shape[0]
    for p in range(range_m.size):
        at = int(bearing_rad[p] / (2.0 * math.pi) * bearings + 0.5) % bearings
        if range_m[p] >= unknown_from[at, column[p]]:
            continue
        slope = slope_at(range_m[p], UNKNOWN_HEIGHT_ASSUMED_M, antenna_m, bend)
        ray = aim(
            grid,
            math.sin(bearing_rad[p]),
            math.cos(bearing_rad[p]),
            radius_m,
            _STEP_CELLS,
            row,
            col,
        )
        # What lies within a cell of it belongs to it and does not hide it.
        last = samples_before(range_m[p] - ray.cell_m, ray)
        top, _rises = trace(
            ground, ray, last, antenna_m, bend, math.inf, none, none, unknown_m, slope
        )
        if slope >= max(top, water_slope(range_m[p], antenna_m, bend)):
            unknown_from[at, column[p]] = range_m[p]


def narrow_gaps(terrain: Terrain, radius_m: float) -> NarrowGaps:
    """List the unknown cells that rays of a sweep of a radius may pass by.

    Parameters
    ----------
    terrain : Terrain
        Land made ready.
    radius_m : float
        How far sweeps reach, m; within 12 NM nothing is passed by.
    """
    # From one bearing to the next one ray more may be left out than between two of one.
    side = 0 if radius_m <= CLOSE_M else (FAR_STRIDE + 1) * math.ceil(radius_m / CLOSE_M)
    room = 0
    while True:
        row, col = np.empty(room), np.empty(room)
        column = np.empty(room, dtype=np.int64)
        count = _listed(terrain.ground, side, row, col, column) if side else 0
        if count <= room:
            return NarrowGaps(row=row[:count], col=col[:count], column=column[:count])
        room = count


def with_narrow_gaps(
    terrain: Terrain,
    gaps: NarrowGaps,
    position: Position,
    settings: SweepSettings,
    unknown_from_m: Float32Array,
) -> Float32Array:
    """Ranges of unknown heights with those of narrow gaps that a sweep may have passed by.

    Parameters
    ----------
    terrain : Terrain
        Land made ready.
    gaps : NarrowGaps
        Its narrow gaps for the radius of ``settings``.
    position : Position
        The antenna's place.
    settings : SweepSettings
        Antenna height, refraction, radius.
    unknown_from_m : (B, 3) array
        ``PolarSweep.unknown_from_m``.
    """
    if gaps.row.size == 0:
        return unknown_from_m
    here = local_map(terrain.lattice, position, settings.radius_m)
    range_m, bearing_deg = here.range_bearing(gaps.row, gaps.col)
    asked = np.flatnonzero((range_m > CLOSE_M) & (range_m <= settings.radius_m))
    asked = asked[np.argsort(range_m[asked], kind="stable")]
    found = unknown_from_m.copy()
    _ask(
        terrain.ground,
        here.grid,
        range_m[asked],
        np.radians(bearing_deg[asked]),
        gaps.column[asked],
        settings.radius_m,
        settings.antenna_height_m,
        bend_of(settings),
        found,
    )
    return found
