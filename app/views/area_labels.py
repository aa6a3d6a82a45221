"""Names in the area view: beside their signs, none over another name or sign."""

from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter

from app.paint.palette import Palette
from app.views.area_image import AreaFrame
from core.sheets.page import Tone

_SIGN_PX = 10.0
"""A name begins farther from the middle of its own sign than half of this."""


def draw_label(painter: QPainter, at: QPointF, text: str, palette: Palette, tone: Tone) -> None:
    """Text on a ground of its own, so that it can be read over land and lines."""
    _draw(painter, at, _box(painter, text).translated(at), text, palette, tone)


def _box(painter: QPainter, text: str) -> QRectF:
    """Room of a text that begins at the origin."""
    metrics = painter.fontMetrics()
    width = metrics.horizontalAdvance(text) + 4.0
    return QRectF(-2.0, -float(metrics.ascent()), width, float(metrics.height()))


def _draw(
    painter: QPainter, at: QPointF, box: QRectF, text: str, palette: Palette, tone: Tone
) -> None:
    ground = palette.colour(Tone.SEA)
    ground.setAlpha(200)
    painter.fillRect(box, ground)
    painter.setPen(palette.colour(tone))
    painter.drawText(at, text)


class Labels:
    """Finds room for names; what has none is left out, and the pointer tells it.

    Parameters
    ----------
    frame : AreaFrame
        What is seen; its corners are taken by north arrow, scale bar and graticule.
    signs : sequence of QPointF
        The middles of all signs that are drawn.
    has_words : bool
        Whether a line of words stands over the scale bar.
    """

    def __init__(self, frame: AreaFrame, signs: Sequence[QPointF], *, has_words: bool) -> None:
        self._room = QRectF(0.0, 0.0, frame.width, frame.height)
        half = _SIGN_PX / 2.0
        self.taken = [
            QRectF(frame.width - 30.0, 0.0, 30.0, 54.0),
            QRectF(0.0, frame.height - 26.0, frame.width * 0.4, 26.0),
            QRectF(0.0, 0.0, frame.width, 16.0),
            *(QRectF(s.x() - half, s.y() - half, _SIGN_PX, _SIGN_PX) for s in signs),
        ]
        """Boxes that no further name may touch."""
        if has_words:
            self.taken.append(QRectF(0.0, frame.height - 50.0, frame.width, 24.0))

    def draw(
        self, painter: QPainter, sign: QPointF, text: str, palette: Palette, tone: Tone
    ) -> bool:
        """Draw a name right or left of a sign, above, below or level; tell if it had room."""
        own = _box(painter, text)
        left = 4.0 - own.width() - 8.0
        for right, down in ((8, -5), (8, 14), (left, -5), (left, 14), (8, 5)):
            at = sign + QPointF(right, down)
            box = own.translated(at)
            if self._room.contains(box) and not any(box.intersects(t) for t in self.taken):
                self.taken.append(box)
                _draw(painter, at, box, text, palette, tone)
                return True
        return False
