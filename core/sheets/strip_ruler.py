"""The ruler up the spine: distance to go on the port side, time on the starboard side."""

from collections.abc import Iterator, Sequence

import numpy as np

from core.base.units import m_from_nm, nm_from_m
from core.passage.passage import Side
from core.passage.timetable import Timetable
from core.plan.plan_result import LegPlan
from core.sheets.labels import Block
from core.sheets.page import (
    Anchor,
    Dash,
    Item,
    Measure,
    Rectangle,
    Shape,
    Stroke,
    Symbol,
    Text,
    Tone,
    box,
    outline,
)
from core.sheets.strip_frame import StripFrame
from core.sheets.wrapping import wrap
from core.words import quantities, times
from core.words.messages import Say

_SIZE_PT = 9.0
_LINE_MM = 3.6
_STEPS_NM = (0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0)
_LEAST_GAP_MM = 8.0
_CHIP_MM = 4.6
_CHIP_STEPS = 30
"""A chip moves by half a millimetre a step from its place."""


def spine(frame: StripFrame) -> Iterator[Item]:
    """The band itself and the line of the track up its middle."""
    left = frame.spine_edge_mm(Side.PORT)
    yield box(
        Rectangle(
            x_mm=left,
            y_mm=frame.water.y_mm,
            width_mm=frame.spine_mm,
            height_mm=frame.water.height_mm,
        ),
        Tone.SPINE,
    )


def track_line(frame: StripFrame, plan: LegPlan) -> Iterator[Item]:
    """The planned track from waypoint to waypoint, with an arrow for the way."""
    for side in Side:
        x = frame.spine_edge_mm(side)
        yield Stroke(
            points=((x, frame.water.y_mm), (x, frame.water.bottom_mm)),
            width_mm=0.12,
            tone=Tone.RULE,
        )
    yield Stroke(
        points=(frame.place(0.0, 0.0), frame.place(plan.distance_m, 0.0)),
        width_mm=0.6,
        tone=Tone.TRACK,
        reference="track",
    )
    yield Symbol(
        x_mm=frame.middle_mm,
        y_mm=frame.y_mm(0.0) - 4.0,
        shape=Shape.ARROW_UP,
        size_mm=3.0,
        tone=Tone.TRACK,
    )
    for along_m in (0.0, plan.distance_m):
        yield Symbol(
            x_mm=frame.middle_mm,
            y_mm=frame.y_mm(along_m),
            shape=Shape.SQUARE,
            size_mm=2.0,
            tone=Tone.TRACK,
            reference=f"waypoint:{plan.leg_index + (0 if along_m == 0.0 else 1)}",
        )


def step_m(plan: LegPlan, frame: StripFrame) -> float:
    """Distance between figures: the shortest round one that leaves room to read."""
    for step_nm in _STEPS_NM:
        if m_from_nm(step_nm) * frame.along_mm_per_m >= _LEAST_GAP_MM:
            return m_from_nm(step_nm)
    return max(m_from_nm(_STEPS_NM[-1]), plan.distance_m)


def ruler(
    frame: StripFrame,
    plan: LegPlan,
    timetable: Timetable,
    aborts: Sequence[tuple[float, str, str]] = (),
) -> Iterator[Item]:
    """Ticks with distance to go and time; scales; abort points; pre-alerts; wheel-over.

    ``aborts`` are abort points of the leg: m along, words and reference.
    """
    taken: list[tuple[float, float]] = []
    yield from _wheel_over(frame, plan, timetable, taken)
    before = len(taken)
    for along_m, words, reference in aborts:
        y = frame.y_mm(along_m)
        yield from _chip(frame, words, y, y, reference, taken)
    yield from _scales(frame, plan, taken)
    chips = taken[before:]
    step = step_m(plan, frame)
    decimals = 1 if step >= m_from_nm(0.1) else 2
    # The start of the leg before the round figure nearest to it.
    start_y = frame.y_mm(0.0)
    if not _is_taken(taken, start_y):
        yield _figure(frame, start_y, quantities.miles(plan.distance_m, decimals), Side.PORT)
        yield _figure(frame, start_y, times.when(timetable, plan.leg_index, 0.0), Side.STARBOARD)
        taken.append((start_y - 1.8, start_y + 1.8))
    fine = step / 5.0 if nm_from_m(step) >= 0.5 else step / 2.0
    for to_go in np.arange(0.0, plan.distance_m + 1.0, fine):
        y = frame.y_mm(plan.distance_m - float(to_go))
        if any(low < y < high for low, high in chips):
            continue
        is_figure = abs(to_go / step - round(to_go / step)) < 1e-6
        half = 1.6 if is_figure else 0.7
        yield Stroke(
            points=((frame.middle_mm - half, y), (frame.middle_mm + half, y)),
            width_mm=0.3 if is_figure else 0.12,
            tone=Tone.TRACK,
        )
        if not is_figure or _is_taken(taken, y):
            continue
        along_m = plan.distance_m - float(to_go)
        yield _figure(frame, y, quantities.miles(float(to_go), decimals), Side.PORT)
        yield _figure(frame, y, times.when(timetable, plan.leg_index, along_m), Side.STARBOARD)
        taken.append((y - 1.8, y + 1.8))


