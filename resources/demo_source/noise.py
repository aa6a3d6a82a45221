"""Gradient noise from plain sums and products, so that every machine gets the same bits.

Nothing here uses sin, exp or sums over arrays: their last digits differ between processors.
"""

import numpy as np
from numpy.typing import NDArray

Grid = NDArray[np.float64]

_TABLE = 256


def _gradients(seed: int) -> tuple[Grid, Grid, NDArray[np.int64]]:
    """Unit vectors and a shuffled table of 256 numbers."""
    rng = np.random.default_rng(seed)
    x, y = np.empty(_TABLE), np.empty(_TABLE)
    for index in range(_TABLE):
        while True:
            a, b = 2.0 * rng.random() - 1.0, 2.0 * rng.random() - 1.0
            length = a * a + b * b
            if 0.05 < length <= 1.0:
                break
        x[index], y[index] = a / np.sqrt(length), b / np.sqrt(length)
    order = np.argsort(rng.random(_TABLE), kind="stable").astype(np.int64)
    return x, y, np.concatenate([order, order])


def gradient_noise(x: Grid, y: Grid, seed: int) -> Grid:
    """Smooth noise of wavelength 1, about -0.7 to 0.7, at places of any shape."""
    gradient_x, gradient_y, order = _gradients(seed)
    column, row = np.floor(x), np.floor(y)
    u, v = x - column, y - row
    i, j = column.astype(np.int64) % _TABLE, row.astype(np.int64) % _TABLE

    def corner(di: int, dj: int) -> Grid:
        pick = order[order[(i + di) % _TABLE] + (j + dj) % _TABLE]
        slope: Grid = gradient_x[pick] * (u - di) + gradient_y[pick] * (v - dj)
        return slope

    fade_u = u * u * u * (u * (u * 6.0 - 15.0) + 10.0)
    fade_v = v * v * v * (v * (v * 6.0 - 15.0) + 10.0)
    south = corner(0, 0) + fade_u * (corner(1, 0) - corner(0, 0))
    north = corner(0, 1) + fade_u * (corner(1, 1) - corner(0, 1))
    return south + fade_v * (north - south)


def layered_noise(x: Grid, y: Grid, seed: int, *, octaves: int, gain: float = 0.5) -> Grid:
    """Noise with finer and weaker layers, each half as long as the one before."""
    total = np.zeros_like(x)
    weight, scale = 1.0, 1.0
    for octave in range(octaves):
        shift = 17.31 * octave
        total = total + weight * gradient_noise(
            x * scale + shift, y * scale - shift, seed + 101 * octave
        )
        weight, scale = weight * gain, scale * 2.0
    return total


def ridged_noise(x: Grid, y: Grid, seed: int, *, octaves: int) -> Grid:
    """Noise with sharp crests, 0 to about 1."""
    total = np.zeros_like(x)
    weight, scale, sum_of_weights = 1.0, 1.0, 0.0
    for octave in range(octaves):
        crest = 1.0 - np.abs(
            2.0 * gradient_noise(x * scale + 5.7 * octave, y * scale, seed + 211 * octave)
        )
        total = total + weight * crest * crest
        sum_of_weights += weight
        weight, scale = weight * 0.5, scale * 2.0
    return total / sum_of_weights
