"""What the picture pane has made off the GUI thread: the picture, its image and its words."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from PySide6.QtGui import QImage, QPainter

from app.paint.palette import Palette
from core.base.language import tr
from core.geodesy.position import Position
from core.plan.outcome import Outcome
from core.sheets.page import Tone
from core.words.kept_words import shown

if TYPE_CHECKING:  # compiled kernels stand behind these: the window opens before they are loaded
    from core.jobs.picture_leg import PassagePictures, PictureChoice
    from core.picture.controls import Controls
    from core.picture.echo_rows import EchoRow
    from core.picture.expected_picture import Picture
    from core.picture.pick_echo import Picked

UPS = ("course-up", "north-up", "head-up")
"""What points up, as ``core.picture`` names it."""
_MOST_NAMED = 4
_PX_PER_MM = 4.1
"""Pixels a millimetre of the drawing, as on the strip: letters and pens keep their size."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ControlValues:
    """The set-up rows as they stand; fields as in ``core.picture.controls``."""

    gain_db: float = 0.0
    mistuning_db: float = 0.0
    sea_clutter: float = 0.0
    rain_clutter: float = 0.0
    interference_rejection: bool = False
    echo_stretch: bool = False


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PictureAsk:
    """What picture is wanted."""

    outcome: Outcome
    leg_index: int
    along_m: float
    position: Position | None
    """A place off the route; None takes the cursor's."""
    radar_index: int
    scale_m: float | None
    """None takes the planned one."""
    pulse: str | None
    up: str
    size_px: int
    """Side in pixels of the screen."""
    device_ratio: float
    """Pixels of the screen a pixel of the window."""
    controls: ControlValues | None
    """None is well set."""
    colours: Palette

    def is_same_view(self, other: PictureAsk | None) -> bool:
        """Whether another asks for the same but for controls and colours."""
        if other is None:
            return False
        return (
            self.outcome is other.outcome
            and (self.leg_index, self.along_m, self.position)
            == (other.leg_index, other.along_m, other.position)
            and (self.radar_index, self.scale_m, self.pulse, self.up, self.size_px)
            == (other.radar_index, other.scale_m, other.pulse, other.up, other.size_px)
        )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MadePicture:
    """A picture ready to be shown."""

    ask: PictureAsk
    picture: Picture
    image: QImage
    caption: tuple[str, ...]
    echoes: tuple[tuple[str, str, str, str, str, str], ...]
    """Words of every predicted echo (``picture_words.row_words``): those that the set-up loses
    first, in both groups the weakest first and those without a margin last."""
    set_lines: tuple[str, ...]
    """What is set, to stand on the picture."""
    controls: ControlValues
    well: ControlValues
    pulses: tuple[str, ...]


def held_view(held: PictureAsk, now: PictureAsk) -> PictureAsk:
    """What is asked for now, of the radar, scale, pulse and controls that are held."""
    return replace(
        now,
        radar_index=held.radar_index,
        scale_m=held.scale_m,
        pulse=held.pulse,
        controls=held.controls,
    )


def differing_words(held: MadePicture, now: MadePicture) -> str:
    """Which echoes show in only one of two pictures; the one held stands above."""
    from core.words.picture_words import says_lost

    lost_then, lost_now = (
        {words[:3] for words in made.echoes if says_lost(words[5])} for made in (held, now)
    )
    both = {words[:3] for words in held.echoes} & {words[:3] for words in now.echoes}
    only_above = _named((lost_now - lost_then) & both)
    only_below = _named((lost_then - lost_now) & both)
    if not only_above and not only_below:
        return tr("Above held, below now: the same echoes paint in both.")
    parts = []
    if only_above:
        parts.append(tr("only above: {names}", names=_first_names(only_above)))
    if only_below:
        parts.append(tr("only below: {names}", names=_first_names(only_below)))
    return tr("Above held, below now; paint {differences}.", differences="; ".join(parts))


def _first_names(names: list[str]) -> str:
    said = ", ".join(names[:_MOST_NAMED])
    if len(names) <= _MOST_NAMED:
        return said
    return tr("{names} and {more_count} more", names=said, more_count=len(names) - _MOST_NAMED)


def _named(echoes: set[tuple[str, str, str]]) -> list[str]:
    return sorted(
        tr("{name} at {range}", name=name, range=range_words)
        for name, range_words, _bearing in echoes
    )


