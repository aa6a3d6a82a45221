"""The leg strip: one drawing of a leg in track coordinates, for screen and paper alike."""

from collections.abc import Iterator
from dataclasses import dataclass

from core.coverage.coverage_result import LegCoverage
from core.plan.outcome import Outcome
from core.plan.plan_result import LegPlan
from core.sheets import line_labels, strip_lines, strip_ruler
from core.sheets.abort_list import aborts_on
from core.sheets.labels import Block, Labels, Over
from core.sheets.object_labels import ObjectLabels
from core.sheets.page import Anchor, Item, Measure, Rectangle, Stroke, Text, Tone, box, outline
from core.sheets.short_names import short_names, used_objects
from core.sheets.strip_bars import bars, edges_mm
from core.sheets.strip_frame import StripFrame, strip_frame
from core.sheets.strip_land import Ground, ground
from core.sheets.strip_waters import emergence_boxes, emergence_marks
from core.words import quantities, times
from core.words.messages import Say

_SIZE_PT = 9.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """A drawn strip: its items from back to front, and the way from page to leg and back."""

    frame: StripFrame
    items: tuple[Item, ...]
    has_hidden_water: bool
    has_no_data: bool


def make_strip(
    outcome: Outcome,
    leg_index: int,
    *,
    frame: Rectangle,
    measure: Measure,
    cross_half_width_m: float | None = None,
    cursor_along_m: float | None = None,
) -> Strip:
    """Draw the strip of one leg.

    Parameters
    ----------
    outcome : Outcome
        The finished plan.
    leg_index : int
        The leg, from 0.
    frame : Rectangle
        Room on the page, mm; nothing is drawn outside it.
    measure : Measure
        Text widths.
    cross_half_width_m : float or None
        Distance from the track to each edge, m; None chooses one.
    cursor_along_m : float or None
        Where own ship stands on the leg, m; None draws no ship.

    Returns
    -------
    Strip
    """
    plan = outcome.plan.legs[leg_index]
    passage = outcome.plan.passage
    line = passage.line(leg_index)
    strip = strip_frame(
        plan, frame, cross_half_width_m=cross_half_width_m, edges_mm=edges_mm(plan, line)
    )
    land = ground(
        strip,
        line,
        outcome.land,
        _coverage_of(outcome, leg_index),
        outcome.coverage.settings.radius_m,
    )
    items: list[Item] = [box(strip.water, Tone.SEA), *strip_ruler.spine(strip)]
    items.extend(land.areas)
    items.extend(land.coast)
    items.extend(strip_lines.corridor(strip, plan))
    items.extend(_turn(strip, outcome, plan))
    items.extend(strip_lines.index_lines(strip, plan))
    items.extend(strip_ruler.track_line(strip, plan))
    items.extend(strip_ruler.ruler(strip, plan, outcome.plan.timetable, aborts_on(outcome, plan)))
    items.extend(emergence_marks(strip, plan))
    items.extend(_labelled(strip, outcome, plan, land, measure))
    items.append(outline(strip.water, width_mm=0.25))
    items.extend(bars(strip, plan, line, measure))
    items.extend(strip_ruler.heads(strip, outcome.plan.timetable))
    items.extend(_foot(strip))
    if cursor_along_m is not None:
        items.extend(strip_ruler.cursor(strip, cursor_along_m))
    return Strip(
        frame=strip,
        items=tuple(items),
        has_hidden_water=land.has_hidden_water,
        has_no_data=land.has_no_data,
    )


def _turn(strip: StripFrame, outcome: Outcome, plan: LegPlan) -> tuple[Item, ...]:
    """The wheel-over and the turn into the next leg, where there is one."""
    passage = outcome.plan.passage
    if plan.wheel_over is None or plan.leg_index + 1 >= len(passage.legs):
        return ()
    line, after = passage.line(plan.leg_index), passage.line(plan.leg_index + 1)
    return tuple(strip_lines.turn(strip, plan, plan.wheel_over, line, after))


def _coverage_of(outcome: Outcome, leg_index: int) -> LegCoverage:
    return next(leg for leg in outcome.coverage.legs if leg.leg_index == leg_index)


