"""Words at the lines of the strip: object and range at each index line, time at the wheel-over."""

import math
from collections.abc import Iterator

from core.passage.passage import Side
from core.plan.plan_result import IndexLine, LegPlan, Limit, Role
from core.sheets.labels import Labels
from core.sheets.name_spots import broken
from core.sheets.page import POINT_MM, Anchor, Text, Tone
from core.sheets.strip_frame import StripFrame
from core.sheets.strip_lines import LABEL_PT, LETTER_PT, STYLES, line_reference, signed_m
from core.words import quantities
from core.words.messages import Say

_SHARES = (0.12, 0.25, 0.38, 0.75, 0.88, 0.5, 0.62, 0.02)
"""How far up its line a label may stand."""
_LONG = 3
"""Longer names than this stand over their range instead of before it."""


def line_labels(frame: StripFrame, plan: LegPlan, labels: Labels) -> Iterator[Text]:
    """Object and cross-index range at each line, outside it where there is room."""
    for line in plan.lines:
        cross_m = signed_m(line)
        if line.role is Role.WHEEL_OVER or abs(cross_m) > frame.half_width_m:
            continue
        yield from labels.place(list(_along_line(frame, plan, line, cross_m)))


def line_words(line: IndexLine) -> str:
    """What stands beside a line: ``A  1.20``, ``A NLT 0.90`` (the trade's short form)."""
    gap = " " if line.limit is not None else "  "
    return f"{line.object.id}{gap}{_range_words(line)}"


def _range_words(line: IndexLine) -> str:
    if line.limit is None:
        return quantities.index_number(line.cross_index_range_m, line.range_scale_m)
    number = quantities.margin_number(line.cross_index_range_m, line.limit, line.range_scale_m)
    short = Say.NOT_LESS_SHORT if line.limit is Limit.NOT_LESS_THAN else Say.NOT_MORE_SHORT
    return f"{short} {number}"


def _ways(line: IndexLine) -> list[tuple[str, ...]]:
    """Ways to set the words: on one line, or a long name over its range; at last the range."""
    if len(line.object.id) <= _LONG:
        return [(line_words(line),)]
    over = [(*lines, _range_words(line)) for lines in broken(line.object.id)]
    return [(line_words(line),), *over, (_range_words(line),)]


def _along_line(
    frame: StripFrame, plan: LegPlan, line: IndexLine, cross_m: float
) -> Iterator[tuple[Text, ...]]:
    is_margin = line.role is Role.MARGIN
    outward = math.copysign(1.0, cross_m) * (-1.0 if is_margin else 1.0)
    low = frame.y_mm(frame.clamp_along(line.from_along_m))
    high = frame.y_mm(frame.clamp_along(line.to_along_m))
    x = frame.x_mm(cross_m)
    size_pt = LABEL_PT if is_margin else LETTER_PT
    for lines in _ways(line):
        for share in _SHARES:
            y = low + (high - low) * share
            for direction in (outward, -outward):
                yield tuple(
                    Text(
                        x_mm=x + direction * 1.2,
                        y_mm=y + number * size_pt * POINT_MM * 1.1,
                        text=words,
                        size_pt=size_pt,
                        is_bold=line.role is Role.PRIMARY,
                        anchor=Anchor.START if direction > 0.0 else Anchor.END,
                        tone=STYLES[line.role][0],
                        on_paper=True,
                        reference=line_reference(plan, line),
                    )
                    for number, words in enumerate(lines)
                )


def wheel_over_label(
    frame: StripFrame, words: str, along_m: float, labels: Labels
) -> tuple[Text, ...]:
    """The words at the wheel-over line, beside the spine."""
    y = frame.y_mm(along_m)
    candidates = []
    for side, anchor, sign in (
        (Side.STARBOARD, Anchor.START, 1.0),
        (Side.PORT, Anchor.END, -1.0),
    ):
        for offset in (4.2, -1.6, 8.0, -5.0):
            candidates.append(
                Text(
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
            )
    return labels.place(candidates)
