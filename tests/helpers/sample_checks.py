"""Invented dead ranges, check spots and cross-checks of a leg; one of each, or none with why."""

from core.base.units import m_from_nm, mps_from_kn
from core.plan import check_codes
from core.plan.leg_check_result import (
    Cause,
    CountdownRange,
    CrossCheck,
    DeadRange,
    HeadingSpot,
    IndexSpot,
    LegChecks,
)
from core.plan.reason import Reason

NO_CHECKS = LegChecks(
    dead_ranges=(),
    dead_ranges_reason=Reason(code=check_codes.NO_DEAD_RANGE, values=(("angle_deg", 10.0),)),
    index_spot=None,
    index_spot_reason=Reason(code=check_codes.NO_INDEX_SPOT),
    heading_spot=None,
    heading_spot_reason=Reason(code=check_codes.NO_HEADING_SPOT),
    cross_checks=(),
)


def checks_over(length_m: float) -> LegChecks:
    """One of each over a leg."""
    return LegChecks(
        dead_ranges=(
            DeadRange(
                object_id="A",
                name="islet 38 m, 2.9 NM NE of Outer buoy",
                is_ahead=True,
                from_along_m=0.5 * length_m,
                to_along_m=0.9 * length_m,
                from_range_m=m_from_nm(4.0),
                to_range_m=m_from_nm(2.001),
                greatest_angle_deg=6.2,
                least_rate_mps=mps_from_kn(11.9),
                greatest_rate_mps=mps_from_kn(12.0),
                countdown=(
                    CountdownRange(
                        before_minutes=3.0, along_m=0.8 * length_m, range_m=m_from_nm(2.6)
                    ),
                    CountdownRange(
                        before_minutes=0.0, along_m=0.9 * length_m, range_m=m_from_nm(2.001)
                    ),
                ),
            ),
        ),
        dead_ranges_reason=None,
        index_spot=IndexSpot(
            port_id="B",
            starboard_id="A",
            along_m=0.4 * length_m,
            port_range_m=m_from_nm(0.8),
            starboard_range_m=m_from_nm(0.8),
            port_bearing_deg=300.0,
            starboard_bearing_deg=120.0,
            apart_m=m_from_nm(1.6),
            known_error_m=m_from_nm(0.01),
            uncertainty_m=20.0,
            early_late_m=m_from_nm(0.157),
            scale_m=m_from_nm(3.0),
        ),
        index_spot_reason=None,
        heading_spot=HeadingSpot(
            object_id="B",
            name="breakwater end",
            along_m=0.3 * length_m,
            range_m=m_from_nm(2.5),
            bearing_deg=20.0,
            relative_deg=350.0,
            scale_m=m_from_nm(3.0),
            per_degree_m=m_from_nm(0.0436),
        ),
        heading_spot_reason=None,
        cross_checks=(
            CrossCheck(
                first_id="A",
                second_id="B",
                is_opposite=False,
                from_along_m=0.2 * length_m,
                to_along_m=0.6 * length_m,
                alike=(Cause.RANGE_INDEX, Cause.OFF_TRACK),
            ),
        ),
    )
