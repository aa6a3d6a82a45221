"""The landfall card: the picture to expect, three ranges for a fix, the first objects' limits."""

import math
from collections.abc import Sequence

import numpy as np

from core.picture.screen_frame import ScreenFrame
from core.plan.landfall import fix_scale_m
from core.plan.landfall_result import Landfall, LandfallPaint
from core.plan.outcome import Outcome
from core.sheets.check_key import check_key
from core.sheets.check_picture import CheckPicture, plane_of
from core.sheets.flow import Entry, Section, section_items
from core.sheets.object_list import starred
from core.sheets.page import Anchor, Dash, Item, Measure, Page, Rectangle, Stroke, Text, Tone
from core.sheets.picture_labels import RingMark, marked_picture
from core.sheets.picture_plane import PicturePlane
from core.sheets.sheet_frame import (
    CONTENT_MM,
    HEIGHT_MM,
    LEFT_MM,
    RIGHT_MM,
    TOP_MM,
    WIDTH_MM,
    foot,
    head_line,
)
from core.sheets.short_names import described, shortened
from core.sheets.tables import Cell, Column, Row, Table, rows_within, table_items
from core.sheets.wrapping import BODY_PT, line_mm, wrap
from core.words import quantities, times
from core.words.bridge_words import Bridge
from core.words.calculated_words import calculated_words
from core.words.landfall_words import cut_words, landfall_words, limit_time
from core.words.messages import Say
from core.words.paint_words import must_not_words

_SIDE_MM = 92.0
_GUTTER_MM = 5.0
_NIGHT_PT = 12.0
_ARC_MM = 16.0
"""Half the length of a range arc on the picture, each side of own ship."""
_PX = 1000
_MOST_ROWS = 14
_MOST_MUST_NOT = 4


def landfall_pages(
    outcome: Outcome,
    landfalls: Sequence[Landfall],
    pictures: Sequence[CheckPicture | None],
    *,
    first_number: int,
    page_count: int,
    measure: Measure,
) -> tuple[Page, ...]:
    """A card a landfall; one without a picture shows where its objects lie."""
    drawn = [*pictures, *([None] * (len(landfalls) - len(pictures)))]
    return tuple(
        Page(
            width_mm=WIDTH_MM,
            height_mm=HEIGHT_MM,
            items=(
                *head_line(
                    outcome,
                    page_number=first_number + number,
                    page_count=page_count,
                    measure=measure,
                ),
                *_card(outcome, landfall, picture, measure),
                *foot(outcome, measure)[0],
            ),
            name=str(Bridge.LANDFALL),
        )
        for number, (landfall, picture) in enumerate(zip(landfalls, drawn, strict=True))
    )


def _card(
    outcome: Outcome, landfall: Landfall, picture: CheckPicture | None, measure: Measure
) -> list[Item]:
    bare, place = landfall_words(outcome, landfall)
    y = TOP_MM + 13.0
    items: list[Item] = [
        Text(x_mm=LEFT_MM, y_mm=y, text=str(Bridge.LANDFALL), size_pt=14.0, is_bold=True)
    ]
    lines = [(bare, 10.0, False), (place if landfall.arcs else str(Bridge.NO_FIX), 12.0, True)]
    for text, size_pt, is_bold in lines:
        for line in wrap(text, CONTENT_MM, measure, size_pt=size_pt, is_bold=is_bold):
            y += line_mm(size_pt)
            items.append(
                Text(x_mm=LEFT_MM, y_mm=y + 0.6, text=line, size_pt=size_pt, is_bold=is_bold)
            )
    top = y + 3.0
    square = Rectangle(x_mm=LEFT_MM, y_mm=top, width_mm=_SIDE_MM, height_mm=_SIDE_MM)
    items += _picture(outcome, landfall, picture, square, measure)
    y = square.bottom_mm
    for line in wrap(_caption(outcome, landfall, picture), _SIDE_MM, measure):
        y += line_mm(BODY_PT)
        items.append(Text(x_mm=LEFT_MM, y_mm=y + 0.6, text=line, size_pt=BODY_PT))
    beside = Rectangle(
        x_mm=square.right_mm + _GUTTER_MM,
        y_mm=top,
        width_mm=CONTENT_MM - _SIDE_MM - _GUTTER_MM,
        height_mm=y - top,
    )
    items += _beside(outcome, landfall, beside, measure)
    key, key_top = check_key(
        () if picture is None else (picture,),
        foot(outcome, measure)[1] - 1.0,
        measure,
        ring_words=((Dash.SOLID, Bridge.KEY_RING),) if landfall.arcs else (),
    )
    items += key if landfall.arcs or picture is not None else ()
    items += _limits(outcome, landfall, y + 6.4, key_top, measure)
    return items


