"""Error limits and the windows they leave. Computed by hand."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.plan.error_budget import budget_on_scale, index_error_m, reach_along_m
from core.plan.rules import DEFAULT_RULES
from tests.helpers.islands import NM
from tests.helpers.plans import SHIP

metres = st.floats(min_value=50.0, max_value=20_000.0)
errors = st.floats(min_value=1.0, max_value=300.0)


@given(
    metres,
    errors,
    st.floats(min_value=0.1, max_value=2.0),
    st.floats(min_value=1.01, max_value=5.0),
)
def test_error_is_the_limit_on_the_edge_of_the_window_and_less_inside(
    cross_m: float, range_error_m: float, bearing_error_deg: float, slack: float
) -> None:
    limit_m = range_error_m * slack
    reach = reach_along_m(
        cross_m=cross_m,
        limit_m=limit_m,
        range_error_m=range_error_m,
        bearing_error_deg=bearing_error_deg,
    )
    assert reach is not None

    def error(along_m: float) -> float:
        return index_error_m(
            cross_m=cross_m,
            along_m=along_m,
            range_error_m=range_error_m,
            bearing_error_deg=bearing_error_deg,
        )

    assert error(reach) == pytest.approx(limit_m, rel=1e-6)
    for share in (0.0, 0.25, 0.5, 0.75, 0.99):
        assert error(reach * share) <= limit_m * (1.0 + 1e-9)
    assert error(reach * 1.01) > limit_m


def test_nothing_is_left_where_the_error_abeam_passes_the_limit() -> None:
    assert (
        reach_along_m(cross_m=NM, limit_m=50.0, range_error_m=60.0, bearing_error_deg=0.7) is None
    )
    assert (
        reach_along_m(
            cross_m=NM,
            limit_m=50.0,
            range_error_m=40.0,
            bearing_error_deg=0.7,
            fixed_error_m=40.0,
        )
        is None
    )


def test_perfect_bearings_leave_no_end() -> None:
    reach = reach_along_m(cross_m=NM, limit_m=50.0, range_error_m=40.0, bearing_error_deg=0.0)
    assert reach == math.inf


def test_limit_is_half_the_corridor_where_the_radar_is_good_enough() -> None:
    budget = budget_on_scale(SHIP, range_scale_m=3.0 * NM, corridor_m=0.2 * NM, rules=DEFAULT_RULES)
    assert budget.limit_m == pytest.approx(0.1 * NM)


def test_limit_is_never_less_than_what_the_radar_reads_abeam() -> None:
    budget = budget_on_scale(SHIP, range_scale_m=6.0 * NM, corridor_m=50.0, rules=DEFAULT_RULES)
    abeam = budget.error_m(cross_m=NM, along_m=0.0)
    assert budget.limit_m == pytest.approx(1.2 * abeam)
    assert budget.reach_m(NM) is not None


def test_known_errors_of_the_ship_add_in_full() -> None:
    # Handbook 10.3: a bias is added linearly. Gyro 0.5 high and marker 0.2 low leave 0.3 deg,
    # a range index error of -20 m adds 20 m to the 1 % of 6 NM, 111.1 m.
    (main, *others) = SHIP.radars
    main = replace(main, range_index_error_m=-20.0, heading_marker_error_deg=-0.2)
    ship = replace(SHIP, gyro_error_deg=0.5, radars=(main, *others))
    budget = budget_on_scale(ship, range_scale_m=6.0 * NM, corridor_m=NM, rules=DEFAULT_RULES)
    assert budget.bearing_error_deg == pytest.approx(SHIP.heading_error_deg + 0.3)
    assert budget.range_error_m == pytest.approx(111.12 + 20.0)


def test_handbook_worked_number_abeam() -> None:
    # Handbook 10.2, computed apart from this code: 111.12 m of range, edge 20, antenna 5, display
    # 33, chart 19 and 40 m of tide give 125.8 m; without the tide 119.3.
    budget = budget_on_scale(SHIP, range_scale_m=6.0 * NM, corridor_m=NM, rules=DEFAULT_RULES)
    assert budget.abeam_m == pytest.approx(119.3, abs=0.2)
    assert math.hypot(budget.abeam_m, 40.0) == pytest.approx(125.8, abs=0.2)
