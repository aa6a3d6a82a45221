"""What is printed of an index object, from the invented outcome. Rounding as its rules say."""

from dataclasses import replace

import pytest

from core.plan import reason_codes as codes
from core.plan import setup_codes
from core.plan.object_result import Grade
from core.plan.reason import Reason
from core.words.object_words import (
    all_words,
    confidence_words,
    conspicuous_words,
    first_look,
    grain_words,
    look_words,
)
from core.words.reasons import sentence
from tests.helpers.sample_outcome import sample_outcome

LEG = sample_outcome().plan.legs[0]
ISLET, BREAKWATER = LEG.looks


def test_a_found_object_says_every_term() -> None:
    assert look_words(ISLET) == (
        "120 m across, 2 beams at 1.20 NM",
        "slope 0.35",
        "tide moves its edge under 20 m",
        "other land 0.76 NM from it",
        "paints up to 40 m farther off within its window",
    )
    assert confidence_words(ISLET) == (
        "confidence fair: 5 m lower it would be hidden in its window"
    )


def test_a_mark_says_what_is_known_of_it() -> None:
    assert all_words(BREAKWATER) == "confidence good"


def test_a_good_object_tells_the_least_margin_rounded_down() -> None:
    good = replace(ISLET.confidence, grade=Grade.GOOD, reasons=())
    words = confidence_words(replace(ISLET, confidence=good))
    assert words == "confidence good: echo 12 dB or more over the threshold"


def test_conspicuous_is_calculated_and_never_in_the_charts_words() -> None:
    words = conspicuous_words(ISLET)
    assert words == "likely conspicuous (calculated)"
    assert "Ra " not in words
    assert conspicuous_words(BREAKWATER) == ""


def test_narrow_and_low_things_are_told_as_such() -> None:
    narrow = replace(ISLET, extent_m=30.0, beams_ratio=0.4)
    assert look_words(narrow)[0] == "30 m across, narrower than the beam at 1.20 NM"
    low = replace(ISLET, slope_ratio=None, tide_moves_m=278.0, is_tide_at_least=True)
    assert look_words(low)[1:3] == ("low shore", "tide moves its edge more than 250 m")
    unknown = replace(ISLET, slope_ratio=None, tide_moves_m=None)
    assert look_words(unknown)[1] == "slope of its shore not known"


def test_what_the_data_cannot_hold_is_rounded_up() -> None:
    # 185.2 m in the sample.
    assert grain_words(LEG) == "Data may lack rocks and piers under about 190 m."
    assert grain_words(replace(LEG, data_grain_m=None)) == ""


def test_the_first_leg_that_uses_an_object_tells_of_it() -> None:
    second = replace(LEG, leg_index=1, looks=(replace(ISLET, place=2),))
    unused = replace(LEG, leg_index=0, lines=())
    assert first_look((unused, second), ISLET.object) == second.looks[0]
    assert first_look((LEG,), replace(ISLET.object, id="ZZ")) is None


@pytest.mark.parametrize(
    ("code", "name", "value", "words"),
    [
        (
            codes.HEIGHT_WITHIN_ERROR,
            "height_error_m",
            5.0,
            "no higher than heights err (5 m), it may not stand out",
        ),
        (codes.FEW_CELLS, "cell_side_m", 92.6, "less than three cells of 93 m across"),
        (
            codes.COAST_APART,
            "coast_apart_m",
            170.0,
            "the elevation shows no land within 150 m of its coast",
        ),
        (
            codes.WEAK_ECHO,
            "least_db",
            3.4,
            "its echo is only 3 dB over the threshold somewhere in its window",
        ),
    ],
)
def test_what_lowers_confidence_is_a_sentence_of_its_own(
    code: str, name: str, value: float, words: str
) -> None:
    assert sentence(Reason(code=code, values=((name, value),))) == words


def test_no_code_means_two_things() -> None:
    found = [
        value
        for module in (codes, setup_codes)
        for name, value in vars(module).items()
        if name.isupper() and isinstance(value, str)
    ]
    assert len(found) == len(set(found))
