"""Where a name may stand at a sign on the strip, in how many lines and how large."""

import math
from collections.abc import Iterator, Sequence

from core.sheets.labels import Block
from core.sheets.page import POINT_MM, Anchor, Place, Stroke, Text, Tone
from core.sheets.wrapping import BODY_PT

STRONG_PT = 11.0
WEAK_PT = BODY_PT
_LONG = 8
"""Names of more letters may be broken over lines."""
_STEP = 1.12
"""From one line to the next as a multiple of the size of the letters."""
_LEADER_MM = (6.0, 9.0, 13.0, 18.0, 24.0, 31.0)
_DIRECTIONS = 16


def broken(name: str) -> list[tuple[str, ...]]:
    """Ways to set a name: on one line, on two, on one line a word; never inside a word."""
    ways: list[tuple[str, ...]] = [(name,)]
    words = name.split()
    if len(name) > _LONG and len(words) > 1:
        best = min(
            range(1, len(words)),
            key=lambda i: max(len(" ".join(words[:i])), len(" ".join(words[i:]))),
        )
        ways.append((" ".join(words[:best]), " ".join(words[best:])))
        if len(words) > 2:
            ways.append(tuple(words))
    return ways


def with_number(name: str, number: str) -> list[tuple[str, ...]]:
    """Ways to set a name with a number after it; the number is never parted from itself."""
    ways: list[tuple[str, ...]] = [(f"{name}  {number}",)]
    for lines in broken(name):
        ways.append((*lines, number))
        if len(lines) > 1:
            ways.append((*lines[:-1], f"{lines[-1]}  {number}"))
    return ways


def near_spots(
    place: Place,
    size_mm: float,
    ways: Sequence[tuple[str, ...]],
    *,
    is_strong: bool,
    is_bold: bool,
    reference: str,
    outward: float,
) -> list[Block]:
    """Blocks right beside a sign: outward, inward, above, below, then at its corners.

    Parameters
    ----------
    place, size_mm
        Middle and size of the sign, mm.
    ways : sequence of tuple of str
        Lines to set, best first.
    outward : float
        1 where the outer edge of the strip lies to the right, -1 where it lies to the left.
    """
    tone = Tone.OBJECT if is_strong else Tone.FAINT_INK
    blocks = []
    for size_pt in _sizes(is_strong):
        step = size_pt * POINT_MM * _STEP
        for lines in ways:
            for x, top, anchor in _beside(place, size_mm, len(lines) * step, outward):
                blocks.append(
                    Block(texts=_lines(lines, (x, top), anchor, size_pt, is_bold, tone, reference))
                )
    return blocks


def led_spots(
    place: Place,
    size_mm: float,
    ways: Sequence[tuple[str, ...]],
    *,
    is_strong: bool,
    is_bold: bool,
    reference: str,
    outward: float,
) -> Iterator[Block]:
    """Blocks farther off with a thin line to the sign, nearest first."""
    tone = Tone.OBJECT if is_strong else Tone.FAINT_INK
    size_pt = _sizes(is_strong)[-1]
    step = size_pt * POINT_MM * _STEP
    # Clear of the box round the sign, at its corners too.
    start_mm = 0.72 * size_mm + 0.2
    for off in _LEADER_MM:
        for lines in ways:
            high = len(lines) * step
            for number in range(_DIRECTIONS):
                # Outward first, then to either side of it in turn.
                turn = (number + 1) // 2 * (1 if number % 2 else -1)
                # Half a step off, since one straight up would lie on the object's own line.
                angle = 2.0 * math.pi * (turn + 0.5) / _DIRECTIONS
                u, v = outward * math.cos(angle), math.sin(angle)
                end = (place[0] + off * u, place[1] + off * v)
                anchor = Anchor.MIDDLE
                if abs(u) > 0.3:
                    anchor = Anchor.START if u > 0.0 else Anchor.END
                x = end[0] + (0.8 * u if abs(u) > 0.3 else 0.0)
                top = end[1] - high / 2.0 + v * (high / 2.0 + 0.6)
                yield Block(
                    texts=_lines(lines, (x, top), anchor, size_pt, is_bold, tone, reference),
                    leader=Stroke(
                        points=(
                            (
                                place[0] + start_mm * u,
                                place[1] + start_mm * v,
                            ),
                            end,
                        ),
                        width_mm=0.15,
                        tone=Tone.OBJECT,
                    ),
                )


def _sizes(is_strong: bool) -> tuple[float, ...]:
    return (STRONG_PT, 10.0, BODY_PT) if is_strong else (WEAK_PT,)


def _beside(
    place: Place, size: float, high: float, outward: float
) -> Iterator[tuple[float, float, Anchor]]:
    """Anchored x and upper edge of a block of a height round a sign."""
    x, y = place
    gap = size / 2.0 + 0.8
    anchors = {1.0: Anchor.START, -1.0: Anchor.END}
    for side in (outward, -outward):
        yield x + side * gap, y - high / 2.0, anchors[side]
    yield x, y - gap - high, Anchor.MIDDLE
    yield x, y + gap, Anchor.MIDDLE
    for off in (0.0, 1.6):
        for side in (outward, -outward):
            yield x + side * off, y - gap - high, anchors[side]
            yield x + side * off, y + gap, anchors[side]


def _lines(
    lines: tuple[str, ...],
    corner: Place,
    anchor: Anchor,
    size_pt: float,
    is_bold: bool,
    tone: Tone,
    reference: str,
) -> tuple[Text, ...]:
    """A block of lines from its upper edge down."""
    x, top = corner
    step = size_pt * POINT_MM * _STEP
    return tuple(
        Text(
            x_mm=x,
            y_mm=top + step * number + 0.86 * size_pt * POINT_MM,
            text=line,
            size_pt=size_pt,
            anchor=anchor,
            is_bold=is_bold,
            tone=tone,
            on_paper=True,
            reference=reference,
        )
        for number, line in enumerate(lines)
    )
