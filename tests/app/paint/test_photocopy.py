"""A photocopy of a photocopy stays readable (trade note A10; common practice, no source).

One bit at 150 dots an inch, twice through a soft lens. What is measured: letters keep their
shape, hatches stay apart and are never black, dashes keep their gaps.
"""

from functools import lru_cache

import numpy as np
import pytest
from PySide6.QtWidgets import QApplication

from app.paint.measure import QtMeasure
from app.paint.qt_setup import load_fonts
from core.sheets.book import make_book
from core.sheets.page import (
    Area,
    Dash,
    Hatch,
    Page,
    Rectangle,
    Stroke,
    Text,
    Tone,
    corners,
    text_box,
)
from core.words.bridge_words import Bridge
from tests.helpers.photocopy import Ink, copied, cut_out, likeness, printed
from tests.helpers.readable import texts_of
from tests.helpers.sample_outcome import sample_outcome
from tests.helpers.sample_paints import with_paints

_PARTS = (
    Bridge.FRONT,
    Bridge.MASTER_CARD,
    Bridge.NEXT_HOURS,
    Bridge.LEG_SHEETS,
    Bridge.HEIGHTS,
    Bridge.RECEIPT,
    Bridge.PILOT_CARD,
)


@lru_cache(maxsize=1)
def _book() -> tuple[Page, ...]:
    load_fonts()
    return make_book(with_paints(sample_outcome()), QtMeasure())


@pytest.mark.parametrize("part", _PARTS)
def test_letters_keep_their_shape_on_the_second_copy(part: str, qapp: QApplication) -> None:
    page = next(page for page in _book() if page.part == part)
    measure = QtMeasure()
    first = printed(page)
    last = copied(copied(first))
    found = []
    for text in texts_of(page.items):
        if text.angle_deg or len(text.text) < 3 or not any(c.isalnum() for c in text.text):
            continue
        room = text_box(text, measure)
        one, other = cut_out(first, room), cut_out(last, room)
        found.append((likeness(one, other), text.text))
        # Neither worn away nor run into blots.
        assert 0.6 <= other.mean() / max(one.mean(), 1e-9) <= 1.9, text.text
    assert len(found) > 15
    assert min(found)[0] >= 0.7, min(found)


def _sheet(*items: Area | Stroke | Text) -> Page:
    return Page(width_mm=100.0, height_mm=60.0, items=items)


def _hatched(hatch: Hatch) -> Ink:
    room = Rectangle(x_mm=10.0, y_mm=10.0, width_mm=60.0, height_mm=30.0)
    area = Area(rings=(corners(room),), tone=Tone.HIDDEN_WATER, hatch=hatch)
    inside = Rectangle(x_mm=14.0, y_mm=14.0, width_mm=52.0, height_mm=22.0)
    return cut_out(copied(copied(printed(_sheet(area)))), inside)


def _grain(ink: Ink) -> tuple[float, float]:
    """How strongly a pattern runs one way, 0 to 1, and along which way, deg from level."""
    down, across = np.gradient(ink.astype(np.float64))
    xx, yy, xy = float((across**2).sum()), float((down**2).sum()), float((across * down).sum())
    strength = float(np.hypot(xx - yy, 2.0 * xy)) / (xx + yy)
    return strength, float(np.degrees(0.5 * np.arctan2(2.0 * xy, xx - yy)) + 90.0) % 180.0


def test_hatches_stay_apart_and_are_never_black(qapp: QApplication) -> None:
    grains = {}
    for hatch in Hatch:
        ink = _hatched(hatch)
        assert (0.01 if hatch is Hatch.STIPPLED else 0.03) < ink.mean() < 0.6, hatch
        grains[hatch] = _grain(ink)
    assert grains[Hatch.CROSSED][0] < 0.3
    # Land is dots: no way they run, far less ink than the crossed lines of missing heights, and
    # apart from one another.
    assert grains[Hatch.STIPPLED][0] < 0.3
    dots, crossed = _hatched(Hatch.STIPPLED), _hatched(Hatch.CROSSED)
    assert dots.mean() < 0.4 * crossed.mean()
    assert not np.any(np.all(dots, axis=0))
    assert not np.any(np.all(dots, axis=1))
    for hatch in (Hatch.SLANTED, Hatch.LEVEL):
        assert grains[hatch][0] > 0.6, grains
    turn = abs(grains[Hatch.SLANTED][1] - grains[Hatch.LEVEL][1])
    assert 25.0 < min(turn, 180.0 - turn) <= 90.0, grains


def test_dashes_keep_their_gaps(qapp: QApplication) -> None:
    # Index line solid, margin broken, wheel-over pecked: trade note 1.9.7, published there.
    gaps = {}
    for dash in (Dash.SOLID, Dash.BROKEN, Dash.PECKED, Dash.FINE):
        line = Stroke(points=((10.0, 30.0), (90.0, 30.0)), width_mm=0.5, tone=Tone.INK, dash=dash)
        ink = copied(copied(printed(_sheet(line))))
        patch = cut_out(ink, Rectangle(x_mm=12.0, y_mm=29.0, width_mm=76.0, height_mm=2.0))
        along = np.max(patch, axis=0)
        gaps[dash] = int(np.count_nonzero(along[:-1] & ~along[1:]))
    assert gaps[Dash.SOLID] == 0
    assert gaps[Dash.BROKEN] >= 4
    assert len(set(gaps.values())) == len(gaps), gaps


def test_the_measure_of_likeness_tells_a_blot_from_letters(qapp: QApplication) -> None:
    page = _sheet(Text(x_mm=10.0, y_mm=30.0, text="Strand West 0553", size_pt=9.0))
    ink = printed(page)
    room = text_box(texts_of(page.items)[0], QtMeasure())
    other = _sheet(Text(x_mm=10.0, y_mm=30.0, text="Quessal Bay 0610", size_pt=9.0))
    blot = ink
    for _again in range(12):
        blot = copied(blot)
    assert likeness(cut_out(ink, room), cut_out(printed(other), room)) < 0.6
    assert likeness(cut_out(ink, room), cut_out(blot, room)) < likeness(
        cut_out(ink, room), cut_out(copied(copied(ink)), room)
    )
