"""Names in the area view, and the name of what is under the pointer."""

from itertools import combinations

import numpy as np
from PySide6.QtCore import QPointF
from PySide6.QtGui import QImage, QPainter

from app.paint.palette import DAY
from app.views.area_image import AreaFrame
from app.views.area_labels import Labels
from app.views.area_pick import name_at
from app.views.area_scene import AreaAsk, build_scene
from core.sheets.page import Tone
from tests.helpers.sample_outcome import sample_outcome

_FRAME = AreaFrame(x_m=0.0, y_m=0.0, m_per_px=10.0, width=400, height=300)


def test_no_name_covers_another_name_or_sign_and_what_has_no_room_is_left_out(
    qapp: object,
) -> None:
    random = np.random.default_rng(2)
    signs = [QPointF(x, y) for x, y in random.uniform((20, 20), (380, 280), (60, 2))]
    image = QImage(400, 300, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    labels = Labels(_FRAME, signs, has_words=False)
    fixed = len(labels.taken)
    drawn = [labels.draw(painter, sign, "Some Head", DAY, Tone.INK) for sign in signs]
    painter.end()
    names = labels.taken[fixed:]
    assert len(names) == sum(drawn)
    assert 5 < sum(drawn) < 60
    assert not any(one.intersects(other) for one, other in combinations(names, 2))
    boxes = labels.taken[:fixed]
    assert not any(name.intersects(box) for name in names for box in boxes)


def test_a_lone_sign_has_its_name_beside_it(qapp: object) -> None:
    image = QImage(400, 300, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    sign = QPointF(200.0, 150.0)
    labels = Labels(_FRAME, [sign], has_words=False)
    assert labels.draw(painter, sign, "Some Head", DAY, Tone.INK)
    painter.end()
    box = labels.taken[-1]
    assert 5.0 < box.left() - sign.x() < 10.0


def test_the_pointer_tells_the_name_of_what_is_under_it() -> None:
    outcome = sample_outcome()
    scene = build_scene(AreaAsk(passage=outcome.plan.passage, outcome=outcome))
    x_m, y_m = scene.waypoints[1]
    frame = AreaFrame(x_m=float(x_m), y_m=float(y_m), m_per_px=20.0, width=400, height=300)
    assert name_at(frame, scene, QPointF(203.0, 148.0)) == scene.names[1]
    name, x_m, y_m = scene.objects[0]
    there = frame.point(x_m, y_m)
    assert name_at(frame, scene, there) == name
    assert name_at(frame, scene, there + QPointF(0.0, 30.0)) != name
