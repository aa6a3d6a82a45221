"""Names of the bars on the outer edges: letters at their ends, long names turned along them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from core.passage.passage import Side
from core.sheets.labels import Block, Labels
from core.sheets.page import (
    POINT_MM,
    Anchor,
    Area,
    Item,
    Measure,
    Rectangle,
    Stroke,
    Text,
    Tone,
)
from core.sheets.strip_frame import StripFrame
from core.sheets.wrapping import BODY_PT

_LETTERS = 2
"""Names of so many letters stand level at the end of their bar."""
_SPARE_MM = 1.6
_BELOW_MM = (3.3, 6.6, 9.9)


@dataclass(frozen=True, slots=True, kw_only=True)
class BarPart:
    """A bar, or a stretch of one."""

    bar: Rectangle
    is_filled: bool
    is_plain: bool
    """No hatching lies on it."""


class BarNames:
    """Places the names of one side."""

    def __init__(self, frame: StripFrame, side: Side, measure: Measure) -> None:
        outer, water = frame.outer, frame.water
        is_port = side is Side.PORT
        left = outer.x_mm if is_port else water.right_mm
        self._room = Rectangle(
            x_mm=left,
            y_mm=outer.y_mm,
            width_mm=(water.x_mm if is_port else outer.right_mm) - left,
            height_mm=outer.height_mm,
        )
        self._labels = Labels(measure, self._room)
        self._measure = measure
        self._is_port = is_port

    def keep_free(self, item: Item) -> None:
        """Let no name stand on an item."""
        if isinstance(item, Area):
            places = [place for ring in item.rings for place in ring]
        elif isinstance(item, Stroke):
            places = list(item.points)
        else:
            return
        xs, ys = [x for x, _y in places], [y for _x, y in places]
        self._labels.keep_free(
            Rectangle(
                x_mm=min(xs),
                y_mm=min(ys),
                width_mm=max(xs) - min(xs),
                height_mm=max(ys) - min(ys),
            )
        )

    def keep_bars(self, parts: Sequence[BarPart]) -> None:
        """Let no name of another bar stand on these."""
        for part in parts:
            self._labels.keep_free(part.bar)

    def place(
        self,
        name: str,
        short: str,
        parts: Sequence[BarPart],
        *,
        span: Rectangle,
        is_bold: bool,
        reference: str,
    ) -> tuple[Item, ...]:
        """A letter at the end of its bar; a long name along it, else near it, else in short."""
        if len(name) > _LETTERS and (along := self._along(name, parts, reference)) is not None:
            return (along,)
        for words in dict.fromkeys((name, short)):
            found = self._labels.place(self._off_bar(words, span, is_bold, reference))
            if found:
                return found
        along = self._along(short, parts, reference)
        return () if along is None else (along,)

    def _along(self, name: str, parts: Sequence[BarPart], reference: str) -> Text | None:
        """In the longest plain part that holds it, else over hatching on a ground of its own."""
        long_mm = self._measure.width_mm(name, size_pt=BODY_PT, is_bold=True) + _SPARE_MM
        for is_plain in (True, False):
            fitting = [p for p in parts if p.is_plain is is_plain and p.bar.height_mm >= long_mm]
            if fitting:
                part = max(fitting, key=lambda p: p.bar.height_mm)
                is_on_black = part.is_filled and is_plain
                return self._turned(
                    name,
                    part.bar,
                    part.bar.y_mm + part.bar.height_mm / 2.0,
                    reference,
                    tone=Tone.PAPER if is_on_black else Tone.INK,
                    on_paper=not is_plain,
                )
        return None

    def _turned(
        self,
        name: str,
        bar: Rectangle,
        y_mm: float,
        reference: str,
        *,
        tone: Tone = Tone.INK,
        on_paper: bool = False,
    ) -> Text:
        """Read up the page to port and down it to starboard."""
        # Turned text stands beside its baseline: half the height of its capitals to the middle.
        shift = 0.36 * BODY_PT * POINT_MM
        return Text(
            x_mm=bar.x_mm + bar.width_mm / 2.0 + (shift if self._is_port else -shift),
            y_mm=y_mm,
            text=name,
            size_pt=BODY_PT,
            is_bold=True,
            anchor=Anchor.MIDDLE,
            angle_deg=-90.0 if self._is_port else 90.0,
            tone=tone,
            on_paper=on_paper,
            reference=reference,
        )

    def _off_bar(
        self, words: str, span: Rectangle, is_bold: bool, reference: str
    ) -> Iterator[Block]:
        """Level below or above the bar, on more than one height, then turned in its lane."""
        middle = span.x_mm + span.width_mm / 2.0
        wide = self._measure.width_mm(words, size_pt=BODY_PT, is_bold=is_bold)
        low, high = self._room.x_mm + wide / 2.0, self._room.right_mm - wide / 2.0
        middles = (middle,) if low > high else (min(max(middle, low), high), middle)
        for below in _BELOW_MM:
            for y in (span.bottom_mm + below, span.y_mm - below + 2.4):
                for x in middles:
                    text = Text(
                        x_mm=x,
                        y_mm=y,
                        text=words,
                        size_pt=BODY_PT,
                        is_bold=is_bold,
                        anchor=Anchor.MIDDLE,
                        reference=reference,
                    )
                    yield Block(texts=(text,))
        for y in (span.bottom_mm + 1.0 + wide / 2.0, span.y_mm - 1.0 - wide / 2.0):
            yield Block(texts=(self._turned(words, span, y, reference),))
