"""The anchoring card on a plain sea."""

import math
from dataclasses import replace

import pytest

from core.base.units import m_from_nm, mps_from_kn
from core.geodesy.leg_line import LegKind, LegLine
from core.passage.passage import Side
from core.plan.anchor_approach import approach_lines
from core.plan.anchor_echoes import AnchorEcho
from core.plan.anchoring import anchoring_card, seconds_to_run, speed_at
from core.plan.anchoring_result import Anchorage, SpeedStep
from core.plan.drag_watch import drag_shown_m
from core.plan.plan_result import Edge, ObjectKind, Role
from core.ship.ship import Band, Radar, Ship, ShipPoint
from core.words.anchor_words import approach_words, watch_words
from tests.helpers.islands import NM, place
from tests.helpers.sample_outcome import sample_outcome

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
    edge: Edge = Edge.POSITION,
    margin_db: float = 20.0,
    is_unsteady: bool = False,
) -> AnchorEcho:
    return AnchorEcho(
        object_id=name,
        name=name,
        kind=kind,
        edge=edge,
        position=place(east_nm * NM, north_nm * NM),
        margin_db=margin_db,
        is_unsteady=is_unsteady,
    )


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
        _echo("Round head", 0.0, 2.0, kind=ObjectKind.HEADLAND, edge=Edge.TANGENT),
        _echo("Sand spit", 0.0, 2.0, kind=ObjectKind.HEADLAND, is_unsteady=True),
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
        _echo("East head", 2.0, 0.0, kind=ObjectKind.HEADLAND, edge=Edge.TIP),
        _echo("West islet", -1.0, 0.0, kind=ObjectKind.ISLET, edge=Edge.NEAR_SIDE),
        _echo("Weak", 0.0, -1.0, margin_db=3.0),
        _echo("Far", -5.0, -5.0),
    )
    anchorage = Anchorage(cable_m=200.0)
    card = anchoring_card(anchorage, _LINE, _SHIP, echoes, speed_mps=_AT_8_KN)
    assert [w.object_id for w in card.watch] == ["Pier end", "West islet", "East head"]
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


def test_an_object_well_off_the_line_serves_only_where_none_is_near_it() -> None:
    """18 degrees off: range still worked out place by place (plane geometry)."""
    off = _echo("Off", 2.0 * math.tan(math.radians(18.0)), 2.0)
    card = anchoring_card(Anchorage(hawse_m=0.0), _LINE, _SHIP, (off,), speed_mps=_AT_8_KN)
    assert card.dead_range is not None
    assert card.dead_range.off_deg == pytest.approx(18.0, abs=0.1)
    one_mile = next(step for step in card.steps if step.to_go_m == pytest.approx(NM))
    assert one_mile.range_m == pytest.approx(
        NM * math.hypot(3.0, 2.0 * math.tan(math.radians(18.0))), rel=1e-3
    )
    both = anchoring_card(Anchorage(), _LINE, _SHIP, (off, _AHEAD), speed_mps=_AT_8_KN)
    assert both.dead_range is not None
    assert both.dead_range.object_id == "Pier end"


def test_a_head_mark_lies_on_the_extended_track_within_the_bearing_error() -> None:
    """One degree is 0.035 NM at 2.0 NM (plane geometry)."""
    near, wide = _echo("Near", 0.03, 2.0), _echo("Wide", 0.05, 2.0)
    card = anchoring_card(Anchorage(hawse_m=0.0), _LINE, _SHIP, (wide, near), speed_mps=_AT_8_KN)
    assert card.head_mark is not None
    assert card.head_mark.object_id == "Near"
    assert card.head_mark.off_m / NM == pytest.approx(0.03, abs=0.001)
    alone = anchoring_card(Anchorage(hawse_m=0.0), _LINE, _SHIP, (wide,), speed_mps=_AT_8_KN)
    assert alone.head_mark is None
    astern = _echo("Astern", 0.0, -2.0)
    behind = anchoring_card(Anchorage(), _LINE, _SHIP, (astern,), speed_mps=_AT_8_KN)
    assert behind.head_mark is None


def test_the_hawse_goes_off_a_range_astern() -> None:
    """The reference point is still 150 m short of the spot: nearer to what lies astern."""
    astern = _echo("Astern", 0.0, -3.0)
    card = anchoring_card(Anchorage(), _LINE, _SHIP, (astern,), speed_mps=_AT_8_KN)
    assert card.dead_range is not None
    assert card.dead_range.range_m == pytest.approx(3.0 * NM - 150.0, abs=0.5)


