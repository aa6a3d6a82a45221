"""Quiet relief of the area's land: slopes that face away from the upper left are darker."""

import numpy as np

from core.base.arrays import BoolArray, Float32Array

_MOST_DARK = 0.3
_DARK_A_SLOPE = 0.9
"""How much light a slope of one loses; darker only, so that no palette gets brighter by it."""


def relief_ratio(height_m: Float32Array, is_land: BoolArray, m_per_px: float) -> Float32Array:
    """Share of its light that each pixel keeps, (h, w) in 0 to 1.

    Parameters
    ----------
    height_m : (h, w) array
        Heights, m.
    is_land : (h, w) array
        Only from land to land is there a slope: a shore has its own line.
    m_per_px : float
        Size of a pixel, m.
    """
    down = np.zeros(height_m.shape, np.float32)
    right = np.zeros(height_m.shape, np.float32)
    down[1:] = np.where(is_land[1:] & is_land[:-1], np.diff(height_m, axis=0), 0.0)
    right[:, 1:] = np.where(is_land[:, 1:] & is_land[:, :-1], np.diff(height_m, axis=1), 0.0)
    away = -(down + right) / np.float32(np.sqrt(2.0) * m_per_px)
    return np.asarray(1.0 - np.clip(_DARK_A_SLOPE * away, 0.0, _MOST_DARK), np.float32)
