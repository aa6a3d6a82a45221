"""By how much single pieces of land are detected, from what of them is lit."""

import math

import numpy as np

from core.base.arrays import Float32Array, FloatArray, Floats, IntArray
from core.base.compiled import kernel
from core.coverage.land_echo import cells_power_w
from core.coverage.piece_light import Light
from core.coverage.polar_smear import beam_weights
from core.radar.echo_budget import EchoBudget
from core.radar.square_law import DetectionRule, required_snr_db


def bin_rad_of(budget: EchoBudget) -> float:
    """Step of the bearings that suits a beam: a quarter of it, a whole number to the circle."""
    return 2.0 * math.pi / _bins_round(budget)


def _bins_round(budget: EchoBudget) -> int:
    return math.ceil(4.0 * 360.0 / budget.radar.horizontal_beamwidth_deg)


@kernel
def _strongest(
    power: Float32Array,
    bins: IntArray,
    cells: IntArray,
    first_cell: IntArray,
    offset: IntArray,
    weights: FloatArray,
    whole: int,
    part: float,
    background: FloatArray,
    needed: float,
    best: FloatArray,
) -> None:
    """Greatest power over background times what is needed, of all that beam and pulse gather."""
    half = weights.size // 2
    for t in range(bins.size):
        count = cells[t]
        upto = np.zeros(count + 1)
        top = 0.0
        for axis in range(bins[t]):
            for n in range(count):
                total = 0.0
                for b in range(max(axis - half, 0), min(axis + half + 1, bins[t])):
                    total += weights[b - axis + half] * power[offset[t] + b * count + n]
                upto[n + 1] = upto[n] + total
            for n in range(count):
                gathered = upto[n + 1] - upto[max(n + 1 - whole, 0)]
                if n >= whole:
                    gathered += part * (upto[n + 1 - whole] - upto[n - whole])
                over = gathered / background[min(first_cell[t] + n, background.size - 1)]
                top = max(top, over)
        best[t] = 10.0 * math.log10(top) - needed if top > 0.0 else -math.inf


def piece_margins_db(
    light: Light,
    budget: EchoBudget,
    *,
    rule: DetectionRule | None = None,
    gamma_shift_db: float = 0.0,
) -> FloatArray:
    """Greatest margin of each lit piece over detection, dB; minus infinity where none is lit.

    Parameters
    ----------
    light : Light
        n pieces; of the budget's antenna and air, with bearings a quarter of its beam apart.
    budget : EchoBudget
        Set, pulse, antenna and conditions.
    rule : DetectionRule, optional
        When it counts as detected; the standard's if None.
    gamma_shift_db : float
        Added to every gamma, dB.

    Returns
    -------
    (n,) array

    Raises
    ------
    ValueError
        The light is of another antenna or other air.
    """
    eye = light.eye
    if (eye.antenna_height_m, eye.refraction_k) != (
        budget.antenna_height_m,
        budget.conditions.refraction_k,
    ):
        raise ValueError("light and budget are not of the same antenna and air")
    rule = rule or DetectionRule()
    best = np.full(light.piece.size, -np.inf)
    lit = np.flatnonzero(light.face_m)
    if not lit.size:
        return best
    of = np.searchsorted(light.offset, lit, side="right") - 1
    cell = light.first_cell[of] + (lit - light.offset[of]) % light.cells[of]
    known_ratio: Floats = 0.0
    known_gamma: Floats = 0.0
    if light.known_face_m.size:
        known_ratio = light.known_face_m[lit].astype(np.float64) / light.face_m[lit]
        known_gamma = light.known_gamma[lit].astype(np.float64)
    power = np.zeros(light.face_m.shape, dtype=np.float32)
    power[lit] = cells_power_w(
        budget,
        range_m=(cell + 0.5) * light.cell_m,
        face_m=light.face_m[lit].astype(np.float64),
        height_m=light.height_m[lit].astype(np.float64),
        span_m=light.span_m[lit].astype(np.float64),
        steepness_ratio=light.steepness[lit].astype(np.float64),
        has_mirror=light.has_mirror[of],
        width_rad=light.bin_rad,
        gamma_shift_db=gamma_shift_db,
        known_ratio=known_ratio,
        known_gamma=known_gamma,
    )
    last = int((light.first_cell + light.cells).max())
    depth_cells = budget.pulse.depth_m / light.cell_m
    whole = int(depth_cells + 1e-9)
    _strongest(
        power,
        light.bins,
        light.cells,
        light.first_cell,
        light.offset,
        beam_weights(round(2.0 * math.pi / light.bin_rad), budget.radar.horizontal_beamwidth_deg),
        whole,
        max(depth_cells - whole, 0.0),
        budget.background_power_w((np.arange(last, dtype=np.float64) + 0.5) * light.cell_m),
        required_snr_db(rule.pd, rule.pfa, budget.pulses, rule.fluctuation),
        best,
    )
    return best
