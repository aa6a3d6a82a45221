"""Words of the keys in full beside what they are about: the status line may be too short."""

from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QToolTip, QWidget

from app.views.ship_steps import ShipSteps
from app.views.strip_work import PX_PER_MM, DrawnStrip
from core.sheets.page import Place

_BELOW_PX = 12


def show_tip(strip: QWidget, place: Place, words: str) -> None:
    """Words below a place of the page that the strip shows."""
    at = QPoint(round(place[0] * PX_PER_MM), round(place[1] * PX_PER_MM) + _BELOW_PX)
    QToolTip.showText(strip.mapToGlobal(at), words, strip)


def tell_stop(strip: QWidget, drawn: DrawnStrip | None, ship: ShipSteps, along_m: float) -> None:
    """All that begins, ends or is due at own ship, below her."""
    if drawn is not None and ship.stop_here is not None:
        frame = drawn.strip.frame
        show_tip(strip, (frame.middle_mm, frame.y_mm(along_m)), ship.words_here)
