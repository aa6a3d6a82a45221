"""How the shore rises, and how far the tide moves its edge. Answers by hand; land is invented."""

from dataclasses import replace

import numpy as np
import pytest

from core.land.land_model import LandModel
from core.plan.leg_rules import rules_for
from core.plan.request import Environment
from core.plan.rules import DEFAULT_RULES, PlanRules
from core.plan.shore_rise import ShoreRise, edge_movement_m, middling_rise, shore_rise
from tests.helpers.islands import NM, Slope, box, flat_sea, place


def coast(
    height_m: float | Slope,
    *,
    cell_m: float = 30.0,
    heights_assumed: bool = False,
    height_error_m: float = 5.0,
) -> LandModel:
    """Land east of the meridian through the centre, its shore running north and south."""
    sea = flat_sea(half_width_m=2.0 * NM, cell_m=cell_m)
    sea = replace(sea, heights_assumed=heights_assumed, height_error_m=height_error_m)
    return sea.land(box(0.0, -1.5 * NM, 1.5 * NM, 1.5 * NM), height_m).model()


def rise(land: LandModel, rules: PlanRules = DEFAULT_RULES) -> ShoreRise:
    here = place(0.0, 0.0)
    found = shore_rise(land, lat_deg=here.lat_deg, lon_deg=here.lon_deg, rules=rules)
    assert found is not None
    return found


def beach(run_of_one_m: float) -> Slope:
    return lambda east, _north: east / run_of_one_m


def test_a_beach_of_one_in_twenty_moves_as_far_as_its_slope_says() -> None:
    # 4 m of tide on 1:20 is 80 m; the cells tell it to half a cell.
    found = rise(coast(beach(20.0)))
    assert found.movement_m(4.0) == pytest.approx(80.0, abs=15.0)
    assert found.sure_slope_ratio < DEFAULT_RULES.steep_ratio


def test_the_beach_of_t13_moves_more_than_the_reach() -> None:
    # T13: 1:50 and 5 m of tide is 250 m. Dry ground is looked for as far as 250 m, so what is
    # printed is «more than», never a number made of noise.
    found = rise(coast(beach(50.0)), replace(DEFAULT_RULES, tidal_range_m=5.0))
    assert found.is_low
    assert found.movement_m(5.0) == pytest.approx(250.0)


def test_t13_slope_that_keeps_the_edge_within_a_tenth_of_a_cable() -> None:
    rules = replace(DEFAULT_RULES, tidal_range_m=5.0)
    assert rules.steep_ratio == pytest.approx(0.27, abs=5e-4)
    assert edge_movement_m(rise_m=5.0, slope_ratio=rules.steep_ratio) == pytest.approx(18.52)


def test_a_cliff_is_steep_only_as_far_as_the_cells_bear_out() -> None:
    # 40 m in the first cell of 90 m: (40 - 5) over half a cell and one more, 35 / 135 = 0.26;
    # of 15 m 10 / 135 = 0.07 is left. In cells of 30 m the 15 m are 10 / 45 = 0.22.
    assert rise(coast(40.0, cell_m=90.0)).sure_slope_ratio == pytest.approx(35.0 / 135.0, rel=0.01)
    assert rise(coast(15.0, cell_m=90.0)).sure_slope_ratio == pytest.approx(10.0 / 135.0, rel=0.01)
    assert rise(coast(15.0, cell_m=30.0)).sure_slope_ratio == pytest.approx(10.0 / 45.0, rel=0.01)


def test_a_shore_averaged_low_by_its_cell_is_not_condemned() -> None:
    # 6 m in the first cell of 90 m: 4 m of tide over 45 m times 4 / 6.
    found = rise(coast(6.0, cell_m=90.0))
    assert not found.is_low
    assert found.movement_m(4.0) == pytest.approx(30.0, rel=0.01)


def test_a_flat_shore_is_low_and_says_no_more_than_the_reach() -> None:
    found = rise(coast(2.0, cell_m=90.0))
    assert found.is_low
    assert found.rise_m == pytest.approx(2.0)
    assert found.movement_m(4.0) == pytest.approx(270.0, rel=0.01)


def test_a_coast_drawn_outside_the_elevation_is_judged_at_the_elevations_own_waterline() -> None:
    # No height for 180 m behind the coast, then a wall of 30 m: two cells of sea, not a beach.
    land = coast(lambda east, _north: np.where(east > 200.0, 30.0, 0.0), cell_m=90.0)
    assert rise(land).movement_m(4.0) == pytest.approx(45.0 * 4.0 / 30.0, rel=0.05)


def test_a_coast_without_any_height_behind_it_is_blank() -> None:
    found = rise(coast(0.0, cell_m=90.0))
    assert (found.is_low, found.rise_m) == (True, 0.0)


def test_coarse_cells_and_assumed_heights_tell_nothing() -> None:
    here = place(0.0, 0.0)
    for land in (coast(40.0, cell_m=200.0), coast(40.0, heights_assumed=True)):
        assert (
            shore_rise(land, lat_deg=here.lat_deg, lon_deg=here.lon_deg, rules=DEFAULT_RULES)
            is None
        )


def test_the_middle_place_speaks_for_a_stretch() -> None:
    # Steep north of the centre, flat south of it; two places of three lie in the north.
    land = coast(lambda _east, north: np.where(north > 0.0, 30.0, 1.0), cell_m=30.0)
    spots = [place(0.0, north) for north in (-800.0, 600.0, 900.0)]
    found = middling_rise(
        land,
        np.array([s.lat_deg for s in spots]),
        np.array([s.lon_deg for s in spots]),
        DEFAULT_RULES,
    )
    assert found is not None
    assert not found.is_low


def test_a_tidal_range_given_is_used_and_not_called_assumed() -> None:
    given = rules_for(Environment(tidal_range_m=0.3), DEFAULT_RULES)
    assert (given.tidal_range_m, given.is_tidal_range_assumed) == (0.3, False)
    assert rules_for(Environment(), DEFAULT_RULES) == DEFAULT_RULES
    # Ground 2 m high is dry where the tide rises 0.3 m: a low shore no longer.
    assert not rise(coast(2.0, cell_m=90.0), given).is_low
