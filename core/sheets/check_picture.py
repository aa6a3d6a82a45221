"""The expected picture at one tune check: inks, rings, and the four echoes ringed and lettered."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from core.base.arrays import ByteArray, HoldsArrays
from core.base.units import nm_from_m
from core.picture.display_chain import Paint
from core.picture.ink import ink_codes
from core.picture.picture_view import Own
from core.picture.screen_frame import ScreenFrame
from core.plan.tune_result import Rung, TuneCheck
from core.radar.echo_budget import EchoBudget
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
from core.sheets.short_names import shortened
from core.sheets.wrapping import BODY_PT
from core.words.messages import Say

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
_LETTERS = {
    Rung.STRONG: Say.STRONG_SHORT,
    Rung.MEDIUM: Say.MEDIUM_SHORT,
    Rung.WEAK: Say.WEAK_SHORT,
    Rung.ABSENT: Say.NONE,
}


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CheckPicture(HoldsArrays):
    """What is expected on the screen at the tune check of a leg, the set well set up.

    screen : (N, N) uint8
        Codes of ``core.picture.display_chain.Paint``.
    own : (B,) uint8
        ``core.picture.picture_view.Own`` by true bearing.
    """

    leg_index: int
    screen: ByteArray
    frame: ScreenFrame
    radius_m: float
    heading_deg: float
    own: ByteArray
    budget: EchoBudget
    """Set, pulse and weather it is worked out for."""

    @property
    def has_shadow_sector(self) -> bool:
        """Whether own structure weakens echoes somewhere."""
        return bool(np.any(self.own == Own.SHADOW))


def is_none_beside_others(picture: CheckPicture, check: TuneCheck) -> bool:
    """Whether echoes of other things stand in the ring of the one that must not paint."""
    echo = check.echo(Rung.ABSENT)
    if echo is None:
        return False
    size_px = picture.frame.size_px
    x_px, y_px = picture.frame.to_px(echo.range_m, echo.bearing_deg)
    middles = np.arange(size_px) + 0.5
    inside = np.hypot(middles - x_px, (middles - y_px)[:, np.newaxis]) <= RING_RATIO * size_px
    return bool(np.any(picture.screen[inside] >= Paint.UNCERTAIN))


def check_picture_items(
    picture: CheckPicture, check: TuneCheck, square: Rectangle, measure: Measure
) -> tuple[Item, ...]:
    """The picture in a square, nothing outside of it."""
    plane = PicturePlane(
        picture.frame, square, scale_m=picture.frame.scale_m, radius_m=picture.radius_m
    )
    taken: list[Rectangle] = []
    ring_mm = RING_RATIO * square.width_mm
    marks = [
        (step.rung, step.echo.object_id, plane.at(step.echo.range_m, step.echo.bearing_deg))
        for step in check.rungs
        if step.echo is not None
    ]
    own = plane.at(0.0, 0.0)
    taken += [_round(own, 2.0)]
    taken += [_round(place, ring_mm + 0.6) for _rung, _name, place in marks]
    arrow = north(plane, size_pt=BODY_PT)
    if arrow:
        middle = (square.right_mm - 8.0, square.y_mm + 8.0)
        taken.append(_round(middle, 5.2))
    scale = _ring_labels(plane, picture.screen, taken, measure)
    taken += [text_box(label, measure) for label in scale]
    short = shortened(name for _rung, name, _place in marks)
    echoes: list[Item] = []
    labels: list[Item] = []
    for rung, name, place in marks:
        dash = Dash.FINE if rung is Rung.ABSENT else Dash.SOLID
        ring = ringed(place, radius_mm=ring_mm, width_mm=_PEN_MM, tone=Tone.INK, dash=dash)
        echoes += _cased([replace(ring, reference=f"tune:{name}")])
        words = f"{_LETTERS[rung]}: {short[name]}"
        labels += _label(plane, picture.screen, place, words, taken, measure)
    px_per_mm = picture.frame.size_px / square.width_mm
    return (
        Raster(room=square, codes=ink_codes(picture.screen, px_per_mm=px_per_mm)),
        *sectors(plane, picture.own, hatched=False),
        *rings(plane, width_mm=0.15),
        *_cased([heading_line(plane, picture.heading_deg)]),
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
    plane: PicturePlane, screen: ByteArray, taken: Sequence[Rectangle], measure: Measure
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
    screen: ByteArray,
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


def _inked(plane: PicturePlane, screen: ByteArray, box: Rectangle) -> float:
    """Share of a box that lies on echoes, bare."""
    left, right = (int((x - plane.box.x_mm) / plane.mm_per_px) for x in (box.x_mm, box.right_mm))
    top, bottom = (int((y - plane.box.y_mm) / plane.mm_per_px) for y in (box.y_mm, box.bottom_mm))
    part = screen[max(top, 0) : max(bottom, 0) + 1, max(left, 0) : max(right, 0) + 1]
    return float(np.mean(part >= Paint.UNCERTAIN)) if part.size else 0.0
