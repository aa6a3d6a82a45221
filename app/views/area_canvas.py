"""The paper of the area view: which part of the plan is seen, and what is drawn there."""

from PySide6.QtCore import QPoint, QPointF, QRectF
from PySide6.QtGui import QPainter, QPaintEvent, QResizeEvent, QShowEvent, QWheelEvent
from PySide6.QtWidgets import QWidget

from app.base.throttle import LatestCall
from app.paint.palette import Palette
from app.state.document import Document
from app.views import area_marks
from app.views.area_cover import Scope
from app.views.area_graticule import draw_graticule
from app.views.area_image import AreaFrame
from app.views.area_overlay import draw_tools
from app.views.area_pictures import AreaPictures
from app.views.area_tools import AreaTools
from app.views.kept_layer import KeptLayer
from core.base.arrays import FloatArray

_MOST_M_PER_PX = 4_000.0
_LEAST_M_PER_PX = 2.0


class AreaCanvas(QWidget):
    """Shows a part of the plan over cached pictures; the wheel goes nearer and farther."""

    def __init__(self, document: Document, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._colours = palette
        self._frame = AreaFrame(x_m=0.0, y_m=0.0, m_per_px=50.0, width=10, height=10)
        self._over = KeptLayer()
        self.tools = AreaTools(document)
        self.pictures = AreaPictures(document, palette, self)
        self._redraw = LatestCall(self._request_ground, 60, self)
        self._follow = LatestCall(self._request_cover, 0, self)
        self._covered = LatestCall(self.pictures.rebuild, 200, self)
        self.pictures.changed.connect(self.update)
        self.pictures.scene_changed.connect(self._take_scene)
        document.outcome_changed.connect(self.pictures.rebuild)
        document.project_changed.connect(self.pictures.rebuild_by_hand)
        document.legs_done_changed.connect(self._covered.request)
        document.leg_changed.connect(self._moved)
        document.cursor_changed.connect(self._moved)
        self.pictures.rebuild()

    def close_threads(self) -> None:
        """Stop drawing in the background; the view is not used afterwards."""
        self._redraw.stop()
        self._follow.stop()
        self._covered.stop()
        self.pictures.close()

    def set_colours(self, palette: Palette) -> None:
        """Draw in another palette."""
        self._colours = palette
        self.pictures.set_colours(palette)
        self._request_ground()
        self._request_cover()
        self.update()

    @property
    def document(self) -> Document:
        """What is shown."""
        return self._document

    @property
    def is_ready(self) -> bool:
        """Whether the passage and the land under it are drawn."""
        return self.pictures.scene is not None and self.pictures.ground is not None

    @property
    def is_current(self) -> bool:
        """Whether coast and hidden water are those of where own ship is."""
        return not self._follow.is_waiting and not self.pictures.is_covering

    @property
    def m_per_px(self) -> float:
        """Metres to a pixel."""
        return self._frame.m_per_px

    @property
    def scope(self) -> Scope:
        """Of what coast and hidden water are shown."""
        return self.pictures.scope

    def next_scope(self) -> None:
        """Show coast and hidden water of the whole leg, or at own ship again."""
        is_leg = self.pictures.scope is Scope.LEG
        self.pictures.scope = Scope.OWN_SHIP if is_leg else Scope.LEG
        self._request_cover()
        self.update()

    def pixel_of_leg(self, leg_index: int) -> QPoint:
        """Where the middle of a leg is drawn; the corner where nothing is."""
        scene = self.pictures.scene
        if scene is None:
            return QPoint()
        x_m, y_m = scene.legs[leg_index].track.mean(axis=0)
        return self._frame.point(float(x_m), float(y_m)).toPoint()

    def pixel_of_waypoint(self, index: int) -> QPoint:
        """Where a waypoint is drawn; the corner where nothing is."""
        scene = self.pictures.scene
        if scene is None:
            return QPoint()
        x_m, y_m = scene.waypoints[index]
        return self._frame.point(float(x_m), float(y_m)).toPoint()

    def show_passage(self) -> None:
        """Fit the whole passage."""
        if self.pictures.scene is not None:
            self._fit(self.pictures.scene.waypoints)

    def show_leg(self) -> None:
        """Fit the chosen leg."""
        scene = self.pictures.scene
        if scene is not None and self._document.leg_index < len(scene.legs):
            self._fit(scene.legs[self._document.leg_index].track)

    # Pictures made off the GUI thread

    def _take_scene(self, is_other: bool) -> None:
        if is_other:
            self.show_passage()
        if is_other or self.pictures.ground is None:
            self._request_ground()
        self._request_cover()

    def _request_ground(self) -> None:
        if self.width() >= 20:
            self.pictures.request_ground(self._frame, self.devicePixelRatioF())

    def _request_cover(self) -> None:
        if self.width() >= 20:
            self.pictures.request_cover(self._frame, self.devicePixelRatioF())

    def _moved(self) -> None:
        if self.isVisible():
            self._follow.request()
        self.update()

    # What part is seen

    def _fit(self, points: FloatArray) -> None:
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

    def drag_by(self, right_px: float, down_px: float) -> None:
        """Look farther right and down, pixels."""
        frame = self._frame
        self._set_frame(
            frame.x_m + right_px * frame.m_per_px,
            frame.y_m + down_px * frame.m_per_px,
            frame.m_per_px,
        )

    def zoom_by(self, factor: float, at: QPointF) -> None:
        """Show so many times as much; what lies under a pixel stays there."""
        before = self._frame.scene_place(at.x(), at.y())
        scale = min(max(self._frame.m_per_px * factor, _LEAST_M_PER_PX), _MOST_M_PER_PX)
        self._set_frame(
            before[0] - (at.x() - self.width() / 2.0) * scale,
            before[1] - (at.y() - self.height() / 2.0) * scale,
            scale,
        )

    # Events

    def showEvent(self, event: QShowEvent) -> None:
        """Take up where own ship went while nobody saw it."""
        super().showEvent(event)
        self._follow.request()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep the middle where it is."""
        super().resizeEvent(event)
        was_tiny = self._frame.width < 30
        self._set_frame(self._frame.x_m, self._frame.y_m, self._frame.m_per_px)
        if was_tiny:
            self.show_passage()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Blit ground and cover, then draw the few lines of the passage."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), area_marks.backdrop(self._colours))
        scene, colours = self.pictures.scene, self._colours
        if scene is None:
            area_marks.draw_empty(painter, QRectF(self.rect()), colours)
            painter.end()
            return
        for number, layer in enumerate((self.pictures.ground, self.pictures.cover)):
            if layer is not None:
                left, top, right, bottom = layer.frame.box()
                corner, far = self._frame.point(left, top), self._frame.point(right, bottom)
                painter.drawImage(QRectF(corner, far), layer.image)
            if number == 0:
                draw_graticule(painter, self._frame, scene.projection, colours)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        chosen, has_focus = self._document.leg_index, self.hasFocus()

        def draw(layer: QPainter) -> None:
            area_marks.draw_passage(layer, self._frame, scene, self._document, colours)
            area_marks.draw_frame(layer, self._frame, scene, chosen, colours, has_focus)
            area_marks.draw_scope(layer, self._frame, scene, self.scope, chosen, colours)

        self._over.draw(
            painter,
            self,
            draw,
            things=(scene, self._document.leg_plan, colours),
            values=(self._frame, chosen, has_focus, self.scope),
        )
        area_marks.draw_ship(painter, self._frame, scene, self._document, colours)
        draw_tools(painter, self._frame, scene, self.tools, colours)
        painter.end()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Nearer or farther round the place under the mouse."""
        self.zoom_by(0.8 ** (event.angleDelta().y() / 120.0), event.position())
