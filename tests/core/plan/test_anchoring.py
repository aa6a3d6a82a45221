"""The anchoring card on a plain sea."""

from dataclasses import replace

import pytest

from core.base.units import m_from_nm, mps_from_kn
from core.geodesy.leg_line import LegKind, LegLine
from core.plan.anchoring import AnchorEcho, anchoring_card, seconds_to_run, speed_at
from core.plan.anchoring_result import Anchorage, SpeedStep
from core.plan.plan_result import ObjectKind
from core.ship.ship import Band, Radar, Ship, ShipPoint
from tests.helpers.islands import NM, place

_SHIP = Ship(
    name="invented",
    length_m=180.0,
    beam_m=28.0,
    draught_forward_m=8.0,
    draught_aft_m=8.0,
    turn_radius_m=700.0,
    response_distance_m=150.0,
    radars=(Radar(name="X", band=Band.X, antenna_above_keel_m=35.0),),
    reference=ShipPoint(from_stern_m=30.0),
)
"""Her reference point lies 150 m abaft the bow."""
_LINE = LegLine(kind=LegKind.GEODESIC, start=place(0.0, -8.0 * NM), end=place(0.0, 0.0))
_AT_8_KN = mps_from_kn(8.0)


def _echo(
    name: str,
    east_nm: float,
    north_nm: float,
    *,
    kind: ObjectKind = ObjectKind.MARK,
    margin_db: float = 20.0,
) -> AnchorEcho:
    position = place(east_nm * NM, north_nm * NM)
    return AnchorEcho(object_id=name, name=name, kind=kind, position=position, margin_db=margin_db)


_AHEAD = _echo("Pier end", 0.0, 1.90)


def test_let_go_range_and_time_of_the_worked_case() -> None:
    """T15b, computed by hand: 1.90 NM beyond the spot, 150 m: let go at 1.981 NM; from 6.0 NM it
    is 4.02 NM and 30.1 min at a constant 8 kn; ships take way off, so a profile takes longer."""
    card = anchoring_card(Anchorage(), _LINE, _SHIP, (_AHEAD,), speed_mps=_AT_8_KN)
    assert card.dead_range is not None
    assert card.dead_range.range_m / NM == pytest.approx(1.981, abs=0.0005)
    to_go_m = 6.0 * NM - card.dead_range.range_m
    assert to_go_m / NM == pytest.approx(4.02, abs=0.005)
    constant = (SpeedStep(from_to_go_m=10.0 * NM, speed_mps=_AT_8_KN),)
    assert seconds_to_run(to_go_m, constant, _AT_8_KN) / 60.0 == pytest.approx(30.1, abs=0.05)
    assert seconds_to_run(to_go_m, card.speeds, _AT_8_KN) / 60.0 > 35.0


def test_the_countdown_ends_at_the_let_go_range_and_takes_way_off() -> None:
    card = anchoring_card(Anchorage(), _LINE, _SHIP, (_AHEAD,), speed_mps=mps_from_kn(12.0))
    assert card.dead_range is not None
    last = card.steps[-1]
    assert (last.to_go_m, last.to_go_s) == (0.0, 0.0)
    assert last.range_m == pytest.approx(card.dead_range.range_m, abs=0.01)
    for earlier, later in zip(card.steps, card.steps[1:], strict=False):
        assert earlier.range_m is not None
        assert later.range_m is not None
        run_m = earlier.range_m - later.range_m
        assert run_m == pytest.approx(earlier.to_go_m - later.to_go_m, abs=0.5)
        assert earlier.speed_mps >= later.speed_mps
        assert earlier.to_go_s > later.to_go_s


def test_a_profile_of_the_officer_is_summed_step_by_step() -> None:
    speeds = tuple(
        SpeedStep(from_to_go_m=m_from_nm(nm), speed_mps=mps_from_kn(kn))
        for nm, kn in ((2.0, 6.0), (1.0, 3.0))
    )
    hours = 1.0 / 12.0 + 1.0 / 6.0 + 1.0 / 3.0
    twelve = mps_from_kn(12.0)
    assert seconds_to_run(3.0 * NM, speeds, twelve) == pytest.approx(hours * 3600.0, rel=1e-6)
    assert speed_at(2.5 * NM, speeds, twelve) == twelve
    assert speed_at(0.5 * NM, speeds, twelve) == pytest.approx(mps_from_kn(3.0))
    card = anchoring_card(Anchorage(speeds=speeds), _LINE, _SHIP, (), speed_mps=twelve)
    assert card.speeds == speeds
    assert not card.are_speeds_usual


def test_an_object_astern_serves_where_none_is_ahead_and_its_range_grows() -> None:
    astern = _echo("Head", 0.2, -5.0, kind=ObjectKind.HEADLAND)
    card = anchoring_card(Anchorage(), _LINE, _SHIP, (astern,), speed_mps=_AT_8_KN)
    assert card.dead_range is not None
    assert not card.dead_range.is_ahead
    assert card.dead_range.range_m / NM == pytest.approx(4.92, abs=0.01)
    assert card.steps[0].range_m is not None
    assert card.steps[-1].range_m is not None
    assert card.steps[0].range_m < card.steps[-1].range_m


@pytest.mark.parametrize(
    "echo",
    [
        _echo("Abeam", 2.0, 0.0),
        _echo("Hill", 0.0, 2.0, kind=ObjectKind.PEAK),
        _echo("Islet", 0.0, 2.0, kind=ObjectKind.ISLET),
    ],
)
def test_what_lies_off_the_line_or_wanders_counts_no_distance_down(echo: AnchorEcho) -> None:
    card = anchoring_card(Anchorage(), _LINE, _SHIP, (echo,), speed_mps=_AT_8_KN)
    assert card.dead_range is None
    assert card.dead_range_reason
    assert all(step.range_m is None for step in card.steps)


def test_the_watch_takes_near_sharp_objects_well_apart_and_holds_the_swing() -> None:
    echoes = (
        _AHEAD,
        _echo("Beside it", 0.1, 1.95),
        _echo("East head", 2.0, 0.0, kind=ObjectKind.HEADLAND),
        _echo("West islet", -1.0, 0.0, kind=ObjectKind.ISLET),
        _echo("Weak", 0.0, -1.0, margin_db=3.0),
        _echo("Far", -5.0, -5.0),
    )
    anchorage = Anchorage(cable_m=200.0)
    card = anchoring_card(anchorage, _LINE, _SHIP, echoes, speed_mps=_AT_8_KN)
    assert [w.object_id for w in card.watch] == ["Pier end", "East head", "West islet"]
    assert [w.is_middle for w in card.watch] == [False, False, True]
    assert card.swing_m == 350.0
    pier = card.watch[0]
    assert pier.most_m - pier.range_m == pytest.approx(350.0 + 0.01 * 3.0 * NM, abs=0.6)
    assert pier.range_m - pier.least_m == pytest.approx(350.0 + 0.01 * 3.0 * NM, abs=0.6)


def test_without_a_reference_point_the_card_says_that_none_is_stated() -> None:
    card = anchoring_card(
        Anchorage(), _LINE, replace(_SHIP, reference=None), (_AHEAD,), speed_mps=_AT_8_KN
    )
    assert not card.is_hawse_stated
    assert card.dead_range is not None
    assert card.dead_range.range_m / NM == pytest.approx(1.90, abs=0.0005)
    assert card.swing_m is None
