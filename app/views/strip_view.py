"""The leg strip on the screen: the sheet's drawing, with own ship moved along it."""

from dataclasses import dataclass

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QHelpEvent,
    QImage,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from app.base.throttle import LatestCall
from app.paint.measure import QtMeasure
from app.paint.page_image import page_image
from app.paint.page_painter import PagePainter
from app.paint.palette import Palette
from app.state.document import Document
from app.views.strip_hover import explain
from app.work.runner import JobProgress, Runner
from core.base.errors import LegsheetError
from core.plan.outcome import Outcome
from core.sheets.page import Rectangle, Tone
from core.sheets.strip_block import Strip, make_strip
from core.sheets.strip_ruler import cursor

_PX_PER_MM = 4.1
"""Pixels a millimetre of the page: 9 point text is 13 pixels high."""
_WIDTHS_M = tuple(nm * 1852.0 for nm in (0.5, 0.75, 1, 1.5, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 24))


@dataclass(frozen=True, slots=True)
class _Drawn:
    """A strip that was drawn: what for, and its picture."""

    outcome: Outcome
    leg_index: int
    strip: Strip
    image: QImage


class StripView(QWidget):
    """The strip of the chosen leg; the ship is moved by mouse or keys."""

    hovered = Signal(str)

    def __init__(self, document: Document, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._colours = palette
        self._page_painter = PagePainter(palette)
        self._drawn: _Drawn | None = None
        self._half_width_m: float | None = None
        self._is_dragging = False
        self._runner = Runner("legsheet-strip", self)
        self._redraw = LatestCall(self._request, 30, self)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setMinimumSize(430, 380)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setAccessibleName("Leg strip")
        document.outcome_changed.connect(self._forget_width)
        document.leg_changed.connect(self._forget_width)
        document.project_changed.connect(self.update)
        document.passage_changed.connect(self.update)
        document.cursor_changed.connect(self.update)

    def sizeHint(self) -> QSize:
        """As large as can be had."""
        return QSize(560, 760)

    def close_threads(self) -> None:
        """Stop drawing in the background; the view is not used afterwards."""
        self._redraw.stop()
        self._runner.close()

    def set_colours(self, palette: Palette) -> None:
        """Draw in another palette."""
        self._colours = palette
        self._page_painter = PagePainter(palette)
        self._drawn = None
        self._request()
        self.update()

    @property
    def is_current(self) -> bool:
        """Whether the picture shows the chosen leg of the plan at this size."""
        drawn = self._drawn
        return (
            drawn is not None
            and drawn.outcome is self._document.outcome
            and drawn.leg_index == self._document.leg_index
            and not self._runner.is_busy
        )

    # The picture, made off the GUI thread

    def _forget_width(self) -> None:
        self._half_width_m = None
        self._request()
        self.update()

    def _request(self) -> None:
        outcome, leg_index = self._document.outcome, self._document.leg_index
        if outcome is None or leg_index >= len(outcome.plan.legs) or self.width() < 50:
            self._drawn = None
            return
        ratio, half_width_m, colours = self.devicePixelRatioF(), self._half_width_m, self._colours
        width, height = self.width(), self.height()

        def work(progress: JobProgress) -> _Drawn:
            progress.report(0.0)
            room = Rectangle(
                x_mm=0.0, y_mm=0.0, width_mm=width / _PX_PER_MM, height_mm=height / _PX_PER_MM
            )
            strip = make_strip(
                outcome,
                leg_index,
                frame=room,
                measure=QtMeasure(),
                cross_half_width_m=half_width_m,
            )
            progress.report(0.5)
            image = page_image(
                strip.items,
                width_mm=room.width_mm,
                height_mm=room.height_mm,
                px_per_mm=_PX_PER_MM,
                ratio=ratio,
                colours=colours,
            )
            return _Drawn(outcome, leg_index, strip, image)

        self._runner.submit(work, done=self._take, failed=self._failed)

    def _take(self, drawn: _Drawn) -> None:
        self._drawn = drawn
        self.update()

    @staticmethod
    def _failed(error: LegsheetError) -> None:
        raise error

    # Events

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Draw anew for the new room."""
        super().resizeEvent(event)
        self._redraw.request()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Blit the picture and draw own ship on it."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), self._colours.colour(Tone.PAPER))
        drawn = self._drawn
        if drawn is not None and self._shows_chosen_leg(drawn):
            painter.drawImage(QPointF(0.0, 0.0), drawn.image)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.save()
            painter.scale(_PX_PER_MM, _PX_PER_MM)
            self._page_painter.draw(
                painter, cursor(drawn.strip.frame, self._document.cursor_along_m)
            )
            painter.restore()
            if self._document.is_stale:
                self._draw_stale(painter)
        else:
            self._draw_words(painter)
        if self.hasFocus():
            painter.setPen(self._colours.colour(Tone.OWN_SHIP))
            painter.drawRect(self.rect().adjusted(0, 0, -1, -1))
        painter.end()

    def _shows_chosen_leg(self, drawn: _Drawn) -> bool:
        return (
            drawn.outcome is self._document.outcome and drawn.leg_index == self._document.leg_index
        )

    def _draw_stale(self, painter: QPainter) -> None:
        words = "OUT OF DATE: inputs changed, compute again (F5)"
        metrics = self.fontMetrics()
        box = QRectF(0.0, 0.0, metrics.horizontalAdvance(words) + 16.0, metrics.height() + 6.0)
        box.moveCenter(QPointF(self.width() / 2.0, self.height() - 20.0))
        painter.fillRect(box, self._colours.colour(Tone.PAPER))
        painter.setPen(self._colours.colour(Tone.WARNING))
        painter.drawRect(box)
        painter.drawText(box, int(Qt.AlignmentFlag.AlignCenter), words)

    def _draw_words(self, painter: QPainter) -> None:
        document = self._document
        if document.outcome is not None:
            return
        if document.job.is_running:
            words = "Working. The strip of each leg is drawn when the plan is done."
        elif document.passage is None:
            words = "Open a route (Ctrl+O), add land (Ctrl+L), compute (F5)."
        elif document.outcome_before_edit is not None:
            words = "OUT OF DATE: the line was edited, compute again (F5)."
        elif not document.project.land:
            words = "Add land data (Ctrl+L or Ctrl+Shift+L), then compute (F5)."
        else:
            words = "Compute the plan (F5) to see the leg."
        painter.setPen(self._colours.colour(Tone.INK))
        painter.drawText(
            self.rect().adjusted(20, 20, -20, -20),
            int(Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap),
            words,
        )

    def _along_at(self, place: QPointF) -> float | None:
        if self._drawn is None or not self._shows_chosen_leg(self._drawn):
            return None
        frame = self._drawn.strip.frame
        return frame.track_coordinates((place.x() / _PX_PER_MM, place.y() / _PX_PER_MM))[0]

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take own ship to the mouse."""
        if event.button() == Qt.MouseButton.LeftButton:
            self._is_dragging = True
            self.mouseMoveEvent(event)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Drag own ship along the leg, or explain what the mouse is on."""
        if self._is_dragging:
            along_m = self._along_at(event.position())
            if along_m is not None:
                self._document.set_cursor(along_m)
        else:
            self.hovered.emit(self._explained(event.position()))

    def mouseReleaseEvent(self, _event: QMouseEvent) -> None:
        """Leave own ship where it is."""
        self._is_dragging = False

    def event(self, event: QEvent) -> bool:
        """Show what the mouse rests on as a tip."""
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            words = self._explained(QPointF(event.pos()))
            if words:
                QToolTip.showText(event.globalPos(), words, self)
            else:
                QToolTip.hideText()
            return True
        return super().event(event)

    def _explained(self, place: QPointF) -> str:
        drawn, outcome = self._drawn, self._document.outcome
        if drawn is None or outcome is None or not self._shows_chosen_leg(drawn):
            return ""
        at = (place.x() / _PX_PER_MM, place.y() / _PX_PER_MM)
        return explain(outcome, drawn.leg_index, drawn.strip, at)

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Wider or narrower water across the leg."""
        self._widen(-1 if event.angleDelta().y() > 0 else 1)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Up and down by viewpoints, page keys by ten, Home and End, plus and minus the width."""
        document, key = self._document, Qt.Key(event.key())
        steps = {
            Qt.Key.Key_Up: 1,
            Qt.Key.Key_Down: -1,
            Qt.Key.Key_PageUp: 10,
            Qt.Key.Key_PageDown: -10,
        }
        if event.modifiers() not in (
            Qt.KeyboardModifier.NoModifier,
            Qt.KeyboardModifier.KeypadModifier,
            Qt.KeyboardModifier.ShiftModifier,
        ):
            super().keyPressEvent(event)
        elif key in steps:
            document.step_cursor(steps[key])
        elif key == Qt.Key.Key_Home:
            document.set_cursor(0.0)
        elif key == Qt.Key.Key_End:
            document.set_cursor(document.leg_length_m())
        elif key in (Qt.Key.Key_Plus, Qt.Key.Key_Equal):
            self._widen(-1)
        elif key == Qt.Key.Key_Minus:
            self._widen(1)
        else:
            super().keyPressEvent(event)

    def _widen(self, step: int) -> None:
        if self._drawn is None:
            return
        now_m = self._drawn.strip.frame.half_width_m
        if self._half_width_m is not None:
            now_m = self._half_width_m
        places = [abs(width - now_m) for width in _WIDTHS_M]
        number = min(max(places.index(min(places)) + step, 0), len(_WIDTHS_M) - 1)
        if _WIDTHS_M[number] != now_m:
            self._half_width_m = _WIDTHS_M[number]
            self._redraw.request()
