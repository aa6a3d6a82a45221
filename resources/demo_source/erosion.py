"""Rivers cut an island: uplift against stream power until valleys and ridges stand.

The implicit scheme of Braun and Willett (Geomorphology 180-181, 2013, from memory), with the
exponents 1/2 for drained area and 1 for slope, needs only sums, products and square roots.
"""

import heapq

import numpy as np
from numpy.typing import NDArray

Grid = NDArray[np.float64]

_SHIFTS = ((-1, -1), (-1, 0), (-1, 1), (0, -1), (0, 1), (1, -1), (1, 0), (1, 1))


def erode(
    start_m: Grid,
    is_land: NDArray[np.bool_],
    uplift: Grid,
    *,
    cell_x_m: float,
    cell_y_m: float,
    steps: int,
) -> Grid:
    """Heights of land after many ages of rain, in arbitrary units, zero at sea.

    Parameters
    ----------
    start_m : ndarray (rows, cols)
        Gentle first relief that decides where the first streams run.
    is_land : ndarray (rows, cols)
        False is sea, which must surround the land.
    uplift : ndarray (rows, cols)
        Rate of uplift, bare; low where plains are to stay.
    cell_x_m, cell_y_m : float
        Size of a cell, m.
    steps : int
        Ages.
    """
    rows, cols = start_m.shape
    heights = _without_pits(np.where(is_land, start_m, 0.0), is_land)
    diagonal_m = float(np.sqrt(cell_x_m * cell_x_m + cell_y_m * cell_y_m))
    lengths = [diagonal_m if dr and dc else cell_y_m if dr else cell_x_m for dr, dc in _SHIFTS]
    offsets = np.array([dr * cols + dc for dr, dc in _SHIFTS])
    inner = np.flatnonzero(is_land)
    flat_uplift = uplift.ravel()[inner]
    for _step in range(steps):
        flat = heights.ravel()
        best_slope = np.full(inner.size, -1.0)
        receiver = np.zeros(inner.size, np.int64)
        run_m = np.ones(inner.size)
        for offset, length_m in zip(offsets, lengths, strict=True):
            slope = (flat[inner] - flat[inner + offset]) / length_m
            better = slope > best_slope
            best_slope = np.where(better, slope, best_slope)
            receiver = np.where(better, inner + offset, receiver)
            run_m = np.where(better, length_m, run_m)
        order = np.argsort(flat[inner], kind="stable")
        area = _drained_area(inner, receiver, order, rows * cols)
        factor = (0.9 * np.sqrt(area * cell_x_m * cell_y_m) / run_m).tolist()
        new = flat.tolist()
        cells, receivers, lift = inner.tolist(), receiver.tolist(), flat_uplift.tolist()
        for index in order.tolist():
            power = factor[index]
            cell = cells[index]
            new[cell] = (new[cell] + lift[index] + power * new[receivers[index]]) / (1.0 + power)
        heights = np.array(new).reshape(rows, cols)
    return heights


def _drained_area(
    inner: NDArray[np.int64], receiver: NDArray[np.int64], order: NDArray[np.int64], size: int
) -> Grid:
    """Cells that drain through each land cell, itself included."""
    area = [1.0] * size
    cells, receivers = inner.tolist(), receiver.tolist()
    for index in order[::-1].tolist():
        area[receivers[index]] += area[cells[index]]
    return np.array(area)[inner]


def _without_pits(heights: Grid, is_land: NDArray[np.bool_]) -> Grid:
    """The same relief with every hollow filled so that water finds the sea."""
    filled = heights.copy()
    rows, cols = heights.shape
    done = ~is_land
    queue = [
        (0.0, int(r), int(c))
        for r, c in zip(*np.nonzero(~is_land), strict=True)
        if is_land[max(r - 1, 0) : r + 2, max(c - 1, 0) : c + 2].any()
    ]
    heapq.heapify(queue)
    while queue:
        height, r, c = heapq.heappop(queue)
        for dr, dc in _SHIFTS:
            rr, cc = r + dr, c + dc
            if 0 <= rr < rows and 0 <= cc < cols and not done[rr, cc]:
                done[rr, cc] = True
                filled[rr, cc] = max(filled[rr, cc], height + 1e-6)
                heapq.heappush(queue, (float(filled[rr, cc]), rr, cc))
    return filled
