"""Turns on a hand-made coast: which side, which ring, what shows. Answers by hand."""

import math
from dataclasses import replace

import numpy as np
import pytest

from core.base.units import m_from_nm, mps_from_kn, nm_from_m
from core.coverage.coverage_result import Coverage
from core.land.land_model import LandModel
from core.passage.motion import leg_motion
from core.passage.passage import Passage, Side
from core.passage.stream import LegStream, Stream
from core.passage.turn import Turn
from core.plan.plan_result import LegPlan
from core.plan.turn_arc import arc_places, land_on_arc
from core.plan.turn_card_result import TurnCard
from core.ship.ship import BlindSector, Ship
from core.words.turn_words import arc_words, half_words, rate_words, ring_words, seen_words
from tests.helpers.islands import NM, box, flat_sea, islet, track
from tests.helpers.plans import SHIP, covered, findings_of, mark, planned, with_turn_radius

Scene = tuple[LandModel, Passage, Coverage]

SIXTY = math.radians(60.0)


def on_new_leg(along_nm: float, cross_nm: float) -> tuple[float, float]:
    """Metres east and north of the waypoint for a place about a new leg of 060, starboard +."""
    east = along_nm * math.sin(SIXTY) + cross_nm * math.cos(SIXTY)
    north = along_nm * math.cos(SIXTY) - cross_nm * math.sin(SIXTY)
    return east * NM, north * NM


def coast(*islets_m: tuple[float, float], wall: bool = False) -> Scene:
    """A leg of 8 NM north to the origin, then 6 NM on 060; steep islets of 60 m across."""
    sea = flat_sea(half_width_m=10.0 * NM, cell_m=60.0)
    for east_m, north_m in islets_m:
        sea = sea.land(islet(east_m, north_m, width_m=60.0), 40.0)
    if wall:
        sea = sea.land(box(0.35 * NM, -0.68 * NM, 0.45 * NM, -0.52 * NM), 90.0)
    land = sea.model()
    passage = track((0.0, -8.0 * NM), (0.0, 0.0), on_new_leg(6.0, 0.0))
    return land, passage, covered(land, passage)


def leg_of(scene: Scene, ship: Ship = SHIP) -> LegPlan:
    return planned(*scene, ship=ship).legs[0]


def card_of(leg: LegPlan) -> TurnCard:
    assert leg.turn_card is not None
    return leg.turn_card


@pytest.fixture(scope="module")
def inside() -> Scene:
    """An islet 0.25 NM to starboard of the new leg: inside the turn and nearer than 0.487 NM."""
    return coast(on_new_leg(1.0, 0.25))


def test_t9_a_mark_close_inside_stands_on_the_other_side_of_the_wheel_over_line(
    inside: Scene,
) -> None:
    # T9's turn: the line reads 0.25 - 0.487 = -0.237 about the new course: to PORT.
    turn = leg_of(inside).wheel_over
    assert turn is not None
    assert turn.line is not None
    assert turn.line.side is Side.PORT
    assert nm_from_m(turn.line.cross_index_range_m) == pytest.approx(0.237, abs=0.02)
    assert turn.line.line_bearing_deg == pytest.approx(60.0, abs=0.1)
    values = dict(turn.line.reason.values)
    assert values["other_side"] == 1.0
    assert values["inside"] == 1.0


@pytest.mark.parametrize(
    ("cross_nm", "side", "read_nm"),
    [(1.50, Side.STARBOARD, 1.013), (-1.50, Side.PORT, 1.987)],
)
def test_t9_marks_farther_off_keep_their_side(cross_nm: float, side: Side, read_nm: float) -> None:
    # T9, computed by hand: inside reads less, outside more.
    turn = leg_of(coast(on_new_leg(0.2, cross_nm))).wheel_over
    assert turn is not None
    assert turn.line is not None
    assert turn.line.side is side
    assert nm_from_m(turn.line.cross_index_range_m) == pytest.approx(read_nm, abs=0.02)


