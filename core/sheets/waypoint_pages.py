"""The waypoint list, with blanks for charts, publications and the state of the equipment."""

from dataclasses import dataclass, replace

from core.plan.outcome import Outcome
from core.sheets.page import Anchor, Item, Measure, Page, Text
from core.sheets.sheet_frame import HEIGHT_MM, LEFT_MM, TOP_MM, WIDTH_MM, foot, head_line
from core.sheets.tables import Cell, Column, Row, Table, row_heights_mm, table_items
from core.words import quantities, times
from core.words.bridge_words import Bridge
from core.words.messages import Say

_TITLE_MM = TOP_MM + 13.0
_TABLE_MM = TOP_MM + 16.0
_ROW_MM = 5.2
_BLANK_MM = 7.0
_BLANK_ROWS = 8
_GAP_MM = 5.0
_BLANKS_GUTTER_MM = 6.0


@dataclass(frozen=True, slots=True, kw_only=True)
class WaypointLayout:
    """Tables of waypoints, one a sheet, and whether the blanks need a sheet of their own."""

    tables: tuple[Table, ...]
    blanks_apart: bool

    @property
    def page_count(self) -> int:
        """How many sheets they fill."""
        return len(self.tables) + self.blanks_apart


def lay_out_waypoints(outcome: Outcome, measure: Measure) -> WaypointLayout:
    """Break the list over sheets; the blanks stand below its end where there is room."""
    whole = Table(columns=_columns(outcome), rows=_rows(outcome), row_mm=_ROW_MM)
    room = foot(outcome, measure)[1] - _TABLE_MM - whole.head_mm - 1.0
    sheets: list[list[Row]] = [[]]
    used = 0.0
    for row, height in zip(whole.rows, row_heights_mm(whole, measure), strict=True):
        if sheets[-1] and used + height > room:
            sheets.append([])
            used = 0.0
        sheets[-1].append(row)
        used += height
    blanks = max(_table_mm(table, measure) for table in _blanks(outcome)) + _TITLE_ROOM_MM
    return WaypointLayout(
        tables=tuple(replace(whole, rows=tuple(rows)) for rows in sheets),
        blanks_apart=used + blanks > room,
    )


_TITLE_ROOM_MM = 8.0


def _table_mm(table: Table, measure: Measure) -> float:
    return table.head_mm + sum(row_heights_mm(table, measure))


def _columns(outcome: Outcome) -> tuple[Column, ...]:
    zone = times.zone_short(outcome.plan.timetable)
    end = Anchor.END
    return (
        Column(head=Bridge.COLUMN_NUMBER, width_mm=7.5, anchor=end),
        Column(head=Bridge.COLUMN_WAYPOINT, width_mm=25.0),
        Column(head=Bridge.COLUMN_POSITION, width_mm=26.0, anchor=end),
        Column(head=Bridge.COLUMN_COURSE, width_mm=19.5, anchor=end),
        Column(head="NM", width_mm=11.0, anchor=end),
        Column(head=Bridge.COLUMN_TOTAL, width_mm=16.5, anchor=end),
        Column(head=Bridge.COLUMN_TO_GO, width_mm=16.5, anchor=end),
        Column(head="kn", width_mm=9.5, anchor=end),
        Column(head=f"{Bridge.COLUMN_ETA} {zone}", width_mm=21.0, anchor=end),
        Column(head=Bridge.COLUMN_RADIUS, width_mm=15.5, anchor=end),
        Column(head=Bridge.COLUMN_CORRIDOR, width_mm=20.0, anchor=end),
    )


