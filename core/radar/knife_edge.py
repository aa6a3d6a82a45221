"""Bending over a single sharp edge: how the edge of a land shadow softens."""

import numpy as np

from core.base.arrays import FloatArray, Floats

LIT_NU = -0.78
"""Below this parameter an edge takes nothing, bare."""


def edge_parameter(
    over_line_m: Floats, before_m: Floats, behind_m: Floats, wavelength_m: float
) -> FloatArray:
    """Parameter nu of an edge, bare (ITU-R P.526 4.1).

    ``h sqrt(2 / lambda (1 / d1 + 1 / d2))``.

    Parameters
    ----------
    over_line_m : array
        h, height of the edge over the sight line of the effective Earth, m; negative below it.
    before_m, behind_m : array
        d1, d2, distances of the edge from the two ends, m, > 0.
    wavelength_m : float
        Wavelength, m.
    """
    d1, d2 = np.asarray(before_m, np.float64), np.asarray(behind_m, np.float64)
    return np.asarray(over_line_m * np.sqrt(2.0 / wavelength_m * (1.0 / d1 + 1.0 / d2)))


def edge_loss_db(nu: Floats) -> FloatArray:
    """Loss over an edge, one way, dB, >= 0 (ITU-R P.526 4.1).

    ``6.9 + 20 log(sqrt((nu - 0.1)^2 + 1) + nu - 0.1)`` above nu -0.78, else 0; within 0.13 dB of
    Fresnel's integral from -0.78 to 5. An echo loses twice this.
    """
    v = np.maximum(np.asarray(nu, np.float64), LIT_NU) - 0.1
    loss = 6.9 + 20.0 * np.log10(np.sqrt(v * v + 1.0) + v)
    return np.asarray(np.where(np.asarray(nu) > LIT_NU, np.maximum(loss, 0.0), 0.0))
