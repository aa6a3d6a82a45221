"""Inks of the area's ground out of a palette: stone greys from low to high land."""

from PySide6.QtGui import QColor

from app.paint.palette import Palette
from app.views.area_image import AreaInks
from core.sheets.page import Tone

Rgb = tuple[int, int, int]


def rgb(colour: QColor) -> Rgb:
    """Red, green and blue of a colour."""
    return colour.red(), colour.green(), colour.blue()


def mixed(first: QColor, second: QColor, share: float) -> Rgb:
    """A colour between two, ``share`` of the way to the second."""
    pairs = zip(rgb(first), rgb(second), strict=True)
    red, green, blue = (round(a + (b - a) * share) for a, b in pairs)
    return red, green, blue


def ground_inks(palette: Palette) -> AreaInks:
    """Colours of sea, land, coast and unknown heights."""
    land, ink = palette.colour(Tone.LAND), palette.colour(Tone.INK)
    sea, paper = palette.colour(Tone.SEA), palette.colour(Tone.PAPER)
    return AreaInks(
        sea=rgb(sea),
        low_land_ratio=mixed(land, sea, 0.25),
        high_land=mixed(land, ink, 0.3),
        coast=rgb(palette.colour(Tone.COAST_HIDDEN)),
        unknown=rgb(palette.colour(Tone.NO_DATA)),
        beyond=mixed(paper, ink, 0.12),
    )
