"""Heights carried from one lattice to another: bilinear, unknown staying unknown."""

import math

import numpy as np

from core.base.arrays import BoolArray, Float32Array
from core.base.compiled import kernel
from core.land.lattice import Lattice

_STRIP_CELLS = 2_000_000


def places(lattice: Lattice, row: int, rows: int) -> tuple[np.ndarray, np.ndarray]:
    """Latitudes and longitudes of the cell centres of some rows, each (rows * cols,)."""
    r, c = np.meshgrid(
        np.arange(row, row + rows, dtype=np.float64),
        np.arange(lattice.cols, dtype=np.float64),
        indexing="ij",
    )
    return lattice.lat_lon(r.ravel(), c.ravel())


def resampled(
    heights_m: Float32Array, covered: BoolArray, source: Lattice, target: Lattice
) -> tuple[Float32Array, BoolArray]:
    """Heights on the cells of another lattice.

    Parameters
    ----------
    heights_m, covered : (rows, cols) arrays on ``source``
        Heights, NaN where unknown, and whether a file reaches there at all.
    source, target : Lattice

    Returns
    -------
    heights_m, covered : arrays on ``target``
        Bilinear between cell centres; NaN where a neighbour with any weight is unknown. In the
        outer half of an edge cell the height of its centre holds.
    """
    out = np.full((target.rows, target.cols), np.nan, dtype=np.float32)
    reach = np.zeros(out.shape, dtype=np.bool_)
    step = max(1, _STRIP_CELLS // max(target.cols, 1))
    for first in range(0, target.rows, step):
        rows = min(step, target.rows - first)
        lat, lon = places(target, first, rows)
        row, col = source.row_col(lat, lon)
        strip, inside = _sampled(heights_m, covered, row, col)
        out[first : first + rows] = strip.reshape(rows, target.cols)
        reach[first : first + rows] = inside.reshape(rows, target.cols)
    return out, reach


def _sampled(
    heights_m: Float32Array, covered: BoolArray, row: np.ndarray, col: np.ndarray
) -> tuple[Float32Array, BoolArray]:
    rows, cols = heights_m.shape
    inside = (row >= -0.5) & (row <= rows - 0.5) & (col >= -0.5) & (col <= cols - 0.5)
    out = np.full(row.shape, np.nan, dtype=np.float32)
    if not np.any(inside):
        return out, np.zeros(row.shape, dtype=np.bool_)
    r, c = np.clip(row[inside], 0, rows - 1), np.clip(col[inside], 0, cols - 1)
    near_r, near_c = np.rint(r).astype(np.int64), np.rint(c).astype(np.int64)
    # A neighbour of no weight must not bring its unknown in.
    r = np.where(np.abs(r - near_r) < 1e-6, near_r, r)
    c = np.where(np.abs(c - near_c) < 1e-6, near_c, c)
    r0, c0 = np.floor(r).astype(np.int64), np.floor(c).astype(np.int64)
    r1, c1 = np.ceil(r).astype(np.int64), np.ceil(c).astype(np.int64)
    fr, fc = r - r0, c - c0
    # Past the edge of a tile inside the mosaic the nearer covered neighbour holds.
    upper = _mixed(heights_m, covered, (r0, c0), (r0, c1), fc)
    lower = _mixed(heights_m, covered, (r1, c0), (r1, c1), fc)
    up_known, low_known = upper[1], lower[1]
    value = upper[0] * (1.0 - fr) + lower[0] * fr
    value = np.where(up_known & ~low_known, upper[0], value)
    value = np.where(low_known & ~up_known, lower[0], value)
    out[inside] = value
    reach = np.zeros(row.shape, dtype=np.bool_)
    reach[inside] = covered[near_r, near_c]
    out[~reach] = np.nan
    return out, reach


def _mixed(
    heights_m: Float32Array,
    covered: BoolArray,
    left: tuple[np.ndarray, np.ndarray],
    right: tuple[np.ndarray, np.ndarray],
    fraction: np.ndarray,
) -> tuple[np.ndarray, np.ndarray]:
    a, b = heights_m[left], heights_m[right]
    a_in, b_in = covered[left], covered[right]
    value = a * (1.0 - fraction) + b * fraction
    value = np.where(a_in & ~b_in, a, value)
    value = np.where(b_in & ~a_in, b, value)
    return value, a_in | b_in


def greatest_in_blocks(
    heights_m: Float32Array, missing: BoolArray, *, rows: int, cols: int
) -> tuple[Float32Array, BoolArray]:
    """Greatest known height in blocks of rows x cols cells, which must divide the array.

    A block is unknown only if all its cells are, and missing only if all are missing.
    """
    shape = heights_m.shape[0] // rows, heights_m.shape[1] // cols
    highest, gone = np.full(shape, np.nan, dtype=np.float32), np.ones(shape, dtype=np.bool_)
    _fill_blocks(heights_m, missing, rows, cols, highest, gone)
    return highest, gone


@kernel
def _fill_blocks(
    heights: Float32Array,
    missing: BoolArray,
    rows: int,
    cols: int,
    highest: Float32Array,
    gone: BoolArray,
) -> None:
    for i in range(heights.shape[0]):
        bi = i // rows
        for bj in range(highest.shape[1]):
            top = highest[bi, bj]
            is_gone = gone[bi, bj]
            for j in range(bj * cols, bj * cols + cols):
                z = heights[i, j]
                if not math.isnan(z):
                    is_gone = False
                    if not z <= top:  # true of NaN, too
                        top = z
                elif not missing[i, j]:
                    is_gone = False
            highest[bi, bj] = top
            gone[bi, bj] = is_gone
