"""Words at the lines of the strip: object and range along each line, time at the wheel-over."""

import math
from collections.abc import Iterator, Mapping

from core.passage.passage import Side
from core.plan.plan_result import IndexLine, LegPlan, Limit, Role
from core.sheets.labels import Block, Labels, Over
from core.sheets.page import POINT_MM, Anchor, Item, Text, Tone
from core.sheets.short_names import LONG
from core.sheets.strip_frame import StripFrame
from core.sheets.strip_lines import LABEL_PT, LETTER_PT, STYLES, line_reference, signed_m
from core.words import quantities
from core.words.messages import Say

_SHARES = (0.12, 0.25, 0.38, 0.75, 0.88, 0.5, 0.62, 0.02, 0.98)
"""How far up its line a label may stand."""
_GAP_MM = 0.9


def line_labels(
    frame: StripFrame,
    plan: LegPlan,
    labels: Labels,
    shorts: Mapping[str, str],
    is_said: set[str],
) -> Iterator[Item]:
    """Object and cross-index range at each line, margins first; the officer set those.

    Parameters
    ----------
    shorts : mapping of str to str
        Short forms of the objects' names.
    is_said : set of str
        References of lines whose range stands at their object already.
    """
    lines = sorted(plan.lines, key=lambda line: line.role is not Role.MARGIN)
    for line in lines:
        reference = line_reference(plan, line)
        is_outside = abs(signed_m(line)) > frame.half_width_m
        if line.role is Role.WHEEL_OVER or is_outside or reference in is_said:
            continue
        yield from labels.place_as_can_be(list(_along_line(frame, plan, line, shorts)))


def range_words(line: IndexLine) -> str:
    """The range of a line: ``1.20``, a margin ``NLT 0.90`` (the trade's short form)."""
    if line.limit is None:
        return quantities.index_number(line.cross_index_range_m, line.range_scale_m)
    number = quantities.margin_number(line.cross_index_range_m, line.limit, line.range_scale_m)
    short = Say.NOT_LESS_SHORT if line.limit is Limit.NOT_LESS_THAN else Say.NOT_MORE_SHORT
    return f"{short} {number}"


def _along_line(
    frame: StripFrame, plan: LegPlan, line: IndexLine, shorts: Mapping[str, str]
) -> Iterator[Block]:
    """Level beside the line where the name is short, else turned along it; then in short form."""
    name, short = line.object.id, shorts.get(line.object.id, line.object.id)
    gap = " " if line.limit is not None else "  "
    whole, brief = f"{name}{gap}{range_words(line)}", f"{short}{gap}{range_words(line)}"
    size_pt = LABEL_PT if line.role is Role.MARGIN else LETTER_PT
    if len(name) <= LONG:
        yield from _level(frame, plan, line, whole, size_pt)
    yield from _turned(frame, plan, line, whole, LABEL_PT)
    if brief != whole:
        yield from _level(frame, plan, line, brief, size_pt)
        yield from _turned(frame, plan, line, brief, LABEL_PT)
    yield from _level(frame, plan, line, brief, LABEL_PT)


def _ends_mm(frame: StripFrame, line: IndexLine) -> tuple[float, float]:
    """Lower and upper end of a line on the page."""
    return (
        frame.y_mm(frame.clamp_along(line.from_along_m)),
        frame.y_mm(frame.clamp_along(line.to_along_m)),
    )


def _outward(line: IndexLine) -> float:
    """Which side of the line to begin with: index lines outside, margins inside them."""
    return math.copysign(1.0, signed_m(line)) * (-1.0 if line.role is Role.MARGIN else 1.0)


def _level(
    frame: StripFrame, plan: LegPlan, line: IndexLine, words: str, size_pt: float
) -> Iterator[Block]:
    low, high = _ends_mm(frame, line)
    x = frame.x_mm(signed_m(line))
    for share in _SHARES:
        for side in (_outward(line), -_outward(line)):
            yield _block(
                plan,
                line,
                words,
                size_pt,
                x_mm=x + side * 1.2,
                y_mm=low + (high - low) * share,
                anchor=Anchor.START if side > 0.0 else Anchor.END,
            )


def _turned(
    frame: StripFrame, plan: LegPlan, line: IndexLine, words: str, size_pt: float
) -> Iterator[Block]:
    """Read up the page, as the ship runs."""
    low, high = _ends_mm(frame, line)
    x = frame.x_mm(signed_m(line))
    for share in (0.5, *_SHARES):
        for side in (_outward(line), -_outward(line)):
            beyond = 0.80 if side > 0.0 else 0.22
            yield _block(
                plan,
                line,
                words,
                size_pt,
                x_mm=x + side * (_GAP_MM + beyond * size_pt * POINT_MM),
                y_mm=low + (high - low) * share,
                anchor=Anchor.MIDDLE,
                angle_deg=-90.0,
            )


def _block(
    plan: LegPlan,
    line: IndexLine,
    words: str,
    size_pt: float,
    *,
    x_mm: float,
    y_mm: float,
    anchor: Anchor,
    angle_deg: float = 0.0,
) -> Block:
    text = Text(
        x_mm=x_mm,
        y_mm=y_mm,
        text=words,
        size_pt=size_pt,
        is_bold=line.role is Role.PRIMARY,
        anchor=anchor,
        angle_deg=angle_deg,
        tone=STYLES[line.role][0],
        on_paper=True,
        reference=line_reference(plan, line),
    )
    return Block(texts=(text,))


def wheel_over_label(
    frame: StripFrame, words: str, along_m: float, labels: Labels
) -> tuple[Item, ...]:
    """The words at the wheel-over line, beside the spine."""
    y = frame.y_mm(along_m)
    candidates = []
    for offset in (4.2, -1.6, 8.0, -5.0, 11.8, -8.6):
        for side, anchor, sign in (
            (Side.STARBOARD, Anchor.START, 1.0),
            (Side.PORT, Anchor.END, -1.0),
        ):
            text = Text(
                x_mm=frame.spine_edge_mm(side) + sign * 1.2,
                y_mm=y + offset,
                text=f"{Say.WHEEL_OVER_SHORT} {words}",
                size_pt=LABEL_PT,
                is_bold=True,
                anchor=anchor,
                tone=Tone.WHEEL_OVER,
                on_paper=True,
                reference="wheel-over",
            )
            candidates.append(Block(texts=(text,)))
    return labels.place_as_can_be(candidates, Over.LINES)
