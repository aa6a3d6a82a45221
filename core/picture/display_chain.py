"""From powers to what is painted: tuning, sea and rain clutter controls, threshold, speckle.

An echo's margin is the least of three, each in dB over what detection needs:

- over the threshold: ``echo - needed - mistuning + gain - STC - FTC``;
- over noise and clutter spikes, which no control changes but mistuning (the margin of
  ``land_echo.py``, so a well set picture in calm weather agrees with the coverage);
- where clutter shows, what it leaves of the screen: clutter over the threshold by more than
  ``DISPLAY_RANGE_DB`` leaves no room for an echo.
"""

import math
from dataclasses import dataclass
from enum import IntEnum
from typing import NamedTuple

import numpy as np

from core.base.arrays import ByteArray, Float32Array, FloatArray, HoldsArrays, IntArray
from core.base.compiled import inlined, kernel
from core.coverage.land_echo import GAMMA_ERROR_DB
from core.picture.controls import (
    STC_REACH_M,
    Controls,
    rain_rate,
    speckle_rate,
    stc_db,
    threshold_db,
    two_scans_cost_db,
)
from core.picture.picture_view import Ground, Own, PictureView
from core.radar.echo_budget import RAIN_CLUTTER_ALLOWANCE_DB, SEA_CLUTTER_ALLOWANCE_DB

UNCERTAIN_DB = GAMMA_ERROR_DB
"""An echo less than this off the threshold, either way, may or may not paint."""
STRONG_DB = 20.0
"""An echo paints full from this margin on, dB (ours; about the range of a display)."""
DISPLAY_RANGE_DB = 20.0
"""From first paint to full brightness, dB (of the order of a display's, no source)."""
SHADOW_SECTOR_LOSS_DB = 10.0
"""What a shadow sector takes from an echo, dB: small targets are lost, large ones show (ship
files state no figure; no source)."""
_STRETCH_SCALES = 0.01
"""Echo stretch lengthens by a pulse, or by this share of the scale if that is more (ours)."""
_SEA_SPIKES = 10.0 ** (SEA_CLUTTER_ALLOWANCE_DB / 10.0)
_RAIN_SPIKES = 10.0 ** (RAIN_CLUTTER_ALLOWANCE_DB / 10.0)
_LEAST_RATIO = 1e-3
"""Clutter below this share of noise is left out."""
_NONE_DB = -100.0
_OPEN = 0.999
"""A share of the sea in sight that counts as all of it."""


class Paint(IntEnum):
    """What a cell or pixel shows. Of several in one pixel the greatest code is shown."""

    OUTSIDE = 0
    NOTHING = 1
    """In sight, and nothing is expected to paint."""
    BELOW_HORIZON = 2
    SHADOW = 3
    BLIND = 4
    UNKNOWN = 5
    SPECKLE = 6
    CLUTTER = 7
    UNCERTAIN = 8
    PAINTED = 9
    STRONG = 10


_BLIND = int(Paint.BLIND)
_SPECKLE = int(Paint.SPECKLE)
_CLUTTER = int(Paint.CLUTTER)
_UNCERTAIN = int(Paint.UNCERTAIN)
_PAINTED = int(Paint.PAINTED)
_STRONG = int(Paint.STRONG)
_UNKNOWN = int(Ground.UNKNOWN)
_OWN_BLIND = int(Own.BLIND)
_OWN_SHADOW = int(Own.SHADOW)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Display(HoldsArrays):
    """What a set-up makes of a view.

    paint : (B, N) uint8, ``Paint``
    margin_db : (B, N) float32
        Of the echo in the cell, dB; -100 or less where there is none, or own structure is before
        it.
    """

    controls: Controls
    paint: ByteArray
    margin_db: Float32Array


