"""Land made ready for rays: padded heights, and blocks that say what can be passed over."""

from dataclasses import dataclass
from typing import NamedTuple
from weakref import WeakKeyDictionary

import numpy as np

from core.base.arrays import ByteArray, Float32Array, HoldsArrays, ShortArray
from core.base.compiled import inlined, kernel
from core.base.constants import NAUTICAL_MILE_M
from core.land.frame import BLOCK as FRAME_BLOCK
from core.land.frame import RIM, SPARE, frame_of, framed_shape, within_frame
from core.land.land_model import Cell, LandModel
from core.land.lattice import Lattice

BLOCK = FRAME_BLOCK
"""Cells along the side of a block."""
FIELD = 8
"""Blocks along the side of a field of blocks."""
CLOSE_M = 12.0 * NAUTICAL_MILE_M
UNKNOWN_BITS = (1 << Cell.VOID) | (1 << Cell.MISSING) | (1 << Cell.BEYOND)
"""Bits of ``block_codes`` that stand for unknown heights."""
_SEA_ONLY = 1 << Cell.SEA
_MOST_FREE = 60_000
"""Blocks; farther than any radius reaches, and one more still fits 16 bits."""


class Ground(NamedTuple):
    """The arrays of a ``Terrain`` as kernels take them."""

    heights: Float32Array
    cell: ByteArray
    highest: Float32Array
    codes: ByteArray
    free: ShortArray
    fields: Float32Array


def around_m(radius_m: float) -> float:
    """Range at which the rays of a sweep lie a cell apart, m.

    Within 12 NM no cell falls between two of them. Farther out they spread with the beam, a
    quarter of which is wider than what lies between them; whether a point, or a piece of an
    object, is in sight is asked by rays of its own.
    """
    return min(radius_m, CLOSE_M)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Terrain(HoldsArrays):
    """Heights with a frame of unknown cells round them, and a coarse map of blocks.

    lattice : Lattice
        Of the padded arrays: one cell of frame above and to the left, more below and right.
    heights_m : (8 n + 2, 8 m + 2) float32
        Height above the water now, exactly 0 on sea, NaN where unknown.
    cell : same shape, uint8
        ``Cell`` codes; the frame is ``Cell.BEYOND``.
    block_highest_m : (n, m) float32
        Greatest known height in a block and one row and column past it, so that every value
        between four cells read from the block is bounded by it.
    block_codes : (n, m) uint8
        Bit ``1 << code`` set for each ``Cell`` code found there.
    block_free : (n, m) uint16
        Chessboard distance in blocks to the nearest block with anything but sea; 0 on such.
    field_highest_m : (n // 8 + 1, m // 8 + 1) float32
        Greatest height in a square of 8 by 8 blocks; infinite where not all of it is known, NaN
        where nothing of it is, all for the same reason.
    kinds : shape of the heights, uint8, or (0, 0)
        Number of the kind of ground, 0 where none is known; empty without a raster of them.
    """

    lattice: Lattice
    heights_m: Float32Array
    cell: ByteArray
    block_highest_m: Float32Array
    block_codes: ByteArray
    block_free: ShortArray
    field_highest_m: Float32Array
    kinds: ByteArray

    @property
    def ground(self) -> Ground:
        """The arrays as kernels take them."""
        return Ground(
            heights=self.heights_m,
            cell=self.cell,
            highest=self.block_highest_m,
            codes=self.block_codes,
            free=self.block_free,
            fields=self.field_highest_m,
        )


@kernel
def _fill_blocks(
    heights: Float32Array, cell: ByteArray, highest: Float32Array, codes: ByteArray
) -> None:
    for bi in range(highest.shape[0]):
        for bj in range(highest.shape[1]):
            top = np.float32(0.0)
            bits = 0
            for i in range(bi * BLOCK, bi * BLOCK + BLOCK + 1):
                for j in range(bj * BLOCK, bj * BLOCK + BLOCK + 1):
                    bits |= 1 << cell[i, j]
                    if heights[i, j] > top:  # never true of NaN
                        top = heights[i, j]
            highest[bi, bj] = top
            codes[bi, bj] = bits


