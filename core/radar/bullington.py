"""Bending over land along a profile: Bullington and delta-Bullington (ITU-R P.526 4.5)."""

import math
from dataclasses import dataclass

import numpy as np

from core.base.arrays import FloatArray, HoldsArrays
from core.base.constants import SPEED_OF_LIGHT_MPS
from core.radar.knife_edge import edge_loss_db
from core.radar.radar_set import Polarisation
from core.radar.smooth_earth import smooth_earth_loss_db

_LEAST_HEIGHT_M = 0.01
"""An end on the smooth surface itself has no wave under it to speak of, m."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Profile(HoldsArrays):
    """Ground along a path.

    distance_m : (n,) from the antenna, from 0 to the far end, rising.
    ground_m : (n,) height above the sea, m.
    """

    distance_m: FloatArray
    ground_m: FloatArray

    def __post_init__(self) -> None:
        """Refuse fewer than three points: the ends alone are no profile."""
        if self.distance_m.size < 3 or self.distance_m.shape != self.ground_m.shape:
            raise ValueError("a profile needs three points and as many heights")
        HoldsArrays.__post_init__(self)


def bullington_loss_db(
    profile: Profile, near_m: float, far_m: float, *, frequency_hz: float, earth_m: float
) -> float:
    """Loss over the one edge that stands for all ground of a path, one way, dB (4.5.1).

    Parameters
    ----------
    profile : Profile
        The ground.
    near_m, far_m : float
        Heights of antenna and target above the sea, m.
    frequency_hz : float
        Frequency, Hz.
    earth_m : float
        Effective radius of the Earth, m.
    """
    length = float(profile.distance_m[-1])
    d, ground = profile.distance_m[1:-1], profile.ground_m[1:-1]
    bulge = ground + d * (length - d) / (2.0 * earth_m)
    wave = SPEED_OF_LIGHT_MPS / frequency_hz
    steepest = float(np.max((bulge - near_m) / d))
    straight = (far_m - near_m) / length
    if steepest < straight:
        over = bulge - (near_m * (length - d) + far_m * d) / length
        nu = float(np.max(over * np.sqrt(2.0 * length / (wave * d * (length - d)))))
    else:
        from_far = float(np.max((bulge - far_m) / (length - d)))
        at = (far_m - near_m + from_far * length) / (steepest + from_far)
        over_edge = near_m + steepest * at - (near_m * (length - at) + far_m * at) / length
        nu = over_edge * math.sqrt(2.0 * length / (wave * at * (length - at)))
    loss = float(edge_loss_db(nu))
    return loss + (1.0 - math.exp(-loss / 6.0)) * (10.0 + 0.02 * length / 1000.0)


def smooth_heights_m(profile: Profile, near_m: float, far_m: float) -> tuple[float, float]:
    """Heights of both ends over the smooth surface that stands for the ground, m (4.5.2).

    Least squares, lowered where ground rises over the line between the ends.
    """
    d, h = profile.distance_m, profile.ground_m
    length = float(d[-1])
    steps = np.diff(d)
    v1 = float(np.sum(steps * (h[1:] + h[:-1])))
    v2 = float(np.sum(steps * (h[1:] * (2.0 * d[1:] + d[:-1]) + h[:-1] * (d[1:] + 2.0 * d[:-1]))))
    near_surface = (2.0 * v1 * length - v2) / length**2
    far_surface = (v2 - v1 * length) / length**2
    inner, ground = d[1:-1], h[1:-1]
    over = ground - (near_m * (length - inner) + far_m * inner) / length
    highest = float(np.max(over))
    if highest > 0.0:
        from_near = float(np.max(over / inner))
        from_far = float(np.max(over / (length - inner)))
        near_surface -= highest * from_near / (from_near + from_far)
        far_surface -= highest * from_far / (from_near + from_far)
    near_surface = min(near_surface, float(h[0]))
    far_surface = min(far_surface, float(h[-1]))
    return near_m - near_surface, far_m - far_surface


def delta_bullington_loss_db(
    profile: Profile,
    near_m: float,
    far_m: float,
    *,
    frequency_hz: float,
    earth_m: float,
    permittivity: float,
    conductivity_s_per_m: float,
    polarisation: Polarisation,
) -> float:
    """Loss over ground and the Earth's bulge together, one way, dB (4.5.3).

    Bullington's over the ground, and what the smooth Earth takes more than Bullington says.
    """
    by_ground = bullington_loss_db(
        profile, near_m, far_m, frequency_hz=frequency_hz, earth_m=earth_m
    )
    near, far = (max(h, _LEAST_HEIGHT_M) for h in smooth_heights_m(profile, near_m, far_m))
    bare = Profile(
        distance_m=np.array(profile.distance_m), ground_m=np.zeros(profile.distance_m.size)
    )
    smooth = bullington_loss_db(bare, near, far, frequency_hz=frequency_hz, earth_m=earth_m)
    sphere = smooth_earth_loss_db(
        float(profile.distance_m[-1]),
        near,
        far,
        frequency_hz=frequency_hz,
        earth_m=earth_m,
        permittivity=permittivity,
        conductivity_s_per_m=conductivity_s_per_m,
        polarisation=polarisation,
    )
    return by_ground + max(sphere - smooth, 0.0)