class _Chain(NamedTuple):
    """Numbers of the controls as the kernels take them."""

    needed: float
    loss: float
    ftc: float
    back: int
    threshold: float
    two: bool
    stretch: int
    stc: FloatArray
    over: FloatArray
    speckle: FloatArray
    rain: FloatArray
    rain_rate: FloatArray
    open_sea: FloatArray
    open_level: FloatArray
    open_taken: FloatArray
    open_rate: FloatArray


def _chain(view: PictureView, controls: Controls) -> _Chain:
    rule, pulses = view.rule, view.budget.pulses
    depth_m = view.budget.pulse.depth_m
    cut_db = stc_db(view.middles_m, controls.sea_clutter)
    over_db = controls.gain_db - cut_db
    level_db = threshold_db(rule, pulses)
    two = controls.interference_rejection
    back = max(round(depth_m / view.cell_m), 1)
    # Where the sea is open and the weather even, all depends on the range alone.
    clutter = np.maximum(view.open_sea_ratio, view.rain_ratio)
    taken_db = _taken_db(_over_noise_db(clutter), cut_db, controls, back)
    rain_taken_db = _taken_db(_over_noise_db(view.rain_ratio), cut_db, controls, back)
    shown_db = over_db - controls.mistuning_db - level_db
    sea_over = view.open_sea_ratio * 10.0 ** ((shown_db - taken_db) / 10.0)
    return _Chain(
        needed=view.snr_required_db + (two_scans_cost_db(rule, pulses) if two else 0.0),
        loss=controls.mistuning_db,
        ftc=controls.rain_clutter,
        back=back,
        threshold=level_db,
        two=two,
        stretch=math.ceil(max(depth_m, _STRETCH_SCALES * view.scale_m) / view.cell_m)
        if controls.echo_stretch
        else 0,
        stc=cut_db,
        over=over_db,
        speckle=speckle_rate(over_db, rule, pulses),
        rain=view.rain_ratio,
        rain_rate=rain_rate(view.rain_ratio * 10.0 ** ((shown_db - rain_taken_db) / 10.0)),
        open_sea=view.open_sea_ratio,
        open_level=_over_noise_db(clutter),
        open_taken=taken_db,
        open_rate=np.exp(-1.0 / np.maximum(sea_over, 1e-3)),
    )


def _over_noise_db(ratio: FloatArray) -> FloatArray:
    return np.asarray(10.0 * np.log10(np.maximum(ratio, 1.0)))


def _taken_db(
    level_db: FloatArray, cut_db: FloatArray, controls: Controls, back: int
) -> FloatArray:
    """What the rain clutter control takes off behind levels that depend on the range alone."""
    taken = np.zeros(level_db.shape)
    nearer = level_db[:-back] - controls.mistuning_db - cut_db[:-back]
    taken[back:] = controls.rain_clutter * np.maximum(nearer, 0.0)
    return taken


@kernel
def _draw(b: int, n: int, seed: int) -> float:
    """A number from 0 to 1 that belongs to a cell: splitmix64, from memory."""
    z = np.uint64(seed) * np.uint64(0x9E3779B97F4A7C15)
    z += np.uint64(b) * np.uint64(0xD1B54A32D192ED03) + np.uint64(n) * np.uint64(0x8CB92BA72F3D8DD7)
    z = (z ^ (z >> np.uint64(30))) * np.uint64(0xBF58476D1CE4E5B9)
    z = (z ^ (z >> np.uint64(27))) * np.uint64(0x94D049BB133111EB)
    z = z ^ (z >> np.uint64(31))
    return float(z >> np.uint64(11)) * (1.0 / 9007199254740992.0)


@inlined
def _level_db(echo: float, sea: float, rain: float, open_sea: float, open_level: float) -> float:
    """The strongest of echo, sea and rain over noise, dB, not below 0."""
    if sea >= _OPEN * open_sea:
        return max(echo, open_level)
    clutter = max(sea, rain)
    if clutter > 1.0:
        return max(echo, 10.0 * math.log10(clutter))
    return max(echo, 0.0)


