"""The page model: what stands where on a sheet, in millimetres, with no drawing library.

The origin is the upper left corner, x runs right and y down. Items carry a ``tone``, a name for
what they are; the palette of a screen or of paper turns it into a colour or a grey. Items that
stand for something a person can choose carry its ``reference``.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from typing import Protocol

from core.base.arrays import ByteArray, HoldsArrays

POINT_MM = 25.4 / 72.0
"""One typographic point, mm."""

Place = tuple[float, float]
"""x and y on the page, mm."""


class Tone(Enum):
    """What an item is, for the palette to colour."""

    PAPER = "paper"
    INK = "ink"
    FAINT_INK = "faint ink"
    RULE = "rule"
    SHADE = "shade"
    WARNING = "warning"
    SEA = "sea"
    LAND = "land"
    LAND_GRAIN = "grain of land"
    """Of the land itself on a screen; on paper ink, that a copy keeps."""
    COAST_IN_SIGHT = "coast in sight"
    COAST_LAND_BEHIND = "coast hidden, land behind it in sight"
    COAST_HIDDEN = "coast not in sight"
    HIDDEN_WATER = "hidden water"
    NO_DATA = "no data"
    SPINE = "spine"
    TRACK = "track"
    CORRIDOR = "corridor"
    PRIMARY = "primary index line"
    CHECK = "check index line"
    MARGIN = "margin line"
    WHEEL_OVER = "wheel-over"
    OBJECT = "object"
    HAND_OVER = "hand-over"
    INDEX_GAP = "index gap"
    OWN_SHIP = "own ship"


class Dash(Enum):
    """Line styles by name; on paper they carry the meaning, not the grey."""

    SOLID = "solid"
    BROKEN = "broken"
    """Long dashes: margin lines."""
    PECKED = "pecked"
    """Dash and dot: wheel-over lines."""
    FINE = "fine"
    """Short pale dashes: coast not in sight."""
    DOTTED = "dotted"


class Hatch(Enum):
    """Fills drawn as lines and dots by hand; printers turn brush patterns solid."""

    SLANTED = "slanted"
    """Hidden water."""
    CROSSED = "crossed"
    """No data."""
    STIPPLED = "stippled"
    """Land, where a copy loses its grey."""
    LEVEL = "level"
    """Both index lines in use: hand-over."""


class Anchor(Enum):
    """Which end of a text stands at its place."""

    START = "start"
    MIDDLE = "middle"
    END = "end"


class Shape(Enum):
    """Small signs of our own."""

    DOT = "dot"
    RING = "ring"
    DIAMOND = "diamond"
    SQUARE = "square"
    TRIANGLE_UP = "triangle up"
    TRIANGLE_DOWN = "triangle down"
    CROSS = "cross"
    ARROW_UP = "arrow up"
    OWN_SHIP = "own ship"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rectangle:
    """A box on the page, mm."""

    x_mm: float
    y_mm: float
    width_mm: float
    height_mm: float

    @property
    def right_mm(self) -> float:
        """X of the right edge."""
        return self.x_mm + self.width_mm

    @property
    def bottom_mm(self) -> float:
        """Y of the lower edge."""
        return self.y_mm + self.height_mm

    def contains(self, place: Place, *, slack_mm: float = 0.0) -> bool:
        """Whether a place lies in the box, its edges included."""
        x, y = place
        return (
            self.x_mm - slack_mm <= x <= self.right_mm + slack_mm
            and self.y_mm - slack_mm <= y <= self.bottom_mm + slack_mm
        )

    def meets(self, other: "Rectangle") -> bool:
        """Whether two boxes share more than an edge."""
        return (
            self.x_mm < other.right_mm
            and other.x_mm < self.right_mm
            and self.y_mm < other.bottom_mm
            and other.y_mm < self.bottom_mm
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """One line of text; ``y_mm`` is its baseline.

    ``angle_deg`` turns it clockwise about its place. ``on_paper`` clears the ground behind it.
    """

    x_mm: float
    y_mm: float
    text: str
    size_pt: float
    tone: Tone = Tone.INK
    anchor: Anchor = Anchor.START
    is_bold: bool = False
    angle_deg: float = 0.0
    on_paper: bool = False
    reference: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """A line through places."""

    points: tuple[Place, ...]
    width_mm: float
    tone: Tone = Tone.INK
    dash: Dash = Dash.SOLID
    reference: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Area:
    """A polygon, outer ring first, then its holes; filled flat, or hatched."""

    rings: tuple[tuple[Place, ...], ...]
    tone: Tone
    hatch: Hatch | None = None
    reference: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Symbol:
    """A small sign centred on its place."""

    x_mm: float
    y_mm: float
    shape: Shape
    size_mm: float
    tone: Tone = Tone.INK
    is_filled: bool = True
    reference: str = ""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Raster(HoldsArrays):
    """Inks pixel by pixel, spread over a box.

    codes : (H, W) uint8
        ``core.picture.inks.Ink``; the palette gives each its colour.
    """

    room: Rectangle
    codes: ByteArray
    reference: str = ""


Item = Text | Stroke | Area | Symbol | Raster


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """A sheet of paper with its items, drawn in order."""

    width_mm: float
    height_mm: float
    items: tuple[Item, ...]
    name: str = ""
    part: str = ""
    """Title of the part of the book it belongs to."""


def part_titles(pages: Sequence[Page]) -> tuple[str, ...]:
    """Parts of the book that some pages belong to, in their order, each once."""
    return tuple(dict.fromkeys(page.part for page in pages))


class Measure(Protocol):
    """Widths of text in the font that will be used; core itself has no fonts."""

    def width_mm(self, text: str, *, size_pt: float, is_bold: bool = False) -> float:
        """Width of one line of text, mm."""


def corners(rectangle: Rectangle) -> tuple[Place, Place, Place, Place]:
    """Upper left, upper right, lower right, lower left."""
    left, top = rectangle.x_mm, rectangle.y_mm
    right, bottom = rectangle.right_mm, rectangle.bottom_mm
    return (left, top), (right, top), (right, bottom), (left, bottom)


def box(
    rectangle: Rectangle, tone: Tone, *, hatch: Hatch | None = None, reference: str = ""
) -> Area:
    """A filled rectangle."""
    return Area(rings=(corners(rectangle),), tone=tone, hatch=hatch, reference=reference)


def outline(
    rectangle: Rectangle,
    *,
    width_mm: float,
    tone: Tone = Tone.RULE,
    dash: Dash = Dash.SOLID,
    reference: str = "",
) -> Stroke:
    """The edge of a rectangle."""
    ring = corners(rectangle)
    return Stroke(
        points=(*ring, ring[0]), width_mm=width_mm, tone=tone, dash=dash, reference=reference
    )


def text_box(text: Text, measure: Measure) -> Rectangle:
    """The upright box a text takes, from just above its capitals to below its tails."""
    width = measure.width_mm(text.text, size_pt=text.size_pt, is_bold=text.is_bold)
    left = 0.0
    if text.anchor is Anchor.MIDDLE:
        left = -width / 2.0
    elif text.anchor is Anchor.END:
        left = -width
    size_mm = text.size_pt * POINT_MM
    top, bottom = -0.80 * size_mm, 0.22 * size_mm
    # Level text exactly, so that no rounding of a turn by nothing moves it.
    sine, cosine = 0.0, 1.0
    if text.angle_deg:
        sine, cosine = (
            math.sin(math.radians(text.angle_deg)),
            math.cos(math.radians(text.angle_deg)),
        )
    ends = [(u, v) for u in (left, left + width) for v in (top, bottom)]
    xs = [u * cosine - v * sine for u, v in ends]
    ys = [u * sine + v * cosine for u, v in ends]
    return Rectangle(
        x_mm=text.x_mm + min(xs),
        y_mm=text.y_mm + min(ys),
        width_mm=max(xs) - min(xs),
        height_mm=max(ys) - min(ys),
    )