def _plane(
    outcome: Outcome, landfall: Landfall, picture: CheckPicture | None, square: Rectangle
) -> PicturePlane:
    """That of the picture, or one of the same scale and course without one."""
    if picture is not None:
        return plane_of(picture, square)
    scale_m = fix_scale_m(landfall, outcome.request.ship.radars[0].range_scales_m)
    line = outcome.plan.passage.line(landfall.leg_index)
    _lats, _lons, courses = line.at(np.array([landfall.along_m]))
    frame = ScreenFrame(size_px=_PX, scale_m=scale_m, up_deg=float(courses[0]) % 360.0)
    return PicturePlane(frame, square, scale_m=scale_m, radius_m=scale_m)


def _picture(
    outcome: Outcome,
    landfall: Landfall,
    picture: CheckPicture | None,
    square: Rectangle,
    measure: Measure,
) -> tuple[Item, ...]:
    plane = _plane(outcome, landfall, picture, square)
    shorts = shortened(arc.object_id for arc in landfall.arcs)
    marks = [
        RingMark(
            words=f"{number}: {shorts[arc.object_id]}",
            range_m=arc.range_m,
            bearing_deg=arc.bearing_deg,
            reference=f"arc:{arc.object_id}",
        )
        for number, arc in enumerate(landfall.arcs, start=1)
    ]
    return marked_picture(
        plane,
        screen=None if picture is None else picture.screen,
        own=None if picture is None else picture.own,
        heading_deg=plane.frame.up_deg,
        marks=marks,
        measure=measure,
        lines=[_range_arc(plane, arc.range_m, arc.bearing_deg) for arc in landfall.arcs],
    )


def _range_arc(plane: PicturePlane, range_m: float, bearing_deg: float) -> Stroke:
    """The circle about an object through own ship, as much of it as is laid off on a chart."""
    centre, own = plane.at(range_m, bearing_deg), plane.at(0.0, 0.0)
    radius = math.dist(centre, own)
    middle = math.atan2(own[1] - centre[1], own[0] - centre[0])
    half = _ARC_MM / max(radius, _ARC_MM)
    turns = [middle + half * n / 8.0 for n in range(-8, 9)]
    return Stroke(
        points=tuple(
            (centre[0] + radius * math.cos(turn), centre[1] + radius * math.sin(turn))
            for turn in turns
        ),
        width_mm=0.35,
        tone=Tone.INK,
        dash=Dash.BROKEN,
    )


def _caption(outcome: Outcome, landfall: Landfall, picture: CheckPicture | None) -> str:
    plane = _plane(outcome, landfall, picture, Rectangle(x_mm=0, y_mm=0, width_mm=1, height_mm=1))
    scale = quantities.scale(plane.frame.scale_m)
    course = quantities.course(plane.frame.up_deg)
    if picture is None:
        return Bridge.LANDFALL_PLAIN.format(scale=scale, course=course)
    calculated = calculated_words(picture.budget)
    return Bridge.LANDFALL_PICTURE.format(scale=scale, course=course, calculated=calculated)


