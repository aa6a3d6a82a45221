"""What lies over the inks of an expected picture: rings, heading, lines, names; in millimetres."""

import math
from collections.abc import Sequence

from core.base.angles import wrap_360_deg
from core.base.units import m_from_nm, nm_from_m
from core.picture.display_chain import UNCERTAIN_DB
from core.picture.echo_rows import EchoKind, EchoRow
from core.picture.expected_picture import LineKind, Picture, PictureLine
from core.picture.picture_view import Own
from core.sheets.page import (
    POINT_MM,
    Anchor,
    Area,
    Dash,
    Hatch,
    Item,
    Measure,
    Place,
    Rectangle,
    Shape,
    Stroke,
    Symbol,
    Text,
    Tone,
    text_box,
)

_NAME_PT = 7.0
_RING_PT = 6.5
_MOST_NAMES = 18
_RING_MM = 1.7
_LABEL_SHARES = (0.9, 0.84, 0.78, 0.72, 0.66, 0.6, 0.5, 0.4, 0.3, 0.2)
_RING_LABELS_DEG = (135.0, 45.0, 225.0, 315.0, 30.0, 330.0, 15.0, 345.0)
"""Rings are labelled on the first of these bearings from the top that is on the paper: astern to
starboard first, where an officer looks least."""
_STYLES: dict[LineKind, tuple[Tone, Dash, float]] = {
    LineKind.PRIMARY: (Tone.PRIMARY, Dash.SOLID, 0.45),
    LineKind.CHECK: (Tone.CHECK, Dash.SOLID, 0.25),
    LineKind.MARGIN: (Tone.MARGIN, Dash.BROKEN, 0.3),
    LineKind.WHEEL_OVER: (Tone.WHEEL_OVER, Dash.PECKED, 0.3),
}


def ring_step_m(scale_m: float) -> float:
    """Distance between range rings, m: six on scales from 1.5 NM, fewer below."""
    scale_nm = nm_from_m(scale_m)
    if scale_nm >= 1.5 - 1e-6:
        return m_from_nm(scale_nm / 6.0)
    return m_from_nm(scale_nm / (3.0 if scale_nm > 0.6 else 2.0))


class _Plane:
    """Places of a picture on a square of paper."""

    def __init__(self, picture: Picture, side_mm: float) -> None:
        self.picture = picture
        self.side_mm = side_mm
        self._mm_per_px = side_mm / picture.frame.size_px
        self.box = Rectangle(x_mm=0.0, y_mm=0.0, width_mm=side_mm, height_mm=side_mm)

    def at(self, range_m: float, bearing_deg: float) -> Place:
        x, y = self.picture.frame.to_px(range_m, bearing_deg)
        return x * self._mm_per_px, y * self._mm_per_px

    def arc(self, range_m: float, from_deg: float, width_deg: float) -> tuple[Place, ...]:
        count = max(math.ceil(width_deg / 2.0), 1)
        return tuple(self.at(range_m, from_deg + width_deg * i / count) for i in range(count + 1))


def picture_items(picture: Picture, *, side_mm: float, measure: Measure) -> tuple[Item, ...]:
    """Items over a picture on a square of ``side_mm``; to be clipped to it.

    Range rings with their ranges, own structure's sectors, the heading, index lines, north, and
    the names of named echoes; rings stand round marks, and in warning ink round every named echo
    that the controls lose.
    """
    plane = _Plane(picture, side_mm)
    labels = [*_ring_labels(plane)]
    taken = [text_box(label, measure) for label in labels]
    lines = _lines(plane, taken, measure)
    return (
        *_sectors(plane),
        *_rings(plane),
        *lines,
        *_heading(plane),
        *_north(plane),
        *labels,
        *_names(plane, picture.rows(), taken, measure),
    )


def _rings(plane: _Plane) -> Sequence[Item]:
    view = plane.picture.view
    step_m = ring_step_m(view.scale_m)
    count = math.floor(view.radius_m / step_m + 1e-6)
    edge_m = view.radius_m
    rings: list[Item] = [
        Stroke(points=plane.arc(n * step_m, 0.0, 360.0), width_mm=0.12, tone=Tone.RULE)
        for n in range(1, count + 1)
    ]
    if edge_m - count * step_m > 1.0:
        rings.append(Stroke(points=plane.arc(edge_m, 0.0, 360.0), width_mm=0.12, tone=Tone.RULE))
    return rings