@kernel
def _fill_free(free: ShortArray) -> None:
    """Turn 0 and large numbers into chessboard distances, in two passes."""
    rows, cols = free.shape
    for i in range(rows):
        for j in range(cols):
            best = int(free[i, j])
            if j > 0:
                best = min(best, int(free[i, j - 1]) + 1)
            if i > 0:
                for jj in range(max(j - 1, 0), min(j + 2, cols)):
                    best = min(best, int(free[i - 1, jj]) + 1)
            free[i, j] = best
    for i in range(rows - 1, -1, -1):
        for j in range(cols - 1, -1, -1):
            best = int(free[i, j])
            if j < cols - 1:
                best = min(best, int(free[i, j + 1]) + 1)
            if i < rows - 1:
                for jj in range(max(j - 1, 0), min(j + 2, cols)):
                    best = min(best, int(free[i + 1, jj]) + 1)
            free[i, j] = best


@inlined
def is_unknown_alone(bits: int) -> bool:
    """Whether bits of cells stand for one kind of unknown height and nothing else."""
    return bool(bits & UNKNOWN_BITS == bits and bits & (bits - 1) == 0 and bits != 0)


@kernel
def _fill_fields(highest: Float32Array, codes: ByteArray, fields: Float32Array) -> None:
    rows, cols = codes.shape
    for fi in range(fields.shape[0]):
        for fj in range(fields.shape[1]):
            top = np.float32(0.0)
            all_bits = 0
            for bi in range(fi * FIELD, min((fi + 1) * FIELD, rows)):
                for bj in range(fj * FIELD, min((fj + 1) * FIELD, cols)):
                    all_bits |= codes[bi, bj]
                    if codes[bi, bj] & UNKNOWN_BITS:
                        top = np.float32(np.inf)
                    top = max(top, highest[bi, bj])
            fields[fi, fj] = np.nan if is_unknown_alone(all_bits) else top


_KNOWN: WeakKeyDictionary[LandModel, Terrain] = WeakKeyDictionary()
"""Terrain of every land model still in use: both are read-only, so one serves all who ask."""


def prepare_terrain(land: LandModel) -> Terrain:
    """Pad the heights of a land model and build the map of blocks, once for each model.

    Parameters
    ----------
    land : LandModel
        Heights above the water now.

    Returns
    -------
    Terrain
        Shares the heights with the land model where those have a frame (``land.frame``).
    """
    found = _KNOWN.get(land)
    if found is None:
        found = _KNOWN[land] = _made(land)
    return found


def _made(land: LandModel) -> Terrain:
    rows, cols = land.heights_m.shape
    shape = framed_shape(rows, cols)
    heights, cell = frame_of(land.heights_m), frame_of(land.cell)
    if heights is None or cell is None:
        heights = np.full(shape, np.nan, dtype=np.float32)
        within_frame(heights, rows, cols)[...] = land.heights_m
        cell = np.full(shape, Cell.BEYOND, dtype=np.uint8)
        within_frame(cell, rows, cols)[...] = land.cell
    kinds = np.zeros((0, 0) if land.ground is None else shape, dtype=np.uint8)
    if land.ground is not None:
        within_frame(kinds, rows, cols)[...] = land.ground
    lattice = land.lattice.part(row=-RIM, col=-RIM, rows=shape[0], cols=shape[1])
    return _blocked(lattice, heights, cell, kinds)


def _blocked(lattice: Lattice, heights: Float32Array, cell: ByteArray, kinds: ByteArray) -> Terrain:
    """Heights of whole blocks, and two spare rows and columns, with their map of blocks."""
    block_rows, block_cols = ((side - SPARE) // BLOCK for side in heights.shape)
    highest = np.empty((block_rows, block_cols), dtype=np.float32)
    codes = np.empty((block_rows, block_cols), dtype=np.uint8)
    _fill_blocks(heights, cell, highest, codes)
    most = min(block_rows + block_cols, _MOST_FREE)
    free = np.where(codes == _SEA_ONLY, most, 0).astype(np.uint16)
    _fill_free(free)
    fields = np.empty((block_rows // FIELD + 1, block_cols // FIELD + 1), dtype=np.float32)
    _fill_fields(highest, codes, fields)
    return Terrain(
        lattice=lattice,
        heights_m=heights,
        cell=cell,
        block_highest_m=highest,
        block_codes=codes,
        block_free=free,
        field_highest_m=fields,
        kinds=kinds,
    )
