"""Where on its way a target over open sea is detected: bands of range, the first, and the lost."""

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from core.base.arrays import BoolArray, FloatArray
from core.radar.echo_budget import SEA_CLUTTER_ALLOWANCE_DB, EchoBudget
from core.radar.over_sea import sea_horizon_m
from core.radar.radar_target import RadarTarget
from core.radar.square_law import DetectionRule, required_snr_db
from core.radar.target_echo import target_power_w, target_snr_db

BRIDGED_GAP_M = 40.0
"""Gaps of detection shorter than this are passed over, m: a ship runs through in seconds."""

_BEYOND_RATIO, _BEYOND_M = 1.5, 20_000.0
_COARSE_STEPS = 600
_FINEST_STEP_M = 5.0
_STEPS_A_LOBE = 16.0
_MOST_LOBE_STEPS = 20_000
_DOUBLINGS = 4
_HALVINGS = 30

_Margin = Callable[[FloatArray], FloatArray]


@dataclass(frozen=True, slots=True, kw_only=True)
class RangeBand:
    """A stretch of range over which a target is detected, m."""

    from_m: float
    to_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class DetectionRanges:
    """Where one target is detected."""

    first_m: float | None
    """Outermost range at which it is detected, m; None if at none."""
    bands: tuple[RangeBand, ...]
    """All stretches, innermost first; short gaps in them are passed over."""
    lost_in_sea_inside_m: float | None
    """Range inside which the sea's echo hides it, m; None where that happens nowhere.

    The outermost range, on the near side of the first detection, at which it is lost although
    it would be detected without the sea's echo and this, as counted, exceeds noise and rain. It
    may come through again farther in where its lobes are strong. Where sea clutter hides it
    everywhere, its first range without.
    """
    snr_required_db: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Detection:
    """Where one target is detected, and all that rests on."""

    budget: EchoBudget
    target: RadarTarget
    rule: DetectionRule
    ranges: DetectionRanges


def detection_of(
    budget: EchoBudget, target: RadarTarget, rule: DetectionRule | None = None
) -> Detection:
    """The ranges of ``detection_ranges`` with what they rest on."""
    rule = rule or DetectionRule()
    return Detection(
        budget=budget, target=target, rule=rule, ranges=detection_ranges(budget, target, rule)
    )


def detection_ranges(
    budget: EchoBudget, target: RadarTarget, rule: DetectionRule | None = None
) -> DetectionRanges:
    """Find where a target is detected, from half a pulse out to beyond the horizon.

    Parameters
    ----------
    budget : EchoBudget
        Set, pulse, antenna and conditions.
    target : RadarTarget
        What is looked at.
    rule : DetectionRule, optional
        When it counts as detected; the standard's if None.
    """
    rule = rule or DetectionRule()
    needed_db = required_snr_db(rule.pd, rule.pfa, budget.pulses, rule.fluctuation)

    def margin_db(range_m: FloatArray) -> FloatArray:
        return target_snr_db(budget, target, range_m) - needed_db

    range_m = _ranges_to_try(budget, target, margin_db)
    margins_db = margin_db(range_m)
    bands = _bands(range_m, margins_db, margin_db)
    first_m = bands[-1].to_m if bands else None
    return DetectionRanges(
        first_m=first_m,
        bands=_bridged(bands),
        lost_in_sea_inside_m=_lost_inside_m(budget, target, needed_db, range_m, first_m),
        snr_required_db=needed_db,
    )


