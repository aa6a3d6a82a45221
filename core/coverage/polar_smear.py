"""What beam and pulse make of powers by bearing and range: each cell gathers from its like."""

import math

import numpy as np

from core.base.arrays import Float32Array, FloatArray
from core.base.compiled import kernel
from core.radar.resolution_cell import beam_gain_db, effective_width_rad

_WIDTHS = 1.5
"""How far off its axis a beam gathers, in half-power widths: -54 dB there and back."""


@kernel
def _gather(
    power: Float32Array,
    weights: FloatArray,
    whole: int,
    part: float,
    out: Float32Array,
) -> None:
    """Weighted sum over neighbouring rows, then over ``whole + part`` cells up to each."""
    rows, cells = power.shape
    half = weights.size // 2
    first = np.empty(rows, dtype=np.int64)
    end = np.empty(rows, dtype=np.int64)
    for b in range(rows):
        n = 0
        while n < cells and power[b, n] == 0.0:
            n += 1
        first[b] = n
        n = cells
        while n > first[b] and power[b, n - 1] == 0.0:
            n -= 1
        end[b] = n
    beam = np.empty(cells)
    upto = np.empty(cells + 1)
    upto[0] = 0.0
    for b in range(rows):
        beam[:] = 0.0
        low = cells
        for j in range(weights.size):
            source = (b + j - half) % rows
            low = min(low, first[source])
            weight = weights[j]
            for n in range(first[source], end[source]):
                beam[n] += weight * power[source, n]
        out[b, :low] = 0.0
        upto[: low + 1] = 0.0
        for n in range(low, cells):
            upto[n + 1] = upto[n] + beam[n]
            total = upto[n + 1] - upto[max(n + 1 - whole, 0)]
            if n >= whole:
                total += part * beam[n - whole]
            # Sums of many differ in their last digits: never less than what lies here.
            out[b, n] = max(total, 0.0)


def beam_weights(bearing_count: int, beamwidth_deg: float) -> FloatArray:
    """Weights of the bearings round the axis of a Gaussian beam, there and back: (2 m + 1,).

    They add up to the beam's effective width over the step of the bearings, so that spread echoes
    add up to what ``surface_cell_m2`` gives, however coarse the step.
    """
    step_deg = 360.0 / bearing_count
    half = min(math.ceil(_WIDTHS * beamwidth_deg / step_deg), (bearing_count - 1) // 2)
    off_deg = np.arange(-half, half + 1, dtype=np.float64) * step_deg
    weights = 10.0 ** (2.0 * beam_gain_db(off_deg, beamwidth_deg) / 10.0)
    wanted = effective_width_rad(beamwidth_deg) / math.radians(step_deg)
    return np.asarray(weights * (wanted / weights.sum()))


def smeared(
    power: Float32Array, *, cell_m: float, beamwidth_deg: float, depth_m: float
) -> Float32Array:
    """Power by bearing and range as beam and pulse gather it.

    Parameters
    ----------
    power : (B, N) float32
        Power each cell would give in the middle of the beam, >= 0; rows go round the circle.
    cell_m : float
        Depth of a range cell, m.
    beamwidth_deg : float
        Half-power width, one way, deg; a step of the bearings should be a quarter of it or less.
    depth_m : float
        c tau / 2, m. An echo reaches that far outward from where it stands. What stands in a cell
        deeper than this is taken as spread evenly over it, and counts by the share that the
        pulse holds at a time.

    Returns
    -------
    (B, N) float32
        What is received at the far edge of each cell.
    """
    whole = int(depth_m / cell_m + 1e-9)
    out = np.empty_like(power)
    _gather(
        power,
        beam_weights(power.shape[0], beamwidth_deg),
        whole,
        max(depth_m / cell_m - whole, 0.0),
        out,
    )
    return out
