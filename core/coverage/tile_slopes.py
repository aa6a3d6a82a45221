"""Land horizons under one tile of 16 rays by 16 samples, all rays side by side."""

from typing import NamedTuple

import numpy as np

from core.base.arrays import Float32Array, FloatArray, Int32Array
from core.base.compiled import bare, kernel
from core.coverage.tile_layout import TILE


class TileRoom(NamedTuple):
    """Room for one tile.

    ``row`` and ``col``, (n, 16), are the polynomials of its rays, lowest power first; ``begin``
    and ``step``, (2, 16), row and column of each ray's first sample and how they grow; of each
    sample, (16, 16), ray after ray, ``at`` its place in the heights, ``down`` and ``right`` how
    far it lies between the cells there, ``corners`` their heights, (4, 16, 16).
    """

    row: FloatArray
    col: FloatArray
    begin: FloatArray
    step: FloatArray
    at: Int32Array
    down: Float32Array
    right: Float32Array
    corners: Float32Array


@kernel
def tile_room(order: int) -> TileRoom:
    """New room; rays have polynomials of ``order`` coefficients."""
    return TileRoom(
        np.empty((order, TILE)),
        np.empty((order, TILE)),
        np.empty((2, TILE)),
        np.empty((2, TILE)),
        np.empty((TILE, TILE), np.int32),
        np.empty((TILE, TILE), np.float32),
        np.empty((TILE, TILE), np.float32),
        np.empty((4, TILE, TILE), np.float32),
    )


@bare
def lay_out(room: TileRoom, t0: float, t1: float) -> None:
    """Put the samples of the rays on straight lines between two ranges, over the scale."""
    row, col, begin, step = room.row, room.col, room.begin, room.step
    for m in range(TILE):
        begin[0, m] = 0.0
        begin[1, m] = 0.0
        step[0, m] = 0.0
        step[1, m] = 0.0
    for power in range(row.shape[0] - 1, -1, -1):
        for m in range(TILE):
            begin[0, m] = begin[0, m] * t0 + row[power, m]
            begin[1, m] = begin[1, m] * t0 + col[power, m]
            step[0, m] = step[0, m] * t1 + row[power, m]
            step[1, m] = step[1, m] * t1 + col[power, m]
    for m in range(TILE):
        step[0, m] = (step[0, m] - begin[0, m]) / (TILE - 1)
        step[1, m] = (step[1, m] - begin[1, m]) / (TILE - 1)


@bare
def rise_along(
    room: TileRoom,
    flat: Float32Array,
    cols: int,
    inverse: FloatArray,
    base: FloatArray,
    first: int,
    top: FloatArray,
    horizon: Float32Array,
    slot: int,
) -> bool:
    """Raise the horizons of the rays by the land under the tile.

    In turns of arithmetic, which the compiler does side by side, and of loads.

    Parameters
    ----------
    room : TileRoom
        As ``lay_out`` left it; every sample has four cells round it.
    flat, cols
        The heights row by row, and how many are in a row.
    inverse, base : (n,) arrays
        For each sample of the level the slope is height times ``inverse`` plus ``base``.
    first : int
        Number of the tile's first sample.
    top : (16,) array, changed
        The rays' horizons before and after.
    horizon, slot
        The tables, (n, 16, 16), and which of them is written.

    Returns
    -------
    bool
        Whether a height is unknown: then nothing holds, and ``top`` is as it was.
    """
    begin, step, at, down, right, corners = (
        room.begin, room.step, room.at, room.down, room.right, room.corners,
    )  # fmt: skip
    for q in range(TILE):
        for m in range(TILE):
            y = begin[0, m] + q * step[0, m]
            x = begin[1, m] + q * step[1, m]
            i = np.int32(y)
            j = np.int32(x)
            at[q, m] = np.int32(i * np.int32(cols)) + j
            down[q, m] = np.float32(y - i)
            right[q, m] = np.float32(x - j)
    one, under = np.uint64(1), np.uint64(cols)
    for q in range(TILE):
        for m in range(TILE):
            here = np.uint64(at[q, m])
            corners[0, q, m] = flat[here]
            corners[1, q, m] = flat[here + one]
            corners[2, q, m] = flat[here + under]
            corners[3, q, m] = flat[here + under + one]
    is_void = False
    for q in range(TILE):
        for m in range(TILE):
            upper = corners[0, q, m] + (corners[1, q, m] - corners[0, q, m]) * right[q, m]
            lower = corners[2, q, m] + (corners[3, q, m] - corners[2, q, m]) * right[q, m]
            z = upper + (lower - upper) * down[q, m]
            corners[0, q, m] = z
            is_void |= z != z
    if is_void:
        return True
    for q in range(TILE):
        a, b = inverse[first + q], base[first + q]
        for m in range(TILE):
            z = corners[0, q, m]
            slope = float(z) * a + b
            best = max(top[m], slope) if z > np.float32(0.0) else top[m]
            top[m] = best
            horizon[slot, q, m] = best
    return False
