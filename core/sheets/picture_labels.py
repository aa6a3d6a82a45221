"""Rings round echoes of an expected picture, with labels that keep off ink and one another."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from core.base.arrays import ByteArray
from core.base.units import nm_from_m
from core.picture.display_chain import Paint
from core.picture.ink import ink_codes
from core.sheets.page import (
    POINT_MM,
    Anchor,
    Dash,
    Item,
    Measure,
    Place,
    Raster,
    Rectangle,
    Stroke,
    Text,
    Tone,
    text_box,
)
from core.sheets.picture_plane import (
    PicturePlane,
    heading_line,
    north,
    own_ship,
    ringed,
    rings,
    sectors,
)
from core.sheets.wrapping import BODY_PT

RING_RATIO = 0.025
"""Radius of the ring round an echo, as a share of the picture's side."""
_PEN_MM = 0.4
_CASING_MM = 0.35
"""Paper left clear on either side of a ring or line, so that it shows on black land."""
_RING_LABELS_DEG = (135.0, 225.0, 45.0, 315.0, 150.0, 210.0, 120.0, 240.0, 30.0, 330.0)
"""Bearings from the top on which rings may be labelled; astern to starboard looked at first."""
_TURNS = 16
_AWAY_MM = (0.6, 2.0, 4.0, 6.5, 9.5, 13.0, 17.0, 22.0, 28.0, 36.0)
"""How far off its ring a label may stand."""
_INK_COST_MM = 30.0
"""A label wholly on echoes is as bad as one so much farther off."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RingMark:
    """An echo to ring and the words beside its ring."""

    words: str
    range_m: float
    bearing_deg: float
    dash: Dash = Dash.SOLID
    reference: str = ""


def marked_picture(
    plane: PicturePlane,
    *,
    screen: ByteArray | None,
    own: ByteArray | None,
    heading_deg: float,
    marks: Sequence[RingMark],
    measure: Measure,
    lines: Sequence[Stroke] = (),
) -> tuple[Item, ...]:
    """A picture with its range rings, some lines on it and the echoes ringed and lettered.

    Parameters
    ----------
    plane : PicturePlane
        Where it lies on the paper; nothing stands outside its square.
    screen : (N, N) uint8 or None
        Codes of ``core.picture.display_chain.Paint``; None draws no echoes.
    own : (B,) uint8 or None
        Sectors of own structure by true bearing.
    heading_deg : float
        Of the heading line.
    marks : sequence of RingMark
        The echoes.
    measure : Measure
        Text widths.
    lines : sequence of Stroke
        Drawn on paper of their own, below rings and labels.
    """
    square = plane.box
    ring_mm = RING_RATIO * square.width_mm
    places = [plane.at(mark.range_m, mark.bearing_deg) for mark in marks]
    taken = [_round(plane.at(0.0, 0.0), 2.0)]
    taken += [_round(place, ring_mm + 0.6) for place in places]
    arrow = north(plane, size_pt=BODY_PT)
    if arrow:
        taken.append(_round((square.right_mm - 8.0, square.y_mm + 8.0), 5.2))
    scale = _ring_labels(plane, screen, taken, measure)
    taken += [text_box(label, measure) for label in scale]
    echoes: list[Item] = []
    labels: list[Item] = []
    for mark, place in zip(marks, places, strict=True):
        ring = ringed(place, radius_mm=ring_mm, width_mm=_PEN_MM, tone=Tone.INK, dash=mark.dash)
        echoes += _cased([replace(ring, reference=mark.reference)])
        labels += _label(plane, screen, place, mark.words, taken, measure)
    inks: tuple[Item, ...] = ()
    if screen is not None:
        px_per_mm = plane.frame.size_px / square.width_mm
        inks = (Raster(room=square, codes=ink_codes(screen, px_per_mm=px_per_mm)),)
    return (
        *inks,
        *(() if own is None else sectors(plane, own, hatched=False)),
        *rings(plane, width_mm=0.15),
        *_cased([*lines, heading_line(plane, heading_deg)]),
        own_ship(plane),
        *arrow,
        *scale,
        *echoes,
        *labels,
    )


def _round(place: Place, reach_mm: float) -> Rectangle:
    return Rectangle(
        x_mm=place[0] - reach_mm,
        y_mm=place[1] - reach_mm,
        width_mm=2.0 * reach_mm,
        height_mm=2.0 * reach_mm,
    )


def _cased(strokes: Iterable[Stroke]) -> Sequence[Stroke]:
    """Each stroke on a wider one of paper."""
    made = []
    for stroke in strokes:
        width_mm = stroke.width_mm + 2.0 * _CASING_MM
        ground = replace(stroke, width_mm=width_mm, tone=Tone.SEA, dash=Dash.SOLID, reference="")
        made += [ground, stroke]
    return made


def _ring_labels(
    plane: PicturePlane, screen: ByteArray | None, taken: Sequence[Rectangle], measure: Measure
) -> Sequence[Text]:
    """Ranges of every ring, or of every other where they lie close, all on one bearing."""
    every = 2 if plane.ring_count > 3 else 1
    numbers = range(every, plane.ring_count + 1, every)
    best: tuple[float, list[Text]] | None = None
    for turn_deg in _RING_LABELS_DEG:
        texts = [_ring_label(plane, n, turn_deg) for n in numbers]
        boxes = [text_box(text, measure) for text in texts]
        shown = [
            (text, box)
            for text, box in zip(texts, boxes, strict=True)
            if _is_within(box, plane.box) and not any(box.meets(other) for other in taken)
        ]
        covered = sum(_inked(plane, screen, box) for _text, box in shown)
        cost = covered + 10.0 * (len(texts) - len(shown))
        if best is None or cost < best[0]:
            best = (cost, [text for text, _box in shown])
    return [] if best is None else best[1]


def _ring_label(plane: PicturePlane, number: int, turn_deg: float) -> Text:
    range_m = number * plane.step_m
    x, y = plane.at(range_m, plane.frame.up_deg + turn_deg)
    return Text(
        x_mm=x,
        y_mm=y + 0.35 * BODY_PT * POINT_MM,
        text=f"{nm_from_m(range_m):g} NM",
        size_pt=BODY_PT,
        tone=Tone.FAINT_INK,
        anchor=Anchor.MIDDLE,
        on_paper=True,
    )


def _label(
    plane: PicturePlane,
    screen: ByteArray | None,
    place: Place,
    words: str,
    taken: list[Rectangle],
    measure: Measure,
) -> Sequence[Item]:
    """A label near its ring, on as little ink as may be, with a leader where it stands off."""
    width = measure.width_mm(words, size_pt=BODY_PT, is_bold=True)
    ring_mm = RING_RATIO * plane.box.width_mm
    best: tuple[tuple[float, float], Text, Rectangle, float] | None = None
    for away_mm in _AWAY_MM:
        for number in range(_TURNS):
            turn = 2.0 * math.pi * number / _TURNS
            east, south = math.sin(turn), -math.cos(turn)
            # The nearer edge of the label stands off the ring, whatever the way.
            reach_x = ring_mm + away_mm + width / 2.0
            reach_y = ring_mm + away_mm + 0.5 * BODY_PT * POINT_MM
            text = Text(
                x_mm=place[0] + reach_x * east,
                y_mm=place[1] + reach_y * south + 0.3 * BODY_PT * POINT_MM,
                text=words,
                size_pt=BODY_PT,
                is_bold=True,
                anchor=Anchor.MIDDLE,
                on_paper=True,
            )
            box = text_box(text, measure)
            blocked = sum(box.meets(other) for other in taken)
            blocked += 0 if _is_within(box, plane.box) else 10
            cost = away_mm + _INK_COST_MM * _inked(plane, screen, box)
            key = (float(blocked), cost)
            if best is None or key < best[0]:
                best = (key, text, box, away_mm)
    assert best is not None  # noqa: S101 - there are candidates
    _key, text, box, away_mm = best
    taken.append(box)
    if away_mm < 1.0:
        return (text,)
    return (*_cased([_leader(place, ring_mm, box)]), text)


def _leader(place: Place, ring_mm: float, box: Rectangle) -> Stroke:
    """From the edge of a ring to the nearest edge of a label."""
    x = min(max(place[0], box.x_mm), box.right_mm)
    y = min(max(place[1], box.y_mm), box.bottom_mm)
    far = max(math.hypot(x - place[0], y - place[1]), ring_mm + 0.1)
    share = ring_mm / far
    start = (place[0] + share * (x - place[0]), place[1] + share * (y - place[1]))
    return Stroke(points=(start, (x, y)), width_mm=0.2)


def _is_within(box: Rectangle, room: Rectangle) -> bool:
    return room.contains((box.x_mm, box.y_mm)) and room.contains((box.right_mm, box.bottom_mm))


def _inked(plane: PicturePlane, screen: ByteArray | None, box: Rectangle) -> float:
    """Share of a box that lies on echoes, bare."""
    if screen is None:
        return 0.0
    left, right = (int((x - plane.box.x_mm) / plane.mm_per_px) for x in (box.x_mm, box.right_mm))
    top, bottom = (int((y - plane.box.y_mm) / plane.mm_per_px) for y in (box.y_mm, box.bottom_mm))
    part = screen[max(top, 0) : max(bottom, 0) + 1, max(left, 0) : max(right, 0) + 1]
    return float(np.mean(part >= Paint.UNCERTAIN)) if part.size else 0.0