def test_t10_t11_the_ring_and_the_rates_of_a_planned_turn() -> None:
    # Abeam to starboard at the end of T9's turn: 1.2 NM off the new track at its end, 0.462 along.
    # Centre one radius, 0.80, to starboard there: ring 1.2 - 0.8 = 0.40 NM.
    card = card_of(leg_of(coast(on_new_leg(0.462, 1.2))))
    assert card.ring is not None
    assert nm_from_m(card.ring.radius_m) == pytest.approx(0.40, abs=0.02)
    end = card.ring.readings[-1]
    assert end.relative_deg == pytest.approx(90.0, abs=2.0)
    assert nm_from_m(end.range_m) == pytest.approx(1.2, abs=0.02)
    assert ring_words(card, card.ring) == (
        f"{nm_from_m(card.ring.radius_m):.2f} NM about a point 0.80 NM on the STARBOARD beam"
    )
    for reading in card.ring.readings:
        angle = math.radians(reading.relative_deg)
        ahead, aside = reading.range_m * math.cos(angle), reading.range_m * math.sin(angle)
        assert math.hypot(ahead, aside - card.radius_m) == pytest.approx(card.ring.radius_m)
    # Exact rate: degrees(12 / 0.8) / 60; way lost to 9.6 kn needs 0.8 of it.
    assert card.rate_deg_per_min == pytest.approx(14.32, abs=0.01)
    assert rate_words(card) == ("14°/min at 12.0 kn; to hold the radius 11°/min at 9.6 kn")
    assert card.drift_m is None
    assert arc_words(card) == "0.84 NM on the arc, 4.2 min"
    assert [seen_words(one) for one in card.seen if one.use == "ring"] in (
        [],
        ["expected to show all along"],
    )


def test_an_object_close_ahead_at_the_end_is_no_ring_object() -> None:
    # Right ahead on the new track beyond the end of the turn.
    card = card_of(leg_of(coast(on_new_leg(2.2, 0.25))))
    assert card.ring is None
    assert card.ring_reason.startswith("no object near abeam at its end")


def test_what_land_hides_along_the_arc_is_told() -> None:
    # A wall inside the corner stands between the start of the arc and the islet that is abeam at
    # its end, and clear of the line of sight from a quarter of the turn on.
    thing = on_new_leg(0.462, 1.2)
    free, walled = card_of(leg_of(coast(thing))), card_of(leg_of(coast(thing, wall=True)))
    assert free.ring is not None
    is_it = free.ring.object.position
    assert all(all(one.shows) for one in free.seen if one.object_id == free.ring.object.id)
    assert walled.ring is None or walled.ring.object.position != is_it
    told = [one.shows for one in walled.seen if one.use == "new leg"]
    assert told == [(False, True, True, True, True)]


def test_own_sectors_turn_along_the_arc() -> None:
    # Abeam to starboard at the end, 40 deg on the bow before: a sector round the beam blinds it at
    # the end alone, so that no ring can be ridden.
    beam = BlindSector(from_relative_deg=80.0, to_relative_deg=100.0)
    main, other = SHIP.radars
    ship = replace(SHIP, radars=(replace(main, blind_sectors=(beam,)), other))
    scene = coast(on_new_leg(0.462, 1.2))
    assert card_of(leg_of(scene)).ring is not None
    card = card_of(leg_of(scene, ship))
    assert card.ring is None
    for one in card.seen:
        assert one.shows[-1] is False


def test_t9c_a_small_alteration_says_how_vague_a_line_would_be() -> None:
    # 10 deg, corridor 0.10 NM: 0.10 / tan 10 = 0.567 NM.
    land = flat_sea(half_width_m=10.0 * NM, cell_m=90.0).land(islet(NM, 0.0, width_m=90.0), 30.0)
    ten = math.radians(10.0)
    passage = track(
        (0.0, -8.0 * NM), (0.0, 0.0), (6.0 * NM * math.sin(ten), 6.0 * NM * math.cos(ten))
    )
    model = land.model()
    leg = planned(model, passage, covered(model, passage)).legs[0]
    assert leg.wheel_over is not None
    assert leg.wheel_over.line is None
    assert "0.10 NM off the track would move its moment by 0.57 NM" in leg.wheel_over.line_reason
    assert leg.wheel_over.second_mark is not None
    assert card_of(leg).ring is None
    assert card_of(leg).ring_reason == "too small a turn to ride a ring"


