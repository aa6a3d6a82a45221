"""The key of the leg strip: what each line and hatch means, in two rows."""

from core.sheets.page import (
    Anchor,
    Dash,
    Hatch,
    Item,
    Measure,
    Rectangle,
    Stroke,
    Text,
    Tone,
    box,
    outline,
)
from core.words import quantities
from core.words.messages import Say

KEY_MM = 10.4
"""Height of the key."""
_ROW_MM = 5.2
_SWATCH_MM = 9.0
_SIZE_PT = 9.0

_LINES = (
    (Say.KEY_INDEX, Tone.PRIMARY, 0.55, Dash.SOLID),
    (Say.KEY_MARGIN, Tone.MARGIN, 0.4, Dash.BROKEN),
    (Say.KEY_WHEEL_OVER, Tone.WHEEL_OVER, 0.45, Dash.PECKED),
    (Say.KEY_CORRIDOR, Tone.CORRIDOR, 0.18, Dash.SOLID),
    (Say.KEY_COAST_IN_SIGHT, Tone.COAST_IN_SIGHT, 0.75, Dash.SOLID),
    (Say.KEY_COAST_HIDDEN, Tone.COAST_HIDDEN, 0.18, Dash.FINE),
)


def strip_key(room: Rectangle, *, craft_height_m: float, measure: Measure) -> tuple[Item, ...]:
    """The key, spread over the width of its room."""
    hatches = (
        (
            Say.KEY_HIDDEN_WATER.format(height=quantities.fine_height(craft_height_m)),
            Tone.HIDDEN_WATER,
            Hatch.SLANTED,
        ),
        (str(Say.KEY_NO_DATA), Tone.NO_DATA, Hatch.CROSSED),
        (str(Say.KEY_HAND_OVER), Tone.HAND_OVER, Hatch.LEVEL),
    )
    items: list[Item] = []
    first = [str(words) for words, *_style in _LINES]
    for x, (words, tone, width, dash) in zip(_starts(first, room, measure), _LINES, strict=True):
        y = room.y_mm + _ROW_MM / 2.0
        items.append(
            Stroke(points=((x, y), (x + _SWATCH_MM, y)), width_mm=width, tone=tone, dash=dash)
        )
        items.append(_words(x, y, str(words)))
    second = [words for words, *_style in hatches] + [str(Say.KEY_SIGHT_BAR)]
    starts = _starts(second, room, measure)
    y = room.y_mm + 1.5 * _ROW_MM
    for x, (name, tone, hatch) in zip(starts, hatches, strict=False):
        swatch = Rectangle(x_mm=x, y_mm=y - 1.8, width_mm=_SWATCH_MM, height_mm=3.6)
        items.append(box(swatch, tone, hatch=hatch))
        items.append(outline(swatch, width_mm=0.15))
        items.append(_words(x, y, name))
    x = starts[-1]
    for points in (
        ((x, y), (x + _SWATCH_MM, y)),
        ((x, y - 0.8), (x, y + 0.8)),
        ((x + _SWATCH_MM, y - 0.8), (x + _SWATCH_MM, y + 0.8)),
    ):
        items.append(Stroke(points=points, width_mm=0.4, tone=Tone.COAST_IN_SIGHT))
    items.append(_words(x, y, str(Say.KEY_SIGHT_BAR)))
    return tuple(items)


def _words(x: float, y: float, words: str) -> Text:
    return Text(
        x_mm=x + _SWATCH_MM + 1.2,
        y_mm=y + 1.15,
        text=words,
        size_pt=_SIZE_PT,
        anchor=Anchor.START,
    )


def _starts(texts: list[str], room: Rectangle, measure: Measure) -> list[float]:
    """Where each entry begins so that the gaps between them are equal."""
    widths = [_SWATCH_MM + 1.2 + measure.width_mm(text, size_pt=_SIZE_PT) for text in texts]
    gap = (room.width_mm - sum(widths)) / max(1, len(texts) - 1)
    starts = []
    x = room.x_mm
    for width in widths:
        starts.append(x)
        x += width + gap
    return starts
