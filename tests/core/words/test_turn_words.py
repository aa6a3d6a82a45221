"""A turn in words; its objects are invented."""

from dataclasses import replace

from core.base.units import m_from_nm
from core.passage.passage import Side
from core.plan.index_object import Edge, IndexObject, ObjectKind
from core.plan.turn_card_result import ArcSeen, HalfTurn, RingReading
from core.words.turn_words import (
    brief_half_words,
    half_words,
    radius_words,
    reading_words,
    seen_words,
)
from tests.helpers.islands import NM, place, track
from tests.helpers.sample_lines import wheel_over_of

THING = IndexObject(
    id="J",
    name="islet",
    position=place(0.0, 0.0),
    edge=Edge.NEAR_SIDE,
    kind=ObjectKind.ISLET,
    height_above_water_m=20.0,
    is_fixed=True,
    confirm_on_chart=True,
)
HALF = HalfTurn(
    course_deg=60.0,
    object=THING,
    side=Side.PORT,
    cross_index_range_m=m_from_nm(0.6),
    range_m=m_from_nm(1.35),
    bearing_deg=52.0,
)


def test_the_half_turn_says_line_side_and_check() -> None:
    assert half_words(HALF) == "when on the line 060/240: J PORT 0.60 NM, 1.35 NM 052° T"
    assert brief_half_words(HALF) == "060/240  J *  PORT  0.60 NM,  1.35 NM 052° T"


def test_a_half_turn_without_an_object_says_so() -> None:
    bare = replace(HALF, object=None, side=None, cross_index_range_m=None)
    assert half_words(bare) == "at 060° T, no object for a line 060/240 shows there"
    assert brief_half_words(bare) == "on 060° T; no object for a line"


def test_where_an_object_shows_is_never_called_certain() -> None:
    seen = ArcSeen(object_id="J", use="ring", shows=(True,) * 5)
    assert seen_words(seen) == "expected to show all along"
    some = replace(seen, shows=(True, True, False, False, False))
    assert seen_words(some) == "expected to show at 0 %, 25 % alone"
    assert seen_words(replace(seen, shows=(False,) * 5)) == "NOT expected to show"


def test_relative_bearings_say_so() -> None:
    reading = RingReading(range_m=m_from_nm(2.095), relative_deg=45.7)
    assert reading_words(reading) == "2.10 NM, 046° rel"


def test_a_radius_says_whose_it_is_and_when_it_is_tighter_than_the_ship_turns() -> None:
    passage = track((0.0, 0.0), (0.0, 6.0 * NM), (4.0 * NM, 8.0 * NM))
    turn = replace(wheel_over_of(passage, 0, None, None), own_radius_m=m_from_nm(0.8))
    assert radius_words(turn) == "radius 0.80 NM by the route"
    own = replace(turn, is_radius_of_route=False)
    assert radius_words(own) == "radius 0.80 NM, the ship's own at 12.0 kn"
    assert radius_words(replace(turn, turn_radius_m=m_from_nm(0.3))) == (
        "radius 0.30 NM by the route, TIGHTER than the ship's own 0.80 NM at 12.0 kn"
    )
