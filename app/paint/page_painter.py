"""Draws items of the page model with QPainter on any device: paper, picture or widget."""

import math
from collections.abc import Iterable

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QImage, QPainter, QPainterPath, QPen, QPolygonF

from app.paint.ink_image import ink_image
from app.paint.measure import EM_PX, QtMeasure, page_font
from app.paint.palette import DASHES_MM, HATCHES, Palette
from core.sheets.page import (
    POINT_MM,
    Anchor,
    Area,
    Hatch,
    Item,
    Raster,
    Shape,
    Stroke,
    Symbol,
    Text,
    Tone,
    text_box,
)


class PagePainter:
    """Draws items in millimetres with one palette.

    The painter given to ``draw`` must be scaled so that its unit is a millimetre on the page.
    """

    def __init__(self, palette: Palette) -> None:
        self._palette = palette
        self._measure = QtMeasure()
        self._fonts = {is_bold: page_font(is_bold=is_bold) for is_bold in (False, True)}

    def draw(self, painter: QPainter, items: Iterable[Item]) -> None:
        """Draw items in order."""
        painter.save()
        for item in items:
            if isinstance(item, Text):
                self._draw_text(painter, item)
            elif isinstance(item, Stroke):
                self._draw_stroke(painter, item)
            elif isinstance(item, Area):
                self._draw_area(painter, item)
            elif isinstance(item, Symbol):
                self._draw_symbol(painter, item)
            else:
                self._draw_raster(painter, item)
        painter.restore()

    def _draw_text(self, painter: QPainter, text: Text) -> None:
        if text.on_paper:
            ground = text_box(text, self._measure)
            # A little more at its two ends, whichever way it is turned.
            beyond = (0.3, 0.0) if text.angle_deg == 0.0 else (0.0, 0.3)
            painter.fillRect(
                QRectF(
                    ground.x_mm - beyond[0],
                    ground.y_mm - beyond[1],
                    ground.width_mm + 2.0 * beyond[0],
                    ground.height_mm + 2.0 * beyond[1],
                ),
                self._palette.colour(Tone.SEA),
            )
        width = self._measure.width_mm(text.text, size_pt=text.size_pt, is_bold=text.is_bold)
        shift = {Anchor.START: 0.0, Anchor.MIDDLE: -width / 2.0, Anchor.END: -width}[text.anchor]
        scale = text.size_pt * POINT_MM / EM_PX
        painter.save()
        painter.translate(text.x_mm, text.y_mm)
        painter.rotate(text.angle_deg)
        painter.scale(scale, scale)
        painter.setFont(self._fonts[text.is_bold])
        painter.setPen(self._palette.colour(text.tone))
        painter.drawText(QPointF(shift / scale, 0.0), text.text)
        painter.restore()

    def _pen(self, item: Stroke) -> QPen:
        pen = QPen(self._palette.colour(item.tone), item.width_mm)
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
        pattern = DASHES_MM[item.dash]
        if pattern:
            # Qt counts dashes in widths of the pen.
            pen.setDashPattern([length / item.width_mm for length in pattern])
        return pen

    def _draw_stroke(self, painter: QPainter, stroke: Stroke) -> None:
        painter.setPen(self._pen(stroke))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPolyline(QPolygonF([QPointF(x, y) for x, y in stroke.points]))

    def _draw_area(self, painter: QPainter, area: Area) -> None:
        path = QPainterPath()
        path.setFillRule(Qt.FillRule.OddEvenFill)
        for ring in area.rings:
            path.addPolygon(QPolygonF([QPointF(x, y) for x, y in ring]))
            path.closeSubpath()
        if area.hatch is None:
            painter.fillPath(path, QBrush(self._palette.colour(area.tone)))
            return
        self._hatch(painter, path, area.hatch, area.tone)

    def _hatch(self, painter: QPainter, path: QPainterPath, hatch: Hatch, tone: Tone) -> None:
        """Lines or dots over the whole path, cut to it; pattern brushes print solid.

        Lines are counted from the page's origin, so that neighbouring areas join.
        """
        style = HATCHES[hatch]
        bounds = path.boundingRect()
        painter.save()
        painter.setClipPath(path, Qt.ClipOperation.IntersectClip)
        pen = QPen(self._palette.colour(tone), style.pen_mm)
        pen.setCapStyle(Qt.PenCapStyle.FlatCap)
        painter.setPen(pen)
        if not style.angles_deg:
            pen.setCapStyle(Qt.PenCapStyle.RoundCap)
            painter.setPen(pen)
            painter.drawPoints(_hatch_dots(bounds, style.pitch_mm))
        for angle_deg in style.angles_deg:
            painter.drawLines(_hatch_lines(bounds, angle_deg, style.pitch_mm))
        painter.restore()

    def _draw_symbol(self, painter: QPainter, symbol: Symbol) -> None:
        colour = self._palette.colour(symbol.tone)
        pen = QPen(colour, min(0.5, 0.16 * symbol.size_mm))
        pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
        painter.setPen(pen)
        fill = colour if symbol.is_filled else self._palette.colour(Tone.SEA)
        painter.setBrush(QBrush(fill))
        x, y, half = symbol.x_mm, symbol.y_mm, symbol.size_mm / 2.0
        if symbol.shape in (Shape.DOT, Shape.RING):
            painter.drawEllipse(QPointF(x, y), half, half)
            return
        outline = _OUTLINES[symbol.shape]
        polygon = QPolygonF([QPointF(x + u * half, y + v * half) for u, v in outline])
        if symbol.shape is Shape.CROSS:
            painter.drawLine(polygon.at(0), polygon.at(1))
            painter.drawLine(polygon.at(2), polygon.at(3))
        else:
            painter.drawPolygon(polygon)

    def _draw_raster(self, painter: QPainter, raster: Raster) -> None:
        """Inks in their colours, pixels mixed where the device has fewer.

        Qt by itself looks at four pixels at most and would drop thin pens.
        """
        room = QRectF(
            raster.room.x_mm, raster.room.y_mm, raster.room.width_mm, raster.room.height_mm
        )
        image = ink_image(raster.codes, self._palette)
        device = painter.deviceTransform().mapRect(room)
        width, height = max(round(device.width()), 1), max(round(device.height()), 1)
        if width < image.width() or height < image.height():
            image = image.convertToFormat(QImage.Format.Format_RGB32).scaled(
                width,
                height,
                Qt.AspectRatioMode.IgnoreAspectRatio,
                Qt.TransformationMode.SmoothTransformation,
            )
        painter.drawImage(room, image)


