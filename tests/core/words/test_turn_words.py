"""A turn in words; its objects are invented."""

from dataclasses import replace

from core.base.units import m_from_nm
from core.passage.passage import Side
from core.plan.index_object import Edge, IndexObject, ObjectKind
from core.plan.turn_card_result import ArcSeen, HalfTurn, RingReading
from core.words.turn_words import brief_half_words, half_words, reading_words, seen_words
from tests.helpers.islands import place

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
