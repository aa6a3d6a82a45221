"""Short forms of names: unique, never a piece of a word, never like a letter of an object."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.sheets.short_names import described, shortened

_NAMES = st.lists(
    st.lists(st.sampled_from(["Sound", "Strand", "Rock", "Tower", "Tor", "S."]), min_size=1)
    .map(" ".join)
    .filter(bool),
    min_size=1,
    max_size=12,
)


@pytest.mark.parametrize(
    ("name", "short"),
    [
        ("A", "A"),
        ("BA", "BA"),
        ("Sound Rock Beacon", "S.R.B."),
        ("Strand Tower", "S.T."),
        ("Skerryvore", "Skerryvore"),
    ],
)
def test_letters_and_single_words_stay_whole(name: str, short: str) -> None:
    assert shortened([name]) == {name: short}


def test_names_with_the_same_initials_keep_their_last_word() -> None:
    short = shortened(["Strand Tower", "Sound Tor", "Rock Light"])
    assert short == {"Strand Tower": "S. Tower", "Sound Tor": "S. Tor", "Rock Light": "R. Light"}


@given(names=_NAMES)
def test_no_two_objects_share_a_short_form(names: list[str]) -> None:
    short = shortened(names)
    assert set(short) == set(names)
    assert len(set(short.values())) == len(short)


def test_a_description_leaves_out_what_is_said_beside_it() -> None:
    name = "headland 38 m high, 2.6 NM E of Ostrin South"
    assert described(name, None) == "headland 38 m, 2.6 NM E of Ostrin South"
    assert described(name, 38.2) == "headland, 2.6 NM E of Ostrin South"
    assert described("Ruskel Light", 38.2) == "Ruskel Light"
