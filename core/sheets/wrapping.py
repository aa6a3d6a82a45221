"""Text broken into lines no wider than its room, numbers never parted from their units."""

import re
from collections.abc import Iterator, Sequence

from core.sheets.page import POINT_MM, Measure

BODY_PT = 9.0
"""Least size of letters on a sheet (trade note 9.2)."""
LEADING = 1.22
"""Height of a line as a multiple of the size of its letters."""

_GLUE = "\N{NO-BREAK SPACE}"
_UNIT = re.compile(
    r"(?<=[\d°′]) (?=(?:NM|m|min|kn|h|c|%|T|[NSEW])(?![\w])|\d\d\.\d\d′)|(?<=page) (?=\d)"
)
"""The space between a number and its unit, inside a latitude or longitude, before a page."""


def line_mm(size_pt: float) -> float:
    """Height of one line, mm."""
    return size_pt * POINT_MM * LEADING


def wrap(
    text: str,
    width_mm: float,
    measure: Measure,
    *,
    size_pt: float = BODY_PT,
    is_bold: bool = False,
    first_mm: float | None = None,
) -> tuple[str, ...]:
    """Lines no wider than a width; a word that is wider by itself is broken.

    Parameters
    ----------
    text : str
        One paragraph.
    width_mm : float
        Greatest width of a line, mm, > 0.
    first_mm : float or None
        Room of the first line where something stands before it; it stays empty where no word
        fits.
    """

    def is_wider(words: str, room_mm: float) -> bool:
        return measure.width_mm(words, size_pt=size_pt, is_bold=is_bold) > room_mm

    lines: list[str] = []
    line = ""
    room = width_mm if first_mm is None else first_mm
    for word in _words(text, width_mm, measure, size_pt, is_bold):
        longer = f"{line} {word}" if line else word
        if is_wider(longer, room) and (line or (not lines and first_mm is not None)):
            lines.append(line)
            line, room = word, width_mm
        else:
            line = longer
    if line:
        lines.append(line)
    return tuple(one.replace(_GLUE, " ") for one in lines)


def _words(
    text: str, width_mm: float, measure: Measure, size_pt: float, is_bold: bool
) -> Iterator[str]:
    """Words of a text with their units, those wider than the column in pieces."""

    def fits(piece: str) -> bool:
        return measure.width_mm(piece, size_pt=size_pt, is_bold=is_bold) <= width_mm

    for glued in _UNIT.sub(_GLUE, " ".join(text.split())).split(" "):
        for word in (glued,) if fits(glued) else glued.split(_GLUE):
            rest = word
            while len(rest) > 1 and not fits(rest):
                count = len(rest) - 1
                while count > 1 and not fits(rest[:count]):
                    count -= 1
                yield rest[:count]
                rest = rest[count:]
            if rest:
                yield rest


def set_in(
    text: str,
    width_mm: float,
    measure: Measure,
    *,
    sizes_pt: Sequence[float],
    is_bold: bool = False,
    most_lines: int = 1,
) -> tuple[tuple[str, ...], float]:
    """A text as large as it can be in so many lines; in the least size as many as it needs.

    Returns
    -------
    (tuple of str, float)
        Lines and their size in points. Nothing is ever cut.
    """
    laid: tuple[str, ...] = ()
    size_pt = sizes_pt[-1]
    for size_pt in sizes_pt:
        laid = wrap(text, width_mm, measure, size_pt=size_pt, is_bold=is_bold)
        is_whole = " ".join(laid) == " ".join(text.split())
        if len(laid) <= most_lines and is_whole:
            break
    return laid, size_pt
