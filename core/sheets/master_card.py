"""The call-the-master card: overdue limits of what the plan leans on, in order of time."""

from collections.abc import Sequence

from core.coverage.first_paint_result import FirstPaint
from core.plan.look_on import look_on
from core.plan.outcome import Outcome
from core.plan.watch_events import WatchEvent
from core.sheets.list_pages import Group, ListLayout, lay_out_list
from core.sheets.object_list import starred
from core.sheets.page import Anchor, Measure
from core.sheets.short_names import described
from core.sheets.tables import Cell, Column, Row
from core.words import quantities, times
from core.words.bridge_words import Bridge
from core.words.look_words import look_cell
from core.words.messages import Say
from core.words.paint_words import limit_when

_NIGHT_PT = 12.0


def lay_out_master_card(
    outcome: Outcome, calls: Sequence[WatchEvent], measure: Measure
) -> ListLayout:
    """The card, over as many sheets as it needs; none where no radar was worked out."""
    has_paints = any(leg.first_paints for leg in outcome.plan.legs)
    rows = master_rows(outcome, calls) if has_paints else ()
    return lay_out_list(
        outcome,
        title=str(Bridge.MASTER_CARD),
        columns=_columns(outcome),
        groups=[Group(title="", rows=rows)],
        measure=measure,
    )


def _columns(outcome: Outcome) -> tuple[Column, ...]:
    zone = times.zone_short(outcome.plan.timetable)
    return (
        Column(head=f"{Bridge.COLUMN_OVERDUE} {zone}", width_mm=27.0),
        Column(head=Say.COLUMN_LEG, width_mm=8.0, anchor=Anchor.END),
        Column(head=Bridge.COLUMN_WHAT, width_mm=68.0),
        Column(head="NM", width_mm=13.0, anchor=Anchor.END),
        Column(head="° T", width_mm=11.0, anchor=Anchor.END),
        Column(head=Bridge.COLUMN_LOOK_ON, width_mm=19.0, anchor=Anchor.END),
        Column(head=f"{Say.BY} {zone}", width_mm=17.5, anchor=Anchor.END),
        Column(head=f"{Say.SEEN_AT} {zone}", width_mm=24.5),
    )


def master_rows(outcome: Outcome, calls: Sequence[WatchEvent]) -> tuple[Row, ...]:
    """What it means, which legs have none, then the limits."""
    with_one = {event.leg_index for event in calls}
    without = [leg for leg in range(len(outcome.plan.legs)) if leg not in with_one]
    rows = [Row(cells=(), note=str(Bridge.MASTER_MEANS))]
    if without:
        legs = ", ".join(str(leg + 1) for leg in without)
        rows.append(Row(cells=(), note=Bridge.NO_OVERDUE_ON.format(legs=legs)))
    return (*rows, *(_row(outcome, event) for event in calls))


def _row(outcome: Outcome, event: WatchEvent) -> Row:
    paint = event.matter
    if not isinstance(paint, FirstPaint) or paint.overdue.moment is None:
        raise TypeError(f"{event.kind} is no overdue limit")
    moment, timetable = paint.overdue.moment, outcome.plan.timetable
    leg, request = outcome.plan.legs[event.leg_index], outcome.request
    look = look_on(leg, outcome.plan.passage.line(leg.leg_index), request.ship, paint)
    screen, how = look_cell(look, request.ship)
    what = "" if paint.name == paint.object_id else described(paint.name, None)
    return Row(
        cells=(
            Cell(
                text=limit_when(timetable, event.leg_index, paint.overdue, is_late=True),
                size_pt=_NIGHT_PT,
                is_bold=True,
            ),
            Cell(text=str(event.leg_index + 1)),
            Cell(
                text=starred(outcome, paint.object_id), beside=what, size_pt=_NIGHT_PT, is_bold=True
            ),
            Cell(
                text=quantities.radar_range(moment.range_m).removesuffix(" NM"), size_pt=_NIGHT_PT
            ),
            Cell(text=quantities.whole_degrees(moment.bearing_deg), size_pt=_NIGHT_PT),
            Cell(text=screen, second=how, is_second_bold=True),
            Cell(text=limit_when(timetable, event.leg_index, paint.normally_by, is_late=True)),
            Cell(is_blank_box=True),
        ),
        reference=f"overdue:{paint.object_id}",
    )