def _beside(outcome: Outcome, landfall: Landfall, room: Rectangle, measure: Measure) -> list[Item]:
    """Ranges with their cut, then what must not paint and what looks alike."""
    items: list[Item] = []
    y = room.y_mm
    if landfall.arcs:
        items.append(
            Text(
                x_mm=room.x_mm,
                y_mm=y + line_mm(11.0) - 0.8,
                text=str(Bridge.RANGES),
                size_pt=11.0,
                is_bold=True,
            )
        )
        table = _range_table(outcome, landfall, room.width_mm)
        block, y = table_items(
            table,
            x_mm=room.x_mm,
            y_mm=y + line_mm(11.0) + 0.8,
            most_rows=len(table.rows),
            measure=measure,
        )
        items += block
        y += 2.0
    hidden = tuple(
        Entry(
            lead=item.object_id,
            text=must_not_words(item, outcome.plan.timetable, leg_index),
            is_inline=True,
        )
        for leg_index, item in sorted(landfall.must_not, key=lambda one: one[1].begins.range_m)
    )
    alike = tuple(
        Entry(
            text=Bridge.ALIKE.format(
                share=quantities.percent(one.likeness_ratio),
                distance=quantities.distance(one.distance_m),
                bearing=quantities.course(one.bearing_deg),
                along=quantities.distance(one.along_m),
                leg=leg_index + 1,
            )
        )
        for leg_index, one in landfall.look_alikes[:1]
    )
    sections = (
        Section(
            title=str(Bridge.MUST_NOT_THERE),
            entries=hidden[:_MOST_MUST_NOT] or (Entry(text=str(Bridge.NOTHING_HIDDEN)),),
            left_out=len(hidden[_MOST_MUST_NOT:]),
            where=str(Bridge.IN_NEXT_HOURS),
        ),
        Section(
            title=str(Bridge.LOOKS_ALIKE),
            entries=alike or (Entry(text=str(Bridge.NO_ALIKE)),),
            where=str(Bridge.IN_FINDINGS),
        ),
    )
    below = Rectangle(x_mm=room.x_mm, y_mm=y, width_mm=room.width_mm, height_mm=room.bottom_mm - y)
    return [*items, *section_items(sections, below, measure)]


def _range_table(outcome: Outcome, landfall: Landfall, width_mm: float) -> Table:
    rows = [
        Row(
            cells=(
                Cell(text=str(number), is_bold=True),
                Cell(
                    text=starred(outcome, arc.object_id),
                    beside=described(arc.name, None) if arc.name != arc.object_id else "",
                    size_pt=_NIGHT_PT,
                    is_bold=True,
                ),
                Cell(
                    text=quantities.radar_range(arc.range_m).removesuffix(" NM"),
                    size_pt=_NIGHT_PT,
                    is_bold=True,
                ),
                Cell(text=quantities.whole_degrees(arc.bearing_deg), size_pt=_NIGHT_PT),
                Cell(is_blank_box=True),
            ),
            reference=f"arc:{arc.object_id}",
        )
        for number, arc in enumerate(landfall.arcs, start=1)
    ]
    notes = [cut_words(landfall), str(Bridge.RANGES_MEAN)]
    if any(arc.is_summit for arc in landfall.arcs):
        notes.append(str(Bridge.SUMMIT_NOTE))
    fixed = (5.0, 15.5, 12.5, 16.0)
    number_mm, range_mm, bearing_mm, read_mm = fixed
    return Table(
        columns=(
            Column(head=Bridge.COLUMN_NUMBER, width_mm=number_mm + 2.0),
            Column(head=Say.COLUMN_OBJECT, width_mm=width_mm - sum(fixed) - 2.0),
            Column(head="NM", width_mm=range_mm, anchor=Anchor.END),
            Column(head="° T", width_mm=bearing_mm, anchor=Anchor.END),
            Column(head=f"{Bridge.COLUMN_READ}, NM", width_mm=read_mm),
        ),
        rows=(*rows, *(Row(cells=(), note=note) for note in notes)),
        row_mm=9.0,
    )


