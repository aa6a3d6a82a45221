"""One leg on one sheet of A4: head, index lines and wheel-over on top, the strip below."""

from dataclasses import dataclass

from core.coverage.coverage_result import LegCoverage
from core.passage.motion import LegMotion
from core.plan.object_result import Grade
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
from core.sheets.flow import Section, cut_sections, section_items
from core.sheets.leg_sections import Elsewhere, leg_sections
from core.sheets.leg_tables import (
    MOST_MM,
    index_table,
    line_entry,
    no_index_block,
    shown_lines,
)
from core.sheets.page import Item, Measure, Page, Rectangle, Text, Tone
from core.sheets.revision_marks import revision_items
from core.sheets.sheet_frame import (
    CONTENT_MM,
    HEIGHT_MM,
    LEFT_MM,
    TOP_MM,
    WIDTH_MM,
    foot,
    head_line,
)
from core.sheets.sight_list import says_less, sight_title
from core.sheets.strip_block import make_strip
from core.sheets.strip_key import KEY_MM, strip_key
from core.sheets.tables import rows_within, table_items
from core.sheets.wheel_over_block import wheel_over_block
from core.sheets.wrapping import BODY_PT, line_mm, set_in
from core.words import quantities, times
from core.words.contingency_words import title
from core.words.emergence_words import Hidden
from core.words.messages import Say
from core.words.object_words import grain_words

