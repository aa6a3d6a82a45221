"""Reasons into sentences."""

from core.base.units import m_from_nm
from core.plan import reason_codes as codes
from core.plan.plan_result import Reason
from core.words.reasons import TEMPLATES, beside_choice, beside_name, sentence


def test_every_code_of_the_plan_has_words_of_its_own() -> None:
    named = {value for name, value in vars(codes).items() if name.isupper()}
    without = named - set(TEMPLATES) - {codes.INDEX_OBJECT, codes.WHEEL_OVER_LINE}
    assert not without


def test_an_unknown_code_is_spelled_out_with_its_values() -> None:
    reason = Reason(code="some-new-code", values=(("range_m", m_from_nm(2.0)),))
    assert sentence(reason) == "some new code (range 2.0 NM)"


def test_a_template_without_its_values_is_spelled_out_too() -> None:
    assert sentence(Reason(code=codes.MARGIN)) == "danger limit"


def test_lengths_and_angles_are_put_into_deck_words() -> None:
    reason = Reason(
        code=codes.SCALE_FORCED_BY_OBJECT, values=(("object", "A"), ("range_m", m_from_nm(2.8)))
    )
    assert sentence(reason) == "holds A out to 2.8 NM"


def test_a_low_shore_says_what_the_data_can_tell_and_that_the_range_is_assumed() -> None:
    values = (("kind", "headland"), ("low_shore_m", 278.0), ("tide_m", 4.0), ("tide_assumed", 1.0))
    assert sentence(Reason(code=codes.INDEX_OBJECT, values=values)) == (
        "headland: low shore, the tide moves its edge more than 250 m (range 4.0 m assumed)"
    )
    steep = (("kind", "islet"), ("slope", 0.8), ("steep_to", 1.0))
    assert sentence(Reason(code=codes.INDEX_OBJECT, values=steep)) == "islet: steep-to"


def test_beside_a_name_the_kind_is_not_said_again() -> None:
    reason = Reason(code=codes.INDEX_OBJECT, values=(("kind", "islet"), ("steep_to", 1.0)))
    assert beside_name(reason, "islet 38 m high, 2.9 NM NE of WP2") == "steep-to"
    assert beside_name(reason, "Ostrin") == "islet: steep-to"


def test_that_the_officer_chose_it_is_not_said_beside_his_choice() -> None:
    values = (("kind", "islet"), ("chosen", 1.0), ("steep_to", 1.0))
    reason = Reason(code=codes.INDEX_OBJECT, values=values)
    assert sentence(reason) == "islet: chosen by the officer, steep-to"
    assert beside_choice(reason) == "islet: steep-to"