def _rows(outcome: Outcome) -> tuple[Row, ...]:
    plan = outcome.plan
    legs, timetable, waypoints = plan.legs, plan.timetable, plan.passage.waypoints
    dash = quantities.DASH
    whole = sum(leg.distance_m for leg in legs)
    run = 0.0
    rows = [Row(cells=(), note=str(Bridge.WAYPOINTS_MEAN))]
    for number in range(len(legs) + 1):
        # The trade's list gives the course to the next waypoint; the heads say so.
        leg = legs[number] if number < len(legs) else None
        turn = legs[number - 1].wheel_over if number else None
        waypoint = waypoints[legs[-1].leg_index + 1 if leg is None else leg.leg_index]
        at = (number, 0.0) if leg is not None else (number - 1, legs[-1].distance_m)
        utc = timetable.utc_at(*at)
        when = times.when(timetable, *at) if utc is None else times.day_clock(utc)
        own = (dash,) * 4
        if leg is not None:
            port, starboard = (
                quantities.cables_number(m) for m in (leg.corridor_port_m, leg.corridor_starboard_m)
            )
            own = (
                quantities.track(leg.course_deg).removesuffix("° T"),
                quantities.miles(leg.distance_m, 2),
                quantities.speed(leg.speed_mps).removesuffix(" kn"),
                f"{port} / {starboard}",
            )
        place = waypoint.position
        rows.append(
            Row(
                cells=(
                    Cell(text=str(number + 1), is_bold=True),
                    Cell(text=waypoint.name, is_bold=True),
                    Cell(
                        text=quantities.latitude(place.lat_deg),
                        second=quantities.longitude(place.lon_deg),
                    ),
                    Cell(text=own[0]),
                    Cell(text=own[1]),
                    Cell(text=quantities.miles(run, 2)),
                    Cell(text=quantities.miles(whole - run, 2)),
                    Cell(text=own[2]),
                    Cell(text=when),
                    Cell(text=dash if turn is None else quantities.miles(turn.turn_radius_m, 2)),
                    Cell(text=own[3]),
                ),
                reference=f"waypoint:{number}",
            )
        )
        run += leg.distance_m if leg is not None else 0.0
    return tuple(rows)


def _blanks(outcome: Outcome) -> tuple[Table, Table]:
    """Charts and publications; equipment: for the pencil."""
    box = Cell(is_blank_box=True)
    charts = Table(
        columns=(
            Column(head=Bridge.COLUMN_CHART, width_mm=52.0),
            Column(head=Bridge.COLUMN_EDITION, width_mm=22.0),
            Column(head=Bridge.COLUMN_CORRECTED, width_mm=26.0),
        ),
        rows=(Row(cells=(box, box, box)),) * _BLANK_ROWS,
        row_mm=_BLANK_MM,
    )
    radars = [
        Bridge.RADAR_MONITOR.format(radar=radar.name) for radar in outcome.request.ship.radars
    ]
    others = (
        Bridge.GYRO,
        Bridge.LOG,
        Bridge.GNSS,
        Bridge.AIS,
        Bridge.ECHO_SOUNDER,
        Bridge.CHART_DISPLAY,
    )
    equipment = Table(
        columns=(
            Column(head=Bridge.COLUMN_ITEM, width_mm=48.0),
            Column(head=Bridge.COLUMN_STATE, width_mm=34.0),
        ),
        rows=tuple(Row(cells=(Cell(text=str(item)), box)) for item in (*radars, *others)),
        row_mm=_BLANK_MM,
    )
    return charts, equipment


def waypoint_pages(
    outcome: Outcome,
    layout: WaypointLayout,
    *,
    first_number: int,
    page_count: int,
    measure: Measure,
) -> tuple[Page, ...]:
    """The sheets, numbered from ``first_number``."""
    pages = []
    for place in range(layout.page_count):
        items: list[Item] = [
            *head_line(
                outcome, page_number=first_number + place, page_count=page_count, measure=measure
            ),
            *foot(outcome, measure)[0],
        ]
        y = _TITLE_MM
        if place < len(layout.tables):
            title = str(Bridge.WAYPOINTS) if place == 0 else f"{Bridge.WAYPOINTS}, {Say.CONTINUED}"
            items.append(Text(x_mm=LEFT_MM, y_mm=y, text=title, size_pt=14.0, is_bold=True))
            table = layout.tables[place]
            rows, y = table_items(
                table, x_mm=LEFT_MM, y_mm=_TABLE_MM, most_rows=len(table.rows), measure=measure
            )
            items += rows
            y += _GAP_MM + 2.0
        if place == layout.page_count - 1:
            items += _blank_items(outcome, y, measure)
        pages.append(
            Page(
                width_mm=WIDTH_MM,
                height_mm=HEIGHT_MM,
                items=tuple(items),
                name=str(Bridge.WAYPOINTS),
            )
        )
    return tuple(pages)


def _blank_items(outcome: Outcome, y_mm: float, measure: Measure) -> list[Item]:
    items: list[Item] = []
    x = LEFT_MM
    for title, table in zip((Bridge.CHARTS, Bridge.EQUIPMENT), _blanks(outcome), strict=True):
        items.append(Text(x_mm=x, y_mm=y_mm, text=str(title), size_pt=11.0, is_bold=True))
        rows, _y = table_items(
            table, x_mm=x, y_mm=y_mm + 1.6, most_rows=len(table.rows), measure=measure
        )
        items += rows
        x += table.width_mm + _BLANKS_GUTTER_MM
    return items
