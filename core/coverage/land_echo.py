"""How strong the land round a place comes in, cell by cell, beside noise, sea and rain.

Land in sight echoes by its face across the line of sight and by the gamma of its kind of ground
where that is known, else of its slope; sea, air and rain act on it at its height; beam and pulse
gather it (handbook 4.2, 5.6, 6.4, 8).

Left out, each far below the 5 dB to which classes of ground are known: the bending over a
shadow's edge (of all land in sight on a steep coast it takes 3 % at X and 6 % at S band, and land
below the edge adds 0.3 %, measured ray by ray; the lowest few metres behind an edge lose up to
12 dB); a floor of the angle to level ground (where it would count, the field so low over the
water has long died away). Walls lower than the heights' raster can hold echo as the slopes they
are smoothed into.
"""

import math
from dataclasses import dataclass

import numpy as np

from core.base.arrays import BoolArray, Float32Array, FloatArray, Floats, HoldsArrays
from core.coverage.echo_field import EchoField, Surface
from core.coverage.polar_smear import smeared
from core.radar.echo_budget import (
    RAIN_CLUTTER_ALLOWANCE_DB,
    SEA_CLUTTER_ALLOWANCE_DB,
    EchoBudget,
)
from core.radar.land_reflectivity import frequency_step_db, slope_gamma_db
from core.radar.over_sea_field import over_sea_field
from core.radar.resolution_cell import effective_width_rad, elevation_rad
from core.radar.square_law import DetectionRule, required_snr_db
from core.radar.two_ray import mirror_point