def _ranges_to_try(budget: EchoBudget, target: RadarTarget, margin_db: _Margin) -> FloatArray:
    """Ranges fine enough for every lobe that is not passed over, out to where all is lost."""
    least_m = max(budget.pulse.depth_m, 1.0)
    horizon_m = float(sea_horizon_m(budget.sea, target.height_m))
    most_m = _BEYOND_RATIO * horizon_m + _BEYOND_M
    for _ in range(_DOUBLINGS):
        # Beyond the horizon the field only falls, so one look is enough.
        if float(margin_db(np.array([most_m]))[0]) < 0.0:
            break
        most_m *= 2.0
    coarse = np.linspace(least_m, most_m, _COARSE_STEPS)
    # Lobes are even in 1 / R: path difference 2 h1 h2 / R in waves.
    lobes_m = 2.0 * budget.antenna_height_m * target.height_m / budget.sea.wavelength_m
    finest_from_m = np.sqrt(_FINEST_STEP_M * _STEPS_A_LOBE * lobes_m)
    fine = np.arange(least_m, min(finest_from_m, horizon_m, most_m), _FINEST_STEP_M)
    start_m = max(finest_from_m, least_m)
    count = int(_STEPS_A_LOBE * max(lobes_m / start_m - lobes_m / horizon_m, 0.0))
    even = np.linspace(1.0 / start_m, 1.0 / max(horizon_m, start_m), min(count, _MOST_LOBE_STEPS))
    return np.unique(np.concatenate([coarse, fine, 1.0 / even]))


def _bands(
    range_m: FloatArray, margins_db: FloatArray, margin_db: _Margin
) -> tuple[RangeBand, ...]:
    """Stretches with a margin of zero and more, their ends found by halving."""
    is_seen = margins_db >= 0.0
    changes = np.flatnonzero(is_seen[1:] != is_seen[:-1])
    edges = _edges(range_m[changes], range_m[changes + 1], is_seen[changes], margin_db)
    if is_seen.size and is_seen[0]:
        edges = np.concatenate([range_m[:1], edges])
    if is_seen.size and is_seen[-1]:
        edges = np.concatenate([edges, range_m[-1:]])
    return tuple(
        RangeBand(from_m=float(a), to_m=float(b))
        for a, b in zip(edges[::2], edges[1::2], strict=True)
    )


def _edges(
    near_m: FloatArray, far_m: FloatArray, is_near_seen: BoolArray, margin_db: _Margin
) -> FloatArray:
    near, far = near_m.copy(), far_m.copy()
    for _ in range(_HALVINGS if near.size else 0):
        middle = (near + far) / 2.0
        like_near = (margin_db(middle) >= 0.0) == is_near_seen
        near = np.where(like_near, middle, near)
        far = np.where(like_near, far, middle)
    return (near + far) / 2.0


def _bridged(bands: tuple[RangeBand, ...]) -> tuple[RangeBand, ...]:
    out: list[RangeBand] = []
    for band in bands:
        if out and band.from_m - out[-1].to_m < BRIDGED_GAP_M:
            out[-1] = replace(out[-1], to_m=band.to_m)
        else:
            out.append(band)
    return tuple(out)


def _lost_inside_m(
    budget: EchoBudget,
    target: RadarTarget,
    needed_db: float,
    range_m: FloatArray,
    first_m: float | None,
) -> float | None:
    if budget.conditions.sea_state <= 0.0:
        return None

    def lost(at_m: FloatArray) -> BoolArray:
        power = target_power_w(budget, target, at_m) / 10.0 ** (needed_db / 10.0)
        background = budget.background_power_w(at_m)
        sea = budget.sea_power_w(at_m) * 10.0 ** (SEA_CLUTTER_ALLOWANCE_DB / 10.0)
        rest = background - sea
        is_hidden = (power < background) & (power >= rest)
        return np.asarray(is_hidden & ((sea >= rest) | (first_m is None)))

    is_lost = lost(range_m)
    if first_m is not None:
        is_lost &= range_m < first_m
    places = np.flatnonzero(is_lost)
    if not places.size:
        return None
    last = int(places[-1])
    if last + 1 == range_m.size:
        return float(range_m[-1])
    (edge,) = _edges(
        range_m[last : last + 1],
        range_m[last + 1 : last + 2],
        np.array([False]),
        lambda at_m: np.where(lost(at_m), -1.0, 1.0),
    )
    return float(edge)
