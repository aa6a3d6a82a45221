"""The picture of a strip and the map of its things, made off the GUI thread."""

from dataclasses import dataclass, field

from PySide6.QtCore import QPointF
from PySide6.QtGui import QImage

from app.paint.measure import QtMeasure
from app.paint.page_image import page_image
from app.paint.palette import Palette
from app.state.document import Document
from core.base.errors import LegsheetError
from core.plan.outcome import Outcome
from core.sheets.page import Place, Rectangle
from core.sheets.strip_block import Strip, make_strip
from core.sheets.strip_map import StripMap

PX_PER_MM = 4.1
"""Pixels a millimetre of the page: 9 point text is 13 pixels high."""
_MOST_KEPT = 8


@dataclass(frozen=True, slots=True)
class StripAsk:
    """What strip is wanted, and how."""

    outcome: Outcome = field(compare=False)
    leg_index: int
    width_px: int
    height_px: int
    device_ratio: float
    half_width_m: float | None
    """Distance from the track to each edge; None as on the sheet."""
    colours: Palette = field(compare=False)

    @property
    def room(self) -> Rectangle:
        """The page that the strip fills, mm."""
        return Rectangle(
            x_mm=0.0,
            y_mm=0.0,
            width_mm=self.width_px / PX_PER_MM,
            height_mm=self.height_px / PX_PER_MM,
        )


@dataclass(frozen=True, slots=True, eq=False)
class DrawnStrip:
    """A strip that was drawn: what for, its picture and where its things are."""

    ask: StripAsk
    strip: Strip
    things: StripMap
    image: QImage


class Shelf:
    """The last few strips that were drawn, so that going back to a leg shows it at once."""

    def __init__(self) -> None:
        self._drawn: list[DrawnStrip] = []

    def put(self, drawn: DrawnStrip) -> None:
        """Keep a strip; the oldest gives way, and all of another plan or palette."""
        self._drawn = [
            one
            for one in self._drawn
            if one.ask != drawn.ask
            and one.ask.outcome is drawn.ask.outcome
            and one.ask.colours is drawn.ask.colours
        ][-_MOST_KEPT + 1 :]
        self._drawn.append(drawn)

    def get(self, ask: StripAsk) -> DrawnStrip | None:
        """The strip that was drawn for the same, if it is kept."""
        for one in self._drawn:
            if one.ask == ask and one.ask.outcome is ask.outcome and one.ask.colours is ask.colours:
                return one
        return None


def source_of(document: Document) -> Outcome | None:
    """What the strip of the chosen leg is drawn from: the plan, or without one first results."""
    return document.outcome or document.first_legs.drawn(document.leg_index)


def serves_meanwhile(drawn: DrawnStrip | None, document: Document) -> bool:
    """Whether a picture may stay until the one that is being drawn takes its place."""
    passage, leg_index = document.passage, document.leg_index
    if drawn is None or passage is None or drawn.ask.leg_index != leg_index:
        return False
    before = drawn.ask.outcome.plan.passage
    return max(leg_index, 0) < min(len(before.legs), len(passage.legs)) and before.line(
        leg_index
    ) == passage.line(leg_index)


def draw_strip(ask: StripAsk) -> DrawnStrip:
    """The strip of the printed sheet in the room of the window: items, picture, map."""
    measure = QtMeasure()
    room = ask.room
    strip = make_strip(
        ask.outcome,
        ask.leg_index,
        frame=room,
        measure=measure,
        cross_half_width_m=ask.half_width_m,
    )
    image = page_image(
        strip.items,
        width_mm=room.width_mm,
        height_mm=room.height_mm,
        px_per_mm=PX_PER_MM,
        ratio=ask.device_ratio,
        colours=ask.colours,
    )
    return DrawnStrip(ask, strip, StripMap.of(strip, measure), image)


def page_place(at: QPointF) -> Place:
    """The place on the page under a pixel of the widget."""
    return at.x() / PX_PER_MM, at.y() / PX_PER_MM


def raised(error: LegsheetError) -> None:
    """No strip fails for a reason of the officer's: whatever does is shown as a fault."""
    raise error
