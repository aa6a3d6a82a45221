"""How much room words take, measured once: asking Qt takes ten calls of Python a cell."""

import math
from typing import NamedTuple

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QFont, QFontMetrics, QTextLayout

_MOST = 4000
_FLAGS = int(Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextWordWrap)
_TALL = 10_000


class _Key(NamedTuple):
    text: str
    is_bold: bool
    is_italic: bool
    width: int


class WordSizes:
    """Sizes of words in one font and its bold and italic kin, in pixels."""

    def __init__(self, font: QFont) -> None:
        self._metrics: dict[tuple[bool, bool], QFontMetrics] = {}
        self._fonts: dict[tuple[bool, bool], QFont] = {}
        for is_bold in (False, True):
            for is_italic in (False, True):
                kin = QFont(font)
                kin.setBold(is_bold)
                kin.setItalic(is_italic)
                self._metrics[is_bold, is_italic] = QFontMetrics(kin)
                self._fonts[is_bold, is_italic] = kin
        self._widths: dict[_Key, int] = {}
        self._heights: dict[_Key, int] = {}

    def width(self, text: str, *, is_bold: bool = False, is_italic: bool = False) -> int:
        """Width of the longest line of words that are not wrapped."""
        key = _Key(text, is_bold, is_italic, 0)
        width = self._widths.get(key)
        if width is None:
            font = self._fonts[is_bold, is_italic]
            width = math.ceil(max(_laid_width(line, font) for line in text.split("\n")))
            _put(self._widths, key, width)
        return width

    def word_width(self, text: str, *, is_bold: bool = False) -> int:
        """Room for the longest word, which is the narrowest that words can be wrapped to."""
        key = _Key(text, is_bold, False, -1)
        width = self._widths.get(key)
        if width is None:
            metrics = self._metrics[is_bold, False]
            # Metrics round and give up to a pixel less than is painted, but ten times as fast.
            width = max((metrics.horizontalAdvance(word) + 2 for word in text.split()), default=0)
            width = min(width, self.width(text, is_bold=is_bold))
            _put(self._widths, key, width)
        return width

    def height(
        self, text: str, width: int, *, is_bold: bool = False, is_italic: bool = False
    ) -> int:
        """Height of words wrapped to a width."""
        key = _Key(text, is_bold, is_italic, width)
        height = self._heights.get(key)
        if height is None:
            metrics = self._metrics[is_bold, is_italic]
            if "\n" not in text and self.width(text, is_bold=is_bold, is_italic=is_italic) <= width:
                height = metrics.height()
            else:
                height = metrics.boundingRect(QRect(0, 0, width, _TALL), _FLAGS, text).height()
            _put(self._heights, key, height)
        return height


def _laid_width(text: str, font: QFont) -> float:
    """Width as tables lay words out."""
    layout = QTextLayout(text, font)
    layout.beginLayout()
    line = layout.createLine()
    line.setLineWidth(_TALL)
    layout.endLayout()
    return line.naturalTextWidth() if line.isValid() else 0.0


def _put(sizes: dict[_Key, int], key: _Key, size: int) -> None:
    if len(sizes) >= _MOST:
        sizes.clear()
    sizes[key] = size
