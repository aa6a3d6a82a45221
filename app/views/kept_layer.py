"""What is drawn over a picture, kept as a picture of its own while nothing in it changes."""

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt
from PySide6.QtGui import QPainter, QPixmap
from PySide6.QtWidgets import QWidget


class KeptLayer:
    """Names and lines that are drawn again and again while something else moves over them.

    The first time they are drawn straight, since while the view itself is moved nothing stays as
    it is; the second time they are kept.
    """

    def __init__(self) -> None:
        self._things: tuple[object, ...] = ()
        self._values: tuple[object, ...] = ()
        self._picture: QPixmap | None = None

    def draw(
        self,
        painter: QPainter,
        widget: QWidget,
        draw: Callable[[QPainter], None],
        *,
        things: Sequence[object],
        values: Sequence[object],
    ) -> None:
        """Draw on a widget.

        Parameters
        ----------
        draw : callable
            Draws on a painter with the font of the widget and smooth lines.
        things, values : sequences
            What the layer depends on: things that must be the very same, values that must be equal.
        """
        ratio = widget.devicePixelRatioF()
        now = (*values, ratio, widget.width(), widget.height(), widget.font().key())
        is_same = (
            now == self._values
            and len(things) == len(self._things)
            and all(a is b for a, b in zip(things, self._things, strict=True))
        )
        if not is_same:
            self._things, self._values, self._picture = tuple(things), now, None
            draw(painter)
            return
        if self._picture is None:
            picture = QPixmap(round(widget.width() * ratio), round(widget.height() * ratio))
            picture.setDevicePixelRatio(ratio)
            picture.fill(Qt.GlobalColor.transparent)
            own = QPainter(picture)
            try:
                own.setFont(widget.font())
                own.setRenderHint(QPainter.RenderHint.Antialiasing)
                draw(own)
            finally:
                own.end()
            self._picture = picture
        painter.drawPixmap(0, 0, self._picture)
