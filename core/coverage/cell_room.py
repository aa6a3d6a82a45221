"""Room for the cells of one square while they are tested, made once a sweep."""

import math
from typing import NamedTuple

import numpy as np

from core.base.arrays import BoolArray, ByteArray, FloatArray, Int32Array
from core.coverage.cell_places import CELLS


class CellRoom(NamedTuple):
    """Arrays of 64 cells, but for ``row`` and ``col``.

    ``distance``, ``short``, ``turn`` as in ``cell_places``; ``water``, the greatest slope of the
    water short of them; ``one``, ``two``, the land horizons of the rays beside, and ``weight``,
    how far between these the cell lies; ``unknown_m``, the range from which a height is unknown;
    ``z``, the height; ``needed_m``, the least height in sight; ``looks``, whether it may get a
    ray of its own; ``tag``, the answer; where the horizons stand in the tiles, in steps; room for
    the polynomials of one ray, (n, 1).
    """

    distance: FloatArray
    short: FloatArray
    turn: FloatArray
    water: FloatArray
    one: FloatArray
    two: FloatArray
    weight: FloatArray
    unknown_m: FloatArray
    z: FloatArray
    needed_m: FloatArray
    looks: BoolArray
    tag: ByteArray
    one_at: Int32Array
    two_at: Int32Array
    one_ray: Int32Array
    two_ray: Int32Array
    column: Int32Array
    part: FloatArray
    row: FloatArray
    col: FloatArray


def cell_room(order: int) -> CellRoom:
    """New room; rays have polynomials of ``order`` coefficients."""
    return CellRoom(
        np.empty(CELLS),
        np.empty(CELLS),
        np.empty(CELLS),
        np.empty(CELLS),
        np.empty(CELLS),
        np.empty(CELLS),
        np.empty(CELLS),
        np.full(CELLS, math.inf),
        np.empty(CELLS),
        np.empty(CELLS),
        np.empty(CELLS, dtype=np.bool_),
        np.empty(CELLS, dtype=np.uint8),
        np.empty(CELLS, dtype=np.int32),
        np.empty(CELLS, dtype=np.int32),
        np.empty(CELLS, dtype=np.int32),
        np.empty(CELLS, dtype=np.int32),
        np.empty(CELLS, dtype=np.int32),
        np.empty(CELLS),
        np.empty((order, 1)),
        np.empty((order, 1)),
    )