_SIDE_MM = 63.0
"""Width of the column of words beside the strip."""
_GUTTER_MM = 3.0
_PAGE = Say.ON_PAGE.format(page=100)
_SOME_PAGE = Elsewhere(
    sights=_PAGE, rest=_PAGE, setups=_PAGE, fixes=_PAGE, waters=_PAGE, contingencies=100
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Upper:
    """What stands above the strip, and the room that is left."""

    items: tuple[Item, ...]
    top_mm: float
    key_top_mm: float
    foot: tuple[Item, ...]

    @property
    def words_room(self) -> Rectangle:
        """Room of the column of words."""
        return Rectangle(
            x_mm=LEFT_MM, y_mm=self.top_mm, width_mm=_SIDE_MM, height_mm=self._height_mm
        )

    @property
    def strip_room(self) -> Rectangle:
        """Room of the strip."""
        return Rectangle(
            x_mm=LEFT_MM + _SIDE_MM + _GUTTER_MM,
            y_mm=self.top_mm,
            width_mm=CONTENT_MM - _SIDE_MM - _GUTTER_MM,
            height_mm=self._height_mm,
        )

    @property
    def _height_mm(self) -> float:
        return self.key_top_mm - self.top_mm - 0.8


def _has_table(plan: LegPlan) -> bool:
    return any(line.limit is None for line in plan.lines) or not plan.no_index_reason


def _upper(
    outcome: Outcome, plan: LegPlan, measure: Measure, elsewhere: Elsewhere | None = None
) -> _Upper:
    timetable = outcome.plan.timetable
    items, y = _leg_head(outcome, plan, measure)
    if _has_table(plan):
        table = index_table(plan, timetable)
        block, y = table_items(
            table,
            x_mm=LEFT_MM,
            y_mm=y + 1.6,
            most_rows=rows_within(table, MOST_MM, measure),
            measure=measure,
            where=(elsewhere or Elsewhere()).rest,
        )
    else:
        block, y = no_index_block(plan, y + 1.6, LEFT_MM, CONTENT_MM, measure)
    items.extend(block)
    # A contingency leg ends in no turn: what counts is the one that leads onto it.
    turning = plan if outcome.leaves is None else outcome.plan.legs[0]
    block, y = wheel_over_block(
        turning,
        timetable,
        outcome.plan.passage.waypoints[turning.leg_index + 1].name,
        x_mm=LEFT_MM,
        y_mm=y + 1.6,
        width_mm=CONTENT_MM,
        measure=measure,
    )
    items.extend(block)
    foot_items, foot_top = foot(outcome, measure, note=grain_words(plan))
    return _Upper(
        items=tuple(items), top_mm=y + 1.8, key_top_mm=foot_top - KEY_MM - 0.8, foot=foot_items
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOut:
    """What the sheet of a leg cannot hold."""

    sections: tuple[Section, ...]
    """Whole sections, but for set-up, hidden water and what is in sight: they have lists."""
    needs_sight_list: bool


def left_out_of(outcome: Outcome, leg_index: int, measure: Measure) -> LeftOut:
    """What of a leg must stand elsewhere in the book."""
    plan = outcome.plan.legs[leg_index]
    room = _upper(outcome, plan, measure).words_room
    # Page numbers are not known yet; words as long as theirs break into the same lines.
    cut = cut_sections(leg_sections(outcome, plan, elsewhere=_SOME_PAGE), room, measure)
    whole = leg_sections(outcome, plan, most_findings=None)
    missing = [one for one, is_cut in zip(whole, cut, strict=True) if is_cut]
    listed = (sight_title(plan), str(Hidden.TITLE))
    sections = [one for one in missing if one.title not in listed and not one.is_pointer]
    lines = shown_lines(plan)
    if _has_table(plan):
        lines = lines[rows_within(index_table(plan, outcome.plan.timetable), MOST_MM, measure) :]
    if lines:
        entries = tuple(line_entry(plan, line, outcome.plan.timetable) for line in lines)
        sections.insert(0, Section(title=str(Say.INDEX_LINES), entries=entries))
    return LeftOut(
        sections=tuple(sections),
        needs_sight_list=any(one.title == sight_title(plan) for one in missing) or says_less(plan),
    )


def leg_sheet(
    outcome: Outcome,
    leg_index: int,
    *,
    page_number: int,
    page_count: int,
    measure: Measure,
    elsewhere: Elsewhere | None = None,
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
    elsewhere : Elsewhere or None
        Where what does not fit is found; None says the plan file.
    """
    plan = outcome.plan.legs[leg_index]
    upper = _upper(outcome, plan, measure, elsewhere)
    strip = make_strip(outcome, leg_index, frame=upper.strip_room, measure=measure)
    key = Rectangle(x_mm=LEFT_MM, y_mm=upper.key_top_mm, width_mm=CONTENT_MM, height_mm=KEY_MM)
    craft_height_m = outcome.coverage.settings.craft_height_m
    words = leg_sections(outcome, plan, elsewhere=elsewhere)
    return Page(
        width_mm=WIDTH_MM,
        height_mm=HEIGHT_MM,
        items=(
            *head_line(outcome, page_number=page_number, page_count=page_count, measure=measure),
            *upper.items,
            *upper.foot,
            *strip.items,
            *strip_key(
                key,
                craft_height_m=craft_height_m,
                measure=measure,
                paints=outcome.coverage.budget is not None,
            ),
            *section_items(words, upper.words_room, measure),
        ),
        name=leg_title(outcome, leg_index),
    )


def leg_title(outcome: Outcome, leg_index: int) -> str:
    """Which leg a sheet is of."""
    if outcome.leaves is not None:
        return title(outcome.leaves)
    return Say.LEG_OF.format(number=leg_index + 1, count=len(outcome.plan.legs))


def coverage_of(outcome: Outcome, leg_index: int) -> LegCoverage:
    """Coverage of one leg."""
    return next(leg for leg in outcome.coverage.legs if leg.leg_index == leg_index)


def _leg_head(outcome: Outcome, plan: LegPlan, measure: Measure) -> tuple[list[Item], float]:
    """Which leg this is, in large letters, and its course, distance, speed, time and corridor."""
    passage = outcome.plan.passage
    head = leg_title(outcome, plan.leg_index)
    names = Say.FROM_TO.format(
        start=passage.waypoints[plan.leg_index].name,
        stop=passage.waypoints[plan.leg_index + 1].name,
    )
    title_mm = measure.width_mm(head, size_pt=17.0, is_bold=True)
    lines, size_pt = set_in(
        names,
        CONTENT_MM - title_mm - 40.0,
        measure,
        sizes_pt=(13.0, 12.0, 11.0, 10.0, BODY_PT),
        is_bold=True,
    )
    # The last line stands level with the title; past two lines all move down.
    y = TOP_MM + 12.4 + max(0, len(lines) - 2) * line_mm(size_pt)
    items: list[Item] = [
        Text(x_mm=LEFT_MM, y_mm=y, text=head, size_pt=17.0, is_bold=True),
        *(
            Text(
                x_mm=LEFT_MM + title_mm + 5.0,
                y_mm=y - (len(lines) - 1 - number) * line_mm(size_pt),
                text=line,
                size_pt=size_pt,
                is_bold=True,
            )
            for number, line in enumerate(lines)
        ),
        *revision_items(outcome, plan.leg_index, y, measure),
    ]
    y += 3.4
    for x, words, value in _head_fields(outcome, plan):
        items.append(Text(x_mm=x, y_mm=y + 2.0, text=words, size_pt=BODY_PT, tone=Tone.FAINT_INK))
        items.append(Text(x_mm=x, y_mm=y + 7.6, text=value, size_pt=12.0, is_bold=True))
    return items, y + 9.0


def _head_fields(outcome: Outcome, plan: LegPlan) -> list[tuple[float, str, str]]:
    timetable = outcome.plan.timetable
    zone = times.zone_words(timetable)
    span = times.span(timetable, plan.leg_index, 0.0, plan.distance_m)
    start = timetable.utc_at(plan.leg_index, 0.0)
    day = f"{start.day:02d} " if start is not None else ""
    is_complete = coverage_of(outcome, plan.leg_index).is_complete
    state = Grade(plan.quality.grade).shown if is_complete else str(Say.INCOMPLETE)
    corridor = (
        f"{quantities.cables_number(plan.corridor_port_m)} / "
        f"{quantities.cables_number(plan.corridor_starboard_m)} c"
    )
    if plan.motion is None:
        return [
            (LEFT_MM, str(Say.COURSE), quantities.track(plan.course_deg)),
            (LEFT_MM + 27.0, str(Say.DISTANCE), quantities.distance(plan.distance_m)),
            (LEFT_MM + 52.0, str(Say.SPEED), quantities.speed(plan.speed_mps)),
            (LEFT_MM + 76.0, f"{Say.TIME} {zone}", f"{day}{span}"),
            (LEFT_MM + 114.0, str(Say.CORRIDOR_SIDES), corridor),
            (LEFT_MM + 150.0, str(Say.DATA_QUALITY), state),
        ]
    return [
        (LEFT_MM, str(Say.COURSE), quantities.track(plan.course_deg)),
        (LEFT_MM + 22.5, str(Say.STEER), _steer(plan, plan.motion)),
        (LEFT_MM + 40.0, str(Say.DISTANCE), quantities.distance(plan.distance_m)),
        (LEFT_MM + 61.5, str(Say.SPEED_BOTH), _speeds(plan.motion)),
        (LEFT_MM + 90.0, f"{Say.TIME} {zone}", f"{day}{span}"),
        (LEFT_MM + 125.5, str(Say.CORRIDOR_SIDES), corridor),
        (LEFT_MM + 157.0, str(Say.DATA_QUALITY), state),
    ]


def _steer(plan: LegPlan, motion: LegMotion) -> str:
    return quantities.course(motion.heading_deg(plan.course_deg))


def _speeds(motion: LegMotion) -> str:
    """Through the water, over the ground, in knots."""
    water, ground = (
        quantities.speed(speed).removesuffix(" kn")
        for speed in (motion.water_speed_mps, motion.ground_speed_mps)
    )
    return f"{water} / {ground}"
