"""Words of fallbacks, agreement and corridor, on the invented outcome; rounding by its rules."""

from dataclasses import replace

from core.plan.corridor_result import CorridorWatch
from core.plan.plan_result import Fallback, HandOver, Override
from core.words.line_words import (
    agreement_words,
    corridor_words,
    fallback_words,
    long_fallbacks,
    override_list,
    short_fallback,
)
from tests.helpers.islands import NM
from tests.helpers.sample_outcome import sample_outcome

LEG = sample_outcome().plan.legs[0]
LINE = LEG.lines[0]


def test_agreement_is_rounded_up() -> None:
    change = HandOver(
        from_object="A",
        to_object="B",
        from_along_m=0.0,
        to_along_m=NM,
        minutes=5.0,
        fallback=None,
        agreement_m=0.0501 * NM,
    )
    assert agreement_words(change) == "agree within 0.06 NM"


def test_a_fallback_says_where_it_serves_if_not_all_along() -> None:
    whole = Fallback(object_id="C", from_along_m=LINE.from_along_m, to_along_m=LINE.to_along_m)
    assert fallback_words(LEG, replace(LINE, fallback=whole)) == "C"
    # The leg is 8.0 NM long, the line runs from 0.0 to 5.25.
    part = replace(whole, from_along_m=1.0 * NM, to_along_m=3.0 * NM)
    assert fallback_words(LEG, replace(LINE, fallback=part)) == "C 7.0–5.0 to go"
    assert fallback_words(LEG, LINE) == "–"


def test_a_letter_has_room_in_the_table_and_a_longer_name_stands_below() -> None:
    ends = {"from_along_m": LINE.from_along_m, "to_along_m": LINE.to_along_m}
    letter = replace(LINE, fallback=Fallback(object_id="C", **ends))
    named = replace(LINE, fallback=Fallback(object_id="Sound Beacon", **ends))
    assert (short_fallback(letter), short_fallback(named), short_fallback(LINE)) == ("C", "", "")
    assert long_fallbacks(replace(LEG, lines=(letter,))) == ""
    assert long_fallbacks(replace(LEG, lines=(named, LINE))) == "A: Sound Beacon"


def test_choices_of_the_officer_are_said_with_his_remark() -> None:
    # A5: an override is printed.
    override = Override(leg_number=1, role="primary", object_id="A", remark="seen last time")
    leg = replace(LEG, lines=(replace(LINE, override=override), *LEG.lines[1:]))
    assert override_list(leg) == "A primary: seen last time"
    assert override_list(LEG) == ""


def test_the_least_corridor_is_rounded_up_and_said_once() -> None:
    # Job note 14.8: 0.6 c on the 3 NM scale.
    watch = CorridorWatch(corridor_m=370.4, scale_m=3.0 * NM, range_error_m=55.56)
    first = LEG.scales[0]
    leg = replace(LEG, corridor_watch=watch, scales=(first, replace(first, radar="second")))
    assert corridor_words(leg, leg.scales[0]) == "watches no corridor under 0.6 c"
    assert corridor_words(leg, leg.scales[1]) == ""
    assert corridor_words(LEG, first) == ""
