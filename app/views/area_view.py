"""The whole passage in plan: pick a leg, see corridor, viewpoints and hidden water at own ship."""

from dataclasses import replace

import numpy as np
from PySide6.QtCore import QPoint, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QImage,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.base.throttle import LatestCall
from app.paint.palette import Palette
from app.state.document import Document
from app.views import area_marks
from app.views.area_image import AreaFrame, render_ground
from app.views.area_inks import ground_inks
from app.views.area_scene import AreaScene, build_scene
from app.work.runner import JobProgress, Runner
from core.base.errors import LegsheetError

_OVERSIZE = 1.6
_PAN_PX = 60.0
_PICK_PX = 12.0
_MOST_M_PER_PX = 4_000.0
_LEAST_M_PER_PX = 2.0


class AreaView(QWidget):
    """Plan of the passage over a cached picture of the land; mouse and keyboard."""

    place_shown = Signal(str)

    def __init__(self, document: Document, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._colours = palette
        self._scene: AreaScene | None = None
        self._frame = AreaFrame(x_m=0.0, y_m=0.0, m_per_px=50.0, width=10, height=10)
        self._ground: tuple[AreaFrame, QImage] | None = None
        self._hidden: tuple[AreaFrame, QImage] | None = None
        self._drag_from: QPointF | None = None
        self._is_dragged = False
        self._scene_runner = Runner("legsheet-area-scene", self)
        self._ground_runner = Runner("legsheet-area-ground", self)
        self._hidden_runner = Runner("legsheet-area-hidden", self)
        self._redraw = LatestCall(self._request_ground, 60, self)
        self._follow = LatestCall(self._request_hidden, 40, self)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setMinimumSize(220, 140)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setAccessibleName("Area")
        self.setToolTip(
            "Drag or arrow keys: move. Wheel or + and -: nearer, farther. Click: choose the leg."
        )
        document.passage_changed.connect(self._rebuild)
        document.outcome_changed.connect(self._rebuild)
        document.leg_changed.connect(self._moved)
        document.cursor_changed.connect(self._moved)
        self._rebuild()

    def close_threads(self) -> None:
        """Stop drawing in the background; the view is not used afterwards."""
        self._redraw.stop()
        self._follow.stop()
        for runner in (self._scene_runner, self._ground_runner, self._hidden_runner):
            runner.close()

    def set_colours(self, palette: Palette) -> None:
        """Draw in another palette."""
        self._colours = palette
        self._ground = self._hidden = None
        self._request_ground()
        self._request_hidden()
        self.update()

    @property
    def is_ready(self) -> bool:
        """Whether the passage and the land under it are drawn."""
        return self._scene is not None and self._ground is not None

    @property
    def m_per_px(self) -> float:
        """Metres to a pixel."""
        return self._frame.m_per_px

    def pixel_of_leg(self, leg_index: int) -> QPoint:
        """Where the middle of a leg is drawn; the corner where nothing is."""
        if self._scene is None:
            return QPoint()
        x_m, y_m = self._scene.legs[leg_index].track.mean(axis=0)
        return self._frame.point(float(x_m), float(y_m)).toPoint()

    def show_passage(self) -> None:
        """Fit the whole passage."""
        if self._scene is not None:
            self._fit(self._scene.waypoints)

    def show_leg(self) -> None:
        """Fit the chosen leg."""
        if self._scene is not None:
            self._fit(self._scene.legs[self._document.leg_index].track)

    # Pictures made off the GUI thread

    def _rebuild(self) -> None:
        passage, outcome = self._document.passage, self._document.outcome
        if passage is None:
            self._scene, self._ground, self._hidden = None, None, None
            self.update()
            return

        def done(scene: AreaScene) -> None:
            is_first = self._scene is None or not np.array_equal(
                self._scene.waypoints, scene.waypoints
            )
            self._scene, self._ground, self._hidden = scene, None, None
            if is_first:
                self.show_passage()
            self._request_ground()
            self._request_hidden()
            self.update()

        self._scene_runner.submit(
            lambda _progress: build_scene(passage, outcome), done=done, failed=self._failed
        )

    def _wide_frame(self) -> AreaFrame:
        """The part to draw ahead: more than is seen, so that panning only moves the picture."""
        ratio = self.devicePixelRatioF()
        return replace(
            self._frame,
            m_per_px=self._frame.m_per_px / ratio,
            width=round(self.width() * _OVERSIZE * ratio),
            height=round(self.height() * _OVERSIZE * ratio),
        )

    def _request_ground(self) -> None:
        scene = self._scene
        if scene is None or self.width() < 20:
            return
        wide, inks = self._wide_frame(), ground_inks(self._colours)

        def work(progress: JobProgress) -> tuple[AreaFrame, QImage]:
            return wide, render_ground(scene, wide, inks, lambda: progress.report(0.0))

        def done(made: tuple[AreaFrame, QImage]) -> None:
            if self._scene is scene:
                self._ground = made
                self.update()

        self._ground_runner.submit(work, done=done, failed=self._failed)

    def _request_hidden(self) -> None:
        scene, outcome, leg_index = self._scene, self._document.outcome, self._document.leg_index
        if scene is None or outcome is None or self.width() < 20:
            self._hidden = None
            return
        along_m, colours, wide = self._document.cursor_along_m, self._colours, self._wide_frame()

        def work(_progress: JobProgress) -> QImage | None:
            return area_marks.hidden_image(outcome, scene, wide, leg_index, along_m, colours)

        def done(image: QImage | None) -> None:
            if self._scene is scene:
                self._hidden = None if image is None else (wide, image)
                self.update()

        self._hidden_runner.submit(work, done=done, failed=self._failed)

    @staticmethod
    def _failed(error: LegsheetError) -> None:
        raise error

    def _moved(self) -> None:
        self._follow.request()
        self.update()

    # What part is seen

    def _fit(self, points: np.ndarray[tuple[int, ...], np.dtype[np.float64]]) -> None:
        low, high = points.min(axis=0), points.max(axis=0)
        room_x, room_y = max(self.width() - 70, 40), max(self.height() - 60, 40)
        span = max((high[0] - low[0]) / room_x, (high[1] - low[1]) / room_y, _LEAST_M_PER_PX)
        middle = (low + high) / 2.0
        self._set_frame(float(middle[0]), float(middle[1]), float(span))

    def _set_frame(self, x_m: float, y_m: float, m_per_px: float) -> None:
        self._frame = AreaFrame(
            x_m=x_m,
            y_m=y_m,
            m_per_px=min(max(m_per_px, _LEAST_M_PER_PX), _MOST_M_PER_PX),
            width=max(self.width(), 1),
            height=max(self.height(), 1),
        )
        self._redraw.request()
        self._follow.request()
        self.update()

    def _pan(self, right_px: float, down_px: float) -> None:
        frame = self._frame
        self._set_frame(
            frame.x_m + right_px * frame.m_per_px,
            frame.y_m + down_px * frame.m_per_px,
            frame.m_per_px,
        )

    def _zoom(self, factor: float, at: QPointF) -> None:
        before = self._frame.scene_place(at.x(), at.y())
        scale = min(max(self._frame.m_per_px * factor, _LEAST_M_PER_PX), _MOST_M_PER_PX)
        self._set_frame(
            before[0] - (at.x() - self.width() / 2.0) * scale,
            before[1] - (at.y() - self.height() / 2.0) * scale,
            scale,
        )

    # Events

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep the middle where it is."""
        super().resizeEvent(event)
        was_tiny = self._frame.width < 30
        self._set_frame(self._frame.x_m, self._frame.y_m, self._frame.m_per_px)
        if was_tiny:
            self.show_passage()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Blit the ground, then draw the few lines of the passage."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), area_marks.backdrop(self._colours))
        scene = self._scene
        if scene is None:
            area_marks.draw_empty(painter, QRectF(self.rect()), self._colours)
            painter.end()
            return
        for layer in (self._ground, self._hidden):
            if layer is not None:
                left, top, right, bottom = layer[0].box()
                corner, far = self._frame.point(left, top), self._frame.point(right, bottom)
                painter.drawImage(QRectF(corner, far), layer[1])
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        area_marks.draw_passage(painter, self._frame, scene, self._document, self._colours)
        area_marks.draw_frame(painter, self._frame, scene, self._colours, self.hasFocus())
        painter.end()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Begin a drag or a click."""
        if event.button() == Qt.MouseButton.LeftButton:
            self._drag_from, self._is_dragged = event.position(), False

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Drag the plan, or tell the place under the mouse."""
        if self._drag_from is not None:
            step = event.position() - self._drag_from
            if self._is_dragged or step.manhattanLength() > 4:
                self._is_dragged = True
                self._pan(-step.x(), -step.y())
                self._drag_from = event.position()
        elif self._scene is not None:
            x_m, y_m = self._frame.scene_place(event.position().x(), event.position().y())
            self.place_shown.emit(area_marks.place_words(self._scene, x_m, y_m))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """A click chooses the leg under it."""
        if event.button() == Qt.MouseButton.LeftButton:
            if self._drag_from is not None and not self._is_dragged:
                self._pick(event.position())
            self._drag_from = None

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Nearer or farther round the place under the mouse."""
        self._zoom(0.8 ** (event.angleDelta().y() / 120.0), event.position())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows move, plus and minus come nearer and go farther."""
        middle = QPointF(self.width() / 2.0, self.height() / 2.0)
        steps = {
            Qt.Key.Key_Left: (-_PAN_PX, 0.0),
            Qt.Key.Key_Right: (_PAN_PX, 0.0),
            Qt.Key.Key_Up: (0.0, -_PAN_PX),
            Qt.Key.Key_Down: (0.0, _PAN_PX),
        }
        key = Qt.Key(event.key())
        if key in steps and event.modifiers() == Qt.KeyboardModifier.NoModifier:
            self._pan(*steps[key])
        elif key in (Qt.Key.Key_Plus, Qt.Key.Key_Equal):
            self._zoom(0.8, middle)
        elif key == Qt.Key.Key_Minus:
            self._zoom(1.25, middle)
        else:
            super().keyPressEvent(event)

    def _pick(self, at: QPointF) -> None:
        if self._scene is None:
            return
        found = area_marks.nearest_leg(self._frame, self._scene, at)
        if found is not None and found[1] <= _PICK_PX:
            self._document.set_leg(found[0])