def _figure(frame: StripFrame, y: float, text: str, side: Side, is_bold: bool = False) -> Text:
    """A figure beside the track, its middle level with the tick."""
    offset = -2.2 if side is Side.PORT else 2.2
    return Text(
        x_mm=frame.middle_mm + offset,
        y_mm=y + 1.15,
        text=text,
        size_pt=_SIZE_PT,
        is_bold=is_bold,
        anchor=Anchor.END if side is Side.PORT else Anchor.START,
    )


def _is_taken(taken: list[tuple[float, float]], y: float) -> bool:
    return any(y + 1.8 > low and y - 1.8 < high for low, high in taken)


def _wheel_over(
    frame: StripFrame, plan: LegPlan, timetable: Timetable, taken: list[tuple[float, float]]
) -> Iterator[Item]:
    turn = plan.wheel_over
    if turn is None or not frame.holds_along(turn.along_m):
        return
    y = frame.y_mm(turn.along_m)
    left, right = frame.spine_edge_mm(Side.PORT), frame.spine_edge_mm(Side.STARBOARD)
    yield Stroke(
        points=((left, y), (right, y)),
        width_mm=0.45,
        tone=Tone.WHEEL_OVER,
        dash=Dash.PECKED,
        reference="wheel-over",
    )
    lift = -2.6
    before = quantities.distance_before_waypoint(turn.distance_before_waypoint_m)
    before = before.removesuffix(" NM")
    yield _figure(frame, y - lift, before, Side.PORT, is_bold=True)
    moment = times.when_early(timetable, plan.leg_index, turn.along_m)
    yield _figure(frame, y - lift, moment, Side.STARBOARD, is_bold=True)
    taken.append((y - 0.6, y - lift + 1.8))
    for alert_m in turn.pre_alert_along_m:
        yield Symbol(
            x_mm=frame.middle_mm,
            y_mm=frame.y_mm(alert_m),
            shape=Shape.TRIANGLE_UP,
            size_mm=1.8,
            tone=Tone.WHEEL_OVER,
            is_filled=False,
            reference="wheel-over",
        )


def _scales(frame: StripFrame, plan: LegPlan, taken: list[tuple[float, float]]) -> Iterator[Item]:
    """A chip at the start of each stretch of the main radar's scale, across the spine.

    A chip gives way to what stands there already and then points to its place; where there is no
    room near by it is left to the list of scales beside the strip.
    """
    last = ""
    main = [stretch for stretch in plan.scales if stretch.radar == plan.scales[0].radar]
    for stretch in main:
        words = Say.SCALE_CHIP.format(scale=quantities.scale(stretch.scale_m))
        if words == last or not frame.holds_along(stretch.from_along_m):
            continue
        last = words
        y = frame.y_mm(max(0.0, stretch.from_along_m))
        # The first chip stands below the waypoint, later ones centred on the place of change.
        wanted = y + 4.4 if stretch.from_along_m <= 0.0 else y
        yield from _chip(frame, words, y, wanted, "scale", taken)


