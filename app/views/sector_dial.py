"""Blind sectors drawn on a dial, the bow up: an arc is dragged, a chosen one moved by its ends."""

import math
from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QBrush, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPalette, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from core.base.language import tr
from core.ship.ship import BlindSector

_RING = 0.86
_HUB = 0.34
_NEAR_DEG = 4.0
_STEP_DEG = 1.0
_TICKS_DEG = 30
_LEAST_DEG = 0.5


def _rounded(angle_deg: float) -> float:
    return round(angle_deg * 2.0) / 2.0 % 360.0


class SectorDial(QWidget):
    """Shows sectors by relative bearing; tells of a new one and of one whose ends moved."""

    sector_drawn = Signal(float, float)
    """From and to, relative, clockwise, deg."""
    sector_moved = Signal(int, float, float)
    chosen = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._sectors: tuple[BlindSector, ...] = ()
        self._current = -1
        self._from_deg: float | None = None
        self._to_deg = 0.0
        self._end = ""
        self.setMinimumSize(QSize(240, 240))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setAccessibleName(tr("Blind sectors seen from above, bow up"))
        self.setToolTip(
            tr(
                "Drag clockwise along the ring to draw a sector; drag an end of "
                "the chosen one to move it. Keys: Left and Right move its start, "
                "Shift with them its end."
            )
        )

    def show_sectors(self, sectors: Sequence[BlindSector], current: int) -> None:
        """Draw other sectors, one of them chosen (-1 for none)."""
        self._sectors, self._current = tuple(sectors), current
        self.update()

    # Geometry

    def _middle(self) -> tuple[QPointF, float]:
        side = min(self.width(), self.height()) / 2.0 - 14.0
        return QPointF(self.width() / 2.0, self.height() / 2.0), max(side, 20.0)

    def bearing_at(self, place: QPointF) -> float:
        """Relative bearing of a place on the widget, deg."""
        middle, _side = self._middle()
        return math.degrees(math.atan2(place.x() - middle.x(), middle.y() - place.y())) % 360.0

    def place_at(self, bearing_deg: float, share: float = _RING) -> QPointF:
        """Where a relative bearing stands, at a share of the radius."""
        middle, side = self._middle()
        angle = math.radians(bearing_deg)
        return middle + QPointF(math.sin(angle), -math.cos(angle)) * (side * share)

    def _end_near(self, bearing_deg: float) -> str:
        """The end of the chosen sector near a bearing."""
        if not 0 <= self._current < len(self._sectors):
            return ""
        sector = self._sectors[self._current]
        for name, end in (("from", sector.from_relative_deg), ("to", sector.to_relative_deg)):
            if abs((end - bearing_deg + 180.0) % 360.0 - 180.0) <= _NEAR_DEG:
                return name
        return ""

    # Mouse and keys

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Begin a sector, take an end of the chosen one, or choose one."""
        bearing_deg = self.bearing_at(event.position())
        self._end = self._end_near(bearing_deg)
        if self._end:
            return
        inside = [i for i, s in enumerate(self._sectors) if _holds(s, bearing_deg)]
        if inside:
            self.chosen.emit(inside[0])
            return
        self._from_deg = self._to_deg = _rounded(bearing_deg)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Draw on, or move the end that is held."""
        bearing_deg = _rounded(self.bearing_at(event.position()))
        if self._end and 0 <= self._current < len(self._sectors):
            sector = self._sectors[self._current]
            ends = [sector.from_relative_deg, sector.to_relative_deg]
            ends[self._end == "to"] = bearing_deg
            if ends[0] != ends[1]:
                self.sector_moved.emit(self._current, *ends)
        elif self._from_deg is not None:
            self._to_deg = bearing_deg
            self.update()

    def mouseReleaseEvent(self, _event: QMouseEvent) -> None:
        """End what was drawn or moved."""
        start, self._from_deg, self._end = self._from_deg, None, ""
        if start is not None and (self._to_deg - start) % 360.0 >= _LEAST_DEG:
            self.sector_drawn.emit(start, self._to_deg)
        self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Move an end of the chosen sector; Esc gives up what is being drawn."""
        if event.key() == Qt.Key.Key_Escape and self._from_deg is not None:
            self._from_deg = None
            self.update()
            return
        steps = {Qt.Key.Key_Left: -_STEP_DEG, Qt.Key.Key_Right: _STEP_DEG}
        if event.key() not in steps or not 0 <= self._current < len(self._sectors):
            super().keyPressEvent(event)
            return
        sector = self._sectors[self._current]
        ends = [sector.from_relative_deg, sector.to_relative_deg]
        at = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        ends[at] = _rounded(ends[at] + steps[Qt.Key(event.key())])
        if ends[0] != ends[1]:
            self.sector_moved.emit(self._current, *ends)

    # Drawing

    def paintEvent(self, _event: QPaintEvent) -> None:
        """The ship from above, the ring, and the sectors on it."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours = self.palette()
        ink = colours.color(QPalette.ColorRole.WindowText)
        faint = colours.color(QPalette.ColorRole.Mid)
        middle, side = self._middle()
        painter.setPen(QPen(faint, 1.0))
        painter.setBrush(colours.color(QPalette.ColorRole.Base))
        painter.drawEllipse(middle, side * _RING, side * _RING)
        for number, sector in enumerate(self._sectors):
            style = Qt.BrushStyle.BDiagPattern if sector.is_shadow else Qt.BrushStyle.Dense4Pattern
            width = 2.5 if number == self._current else 1.0
            self._pie(painter, sector.from_relative_deg, sector.to_relative_deg,
                      QPen(ink, width), QBrush(ink, style))  # fmt: skip
        if self._from_deg is not None:
            pen = QPen(ink, 1.0, Qt.PenStyle.DashLine)
            self._pie(painter, self._from_deg, self._to_deg, pen, QBrush())
        self._hull(painter, middle, side, QPen(ink, 1.4))
        painter.setPen(ink)
        for bearing in range(0, 360, _TICKS_DEG):
            painter.drawLine(self.place_at(bearing, _RING - 0.04), self.place_at(bearing, _RING))
            place = self.place_at(bearing, _RING + 0.08)
            painter.drawText(
                QRectF(place.x() - 20, place.y() - 9, 40, 18), Qt.AlignmentFlag.AlignCenter,
                f"{bearing:03d}",
            )  # fmt: skip
        if self.hasFocus():
            painter.setPen(QPen(colours.color(QPalette.ColorRole.Accent), 2.0))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(self.rect().adjusted(1, 1, -1, -1))
        painter.end()

    def _pie(
        self, painter: QPainter, from_deg: float, to_deg: float, pen: QPen, brush: QBrush
    ) -> None:
        middle, side = self._middle()
        box = QRectF(middle.x() - side * _RING, middle.y() - side * _RING,
                     2.0 * side * _RING, 2.0 * side * _RING)  # fmt: skip
        painter.setPen(pen)
        painter.setBrush(brush)
        span = (to_deg - from_deg) % 360.0
        # Qt counts sixteenths of a degree anticlockwise from three o'clock.
        painter.drawPie(box, round((90.0 - from_deg) * 16.0), -round(span * 16.0))

    @staticmethod
    def _hull(painter: QPainter, middle: QPointF, side: float, pen: QPen) -> None:
        length, beam = side * _HUB, side * _HUB * 0.28
        painter.setPen(pen)
        painter.setBrush(painter.background())
        painter.drawPolygon(
            [
                middle + QPointF(0.0, -length),
                middle + QPointF(beam, -length * 0.5),
                middle + QPointF(beam, length),
                middle + QPointF(-beam, length),
                middle + QPointF(-beam, -length * 0.5),
            ]
        )


def _holds(sector: BlindSector, bearing_deg: float) -> bool:
    span = (sector.to_relative_deg - sector.from_relative_deg) % 360.0
    return (bearing_deg - sector.from_relative_deg) % 360.0 <= span
