"""The key of the expected pictures at the tune checks."""

from collections.abc import Sequence

import numpy as np

from core.picture.display_chain import Paint
from core.picture.ink import swatch_codes
from core.sheets.check_picture import CheckPicture
from core.sheets.page import Dash, Item, Measure, Raster, Rectangle, Stroke, Text, Tone, outline
from core.sheets.picture_plane import ringed
from core.sheets.sheet_frame import CONTENT_MM, LEFT_MM, RIGHT_MM
from core.sheets.wrapping import BODY_PT
from core.words.messages import Say
from core.words.picture_words import KEY

_SWATCH_MM, _SWATCH_HIGH_MM = 7.0, 3.4
_RING_MM = 2.0
_ROW_MM = 4.8
_PX_PER_MM = 11.0
"""About that of the pictures, so that hatches look alike."""

_Swatch = Paint | Dash | None
"""An ink, a ring in a dash, or the edge of a sector."""


def check_key(
    pictures: Sequence[CheckPicture],
    bottom_mm: float,
    measure: Measure,
    *,
    ring_words: Sequence[tuple[Dash, str]] = (
        (Dash.SOLID, Say.KEY_RUNGS),
        (Dash.FINE, Say.KEY_ABSENT),
    ),
) -> tuple[tuple[Item, ...], float]:
    """The key of what the pictures hold, above ``bottom_mm``, and the y where it begins.

    ``ring_words`` say what a ring in each dash means; without pictures they stand alone.
    """
    rows: list[list[tuple[float, _Swatch, str]]] = [[]]
    x = 0.0
    for swatch, words in (*ring_words, *_key_entries(pictures)):
        width = _SWATCH_MM + 1.2 + measure.width_mm(words, size_pt=BODY_PT)
        if x > 0.0 and x + width > CONTENT_MM:
            x = 0.0
            rows.append([])
        rows[-1].append((x, swatch, words))
        x += width + 4.0
    top = bottom_mm - len(rows) * _ROW_MM - 1.0
    items: list[Item] = [
        Stroke(points=((LEFT_MM, top), (RIGHT_MM, top)), width_mm=0.15, tone=Tone.RULE)
    ]
    for number, row in enumerate(rows):
        middle = top + 1.0 + (number + 0.5) * _ROW_MM
        for x, swatch, words in row:
            box = Rectangle(
                x_mm=LEFT_MM + x,
                y_mm=middle - _SWATCH_HIGH_MM / 2.0,
                width_mm=_SWATCH_MM,
                height_mm=_SWATCH_HIGH_MM,
            )
            items += _swatch(box, swatch)
            words_at = box.right_mm + 1.2
            items.append(Text(x_mm=words_at, y_mm=middle + 1.15, text=words, size_pt=BODY_PT))
    return tuple(items), top


def _key_entries(pictures: Sequence[CheckPicture]) -> list[tuple[_Swatch, str]]:
    """Whatever the pictures hold."""
    shown = {int(code) for picture in pictures for code in np.unique(picture.screen)}
    entries: list[tuple[_Swatch, str]] = [
        (paint, words) for paint, words in KEY if int(paint) in shown
    ]
    if any(picture.has_shadow_sector for picture in pictures):
        entries.append((None, Say.KEY_SHADOW_SECTOR))
    return entries


def _swatch(box: Rectangle, kind: _Swatch) -> Sequence[Item]:
    middle = box.y_mm + box.height_mm / 2.0
    if kind is None:
        ends = ((box.x_mm, middle), (box.right_mm, middle))
        return (Stroke(points=ends, width_mm=0.15, tone=Tone.FAINT_INK, dash=Dash.FINE),)
    if isinstance(kind, Dash):
        place = (box.x_mm + box.width_mm / 2.0, middle)
        ring = ringed(place, radius_mm=_RING_MM, width_mm=0.4, tone=Tone.INK, dash=kind)
        return (ring,)
    codes = swatch_codes(
        kind,
        round(box.height_mm * _PX_PER_MM),
        round(box.width_mm * _PX_PER_MM),
        px_per_mm=_PX_PER_MM,
    )
    return (Raster(room=box, codes=codes), outline(box, width_mm=0.15))
