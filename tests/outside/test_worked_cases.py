"""Worked cases of the trade note that no other test stands for, through the program's functions.

Each names its case and its status: published source, common practice without one, or computed by
hand. ``data/worked_cases.csv`` lists all cases with the tests that assert them.
"""

import math

import pytest

from core.coverage.profiles import horizon_distance_m
from core.plan import reason_codes
from core.plan.plan_result import Plan, Role
from core.plan.request import Environment
from core.plan.rules import DEFAULT_RULES
from core.plan.usable_window import echo_reach_m
from core.radar.own_structure import sea_hidden_to_m
from core.radar.pulse_geometry import beam_smear_m, pulse_depth_m
from core.words.reasons import sentence
from tests.helpers.islands import NM, flat_sea, islet, track
from tests.helpers.plans import covered, mark, planned

_K_221 = 1.3147
"""Where the horizon is 2.21 NM a root metre (definitions)."""


def hidden_height_m(range_nm: float, antenna_m: float, k: float) -> float:
    """Height of land that just clears the horizon at a range, by halving."""
    low, high = 0.0, 1000.0
    for _ in range(60):
        middle = (low + high) / 2.0
        if float(horizon_distance_m(antenna_m, middle, k)) < range_nm * NM:
            low = middle
        else:
            high = middle
    return low


def shoreline_range_nm(antenna_m: float, height_m: float, k: float) -> float:
    """Where what shows over the horizon is as high as R^2 / 12 asks for, by halving."""
    low, high = 0.1, 60.0
    for _ in range(60):
        middle = (low + high) / 2.0
        visible_m = height_m - hidden_height_m(middle, antenna_m, k)
        low, high = (
            (middle, high)
            if echo_reach_m(visible_m, DEFAULT_RULES) >= middle * NM
            else (low, middle)
        )
    return low


def test_t6_visible_part_of_the_standards_shore() -> None:
    """T6, published (IMO MSC.192(79) table) and by hand: at 20 NM 26.8 m hidden, 33.2 m visible.

    R^2 / 12 asks for 33.3 m there; 6 m of shore reach 8 NM, 3 m 6 NM.
    """
    hidden = hidden_height_m(20.0, 15.0, _K_221)
    assert hidden == pytest.approx(26.8, abs=0.06)
    assert 60.0 - hidden == pytest.approx(33.2, abs=0.06)
    assert echo_reach_m(33.33, DEFAULT_RULES) / NM == pytest.approx(20.0, abs=0.01)
    assert echo_reach_m(6.0, DEFAULT_RULES) / NM >= 8.0
    assert echo_reach_m(3.0, DEFAULT_RULES) / NM == pytest.approx(6.0)


def test_t6b_normally_by_of_the_shoreline_rule() -> None:
    """T6b, computed by hand: 25 m antenna, 100 m cliff: 25.8 NM, 0717 from 45 NM off at 15 kn."""
    by_nm = shoreline_range_nm(25.0, 100.0, _K_221)
    assert by_nm == pytest.approx(25.8, abs=0.05)
    assert math.ceil((45.0 - by_nm) / 15.0 * 60.0) == 77


def test_t6c_overdue_of_the_shoreline_rule() -> None:
    """T6c, computed by hand: weak refraction k 1.0: 23.7 NM, overdue at 0726."""
    overdue_nm = shoreline_range_nm(25.0, 100.0, 1.0)
    assert overdue_nm == pytest.approx(23.7, abs=0.05)
    assert math.ceil((45.0 - overdue_nm) / 15.0 * 60.0) == 86


@pytest.mark.parametrize(
    ("k", "possible_nm", "shoreline_nm"),
    [(0.8, 25.9, 22.0), (1.0, 28.9, 23.7), (4.0 / 3.0, 33.4, 25.9), (2.0, 40.9, 28.8)],
)
def test_t18_limits_by_refraction(k: float, possible_nm: float, shoreline_nm: float) -> None:
    """T18, computed by hand: the physical limit moves 15 NM with k, the shoreline rule only 7."""
    possible = float(horizon_distance_m(25.0, 100.0, k)) / NM
    assert possible == pytest.approx(possible_nm, abs=0.06)
    assert shoreline_range_nm(25.0, 100.0, k) == pytest.approx(shoreline_nm, abs=0.06)


