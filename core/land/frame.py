"""Arrays of cells cut out of arrays with a frame, so that what needs the frame needs no copy.

Rays are followed over blocks of cells with a rim of cells beyond the data (``coverage.terrain``).
Heights and kinds of cell are the largest arrays there are: they are made with that rim from the
start, and the land model holds the part within it.
"""

from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

BLOCK = 8
"""Cells along the side of a block."""
SPARE = 2
"""Rows and columns past the last block, so that a sample on its far edge stays inside."""
RIM = 1
"""Rows above, and columns to the left of, the data."""

Scalar = TypeVar("Scalar", bound=np.generic)


def framed_shape(rows: int, cols: int) -> tuple[int, int]:
    """Rows and columns of whole blocks, and the spare ones, that hold data with a rim."""
    down, across = (-(-(side + RIM) // BLOCK) * BLOCK + SPARE for side in (rows, cols))
    return down, across


def within_frame(whole: NDArray[Scalar], rows: int, cols: int) -> NDArray[Scalar]:
    """The data of a framed array: a view."""
    return whole[RIM : rows + RIM, RIM : cols + RIM]


def full_in_frame(rows: int, cols: int, value: Scalar, rim_value: Scalar) -> NDArray[Scalar]:
    """The data (rows, cols) of a new framed array, all of one value, the rim of another."""
    whole = np.full(framed_shape(rows, cols), rim_value, dtype=rim_value.dtype)
    data = within_frame(whole, rows, cols)
    data[...] = value
    return data


def frame_of(data: NDArray[Scalar]) -> NDArray[Scalar] | None:
    """The framed array that data were cut out of by ``full_in_frame``; None where they were not."""
    whole = data.base
    if not isinstance(whole, np.ndarray) or whole.dtype != data.dtype or data.ndim != 2:
        return None
    rows, cols = data.shape
    if whole.shape != framed_shape(rows, cols):
        return None
    own = within_frame(whole, rows, cols)
    is_same = own.__array_interface__["data"][0] == data.__array_interface__["data"][0]
    return whole if is_same and own.strides == data.strides else None
