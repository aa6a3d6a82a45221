"""Text widths in the bundled font, as core's ``Measure``."""

from functools import lru_cache

from PySide6.QtGui import QFont, QFontMetricsF

from app.paint.qt_setup import FAMILY
from core.sheets.page import POINT_MM

EM_PX = 200
"""Pixel size at which text is measured and drawn before it is scaled; large, so that no hinting
and no rounding shows."""


def page_font(*, is_bold: bool) -> QFont:
    """The bundled font at ``EM_PX``."""
    font = QFont(FAMILY)
    font.setPixelSize(EM_PX)
    font.setBold(is_bold)
    font.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    # Joined letters would hide words from a search in the PDF.
    font.setFeature(QFont.Tag("liga"), 0)
    font.setStyleStrategy(QFont.StyleStrategy.NoFontMerging)
    return font


class QtMeasure:
    """Measures text with Qt; needs a running application."""

    def __init__(self) -> None:
        self._metrics = {
            is_bold: QFontMetricsF(page_font(is_bold=is_bold)) for is_bold in (False, True)
        }
        self._width_px = lru_cache(maxsize=4096)(self._advance_px)

    def _advance_px(self, text: str, is_bold: bool) -> float:
        return self._metrics[is_bold].horizontalAdvance(text)

    def width_mm(self, text: str, *, size_pt: float, is_bold: bool = False) -> float:
        """Width of one line of text, mm."""
        return self._width_px(text, is_bold) / EM_PX * size_pt * POINT_MM
