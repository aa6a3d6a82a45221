"""Colours by day, dusk, night and on paper."""

import pytest
from PySide6.QtGui import QColor

from app.paint.palette import DASHES_MM, DAY, DUSK, HATCHES, NIGHT, PALETTES, PAPER, Palette
from core.sheets.page import Dash, Hatch, Tone


def _luminance(colour: QColor) -> float:
    """Relative luminance, 0 to 1 (WCAG 2.1, definition of relative luminance)."""
    parts = []
    for value in (colour.redF(), colour.greenF(), colour.blueF()):
        parts.append(value / 12.92 if value <= 0.03928 else ((value + 0.055) / 1.055) ** 2.4)
    return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]


def _contrast(palette: Palette, tone: Tone, ground: Tone) -> float:
    """Contrast ratio, 1 to 21 (WCAG 2.1)."""
    one, other = _luminance(palette.colour(tone)), _luminance(palette.colour(ground))
    return (max(one, other) + 0.05) / (min(one, other) + 0.05)


def test_paper_is_grey_only_and_letters_and_lines_are_black() -> None:
    for tone in Tone:
        colour = PAPER.colour(tone)
        assert colour.red() == colour.green() == colour.blue()
        if tone not in (Tone.PAPER, Tone.SEA, Tone.SPINE, Tone.LAND, Tone.SHADE):
            assert colour.red() == 0, tone


@pytest.mark.parametrize("palette", [DAY, DUSK, NIGHT])
def test_every_tone_of_a_screen_has_a_colour(palette: Palette) -> None:
    missing = set(Tone) - set(palette.colours)
    assert not missing
    assert PALETTES[palette.name] is palette


@pytest.mark.parametrize("palette", [DAY, DUSK, NIGHT])
def test_words_can_be_read_on_their_ground(palette: Palette) -> None:
    # 4.5 is the least contrast of text in WCAG 2.1, 1.4.3; 3.0 of other marks, 1.4.11.
    assert _contrast(palette, Tone.INK, Tone.PAPER) >= 4.5
    for tone in (Tone.PRIMARY, Tone.COAST_IN_SIGHT, Tone.TRACK, Tone.OWN_SHIP):
        assert _contrast(palette, tone, Tone.SEA) >= 3.0, tone


def test_by_night_nothing_is_bright() -> None:
    assert max(_luminance(NIGHT.colour(tone)) for tone in Tone) < 0.3


def test_every_line_style_and_hatch_is_drawn_by_hand() -> None:
    assert set(DASHES_MM) == set(Dash)
    assert set(HATCHES) == set(Hatch)
    for style in HATCHES.values():
        assert style.pen_mm < 0.35 * style.pitch_mm