def _ring_labels(plane: _Plane) -> Sequence[Text]:
    view, up_deg = plane.picture.view, plane.picture.frame.up_deg
    step_m = ring_step_m(view.scale_m)
    labels = []
    for n in range(1, math.floor(view.radius_m / step_m + 1e-6) + 1):
        places = (plane.at(n * step_m, up_deg + turn_deg) for turn_deg in _RING_LABELS_DEG)
        place = next((p for p in places if plane.box.contains(p, slack_mm=-4.0)), None)
        if place is None:
            continue
        text = f"{nm_from_m(n * step_m):g}"
        labels.append(
            Text(
                x_mm=place[0],
                y_mm=place[1] + 0.35 * _RING_PT * POINT_MM,
                text=f"{text} NM" if n % 2 == 0 else text,
                size_pt=_RING_PT,
                tone=Tone.FAINT_INK,
                anchor=Anchor.MIDDLE,
                on_paper=True,
            )
        )
    return labels


def _sectors(plane: _Plane) -> Sequence[Item]:
    """Sectors of own structure: their edges, shadow sectors hatched; blind ones are inked."""
    view = plane.picture.view
    step_deg = 360.0 / view.bearings
    items: list[Item] = []
    own = view.own
    starts = [b for b in range(view.bearings) if own[b] and own[b] != own[b - 1]]
    for start in starts:
        stop = start
        while own[(stop + 1) % view.bearings] == own[start] and stop - start < view.bearings:
            stop += 1
        from_deg, width_deg = (start - 0.5) * step_deg, (stop - start + 1) * step_deg
        ring = (plane.at(0.0, 0.0), *plane.arc(view.radius_m, from_deg, width_deg))
        if own[start] == Own.SHADOW:
            items.append(Area(rings=(ring,), tone=Tone.FAINT_INK, hatch=Hatch.SLANTED))
        items.append(
            Stroke(
                points=(ring[1], ring[0], ring[-1]),
                width_mm=0.15,
                tone=Tone.FAINT_INK,
                dash=Dash.FINE,
            )
        )
    return items


def _heading(plane: _Plane) -> Sequence[Item]:
    view = plane.picture.view
    own = plane.at(0.0, 0.0)
    ring = Symbol(
        x_mm=own[0],
        y_mm=own[1],
        shape=Shape.RING,
        size_mm=2.2,
        tone=Tone.OWN_SHIP,
        is_filled=False,
    )
    if view.heading_deg is None:
        return (ring,)
    ahead = plane.at(view.radius_m, view.heading_deg)
    return (Stroke(points=(own, ahead), width_mm=0.3, tone=Tone.OWN_SHIP), ring)


def _north(plane: _Plane) -> Sequence[Item]:
    """A small arrow in the corner where north is not up."""
    up_deg = wrap_360_deg(plane.picture.frame.up_deg)
    if min(up_deg, 360.0 - up_deg) < 0.5:
        return ()
    way = math.radians(-up_deg)
    x, y, long_mm = plane.side_mm - 8.0, 8.0, 5.0
    dx, dy = math.sin(way), -math.cos(way)
    tip = (x + dx * long_mm, y + dy * long_mm)
    barbs = [
        (tip[0] - 1.8 * math.sin(way + turn), tip[1] + 1.8 * math.cos(way + turn))
        for turn in (0.4, -0.4)
    ]
    return (
        Stroke(points=((x - dx * long_mm, y - dy * long_mm), tip), width_mm=0.3, tone=Tone.INK),
        Stroke(points=(barbs[0], tip, barbs[1]), width_mm=0.3, tone=Tone.INK),
        Text(x_mm=x, y_mm=y + 1.0, text="N", size_pt=8.0, tone=Tone.INK, anchor=Anchor.MIDDLE,
             is_bold=True, on_paper=True),
    )  # fmt: skip


