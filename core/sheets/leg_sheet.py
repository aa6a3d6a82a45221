"""One leg on one sheet of A4: head, index lines and wheel-over on top, the strip below."""

from core.coverage.coverage_result import LegCoverage
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
from core.sheets.flow import BODY_PT, fitted, section_items
from core.sheets.leg_sections import leg_sections
from core.sheets.leg_tables import MOST_ROWS, index_table, no_index_block, wheel_over_block
from core.sheets.page import Item, Measure, Page, Rectangle, Stroke, Text, Tone
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
from core.sheets.strip_block import make_strip
from core.sheets.strip_key import KEY_MM, strip_key
from core.sheets.tables import table_items
from core.words import quantities, times
from core.words.messages import Say

_SIDE_MM = 63.0
"""Width of the column of words beside the strip."""
_GUTTER_MM = 3.0


def leg_sheet(
    outcome: Outcome, leg_index: int, *, page_number: int, page_count: int, measure: Measure
) -> Page:
    """The sheet of one leg.

    Parameters
    ----------
    outcome : Outcome
        The finished plan.
    leg_index : int
        The leg, from 0.
    page_number, page_count : int
        For «Page n of m».
    measure : Measure
        Text widths.
    """
    plan = outcome.plan.legs[leg_index]
    timetable = outcome.plan.timetable
    to_name = outcome.plan.passage.waypoints[leg_index + 1].name
    items: list[Item] = list(
        head_line(
            outcome,
            page_number=page_number,
            page_count=page_count,
            measure=measure,
        )
    )
    head, y = _leg_head(outcome, plan, measure)
    items.extend(head)
    if any(line.limit is None for line in plan.lines) or not plan.no_index_reason:
        table = index_table(plan, timetable, measure)
        block, y = table_items(
            table, x_mm=LEFT_MM, y_mm=y + 1.6, most_rows=MOST_ROWS, measure=measure
        )
    else:
        block, y = no_index_block(plan, y + 1.6, LEFT_MM, CONTENT_MM, measure)
    items.extend(block)
    block, y = wheel_over_block(
        plan,
        timetable,
        to_name,
        x_mm=LEFT_MM,
        y_mm=y + 1.6,
        width_mm=CONTENT_MM,
        measure=measure,
    )
    items.extend(block)
    foot_items, foot_top = foot(outcome, measure)
    items.extend(foot_items)
    top = y + 1.8
    key_top = foot_top - KEY_MM - 0.8
    strip = make_strip(
        outcome,
        leg_index,
        frame=Rectangle(
            x_mm=LEFT_MM + _SIDE_MM + _GUTTER_MM,
            y_mm=top,
            width_mm=CONTENT_MM - _SIDE_MM - _GUTTER_MM,
            height_mm=key_top - top - 0.8,
        ),
        measure=measure,
    )
    items.extend(strip.items)
    key = Rectangle(x_mm=LEFT_MM, y_mm=key_top, width_mm=CONTENT_MM, height_mm=KEY_MM)
    items.extend(
        strip_key(
            key,
            craft_height_m=outcome.coverage.settings.craft_height_m,
            measure=measure,
        )
    )
    room = Rectangle(x_mm=LEFT_MM, y_mm=top, width_mm=_SIDE_MM, height_mm=key_top - top - 0.8)
    items.extend(section_items(leg_sections(outcome, plan), room, measure))
    return Page(
        width_mm=WIDTH_MM,
        height_mm=HEIGHT_MM,
        items=tuple(items),
        name=Say.LEG_OF.format(number=leg_index + 1, count=len(outcome.plan.legs)),
    )


def coverage_of(outcome: Outcome, leg_index: int) -> LegCoverage:
    """Coverage of one leg."""
    return next(leg for leg in outcome.coverage.legs if leg.leg_index == leg_index)


def _leg_head(outcome: Outcome, plan: LegPlan, measure: Measure) -> tuple[list[Item], float]:
    """Which leg this is, in large letters, and its course, distance, speed, time and corridor."""
    passage = outcome.plan.passage
    count = len(outcome.plan.legs)
    title = Say.LEG_OF.format(number=plan.leg_index + 1, count=count)
    names = Say.FROM_TO.format(
        start=passage.waypoints[plan.leg_index].name,
        stop=passage.waypoints[plan.leg_index + 1].name,
    )
    y = TOP_MM + 12.4
    title_mm = measure.width_mm(title, size_pt=17.0, is_bold=True)
    items: list[Item] = [
        Text(x_mm=LEFT_MM, y_mm=y, text=title, size_pt=17.0, is_bold=True),
        Text(
            x_mm=LEFT_MM + title_mm + 5.0,
            y_mm=y,
            text=fitted(names, CONTENT_MM - title_mm - 40.0, measure, size_pt=13.0, is_bold=True),
            size_pt=13.0,
            is_bold=True,
        ),
        Text(x_mm=RIGHT_MM - 31.0, y_mm=y, text=f"{Say.REVISION}", size_pt=BODY_PT),
        Stroke(
            points=((RIGHT_MM - 16.0, y + 0.6), (RIGHT_MM, y + 0.6)), width_mm=0.2, tone=Tone.RULE
        ),
    ]
    y += 3.4
    for x, head, value in _head_fields(outcome, plan):
        items.append(Text(x_mm=x, y_mm=y + 2.0, text=head, size_pt=BODY_PT, tone=Tone.FAINT_INK))
        items.append(Text(x_mm=x, y_mm=y + 7.6, text=value, size_pt=12.0, is_bold=True))
    return items, y + 9.0


def _head_fields(outcome: Outcome, plan: LegPlan) -> list[tuple[float, str, str]]:
    timetable = outcome.plan.timetable
    zone = times.zone_words(timetable)
    span = times.span(timetable, plan.leg_index, 0.0, plan.distance_m)
    start = timetable.utc_at(plan.leg_index, 0.0)
    day = f"{start.day:02d} " if start is not None else ""
    is_complete = coverage_of(outcome, plan.leg_index).is_complete
    state = plan.quality.grade if is_complete else str(Say.INCOMPLETE)
    corridor = (
        f"{quantities.cables_number(plan.corridor_port_m)} / "
        f"{quantities.cables_number(plan.corridor_starboard_m)} c"
    )
    return [
        (LEFT_MM, str(Say.COURSE), quantities.track(plan.course_deg)),
        (LEFT_MM + 27.0, str(Say.DISTANCE), quantities.distance(plan.distance_m)),
        (LEFT_MM + 52.0, str(Say.SPEED), quantities.speed(plan.speed_mps)),
        (LEFT_MM + 76.0, f"{Say.TIME} {zone}", f"{day}{span}"),
        (LEFT_MM + 114.0, str(Say.CORRIDOR_SIDES), corridor),
        (LEFT_MM + 150.0, str(Say.DATA_QUALITY), state),
    ]
