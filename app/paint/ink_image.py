"""Codes of ink as an image in the colours of a palette."""

import numpy as np
from PySide6.QtGui import QColor, QImage

from app.paint.palette import Palette
from core.base.arrays import ByteArray
from core.picture.inks import Ink
from core.sheets.page import Tone


def ink_colours(palette: Palette) -> list[int]:
    """Colours of ``Ink`` in order, as Qt packs them."""
    water, echo = palette.colour(Tone.SEA), palette.colour(Tone.COAST_IN_SIGHT)
    faint = palette.colour(Tone.HIDDEN_WATER)
    colours = {
        Ink.GROUND: palette.colour(Tone.PAPER),
        Ink.WATER: water,
        Ink.FAINT_HATCH: faint,
        Ink.SECTOR_HATCH: palette.colour(Tone.FAINT_INK),
        Ink.GAP: palette.colour(Tone.NO_DATA),
        Ink.SPECK: palette.colour(Tone.FAINT_INK),
        Ink.CLUTTER: _mixed(faint, water, 0.55),
        Ink.ECHO: _mixed(echo, water, 0.42),
        Ink.FULL_ECHO: _mixed(echo, water, palette.strong_share),
        Ink.OUTLINE: echo,
    }
    return [colours[ink].rgb() for ink in Ink]


def _mixed(one: QColor, other: QColor, share: float) -> QColor:
    def part(a: float, b: float) -> float:
        return share * a + (1.0 - share) * b

    return QColor.fromRgbF(
        part(one.redF(), other.redF()),
        part(one.greenF(), other.greenF()),
        part(one.blueF(), other.blueF()),
    )


def ink_image(codes: ByteArray, palette: Palette) -> QImage:
    """Codes of ``Ink`` (H, W) as an image of as many pixels."""
    rows = np.ascontiguousarray(codes)
    height, width = rows.shape
    image = QImage(rows.tobytes(), width, height, width, QImage.Format.Format_Indexed8)
    image.setColorTable(ink_colours(palette))
    return image.copy()
