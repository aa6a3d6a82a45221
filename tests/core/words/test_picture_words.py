"""The picture in words."""

from dataclasses import replace

import pytest

from core.geodesy.position import Position
from core.picture.controls import Controls
from core.picture.echo_rows import NamedPlace, echo_patches, echo_rows
from core.picture.expected_picture import frame_of, make_picture
from core.picture.screen_frame import Orientation
from core.ship.ship import BlindSector
from core.words.picture_words import (
    CONTROL_TITLES,
    TAKEN_BY,
    caption_lines,
    control_words,
    is_well_set,
    margin_words,
    picked_words,
    row_words,
    water_words,
)
from tests.helpers.islands import NM, place
from tests.helpers.picture_views import buoy, view_of

VIEW = view_of(targets=(buoy(1.5 * NM),))
WALL = NamedPlace(name="The Wall", position=place(2.05 * NM, 0.0))


@pytest.mark.parametrize(
    ("margin_db", "text"), [(7.9, "+7 dB"), (0.0, "+0 dB"), (-0.1, "−1 dB"), (-12.0, "−12 dB")]
)
def test_a_margin_is_rounded_down(margin_db: float, text: str) -> None:
    assert margin_words(margin_db) == text


def test_controls_go_by_their_trade_names_and_say_what_is_well_set() -> None:
    well = Controls(sea_clutter=0.4)
    words = dict(control_words(Controls(gain_db=-3.0, sea_clutter=0.9), well))
    assert words["Gain"] == "3.0 dB less than light speckle"
    assert words["Sea clutter"] == "90 % (40 % well set)"
    assert words["Tuning"] == "at its best"
    assert words["Interference rejection"] == words["Echo stretch"] == "off"
    assert set(words) <= set(CONTROL_TITLES.values())
    assert is_well_set(well, well)
    assert not is_well_set(Controls(), well)


def test_a_row_says_what_took_its_echo_and_never_will() -> None:
    patches = echo_patches(VIEW, (WALL,))
    for controls in (Controls(), Controls(mistuning_db=30.0)):
        for row in echo_rows(VIEW, patches, controls):
            text = " ".join(row_words(row))
            assert "will" not in text
            if row.is_lost:
                assert TAKEN_BY["mistuning_db"] in text
    rows = {r.patch.name: row_words(r) for r in echo_rows(VIEW, patches, Controls())}
    assert rows["buoy"][:3] == ("buoy", "1.50 NM", "000° T")
    assert rows["The Wall"][5] == "is expected to paint"


@pytest.mark.parametrize(
    ("margin_db", "said"),
    [(5.0, "is expected to paint"), (4.9, "may paint"), (-4.9, "may paint"), (-5.0, "too weak")],
)
def test_a_row_says_what_the_picture_draws(margin_db: float, said: str) -> None:
    row = echo_rows(VIEW, echo_patches(VIEW, (WALL,)), Controls())[0]
    patch = replace(row.patch, well_margin_db=margin_db)
    assert row_words(replace(row, patch=patch, margin_db=margin_db, taken_by=""))[5] == said


def test_a_mark_out_of_sight_says_so() -> None:
    view = view_of(targets=(replace(buoy(0.0), position=place(4.0 * NM, 0.0)),))
    (row,) = [r for r in echo_rows(view, echo_patches(view), Controls()) if r.patch.name]
    assert row_words(row)[3:] == ("–", "–", "not in sight")


@pytest.mark.parametrize("at", [place(-3.0 * NM, -4.0 * NM), place(-1.5 * NM, -3.0 * NM)])
def test_a_mark_in_or_behind_a_gap_is_not_called_out_of_sight(at: Position) -> None:
    view = view_of("gap", targets=(replace(buoy(0.0), position=at),))
    (row,) = [r for r in echo_rows(view, echo_patches(view), Controls()) if r.patch.name]
    assert row_words(row)[3:] == ("–", "–", "not known: no data on the way")


def test_a_mark_in_an_own_blind_sector_is_not_called_weak() -> None:
    sector = BlindSector(from_relative_deg=355.0, to_relative_deg=5.0)
    view = view_of("bare", targets=(buoy(1.5 * NM),), sectors=(sector,))
    (row,) = echo_rows(view, echo_patches(view), Controls())
    assert row_words(row)[3:] == ("–", "–", "own blind sector")


def test_what_is_picked_is_said_in_a_line() -> None:
    picture = make_picture(VIEW, frame_of(VIEW, Orientation.NORTH_UP, size_px=700), names=(WALL,))
    at = picture.frame.to_px
    assert picked_words(picture.pick(*at(1.5 * NM, 0.0))).startswith(
        "buoy, 1.50 NM, 000° T, margin +"
    )
    assert picked_words(picture.pick(*at(2.05 * NM, 90.0))).startswith("The Wall, land, 2.05 NM")
    assert picked_words(picture.pick(*at(4.0 * NM, 90.0))) == "hidden by land, 4.00 NM, 090° T"


def test_without_a_heading_the_caption_says_what_is_left_out() -> None:
    sectors = (BlindSector(from_relative_deg=170.0, to_relative_deg=190.0),)
    for heading, says in (
        (None, "heading not given, own blind sectors left out"),
        (10.0, "heading 010° T"),
    ):
        view = view_of("bare", sectors=sectors).turned(heading)
        picture = make_picture(view, frame_of(view, Orientation.NORTH_UP, size_px=200))
        text = "\n".join(caption_lines(picture, place="", sources=(), water=""))
        assert says in text


def test_water_in_words() -> None:
    assert "mean sea level" in water_words(None, None)
    assert "2.0 m" in water_words(2.0, 1.5)
