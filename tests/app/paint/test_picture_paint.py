"""The picture in inks: palettes, what is drawn where, key and caption."""

import numpy as np
import pytest
from numpy.typing import NDArray
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtWidgets import QApplication

from app.paint.ink_image import ink_colours
from app.paint.measure import QtMeasure
from app.paint.palette import DAY, NIGHT, PALETTES, PAPER, Palette
from app.paint.picture_paint import paint_picture, picture_png
from core.picture.controls import Controls
from core.picture.display_chain import Paint
from core.picture.echo_rows import NamedPlace
from core.picture.expected_picture import (
    LineKind,
    Picture,
    PictureLine,
    frame_of,
    make_picture,
)
from core.picture.ink import ink_codes
from core.picture.inks import Ink
from core.picture.screen_frame import Orientation
from core.sheets.page import Stroke, Text, Tone
from core.sheets.picture_items import picture_items
from core.ship.ship import BlindSector
from core.words.picture_words import KEY, PICTURE_CAUTION, caption_lines
from tests.helpers.islands import NM, place
from tests.helpers.picture_views import ROUGH, buoy, view_of


@pytest.fixture(autouse=True)
def _application(qapp: QApplication) -> None:
    del qapp


def _picture(controls: Controls | None = None, *, size_px: int = 320) -> Picture:
    view = view_of(
        "gap",
        targets=(buoy(1.5 * NM),),
        conditions=ROUGH,
        sectors=(BlindSector(from_relative_deg=170.0, to_relative_deg=190.0),),
    )
    return make_picture(
        view,
        frame_of(view, Orientation.NORTH_UP, size_px=size_px, course_deg=0.0),
        controls=controls,
        names=(NamedPlace(name="The Wall", position=place(2.0 * NM, 0.0)),),
        lines=(PictureLine(kind=LineKind.PRIMARY, label="A 1.00 NM", bearing_deg=0.0, cross_m=NM),),
    )


def _pixels(image: QImage) -> NDArray[np.uint32]:
    image = image.convertToFormat(QImage.Format.Format_RGB32)
    rows = np.frombuffer(image.constBits(), dtype=np.uint32).copy()
    return rows.reshape(image.height(), image.width())


def _painted(picture: Picture, palette: Palette, side_px: int = 640) -> NDArray[np.uint32]:
    image = QImage(side_px + 20, side_px, QImage.Format.Format_RGB32)
    image.fill(QColor("#123456"))
    painter = QPainter(image)
    painter.scale(side_px / 160.0, side_px / 160.0)
    paint_picture(painter, picture, palette, side_mm=160.0)
    painter.end()
    return _pixels(image)


@pytest.mark.parametrize("palette", list(PALETTES.values()), ids=lambda p: p.name)
def test_every_ink_that_matters_is_told_from_water(palette: Palette) -> None:
    colours = dict(zip(Ink, ink_colours(palette), strict=True))
    water = QColor.fromRgb(colours[Ink.WATER])
    for ink in (Ink.GAP, Ink.ECHO, Ink.FULL_ECHO, Ink.OUTLINE, Ink.CLUTTER, Ink.SPECK):
        other = QColor.fromRgb(colours[ink])
        apart = abs(other.lightness() - water.lightness()) + abs(
            other.saturation() - water.saturation()
        )
        assert apart > 20, ink


def test_on_paper_a_strong_echo_is_black_and_a_plain_one_leaves_more_white_than_ink() -> None:
    colours = dict(zip(Ink, ink_colours(PAPER), strict=True))
    assert QColor.fromRgb(colours[Ink.FULL_ECHO]).lightness() == 0
    # A copier that knows no grey turns it white within its outline, so the two stay apart.
    assert 128 < QColor.fromRgb(colours[Ink.ECHO]).lightness() < 220


def test_night_is_dim() -> None:
    assert max(QColor.fromRgb(c).lightness() for c in ink_colours(NIGHT)) < 110


