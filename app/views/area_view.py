"""The whole passage in plan: legs, corridor, coast and hidden water; waypoints are edited here."""

import numpy as np
from PySide6.QtCore import QEvent, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QContextMenuEvent, QFocusEvent, QKeyEvent, QMouseEvent
from PySide6.QtWidgets import QMenu, QSizePolicy, QWidget

from app.paint.palette import Palette
from app.state.document import Document
from app.views import area_marks, area_pick
from app.views.area_canvas import AreaCanvas
from app.views.area_menu import fill_menu
from core.base.language import tr
from core.geodesy.position import Position

_PAN_PX = 60.0
_BEARINGS_DEG = {
    Qt.Key.Key_Up: 0.0,
    Qt.Key.Key_Right: 90.0,
    Qt.Key.Key_Down: 180.0,
    Qt.Key.Key_Left: 270.0,
}
_MODIFIERS = (Qt.Key.Key_Control, Qt.Key.Key_Shift, Qt.Key.Key_Alt, Qt.Key.Key_AltGr)
_TIP = tr(
    "Drag, or arrow keys: move the plan. Wheel, + and -: nearer, "
    "farther. Click: choose the leg. Waypoints: drag, or Page Up and "
    "Page Down to choose, arrow keys, Insert, Delete. M: measure. "
    "Right button or menu key: more."
)


