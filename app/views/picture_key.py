"""What the inks of an expected picture mean, beside it."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QPixmap, QShowEvent
from PySide6.QtWidgets import QGridLayout, QLabel, QWidget

from app.paint.palette import Palette
from core.base.language import tr

_WIDE_PX, _HIGH_PX, _PX_PER_MM = 30, 15, 4.1


class PictureKey(QWidget):
    """A swatch and a word for every ink; made when it is first seen."""

    def __init__(self, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._colours = palette
        self._swatches: list[QLabel] = []
        self.setAccessibleName(tr("Key"))
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(4, 4, 4, 4)
        self._grid.setVerticalSpacing(4)
        self._grid.setColumnStretch(1, 1)

    def set_colours(self, palette: Palette) -> None:
        """Another palette."""
        self._colours = palette
        self._paint()

    def showEvent(self, event: QShowEvent) -> None:
        """Fill it: before, the inks need not be loaded."""
        super().showEvent(event)
        if not self._swatches:
            self._fill()

    def _fill(self) -> None:
        from core.words.picture_words import KEY

        for row, (_paint, text) in enumerate(KEY):
            swatch, words = QLabel(self), QLabel(text, self)
            words.setWordWrap(True)
            self._grid.addWidget(swatch, row, 0, Qt.AlignmentFlag.AlignTop)
            self._grid.addWidget(words, row, 1)
            self._swatches.append(swatch)
        self._grid.setRowStretch(len(self._swatches), 1)
        self._paint()

    def _paint(self) -> None:
        if not self._swatches:
            return
        from app.paint.ink_image import ink_image
        from core.picture.ink import swatch_codes
        from core.words.picture_words import KEY

        ratio = self.devicePixelRatioF()
        high, wide = round(_HIGH_PX * ratio), round(_WIDE_PX * ratio)
        for swatch, (paint, _words) in zip(self._swatches, KEY, strict=True):
            codes = swatch_codes(paint, high, wide, px_per_mm=_PX_PER_MM * ratio)
            image = QPixmap.fromImage(ink_image(codes, self._colours))
            image.setDevicePixelRatio(ratio)
            swatch.setPixmap(image)
