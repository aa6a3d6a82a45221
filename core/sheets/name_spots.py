"""Where a name may stand beside a sign on the strip, in how many lines and how large."""

from collections.abc import Iterator

from core.sheets.page import POINT_MM, Anchor, Text, Tone

STRONG_PT = 11.0
WEAK_PT = 9.0
_LEAST_PT = 8.0
_LONG = 8
"""Names of more letters may be broken over lines."""
_NEAR_MM = (0.0, 3.0, 6.0, 10.0, 15.0)
"""How far above or below its sign a name may stand."""


def broken(name: str) -> list[tuple[str, ...]]:
    """Ways to set a name: on one line, on two, on one line a word."""
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


def name_spots(
    x_mm: float,
    y_mm: float,
    size_mm: float,
    name: str,
    is_strong: bool,
    reference: str,
    *,
    first: int = 0,
) -> list[tuple[Text, ...]]:
    """Blocks for a name round a sign, best first.

    Parameters
    ----------
    x_mm, y_mm, size_mm : float
        Middle and size of the sign.
    name : str
        Letter or name.
    is_strong : bool
        Whether the leg uses the object.
    first : int
        0 to begin to the right of the sign, 1 to begin to the left.
    """
    wanted_pt = STRONG_PT if is_strong else WEAK_PT
    sizes = [wanted_pt]
    if len(name) > _LONG:
        sizes += [size for size in (9.0, _LEAST_PT) if size < wanted_pt]
    return [
        _block(lines, place_x, place_y, anchor, size_pt, is_strong, reference)
        for size_pt in sizes
        for lines in broken(name)
        for place_x, place_y, anchor in _places(
            x_mm, y_mm, size_mm, len(lines) * size_pt * POINT_MM * 1.1, first
        )
    ]


def _places(
    x: float, y: float, size: float, high: float, first: int
) -> Iterator[tuple[float, float, Anchor]]:
    """Upper edge and anchored x of a block of a height: beside the sign, above, below, farther."""
    gap = size / 2.0 + 0.8
    sides = [(x + gap, Anchor.START), (x - gap, Anchor.END)]
    if first:
        sides.reverse()
    for side in sides:
        yield side[0], y - high / 2.0, side[1]
    for off in _NEAR_MM:
        yield x, y - gap - high - off, Anchor.MIDDLE
        yield x, y + gap + off, Anchor.MIDDLE
        for side in sides:
            yield side[0], y - gap - high - off, side[1]
            yield side[0], y + gap + off, side[1]
    for off in (3.0, 6.0):
        for place, anchor in sides:
            yield place + (off if anchor is Anchor.START else -off), y - high / 2.0, anchor


def _block(
    lines: tuple[str, ...],
    x: float,
    top: float,
    anchor: Anchor,
    size_pt: float,
    is_strong: bool,
    reference: str,
) -> tuple[Text, ...]:
    step = size_pt * POINT_MM * 1.1
    return tuple(
        Text(
            x_mm=x,
            y_mm=top + step * number + 0.86 * size_pt * POINT_MM,
            text=line,
            size_pt=size_pt,
            anchor=anchor,
            is_bold=is_strong,
            tone=Tone.OBJECT if is_strong else Tone.FAINT_INK,
            on_paper=True,
            reference=reference,
        )
        for number, line in enumerate(lines)
    )
