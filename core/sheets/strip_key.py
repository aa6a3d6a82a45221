"""The key of the leg strip: what each line and hatch means, in three rows."""

from collections.abc import Callable, Iterable

from core.coverage.coverage_result import CoastState
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
from core.sheets.strip_coast import COAST_STYLES
from core.sheets.strip_sight import OVERDUE_MM, TICK_MM
from core.sheets.strip_waters import emergence_swatch
from core.words import quantities
from core.words.emergence_words import Hidden
from core.words.messages import Say

_ROW_MM = 4.6
KEY_MM = 3 * _ROW_MM
"""Height of the key."""
_SWATCH_MM = 9.0
_SIZE_PT = 9.0

_Line = tuple[Say, Tone, float, Dash]

_LINES: tuple[_Line, ...] = (
    (Say.KEY_INDEX, Tone.PRIMARY, 0.55, Dash.SOLID),
    (Say.KEY_MARGIN, Tone.MARGIN, 0.4, Dash.BROKEN),
    (Say.KEY_WHEEL_OVER, Tone.WHEEL_OVER, 0.45, Dash.PECKED),
    (Say.KEY_CORRIDOR, Tone.CORRIDOR, 0.18, Dash.SOLID),
)
_COASTS: tuple[_Line, ...] = (
    (Say.KEY_COAST_IN_SIGHT, *COAST_STYLES[CoastState.IN_SIGHT]),
    (Say.KEY_COAST_LAND_BEHIND, *COAST_STYLES[CoastState.LAND_BEHIND]),
    (Say.KEY_COAST_HIDDEN, *COAST_STYLES[CoastState.HIDDEN]),
)
_OUTSIDE: _Line = (Say.KEY_COAST_OUTSIDE, *COAST_STYLES[CoastState.OUTSIDE])


_PAINTS: tuple[_Line, ...] = (
    (Say.KEY_PAINTED_EDGE, *COAST_STYLES[CoastState.IN_SIGHT]),
    (Say.KEY_COAST_PAINTS_NOT, *COAST_STYLES[CoastState.HIDDEN]),
    _OUTSIDE,
)
"""What the coast's strokes say where the radar was worked out."""


def strip_key(
    room: Rectangle, *, craft_height_m: float, measure: Measure, paints: bool = False
) -> tuple[Item, ...]:
    """The key in three rows, spread over the width of its room.

    ``paints`` tells whether the coast is drawn by what paints rather than by what is in sight.
    """
    coasts, last = (_PAINTS, ()) if paints else (_COASTS, (_OUTSIDE,))
    hidden = Say.KEY_HIDDEN_WATER.format(height=quantities.fine_height(craft_height_m))
    rows: tuple[tuple[tuple[str, Callable[[float, float], Iterable[Item]]], ...], ...] = (
        (
            *((str(line[0]), _line_swatch(line)) for line in _LINES),
            (str(Say.KEY_HAND_OVER), _area_swatch(Tone.HAND_OVER, Hatch.LEVEL)),
            (str(Say.KEY_PAINT_BAR), _paint_swatch)
            if paints
            else (str(Say.KEY_SIGHT_BAR), _sight_swatch),
        ),
        ((str(Say.KEY_LAND), _land_swatch), *((str(c[0]), _line_swatch(c)) for c in coasts)),
        (
            *((str(line[0]), _line_swatch(line)) for line in last),
            (hidden, _area_swatch(Tone.HIDDEN_WATER, Hatch.SLANTED)),
            (str(Hidden.KEY), emergence_swatch),
            (str(Say.KEY_NO_DATA), _area_swatch(Tone.NO_DATA, Hatch.CROSSED)),
        ),
    )
    items: list[Item] = []
    for number, row in enumerate(rows):
        y = room.y_mm + (number + 0.5) * _ROW_MM
        starts = _starts([words for words, _swatch in row], room, measure)
        for x, (words, swatch) in zip(starts, row, strict=True):
            items.extend(swatch(x, y))
            items.append(_words(x, y, words))
    return tuple(items)


def _line_swatch(line: _Line) -> Callable[[float, float], Iterable[Item]]:
    _words_of, tone, width, dash = line

    def draw(x: float, y: float) -> Iterable[Item]:
        yield Stroke(points=((x, y), (x + _SWATCH_MM, y)), width_mm=width, tone=tone, dash=dash)

    return draw


def _area_swatch(tone: Tone, hatch: Hatch) -> Callable[[float, float], Iterable[Item]]:
    def draw(x: float, y: float) -> Iterable[Item]:
        swatch = Rectangle(x_mm=x, y_mm=y - 1.7, width_mm=_SWATCH_MM, height_mm=3.4)
        yield box(swatch, tone, hatch=hatch)
        yield outline(swatch, width_mm=0.15)

    return draw


def _land_swatch(x: float, y: float) -> Iterable[Item]:
    swatch = Rectangle(x_mm=x, y_mm=y - 1.7, width_mm=_SWATCH_MM, height_mm=3.4)
    yield box(swatch, Tone.LAND)
    yield box(swatch, Tone.LAND_GRAIN, hatch=Hatch.STIPPLED)
    yield outline(swatch, width_mm=0.15)


def _sight_swatch(x: float, y: float) -> Iterable[Item]:
    for points in (
        ((x, y), (x + _SWATCH_MM, y)),
        ((x, y - 0.8), (x, y + 0.8)),
        ((x + _SWATCH_MM, y - 0.8), (x + _SWATCH_MM, y + 0.8)),
    ):
        yield Stroke(points=points, width_mm=0.4, tone=Tone.COAST_IN_SIGHT)


def _paint_swatch(x: float, y: float) -> Iterable[Item]:
    """Possible, from, paints, and the tick of overdue, laid down on its side."""
    third = _SWATCH_MM / 3.0
    for number, (width_mm, dash) in enumerate(
        ((0.22, Dash.DOTTED), (0.22, Dash.FINE), (0.32, Dash.SOLID))
    ):
        ends = ((x + number * third, y), (x + (number + 1) * third, y))
        yield Stroke(points=ends, width_mm=width_mm, tone=Tone.COAST_IN_SIGHT, dash=dash)
    at = x + 2.6 * third
    yield Stroke(
        points=((at, y - TICK_MM / 2.0), (at, y + TICK_MM / 2.0)),
        width_mm=OVERDUE_MM,
        tone=Tone.COAST_IN_SIGHT,
    )


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