def test_bearings_stay_within_the_swing_and_the_error() -> None:
    """asin(350 m / 1.90 NM) = 5.7 degrees, and the heading error of the ship, 0.7."""
    anchorage = Anchorage(cable_m=200.0)
    card = anchoring_card(anchorage, _LINE, _SHIP, (_AHEAD,), speed_mps=_AT_8_KN)
    (pier,) = card.watch
    half = math.degrees(math.asin(350.0 / (1.90 * NM))) + 0.7
    assert pier.bearing_from_deg == pytest.approx(360.0 - half, abs=0.02)
    assert pier.bearing_to_deg == pytest.approx(half, abs=0.02)
    _range, ranges, bearing, bearings, _scale, _drag = watch_words(pier)
    assert (bearing, bearings) == ("000", "353–007")
    low, high = (float(text) for text in ranges.split("–"))
    assert low * NM <= pier.least_m
    assert pier.most_m <= high * NM


def test_a_drag_straight_away_shows_when_it_passes_the_range_error() -> None:
    """Away from or towards the object the range alone tells: error of the 3 NM scale, 55.6 m,
    found in steps of 5 m. Square to it the bearing tells: the swing of 350 m with the error of
    0.7 degrees, from atan(d / R) = asin(350 / R) + 0.7 (computed by hand)."""
    card = anchoring_card(Anchorage(cable_m=200.0), _LINE, _SHIP, (_AHEAD,), speed_mps=_AT_8_KN)
    (pier,) = card.watch
    shown_m = drag_shown_m(pier, 350.0)
    error_m = 0.01 * 3.0 * NM
    assert shown_m[36] == pytest.approx(error_m, abs=5.01)
    assert shown_m[0] == pytest.approx(error_m, abs=5.01)
    far_m = 1.90 * NM
    across_m = far_m * math.tan(math.asin(350.0 / far_m) + math.radians(0.7)) - 350.0
    assert shown_m[18] == pytest.approx(across_m, abs=5.01)
    assert pier.worst_drag_m == pytest.approx(float(shown_m.max()))
    assert float(shown_m.max()) > 2.0 * error_m


def test_objects_apart_warn_sooner_together_and_the_best_is_named() -> None:
    echoes = (_AHEAD, _echo("East", 1.0, 0.0), _echo("South", 0.0, -4.0))
    card = anchoring_card(Anchorage(cable_m=200.0), _LINE, _SHIP, echoes, speed_mps=_AT_8_KN)
    together_m = card.watch_drag_m
    assert together_m is not None
    for item in card.watch:
        assert item.worst_drag_m is not None
        assert together_m <= item.worst_drag_m
    best = [item.object_id for item in card.watch if item.is_best]
    assert best == ["East"]
    unsaid = anchoring_card(Anchorage(), _LINE, _SHIP, echoes, speed_mps=_AT_8_KN)
    assert unsaid.watch_drag_m is None
    assert not any(item.is_best for item in unsaid.watch)


def test_what_lies_within_the_swing_is_not_watched() -> None:
    near = _echo("Dolphin", 0.1, 0.1)
    card = anchoring_card(Anchorage(cable_m=200.0), _LINE, _SHIP, (near,), speed_mps=_AT_8_KN)
    assert card.watch == ()
    assert card.watch_reason


def test_approach_lines_read_less_towards_their_object() -> None:
    """Ship at the port edge: nearer to port, farther from starboard, by the corridor."""
    leg = sample_outcome().plan.legs[0]
    late = tuple(replace(line, to_along_m=leg.distance_m) for line in leg.lines)
    lines = approach_lines(replace(leg, lines=late))
    assert lines
    for line in lines:
        less, more = (
            (line.at_port_edge_m, line.at_starboard_edge_m)
            if line.side is Side.PORT
            else (line.at_starboard_edge_m, line.at_port_edge_m)
        )
        assert line.cross_index_range_m - less == pytest.approx(leg.corridor_port_m)
        assert more - line.cross_index_range_m == pytest.approx(leg.corridor_starboard_m)
        _use, side, middle, port, starboard = approach_words(line)
        assert side == line.side.value.upper()
        low, high = sorted((float(port), float(starboard)))
        assert low < float(middle) < high
        assert low * NM >= less - 1e-3
        assert high * NM <= more + 1e-3
    early = tuple(
        replace(line, to_along_m=leg.distance_m / 2.0)
        for line in leg.lines
        if line.role is not Role.WHEEL_OVER
    )
    assert approach_lines(replace(leg, lines=early)) == ()