_OUTLINES: dict[Shape, tuple[tuple[float, float], ...]] = {
    Shape.DIAMOND: ((0.0, -1.0), (1.0, 0.0), (0.0, 1.0), (-1.0, 0.0)),
    Shape.SQUARE: ((-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)),
    Shape.TRIANGLE_UP: ((0.0, -1.0), (1.0, 0.8), (-1.0, 0.8)),
    Shape.TRIANGLE_DOWN: ((0.0, 1.0), (1.0, -0.8), (-1.0, -0.8)),
    Shape.CROSS: ((-1.0, -1.0), (1.0, 1.0), (-1.0, 1.0), (1.0, -1.0)),
    Shape.ARROW_UP: ((0.0, -1.0), (0.8, 0.9), (0.0, 0.4), (-0.8, 0.9)),
    Shape.OWN_SHIP: ((0.0, -1.0), (0.42, -0.3), (0.42, 1.0), (-0.42, 1.0), (-0.42, -0.3)),
}
"""Corners in half sizes, y down."""


def _hatch_dots(bounds: QRectF, pitch_mm: float) -> list[QPointF]:
    """Dots that cover a box, counted from the origin, every second row shifted."""
    rows = range(math.floor(bounds.top() / pitch_mm), math.ceil(bounds.bottom() / pitch_mm) + 1)
    columns = range(
        math.floor(bounds.left() / pitch_mm) - 1, math.ceil(bounds.right() / pitch_mm) + 1
    )
    return [
        QPointF((column + 0.5 * (row % 2)) * pitch_mm, row * pitch_mm)
        for row in rows
        for column in columns
    ]


def _hatch_lines(bounds: QRectF, angle_deg: float, pitch_mm: float) -> list[QLineF]:
    """Parallel lines that cover a box, at whole multiples of the pitch from the origin."""
    angle = math.radians(angle_deg)
    along = (math.cos(angle), math.sin(angle))
    normal = (-along[1], along[0])
    corners = [
        (bounds.left(), bounds.top()),
        (bounds.right(), bounds.top()),
        (bounds.left(), bounds.bottom()),
        (bounds.right(), bounds.bottom()),
    ]
    across = [x * normal[0] + y * normal[1] for x, y in corners]
    down = [x * along[0] + y * along[1] for x, y in corners]
    low, high = math.floor(min(across) / pitch_mm), math.ceil(max(across) / pitch_mm)
    lines = []
    for number in range(low, high + 1):
        offset = number * pitch_mm
        start, stop = min(down), max(down)
        lines.append(
            QLineF(
                offset * normal[0] + start * along[0],
                offset * normal[1] + start * along[1],
                offset * normal[0] + stop * along[0],
                offset * normal[1] + stop * along[1],
            )
        )
    return lines
