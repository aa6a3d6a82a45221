"""How good a fix from position lines is: cut, error ellipse, distance root mean square."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

ROUTE_RANGE_RATIO = 0.015
ROUTE_BEARING_DEG = 1.0
"""Errors of radar ranges and bearings to design a route with, 1.5 % and 1 deg (TP 1802 routing
standards, annex on position fixing)."""

ELLIPSE_FACTOR = math.sqrt(-2.0 * math.log(0.05)) / 1.959964
"""From lines good to their 95 % errors to the ellipse that holds 95 % of fixes: the radius of the
two-dimensional normal distribution, 2.448 sigma, over the 1.960 sigma of one dimension."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PositionLine:
    """One measurement: the direction across its position line, and how far that may be off.

    ``east_ratio`` and ``north_ratio`` are a unit vector; any two axes at right angles do.
    """

    east_ratio: float
    north_ratio: float
    error_m: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ErrorEllipse:
    """Errors of a fix, in the units of its lines: 95 % errors give a covariance of such."""

    var_east_m2: float
    var_north_m2: float
    covariance_m2: float

    @property
    def drms_m(self) -> float:
        """Root of the summed variances: 2 sigmas of 0.06 at 90 deg give 0.085 (job.md T32)."""
        return math.sqrt(self.var_east_m2 + self.var_north_m2)

    @property
    def semi_axes_m(self) -> tuple[float, float]:
        """Longer and shorter semi-axis without any factor: roots of the eigenvalues."""
        middle = (self.var_east_m2 + self.var_north_m2) / 2.0
        half = math.hypot((self.var_east_m2 - self.var_north_m2) / 2.0, self.covariance_m2)
        return math.sqrt(middle + half), math.sqrt(max(middle - half, 0.0))

    @property
    def major_axis_deg(self) -> float:
        """Direction of the longer axis from north through east, 0 to 180."""
        angle = 0.5 * math.atan2(2.0 * self.covariance_m2, self.var_north_m2 - self.var_east_m2)
        return math.degrees(angle) % 180.0

    def along_m(self, *, east_ratio: float, north_ratio: float) -> float:
        """How far the ellipse reaches in the direction of a unit vector, without any factor."""
        return math.sqrt(
            max(
                east_ratio * east_ratio * self.var_east_m2
                + north_ratio * north_ratio * self.var_north_m2
                + 2.0 * east_ratio * north_ratio * self.covariance_m2,
                0.0,
            )
        )


def range_line(*, bearing_deg: float, error_m: float) -> PositionLine:
    """A range: an arc across the bearing of the object."""
    angle = math.radians(bearing_deg)
    return PositionLine(east_ratio=math.sin(angle), north_ratio=math.cos(angle), error_m=error_m)


def bearing_line(*, bearing_deg: float, range_m: float, error_deg: float) -> PositionLine:
    """A bearing: a line along it, off by the error in radians times the range."""
    angle = math.radians(bearing_deg)
    return PositionLine(
        east_ratio=math.cos(angle),
        north_ratio=-math.sin(angle),
        error_m=range_m * math.radians(error_deg),
    )


def fix_ellipse(lines: Sequence[PositionLine]) -> ErrorEllipse | None:
    """Errors of the least-squares fix from independent lines; None where they do not cut.

    The inverse of the sum of u u' / e^2 over the lines, u the direction across a line and e its
    error (plain least squares).
    """
    a = sum(line.east_ratio**2 / line.error_m**2 for line in lines)
    b = sum(line.east_ratio * line.north_ratio / line.error_m**2 for line in lines)
    c = sum(line.north_ratio**2 / line.error_m**2 for line in lines)
    det = a * c - b * b
    if det <= 1e-9 * (a + c) ** 2:
        return None
    return ErrorEllipse(var_east_m2=c / det, var_north_m2=a / det, covariance_m2=-b / det)


def cut_deg(one_bearing_deg: float, other_bearing_deg: float) -> float:
    """Angle between two bearings, 0 to 180: at which two range arcs cut."""
    return abs((one_bearing_deg - other_bearing_deg + 180.0) % 360.0 - 180.0)


def route_errors_m(range_m: float) -> tuple[float, float]:
    """What a range and a bearing of an object may be off when a route is designed, m, 95 %.

    0.15 and 0.175 NM at 10 NM (job.md T27).
    """
    return ROUTE_RANGE_RATIO * range_m, range_m * math.radians(ROUTE_BEARING_DEG)