def test_t17_height_above_the_water_now() -> None:
    """T17, computed by hand: elevation 20 m, tide 5.2 and mean sea level 3.0 m: 17.8 m.

    The height that a chart would give, 17.6 m over a high water of 5.4 m, is that at that tide.
    """
    for tide_m, height_m in ((5.2, 17.8), (5.4, 17.6)):
        water_m = Environment(tide_m=tide_m, mean_sea_level_m=3.0).water_level_m
        assert 20.0 - water_m == pytest.approx(height_m)


@pytest.mark.parametrize(
    ("structure_m", "ahead_m", "sea_from_m"), [(16.0, 180.0, 300.0), (25.0, 150.0, 400.0)]
)
def test_t15_sea_hidden_by_own_structure(
    structure_m: float, ahead_m: float, sea_from_m: float
) -> None:
    """T15, computed by hand: from 40 m, bow structure leaves the sea from 300 m, cargo 400 m."""
    assert sea_hidden_to_m(40.0, structure_m, ahead_m) == pytest.approx(sea_from_m)


@pytest.mark.parametrize(("beam_deg", "opens_nm"), [(2.0, 4.64), (1.2, 7.73), (4.0, 2.32)])
def test_t26_two_headlands_open_where_the_beam_is_as_wide_as_the_gap(
    beam_deg: float, opens_nm: float
) -> None:
    """T26, computed by hand: 300 m apart; a beam of 2 deg at 6 NM is 388 m, 2.1 cables."""
    assert float(beam_smear_m(opens_nm * NM, beam_deg)) == pytest.approx(300.0, rel=2e-3)
    assert float(beam_smear_m(6.0 * NM, 2.0)) == pytest.approx(388.0, abs=0.5)
    assert float(beam_smear_m(6.0 * NM, 2.0)) / 185.2 == pytest.approx(2.1, abs=0.05)


@pytest.mark.parametrize(
    ("length_us", "depth_m"), [(0.05, 7.5), (0.25, 37.5), (0.8, 120.0), (0.7, 105.0)]
)
def test_t28_depth_of_the_range_cell(length_us: float, depth_m: float) -> None:
    """T28, computed by hand: 7.5, 37.5, 120 m; a reply 0.7 us late is drawn 105 m beyond the mark.

    The delay is that of ITU-R M.824 as restated in the trade note (published, at second hand).
    """
    assert pulse_depth_m(length_us * 1e-6) == pytest.approx(depth_m, rel=2e-3)


@pytest.fixture(scope="module")
def beside_a_buoy() -> Plan:
    """North 8 NM past an islet to starboard and a buoy nearer by, to port."""
    land = flat_sea(half_width_m=8.0 * NM, cell_m=60.0)
    model = land.land(islet(1.2 * NM, 0.0, width_m=150.0), 30.0).model()
    passage = track((0.0, -4.0 * NM), (0.0, 4.0 * NM))
    buoy = mark("Buoy", -0.8 * NM, 0.5 * NM, is_fixed=False, kind="buoy", height_m=5.0)
    return planned(model, passage, covered(model, passage), marks=(buoy,))


def test_t30_a_mark_that_swings_round_its_mooring_is_never_indexed(beside_a_buoy: Plan) -> None:
    """T30, computed by hand: 60 m of chain in 20 m let a buoy swing 56.6 m, 0.31 cables.

    The plan knows no moorings, so whatever floats is out; it says so of each.
    """
    swing_m = math.sqrt(60.0**2 - 20.0**2)
    assert swing_m == pytest.approx(56.6, abs=0.05)
    leg = beside_a_buoy.legs[0]
    assert {line.object.id for line in leg.lines if line.role is Role.PRIMARY} == {"A"}
    assert "Buoy" not in {line.object.id for line in leg.lines}
    (reason,) = [reason for thing, reason in leg.candidates if thing.id == "Buoy"]
    assert reason.code == reason_codes.FLOATING
    assert sentence(reason).startswith("floats, so it is never indexed")
