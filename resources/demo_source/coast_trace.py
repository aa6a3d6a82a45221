"""Trace the shore: the zero line between cell centres, joined into closed rings."""

import numpy as np
from numpy.typing import NDArray

Ring = list[tuple[float, float]]

# Sides of a square of four cell centres: 0 north, 1 east, 2 south, 3 west. Corners in the order
# north-west, north-east, south-east, south-west give bits 1, 2, 4, 8. Each pair is (from, to)
# with land on the left hand.
_PAIRS: dict[int, tuple[tuple[int, int], ...]] = {
    1: ((3, 0),),
    2: ((0, 1),),
    3: ((3, 1),),
    4: ((1, 2),),
    6: ((0, 2),),
    7: ((3, 2),),
    8: ((2, 3),),
    9: ((2, 0),),
    11: ((2, 1),),
    12: ((1, 3),),
    13: ((1, 0),),
    14: ((0, 3),),
}
_SADDLES = {
    (5, True): ((1, 0), (3, 2)),
    (5, False): ((3, 0), (1, 2)),
    (10, True): ((0, 3), (2, 1)),
    (10, False): ((0, 1), (2, 3)),
}


def trace(shore_m: NDArray[np.float64]) -> list[Ring]:
    """Rings of the zero line as (row, col) floats, cell centres at whole numbers.

    Land lies on the left hand along a ring; rings come in the order of their first square.
    """
    onward: dict[tuple[int, int, int], tuple[int, int, int]] = {}
    is_land = shore_m > 0.0
    kinds = (
        is_land[:-1, :-1] * 1 + is_land[:-1, 1:] * 2 + is_land[1:, 1:] * 4 + is_land[1:, :-1] * 8
    )
    for row, col in zip(*np.nonzero((kinds > 0) & (kinds < 15)), strict=True):
        r, c = int(row), int(col)
        kind = int(kinds[r, c])
        pairs = _PAIRS.get(kind)
        if pairs is None:
            middle = shore_m[r, c] + shore_m[r, c + 1] + shore_m[r + 1, c] + shore_m[r + 1, c + 1]
            pairs = _SADDLES[kind, bool(middle > 0.0)]
        for start, end in pairs:
            onward[_side(r, c, start)] = _side(r, c, end)
    rings = []
    while onward:
        first = next(iter(onward))
        ring = []
        key = first
        while key in onward:
            ring.append(_crossing(shore_m, key))
            key = onward.pop(key)
        ring.append(ring[0])
        rings.append(ring)
    return rings


def _side(row: int, col: int, side: int) -> tuple[int, int, int]:
    """One name for the line between two neighbouring centres: its cell, and 0 along, 1 down."""
    return ((row, col, 0), (row, col + 1, 1), (row + 1, col, 0), (row, col, 1))[side]


def _crossing(shore_m: NDArray[np.float64], key: tuple[int, int, int]) -> tuple[float, float]:
    row, col, down = key
    here = float(shore_m[row, col])
    there = float(shore_m[row + 1, col] if down else shore_m[row, col + 1])
    share = min(max(here / (here - there), 0.02), 0.98)
    return (row + share, float(col)) if down else (float(row), col + share)


def thinned(ring: Ring, tolerance: float, stretch: float) -> Ring:
    """A ring with fewer points, none farther from the old line than the tolerance.

    ``tolerance`` is in rows; ``stretch`` is the width of a cell over its height.
    """
    if len(ring) < 12:
        return ring
    half = max(range(len(ring)), key=lambda i: _squared(ring[i], ring[0], stretch))
    keep = {0, half, len(ring) - 1}
    stack = [(0, half), (half, len(ring) - 1)]
    while stack:
        first, last = stack.pop()
        farthest, index = tolerance * tolerance, -1
        for i in range(first + 1, last):
            off = _off_line(ring[i], ring[first], ring[last], stretch)
            if off > farthest:
                farthest, index = off, i
        if index >= 0:
            keep.add(index)
            stack += [(first, index), (index, last)]
    return [ring[i] for i in sorted(keep)]


def _squared(a: tuple[float, float], b: tuple[float, float], stretch: float) -> float:
    dy, dx = a[0] - b[0], (a[1] - b[1]) * stretch
    return dx * dx + dy * dy


def _off_line(
    p: tuple[float, float], a: tuple[float, float], b: tuple[float, float], stretch: float
) -> float:
    """Squared distance of a point from a straight line between two others."""
    dy, dx = b[0] - a[0], (b[1] - a[1]) * stretch
    py, px = p[0] - a[0], (p[1] - a[1]) * stretch
    length = dx * dx + dy * dy
    share = 0.0 if length == 0.0 else min(max((px * dx + py * dy) / length, 0.0), 1.0)
    oy, ox = py - share * dy, px - share * dx
    return ox * ox + oy * oy
