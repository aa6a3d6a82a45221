"""Direct ray and the one mirrored by the sea, over an Earth of radius k a."""

from dataclasses import dataclass

import numpy as np

from core.base.arrays import FloatArray, Floats, HoldsArrays
from core.base.constants import EARTH_RADIUS_M


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MirrorPoint(HoldsArrays):
    """Where the mirrored ray meets the sea; arrays of one shape."""

    distance_m: FloatArray
    """From the antenna, m."""
    antenna_above_plane_m: FloatArray
    """Height of the antenna over the plane that touches the sea there, m."""
    target_above_plane_m: FloatArray
    grazing_rad: FloatArray
    path_difference_m: FloatArray
    """How much longer the mirrored ray is, m."""
    divergence_ratio: FloatArray
    """Share of the field that a curved mirror leaves, bare."""


def mirror_distance_m(
    range_m: Floats, antenna_height_m: float, height_m: Floats, refraction_k: float
) -> FloatArray:
    """How far from the antenna the mirrored ray meets the sea, m; as in ``mirror_point``."""
    earth_m = refraction_k * EARTH_RADIUS_M
    d, h1, h2 = np.asarray(range_m, np.float64), antenna_height_m, height_m
    p = 2.0 / np.sqrt(3.0) * np.sqrt(earth_m * (h1 + h2) + d * d / 4.0)
    xi = np.arcsin(np.clip(2.0 * earth_m * (h1 - h2) * d / p**3, -1.0, 1.0))
    return np.asarray(d / 2.0 + p * np.sin(xi / 3.0), np.float64)


def mirror_point(
    range_m: Floats, antenna_height_m: float, height_m: Floats, refraction_k: float
) -> MirrorPoint:
    """Geometry of the mirrored ray (handbook 5.2; closed solution of the cubic).

    ``p = 2/sqrt 3 sqrt(a_e (h1 + h2) + d^2/4)``, ``xi = asin(2 a_e (h1 - h2) d / p^3)``,
    ``d1 = d/2 + p sin(xi/3)``; heights over the tangent plane ``h - d^2 / (2 a_e)``; difference
    of the paths ``sqrt(d^2 + (h1' + h2')^2) - sqrt(d^2 + (h1' - h2')^2)``; divergence
    ``(1 + 2 d1 d2 / (a_e d sin psi))^-1/2``. Holds inside the horizon of both heights; beyond
    it the plane lies above one of them and the values mean nothing.

    Parameters
    ----------
    range_m : array
        d, range along the sea, m, > 0.
    antenna_height_m : float
        h1, m, > 0.
    height_m : array
        h2, height of the target, m, >= 0.
    refraction_k : float
        k, bare.
    """
    earth_m = refraction_k * EARTH_RADIUS_M
    d, h2 = np.broadcast_arrays(np.asarray(range_m, np.float64), np.asarray(height_m, np.float64))
    h1 = antenna_height_m
    d1 = mirror_distance_m(d, h1, h2, refraction_k)
    d2 = d - d1
    above1 = h1 - d1 * d1 / (2.0 * earth_m)
    above2 = h2 - d2 * d2 / (2.0 * earth_m)
    grazing = np.arctan2(above1, d1)
    # The difference of two nearly equal roots, put so that nothing cancels.
    long = np.sqrt(d * d + (above1 + above2) ** 2)
    short = np.sqrt(d * d + (above1 - above2) ** 2)
    curved = 2.0 * d1 * d2 / (earth_m * d * np.maximum(np.sin(grazing), 1e-9))
    return MirrorPoint(
        distance_m=d1,
        antenna_above_plane_m=above1,
        target_above_plane_m=above2,
        grazing_rad=grazing,
        path_difference_m=4.0 * above1 * above2 / (long + short),
        divergence_ratio=1.0 / np.sqrt(1.0 + np.maximum(curved, 0.0)),
    )
