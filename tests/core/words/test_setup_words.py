"""Set-up card and tune check in words."""

import re
from dataclasses import replace

import pytest

from core.base.units import m_from_nm
from core.plan import setup_codes as codes
from core.plan.reason import Reason
from core.plan.reason_codes import INDEX_OBJECT
from core.plan.setup_result import Control, SetupRow
from core.plan.tune_result import Rung, TuneReading
from core.words.card_words import why_words
from core.words.reasons import sentence
from core.words.setup_words import (
    BEFORE_READINGS,
    COMMON_PRACTICE,
    COMMON_PRACTICE_SIGN,
    ORDER_OF_SET_UP,
    READINGS,
    SETUP_TEMPLATES,
    WHEN_TUNED,
    control_words,
    rung_words,
)

_EVERY = {value for name, value in vars(codes).items() if name.isupper()}
_SAID = (
    *SETUP_TEMPLATES.values(),
    *ORDER_OF_SET_UP,
    *WHEN_TUNED,
    *BEFORE_READINGS,
    *map(" ".join, READINGS.values()),
)


def said(code: str, *values: tuple[str, float | str]) -> str:
    return sentence(Reason(code=code, values=values))


def test_every_code_has_words_and_every_word_a_code() -> None:
    assert set(SETUP_TEMPLATES) == _EVERY


def test_every_reading_and_step_and_control_has_words() -> None:
    assert set(READINGS) == set(TuneReading)
    assert all(rung_words(rung) for rung in Rung)
    for control in Control:
        row = SetupRow(
            control=control,
            setting=Reason(code=codes.SET_ON),
            reason=Reason(code=codes.WHY_GAIN),
            from_along_m=0.0,
            to_along_m=1.0,
            is_common_practice=True,
        )
        assert control_words(row)


def test_the_order_of_set_up_goes_from_standby_to_the_card() -> None:
    # Handbook 11: common practice, no source. Suppression off before gain, gain before tuning,
    # tuning before gain comes back, suppression last.
    order = [
        next(i for i, text in enumerate(ORDER_OF_SET_UP) if words in text)
        for words in (
            "standby",
            "medium scale",
            "off or to least",
            "Turn gain up",
            "Tune for most",
            "Turn gain back",
            "only as much suppression",
            "performance monitor; log",
            "card of the leg",
        )
    ]
    assert order == sorted(order)
    assert COMMON_PRACTICE.startswith(COMMON_PRACTICE_SIGN)
    assert "common practice, no source" in COMMON_PRACTICE


@pytest.mark.parametrize("text", _SAID)
def test_nothing_is_certain_and_nothing_safe(text: str) -> None:
    assert not re.search(r"\b(safe|safely|will|always|never|certain|guarantee\w*)\b", text.lower())


def test_numbers_come_in_deck_units() -> None:
    assert (
        said(
            codes.SET_INDEX_LINE,
            ("object", "A"),
            ("role", "primary"),
            ("side", "starboard"),
            ("cross_index_range_m", m_from_nm(1.2)),
            ("range_scale_m", m_from_nm(3.0)),
            ("line_bearing_deg", 0.0),
        )
        == "A STARBOARD 1.20 NM, 000/180"
    )
    # A margin is rounded to the side that warns early.
    assert (
        said(
            codes.SET_INDEX_LINE,
            ("object", "B"),
            ("role", "margin"),
            ("side", "port"),
            ("cross_index_range_m", m_from_nm(0.902)),
            ("range_scale_m", m_from_nm(3.0)),
            ("line_bearing_deg", 47.0),
            ("limit", "not less than"),
        )
        == "B PORT not less than 0.91 NM, 047/227"
    )
    assert (
        said(codes.SET_EBL_VRM, ("mark_range_m", m_from_nm(2.314)), ("mark_bearing_deg", 7.2))
        == "EBL 007° T, VRM 2.31 NM"
    )
    assert said(codes.SET_OFF_CENTRE, ("share_ratio", 0.5), ("direction", "astern")) == (
        "50 % astern"
    )
    assert said(codes.SET_TRAILS, ("trail_minutes", 3.0)) == "relative, 3 min"
    rain = said(codes.WHY_S_IN_RAIN, ("rain_mm_h", 16.0), ("planned", "X band, main mast"))
    assert rain.startswith("rain 16 mm/h: S band suffers less")


def test_the_depth_of_a_pulse_is_said_where_it_is_known() -> None:
    # Handbook 8: half of 0.25 us at the speed of light is 37.47 m.
    named = ("pulse", "medium")
    assert said(codes.WHY_PULSE_MIDDLE, named, ("depth_m", 37.47)) == (
        "medium goes with the scale (37 m deep)"
    )
    assert said(codes.WHY_PULSE_MIDDLE, named) == "medium goes with the scale"


def test_a_missing_step_says_between_which_margins_was_looked() -> None:
    assert said(codes.TUNE_NO_RUNG, ("least_db", 10.0), ("most_db", 20.0)) == (
        "no echo with 10 to 20 dB to spare"
    )
    assert said(codes.TUNE_NO_RUNG, ("least_db", 20.0)) == ("no echo with more than 20 dB to spare")


def test_an_index_line_says_first_what_it_is_for() -> None:
    laid = SetupRow(
        control=Control.INDEX_LINE,
        number=1,
        setting=Reason(code=codes.SET_INDEX_LINE, values=(("role", "wheel_over"),)),
        reason=Reason(code=codes.WHY_GAIN),
        from_along_m=0.0,
        to_along_m=1.0,
        is_common_practice=False,
    )
    assert why_words(laid) == "wheel-over, too little gain loses the weak echoes first"
    assert control_words(laid) == "index line 1"
    islet = Reason(code=INDEX_OBJECT, values=(("kind", "islet"), ("sharp", 1.0)))
    other = replace(laid, reason=islet)
    assert why_words(other) == "wheel-over, islet: sharp edge"
    assert why_words(other, is_short=True) == "wheel-over, islet"