def _chip(
    frame: StripFrame,
    words: str,
    y: float,
    wanted: float,
    reference: str,
    taken: list[tuple[float, float]],
) -> Iterator[Item]:
    """Words in a box across the spine about ``y``, nothing where there is no room near by."""
    middle = _free_middle(frame, wanted, taken)
    if middle is None:
        return
    chip = Rectangle(
        x_mm=frame.middle_mm - 12.5,
        y_mm=middle - _CHIP_MM / 2.0,
        width_mm=25.0,
        height_mm=_CHIP_MM,
    )
    if middle != wanted:
        # Along the inner edge of the spine from the chip to its place.
        x = frame.middle_mm - 13.2
        yield Stroke(
            points=((chip.x_mm, middle), (x, middle), (x, y), (chip.x_mm + 2.0, y)),
            width_mm=0.2,
            tone=Tone.INK,
        )
    yield box(chip, Tone.PAPER)
    yield outline(chip, width_mm=0.25, tone=Tone.INK, reference=reference)
    yield Text(
        x_mm=frame.middle_mm,
        y_mm=middle + 1.15,
        text=words,
        size_pt=_SIZE_PT,
        is_bold=True,
        anchor=Anchor.MIDDLE,
        reference=reference,
    )
    taken.append((chip.y_mm, chip.bottom_mm))


def _free_middle(
    frame: StripFrame, wanted: float, taken: list[tuple[float, float]]
) -> float | None:
    """The place nearest to the wanted one where a chip lies on nothing else, if there is one."""
    half = _CHIP_MM / 2.0
    for step in range(_CHIP_STEPS):
        for middle in (wanted - 0.5 * step, wanted + 0.5 * step):
            low, high = middle - half, middle + half
            is_inside = low >= frame.water.y_mm and high <= frame.water.bottom_mm
            if is_inside and all(high <= start or low >= stop for start, stop in taken):
                return middle
    return None


def heads(frame: StripFrame, timetable: Timetable) -> Iterator[Text]:
    """Heads above the two columns of the ruler and the two sides."""
    y = frame.water.y_mm - 1.6
    yield Text(x_mm=frame.middle_mm - 1.2, y_mm=y, text="NM", size_pt=_SIZE_PT, anchor=Anchor.END)
    yield Text(
        x_mm=frame.middle_mm + 1.2, y_mm=y, text=times.zone_short(timetable), size_pt=_SIZE_PT
    )
    for side, words in ((Side.PORT, Say.PORT_SIDE), (Side.STARBOARD, Say.STARBOARD_SIDE)):
        half = frame.half(side)
        yield Text(
            x_mm=half.x_mm + half.width_mm / 2.0,
            y_mm=y,
            text=words,
            size_pt=11.0,
            is_bold=True,
            anchor=Anchor.MIDDLE,
        )


def waypoint_names(
    frame: StripFrame, plan: LegPlan, names: tuple[str, str], measure: Measure
) -> Iterator[list[Block]]:
    """Places for the two waypoint names, beside the spine, level with the waypoint."""
    room = frame.half(Side.PORT).width_mm - 2.0
    for along_m, name in zip((0.0, plan.distance_m), names, strict=True):
        lines = wrap(name, room, measure)
        yield [
            Block(
                texts=tuple(
                    Text(
                        x_mm=frame.spine_edge_mm(side) + sign * 1.0,
                        y_mm=frame.y_mm(along_m) + offset + number * _LINE_MM,
                        text=line,
                        size_pt=_SIZE_PT,
                        anchor=anchor,
                        on_paper=True,
                        reference=f"waypoint:{plan.leg_index + (0 if along_m == 0.0 else 1)}",
                    )
                    for number, line in enumerate(lines)
                )
            )
            for offset in (1.15, 4.5, -2.2, 8.0, -5.7)
            for side, anchor, sign in (
                (Side.PORT, Anchor.END, -1.0),
                (Side.STARBOARD, Anchor.START, 1.0),
            )
        ]


def cursor(frame: StripFrame, along_m: float) -> tuple[Item, ...]:
    """Own ship on the ruler, with a fine line across the water."""
    if not frame.holds_along(along_m):
        return ()
    y = frame.y_mm(along_m)
    return (
        Stroke(
            points=((frame.outer.x_mm, y), (frame.outer.right_mm, y)),
            width_mm=0.2,
            tone=Tone.OWN_SHIP,
            dash=Dash.DOTTED,
            reference="own-ship",
        ),
        Symbol(
            x_mm=frame.middle_mm,
            y_mm=y,
            shape=Shape.OWN_SHIP,
            size_mm=5.0,
            tone=Tone.OWN_SHIP,
            reference="own-ship",
        ),
    )
