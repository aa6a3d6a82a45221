"""The smooth surface that stands for ground (P.526 4.5.2), by hand."""

import numpy as np
import pytest

from core.radar.bullington import Profile, smooth_heights_m


def test_a_plateau_is_its_own_smooth_surface() -> None:
    d = np.linspace(0.0, 10_000.0, 101)
    plateau = Profile(distance_m=d, ground_m=np.full(d.size, 100.0))
    assert smooth_heights_m(plateau, 110.0, 125.0) == pytest.approx((10.0, 25.0))


def test_a_slope_is_its_own_smooth_surface() -> None:
    d = np.linspace(0.0, 10_000.0, 101)
    slope = Profile(distance_m=d, ground_m=d / 100.0)
    assert smooth_heights_m(slope, 10.0, 125.0) == pytest.approx((10.0, 25.0))


def test_ground_above_the_line_lowers_the_surface_by_its_share() -> None:
    # One peak of 110 m in the middle of 10 km, feet 50 m to each side, ends 10 m high. By hand:
    # least squares 50 * 110 / 10 000 = 0.55 m, less half of the 100 m over the line.
    d = np.linspace(0.0, 10_000.0, 201)
    ground = np.where(np.isclose(d, 5000.0), 110.0, 0.0)
    heights = smooth_heights_m(Profile(distance_m=d, ground_m=ground), 10.0, 10.0)
    assert heights == pytest.approx((59.45, 59.45))


def test_the_surface_is_never_above_the_ground_at_an_end() -> None:
    d = np.linspace(0.0, 10_000.0, 101)
    valley = Profile(distance_m=d, ground_m=np.abs(d - 5000.0) / 100.0)
    near, far = smooth_heights_m(valley, 60.0, 60.0)
    assert near >= 10.0
    assert far >= 10.0
