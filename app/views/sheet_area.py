"""A sheet as large as is wanted: all of it, as wide as there is room, or larger and scrolled."""

from enum import Enum, auto

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent, QWheelEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QWidget

from app.views.sheet_view import SheetView

_LEAST, _MOST, _STEP = 0.4, 3.0, 1.25
_INCH_MM = 25.4


class Fit(Enum):
    """What the size of the sheet follows."""

    PAGE = auto()
    WIDTH = auto()
    FACTOR = auto()


class SheetArea(QScrollArea):
    """Holds a view of sheets; Ctrl with the wheel, +, -, 0, W and 1 change their size."""

    size_changed = Signal()

    def __init__(self, view: SheetView, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.view = view
        self.fit = Fit.PAGE
        self._factor = 1.0
        self.setWidget(view)
        self.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.setFrameShape(QFrame.Shape.NoFrame)
        # The sheet itself takes the keys.
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setMinimumSize(320, 420)
        view.page_changed.connect(self._show_top)

    def sizeHint(self) -> QSize:
        """Upright, as the page."""
        return QSize(620, 860)

    @property
    def percent(self) -> int:
        """How large the sheet is; 100 is as it will print."""
        return round(100.0 * self._factor_shown())

    def show_page(self) -> None:
        """All of the sheet."""
        self._set(Fit.PAGE)

    def show_width(self) -> None:
        """The sheet as wide as there is room."""
        self._set(Fit.WIDTH)

    def show_factor(self, factor: float) -> None:
        """The sheet so many times as large as it will print."""
        # An image of the whole sheet is made: finer screens make it larger.
        most = max(_MOST / self.devicePixelRatioF(), 1.0)
        self._factor = min(max(factor, _LEAST), most)
        self._set(Fit.FACTOR)

    def step(self, steps: int) -> None:
        """Larger by so many steps, or smaller."""
        self.show_factor(self._factor_shown() * _STEP**steps)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Another room."""
        super().resizeEvent(event)
        self._lay_out()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """With Ctrl larger or smaller."""
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier and event.angleDelta().y():
            self.step(1 if event.angleDelta().y() > 0 else -1)
            event.accept()
        else:
            super().wheelEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Sizes by their keys; arrows scroll."""
        key = Qt.Key(event.key())
        if key in (Qt.Key.Key_Plus, Qt.Key.Key_Equal, Qt.Key.Key_Minus):
            self.step(-1 if key == Qt.Key.Key_Minus else 1)
        elif key == Qt.Key.Key_0:
            self.show_page()
        elif key == Qt.Key.Key_W:
            self.show_width()
        elif key == Qt.Key.Key_1:
            self.show_factor(1.0)
        else:
            super().keyPressEvent(event)

    def _set(self, fit: Fit) -> None:
        self.fit = fit
        self.view.has_arrows = fit is Fit.PAGE
        self._lay_out()
        self.size_changed.emit()

    def _px_per_mm(self) -> float:
        return self.logicalDpiX() / _INCH_MM

    def _factor_shown(self) -> float:
        if self.fit is Fit.FACTOR:
            return self._factor
        return self.view.px_per_mm / self._px_per_mm()

    def _lay_out(self) -> None:
        """Size of the view; where the middle of what is seen lay, it lies again."""
        bars = (self.horizontalScrollBar(), self.verticalScrollBar())
        is_all_seen = self.verticalScrollBar().maximum() == 0
        middles = [
            (bar.value() + bar.pageStep() / 2.0) / max(bar.maximum() + bar.pageStep(), 1)
            for bar in bars
        ]
        self.view.resize(self._wanted())
        for bar, middle in zip(bars, middles, strict=True):
            bar.setValue(round(middle * (bar.maximum() + bar.pageStep()) - bar.pageStep() / 2.0))
        if is_all_seen:
            self.verticalScrollBar().setValue(0)

    def _wanted(self) -> QSize:
        room, page = self.maximumViewportSize(), self.view.page_mm
        if self.fit is Fit.PAGE or page is None:
            return room
        wide_mm, high_mm = page
        if self.fit is Fit.WIDTH:
            # As if the bar were there already: it comes where the sheet is higher than the room.
            wide = room.width() - self.verticalScrollBar().sizeHint().width()
            return QSize(wide, round(wide * high_mm / wide_mm))
        px_per_mm = self._factor * self._px_per_mm()
        return QSize(round(wide_mm * px_per_mm), round(high_mm * px_per_mm))

    def _show_top(self) -> None:
        self._lay_out()
        self.verticalScrollBar().setValue(0)