@inlined
def _margin(
    echo: float,
    spikes: float,
    loss: float,
    own_loss: float,
    taken: float,
    over: float,
    needed: float,
    threshold: float,
) -> float:
    """Margin of an echo, dB; see the head of the module."""
    echo -= own_loss
    by_threshold = echo - needed - loss + over - taken
    if spikes < _LEAST_RATIO:
        return min(by_threshold, echo - needed - loss)
    by_contrast = echo - needed - 10.0 * math.log10(math.pow(10.0, 0.1 * loss) + spikes)
    full = 10.0 * math.log10(spikes) - loss - taken + over - threshold
    least = min(by_threshold, by_contrast)
    return min(least, DISPLAY_RANGE_DB - full) if full > 0.0 else least


@kernel
def _show(
    echo_db: Float32Array,
    sea_ratio: Float32Array,
    ground: ByteArray,
    own: ByteArray,
    seed: int,
    chain: _Chain,
    paint: ByteArray,
    margin_db: Float32Array,
) -> None:
    """Every cell through the chain."""
    needed, loss, ftc, back = chain.needed, chain.loss, chain.ftc, chain.back
    threshold, two, stretch = chain.threshold, chain.two, chain.stretch
    over, speckle, stc = chain.over, chain.speckle, chain.stc
    rain, rain_lit, open_sea = chain.rain, chain.rain_rate, chain.open_sea
    open_level, open_taken, open_lit = chain.open_level, chain.open_taken, chain.open_rate
    bearings, cells = echo_db.shape
    level = math.pow(10.0, 0.1 * threshold)
    factor = np.empty(cells)
    raw = np.empty(cells, dtype=np.uint8)
    for n in range(cells):
        factor[n] = math.pow(10.0, 0.1 * (over[n] - loss)) / level
    for b in range(bearings):
        own_loss = SHADOW_SECTOR_LOSS_DB if own[b] == _OWN_SHADOW else 0.0
        for n in range(cells):
            margin_db[b, n] = _NONE_DB
            if ground[b, n] == _UNKNOWN:
                paint[b, n] = _UNKNOWN
                continue
            if own[b] == _OWN_BLIND:
                paint[b, n] = _BLIND
                continue
            sea = float(sea_ratio[b, n])
            taken = 0.0
            if ftc > 0.0 and n >= back:
                k = n - back
                nearer = _level_db(
                    echo_db[b, k], sea_ratio[b, k], rain[k], open_sea[k], open_level[k]
                )
                taken = ftc * max(nearer - loss - stc[k], 0.0)
            shown = int(ground[b, n])
            echo = float(echo_db[b, n])
            if echo > _NONE_DB:
                spikes = _SEA_SPIKES * sea + _RAIN_SPIKES * rain[n]
                m = _margin(echo, spikes, loss, own_loss, taken, over[n], needed, threshold)
                margin_db[b, n] = m
                if m >= STRONG_DB:
                    shown = _STRONG
                elif m >= UNCERTAIN_DB:
                    shown = _PAINTED
                elif m > -UNCERTAIN_DB:
                    shown = _UNCERTAIN
            if shown < _CLUTTER:
                lit = rain_lit[n]
                if sea >= _LEAST_RATIO:
                    if sea >= _OPEN * open_sea[n] and abs(taken - open_taken[n]) < 1e-6:
                        lit = max(lit, open_lit[n])
                    else:
                        mean = sea * factor[n] * math.pow(10.0, -0.1 * taken)
                        lit = max(lit, math.exp(-1.0 / mean) if mean > 0.02 else 0.0)
                rate = max(lit, speckle[n])
                u = _draw(b, n, seed)
                if u < rate and two:
                    u = max(u, _draw(b, n, seed + 1))
                if u < lit:
                    shown = _CLUTTER
                elif u < rate:
                    shown = _SPECKLE
            paint[b, n] = shown
        if stretch > 0:
            raw[:] = paint[b]
            for n in range(1, cells):
                if raw[n] != _UNKNOWN and raw[n] != _BLIND:
                    for k in range(max(n - stretch, 0), n):
                        if raw[k] >= _SPECKLE and raw[k] > paint[b, n]:
                            paint[b, n] = raw[k]


