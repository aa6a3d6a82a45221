"""Names of marks along their bars: turned, in the longest piece that holds them."""

from collections.abc import Iterable

from core.passage.passage import Side
from core.sheets.page import POINT_MM, Anchor, Measure, Rectangle, Text, Tone

_SIZE_PT = 8.0
_SPARE_MM = 2.0


def initials(name: str) -> str:
    """A letter as it is; first letters of the words of a longer name, at most three."""
    if len(name) <= 2:
        return name
    words = name.split()
    return "".join(word[0] for word in words[:3]) if len(words) > 1 else name[:3]


def bar_name(
    name: str,
    parts: Iterable[tuple[Rectangle, bool]],
    *,
    side: Side,
    reference: str,
    measure: Measure,
) -> Text | None:
    """A name read up the page to port and down the page to starboard, in the middle of a bar.

    Parameters
    ----------
    parts : iterable of (Rectangle, bool)
        Plain parts of bars and whether they are filled: there the name stands white on black.

    Returns
    -------
    Text or None
        None where no part is long enough.
    """
    long_mm = measure.width_mm(name, size_pt=_SIZE_PT, is_bold=True) + _SPARE_MM
    longest = max(parts, key=lambda part: part[0].height_mm, default=None)
    if longest is None or longest[0].height_mm < long_mm:
        return None
    bar, is_filled = longest
    # Turned text stands beside its baseline: half the height of its capitals brings it to middle.
    shift = 0.36 * _SIZE_PT * POINT_MM
    is_port = side is Side.PORT
    return Text(
        x_mm=bar.x_mm + bar.width_mm / 2.0 + (shift if is_port else -shift),
        y_mm=bar.y_mm + bar.height_mm / 2.0,
        text=name,
        size_pt=_SIZE_PT,
        is_bold=True,
        anchor=Anchor.MIDDLE,
        angle_deg=-90.0 if is_port else 90.0,
        tone=Tone.PAPER if is_filled else Tone.INK,
        reference=reference,
    )