GAMMA_ERROR_DB = 5.0
"""How far the gamma of a kind of ground may be off, either way, dB (handbook 6.4)."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LandEcho(HoldsArrays):
    """Mean powers at the receiver, one pulse, W, by the cells of ``field``.

    land_w : (B, N) float32
        The land's echo as beam and pulse gather it; a cell holds what is received at its far
        edge. Where the field's surface is unknown, only what known heights would give.
    sea_w : (B, N) float32
        The sea's own echo, where its water is in sight, gathered likewise.
    rain_w : (N,) float64
        The rain's own echo.
    margin_db : (B, N) float32
        Land over noise, sea and rain with their allowances, beyond what detection needs, dB;
        minus infinity without land.
    """

    field: EchoField
    budget: EchoBudget
    rule: DetectionRule
    gamma_shift_db: float
    noise_w: float
    snr_required_db: float
    land_w: Float32Array
    sea_w: Float32Array
    rain_w: FloatArray
    margin_db: Float32Array


def land_rcs_m2(
    face_m: Floats,
    range_m: Floats,
    steepness_ratio: Floats,
    *,
    frequency_hz: float,
    width_rad: float,
    gamma_shift_db: float = 0.0,
    known_ratio: Floats = 0.0,
    known_gamma: Floats = 0.0,
) -> FloatArray:
    """Radar cross-section of land of a slope in a width of bearings, m2: ``gamma face R theta``.

    Parameters
    ----------
    face_m, range_m : array
        Height across the line of sight and range, m.
    steepness_ratio : array
        Slope of the ground, rise over run; it tells gamma (land_reflectivity.py).
    frequency_hz : float
        Frequency, Hz.
    width_rad : float
        theta, rad.
    gamma_shift_db : float
        Added to every gamma, dB.
    known_ratio, known_gamma : array
        Share of the face that is of a known kind of ground, and gamma of that at 10 GHz, bare;
        the slope tells the gamma of the rest.
    """
    gamma_db = slope_gamma_db(steepness_ratio, frequency_hz) + gamma_shift_db
    gamma = 10.0 ** (gamma_db / 10.0)
    step = 10.0 ** ((frequency_step_db(frequency_hz) + gamma_shift_db) / 10.0)
    gamma = np.where(
        known_ratio, known_gamma * known_ratio * step + gamma * (1.0 - known_ratio), gamma
    )
    return np.asarray(gamma * face_m * range_m * width_rad)


def land_echo(
    field: EchoField,
    budget: EchoBudget,
    *,
    rule: DetectionRule | None = None,
    gamma_shift_db: float = 0.0,
) -> LandEcho:
    """Work out the land's echo and by how much it is detected.

    Parameters
    ----------
    field : EchoField
        What the antenna lights; its antenna and air must be those of the budget. Bearings should
        be a quarter of the beam apart, range cells half a pulse deep or less (handbook 8).
    budget : EchoBudget
        Set, pulse, antenna and conditions.
    rule : DetectionRule, optional
        When it counts as detected; the standard's if None.
    gamma_shift_db : float
        Added to every gamma, dB: ``-GAMMA_ERROR_DB`` for land that echoes poorly.

    Raises
    ------
    ValueError
        The field was lit by another antenna or through other air.
    """
    if (field.antenna_height_m, field.refraction_k) != (
        budget.antenna_height_m,
        budget.conditions.refraction_k,
    ):
        raise ValueError("field and budget are not of the same antenna and air")
    rule = rule or DetectionRule()
    radar, pulse = budget.radar, budget.pulse
    needed_db = required_snr_db(rule.pd, rule.pfa, budget.pulses, rule.fluctuation)
    bearings, cells = field.face_m.shape
    middles_m = (np.arange(cells, dtype=np.float64) + 0.5) * field.cell_m
    land_w = smeared(
        _on_axis_w(field, budget, 2.0 * math.pi / bearings, gamma_shift_db),
        cell_m=field.cell_m,
        beamwidth_deg=radar.horizontal_beamwidth_deg,
        depth_m=pulse.depth_m,
    )
    sea_w = _sea_w(field, budget, middles_m)
    rain_w = budget.rain_power_w(middles_m)
    # Of all cells a few hold land's echo: only those are worked out.
    at = np.flatnonzero(land_w > 0.0)
    background = (
        sea_w.ravel()[at] * np.float32(10.0 ** (SEA_CLUTTER_ALLOWANCE_DB / 10.0))
        + (budget.noise_power_w + rain_w * 10.0 ** (RAIN_CLUTTER_ALLOWANCE_DB / 10.0))[at % cells]
    ).astype(np.float32)
    margin_db = np.full(land_w.shape, -np.inf, dtype=np.float32)
    margin_db.ravel()[at] = np.float32(10.0) * np.log10(
        land_w.ravel()[at] / background
    ) - np.float32(needed_db)
    return LandEcho(
        field=field,
        budget=budget,
        rule=rule,
        gamma_shift_db=gamma_shift_db,
        noise_w=budget.noise_power_w,
        snr_required_db=needed_db,
        land_w=land_w,
        sea_w=sea_w,
        rain_w=rain_w,
        margin_db=margin_db,
    )


def cells_power_w(
    budget: EchoBudget,
    *,
    range_m: FloatArray,
    face_m: FloatArray,
    height_m: FloatArray,
    span_m: FloatArray,
    steepness_ratio: FloatArray,
    has_mirror: BoolArray,
    width_rad: float,
    gamma_shift_db: float,
    known_ratio: Floats = 0.0,
    known_gamma: Floats = 0.0,
) -> FloatArray:
    """Power of the lit ground of cells in the middle of the beam, W: arrays (n,), one a cell.

    ``range_m`` are the cells' middles, ``width_rad`` their width in bearing; without a mirror of
    water the two-ray field has no gain, its losses are left to it. The rest as in ``EchoField``
    and ``land_rcs_m2``.
    """
    rcs_m2 = land_rcs_m2(
        face_m,
        range_m,
        steepness_ratio,
        frequency_hz=budget.radar.frequency_hz,
        width_rad=width_rad,
        gamma_shift_db=gamma_shift_db,
        known_ratio=known_ratio,
        known_gamma=known_gamma,
    )
    f4_db = over_sea_field(budget.sea).f4_db(range_m, height_m, span_m)
    f4_db = np.where(has_mirror, f4_db, np.minimum(f4_db, 0.0))
    k = budget.conditions.refraction_k
    elevation_deg = np.degrees(elevation_rad(range_m, budget.antenna_height_m, height_m, k))
    return budget.echo_power_w(range_m, rcs_m2, 10.0 ** (f4_db / 10.0), elevation_deg)


def _on_axis_w(
    field: EchoField, budget: EchoBudget, width_rad: float, gamma_shift_db: float
) -> Float32Array:
    """Power of each cell's land in the middle of the beam, W."""
    rows, cols = np.divmod(np.flatnonzero(field.face_m > 0.0), field.face_m.shape[1])
    face_m, height_m, span_m, steepness = (
        values[rows, cols].astype(np.float64)
        for values in (field.face_m, field.height_m, field.span_m, field.steepness)
    )
    range_m = (cols.astype(np.float64) + 0.5) * field.cell_m
    known_ratio: Floats = 0.0
    known_gamma: Floats = 0.0
    if field.known_face_m is not None and field.known_gamma is not None:
        known_ratio = field.known_face_m[rows, cols].astype(np.float64) / face_m
        known_gamma = np.nan_to_num(field.known_gamma[rows, cols].astype(np.float64))
    k = field.refraction_k
    mirror_m = mirror_point(range_m, field.antenna_height_m, height_m, k).distance_m
    at = np.clip((mirror_m / field.cell_m).astype(np.int64), 0, field.face_m.shape[1] - 1)
    out = np.zeros(field.face_m.shape, dtype=np.float32)
    out[rows, cols] = cells_power_w(
        budget,
        range_m=range_m,
        face_m=face_m,
        height_m=height_m,
        span_m=span_m,
        steepness_ratio=steepness,
        has_mirror=field.surface[rows, at] == Surface.SEA,
        width_rad=width_rad,
        gamma_shift_db=gamma_shift_db,
        known_ratio=known_ratio,
        known_gamma=known_gamma,
    )
    return out


def _sea_w(field: EchoField, budget: EchoBudget, middles_m: FloatArray) -> Float32Array:
    """The sea's mean echo in each cell: that of all water, by the share that is in sight."""
    power = budget.sea_power_w(middles_m)
    if not power.any():
        return np.zeros(field.face_m.shape, dtype=np.float32)
    beam_deg, depth_m = budget.radar.horizontal_beamwidth_deg, budget.pulse.depth_m
    seen = smeared(
        (field.surface == Surface.SEA).astype(np.float32),
        cell_m=field.cell_m,
        beamwidth_deg=beam_deg,
        depth_m=depth_m,
    )
    bearings = field.face_m.shape[0]
    whole = effective_width_rad(beam_deg) * bearings / (2.0 * math.pi) * depth_m / field.cell_m
    return np.asarray(seen * (power / whole).astype(np.float32))
