"""What two index lines in use together tell apart, on invented lines over a flat sea."""

import pytest

from core.geodesy.leg_line import LegKind, LegLine
from core.geodesy.position import Position
from core.passage.passage import Side
from core.plan.cross_checks import cross_checks
from core.plan.leg_check_result import Cause
from core.plan.plan_result import Edge, IndexLine, IndexObject, ObjectKind, Role
from core.plan.reason import Reason
from tests.helpers.islands import NM

LINE = LegLine(
    kind=LegKind.RHUMB,
    start=Position(lat_deg=0.0, lon_deg=0.0),
    end=Position(lat_deg=8.0 / 60.0, lon_deg=0.0),
)


def line(
    name: str, side: Side, *, along_nm: float, cross_nm: float, window: tuple[float, float]
) -> IndexLine:
    east = cross_nm if side is Side.STARBOARD else -cross_nm
    return IndexLine(
        role=Role.PRIMARY,
        object=IndexObject(
            id=name,
            name=name,
            position=Position(lat_deg=along_nm / 60.0, lon_deg=east / 60.0),
            edge=Edge.POSITION,
            kind=ObjectKind.ROCK,
            height_above_water_m=10.0,
            is_fixed=True,
            confirm_on_chart=True,
        ),
        side=side,
        cross_index_range_m=cross_nm * NM,
        limit=None,
        line_bearing_deg=0.0,
        echo_travel_deg=180.0,
        from_along_m=window[0] * NM,
        to_along_m=window[1] * NM,
        range_scale_m=3.0 * NM,
        uncertainty_m=0.02 * NM,
        reason=Reason(code="index-object"),
    )


def test_lines_either_side_that_come_abeam_tell_all_apart() -> None:
    pair = (
        line("A", Side.PORT, along_nm=4.0, cross_nm=0.9, window=(2.0, 6.0)),
        line("B", Side.STARBOARD, along_nm=4.0, cross_nm=1.2, window=(2.5, 6.0)),
    )
    (check,) = cross_checks(pair, LINE, least_m=0.2 * NM)
    assert check.is_opposite
    assert check.alike == ()
    assert (check.from_along_m / NM, check.to_along_m / NM) == pytest.approx((2.5, 6.0))


def test_lines_on_one_side_abeam_do_not_tell_range_error_from_off_track() -> None:
    # Job.md T23 needs both sides: on one alone both causes lengthen alike.
    pair = (
        line("A", Side.PORT, along_nm=4.0, cross_nm=2.0, window=(3.8, 4.2)),
        line("B", Side.PORT, along_nm=4.0, cross_nm=1.2, window=(3.8, 4.2)),
    )
    (check,) = cross_checks(pair, LINE, least_m=0.2 * NM)
    assert not check.is_opposite
    assert {Cause.RANGE_INDEX, Cause.OFF_TRACK} <= set(check.alike)


def test_lines_that_are_hardly_in_use_together_are_not_compared() -> None:
    pair = (
        line("A", Side.PORT, along_nm=2.0, cross_nm=0.9, window=(0.0, 3.0)),
        line("B", Side.PORT, along_nm=5.0, cross_nm=0.9, window=(2.9, 6.0)),
    )
    assert cross_checks(pair, LINE, least_m=0.2 * NM) == ()