@kernel
def _at_cells(
    rows: IntArray,
    cols: IntArray,
    echo: FloatArray,
    echo_db: Float32Array,
    sea_ratio: Float32Array,
    own: ByteArray,
    chain: _Chain,
    out: FloatArray,
) -> None:
    needed, loss, ftc, back = chain.needed, chain.loss, chain.ftc, chain.back
    over, rain, stc = chain.over, chain.rain, chain.stc
    open_sea, open_level = chain.open_sea, chain.open_level
    for i in range(rows.size):
        b, n = rows[i], cols[i]
        if own[b] == _OWN_BLIND:
            out[i] = _NONE_DB
            continue
        taken = 0.0
        if ftc > 0.0 and n >= back:
            k = n - back
            nearer = _level_db(echo_db[b, k], sea_ratio[b, k], rain[k], open_sea[k], open_level[k])
            taken = ftc * max(nearer - loss - stc[k], 0.0)
        spikes = _SEA_SPIKES * float(sea_ratio[b, n]) + _RAIN_SPIKES * rain[n]
        own_loss = SHADOW_SECTOR_LOSS_DB if own[b] == _OWN_SHADOW else 0.0
        out[i] = _margin(echo[i], spikes, loss, own_loss, taken, over[n], needed, chain.threshold)


def display(view: PictureView, controls: Controls) -> Display:
    """What the set shows with these controls.

    Speckle and clutter are drawn cell by cell from a seed that belongs to the place, so the same
    place and set-up give the same picture, and more gain only adds to it.
    """
    paint = np.empty(view.echo_db.shape, dtype=np.uint8)
    margin_db = np.empty(view.echo_db.shape, dtype=np.float32)
    _show(
        view.echo_db,
        view.sea_ratio,
        view.ground,
        view.own,
        view.seed,
        _chain(view, controls),
        paint,
        margin_db,
    )
    return Display(controls=controls, paint=paint, margin_db=margin_db)


def margins_at(
    view: PictureView, controls: Controls, rows: IntArray, cols: IntArray, echo_db: FloatArray
) -> FloatArray:
    """Margins, dB, of echoes of given strengths over noise (dB) in given cells: all (n,)."""
    out = np.empty(rows.size)
    _at_cells(
        rows,
        cols,
        echo_db,
        view.echo_db,
        view.sea_ratio,
        view.own,
        _chain(view, controls),
        out,
    )
    return out


def well_set(view: PictureView) -> Controls:
    """The controls as good practice sets them for this view's weather.

    Tuned; gain at light, even speckle; the sea clutter control reaching as far as the sea's mean
    echo meets noise, off in a glassy sea; the rain clutter control off without rain, and in rain
    no more than brings its mean down to the threshold outside a quarter of the scale;
    interference rejection and echo stretch off (handbook 8 and 11; common practice, no source).
    """
    middles_m = view.middles_m
    sea = view.budget.sea_power_w(middles_m) / view.budget.noise_power_w
    over = np.flatnonzero(sea >= 1.0)
    sea_clutter = min(float(middles_m[over[-1]]) / STC_REACH_M, 1.0) if over.size else 0.0
    away = middles_m >= view.scale_m / 4.0
    rain_db = 10.0 * np.log10(np.maximum(view.rain_ratio, 1e-12)) - stc_db(middles_m, sea_clutter)
    most_db = float(rain_db[away].max())
    level_db = threshold_db(view.rule, view.budget.pulses)
    rain_clutter = 1.0 - level_db / most_db if most_db > level_db > 0.0 else 0.0
    return Controls(sea_clutter=sea_clutter, rain_clutter=rain_clutter)
