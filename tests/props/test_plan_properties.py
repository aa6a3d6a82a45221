"""What holds of every plan, over drawn archipelagos; all land is invented."""

import math

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from core.coverage.coverage_result import CoastState
from core.geodesy import geodesic
from core.passage.passage import Side
from core.plan.plan_result import LegPlan, Mark, Plan, Role
from tests.helpers.islands import NM, flat_sea, islet, track
from tests.helpers.plans import covered, mark, planned

Spot = tuple[int, int, int]
spots = st.lists(
    st.tuples(st.integers(-50, 50), st.integers(-60, 60), st.integers(5, 60)),
    min_size=1,
    max_size=7,
    unique_by=lambda t: (t[0] // 4, t[1] // 4),
).map(lambda items: [t for t in items if abs(t[0]) >= 3])
few = settings(
    max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True
)


def plan_over(
    items: list[Spot], *, mirror: bool = False, turn_deg: float = 50.0, width_m: float = 240.0
) -> Plan:
    """A plan past islets at tenths of a mile, or past their mirror images."""
    sign = -1.0 if mirror else 1.0
    sea = flat_sea(half_width_m=14.0 * NM, cell_m=120.0)
    sea = sea.land(islet(13.0 * NM, 13.0 * NM), 1.0)
    for east, north, height in items:
        sea = sea.land(
            islet(sign * east / 10.0 * NM, north / 10.0 * NM, width_m=width_m), float(height)
        )
    land = sea.model()
    turn = math.radians(turn_deg)
    passage = track(
        (0.0, -6.0 * NM),
        (0.0, 3.0 * NM),
        (sign * 4.0 * NM * math.sin(turn), 3.0 * NM + 4.0 * NM * math.cos(turn)),
    )
    buoy: Mark = mark("Buoy", sign * 0.7 * NM, 0.0, is_fixed=False, kind="buoy")
    return planned(land, passage, covered(land, passage), marks=(buoy,))


def first_leg(plan: Plan) -> LegPlan:
    return plan.legs[0]


@few
@given(spots)
def test_windows_lie_in_the_leg_and_end_with_the_wheel_over(items: list[Spot]) -> None:
    for leg in plan_over(items).legs:
        end = leg.distance_m if leg.wheel_over is None else leg.wheel_over.along_m
        for line in leg.lines:
            assert 0.0 <= line.from_along_m <= line.to_along_m <= end + 1e-6
            assert line.cross_index_range_m > 0.0
            assert line.uncertainty_m > 0.0
        assert bool(leg.no_index_reason) == all(x.role is not Role.PRIMARY for x in leg.lines)


@few
@given(spots)
def test_floating_marks_are_never_indexed(items: list[Spot]) -> None:
    for leg in plan_over(items).legs:
        assert all(line.object.is_fixed for line in leg.lines)
        if leg.wheel_over is not None and leg.wheel_over.second_mark is not None:
            assert leg.wheel_over.second_mark.object.is_fixed


@few
@given(spots)
def test_lines_and_gaps_together_cover_the_leg(items: list[Spot]) -> None:
    for leg in plan_over(items).legs:
        end = leg.distance_m if leg.wheel_over is None else leg.wheel_over.along_m
        covered_by = [
            (x.from_along_m, x.to_along_m) for x in leg.lines if x.role is Role.PRIMARY
        ] + [(g.from_along_m, g.to_along_m) for g in leg.index_gaps]
        for place_m in np.linspace(1.0, end - 1.0, 200):
            nearest = min(max(a - place_m, place_m - b, 0.0) for a, b in covered_by)
            # Gaps of less than half a minute's run are not told.
            assert nearest <= 30.0 * leg.speed_mps


@few
@given(spots)
def test_a_mirrored_passage_mirrors_the_sides(items: list[Spot]) -> None:
    # Rocks, which count by their position: waterline points of larger ones are not mirrored.
    plain = plan_over(items, width_m=60.0)
    mirrored = plan_over(items, mirror=True, width_m=60.0)
    other = {Side.PORT: Side.STARBOARD, Side.STARBOARD: Side.PORT}
    for one, two in zip(plain.legs, mirrored.legs, strict=True):
        assert len(one.lines) == len(two.lines)
        for line, image in zip(one.lines, two.lines, strict=True):
            assert (line.role, other[line.side]) == (image.role, image.side)
            assert line.cross_index_range_m == pytest.approx(image.cross_index_range_m, abs=1.0)
            assert line.from_along_m == pytest.approx(image.from_along_m, abs=1.0)
            assert line.to_along_m == pytest.approx(image.to_along_m, abs=1.0)


@few
@given(spots)
def test_the_same_input_gives_the_same_plan(items: list[Spot]) -> None:
    assert plan_over(items).legs == plan_over(items).legs


@few
@given(spots)
def test_objects_of_lines_are_in_sight_and_nearest_of_what_is(items: list[Spot]) -> None:
    sea = flat_sea(half_width_m=14.0 * NM, cell_m=120.0).land(islet(13.0 * NM, 13.0 * NM), 1.0)
    for east, north, height in items:
        sea = sea.land(islet(east / 10.0 * NM, north / 10.0 * NM, width_m=240.0), float(height))
    land = sea.model()
    passage = track((0.0, -6.0 * NM), (0.0, 6.0 * NM))
    coverage = covered(land, passage)
    (leg,) = planned(land, passage, coverage).legs
    _along, cross = passage.line(0).track_coordinates(land.points.lat_deg, land.points.lon_deg)
    for line in leg.lines:
        distance, _bearing, _final = geodesic.inverse(
            from_lat_deg=line.object.position.lat_deg,
            from_lon_deg=line.object.position.lon_deg,
            to_lat_deg=land.points.lat_deg,
            to_lon_deg=land.points.lon_deg,
        )
        own_line = int(land.points.line[int(np.argmin(distance))])
        views = [
            v
            for v in coverage.legs[0].on_track()
            if line.from_along_m - 1.0 <= v.viewpoint.along_m <= line.to_along_m + 1.0
        ]
        seen = np.zeros(land.points.lat_deg.size, dtype=np.bool_)
        for view in views:
            own = (view.coast_state == CoastState.IN_SIGHT) & (land.points.line == own_line)
            assert own.any()
            seen |= own
        # definitions.md: least cross-track distance of what is in sight within the window, to one
        # elevation cell or 50 m, whichever is greater.
        assert line.cross_index_range_m == pytest.approx(
            float(np.abs(cross[seen]).min()), abs=120.0
        )
