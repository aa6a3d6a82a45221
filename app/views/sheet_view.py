"""One sheet on the screen, in the window's colours: white paper would blind at night."""

from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt, Signal
from PySide6.QtGui import QImage, QKeyEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QWidget

from app.base.throttle import LatestCall
from app.paint.page_image import page_image
from app.paint.palette import Palette
from app.work.runner import JobProgress, Runner
from core.base.errors import LegsheetError
from core.base.language import tr
from core.sheets.page import Page, Tone

_ARROWS = (Qt.Key.Key_Left, Qt.Key.Key_Right, Qt.Key.Key_Up, Qt.Key.Key_Down)


class SheetView(QWidget):
    """Shows one of several pages as large as fits."""

    page_changed = Signal()

    def __init__(self, palette: Palette, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._colours = palette
        self._pages: tuple[Page, ...] = ()
        self._number = 0
        self._image: QImage | None = None
        self._runner = Runner("legsheet-sheet", self)
        self._redraw = LatestCall(self._request, 30, self)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.has_arrows = True
        """Whether arrows turn pages; where the sheet is larger than its room they scroll."""
        self.setAccessibleName(tr("Sheet"))

    @property
    def pages(self) -> tuple[Page, ...]:
        """The pages shown."""
        return self._pages

    @property
    def number(self) -> int:
        """Which page is shown, from 0."""
        return self._number

    @property
    def image(self) -> QImage | None:
        """The picture of the page as drawn last; None before the first."""
        return self._image

    @property
    def page_mm(self) -> tuple[float, float] | None:
        """Width and height of the page shown; None without."""
        if not self._pages:
            return None
        page = self._pages[self._number]
        return page.width_mm, page.height_mm

    @property
    def px_per_mm(self) -> float:
        """How large the page is shown."""
        wide_mm, high_mm = self.page_mm or (1.0, 1.0)
        return min(self.width() / wide_mm, self.height() / high_mm)

    def set_colours(self, palette: Palette) -> None:
        """Draw in another palette; what was drawn in the one before is seen no longer."""
        self._colours = palette
        self._image = None
        self._request()
        self.update()

    def show_pages(self, pages: Sequence[Page]) -> None:
        """Show other pages, from the first."""
        self._pages = tuple(pages)
        self._number = 0
        self._image = None
        self._request()
        self.page_changed.emit()

    def turn_to(self, number: int) -> None:
        """Show a page."""
        number = min(max(number, 0), max(len(self._pages) - 1, 0))
        if number != self._number:
            self._number = number
            self._request()
            self.page_changed.emit()

    def close_threads(self) -> None:
        """Stop drawing in the background."""
        self._redraw.stop()
        self._runner.close()

    def _request(self) -> None:
        if not self._pages or self.width() < 50:
            return
        page, colours, ratio = self._pages[self._number], self._colours, self.devicePixelRatioF()
        px_per_mm = self.px_per_mm

        def work(progress: JobProgress) -> QImage:
            progress.report(0.0)
            return page_image(
                page.items,
                width_mm=page.width_mm,
                height_mm=page.height_mm,
                px_per_mm=px_per_mm,
                ratio=ratio,
                colours=colours,
            )

        self._runner.submit(work, done=self._take, failed=self._failed)

    def _take(self, image: QImage) -> None:
        self._image = image
        self.update()

    @staticmethod
    def _failed(error: LegsheetError) -> None:
        raise error

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Draw anew for the new room."""
        super().resizeEvent(event)
        self._redraw.request()

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Blit the page into the middle."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), self._colours.colour(Tone.SHADE))
        if self._image is not None and self.page_mm is not None:
            # One of another size stands in until that of this size is drawn.
            wide_mm, high_mm = self.page_mm
            size = QSizeF(wide_mm * self.px_per_mm, high_mm * self.px_per_mm)
            corner = QPointF(
                (self.width() - size.width()) / 2.0, (self.height() - size.height()) / 2.0
            )
            drawn = self._image.deviceIndependentSize()
            if abs(drawn.width() - size.width()) <= 1.0:
                painter.drawImage(corner, self._image)
            else:
                painter.drawImage(QRectF(corner, size), self._image)
            painter.setPen(self._colours.colour(Tone.RULE))
            painter.drawRect(QRectF(corner, size).adjusted(0.0, 0.0, -1.0, -1.0))
        painter.end()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Page keys and arrows turn pages."""
        key = Qt.Key(event.key())
        if key in _ARROWS and not self.has_arrows:
            super().keyPressEvent(event)
        elif key in (Qt.Key.Key_PageDown, Qt.Key.Key_Right, Qt.Key.Key_Down):
            self.turn_to(self._number + 1)
        elif key in (Qt.Key.Key_PageUp, Qt.Key.Key_Left, Qt.Key.Key_Up):
            self.turn_to(self._number - 1)
        elif key == Qt.Key.Key_Home:
            self.turn_to(0)
        elif key == Qt.Key.Key_End:
            self.turn_to(len(self._pages) - 1)
        else:
            super().keyPressEvent(event)