class PictureMaker:
    """Makes pictures on one worker thread, keeping what the next can use."""

    def __init__(self) -> None:
        self._pictures: PassagePictures | None = None
        self._ask: PictureAsk | None = None
        self._picture: Picture | None = None

    def make(self, ask: PictureAsk) -> MadePicture:
        """Make a picture; only the display chain where nothing but controls differ."""
        if self._pictures is None or self._pictures.outcome is not ask.outcome:
            from core.jobs.picture_leg import pictures_of

            self._pictures, self._ask = pictures_of(ask.outcome), None
        picture = self._picture if ask.is_same_view(self._ask) else None
        if picture is None:
            picture = self._viewed(self._pictures, ask)
        controls = picture.well if ask.controls is None else _controls(ask.controls)
        if picture.shown.controls != controls:
            picture = picture.under(controls)
        self._ask, self._picture = ask, picture
        return self._made(self._pictures, ask, picture)

    @staticmethod
    def _viewed(pictures: PassagePictures, ask: PictureAsk) -> Picture:
        choice = _choice(ask)
        if ask.position is None:
            return pictures.at(leg_index=ask.leg_index, along_m=ask.along_m, choice=choice)
        course_deg = pictures.outcome.plan.legs[ask.leg_index].course_deg
        return pictures.off_route(ask.position, course_deg=course_deg, choice=choice)

    @staticmethod
    def _made(pictures: PassagePictures, ask: PictureAsk, picture: Picture) -> MadePicture:
        from app.views.set_up_words import set_lines
        from core.words.picture_words import row_words

        on_route = ask.position is None
        caption = pictures.caption(
            picture, leg_index=ask.leg_index if on_route else None, along_m=ask.along_m
        )
        return MadePicture(
            ask=ask,
            picture=picture,
            image=_image(picture, ask),
            caption=caption,
            echoes=tuple(row_words(row) for row in sorted(picture.rows(), key=_weakest_first)),
            set_lines=set_lines(picture.view, picture.shown.controls, picture.well),
            controls=_values(picture.shown.controls),
            well=_values(picture.well),
            pulses=tuple(shown(pulse.name) for pulse in picture.view.budget.radar.pulses),
        )


def _weakest_first(row: EchoRow) -> tuple[bool, bool, float]:
    has_margin = row.patch.rows.size > 0 and not row.is_blind
    return not row.is_lost, not has_margin, row.margin_db


def picked_at(made: MadePicture, x_px: float, y_px: float) -> str:
    """What lies at a point of a picture, in one line."""
    from core.words.picture_words import picked_words

    picked: Picked = made.picture.pick(x_px, y_px)
    return picked_words(picked)


def picture_file(made: MadePicture, size_px: int) -> bytes:
    """The picture with key and caption as a PNG."""
    from app.paint.picture_paint import picture_png

    frame = replace(made.picture.frame, size_px=size_px)
    picture = made.picture.framed(frame, made.picture.orientation)
    return picture_png(picture, made.caption, made.ask.colours)


def _image(picture: Picture, ask: PictureAsk) -> QImage:
    from app.paint.picture_paint import paint_picture

    side_px = picture.frame.size_px
    px_per_mm = _PX_PER_MM * ask.device_ratio
    image = QImage(side_px, side_px, QImage.Format.Format_RGB32)
    image.fill(ask.colours.colour(Tone.PAPER))
    painter = QPainter(image)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.scale(px_per_mm, px_per_mm)
    paint_picture(painter, picture, ask.colours, side_mm=side_px / px_per_mm)
    painter.end()
    return image


def _choice(ask: PictureAsk) -> PictureChoice:
    from core.jobs.picture_leg import PictureChoice
    from core.picture.screen_frame import Orientation

    return PictureChoice(
        radar_index=ask.radar_index,
        scale_m=ask.scale_m,
        pulse=ask.pulse,
        orientation=Orientation(ask.up),
        size_px=ask.size_px,
    )


def _controls(values: ControlValues) -> Controls:
    from core.picture.controls import Controls

    return Controls(
        gain_db=values.gain_db,
        mistuning_db=values.mistuning_db,
        sea_clutter=values.sea_clutter,
        rain_clutter=values.rain_clutter,
        interference_rejection=values.interference_rejection,
        echo_stretch=values.echo_stretch,
    )


def _values(controls: Controls) -> ControlValues:
    return ControlValues(
        gain_db=controls.gain_db,
        mistuning_db=controls.mistuning_db,
        sea_clutter=controls.sea_clutter,
        rain_clutter=controls.rain_clutter,
        interference_rejection=controls.interference_rejection,
        echo_stretch=controls.echo_stretch,
    )
