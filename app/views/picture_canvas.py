"""The expected picture on the screen; a point of it can be asked what lies there."""

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QImage, QMouseEvent, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.paint.palette import Palette
from core.base.language import tr
from core.sheets.page import Tone

_MARK_PX = 5.0
_PAD_PX = 2.0


class PictureCanvas(QWidget):
    """Shows an image in the largest square there is room for."""

    picked = Signal(float, float)
    """A point, as shares of the side from the upper left corner."""
    resized = Signal()

    def __init__(self, colours: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._colours = colours
        self._image: QImage | None = None
        self._words = ""
        self._mark: QPointF | None = None
        self._lines: tuple[str, ...] = ()
        self.setMinimumSize(200, 200)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setAccessibleName(tr("Expected picture"))
        self.setToolTip(tr("Click an echo to learn what it is and its margin"))

    def sizeHint(self) -> QSize:
        """A square."""
        return QSize(330, 330)

    @property
    def side_px(self) -> int:
        """Side of the square in pixels of the screen."""
        return max(int(self._square().width() * self.devicePixelRatioF()), 50)

    def set_colours(self, colours: Palette) -> None:
        """Another palette."""
        self._colours = colours
        self.update()

    def show_image(self, image: QImage | None, words: str = "") -> None:
        """Show an image, or words where there is none."""
        self._image, self._words = image, words
        self.update()

    def show_lines(self, lines: tuple[str, ...]) -> None:
        """Say on the picture what is set."""
        self._lines = lines
        self.setAccessibleDescription(". ".join(lines))
        self.update()

    @property
    def lines(self) -> tuple[str, ...]:
        """What the picture says is set."""
        return self._lines

    def set_mark(self, share: tuple[float, float] | None) -> None:
        """Mark the point that was asked about, or none."""
        self._mark = None if share is None else QPointF(*share)
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Tell that another size is wanted."""
        super().resizeEvent(event)
        self.resized.emit()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Ask about a point."""
        square = self._square()
        at = event.position()
        if event.button() is Qt.MouseButton.LeftButton and square.contains(at):
            self.picked.emit(
                (at.x() - square.left()) / square.width(), (at.y() - square.top()) / square.height()
            )

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Blit the image, mark the point."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), self._colours.colour(Tone.PAPER))
        square = self._square()
        if self._image is None:
            painter.setPen(self._colours.colour(Tone.FAINT_INK))
            painter.drawText(square, int(Qt.AlignmentFlag.AlignCenter), self._words)
            return
        painter.drawImage(square, self._image)
        if self._mark is not None:
            painter.setPen(QPen(self._colours.colour(Tone.INK), 1.4))
            x = square.left() + self._mark.x() * square.width()
            y = square.top() + self._mark.y() * square.height()
            box = QRectF(x - _MARK_PX, y - _MARK_PX, 2.0 * _MARK_PX, 2.0 * _MARK_PX)
            painter.drawRect(box)
        self._draw_lines(painter)

    def _draw_lines(self, painter: QPainter) -> None:
        """In the lower left corner: astern to port an officer looks least."""
        flags = int(Qt.AlignmentFlag.AlignLeft.value | Qt.TextFlag.TextWordWrap.value)
        room = QRectF(self.rect()).adjusted(_PAD_PX, 0.0, -_PAD_PX, 0.0)
        words = "\n".join(self._lines)
        ground = painter.boundingRect(room, flags, words)
        if not words:
            return
        ground.moveBottom(room.bottom())
        padded = ground.adjusted(-_PAD_PX, 0.0, _PAD_PX, 0.0)
        painter.fillRect(padded, self._colours.colour(Tone.PAPER))
        painter.setPen(self._colours.colour(Tone.INK))
        painter.drawText(ground, flags, words)

    def _square(self) -> QRectF:
        side = float(min(self.width(), self.height()))
        return QRectF((self.width() - side) / 2.0, (self.height() - side) / 2.0, side, side)
