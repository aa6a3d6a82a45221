"""The expected picture at one tune check: inks, rings, and the four echoes ringed and lettered."""

from dataclasses import dataclass

import numpy as np

from core.base.arrays import ByteArray, HoldsArrays
from core.picture.display_chain import Paint
from core.picture.picture_view import Own
from core.picture.screen_frame import ScreenFrame
from core.plan.tune_result import Rung, TuneCheck
from core.radar.echo_budget import EchoBudget
from core.sheets.page import Dash, Item, Measure, Rectangle
from core.sheets.picture_labels import RING_RATIO, RingMark, marked_picture
from core.sheets.picture_plane import PicturePlane
from core.sheets.short_names import shortened
from core.words.messages import Say

_LETTERS = {
    Rung.STRONG: Say.STRONG_SHORT,
    Rung.MEDIUM: Say.MEDIUM_SHORT,
    Rung.WEAK: Say.WEAK_SHORT,
    Rung.ABSENT: Say.NONE,
}


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CheckPicture(HoldsArrays):
    """What is expected on the screen at the tune check of a leg, the set well set up.

    screen : (N, N) uint8
        Codes of ``core.picture.display_chain.Paint``.
    own : (B,) uint8
        ``core.picture.picture_view.Own`` by true bearing.
    """

    leg_index: int
    screen: ByteArray
    frame: ScreenFrame
    radius_m: float
    heading_deg: float
    own: ByteArray
    budget: EchoBudget
    """Set, pulse and weather it is worked out for."""

    @property
    def has_shadow_sector(self) -> bool:
        """Whether own structure weakens echoes somewhere."""
        return bool(np.any(self.own == Own.SHADOW))


def is_none_beside_others(picture: CheckPicture, check: TuneCheck) -> bool:
    """Whether echoes of other things stand in the ring of the one that must not paint."""
    echo = check.echo(Rung.ABSENT)
    if echo is None:
        return False
    size_px = picture.frame.size_px
    x_px, y_px = picture.frame.to_px(echo.range_m, echo.bearing_deg)
    middles = np.arange(size_px) + 0.5
    inside = np.hypot(middles - x_px, (middles - y_px)[:, np.newaxis]) <= RING_RATIO * size_px
    return bool(np.any(picture.screen[inside] >= Paint.UNCERTAIN))


def check_picture_items(
    picture: CheckPicture, check: TuneCheck, square: Rectangle, measure: Measure
) -> tuple[Item, ...]:
    """The picture in a square, nothing outside of it."""
    plane = plane_of(picture, square)
    echoes = [(step.rung, step.echo) for step in check.rungs if step.echo is not None]
    short = shortened(echo.object_id for _rung, echo in echoes)
    marks = [
        RingMark(
            words=f"{_LETTERS[rung]}: {short[echo.object_id]}",
            range_m=echo.range_m,
            bearing_deg=echo.bearing_deg,
            dash=Dash.FINE if rung is Rung.ABSENT else Dash.SOLID,
            reference=f"tune:{echo.object_id}",
        )
        for rung, echo in echoes
    ]
    return marked_picture(
        plane,
        screen=picture.screen,
        own=picture.own,
        heading_deg=picture.heading_deg,
        marks=marks,
        measure=measure,
    )


def plane_of(picture: CheckPicture, square: Rectangle) -> PicturePlane:
    """The picture's plane on a square of paper."""
    return PicturePlane(
        picture.frame, square, scale_m=picture.frame.scale_m, radius_m=picture.radius_m
    )
