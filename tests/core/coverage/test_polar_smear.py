"""Beam and pulse over a field of powers, against loops and closed forms."""

import math

import numpy as np
import pytest

from core.coverage.polar_smear import beam_weights, smeared


def _by_hand(power: np.ndarray, cell_m: float, beam_deg: float, depth_m: float) -> np.ndarray:
    rows, cells = power.shape
    weights = beam_weights(rows, beam_deg)
    half = weights.size // 2
    out = np.zeros(power.shape)
    for b in range(rows):
        gathered = sum(
            weights[half + j] * power[(b + j) % rows].astype(float) for j in range(-half, half + 1)
        )
        for n in range(cells):
            # What lies between the far edge of the cell and one depth nearer, spread evenly.
            for m in range(n + 1):
                held = min((m + 1) * cell_m, (n + 1) * cell_m) - max(
                    m * cell_m, (n + 1) * cell_m - depth_m
                )
                out[b, n] += gathered[m] * max(held, 0.0) / cell_m
    return out


@pytest.mark.parametrize("depth_m", [7.0, 30.0, 90.0, 135.0])
def test_it_is_the_sum_over_beam_and_pulse(depth_m: float) -> None:
    random = np.random.default_rng(4)
    power = np.where(random.random((60, 40)) < 0.2, random.random((60, 40)), 0.0).astype(np.float32)
    power[10:20] = 0.0
    power[:, :5] = 0.0
    mine = smeared(power, cell_m=30.0, beamwidth_deg=20.0, depth_m=depth_m)
    assert mine == pytest.approx(_by_hand(power, 30.0, 20.0, depth_m), rel=1e-5, abs=1e-6)
    assert mine.dtype == np.float32


def test_one_echo_is_a_beam_wide_and_a_pulse_deep_away_from_the_ship() -> None:
    power = np.zeros((3600, 100), dtype=np.float32)
    power[5, 50] = 1.0
    mine = smeared(power, cell_m=10.0, beamwidth_deg=2.0, depth_m=60.0)
    lit = np.flatnonzero(mine[5])
    assert lit.tolist() == [50, 51, 52, 53, 54, 55]
    assert mine[5, 50:56] == pytest.approx(1.0, rel=1e-4)
    # Half a width off the axis both ways lose half: a quarter (Gaussian beam, handbook 4.1).
    off = {deg: float(mine[(5 + round(10 * deg)) % 3600, 50]) for deg in (-1.0, 0.5, 1.0, 2.0)}
    assert off[1.0] == pytest.approx(0.25, rel=1e-3)
    assert off[-1.0] == pytest.approx(0.25, rel=1e-3)
    assert off[0.5] == pytest.approx(0.25**0.25, rel=1e-3)
    assert off[2.0] == pytest.approx(0.25**4, rel=1e-3)
    assert np.count_nonzero(mine[1000:2000]) == 0


@pytest.mark.parametrize("bearings", [180, 720, 1440])
def test_an_even_ring_gives_the_effective_width_however_coarse_the_bearings(bearings: int) -> None:
    # theta sqrt(pi / (8 ln 2)) = 0.7528 theta (Gaussian, two-way).
    power = np.full((bearings, 3), 360.0 / bearings, dtype=np.float32)
    mine = smeared(power, cell_m=50.0, beamwidth_deg=1.9, depth_m=50.0)
    assert mine == pytest.approx(1.9 * math.sqrt(math.pi / (8.0 * math.log(2.0))), rel=1e-4)


def test_a_weak_echo_beyond_a_strong_one_keeps_its_strength() -> None:
    power = np.zeros((360, 300), dtype=np.float32)
    power[:, 10] = 1e-5
    power[:, 200] = 1e-17
    mine = smeared(power, cell_m=10.0, beamwidth_deg=4.0, depth_m=30.0)
    assert mine[0, 200] == pytest.approx(mine[0, 10] * 1e-12, rel=1e-3)
    assert mine[0, 100] < 1e-21
