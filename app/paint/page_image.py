"""Page items as a picture, made off the screen's thread."""

from collections.abc import Sequence

from PySide6.QtGui import QImage, QPainter

from app.paint.page_painter import PagePainter
from app.paint.palette import Palette
from core.sheets.page import Item, Tone


def page_image(
    items: Sequence[Item],
    *,
    width_mm: float,
    height_mm: float,
    px_per_mm: float,
    ratio: float,
    colours: Palette,
) -> QImage:
    """Draw items on paper.

    Parameters
    ----------
    width_mm, height_mm : float
        Size of the paper in the items' millimetres.
    px_per_mm : float
        Device-independent pixels to a millimetre.
    ratio : float
        Device pixels to a device-independent one.
    """
    image = QImage(
        max(round(width_mm * px_per_mm * ratio), 1),
        max(round(height_mm * px_per_mm * ratio), 1),
        QImage.Format.Format_RGB32,
    )
    image.fill(colours.colour(Tone.PAPER))
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.scale(px_per_mm * ratio, px_per_mm * ratio)
    PagePainter(colours).draw(painter, items)
    painter.end()
    image.setDevicePixelRatio(ratio)
    return image
