"""What stands over the strip on the screen alone: own ship, pointer, drags, what is out of date."""

from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QFont, QPainter, QPen, QTransform

from app.paint.page_painter import PagePainter
from app.paint.palette import Palette
from app.state.document import Document
from app.state.job_state import JobState
from app.views.strip_drag import LineDrag, ring
from app.views.strip_pending import Pending
from app.views.strip_work import PX_PER_MM
from core.base.language import tr
from core.passage.passage import Side
from core.plan.plan_result import LegPlan
from core.sheets.page import Item, Place, Rectangle, Tone
from core.sheets.strip_block import Strip
from core.sheets.strip_frame import StripFrame
from core.sheets.strip_ruler import cursor

STALE_WORDS = tr("OUT OF DATE: compute again (F5)")
COMPUTING_WORDS = tr("OUT OF DATE: being computed now")
UNPLANNED_WORDS = (tr("NOT PLANNED YET"), tr("coast and hidden water alone, no index lines yet"))
_PAD_PX = 6.0
_MOST_PENDING = 4


def blank_words(document: Document) -> str:
    """What to do where there is no strip yet; nothing while one is drawn."""
    if document.outcome is not None:
        return ""
    if document.job.is_running:
        return tr("Working. The strip of a leg is drawn as soon as the leg is covered.")
    if document.passage is None:
        return tr("Open a route (Ctrl+O), add land (Ctrl+L), compute (F5).")
    if document.outcome_before_edit is not None:
        return tr("OUT OF DATE: the line was edited, compute again (F5).")
    if not document.project.land:
        return tr("Add land data (Ctrl+L or Ctrl+Shift+L), then compute (F5).")
    return tr("Compute the plan (F5) to see the leg.")


class StripOverlay:
    """Draws over the picture of a strip with the painter of a widget."""

    def __init__(self, colours: Palette) -> None:
        self._colours = colours
        self._page_painter = PagePainter(colours)

    def items(self, painter: QPainter, items: Sequence[Item]) -> None:
        """Items of the page model in its millimetres."""
        painter.save()
        painter.setTransform(QTransform.fromScale(PX_PER_MM, PX_PER_MM), combine=True)
        self._page_painter.draw(painter, items)
        painter.restore()

    def blank(self, painter: QPainter, room: QRect, words: str) -> None:
        """Words in the middle of an empty strip."""
        painter.setPen(self._colours.colour(Tone.INK))
        flags = int(Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap)
        painter.drawText(room.adjusted(20, 20, -20, -20), flags, words)

    def own_ship(self, painter: QPainter, frame: StripFrame, along_m: float) -> None:
        """Own ship on the ruler."""
        self.items(painter, cursor(frame, along_m))

    def pointer(self, painter: QPainter, place: Place) -> None:
        """A ring round the thing that the keys have come to."""
        self.items(painter, (ring(place, 5.0),))

    def stale(
        self,
        painter: QPainter,
        leg: LegPlan,
        strip: Strip,
        pending: Pending,
        job: JobState,
    ) -> None:
        """That the plan is of other inputs, and what was changed on this leg."""
        self.items(painter, tuple(pending.items(leg, strip)))
        pen = QPen(self._colours.colour(Tone.WARNING), 3.0, Qt.PenStyle.DashLine)
        painter.setPen(pen)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(_px(strip.frame.water))
        said = pending.words()
        more = (
            ()
            if len(said) <= _MOST_PENDING
            else (tr("and {count} more", count=len(said) - _MOST_PENDING),)
        )
        head = COMPUTING_WORDS if job.is_plan else STALE_WORDS
        lines = (head, *said[:_MOST_PENDING], *more)
        # Beside the ruler, which goes on being used.
        beside = _px(strip.frame.half(Side.PORT))
        self._box(painter, beside.bottomLeft() + QPointF(4.0, -8.0), lines, beside, Tone.WARNING)

    def unplanned(self, painter: QPainter, strip: Strip) -> None:
        """That there is no plan of the leg yet: no line, no turn and no scale is drawn."""
        beside = _px(strip.frame.half(Side.PORT))
        foot = beside.bottomLeft() + QPointF(4.0, -8.0)
        self._box(painter, foot, UNPLANNED_WORDS, beside, Tone.WARNING)

    def drag(self, painter: QPainter, drag: LineDrag, at: QPointF) -> None:
        """The line on its way; what letting go would do stands on the other side of the track."""
        self.items(painter, tuple(drag.items()))
        frame = drag.strip.frame
        other = Side.PORT if drag.side is Side.STARBOARD else Side.STARBOARD
        room = _px(frame.half(other)).united(_px(_spine(frame)))
        self._box(painter, QPointF(room.left(), at.y() - 14.0), drag.words, room, Tone.INK)

    def _box(
        self, painter: QPainter, foot: QPointF, lines: Sequence[str], room: QRectF, tone: Tone
    ) -> None:
        """Lines in a box with its lower left corner at a place, the first bold, in the room."""
        plain = painter.font()
        bold = QFont(plain)
        bold.setBold(True)
        painter.setFont(bold)
        metrics = painter.fontMetrics()
        most = min(max(metrics.horizontalAdvance(line) for line in lines), room.width() - 24.0)
        flags = int(Qt.AlignmentFlag.AlignLeft | Qt.TextFlag.TextWordWrap)
        heights = [
            metrics.boundingRect(QRectF(0, 0, most + 1.0, 1000.0).toRect(), flags, line).height()
            for line in lines
        ]
        box = QRectF(0.0, 0.0, most + 2 * _PAD_PX + 1.0, sum(heights) + _PAD_PX)
        box.moveBottom(foot.y())
        box.moveLeft(foot.x())
        box.moveLeft(min(max(box.left(), room.left() + 2.0), room.right() - box.width() - 2.0))
        box.moveTop(min(max(box.top(), room.top() + 2.0), room.bottom() - box.height() - 2.0))
        painter.fillRect(box, self._colours.colour(Tone.PAPER))
        painter.setPen(QPen(self._colours.colour(tone), 1.4))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(box)
        y = box.top() + _PAD_PX / 2.0
        for number, (line, height) in enumerate(zip(lines, heights, strict=True)):
            painter.setFont(bold if number == 0 else plain)
            painter.drawText(QRectF(box.left() + _PAD_PX, y, most + 1.0, height), flags, line)
            y += height
        painter.setFont(plain)


def _px(room: Rectangle) -> QRectF:
    """A box of the page in pixels of the widget."""
    return QRectF(
        room.x_mm * PX_PER_MM,
        room.y_mm * PX_PER_MM,
        room.width_mm * PX_PER_MM,
        room.height_mm * PX_PER_MM,
    )


def _spine(frame: StripFrame) -> Rectangle:
    return Rectangle(
        x_mm=frame.spine_edge_mm(Side.PORT),
        y_mm=frame.water.y_mm,
        width_mm=frame.spine_mm,
        height_mm=frame.water.height_mm,
    )
