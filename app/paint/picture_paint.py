"""Paints an expected picture in flat inks on any Qt device, and as a PNG with its caption.

Drawn like an illustration in print, and by no means like a set: flat inks with outlines, hatches
for what is uncertain, hidden or unknown, range rings with their ranges and no scale of bearings.
"""

from collections.abc import Sequence

from PySide6.QtCore import QBuffer, QIODevice, QRectF, Qt
from PySide6.QtGui import QImage, QImageWriter, QPainter

from app.paint.ink_image import ink_image
from app.paint.measure import QtMeasure
from app.paint.page_painter import PagePainter
from app.paint.palette import Palette
from app.paint.qt_setup import ensure_gui
from core.picture.display_chain import Paint
from core.picture.expected_picture import Picture
from core.picture.ink import ink_codes, swatch_codes
from core.sheets.page import POINT_MM, Anchor, Item, Rectangle, Text, Tone, outline
from core.sheets.picture_items import picture_items
from core.sheets.wrapping import wrap
from core.words.picture_words import KEY

SIDE_MM = 160.0
"""Side of the picture on the paper of a PNG, mm; letters and pens are sized by it."""
_EDGE_MM = 5.0
_LINE_MM = 4.0
_CAPTION_PT = 8.0


def paint_picture(painter: QPainter, picture: Picture, palette: Palette, *, side_mm: float) -> None:
    """Draw a picture into a square at the painter's origin.

    The painter must be scaled so that its unit is a millimetre. The frame's pixels are spread
    over the square, so a frame of as many pixels as the device has there looks sharpest.
    """
    painter.save()
    square = QRectF(0.0, 0.0, side_mm, side_mm)
    painter.setClipRect(square, Qt.ClipOperation.IntersectClip)
    codes = ink_codes(picture.screen(), px_per_mm=picture.frame.size_px / side_mm)
    image = ink_image(codes, palette)
    painter.drawImage(square, image)
    PagePainter(palette).draw(painter, picture_items(picture, side_mm=side_mm, measure=QtMeasure()))
    painter.restore()


def picture_png(picture: Picture, caption: Sequence[str], palette: Palette) -> bytes:
    """A PNG: the picture, sharp pixel by pixel, its key and its caption."""
    ensure_gui()
    px_per_mm = picture.frame.size_px / SIDE_MM
    measure = QtMeasure()
    lines = [line for text in caption for line in wrap(text, SIDE_MM, measure, size_pt=_CAPTION_PT)]
    key_rows = _key_rows(measure)
    key_mm = _EDGE_MM + SIDE_MM + 3.0
    text_mm = key_mm + key_rows[-1][1] + 6.0
    height_mm = text_mm + _LINE_MM * len(lines) + _EDGE_MM - 1.0
    image = QImage(
        round((SIDE_MM + 2.0 * _EDGE_MM) * px_per_mm),
        round(height_mm * px_per_mm),
        QImage.Format.Format_RGB32,
    )
    image.fill(palette.colour(Tone.PAPER))
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    # Whole pixels, so that no ink is blurred.
    painter.translate(round(_EDGE_MM * px_per_mm), round(_EDGE_MM * px_per_mm))
    painter.scale(px_per_mm, px_per_mm)
    paint_picture(painter, picture, palette, side_mm=SIDE_MM)
    painter.resetTransform()
    painter.scale(px_per_mm, px_per_mm)
    items: list[Item] = []
    for x_mm, y_mm, paint, words in key_rows:
        swatch = Rectangle(x_mm=_EDGE_MM + x_mm, y_mm=key_mm + y_mm, width_mm=7.0, height_mm=3.6)
        _swatch(painter, swatch, paint, palette, px_per_mm)
        items += [
            outline(swatch, width_mm=0.12),
            Text(
                x_mm=swatch.right_mm + 1.2,
                y_mm=swatch.bottom_mm - 0.8,
                text=words,
                size_pt=7.0,
                anchor=Anchor.START,
            ),
        ]
    items += [
        Text(
            x_mm=_EDGE_MM,
            y_mm=text_mm + _LINE_MM * n + _CAPTION_PT * POINT_MM,
            text=line,
            size_pt=_CAPTION_PT,
            is_bold=n == 0,
        )
        for n, line in enumerate(lines)
    ]
    PagePainter(palette).draw(painter, items)
    painter.end()
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    QImageWriter(buffer, b"png").write(image)
    return bytes(buffer.data().data())


def _key_rows(measure: QtMeasure) -> list[tuple[float, float, Paint, str]]:
    """Places of the key's swatches, mm from its corner, in as many lines as they need."""
    rows: list[tuple[float, float, Paint, str]] = []
    x, y = 0.0, 0.0
    for paint, words in KEY:
        width = 7.0 + 1.2 + measure.width_mm(words, size_pt=7.0) + 3.0
        if x > 0.0 and x + width > SIDE_MM:
            x, y = 0.0, y + 5.2
        rows.append((x, y, paint, words))
        x += width
    return rows


def _swatch(
    painter: QPainter, box: Rectangle, paint: Paint, palette: Palette, px_per_mm: float
) -> None:
    codes = swatch_codes(
        paint,
        max(round(box.height_mm * px_per_mm), 1),
        max(round(box.width_mm * px_per_mm), 1),
        px_per_mm=px_per_mm,
    )
    image = ink_image(codes, palette)
    painter.drawImage(QRectF(box.x_mm, box.y_mm, box.width_mm, box.height_mm), image)
