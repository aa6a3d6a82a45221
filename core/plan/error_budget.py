"""Error of a cross-index range as read from the radar, 95 % throughout."""

import math
from dataclasses import dataclass

from core.plan.rules import FixedErrors, PlanRules
from core.ship.ship import Ship


def index_error_m(
    *,
    cross_m: float,
    along_m: float,
    range_error_m: float,
    bearing_error_deg: float,
    fixed_error_m: float = 0.0,
) -> float:
    """Error of a cross-index range read off the radar.

    Parameters
    ----------
    cross_m, along_m : float
        Where the object lies from own ship: off the track line, and along it (either sign), m.
    range_error_m, bearing_error_deg, fixed_error_m : float
        Errors, 95 %: m, deg, m.

    Notes
    -----
    ``hypot(dR sin b, x dB, fixed)`` with b the angle off the track line and x the distance along
    it: pure range error abeam, pure bearing error ahead (job.md 2.9.3, handbook 10.1).
    """
    range_m = math.hypot(cross_m, along_m)
    sine = abs(cross_m) / range_m if range_m > 0.0 else 1.0
    return math.hypot(
        range_error_m * sine, along_m * math.radians(bearing_error_deg), fixed_error_m
    )


def reach_along_m(
    *,
    cross_m: float,
    limit_m: float,
    range_error_m: float,
    bearing_error_deg: float,
    fixed_error_m: float = 0.0,
) -> float | None:
    """Distance along the track before and after abeam within which an error limit holds.

    Returns
    -------
    float or None
        Half length of the window, m; None when the limit is passed even abeam.

    Notes
    -----
    With u = x^2, the equation of ``index_error_m`` is a quadratic with one positive root as long
    as the error abeam is within the limit.
    """
    square = limit_m**2 - fixed_error_m**2
    if square < range_error_m**2:
        return None
    bearing_error = math.radians(bearing_error_deg)
    if bearing_error == 0.0:
        return math.inf
    a = bearing_error**2
    b = bearing_error**2 * cross_m**2 - square
    c = (range_error_m**2 - square) * cross_m**2
    return math.sqrt((-b + math.sqrt(b * b - 4.0 * a * c)) / (2.0 * a))


@dataclass(frozen=True, slots=True, kw_only=True)
class ErrorBudget:
    """Errors on one range scale and the limit that windows are cut at."""

    range_error_m: float
    bearing_error_deg: float
    fixed_error_m: float
    limit_m: float
    half_beam_deg: float = 0.0
    """Half of the horizontal beam: how far an edge swells, deg."""

    @property
    def abeam_m(self) -> float:
        """Error of a range read abeam, m."""
        return math.hypot(self.range_error_m, self.fixed_error_m)

    def error_m(self, *, cross_m: float, along_m: float, is_edge: bool = False) -> float:
        """Error of the cross-index range with the object there, m.

        ``is_edge`` tells that the edge of a broad object is read, not the middle of a small one.
        """
        return index_error_m(
            cross_m=cross_m,
            along_m=along_m,
            range_error_m=self.range_error_m,
            bearing_error_deg=self._bearing_error_deg(is_edge=is_edge),
            fixed_error_m=self.fixed_error_m,
        )

    def reach_m(self, cross_m: float, *, is_edge: bool = False) -> float | None:
        """Half length of the window of an object that far off the track, m."""
        return reach_along_m(
            cross_m=cross_m,
            limit_m=self.limit_m,
            range_error_m=self.range_error_m,
            bearing_error_deg=self._bearing_error_deg(is_edge=is_edge),
            fixed_error_m=self.fixed_error_m,
        )

    def _bearing_error_deg(self, *, is_edge: bool) -> float:
        """Error of bearings, and where an edge is read its swelling with it, deg.

        An edge swells by up to half a beam on its bearing, so across the track as a bearing error
        does: nothing abeam, all of it ahead and astern (job.md 2.9.5, 1 deg at 4 NM is 0.7 cables).
        It is a part of the paint term of handbook 10.1, so squares add. The echo of a small object
        swells to both sides and its middle is read.
        """
        return math.hypot(self.bearing_error_deg, self.half_beam_deg if is_edge else 0.0)


def fixed_error_m(errors: FixedErrors, range_scale_m: float) -> float:
    """Sum of the fixed errors on a scale, root of squares, m."""
    return math.hypot(
        errors.edge_m, errors.antenna_m, errors.chart_m, errors.display_ratio * range_scale_m
    )


def known_bearing_error_deg(ship: Ship) -> float:
    """Known error of true bearings on the main radar, gyro and heading marker, deg; + reads high.

    Both turn the picture, so they add with their signs.
    """
    return ship.gyro_error_deg + ship.radars[0].heading_marker_error_deg


def budget_on_scale(
    ship: Ship, *, range_scale_m: float, corridor_m: float, rules: PlanRules
) -> ErrorBudget:
    """Errors and limit on a scale.

    The limit is half of the narrower side of the corridor: read with that error the ship still
    knows on which half of her corridor she is. Where the radar cannot do that, 1.2 times what it
    reads abeam stands instead, and the plan says that the corridor is narrower than the radar
    can watch. Errors of the ship that are known (gyro, heading marker, range index) are taken as
    not yet applied: they do not vary, so they add in full (handbook 10.3).
    """
    range_error = ship.range_error_m(range_scale_m) + abs(ship.radars[0].range_index_error_m)
    fixed = fixed_error_m(rules.fixed_errors, range_scale_m)
    abeam = math.hypot(range_error, fixed)
    return ErrorBudget(
        range_error_m=range_error,
        bearing_error_deg=ship.heading_error_deg + abs(known_bearing_error_deg(ship)),
        fixed_error_m=fixed,
        limit_m=max(rules.corridor_share_ratio * corridor_m, rules.least_limit_ratio * abeam),
        half_beam_deg=ship.radars[0].horizontal_beamwidth_deg / 2.0,
    )
