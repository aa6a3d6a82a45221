"""Colours and line styles: day, dusk, night and paper. The only place that knows them.

On paper everything is black or grey and line style and words carry the meaning. Land is in stone
greys, the coast in sight in one strong warm line, everything else in quiet ink.
"""

from dataclasses import dataclass, field, replace

from PySide6.QtGui import QColor

from core.sheets.page import Dash, Hatch, Tone

DASHES_MM: dict[Dash, tuple[float, ...]] = {
    Dash.SOLID: (),
    Dash.BROKEN: (4.0, 1.8),
    Dash.PECKED: (2.6, 1.0, 0.5, 1.0),
    Dash.FINE: (0.9, 0.8),
    Dash.DOTTED: (0.35, 0.9),
}
"""Lengths of stroke and gap in turn, mm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HatchStyle:
    """How an area is hatched by hand."""

    angles_deg: tuple[float, ...]
    """Of the lines; none for dots, every second row of them shifted by half a pitch."""
    pitch_mm: float
    pen_mm: float


HATCHES: dict[Hatch, HatchStyle] = {
    Hatch.SLANTED: HatchStyle(angles_deg=(-45.0,), pitch_mm=2.0, pen_mm=0.2),
    Hatch.CROSSED: HatchStyle(angles_deg=(30.0, -30.0), pitch_mm=2.6, pen_mm=0.26),
    Hatch.STIPPLED: HatchStyle(angles_deg=(), pitch_mm=2.4, pen_mm=0.4),
    Hatch.LEVEL: HatchStyle(angles_deg=(0.0,), pitch_mm=1.2, pen_mm=0.35),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Palette:
    """A colour for each tone."""

    name: str
    colours: dict[Tone, str] = field(repr=False)
    strong_share: float = 0.78
    """How much of the coast's colour a strong echo takes, the rest water."""

    def colour(self, tone: Tone) -> QColor:
        """The colour of a tone; ink for one the palette does not name."""
        return QColor(self.colours.get(tone, self.colours[Tone.INK]))

    def dimmed(self, share: float) -> "Palette":
        """The same colours giving a share of their light; contrasts stay what they are."""
        if share >= 1.0:
            return self
        return replace(
            self, colours={tone: _dimmed(colour, share) for tone, colour in self.colours.items()}
        )


def _dimmed(colour: str, share: float) -> str:
    """A colour whose light is a share of what it was: 2.2 is what screens turn values into."""
    channels = (int(colour[i : i + 2], 16) for i in (1, 3, 5))
    return "#" + "".join(f"{int(channel * share ** (1.0 / 2.2)):02x}" for channel in channels)


PAPER = Palette(
    name="paper",
    colours={
        Tone.PAPER: "#ffffff",
        Tone.INK: "#000000",
        Tone.FAINT_INK: "#000000",  # grey letters and fine lines break up on a photocopy
        Tone.RULE: "#000000",
        Tone.SHADE: "#e8e8e8",
        Tone.WARNING: "#000000",
        Tone.SEA: "#ffffff",
        Tone.LAND: "#d0d0d0",
        Tone.LAND_GRAIN: "#000000",
        Tone.COAST_IN_SIGHT: "#000000",
        Tone.COAST_LAND_BEHIND: "#000000",
        Tone.COAST_HIDDEN: "#000000",
        Tone.HIDDEN_WATER: "#000000",
        Tone.NO_DATA: "#000000",
        Tone.SPINE: "#ffffff",
        Tone.TRACK: "#000000",
        Tone.CORRIDOR: "#000000",
        Tone.INDEX_GAP: "#000000",
    },
    strong_share=1.0,  # a dark grey is broken up into dots, much like the hatch of a gap
)