def _limits(
    outcome: Outcome, landfall: Landfall, y_mm: float, bottom_mm: float, measure: Measure
) -> list[Item]:
    """The four limits of what paints first, with those of the fix among them."""
    zone = times.zone_short(outcome.plan.timetable)
    end = Anchor.END
    columns = (
        Column(head=Say.COLUMN_OBJECT, width_mm=58.0),
        Column(head=Say.COLUMN_HEIGHT, width_mm=13.5, anchor=end),
        Column(head=Say.COLUMN_POSSIBLE, width_mm=16.0, anchor=end),
        Column(head=Say.COLUMN_NORMALLY_FROM, width_mm=13.0, anchor=end),
        Column(head=f"{Say.BY} {zone}", width_mm=17.0, anchor=end),
        Column(head="NM", width_mm=14.5, anchor=end),
        Column(head="° T", width_mm=12.0, anchor=end),
        Column(head=Say.COLUMN_OVERDUE, width_mm=19.0, anchor=end),
        Column(head=f"{Say.SEEN_AT} {zone}", width_mm=CONTENT_MM - 163.0),
    )
    room = bottom_mm - y_mm - 3.0
    most = _MOST_ROWS
    while True:
        rows = tuple(_limit_row(outcome, paint) for paint in _shown(landfall, most))
        shown = Table(columns=columns, rows=rows, row_mm=5.4)
        if most <= len(landfall.arcs) or rows_within(shown, room, measure) == len(rows):
            break
        most -= 1
    title = Text(
        x_mm=LEFT_MM,
        y_mm=y_mm,
        text=Bridge.TIMES_IN.format(
            title=Bridge.FIRST_OBJECTS, zone=times.zone_words(outcome.plan.timetable)
        ),
        size_pt=11.0,
        is_bold=True,
    )
    note = Text(x_mm=RIGHT_MM, y_mm=y_mm, text=str(Bridge.ALL_LISTED), size_pt=BODY_PT, anchor=end)
    block, _bottom = table_items(
        shown, x_mm=LEFT_MM, y_mm=y_mm + 1.6, most_rows=len(rows), measure=measure
    )
    return [title, note, *block]


def _shown(landfall: Landfall, most: int) -> list[LandfallPaint]:
    """The first that come, room kept for those of the fix."""
    wanted = {arc.object_id for arc in landfall.arcs}
    others = [p for p in landfall.paints if p.object_id not in wanted]
    kept = {p.object_id for p in others[: max(most - len(wanted), 0)]} | wanted
    return [paint for paint in landfall.paints if paint.object_id in kept]


def _limit_row(outcome: Outcome, paint: LandfallPaint) -> Row:
    timetable = outcome.plan.timetable
    by = paint.normally_by
    what = ""
    if paint.name != paint.object_id:
        what = described(paint.name, paint.height_above_water_m)
    return Row(
        cells=(
            Cell(text=starred(outcome, paint.object_id), beside=what, size_pt=10.0, is_bold=True),
            Cell(text=quantities.height(paint.height_above_water_m)),
            Cell(text=limit_time(timetable, paint.earliest_possible)),
            Cell(text=limit_time(timetable, paint.normally_from)),
            Cell(text=limit_time(timetable, by, is_late=True), size_pt=_NIGHT_PT, is_bold=True),
            Cell(text=quantities.radar_range(by.range_m).removesuffix(" NM"), size_pt=_NIGHT_PT),
            Cell(text=quantities.whole_degrees(by.bearing_deg), size_pt=_NIGHT_PT),
            Cell(text=limit_time(timetable, paint.overdue, is_late=True), is_bold=True),
            Cell(is_blank_box=True),
        ),
        reference=f"sight:{paint.object_id}",
    )
