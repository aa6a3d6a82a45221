"""Errors of fixes from position lines: worked cases, plain geometry, drawn fixes."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.base.units import nm_from_m
from core.plan.fix_geometry import (
    ELLIPSE_FACTOR,
    PositionLine,
    bearing_line,
    cut_deg,
    fix_ellipse,
    range_line,
    route_errors_m,
)
from tests.helpers.islands import NM

bearings = st.floats(0.0, 360.0, exclude_max=True)


def test_t32_two_ranges_that_cut_at_right_angles() -> None:
    """T32, computed by hand: sigma 0.06 NM each, cut 90 deg: 0.085 NM drms."""
    lines = [range_line(bearing_deg=b, error_m=0.06 * NM) for b in (20.0, 110.0)]
    ellipse = fix_ellipse(lines)
    assert ellipse is not None
    assert nm_from_m(ellipse.drms_m) == pytest.approx(0.085, abs=5e-4)
    assert ellipse.semi_axes_m == pytest.approx((0.06 * NM, 0.06 * NM))


def test_t27_errors_that_a_route_is_designed_with() -> None:
    """T27, rates published (TP 1802 routing standards): 0.15 and 0.175 NM at 10 NM."""
    in_range, in_bearing = route_errors_m(10.0 * NM)
    assert nm_from_m(in_range) == pytest.approx(0.15)
    assert nm_from_m(in_bearing) == pytest.approx(0.175, abs=5e-4)


def test_drms_grows_as_one_over_the_sine_of_the_cut() -> None:
    # Two equal errors e: drms = e sqrt(2) / sin(cut), a textbook formula of position lines.
    for cut in (30.0, 60.0, 120.0, 150.0):
        ellipse = fix_ellipse([range_line(bearing_deg=b, error_m=1.0) for b in (70.0, 70.0 + cut)])
        assert ellipse is not None
        assert ellipse.drms_m == pytest.approx(math.sqrt(2.0) / math.sin(math.radians(cut)))


def test_two_ranges_on_one_bearing_are_no_fix() -> None:
    lines = [range_line(bearing_deg=b, error_m=1.0) for b in (70.0, 250.0)]
    assert fix_ellipse(lines) is None


def test_a_range_and_its_bearing_cut_at_right_angles() -> None:
    # 1 deg at 57.3 is 1: along the bearing the range error, across it that of the bearing.
    lines = (
        range_line(bearing_deg=0.0, error_m=2.0),
        bearing_line(bearing_deg=0.0, range_m=math.degrees(1.0), error_deg=1.0),
    )
    ellipse = fix_ellipse(lines)
    assert ellipse is not None
    assert ellipse.along_m(east_ratio=0.0, north_ratio=1.0) == pytest.approx(2.0)
    assert ellipse.along_m(east_ratio=1.0, north_ratio=0.0) == pytest.approx(1.0)
    assert ellipse.major_axis_deg == pytest.approx(0.0)


def test_the_ellipse_holds_95_of_100_drawn_fixes() -> None:
    # Drawn anew, not by formula: 20 000 pairs of ranges with normal errors whose 95 % is 100 m.
    rng = np.random.default_rng(7)
    east, north = np.array([0.6, -0.8]), np.array([0.8, 0.6 * 0.5])
    unit = np.hypot(east, north)
    east, north = east / unit, north / unit
    lines = [
        PositionLine(east_ratio=float(e), north_ratio=float(n), error_m=100.0)
        for e, n in zip(east, north, strict=True)
    ]
    ellipse = fix_ellipse(lines)
    assert ellipse is not None
    read = rng.normal(scale=100.0 / 1.959964, size=(20_000, 2))
    fixes = np.linalg.solve(np.column_stack([east, north]), read.T).T
    covariance = np.array(
        [
            [ellipse.var_east_m2, ellipse.covariance_m2],
            [ellipse.covariance_m2, ellipse.var_north_m2],
        ]
    )
    size = np.einsum("ij,jk,ik->i", fixes, np.linalg.inv(covariance), fixes)
    assert float(np.mean(size <= ELLIPSE_FACTOR**2)) == pytest.approx(0.95, abs=0.006)


@given(bearings, bearings)
def test_a_cut_is_the_same_both_ways_and_at_most_180(one: float, other: float) -> None:
    assert cut_deg(one, other) == pytest.approx(cut_deg(other, one), abs=1e-9)
    assert 0.0 <= cut_deg(one, other) <= 180.0


@given(bearings, st.floats(20.0, 160.0), bearings, st.floats(10.0, 500.0))
def test_another_line_never_makes_a_fix_worse(
    first: float, cut: float, third: float, error_m: float
) -> None:
    two = [range_line(bearing_deg=b, error_m=100.0) for b in (first, first + cut)]
    before = fix_ellipse(two)
    after = fix_ellipse([*two, range_line(bearing_deg=third, error_m=error_m)])
    assert before is not None
    assert after is not None
    assert after.semi_axes_m[0] <= before.semi_axes_m[0] * (1.0 + 1e-9)
    assert after.drms_m <= before.drms_m * (1.0 + 1e-9)


@given(bearings, st.floats(30.0, 150.0))
def test_the_longer_axis_is_where_the_ellipse_reaches_farthest(first: float, cut: float) -> None:
    lines = [range_line(bearing_deg=first, error_m=50.0)]
    lines += [range_line(bearing_deg=first + cut, error_m=90.0)]
    ellipse = fix_ellipse(lines)
    assert ellipse is not None
    angle = math.radians(ellipse.major_axis_deg)
    major, minor = ellipse.semi_axes_m
    assert ellipse.along_m(
        east_ratio=math.sin(angle), north_ratio=math.cos(angle)
    ) == pytest.approx(major)
    assert ellipse.along_m(
        east_ratio=math.cos(angle), north_ratio=-math.sin(angle)
    ) == pytest.approx(minor)