DAY = Palette(
    name="day",
    colours={
        Tone.PAPER: "#fbfaf7",
        Tone.INK: "#22252a",
        Tone.FAINT_INK: "#6a6d70",
        Tone.RULE: "#a9a8a2",
        Tone.SHADE: "#ecebe6",
        Tone.WARNING: "#a8281c",
        Tone.SEA: "#f2f3f1",
        Tone.LAND: "#c4c0b8",
        Tone.LAND_GRAIN: "#c4c0b8",
        Tone.COAST_IN_SIGHT: "#b4471f",
        Tone.COAST_LAND_BEHIND: "#8a7468",
        Tone.COAST_HIDDEN: "#98948c",
        Tone.HIDDEN_WATER: "#8d969c",
        Tone.NO_DATA: "#6b3fa0",
        Tone.SPINE: "#fbfaf7",
        Tone.TRACK: "#22252a",
        Tone.CORRIDOR: "#84888c",
        Tone.PRIMARY: "#15324f",
        Tone.CHECK: "#3d5f80",
        Tone.MARGIN: "#15324f",
        Tone.WHEEL_OVER: "#15324f",
        Tone.OBJECT: "#15324f",
        Tone.HAND_OVER: "#15324f",
        Tone.INDEX_GAP: "#a8281c",
        Tone.OWN_SHIP: "#0d6b4f",
    },
)

DUSK = Palette(
    name="dusk",
    colours={
        Tone.PAPER: "#2b2d30",
        Tone.INK: "#cfccc4",
        Tone.FAINT_INK: "#918f89",
        Tone.RULE: "#55575a",
        Tone.SHADE: "#35383b",
        Tone.WARNING: "#e08a6c",
        Tone.SEA: "#26282b",
        Tone.LAND: "#4b4a47",
        Tone.LAND_GRAIN: "#4b4a47",
        Tone.COAST_IN_SIGHT: "#e08850",
        Tone.COAST_LAND_BEHIND: "#96806f",
        Tone.COAST_HIDDEN: "#77746e",
        Tone.HIDDEN_WATER: "#646d74",
        Tone.NO_DATA: "#a98bd0",
        Tone.SPINE: "#2b2d30",
        Tone.TRACK: "#cfccc4",
        Tone.CORRIDOR: "#7d8083",
        Tone.PRIMARY: "#a9c4dd",
        Tone.CHECK: "#7f9db8",
        Tone.MARGIN: "#a9c4dd",
        Tone.WHEEL_OVER: "#a9c4dd",
        Tone.OBJECT: "#a9c4dd",
        Tone.HAND_OVER: "#a9c4dd",
        Tone.INDEX_GAP: "#e08a6c",
        Tone.OWN_SHIP: "#7cc7a6",
    },
)

NIGHT = Palette(
    name="night",
    colours={
        Tone.PAPER: "#0c0b0a",
        Tone.INK: "#8a7d6d",
        Tone.FAINT_INK: "#5e564c",
        Tone.RULE: "#332f2a",
        Tone.SHADE: "#161412",
        Tone.WARNING: "#b05a3c",
        Tone.SEA: "#0a0909",
        Tone.LAND: "#231f1c",
        Tone.LAND_GRAIN: "#231f1c",
        Tone.COAST_IN_SIGHT: "#a85a28",
        Tone.COAST_LAND_BEHIND: "#5c4a3c",
        Tone.COAST_HIDDEN: "#443d36",
        Tone.HIDDEN_WATER: "#3a3c3c",
        Tone.NO_DATA: "#6a5286",
        Tone.SPINE: "#0c0b0a",
        Tone.TRACK: "#8a7d6d",
        Tone.CORRIDOR: "#494540",
        Tone.PRIMARY: "#6f8290",
        Tone.CHECK: "#51616d",
        Tone.MARGIN: "#6f8290",
        Tone.WHEEL_OVER: "#6f8290",
        Tone.OBJECT: "#7d909e",
        Tone.HAND_OVER: "#6f8290",
        Tone.INDEX_GAP: "#b05a3c",
        Tone.OWN_SHIP: "#4f8a70",
    },
)

PALETTES = {palette.name: palette for palette in (DAY, DUSK, NIGHT, PAPER)}
