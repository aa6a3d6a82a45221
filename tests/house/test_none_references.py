"""Guard against PySide6 builds that lose references to None.

PySide6-Essentials 6.12.0 on Python 3.11 takes one reference too many from None in most methods
that return nothing; after some thousands of calls the process aborts. Measured with
``sys.getrefcount``; Python 3.12 hides it, since None is immortal there.
"""

import subprocess
import sys

_PROBE = """
import sys
from PySide6.QtCore import QPointF, QTimer
from PySide6.QtGui import QImage, QPainter, QPen, QPainterPath, QPolygonF
from PySide6.QtWidgets import QApplication, QLabel, QSlider
app = QApplication([])
image = QImage(50, 50, QImage.Format.Format_RGB32)
painter, pen, path = QPainter(image), QPen(), QPainterPath()
polygon = QPolygonF([QPointF(1, 1), QPointF(9, 1), QPointF(9, 9)])
label, slider, timer = QLabel(), QSlider(), QTimer()
spare = [None] * 1_000_000
calls = [
    lambda: painter.drawPolygon(polygon), lambda: painter.setPen(pen),
    lambda: painter.translate(0, 0),
    lambda: path.moveTo(0, 0), lambda: label.setText("x"), lambda: label.resize(9, 9),
    lambda: slider.setRange(0, 9), lambda: timer.setInterval(5), lambda: app.processEvents(),
]
lost = 0
for call in calls:
    call()
    before = sys.getrefcount(None)
    for _ in range(200):
        call()
    lost += sys.getrefcount(None) - before < -100
painter.end()
print("lost", lost)
"""


def test_qt_calls_keep_references_to_none() -> None:
    answer = subprocess.run(
        [sys.executable, "-c", _PROBE], capture_output=True, text=True, timeout=120, check=False
    )
    assert answer.stdout.strip().endswith("lost 0"), answer.stdout + answer.stderr
