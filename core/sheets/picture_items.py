"""What lies over the inks of an expected picture: rings, heading, lines, names; in millimetres."""

import math
from collections.abc import Sequence

from core.base.language import tr
from core.base.units import nm_from_m
from core.picture.display_chain import UNCERTAIN_DB
from core.picture.echo_rows import EchoKind, EchoRow
from core.picture.expected_picture import LineKind, Picture, PictureLine
from core.sheets.page import (
    POINT_MM,
    Anchor,
    Dash,
    Item,
    Measure,
    Place,
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


def picture_items(picture: Picture, *, side_mm: float, measure: Measure) -> tuple[Item, ...]:
    """Items over a picture on a square of ``side_mm``; to be clipped to it.

    Range rings with their ranges, own structure's sectors, the heading, index lines, north, and
    the names of named echoes; rings stand round marks, and in warning ink round every named echo
    that the controls lose.
    """
    view = picture.view
    square = Rectangle(x_mm=0.0, y_mm=0.0, width_mm=side_mm, height_mm=side_mm)
    plane = PicturePlane(picture.frame, square, scale_m=view.scale_m, radius_m=view.radius_m)
    labels = [*_ring_labels(plane)]
    taken = [text_box(label, measure) for label in labels]
    lines = _lines(plane, picture.lines, taken, measure)
    ahead = () if view.heading_deg is None else (heading_line(plane, view.heading_deg),)
    return (
        *sectors(plane, view.own),
        *rings(plane),
        *lines,
        *ahead,
        own_ship(plane),
        *north(plane),
        *labels,
        *_names(plane, picture.rows(), taken, measure),
    )


def _ring_labels(plane: PicturePlane) -> Sequence[Text]:
    labels = []
    for n in range(1, plane.ring_count + 1):
        range_m = n * plane.step_m
        places = (plane.at(range_m, plane.frame.up_deg + turn) for turn in _RING_LABELS_DEG)
        place = next((p for p in places if plane.box.contains(p, slack_mm=-4.0)), None)
        if place is None:
            continue
        text = f"{nm_from_m(range_m):g}"
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


def _lines(
    plane: PicturePlane,
    wanted: Sequence[PictureLine],
    taken: list[Rectangle],
    measure: Measure,
) -> Sequence[Item]:
    lines: list[Item] = []
    labels: list[Item] = []
    for line in wanted:
        reach_m = plane.radius_m
        if abs(line.cross_m) >= reach_m:
            continue
        tone, dash, width_mm = _STYLES[line.kind]
        half_m = math.sqrt(reach_m**2 - line.cross_m**2)
        ends = [_off(plane, line, along_m) for along_m in (-half_m, half_m)]
        lines.append(Stroke(points=(ends[0], ends[1]), width_mm=width_mm, tone=tone, dash=dash))
        if line.label:
            labels += _line_label(plane, line, half_m, taken, measure)
    return [*lines, *labels]


def _off(plane: PicturePlane, line: PictureLine, along_m: float) -> Place:
    turn_deg = math.degrees(math.atan2(line.cross_m, along_m))
    return plane.at(math.hypot(along_m, line.cross_m), line.bearing_deg + turn_deg)


def _line_label(
    plane: PicturePlane, line: PictureLine, half_m: float, taken: list[Rectangle], measure: Measure
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


def _is_free(plane: PicturePlane, ground: Rectangle, taken: list[Rectangle]) -> bool:
    """Take a box on the paper, unless it leaves the paper or covers another."""
    corners = ((ground.x_mm, ground.y_mm), (ground.right_mm, ground.bottom_mm))
    is_free = all(plane.box.contains(corner) for corner in corners) and not any(
        ground.meets(other) for other in taken
    )
    if is_free:
        taken.append(ground)
    return is_free


def _names(
    plane: PicturePlane, rows: Sequence[EchoRow], taken: list[Rectangle], measure: Measure
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
            ring = ringed((x, y), radius_mm=_RING_MM, width_mm=0.2, tone=tone, dash=Dash.SOLID)
            items.append(ring)
        name = tr("{name} (lost)", name=row.patch.name) if row.is_lost else row.patch.name
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