def _lines(plane: _Plane, taken: list[Rectangle], measure: Measure) -> Sequence[Item]:
    lines: list[Item] = []
    labels: list[Item] = []
    for line in plane.picture.lines:
        reach_m = plane.picture.view.radius_m
        if abs(line.cross_m) >= reach_m:
            continue
        tone, dash, width_mm = _STYLES[line.kind]
        half_m = math.sqrt(reach_m**2 - line.cross_m**2)
        ends = [_off(plane, line, along_m) for along_m in (-half_m, half_m)]
        lines.append(Stroke(points=(ends[0], ends[1]), width_mm=width_mm, tone=tone, dash=dash))
        if line.label:
            labels += _line_label(plane, line, half_m, taken, measure)
    return [*lines, *labels]


def _off(plane: _Plane, line: PictureLine, along_m: float) -> Place:
    turn_deg = math.degrees(math.atan2(line.cross_m, along_m))
    return plane.at(math.hypot(along_m, line.cross_m), line.bearing_deg + turn_deg)


def _line_label(
    plane: _Plane, line: PictureLine, half_m: float, taken: list[Rectangle], measure: Measure
) -> Sequence[Item]:
    """The label on the line, as far ahead as it is wholly on the paper and covers no other."""
    for share in _LABEL_SHARES:
        x, y = _off(plane, line, share * half_m)
        text = Text(
            x_mm=x,
            y_mm=y,
            text=line.label,
            size_pt=_NAME_PT,
            tone=_STYLES[line.kind][0],
            anchor=Anchor.MIDDLE,
            on_paper=True,
        )
        if _is_free(plane, text_box(text, measure), taken):
            return (text,)
    return ()


def _is_free(plane: _Plane, ground: Rectangle, taken: list[Rectangle]) -> bool:
    """Take a box on the paper, unless it leaves the paper or covers another."""
    corners = ((ground.x_mm, ground.y_mm), (ground.right_mm, ground.bottom_mm))
    is_free = all(plane.box.contains(corner) for corner in corners) and not any(
        ground.meets(other) for other in taken
    )
    if is_free:
        taken.append(ground)
    return is_free


def _names(
    plane: _Plane, rows: Sequence[EchoRow], taken: list[Rectangle], measure: Measure
) -> Sequence[Item]:
    """Names of named echoes, lost ones first, each where it covers no other."""
    items: list[Item] = []
    named = [row for row in rows if row.patch.name and row.well_margin_db > -UNCERTAIN_DB]
    named.sort(key=lambda row: (not row.is_lost, row.patch.kind is EchoKind.LAND))
    placed = 0
    for row in named:
        if placed >= _MOST_NAMES:
            break
        x, y = plane.at(row.patch.range_m, row.patch.bearing_deg)
        if not plane.box.contains((x, y)):
            continue
        tone = Tone.WARNING if row.is_lost else Tone.OBJECT
        if row.is_lost or row.patch.kind is EchoKind.MARK:
            items.append(_ringed(x, y, tone))
        name = f"{row.patch.name} (lost)" if row.is_lost else row.patch.name
        for dx, dy, anchor in (
            (2.6, 0.9, Anchor.START),
            (-2.6, 0.9, Anchor.END),
            (0.0, -2.6, Anchor.MIDDLE),
            (0.0, 4.4, Anchor.MIDDLE),
        ):
            text = Text(x_mm=x + dx, y_mm=y + dy, text=name, size_pt=_NAME_PT, tone=tone,
                        anchor=anchor, on_paper=True)  # fmt: skip
            if not _is_free(plane, text_box(text, measure), taken):
                continue
            items.append(text)
            placed += 1
            break
    return items


def _ringed(x_mm: float, y_mm: float, tone: Tone) -> Stroke:
    """A ring that leaves clear what stands in it."""
    turns = [2.0 * math.pi * i / 24.0 for i in range(25)]
    points = tuple(
        (x_mm + _RING_MM * math.cos(turn), y_mm + _RING_MM * math.sin(turn)) for turn in turns
    )
    return Stroke(points=points, width_mm=0.2, tone=tone)