def _labelled(
    strip: StripFrame, outcome: Outcome, plan: LegPlan, land: Ground, measure: Measure
) -> list[Item]:
    """Objects and every label on the water, the most needed first."""
    labels = _labels(strip, outcome, plan, land, measure)
    passage = outcome.plan.passage
    line = passage.line(plan.leg_index)
    things = ObjectLabels(strip, plan, line, labels)
    used = used_objects(plan)
    used_ids = {thing.id for thing in used}
    others = [thing for thing in outcome.plan.objects if thing.id not in used_ids]
    floating = [mark for mark in outcome.request.marks if not mark.is_fixed]
    items: list[Item] = list(things.signs(used, floating))
    turn = plan.wheel_over
    if turn is not None:
        moment = times.when_early(outcome.plan.timetable, plan.leg_index, turn.along_m)
        words = f"{moment}  {quantities.course(turn.new_course_deg)}"
        items.extend(line_labels.wheel_over_label(strip, words, turn.along_m, labels))
    names = (
        passage.waypoints[plan.leg_index].name,
        passage.waypoints[plan.leg_index + 1].name,
    )
    for candidates in strip_ruler.waypoint_names(strip, plan, names, measure):
        items.extend(labels.place_as_can_be(candidates))
    items.extend(things.used_names(used))
    shorts = short_names(plan)
    items.extend(line_labels.line_labels(strip, plan, labels, shorts, things.said_lines))
    items.extend(_no_data_words(strip, land, labels, measure))
    items.extend(things.mark_names(floating))
    items.extend(things.others(others))
    return items


def _labels(
    strip: StripFrame, outcome: Outcome, plan: LegPlan, land: Ground, measure: Measure
) -> Labels:
    """The placer, told of the ruler, the lines and the coast."""
    labels = Labels(measure, strip.water)
    labels.keep_free(
        Rectangle(
            x_mm=strip.middle_mm - strip.spine_mm / 2.0,
            y_mm=strip.water.y_mm,
            width_mm=strip.spine_mm,
            height_mm=strip.water.height_mm,
        )
    )
    for room in emergence_boxes(strip, plan):
        labels.keep_free(room)
    strip_lines.keep_lines_clear(strip, plan, labels)
    for stroke in _turn(strip, outcome, plan):
        if isinstance(stroke, Stroke):
            labels.rather_not_cross(stroke.points, Over.LINES)
    for stroke in land.coast:
        if isinstance(stroke, Stroke) and stroke.tone is not Tone.COAST_HIDDEN:
            labels.rather_not_cross(stroke.points, Over.COAST)
    return labels


def _no_data_words(
    strip: StripFrame, land: Ground, labels: Labels, measure: Measure
) -> Iterator[Item]:
    half_words = measure.width_mm(Say.NO_DATA, size_pt=11.0, is_bold=True) / 2.0 + 0.8
    for x, y in land.no_data_places:
        words_at = [
            Text(
                x_mm=min(max(x, strip.water.x_mm + half_words), strip.water.right_mm - half_words),
                y_mm=y + shift,
                text=Say.NO_DATA,
                size_pt=11.0,
                is_bold=True,
                anchor=Anchor.MIDDLE,
                tone=Tone.NO_DATA,
                on_paper=True,
            )
            for shift in (1.4, 6.0, -4.0)
        ]
        yield from labels.place_as_can_be([Block(texts=(text,)) for text in words_at])


def _foot(strip: StripFrame) -> list[Item]:
    """How much the strip is stretched and how wide it is, under the water."""
    ratio = strip.stretch_ratio
    if abs(ratio - 1.0) < 0.05:
        words = str(Say.SAME_SCALE)
    elif ratio > 1.0:
        words = Say.STRETCHED.format(factor=quantities.factor(ratio))
    else:
        words = Say.PRESSED.format(factor=quantities.factor(ratio))
    width = Say.ACROSS_HALF.format(distance=quantities.scale(strip.half_width_m))
    return [
        Text(
            x_mm=strip.middle_mm,
            y_mm=strip.water.bottom_mm + 4.4,
            text=f"{words}, {width}",
            size_pt=_SIZE_PT,
            anchor=Anchor.MIDDLE,
            reference="stretch",
        )
    ]
