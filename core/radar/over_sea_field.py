"""The two-way factor F^4 over open sea for a million cells: rule F3, compiled.

The same physics as ``over_sea.py``. What is costly there, reflection and roughness, depends on
the grazing angle alone and is read from a table; the phase is computed for each cell, since lobes
are far too fine for a table in range and height. Against ``over_sea.py`` the error is below
0.001 dB two-way, in nulls too (measured in the tests), at 0.12 s a million cells on one core.

Land does not stand in one point: within a cell its facets fill a span of heights, over which
lobes average out. With a span given, the power is averaged over it: lobes in closed form within
each of up to nine parts, the rest by the middle of the parts. Against 2000 heights in each span
0.08 dB rms and 0.8 dB at most, just before the horizon.
"""

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from core.base.arrays import FloatArray, Floats, HoldsArrays
from core.base.compiled import inlined, kernel
from core.radar.over_sea import LOWEST_DB, OverSea
from core.radar.sea_surface import mirror_coefficient, roughness_ratio
from core.radar.smooth_earth import diffraction_scales

_TABLE_SIZE = 8192
_MOST_PARTS = 9
_LEAST_POWER = 10.0 ** (2.0 * LOWEST_DB / 10.0)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OverSeaField(HoldsArrays):
    """Rule F3 made ready for one antenna, wave, air and sea."""

    sea: OverSea
    strength: FloatArray
    """Reflected share of the field over ``sqrt(t / (1 + t))``, t the tangent of grazing."""
    turn_rad: FloatArray
    """Phase of the reflection over the same."""

    def f4_db(self, range_m: Floats, height_m: Floats, span_m: Floats = 0.0) -> FloatArray:
        """Two-way propagation factor F^4, dB.

        Parameters
        ----------
        range_m, height_m : array
            Range along the sea, m, > 0, and height of the target's middle, m; broadcast.
        span_m : array
            Vertical extent over which the power is spread evenly, m; 0 is a point. What of it
            would lie below the water counts as at the water.
        """
        sea = self.sea
        d, h, span = np.broadcast_arrays(
            np.asarray(range_m, np.float64),
            np.asarray(height_m, np.float64),
            np.asarray(span_m, np.float64),
        )
        scales = diffraction_scales(
            frequency_hz=sea.frequency_hz,
            earth_m=sea.earth_m,
            permittivity=sea.permittivity.real,
            conductivity_s_per_m=sea.conductivity,
            polarisation=sea.polarisation,
        )
        out = np.empty(d.size)
        _f4_db(
            np.ascontiguousarray(d.ravel()),
            np.ascontiguousarray(h.ravel()),
            np.ascontiguousarray(span.ravel()),
            float(sea.antenna_height_m),
            float(sea.earth_m),
            sea.wavelength_m,
            self.strength,
            self.turn_rad,
            scales.x_per_m,
            scales.b_per_m,
            scales.least_gain_db,
            out,
        )
        return out.reshape(d.shape)


@lru_cache(maxsize=16)
def over_sea_field(sea: OverSea) -> OverSeaField:
    """Make rule F3 ready: tables of the sea's reflection by grazing angle."""
    place = np.linspace(0.0, 1.0, _TABLE_SIZE)
    share = np.minimum(place * place, 1.0 - 1e-9)
    grazing = np.arctan(share / (1.0 - share))
    mirror = mirror_coefficient(grazing, sea.permittivity, sea.polarisation)
    rough = roughness_ratio(sea.rms_wave_m, grazing, sea.wavelength_m)
    return OverSeaField(
        sea=sea, strength=np.abs(mirror) * rough, turn_rad=np.unwrap(np.angle(mirror))
    )


@inlined
def _gain_db(b: float, least: float) -> float:
    """Height gain of the residue series, b as in ``DiffractionScales``."""
    if b > 2.0:
        return max(17.6 * math.sqrt(b - 1.1) - 5.0 * math.log10(b - 1.1) - 8.0, least)
    low = max(b, 1e-9)
    return max(20.0 * math.log10(low + 0.1 * low * low * low), least)


