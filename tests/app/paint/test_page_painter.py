"""Items become ink: few small renderings, compared by what is dark where."""

from collections.abc import Iterable

import numpy as np
import pytest
from numpy.typing import NDArray
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtWidgets import QApplication

from app.paint.page_painter import PagePainter
from app.paint.palette import DAY, PAPER, Palette
from core.picture.inks import Ink
from core.sheets.page import (
    Area,
    Dash,
    Hatch,
    Item,
    Raster,
    Rectangle,
    Shape,
    Stroke,
    Symbol,
    Text,
    Tone,
    box,
)

_PX_PER_MM = 12.0
_SIZE_MM = 30.0


def _grey(items: Iterable[Item], palette: Palette = PAPER) -> NDArray[np.uint8]:
    """Grey levels (rows, columns) of items drawn on white, without smoothing."""
    side = int(_SIZE_MM * _PX_PER_MM)
    image = QImage(side, side, QImage.Format.Format_Grayscale8)
    image.fill(QColor("white"))
    painter = QPainter(image)
    painter.scale(_PX_PER_MM, _PX_PER_MM)
    PagePainter(palette).draw(painter, items)
    painter.end()
    rows = np.frombuffer(image.constBits(), dtype=np.uint8).reshape(side, image.bytesPerLine())
    return rows[:, :side].copy()


def _dark_ratio(items: Iterable[Item], part: Rectangle | None = None) -> float:
    grey = _grey(items)
    if part is not None:
        top, bottom = int(part.y_mm * _PX_PER_MM), int(part.bottom_mm * _PX_PER_MM)
        left, right = int(part.x_mm * _PX_PER_MM), int(part.right_mm * _PX_PER_MM)
        grey = grey[top:bottom, left:right]
    return float((grey < 128).mean())


_SQUARE = Rectangle(x_mm=5.0, y_mm=5.0, width_mm=20.0, height_mm=20.0)


@pytest.mark.parametrize("hatch", list(Hatch))
def test_a_hatch_is_lines_or_dots_and_never_solid(qapp: QApplication, hatch: Hatch) -> None:
    ratio = _dark_ratio([box(_SQUARE, Tone.NO_DATA, hatch=hatch)], _SQUARE)
    assert (0.01 if hatch is Hatch.STIPPLED else 0.03) < ratio < 0.45


def test_a_hatch_stays_inside_its_area(qapp: QApplication) -> None:
    grey = _grey([box(_SQUARE, Tone.NO_DATA, hatch=Hatch.CROSSED)])
    dark = np.argwhere(grey < 128) / _PX_PER_MM
    assert dark.min() >= 5.0 - 0.1
    assert dark.max() <= 25.0 + 0.1


def test_the_three_hatches_look_different(qapp: QApplication) -> None:
    drawn = [_grey([box(_SQUARE, Tone.INK, hatch=hatch)]) for hatch in Hatch]
    assert not any(np.array_equal(a, b) for n, a in enumerate(drawn) for b in drawn[n + 1 :])


def test_a_hole_in_an_area_stays_open(qapp: QApplication) -> None:
    ring = ((5.0, 5.0), (25.0, 5.0), (25.0, 25.0), (5.0, 25.0))
    hole = ((12.0, 12.0), (18.0, 12.0), (18.0, 18.0), (12.0, 18.0))
    area = Area(rings=(ring, hole), tone=Tone.INK)
    inside = Rectangle(x_mm=13.0, y_mm=13.0, width_mm=4.0, height_mm=4.0)
    beside = Rectangle(x_mm=6.0, y_mm=6.0, width_mm=4.0, height_mm=4.0)
    assert _dark_ratio([area], inside) == 0.0
    assert _dark_ratio([area], beside) == 1.0


def test_line_styles_have_gaps_and_solid_has_none(qapp: QApplication) -> None:
    along = Rectangle(x_mm=3.0, y_mm=9.9, width_mm=24.0, height_mm=0.2)
    share = {
        dash: _dark_ratio(
            [Stroke(points=((2.0, 10.0), (28.0, 10.0)), width_mm=0.6, dash=dash)], along
        )
        for dash in Dash
    }
    assert share[Dash.SOLID] == 1.0
    assert all(0.15 < share[dash] < 0.9 for dash in Dash if dash is not Dash.SOLID)


