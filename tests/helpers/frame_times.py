"""How long the area view takes to paint while it is moved, in time of the processor."""

import time

import numpy as np
from PySide6.QtCore import QPointF
from PySide6.QtGui import QImage

from app.views.area_view import AreaView

FRAME_MS = 16.0
"""A picture on a screen of 60 Hz."""


def frame_times_ms(view: AreaView, count: int = 30) -> list[float]:
    """Times of frames while the plan is dragged and zoomed, without what is drawn behind."""
    image = QImage(view.size(), QImage.Format.Format_RGB32)
    middle = QPointF(view.width() / 2.0, view.height() / 2.0)
    times_ms = []
    for number in range(2 * count):
        if number < count:
            view.drag_by(6.0 if number < count / 2 else -6.0, 3.0)
        else:
            view.zoom_by(0.97 if number < 1.5 * count else 1.0 / 0.97, middle)
        start = time.thread_time()
        view.render(image)
        times_ms.append((time.thread_time() - start) * 1e3)
    return times_ms


def median_ms(times_ms: list[float]) -> float:
    """The middle one."""
    return float(np.median(times_ms))
