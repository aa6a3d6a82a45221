"""Shores of known slope, for where the painted edge lies."""

from collections.abc import Callable

import numpy as np

from core.base.arrays import FloatArray
from tests.helpers.islands import CENTRE

_M_PER_DEG_NORTH = 110_574.2758
_M_PER_DEG_EAST = 111_319.4908
"""As in ``islands``."""


def beach(water_m: float) -> Callable[[FloatArray, FloatArray], FloatArray]:
    """1:50 from 4000 m off, a bank of 1:2 from 4600 m up to 30 m, the water risen so far."""

    def height(east: FloatArray, _north: FloatArray) -> FloatArray:
        bank = 12.0 + (east - 4600.0) / 2.0
        level = np.where(east < 4600.0, (east - 4000.0) / 50.0, np.minimum(bank, 30.0))
        return np.maximum(level - water_m, 0.0)

    return height


def plane_m(lat_deg: FloatArray, lon_deg: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Metres east and north of the centre of places near it."""
    return (
        (lon_deg - CENTRE.lon_deg) * _M_PER_DEG_EAST,
        (lat_deg - CENTRE.lat_deg) * _M_PER_DEG_NORTH,
    )