class AreaView(AreaCanvas):
    """Plan of the passage over a cached picture of the land; mouse and keyboard."""

    place_shown = Signal(str)
    mark_asked = Signal(Position)
    limit_asked = Signal(str)
    table_asked = Signal(int)
    """With the row of the waypoint, from 0."""

    def __init__(self, document: Document, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(document, palette, parent)
        self._drag_from: QPointF | None = None
        self._is_dragged = False
        self._pressed_waypoint: int | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setMinimumSize(220, 140)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setAccessibleName(tr("Area"))
        self.setToolTip(_TIP)
        document.passage_changed.connect(self._passage_changed)

    def _passage_changed(self) -> None:
        self.tools.passage_changed()
        if self.tools.moved_to is None:
            self._drag_from = self._pressed_waypoint = None
        self.pictures.rebuild()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Begin a drag of the plan or of a waypoint, or a click."""
        if event.button() != Qt.MouseButton.LeftButton:
            return
        self._drag_from, self._is_dragged = event.position(), False
        is_measuring = self.tools.ruler is not None
        self._pressed_waypoint = None if is_measuring else self._waypoint_at(event.position())

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Drag the plan or a waypoint, measure, and tell the place under the mouse."""
        at = event.position()
        scene = self.pictures.scene
        if self._drag_from is not None:
            step = at - self._drag_from
            if not self._is_dragged and step.manhattanLength() <= 4:
                return
            if self._pressed_waypoint is None:
                self.drag_by(-step.x(), -step.y())
                self._drag_from = at
            elif self.tools.can_edit:
                if not self._is_dragged:
                    self.tools.choose(self._pressed_waypoint)
                self.tools.move_to(self._place(at))
                self.update()
            self._is_dragged = True
        elif scene is not None:
            self.tools.ruler_to(self._place(at))
            if self.tools.ruler is not None:
                self.update()
            self.setCursor(
                Qt.CursorShape.ArrowCursor
                if self._waypoint_at(at) is None
                else Qt.CursorShape.SizeAllCursor
            )
            name = area_pick.name_at(self._frame, scene, at)
            words = area_marks.place_words(self._document, self._place(at))
            self.place_shown.emit(f"{name}   {words}" if name else words)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Set a dragged waypoint; a click chooses the waypoint or the leg, or sets the ruler."""
        if event.button() != Qt.MouseButton.LeftButton or self._drag_from is None:
            return
        pressed, self._drag_from, self._pressed_waypoint = self._pressed_waypoint, None, None
        if self._is_dragged:
            if pressed is not None:
                self.tools.set_move()
        elif self.tools.ruler is not None:
            self.tools.ruler_to(self._place(event.position()))
            self.tools.set_ruler()
        elif pressed is not None:
            self.tools.choose(pressed)
        else:
            self.tools.choose(None)
            self._pick_leg(event.position())
        self.update()

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """What can be done at a place: under the mouse, or at what is chosen by keys."""
        is_mouse = event.reason() == QContextMenuEvent.Reason.Mouse
        at = QPointF(event.pos()) if is_mouse else self._working_place()
        menu = self.menu_at(at)
        if menu is not None:
            menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
            menu.popup(self.mapToGlobal(at.toPoint()))

    def menu_at(self, at: QPointF) -> QMenu | None:
        """The menu for a pixel; None without a passage."""
        scene = self.pictures.scene
        if scene is None:
            return None
        self.tools.set_move()
        leg = area_pick.leg_at(self._frame, scene, at)
        menu = fill_menu(
            self,
            self._document,
            self.tools,
            self._place(at),
            waypoint=self._waypoint_at(at),
            leg=leg,
            mark=area_pick.nearest_object(self._frame, scene, at),
            ask_mark=self.mark_asked.emit,
            ask_limit=self.limit_asked.emit,
            ask_table=self.table_asked.emit,
        )
        menu.triggered.connect(lambda _action: self.update())
        return menu

    def event(self, event: QEvent) -> bool:
        """Keys of the tools go before those of the window; anything else first sets a move."""
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent):
            key = Qt.Key(event.key())
            is_plain = event.modifiers() in (
                Qt.KeyboardModifier.NoModifier,
                Qt.KeyboardModifier.ShiftModifier,
                Qt.KeyboardModifier.KeypadModifier,
            )
            if key == Qt.Key.Key_Escape and (self.tools.is_at_work or self._drag_from is not None):
                event.accept()
                return True
            is_own = is_plain and (key in _BEARINGS_DEG or key in self._keys())
            if not is_own and key not in _MODIFIERS and self._drag_from is None:
                self.tools.set_move()
        return super().event(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """A waypoint that was moved by keys is set when the keyboard goes elsewhere."""
        if event.reason() not in (
            Qt.FocusReason.PopupFocusReason,
            Qt.FocusReason.ActiveWindowFocusReason,
        ):
            self.tools.set_move()
        super().focusOutEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows move what is chosen, else the plan; other keys as the tip says."""
        key, is_fine = Qt.Key(event.key()), event.modifiers() == Qt.KeyboardModifier.ShiftModifier
        is_plain = is_fine or not event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        if is_plain and key in _BEARINGS_DEG:
            self._arrow(_BEARINGS_DEG[key], is_fine=is_fine)
        elif is_plain and key in self._keys():
            self._press(key, is_fine=is_fine)
        elif key == Qt.Key.Key_Escape and self._drag_from is not None:
            self.tools.let_go()
            self._drag_from = self._pressed_waypoint = None
        elif key == Qt.Key.Key_Escape and self.tools.is_at_work:
            self.tools.let_go()
        else:
            super().keyPressEvent(event)
            return
        self.update()

    @staticmethod
    def _keys() -> tuple[Qt.Key, ...]:
        return (
            *(Qt.Key.Key_Plus, Qt.Key.Key_Equal, Qt.Key.Key_Minus, Qt.Key.Key_M),
            *(Qt.Key.Key_PageUp, Qt.Key.Key_PageDown, Qt.Key.Key_Insert, Qt.Key.Key_Delete),
            *(Qt.Key.Key_Return, Qt.Key.Key_Enter),
        )

    def _press(self, key: Qt.Key, *, is_fine: bool) -> None:
        tools, middle = self.tools, QPointF(self.width() / 2.0, self.height() / 2.0)
        if key in (Qt.Key.Key_Plus, Qt.Key.Key_Equal):
            self.zoom_by(0.8, middle)
        elif key == Qt.Key.Key_Minus:
            self.zoom_by(1.25, middle)
        elif key in (Qt.Key.Key_PageUp, Qt.Key.Key_PageDown):
            tools.step_choice(1 if key == Qt.Key.Key_PageDown else -1)
            self._keep_in_view()
        elif key == Qt.Key.Key_Insert:
            tools.insert_beside(is_before=is_fine)
        elif key == Qt.Key.Key_Delete:
            if tools.chosen is not None:
                tools.delete(tools.chosen)
        elif key == Qt.Key.Key_M:
            tools.set_move()
            if self.pictures.scene is not None:
                tools.start_ruler(self._place(self._working_place()), is_start_set=False)
        else:
            tools.set_it()

    def _arrow(self, bearing_deg: float, *, is_fine: bool) -> None:
        if self.tools.is_at_work:
            self.tools.nudge(bearing_deg, self.m_per_px, is_fine=is_fine)
            self._keep_in_view()
        else:
            turn = np.radians(bearing_deg)
            self.drag_by(_PAN_PX * float(np.sin(turn)), -_PAN_PX * float(np.cos(turn)))

    # Places

    def _place(self, at: QPointF) -> Position:
        scene = self.pictures.scene
        assert scene is not None  # noqa: S101 - asked only where there is a scene
        return scene.projection.position(*self._frame.scene_place(at.x(), at.y()))

    def _waypoint_at(self, at: QPointF) -> int | None:
        scene = self.pictures.scene
        return None if scene is None else area_pick.waypoint_at(self._frame, scene, at)

    def _working_place(self) -> QPointF:
        """Pixel of what is moved by keys, else the middle."""
        scene = self.pictures.scene
        place = self.tools.ruler.end if self.tools.ruler is not None else self.tools.place
        if scene is None or place is None:
            return QPointF(self.width() / 2.0, self.height() / 2.0)
        return self._frame.point(*scene.projection.point(place))

    def _keep_in_view(self) -> None:
        at = self._working_place()
        if not QRectF(self.rect()).adjusted(30.0, 30.0, -30.0, -30.0).contains(at):
            self.drag_by(at.x() - self.width() / 2.0, at.y() - self.height() / 2.0)

    def _pick_leg(self, at: QPointF) -> None:
        scene = self.pictures.scene
        leg = None if scene is None else area_pick.leg_at(self._frame, scene, at)
        if leg is not None:
            self._document.set_leg(leg)