@inlined
def _bent_power(
    d: float, h2: float, own_gain: float, x_per_m: float, b_per_m: float, least: float
) -> float:
    """F^4 by the first term of diffraction (smooth_earth.py)."""
    x = x_per_m * d
    if x >= 1.6:
        db = 11.0 + 10.0 * math.log10(x) - 17.6 * x
    else:
        db = -20.0 * math.log10(x) - 5.6488 * x**1.425
    db += own_gain + _gain_db(b_per_m * h2, least)
    return math.pow(10.0, 0.2 * db)


@inlined
def _sinc(x: float) -> float:
    """Mean of a cosine over an angle x to each side, beside its value in the middle."""
    return math.sin(x) / x if x > 1e-6 else 1.0


@inlined
def _power(
    d: float,
    h1: float,
    h2: float,
    span: float,
    earth: float,
    wave: float,
    strength: FloatArray,
    turn: FloatArray,
    own_gain: float,
    x_per_m: float,
    b_per_m: float,
    least: float,
) -> float:
    """F^4 at one range and height, lobes averaged over a span of heights."""
    if d >= math.sqrt(2.0 * earth) * (math.sqrt(h1) + math.sqrt(h2)):
        return _bent_power(d, h2, own_gain, x_per_m, b_per_m, least)
    p = 1.1547005383792515 * math.sqrt(earth * (h1 + h2) + d * d / 4.0)
    xi = math.asin(min(max(2.0 * earth * (h1 - h2) * d / (p * p * p), -1.0), 1.0))
    d1 = d / 2.0 + p * math.sin(xi / 3.0)
    d2 = d - d1
    up1 = h1 - d1 * d1 / (2.0 * earth)
    up2 = h2 - d2 * d2 / (2.0 * earth)
    longer = (
        4.0
        * up1
        * up2
        / (math.sqrt(d * d + (up1 + up2) ** 2) + math.sqrt(d * d + (up1 - up2) ** 2))
    )
    tangent = max(up1 / d1, 0.0)
    place = math.sqrt(tangent / (1.0 + tangent)) * (strength.size - 1)
    at = min(int(place), strength.size - 2)
    part = place - at
    sine = max(tangent / math.sqrt(1.0 + tangent * tangent), 1e-9)
    spread = 1.0 + max(2.0 * d1 * d2 / (earth * d * sine), 0.0)
    a = (strength[at] + part * (strength[at + 1] - strength[at])) / math.sqrt(spread)
    angle = turn[at] + part * (turn[at + 1] - turn[at]) - 2.0 * math.pi * longer / wave
    # (1 + a^2 + 2 a cos)^2 in whole multiples of the angle, each averaged over the span.
    half = 2.0 * math.pi * up1 * span / (d * wave)
    one = 1.0 + a * a
    power = one * one + 2.0 * a * a
    once = math.cos(angle)
    mean = _sinc(half)
    power += 4.0 * a * one * mean * once
    power += 2.0 * a * a * mean * math.cos(half) * (2.0 * once * once - 1.0)
    if longer < 0.25 * wave:
        power = min(power, _bent_power(d, h2, own_gain, x_per_m, b_per_m, least))
    return float(power)


@kernel
def _f4_db(
    d: FloatArray,
    h: FloatArray,
    span: FloatArray,
    h1: float,
    earth: float,
    wave: float,
    strength: FloatArray,
    turn: FloatArray,
    x_per_m: float,
    b_per_m: float,
    least: float,
    out: FloatArray,
) -> None:
    own_gain = _gain_db(b_per_m * h1, least)
    for i in range(d.size):
        top = h[i] + span[i] / 2.0
        low = max(h[i] - span[i] / 2.0, 0.0)
        extent = max(top - low, 0.0)
        # Parts of two lobes, since they average in closed form; more where the span begins low,
        # since there the field rises steeply with height.
        parts = 1 + int(extent * h1 / (wave * d[i]) + 8.0 * extent / max(top, 1e-9))
        parts = min(parts, _MOST_PARTS)
        step = extent / parts
        total = 0.0
        for part in range(parts):
            middle = max(low + (part + 0.5) * step, 0.0)
            total += _power(
                d[i],
                h1,
                middle,
                step,
                earth,
                wave,
                strength,
                turn,
                own_gain,
                x_per_m,
                b_per_m,
                least,
            )
        out[i] = 10.0 * math.log10(max(total / parts, _LEAST_POWER))