def test_t9d_a_large_alteration_has_a_line_at_half_turn() -> None:
    # T9d: 120 deg, R 0.5: tangent 0.866 NM. Half turn on 060, at (0.25, -0.433) from the
    # waypoint: arc start (0, -0.866), then R sin 60 ahead and R (1 - cos 60) aside.
    alter = math.radians(120.0)
    new = (6.0 * NM * math.sin(alter), 6.0 * NM * math.cos(alter))
    model = flat_sea(half_width_m=10.0 * NM, cell_m=90.0).model()
    passage = with_turn_radius(track((0.0, -8.0 * NM), (0.0, 0.0), new), m_from_nm(0.5))
    thing = mark("Beacon", 0.25 * NM, 0.867 * NM, height_m=20.0)
    leg = planned(model, passage, covered(model, passage), marks=(thing,)).legs[0]
    card = card_of(leg)
    middle = card.places[2]
    assert middle.course_deg == pytest.approx(60.0, abs=0.1)
    assert middle.position.lat_deg * 110_574.2758 / NM == pytest.approx(-0.433, abs=2e-3)
    assert card.half is not None
    assert card.half.side is Side.PORT
    assert card.half.cross_index_range_m is not None
    # The beacon 1.30 NM north of the half-turn place: 1.30 sin 60 = 1.126 NM to port of 060.
    assert nm_from_m(card.half.cross_index_range_m) == pytest.approx(1.126, abs=5e-3)
    assert half_words(card.half) == (
        "when on the line 060/240: Beacon PORT 1.13 NM, 1.30 NM 000° T"
    )


def test_a_small_turn_has_no_half_turn(inside: Scene) -> None:
    assert card_of(leg_of(inside)).half is None


def test_t9e_the_drift_is_on_the_card(inside: Scene) -> None:
    # T9e: 2 kn during the 4.19 min of T9 at 12 kn through the water: 0.14 NM.
    stream = LegStream(stream=Stream(set_deg=120.0, drift_mps=mps_from_kn(2.0)))
    motions = tuple(
        leg_motion(stream, course_deg=course, speed_mps=mps_from_kn(12.0), leg_number=1)
        for course in (0.0, 60.0)
    )
    card = card_of(planned(*inside, motions=motions).legs[0])
    assert card.drift_m is not None
    assert nm_from_m(card.drift_m) == pytest.approx(0.14, abs=5e-3)
    assert arc_words(card) == (
        "0.84 NM on the arc, 4.2 min; the stream sets her 0.14 NM to 120° T meanwhile"
    )


def test_the_arc_is_tangent_to_both_legs(inside: Scene) -> None:
    _land, passage, _coverage = inside
    turn = Turn(
        old_course_deg=0.0,
        new_course_deg=60.0,
        radius_m=0.8 * NM,
        response_distance_m=0.0,
    )
    places = arc_places(passage.line(0), turn)
    along, cross = passage.line(1).track_coordinates(
        np.array([places[-1].position.lat_deg]), np.array([places[-1].position.lon_deg])
    )
    assert cross[0] / NM == pytest.approx(0.0, abs=2e-3)
    assert along[0] / NM == pytest.approx(0.462, abs=2e-3)
    assert places[-1].course_deg == pytest.approx(60.0)


def test_a_turn_across_land_must_be_fixed() -> None:
    # A bar in the corner, clear of both lines: the arc cuts it.
    sea = flat_sea(half_width_m=10.0 * NM, cell_m=30.0)
    model = sea.land(box(0.06 * NM, -0.20 * NM, 0.20 * NM, -0.04 * NM), 20.0).model()
    passage = track((0.0, -8.0 * NM), (0.0, 0.0), on_new_leg(6.0, 0.0))
    turn = Turn(old_course_deg=0.0, new_course_deg=60.0, radius_m=0.8 * NM, response_distance_m=0.0)
    is_across, nearest_m = land_on_arc(passage.line(0), turn, model)
    assert is_across
    assert nearest_m is not None
    plan = planned(model, passage, covered(model, passage))
    assert findings_of(plan, "turn-across-land") == [1]


def test_the_nearest_land_is_measured_from_the_arc(inside: Scene) -> None:
    # The islet inside: from the arc's end (0.462 along the new leg) 0.54 along and 0.25 aside.
    card = card_of(leg_of(inside))
    assert not card.is_across_land
    assert card.nearest_land_m is not None
    assert nm_from_m(card.nearest_land_m) == pytest.approx(math.hypot(0.538, 0.25), abs=0.03)
