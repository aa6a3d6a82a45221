"""What is drawn over the passage while a waypoint is chosen or moved, or something is measured."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from app.paint.palette import Palette
from app.views.area_image import AreaFrame
from app.views.area_scene import AreaScene
from app.views.area_tools import AreaTools
from core.sheets.page import Tone

_PAD = 5.0
_RING_PX = 8.0
_CROSS_PX = 9.0
_CLEAR_PX = 24.0
_SCALE_PX = 50.0
"""Room for the scale and a line of warning at the bottom."""


def draw_tools(
    painter: QPainter, frame: AreaFrame, scene: AreaScene, tools: AreaTools, palette: Palette
) -> None:
    """The chosen waypoint with its new legs, the ruler, and what they come to in words."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    if tools.place is not None and tools.chosen is not None:
        at = frame.point(*scene.projection.point(tools.place))
        if tools.moved_to is not None:
            painter.setPen(QPen(palette.colour(Tone.WARNING), 1.8, Qt.PenStyle.DashLine))
            for index in (tools.chosen - 1, tools.chosen + 1):
                if 0 <= index < len(scene.waypoints):
                    x_m, y_m = scene.waypoints[index]
                    painter.drawLine(frame.point(float(x_m), float(y_m)), at)
        painter.setPen(QPen(palette.colour(Tone.WARNING), 2.0))
        painter.drawEllipse(at, _RING_PX, _RING_PX)
    if tools.ruler is not None:
        painter.setPen(QPen(palette.colour(Tone.WARNING), 1.6))
        end = frame.point(*scene.projection.point(tools.ruler.end))
        if tools.ruler.start is not None:
            start = frame.point(*scene.projection.point(tools.ruler.start))
            painter.drawLine(start, end)
            _cross(painter, start)
        _cross(painter, end)
    work = tools.ruler.end if tools.ruler is not None else tools.place
    if work is not None:
        at = frame.point(*scene.projection.point(work))
        _draw_words(painter, frame, tools.words(frame.m_per_px), palette, at)


def _cross(painter: QPainter, at: QPointF) -> None:
    for right, down in ((_CROSS_PX, 0.0), (0.0, _CROSS_PX)):
        painter.drawLine(at - QPointF(right, down), at + QPointF(right, down))


def _draw_words(
    painter: QPainter, frame: AreaFrame, lines: tuple[str, ...], palette: Palette, work: QPointF
) -> None:
    """What is going on, at the top, or above the scale where it would cover what is worked on."""
    if not lines:
        return
    metrics = painter.fontMetrics()
    room = int(min(frame.width - 50.0, 520.0) - 2.0 * _PAD)
    flags = int(Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextWordWrap)
    words = "\n".join(lines)
    bounds = metrics.boundingRect(0, 0, room, 1000, flags, words)
    box = QRectF(6.0, 6.0, bounds.width() + 2.0 * _PAD + 2.0, bounds.height() + 2.0 * _PAD)
    if box.adjusted(-_CLEAR_PX, -_CLEAR_PX, _CLEAR_PX, _CLEAR_PX).contains(work):
        box.moveBottom(frame.height - _SCALE_PX)
    ground = QColor(palette.colour(Tone.PAPER))
    ground.setAlpha(235)
    painter.setPen(QPen(palette.colour(Tone.RULE), 1.0))
    painter.setBrush(ground)
    painter.drawRect(box)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(palette.colour(Tone.INK))
    painter.drawText(box.adjusted(_PAD, _PAD, 0.0, 0.0), flags, words)
