"""Meridians and parallels of the area view with their figures at the edges."""

from collections.abc import Iterator

import numpy as np
from PySide6.QtCore import QLineF, QPointF
from PySide6.QtGui import QColor, QPainter, QPen

from app.paint.palette import Palette
from app.views.area_image import AreaFrame
from app.views.area_plot import AreaProjection
from core.geodesy.position import wrap_lon_deg
from core.sheets.page import Tone

_STEPS_MIN = (0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 30.0, 60.0, 120.0, 300.0, 600.0, 1800.0)
_APART_PX = 110.0
_QUIET_ALPHA = 110


def step_min(span_min: float, length_px: float) -> float:
    """Round step between lines, minutes, that leaves them far enough apart."""
    fitting = [s for s in _STEPS_MIN if s * length_px / max(span_min, 1e-9) >= _APART_PX]
    return fitting[0] if fitting else _STEPS_MIN[-1]


def steps_within(low_deg: float, high_deg: float, step: float) -> Iterator[float]:
    """Multiples of a step in minutes between two angles, deg."""
    first = int(np.ceil(low_deg * 60.0 / step - 1e-9))
    last = int(np.floor(high_deg * 60.0 / step + 1e-9))
    for number in range(first, last + 1):
        yield number * step / 60.0


def angle_words(angle_deg: float, step: float, letters: str, width: int) -> str:
    """Degrees and minutes, as fine as the step: ``55° 20′ N``; whole degrees without minutes."""
    decimals = 1 if step < 1.0 else 0
    tenths = round(abs(angle_deg) * 600.0)
    degrees, rest = divmod(tenths, 600)
    letter = letters[1] if angle_deg < 0.0 else letters[0]
    minutes = "" if step >= 60.0 else f" {rest / 10.0:0{2 + 2 * decimals}.{decimals}f}′"
    return f"{degrees:0{width}d}°{minutes} {letter}"


def draw_graticule(
    painter: QPainter, frame: AreaFrame, projection: AreaProjection, palette: Palette
) -> None:
    """Quiet lines over the ground, and figures where they leave it on the left and at the top."""
    left, top, right, bottom = frame.box()
    west, east = projection.lon_of(np.array([left, right]))
    north, south = projection.lat_of(np.array([top, bottom]))
    line_ink = QColor(palette.colour(Tone.RULE))
    line_ink.setAlpha(_QUIET_ALPHA)
    ascent, height = painter.fontMetrics().ascent(), painter.fontMetrics().height()
    lines: list[QLineF] = []
    figures: list[tuple[QPointF, str]] = []
    step = step_min((east - west) * 60.0, frame.width)
    for lon_deg in steps_within(float(west), float(east), step):
        x = frame.point(float(projection.x_of(np.array([lon_deg]))[0]), 0.0).x()
        lines.append(QLineF(x, 0.0, x, frame.height))
        words = angle_words(wrap_lon_deg(lon_deg), step, "EW", 3)
        if x + painter.fontMetrics().horizontalAdvance(words) < frame.width - 34.0 and x > 90.0:
            figures.append((QPointF(x + 3.0, ascent + 2.0), words))
    step = step_min((north - south) * 60.0, frame.height)
    for lat_deg in steps_within(float(south), float(north), step):
        y = frame.point(0.0, float(projection.y_of(np.array([lat_deg]))[0])).y()
        lines.append(QLineF(0.0, y, frame.width, y))
        if y - height > 0.0 and y < frame.height - 50.0:
            figures.append((QPointF(4.0, y - 3.0), angle_words(lat_deg, step, "NS", 2)))
    # Few calls to draw: each lets a worker have the interpreter, and waits for it afterwards.
    painter.setPen(QPen(line_ink, 1.0))
    painter.drawLines(lines)
    painter.setPen(palette.colour(Tone.FAINT_INK))
    for at, words in figures:
        painter.drawText(at, words)
