"""Names over the area are drawn when something in them changes, and kept while nothing does."""

from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.views.kept_layer import KeptLayer


@pytest.fixture
def widget(qtbot: QtBot) -> QWidget:
    view = QWidget()
    qtbot.addWidget(view)
    view.resize(120, 60)
    return view


@contextmanager
def _painting(widget: QWidget) -> Iterator[tuple[QPainter, QImage]]:
    image = QImage(widget.size(), QImage.Format.Format_RGB32)
    image.fill(QColor("#204060"))
    painter = QPainter(image)
    painter.setFont(widget.font())
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    yield painter, image
    painter.end()


def _words(painter: QPainter) -> None:
    painter.fillRect(QRectF(4, 4, 20, 20), QColor(200, 0, 0, 200))
    painter.setPen(QColor("#ffffff"))
    painter.drawText(QPointF(30, 30), "Skerry")


def test_what_is_kept_looks_as_what_is_drawn(widget: QWidget) -> None:
    layer = KeptLayer()
    calls: list[int] = []
    images: list[QImage] = []

    def draw(painter: QPainter) -> None:
        calls.append(1)
        _words(painter)

    for _time in range(4):
        with _painting(widget) as (painter, image):
            layer.draw(painter, widget, draw, things=(widget,), values=(1.0,))
        images.append(image)
    assert len(calls) == 2, "drawn straight once, once to keep"
    straight, *kept = images
    assert all(image == kept[0] for image in kept)
    for x in range(120):
        for y in range(60):
            one, two = straight.pixelColor(x, y), kept[0].pixelColor(x, y)
            assert abs(one.red() - two.red()) <= 2
            assert abs(one.blue() - two.blue()) <= 2


def test_another_thing_value_or_size_is_drawn_anew(widget: QWidget) -> None:
    layer = KeptLayer()
    calls: list[int] = []

    def ask(*, things: tuple[object, ...], values: tuple[object, ...]) -> int:
        before = len(calls)
        with _painting(widget) as (painter, _image):
            layer.draw(painter, widget, lambda _p: calls.append(1), things=things, values=values)
        return len(calls) - before

    one, twin = [1], [1]
    ask(things=(one,), values=(1,))
    ask(things=(one,), values=(1,))
    assert ask(things=(one,), values=(1,)) == 0
    assert ask(things=(twin,), values=(1,)) == 1, "equal, but not the same"
    ask(things=(twin,), values=(1,))
    assert ask(things=(twin,), values=(2,)) == 1
    ask(things=(twin,), values=(2,))
    widget.resize(130, 60)
    assert ask(things=(twin,), values=(2,)) == 1