def test_inks_of_each_kind_of_paint() -> None:
    for paint, inks in (
        (Paint.OUTSIDE, {Ink.GROUND}),
        (Paint.NOTHING, {Ink.WATER}),
        (Paint.BELOW_HORIZON, {Ink.WATER}),
        (Paint.SHADOW, {Ink.WATER, Ink.FAINT_HATCH}),
        (Paint.BLIND, {Ink.WATER, Ink.SECTOR_HATCH}),
        (Paint.UNKNOWN, {Ink.WATER, Ink.GAP}),
        (Paint.UNCERTAIN, {Ink.WATER, Ink.OUTLINE}),
        (Paint.PAINTED, {Ink.ECHO}),
        (Paint.STRONG, {Ink.FULL_ECHO}),
    ):
        codes = ink_codes(np.full((60, 60), paint, dtype=np.uint8), px_per_mm=4.0)
        assert {Ink(c) for c in np.unique(codes)} == inks, paint


def test_an_echo_has_an_outline_all_round() -> None:
    screen = np.full((40, 40), Paint.NOTHING, dtype=np.uint8)
    screen[10:30, 10:30] = Paint.PAINTED
    screen[15:25, 15:25] = Paint.STRONG
    codes = ink_codes(screen, px_per_mm=4.0)
    assert np.all(codes[10, 10:30] == Ink.OUTLINE)
    assert np.all(codes[10:30, 29] == Ink.OUTLINE)
    assert codes[12, 12] == Ink.ECHO
    assert codes[20, 20] == Ink.FULL_ECHO
    # Between painted and strong there is no line.
    assert not np.any(codes[12:28, 12:28] == Ink.OUTLINE)


def test_a_gap_is_more_ink_than_water_hidden_by_land() -> None:
    gap = ink_codes(np.full((80, 80), Paint.UNKNOWN, dtype=np.uint8), px_per_mm=4.0)
    shadow = ink_codes(np.full((80, 80), Paint.SHADOW, dtype=np.uint8), px_per_mm=4.0)
    assert np.mean(gap == Ink.GAP) > 2.0 * np.mean(shadow == Ink.FAINT_HATCH)


def test_painting_stays_in_its_square() -> None:
    pixels = _painted(_picture(), DAY)
    assert np.all(pixels[:, 641:] == QColor("#123456").rgb())
    assert not np.any(pixels[:, :640] == QColor("#123456").rgb())


def test_a_lost_echo_is_ringed_in_warning_ink_and_named() -> None:
    def warned(picture: Picture) -> list[str]:
        items = picture_items(picture, side_mm=160.0, measure=QtMeasure())
        rings = [i for i in items if isinstance(i, Stroke) and i.tone is Tone.WARNING]
        names = [i.text for i in items if isinstance(i, Text) and i.tone is Tone.WARNING]
        assert len(rings) >= len(names)
        return names

    assert warned(_picture(Controls())) == []
    assert "The Wall (lost)" in warned(_picture(Controls(gain_db=-40.0, mistuning_db=20.0)))


def test_a_png_has_picture_key_and_caption() -> None:
    picture = _picture()
    caption = caption_lines(picture, place="WP2", sources=(), water="No tide.")
    image = QImage.fromData(picture_png(picture, caption, PAPER))
    assert image.width() == 340
    assert image.height() > 400
    pixels = _pixels(image)
    black = (pixels & 0xFF) < 90
    assert black[345:].sum() > 300
    assert picture_png(picture, caption, PAPER) == picture_png(picture, caption, PAPER)
    assert picture_png(picture, caption, DAY) != picture_png(picture, caption, NIGHT)


def test_the_caption_says_what_it_was_calculated_from() -> None:
    picture = _picture(Controls(gain_db=-6.0, mistuning_db=2.0))
    text = "\n".join(caption_lines(picture, place="WP2", sources=(), water="No tide."))
    for word in (
        "calculated", "WP2", "6 NM scale", "north-up", "X band", "typical, well kept", "medium",
        "not well set", "6.0 dB less", "mistuning", "k 1.33", "Sea state 4", "rain 4 mm/h",
        "No tide.", PICTURE_CAUTION, "000° T",
    ):  # fmt: skip
        assert word in text, word
    well = "\n".join(caption_lines(_picture(), place="", sources=(), water=""))
    assert "Set-up, well set" in well
    assert "safe" not in (text + well).casefold()
    assert {paint for paint, _words in KEY} >= {Paint.UNCERTAIN, Paint.UNKNOWN, Paint.CLUTTER}