def test_a_dash_is_as_long_on_a_thick_line_as_on_a_thin_one(qapp: QApplication) -> None:
    def breaks(width_mm: float) -> int:
        stroke = Stroke(points=((1.0, 10.0), (29.0, 10.0)), width_mm=width_mm, dash=Dash.BROKEN)
        row = _grey([stroke])[int(10.0 * _PX_PER_MM)] < 128
        return int(np.count_nonzero(np.diff(row.astype(np.int8)) == 1))

    assert breaks(0.3) == breaks(0.8)


def test_text_stands_on_its_baseline_and_keeps_its_size(qapp: QApplication) -> None:
    grey = _grey([Text(x_mm=5.0, y_mm=20.0, text="H", size_pt=28.35)])
    rows = np.argwhere((grey < 128).any(axis=1))[:, 0] / _PX_PER_MM
    # 28.35 pt is 10 mm; capitals of the bundled font are 0.729 of its size (its own tables).
    assert rows.max() == pytest.approx(20.0, abs=0.15)
    assert rows.max() - rows.min() == pytest.approx(7.29, abs=0.25)


def test_text_on_paper_clears_the_ground_behind_it(qapp: QApplication) -> None:
    ground = box(_SQUARE, Tone.INK)
    over = Rectangle(x_mm=10.0, y_mm=13.0, width_mm=4.0, height_mm=2.0)
    words = Text(x_mm=9.0, y_mm=15.0, text="il", size_pt=12.0, tone=Tone.PAPER)
    cleared = Text(x_mm=9.0, y_mm=15.0, text="il", size_pt=12.0, on_paper=True)
    assert _dark_ratio([ground, words], over) > 0.5
    assert _dark_ratio([ground, cleared], over) < 0.7


@pytest.mark.parametrize("shape", list(Shape))
def test_every_sign_leaves_ink_and_stays_near_its_size(qapp: QApplication, shape: Shape) -> None:
    grey = _grey([Symbol(x_mm=15.0, y_mm=15.0, shape=shape, size_mm=6.0)])
    dark = np.argwhere(grey < 128) / _PX_PER_MM
    assert len(dark) > 20
    assert np.abs(dark - 15.0).max() < 4.0


def test_the_palette_decides_the_colour(qapp: QApplication) -> None:
    land = [box(_SQUARE, Tone.LAND)]
    assert not np.array_equal(_grey(land, PAPER), _grey(land, DAY))


def test_a_raster_takes_the_inks_of_the_palette_in_its_room_alone(qapp: QApplication) -> None:
    codes = np.full((40, 40), Ink.WATER, dtype=np.uint8)
    codes[:20, 20:] = Ink.OUTLINE
    codes[20:, :20] = Ink.ECHO
    grey = _grey([Raster(room=_SQUARE, codes=codes)])

    def at(x_mm: float, y_mm: float) -> int:
        return int(grey[int(y_mm * _PX_PER_MM), int(x_mm * _PX_PER_MM)])

    assert at(8.0, 8.0) == 255
    assert at(22.0, 8.0) == 0
    assert 100 < at(8.0, 22.0) < 200
    for place in ((2.0, 2.0), (28.0, 8.0), (8.0, 28.0)):
        assert at(*place) == 255


def test_thin_pens_of_a_raster_survive_where_it_is_made_smaller(qapp: QApplication) -> None:
    codes = np.full((1000, 1000), Ink.WATER, dtype=np.uint8)
    codes[::50, :] = Ink.OUTLINE
    grey = _grey([Raster(room=_SQUARE, codes=codes)])
    inside = grey[int(6 * _PX_PER_MM) : int(24 * _PX_PER_MM), int(15 * _PX_PER_MM)]
    # One pixel in fifty is a fiftieth of black, wherever the lines fall.
    assert 0.005 < float(np.mean(255 - inside.astype(np.float64))) / 255.0 < 0.06
