"""Pictures of widgets compared by sense: where there is something, not in what colour."""

import numpy as np
from PySide6.QtCore import QRect
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QWidget

from core.base.arrays import FloatArray

_CELL_PX = 8
_FAINT = 0.02


def brightness_of(widget: QWidget, part: QRect | None = None) -> FloatArray:
    """Brightness 0 to 1 of what a widget shows, (rows, columns)."""
    pixmap = widget.grab() if part is None else widget.grab(part)
    image = pixmap.toImage().convertToFormat(QImage.Format.Format_Grayscale8)
    block = np.frombuffer(image.constBits(), np.uint8).copy()
    rows = block.reshape(image.height(), image.bytesPerLine())[:, : image.width()]
    return np.asarray(rows, dtype=np.float64) / 255.0


def _filled(picture: FloatArray) -> FloatArray:
    """Share of the contrast of the picture in each cell of 8 by 8 pixels."""
    rows, columns = (size // _CELL_PX * _CELL_PX for size in picture.shape)
    cells = picture[:rows, :columns].reshape(
        rows // _CELL_PX, _CELL_PX, columns // _CELL_PX, _CELL_PX
    )
    spread = np.ptp(cells, axis=(1, 3))
    return np.asarray(spread / max(float(np.ptp(picture)), 1e-6))


def likeness(one: FloatArray, other: FloatArray) -> float:
    """How much of what one picture shows the other shows in the same places, 0 to 1."""
    if one.shape != other.shape:
        return 0.0
    first, second = _filled(one) > _FAINT, _filled(other) > _FAINT
    either = np.count_nonzero(first | second)
    return 1.0 if either == 0 else float(np.count_nonzero(first & second) / either)


def differs(one: FloatArray, other: FloatArray) -> float:
    """Share of the pixels that are clearly brighter or darker in the other picture."""
    if one.shape != other.shape:
        return 1.0
    return float(np.mean(np.abs(one - other) > 0.1))
