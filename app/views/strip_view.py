"""The leg strip on the screen: the sheet's drawing, with own ship and lines moved on it."""

from dataclasses import replace

from PySide6.QtCore import QEvent, QPointF, QSize, Qt, Signal
from PySide6.QtGui import (
    QHelpEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from app.base.throttle import LatestCall
from app.paint.palette import Palette
from app.state.document import Document
from app.views.ship_steps import ShipSteps
from app.views.strip_drag import LineDrag, grab
from app.views.strip_hover import explain, explain_thing
from app.views.strip_overlay import StripOverlay, blank_words
from app.views.strip_pending import NOTHING, Pending, pending_of
from app.views.strip_pointer import line_at, next_spot, same_spot
from app.views.strip_tips import show_tip
from app.views.strip_widths import LegWidths
from app.views.strip_work import (
    DrawnStrip,
    Shelf,
    StripAsk,
    draw_strip,
    page_place,
    raised,
    serves_meanwhile,
    source_of,
)
from app.work.runner import JobProgress, Runner
from core.base.language import tr
from core.sheets.page import Place, Tone
from core.sheets.strip_map import Spot

_DRAG_PX = 4.0
"""So far sideways a line is moved, and not the ship taken to the mouse."""
_NOTCH = 120
_PLAIN = (
    Qt.KeyboardModifier.NoModifier,
    Qt.KeyboardModifier.KeypadModifier,
    Qt.KeyboardModifier.ShiftModifier,
)


class StripView(QWidget):
    """The strip of the chosen leg.

    ``said`` tells what the mouse or own ship is on; ``line_dropped`` that a line was let go at
    another place, ``line_asked`` that the keys want to change one.
    """

    said = Signal(str)
    line_dropped = Signal(object)
    line_asked = Signal(object)

    def __init__(self, document: Document, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._colours = palette
        self._overlay = StripOverlay(palette)
        self._drawn: DrawnStrip | None = None
        self._shelf = Shelf()
        self._widths = LegWidths(document)
        self.ship = ShipSteps(document)
        self._is_ship_dragged = False
        self._pressed_at, self._mouse_at = QPointF(), QPointF()
        # A line under the pressed mouse, and the same once it moves.
        self._held: LineDrag | None = None
        self._drag: LineDrag | None = None
        self._pending: Pending = NOTHING
        self._spot: Spot | None = None
        self._notches = 0
        self._runner = Runner("legsheet-strip", self)
        self._redraw = LatestCall(self._request, 30, self)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setMinimumSize(400, 380)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setAccessibleName(tr("Leg strip"))
        document.outcome_changed.connect(self._show_other)
        document.leg_changed.connect(self._show_other)
        document.legs_done_changed.connect(self._show_first)
        document.project_changed.connect(self._show_edits)
        document.passage_changed.connect(self._show_edits)
        document.cursor_changed.connect(self._follow_ship)
        document.job.turned.connect(self.update)

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
        self._overlay = StripOverlay(palette)
        self._drawn = None
        self._request()
        self.update()

    @property
    def is_current(self) -> bool:
        """Whether the picture shows the chosen leg of the plan at this size."""
        return self.drawn is not None and not self._runner.is_busy and not self._redraw.is_waiting

    @property
    def drawn(self) -> DrawnStrip | None:
        """The picture of the chosen leg; None while it is not drawn."""
        drawn, document = self._drawn, self._document
        if drawn is None or drawn.ask.outcome is not source_of(document):
            return None
        return drawn if drawn.ask.leg_index == document.leg_index else None

    @property
    def drag(self) -> LineDrag | None:
        """The line on its way, if one is dragged."""
        return self._drag

    @property
    def pending(self) -> Pending:
        """What was changed on the leg since its plan was made."""
        return self._pending

    # The picture, made off the GUI thread

    def _show_other(self) -> None:
        self._drag = self._held = self._spot = None
        self._pending = pending_of(self._document)
        self._request()
        self.update()

    def _show_first(self) -> None:
        if self.drawn is None:
            self._request()
            self.update()

    def _show_edits(self) -> None:
        self._pending = pending_of(self._document)
        self.update()

    def _follow_ship(self) -> None:
        self._spot = None
        self.said.emit(self.ship.words_here)
        self.update()

    def _request(self) -> None:
        outcome, leg_index = source_of(self._document), self._document.leg_index
        if outcome is None or leg_index >= len(outcome.plan.legs) or self.width() < 50:
            self._drawn = None
            return
        room = self.width(), self.height(), self.devicePixelRatioF()
        ask = StripAsk(outcome, leg_index, *room, self._widths.chosen_m, self._colours)
        kept = self._shelf.get(ask)
        if kept is not None:
            self._runner.stop()
            self._take(kept)
            return

        def work(progress: JobProgress) -> DrawnStrip:
            progress.report(0.0)
            return draw_strip(ask)

        self._runner.submit(work, done=self._take, failed=raised)

    def _take(self, drawn: DrawnStrip) -> None:
        """Show a new picture; what hand and keys hold goes on in it."""
        self._drawn = drawn
        self._shelf.put(drawn)
        self._held = None if self._held is None else replace(self._held, strip=drawn.strip)
        self._drag = None if self._drag is None else replace(self._drag, strip=drawn.strip)
        if self._spot is not None:
            self._spot = same_spot(drawn, self._document.cursor_along_m, self._spot)
        self.update()

    # Painting

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Draw anew for the new room."""
        super().resizeEvent(event)
        self._redraw.request()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Blit the picture and draw on it what moves."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), self._colours.colour(Tone.PAPER))
        drawn, document, leg = self.drawn, self._document, self._document.leg_plan
        if drawn is not None:
            painter.drawImage(QPointF(0.0, 0.0), drawn.image)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            self._overlay.own_ship(painter, drawn.strip.frame, self._document.cursor_along_m)
            if leg is None:
                self._overlay.unplanned(painter, drawn.strip)
            elif self._document.is_stale:
                self._overlay.stale(painter, leg, drawn.strip, self._pending, document.job)
            if self._spot is not None:
                self._overlay.pointer(painter, self._spot_place(drawn, self._spot))
            if self._drag is not None:
                self._overlay.drag(painter, self._drag, self._mouse_at)
        elif self._drawn and self._runner.is_busy and serves_meanwhile(self._drawn, self._document):
            painter.drawImage(QPointF(0.0, 0.0), self._drawn.image)
        else:
            self._overlay.blank(painter, self.rect(), blank_words(self._document))
        if self.hasFocus():
            painter.setPen(self._colours.colour(Tone.OWN_SHIP))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(self.rect().adjusted(0, 0, -1, -1))
        painter.end()

    # Mouse

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take a line, or take own ship to the mouse."""
        if event.button() != Qt.MouseButton.LeftButton:
            return
        self._pressed_at = event.position()
        self._held = self._line_under(event.position())
        self._is_ship_dragged = self._held is None
        if self._is_ship_dragged:
            self._take_ship_to(event.position())

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Drag a line or own ship, or explain what the mouse is on."""
        self._mouse_at = event.position()
        if self._held is not None:
            step = event.position() - self._pressed_at
            if self._drag is None and abs(step.x()) >= max(_DRAG_PX, abs(step.y())):
                QToolTip.hideText()
                self._drag = self._held
            if self._drag is not None:
                self._drag = self._drag.moved(page_place(event.position()))
                self.said.emit(": ".join(self._drag.words))
                self.update()
            elif abs(step.y()) >= 2 * _DRAG_PX:
                self._held, self._is_ship_dragged = None, True
        elif not self._is_ship_dragged:
            self._show_grip(event.position())
            self.said.emit(self._explained(event.position()))
        if self._is_ship_dragged:
            self._take_ship_to(event.position())

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let a line go where it is; a click on one takes own ship there."""
        if event.button() != Qt.MouseButton.LeftButton:
            return
        held, drag = self._held, self._drag
        self.cancel_drag()
        if drag is not None:
            self.line_dropped.emit(drag)
        elif held is not None:
            self._take_ship_to(event.position())

    def cancel_drag(self) -> None:
        """Put a line that is dragged back where it was."""
        self._held = self._drag = None
        self._is_ship_dragged = False
        self.update()

    def _take_ship_to(self, at: QPointF) -> None:
        if self.drawn is not None:
            frame = self.drawn.strip.frame
            self._document.set_cursor(frame.track_coordinates(page_place(at))[0])

    def _line_under(self, at: QPointF) -> LineDrag | None:
        drawn, leg = self.drawn, self._document.leg_plan
        if drawn is None or leg is None:
            return None
        return grab(leg, drawn.strip, page_place(at))

    def _show_grip(self, at: QPointF) -> None:
        is_line = self._line_under(at) is not None
        shape = Qt.CursorShape.SizeHorCursor if is_line else Qt.CursorShape.ArrowCursor
        if self.cursor().shape() != shape:
            self.setCursor(shape)

    def event(self, event: QEvent) -> bool:
        """Show what the mouse rests on as a tip; Esc belongs to a drag while there is one."""
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            words = self._explained(QPointF(event.pos()))
            if words and self._drag is None:
                QToolTip.showText(event.globalPos(), words, self)
            else:
                QToolTip.hideText()
            return True
        if (
            event.type() == QEvent.Type.ShortcutOverride
            and isinstance(event, QKeyEvent)
            and event.key() == Qt.Key.Key_Escape
            and (self._held is not None or self._spot is not None)
        ):
            event.accept()
            return True
        return super().event(event)

    def _explained(self, at: QPointF) -> str:
        drawn, outcome = self.drawn, self._document.outcome
        if drawn is None or outcome is None:
            return ""
        return explain(outcome, drawn.ask.leg_index, drawn.things, page_place(at))

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Own ship by viewpoints; with Ctrl wider or narrower water across the leg."""
        self._notches += event.angleDelta().y()
        steps = int(self._notches / _NOTCH)
        self._notches -= steps * _NOTCH
        if steps and event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.widen(-steps)
        elif steps:
            self._document.step_cursor(steps)

    # Keys

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Along the leg, across its things, wider and narrower."""
        document, key = self._document, Qt.Key(event.key())
        is_shift = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        steps = {
            Qt.Key.Key_Up: 1,
            Qt.Key.Key_Down: -1,
            Qt.Key.Key_PageUp: 10,
            Qt.Key.Key_PageDown: -10,
        }
        if event.modifiers() not in _PLAIN:
            super().keyPressEvent(event)
        elif key == Qt.Key.Key_Escape and self._held is not None:
            self.cancel_drag()
        elif key == Qt.Key.Key_Escape and self._spot is not None:
            self._point_at(None)
        elif key in steps and is_shift:
            self.ship.by_minutes(steps[key])
        elif key in steps:
            document.step_cursor(steps[key])
        elif key in (Qt.Key.Key_Left, Qt.Key.Key_Right):
            self.point(1 if key == Qt.Key.Key_Right else -1)
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self._spot is not None:
            self._ask_line(self._spot)
        elif key == Qt.Key.Key_Home:
            document.set_cursor(0.0)
        elif key == Qt.Key.Key_End:
            document.set_cursor(document.leg_length_m())
        elif key in (Qt.Key.Key_Plus, Qt.Key.Key_Equal):
            self.widen(-1)
        elif key == Qt.Key.Key_Minus:
            self.widen(1)
        elif key == Qt.Key.Key_0:
            self.widen_as_planned()
        else:
            super().keyPressEvent(event)

    def point(self, steps: int) -> None:
        """Go to the next thing to starboard, or to port, on own ship's level and explain it."""
        drawn = self.drawn
        if drawn is None:
            return
        self._point_at(next_spot(drawn, self._document.cursor_along_m, self._spot, steps))

    def _point_at(self, spot: Spot | None) -> None:
        self._spot = spot
        self.update()
        drawn, outcome = self.drawn, self._document.outcome
        if spot is None or drawn is None or outcome is None:
            QToolTip.hideText()
            return
        place = self._spot_place(drawn, spot)
        words = explain_thing(outcome, drawn.ask.leg_index, drawn.things, spot.reference, place)
        self.said.emit(words)
        show_tip(self, place, words)

    def _spot_place(self, drawn: DrawnStrip, spot: Spot) -> Place:
        return spot.x_mm, drawn.strip.frame.y_mm(self._document.cursor_along_m)

    def _ask_line(self, spot: Spot) -> None:
        leg = self._document.leg_plan
        line = None if leg is None else line_at(leg, spot)
        if line is not None:
            QToolTip.hideText()
            self.line_asked.emit(line)

    def widen(self, steps: int) -> None:
        """Wider water across the leg by steps, narrower where negative; kept for this leg."""
        drawn = self.drawn
        if drawn is not None and self._widths.step(steps, drawn.strip.frame.half_width_m):
            self._redraw.request()

    def widen_as_planned(self) -> None:
        """As wide across as on the sheet again."""
        if self._widths.forget():
            self._redraw.request()
